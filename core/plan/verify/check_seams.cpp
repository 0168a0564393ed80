// Seams as the job and the geometry have them, and the settings they are welded with.
#include "plan/verify/checking.h"
#include "tables/process.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare::verify {
namespace {

constexpr double kSame_mm = 0.01;

const char* word_of(JointKind joint) {
  constexpr std::array words = {"butt", "corner", "tee", "lap"};
  return words[static_cast<std::size_t>(joint)];
}
const char* word_of(CornerStyle corner) {
  constexpr std::array words = {"open-corner", "half-open-corner", "lapped-corner"};
  return words[static_cast<std::size_t>(corner)];
}
const char* word_of(WeldKind weld) {
  constexpr std::array words = {"square", "fillet", "vee"};
  return words[static_cast<std::size_t>(weld)];
}

void check_word(const Checking& c, const std::string& seam, const char* what, const std::string& planned,
                const std::string& stated) {
  if (planned != stated) c.tell("seam {}: {} is '{}', but the job says '{}'", seam, what, planned, stated);
}

void check_number(const Checking& c, const std::string& seam, const char* what,
                  const std::optional<double>& planned, const std::optional<double>& stated) {
  if (planned.has_value() != stated.has_value() ||
      (planned && std::abs(*planned - *stated) > 1e-6 * std::max(1.0, std::abs(*stated))))
    c.tell("seam {}: {} is not the stated one", seam, what);
}

void check_seam(const Checking& c, const PlannedSeam& planned, std::size_t index) {
  const Seam& seam = c.box.seams[index];
  const SeamLine& line = c.geometry.seams[index];
  check_word(c, seam.id, "first face", planned.face_a, c.box.faces[seam.face_a].id);
  check_word(c, seam.id, "second face", planned.face_b, c.box.faces[seam.face_b].id);
  check_word(c, seam.id, "joint", planned.joint, word_of(seam.joint));
  check_word(c, seam.id, "corner", planned.corner,
             seam.joint == JointKind::corner ? word_of(seam.corner) : "");
  check_word(c, seam.id, "weld", planned.weld, word_of(seam.weld));
  check_word(c, seam.id, "side", planned.side, seam.side == WeldSide::inside ? "inside" : "outside");
  check_word(c, seam.id, "finish", planned.finish, seam.finish == Finish::flush ? "flush" : "left");
  const auto stitch = [&](Length Stitch::*part) -> std::optional<double> {
    if (!seam.stitch) return std::nullopt;
    return in_mm((*seam.stitch).*part);
  };
  check_number(c, seam.id, "leg", planned.leg_mm, seam.leg ? std::optional(in_mm(*seam.leg)) : std::nullopt);
  check_number(c, seam.id, "groove", planned.groove_deg,
               seam.groove ? std::optional(in_deg(*seam.groove)) : std::nullopt);
  check_number(c, seam.id, "stitch length", planned.stitch_length_mm, stitch(&Stitch::length));
  check_number(c, seam.id, "stitch pitch", planned.stitch_pitch_mm, stitch(&Stitch::pitch));
  const double length = norm(line.end - line.start);
  if (norm(planned.start - line.start) > kSame_mm || norm(planned.end - line.end) > kSame_mm)
    c.tell("seam {}: its ends are not where the faces meet", seam.id);
  if (std::abs(planned.length_mm - length) > kSame_mm)
    c.tell("seam {}: is {:.1f} mm long, planned are {:.1f}", seam.id, length, planned.length_mm);
}

const SettingsBlock* block_of(const Checking& c, const std::string& id) {
  for (const SettingsBlock& block : c.plan.settings)
    if (block.id == id) return &block;
  return nullptr;
}

std::optional<double> setting(const SettingsBlock& block, std::string_view key, std::string_view name) {
  for (const Text& line : block.lines)
    if (line.key == key)
      if (const Arg* arg = argument(line, name)) return arg->number;
  return std::nullopt;
}

void check_stated(const Checking& c, const std::string& seam, const char* what,
                  const std::optional<double>& planned, const std::optional<double>& stated) {
  if (!stated) return;
  if (!planned || std::abs(*planned - *stated) > 1e-6 * std::abs(*stated))
    c.tell("seam {}: {} is not what the procedure states", seam, what);
}

void check_against_procedure(const Checking& c, const PlannedSeam& planned, const SettingsBlock& block,
                             const Procedure& p) {
  const auto value = [](const auto& quantity) {
    return quantity ? std::optional<double>(quantity->stored()) : std::nullopt;
  };
  check_stated(c, planned.id, "the voltage", setting(block, "setting.volts-amps", "volts"), value(p.volts));
  check_stated(c, planned.id, "the current", setting(block, "setting.volts-amps", "amps"), value(p.amps));
  check_stated(c, planned.id, "the wire feed", setting(block, "setting.feed", "feed"), value(p.wire_feed));
  check_stated(c, planned.id, "the wire diameter", setting(block, "setting.wire", "diameter"),
               value(p.wire_diameter));
  check_stated(c, planned.id, "the gas flow", setting(block, "setting.gas", "flow"), value(p.gas_flow));
  check_stated(c, planned.id, "the travel", travel_mm_s(c, planned), value(p.travel));
}

} // namespace

