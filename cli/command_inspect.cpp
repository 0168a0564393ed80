#include "cli/commands.h"
#include "cli/load_job.h"

#include "sheet/catalogue.h"
#include "sheet/plain_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <sstream>

namespace tacksquare {
namespace {

constexpr std::string_view kKept = "\u00a0"; // a space where no line may break, printed as any other

// Prints lengths and masses in the reader's units.
class Inspection {
 public:
  Inspection(const SheetOptions& sheet, std::ostream& out)
      : words_(sheet.language), units_(sheet.units), out_(out) {}

  void box(const Job& job, const Box& box, const BoxGeometry& geometry, const Work& work) {
    out_ << fmt::format("\n{} ({}), {} wanted\n", box.name, box.id, box.count);
    out_ << fmt::format(
        "  outside {} x {} x {}, {} with all parts, centre of gravity {}, {}, {} from left, front, under\n",
        mm(geometry.high.x - geometry.low.x), mm(geometry.high.y - geometry.low.y),
        mm(geometry.high.z - geometry.low.z), kg(geometry.mass_kg),
        mm(geometry.centre_of_gravity.x - geometry.low.x), mm(geometry.centre_of_gravity.y - geometry.low.y),
        mm(geometry.centre_of_gravity.z - geometry.low.z));
    if (geometry.closed)
      out_ << fmt::format("  closed volume of {:.1f} L\n", geometry.closed->volume_mm3 / 1e6);
    parts(job, box, geometry);
    faces(box, geometry);
    bends(box, geometry);
    seams(box, geometry, work);
    attitudes(box, geometry);
    filled(work);
  }

 private:
  std::string mm(double value) const { return render(length("x", value), words_, units_); }
  bool metric() const { return units_ == UnitSystem::metric; }
  std::string unit() const { return metric() ? "mm" : "in"; }
  std::string point(const Vec3& at) const {
    const double unit_mm = metric() ? 1.0 : kMmPerInch;
    return fmt::format("({1:.{0}f}{4}{2:.{0}f}{4}{3:.{0}f})", metric() ? 1 : 3, at.x / unit_mm,
                       at.y / unit_mm, at.z / unit_mm, kKept);
  }
  std::string kg(double value) const { return render(number("x", ArgKind::mass_kg, value), words_, units_); }

  void parts(const Job& job, const Box& box, const BoxGeometry& geometry) {
    out_ << "  parts\n";
    for (std::size_t i = 0; i < box.parts.size(); ++i) {
      const Sheet& sheet = job.sheets[box.parts[i].sheet];
      const Blank& blank = geometry.blanks[i];
      out_ << fmt::format("    {:<12} {} {}{}, drawn blank {} x {}, {}\n", box.parts[i].id, sheet.metal.id,
                          sheet.thickness_said, box.parts[i].loose ? ", loose" : "", mm(blank.length_mm),
                          mm(blank.width_mm), kg(blank.mass_kg));
    }
  }

  void faces(const Box& box, const BoxGeometry& geometry) {
    out_ << fmt::format("  faces, corners on the middle surface, {}\n", unit());
    for (std::size_t i = 0; i < box.faces.size(); ++i) {
      out_ << fmt::format("    {:<6} of {:<10}", box.faces[i].id, box.parts[box.faces[i].part].id);
      for (const Vec3& corner : geometry.faces[i].ring)
        out_ << " " << point(corner);
      if (!box.faces[i].cutouts.empty()) out_ << fmt::format(", {} cut out", box.faces[i].cutouts.size());
      out_ << "\n";
    }
  }

  void bends(const Box& box, const BoxGeometry& geometry) {
    if (geometry.bends.empty()) return;
    out_ << "  bends\n";
    for (const BendLine& line : geometry.bends) {
      const Bend& bend = box.parts[line.part].bends[line.bend];
      out_ << fmt::format("    {}-{}  {} long, {:.1f} deg, inside radius {}\n", box.faces[bend.face_a].id,
                          box.faces[bend.face_b].id, mm(norm(line.end - line.start)),
                          in_deg(rad(line.angle_rad)), mm(in_mm(bend.inside_radius)));
    }
  }

