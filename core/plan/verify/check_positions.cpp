// How the box lies: turned where runs need it, within reach, and each position as gravity makes it.
#include "plan/verify/checking.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace tacksquare::verify {
namespace {

const char* word_of(WeldPosition position) {
  constexpr std::array words = {"flat", "horizontal", "downhill", "uphill", "overhead"};
  return words[static_cast<std::size_t>(position)];
}

double degrees(double sine) {
  return std::asin(std::clamp(sine, -1.0, 1.0)) * 180.0 / kPi;
}

// ISO 6947 (from memory): PA within 30 deg of straight down, PD from half-way between PC and PD on; steeper
// than 45 deg is welded up or down the hill. Half a degree at a border may count either way.
std::set<std::string> positions(Vec3 along, Vec3 torch, Vec3 up) {
  constexpr double kSteep = 45.0, kFlat = 60.0, kOverhead = -22.5, kEither = 0.5;
  const double slope = degrees(dot(along, up)), torch_at = degrees(dot(torch, up));
  std::set<std::string> found;
  if (slope > kSteep - kEither) found.insert("uphill");
  if (slope < -kSteep + kEither) found.insert("downhill");
  if (std::abs(slope) > kSteep + kEither) return found;
  if (torch_at > kFlat - kEither) found.insert("flat");
  if (torch_at < kFlat + kEither && torch_at > kOverhead - kEither) found.insert("horizontal");
  if (torch_at < kOverhead + kEither) found.insert("overhead");
  return found;
}

// Which way is down: out of the face that lies on the table, or out of the open rim.
std::optional<Vec3> down_direction(const Checking& c, const std::string& down) {
  if (down == "rim") return c.geometry.opening ? std::optional(c.geometry.opening->outward) : std::nullopt;
  const std::size_t face = c.face_index(down);
  if (face == c.box.faces.size()) return std::nullopt;
  return c.box.faces[face].placement.normal();
}

std::optional<std::size_t> attitude_of(const Checking& c, const std::string& down) {
  for (std::size_t i = 0; i < c.geometry.attitudes.size(); ++i)
    if (c.geometry.attitudes[i].down == down) return i;
  return std::nullopt;
}

void check_run(const Checking& c, const PlannedRun& run, std::size_t seam_index) {
  const Seam& seam = c.box.seams[seam_index];
  const SeamLine& line = c.geometry.seams[seam_index];
  const auto down = down_direction(c, run.down);
  const auto attitude = attitude_of(c, run.down);
  if (!down || !attitude) {
    c.tell("run {}: the box does not stand with {} down", run.id, run.down);
    return;
  }
  const Vec3 forward = unit(line.end - line.start);
  std::set<std::string> right =
      positions(run.to_mm >= run.from_mm ? forward : -forward, unit(line.towards_welder), -unit(*down));
  if (run.to_mm == run.from_mm) right.merge(positions(-forward, unit(line.towards_welder), -unit(*down)));
  if (!right.count(run.position))
    c.tell("run {}: with {} down it is welded {}, not {}", run.id, run.down, *right.begin(), run.position);
  if (seam.position && !run.dab && run.position != word_of(*seam.position) && !owned_up(c, seam.id))
    c.tell("run {} is welded {}, but the job allows only {}", run.id, run.position, word_of(*seam.position));
  if (run.position == "overhead" && !run.dab && seam.position != WeldPosition::overhead &&
      !owned_up(c, seam.id))
    c.tell("run {} is welded overhead, and no red caution says so", run.id);
  if (!c.geometry.access[*attitude][seam_index].reachable && !owned_up(c, seam.id))
    c.tell("run {} cannot be reached with {} down", run.id, run.down);
}

// The face that a step lays on the table; empty when it lays none.
std::string laid_down(const Step& step) {
  if (step.what.key != "step.turn" && !step.what.key.starts_with("step.lay-down")) return {};
  const Arg* attitude = argument(step.what, "attitude");
  if (!attitude || attitude->list.empty()) return {};
  const Text& name = attitude->list.front();
  if (name.key == "attitude.face") {
    const Arg* face = argument(name, "face");
    return face ? face->word : std::string();
  }
  constexpr std::string_view prefix = "attitude.";
  return name.key.substr(0, prefix.size()) == prefix ? name.key.substr(prefix.size()) : std::string();
}

void check_turns(const Checking& c) {
  std::map<std::string, std::string> down_of;
  for (const PlannedRun& run : c.plan.runs)
    down_of[run.id] = run.down;
  std::string lies, set_up;
  int turns = 0;
  for (const Step& step : c.plan.steps) {
    const std::string laid = laid_down(step);
    if (step.what.key == "step.turn") {
      turns += step.phase == Phase::release ? 0 : 1; // back as it was set up, to be measured
      if (laid == lies) c.tell("step {} turns the box to where it lies already", step.number);
    } else if (!laid.empty() && c.box.attitude && laid != *c.box.attitude) {
      c.tell("step {} lays the box down with {} down, but the job says {}", step.number, laid,
             *c.box.attitude);
    }
    if (!laid.empty()) lies = laid;
    // A closed box is built up from its parts: it lies as its first run needs it.
    if (lies.empty() && !step.runs.empty() && down_of.count(step.runs.front()))
      lies = down_of[step.runs.front()];
    if (set_up.empty()) set_up = lies;
    if (step.phase == Phase::check && !step.checks.empty() && lies != set_up)
      c.tell("step {} measures the box as it lies with {} down; it was set up with {} down", step.number,
             lies, set_up);
    if (!laid.empty() && step.odd.key != "why.vent-down" &&
        std::any_of(c.box.vents.begin(), c.box.vents.end(),
                    [&](const Vent& vent) { return c.box.faces[vent.face].id == laid; }))
      c.tell("step {} lays the box on its vent and does not say how that stays open", step.number);
    for (const std::string& id : step.runs)
      if (const auto run = down_of.find(id); run != down_of.end() && run->second != lies)
        c.tell("step {}: run {} needs {} down, but the box lies with {} down", step.number, id, run->second,
               lies);
  }
  if (!c.plan.orders.empty() && c.plan.orders.front().turns != turns)
    c.tell("the steps turn the box {} times, the order says {}", turns, c.plan.orders.front().turns);
}

} // namespace

void check_positions(const Checking& c) {
  for (const PlannedRun& run : c.plan.runs) {
    const std::size_t seam = c.seam_index(run.seam);
    if (seam < c.box.seams.size()) check_run(c, run, seam);
  }
  check_turns(c);
}

} // namespace tacksquare::verify