std::optional<double> travel_mm_s(const Checking& c, const PlannedSeam& seam) {
  const SettingsBlock* block = block_of(c, seam.settings);
  if (!block) return std::nullopt;
  const auto length = setting(*block, "setting.travel", "length"),
             time = setting(*block, "setting.travel", "time");
  if (!length || !time || !(*time > 0.0)) return std::nullopt;
  return *length / *time;
}

void check_seams(const Checking& c) {
  std::vector<int> planned(c.box.seams.size(), 0);
  for (const PlannedSeam& seam : c.plan.seams) {
    const std::size_t index = c.seam_index(seam.id);
    if (index == c.box.seams.size()) {
      c.tell("seam {} is planned, but the job does not state it", seam.id);
      continue;
    }
    ++planned[index];
    check_seam(c, seam, index);
  }
  for (std::size_t i = 0; i < planned.size(); ++i)
    if (planned[i] != 1)
      c.tell("seam {} is {}", c.box.seams[i].id, planned[i] == 0 ? "not planned" : "planned twice");
}

void check_settings(const Checking& c) {
  double wire_g = 0.0, gas_l = 0.0;
  for (const PlannedSeam& seam : c.plan.seams) {
    wire_g += seam.wire_g.value;
    gas_l += seam.gas_l.value;
    const std::size_t index = c.seam_index(seam.id);
    if (index == c.box.seams.size()) continue;
    const SettingsBlock* block = block_of(c, seam.settings);
    if (!block) {
      c.tell("seam {}: its settings '{}' stand nowhere", seam.id, seam.settings);
      continue;
    }
    const auto volts = setting(*block, "setting.volts-amps", "volts"),
               amps = setting(*block, "setting.volts-amps", "amps"), travel = travel_mm_s(c, seam);
    const std::optional<Process> process = parse_process(block->process);
    if (!volts || !amps || !travel || !process) {
      c.tell("settings {} lack process, volts, amps or travel", block->id);
      continue;
    }
    const std::optional<std::size_t> stated = c.box.seams[index].procedure;
    double k = arc_efficiency(*process).value;
    if (stated) {
      const Procedure& procedure = c.job.procedures[*stated];
      k = procedure.efficiency.value_or(k);
      check_against_procedure(c, seam, *block, procedure);
    }
    const double heat_J_mm = k * *volts * *amps / *travel; // EN 1011-1
    if (std::abs(seam.heat_J_mm.value - heat_J_mm) > 0.02 * heat_J_mm)
      c.tell("seam {}: {:.0f} J/mm of heat is planned, its settings give {:.0f}", seam.id,
             seam.heat_J_mm.value, heat_J_mm);
  }
  if (std::abs(wire_g - c.plan.wire_g.value) > 1e-6 * std::max(1.0, wire_g))
    c.tell("the wire of the seams adds up to {:.1f} g, not to {:.1f}", wire_g, c.plan.wire_g.value);
  if (std::abs(gas_l - c.plan.gas_l.value) > 1e-6 * std::max(1.0, gas_l))
    c.tell("the gas of the seams adds up to {:.1f} l, not to {:.1f}", gas_l, c.plan.gas_l.value);
}

} // namespace tacksquare::verify