  void seams(const Box& box, const BoxGeometry& geometry, const Work& work) {
    out_ << fmt::format("  seams, from 0 to end, {}\n", unit());
    for (const WorkSeam& seam : work.seams) {
      const Seam& stated = box.seams[seam.seam];
      const SeamLine& line = geometry.seams[seam.seam];
      out_ << fmt::format("    {:<5} {}-{}  {}, {} welded, settings {}, {} to {}\n", seam.id,
                          box.faces[stated.face_a].id, box.faces[stated.face_b].id, mm(seam.length_mm),
                          mm(seam.welded_mm), work.settings[seam.settings].id, point(line.start),
                          point(line.end));
    }
  }

  void attitudes(const Box& box, const BoxGeometry& geometry) {
    out_ << "  lies stable on, and reaches there\n";
    for (std::size_t i = 0; i < geometry.attitudes.size(); ++i) {
      out_ << fmt::format("    {:<5}", geometry.attitudes[i].down);
      for (std::size_t j = 0; j < box.seams.size(); ++j)
        if (geometry.access[i][j].reachable) out_ << " " << box.seams[j].id;
      out_ << "\n";
    }
  }

  template <class T> std::string origin(const Filled<T>& filled) const {
    return filled.source.mark == Mark::stated ? "stated" : filled.source.text;
  }

  // What the job left open, and where the value comes from.
  void filled(const Work& work) {
    out_ << "  settings\n";
    for (const Settings& settings : work.settings) {
      const auto line = [&](const char* what, ArgKind kind, double value, const std::string& from) {
        out_ << fmt::format("    {:<20} {:<12} {:<14} {}\n", settings.id, what,
                            render(number("x", kind, value), words_, units_), from);
      };
      if (in_mm_per_s(settings.wire_feed.value) > 0.0)
        line("wire feed", ArgKind::wire_feed_mm_s, in_mm_per_s(settings.wire_feed.value),
             origin(settings.wire_feed));
      line("volts", ArgKind::voltage_V, in_v(settings.volts.value), origin(settings.volts));
      line("amps", ArgKind::current_A, in_a(settings.amps.value), origin(settings.amps));
      line("travel", ArgKind::travel_mm_s, in_mm_per_s(settings.travel.value), origin(settings.travel));
    }
  }

  Catalogue words_;
  UnitSystem units_;
  std::ostream& out_;
};

std::string replaced(std::string_view text, std::string_view from, std::string_view to) {
  std::string result;
  for (auto at = text.find(from); at != std::string_view::npos; at = text.find(from)) {
    result.append(text.substr(0, at)).append(to);
    text.remove_prefix(at + from.size());
  }
  return result.append(text);
}

// Lines that are too long go on under themselves, four spaces further in. Columns and points stay whole.
void print_within(const std::string& text, int columns, std::ostream& out) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    line = cleaned(line);
    const auto indent = std::min(line.find_first_not_of(' '), line.size());
    if (columns_of(line) > columns) {
      std::string held(" ");
      held += kKept;
      const std::string margin(indent + 4, ' ');
      const auto parts =
          wrapped(replaced(line.substr(indent), "  ", held), columns - static_cast<int>(margin.size()));
      line.resize(indent);
      line += parts.front();
      for (std::size_t i = 1; i < parts.size(); ++i)
        line.append("\n").append(margin).append(parts[i]);
    }
    out << replaced(line, kKept, " ") << "\n";
  }
}

} // namespace

Exit inspect_command(const InspectOptions& options, Console& console) {
  std::optional<LoadedJob> loaded = load_job(options.job, console);
  if (!loaded) return Exit::bad_input;
  const Resolved made = resolve(*loaded);
  tell(*loaded, console);
  if (!loaded->job || loaded->diagnostics.has_errors()) return Exit::bad_input;
  if (options.long_form) {
    console.out << write_job(*loaded->job);
    return Exit::done;
  }
  std::ostringstream text;
  text << fmt::format("{}{}{}\n", loaded->job->name, loaded->job->number.empty() ? "" : ", ",
                      loaded->job->number);
  Inspection inspection(options.sheet, text);
  for (std::size_t i = 0; i < made.work.size(); ++i)
    inspection.box(*loaded->job, loaded->job->boxes[i], made.geometry[i], made.work[i]);
  print_within(text.str(), console.text_columns(), console.out);
  return Exit::done;
}

} // namespace tacksquare
