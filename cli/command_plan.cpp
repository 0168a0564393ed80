#include "cli/commands.h"
#include "cli/load_job.h"
#include "cli/progress.h"

#include "job/file/read_job.h"
#include "plan/file/fixture_of.h"
#include "plan/file/plan_file.h"
#include "plan/verify/check_plan.h"
#include "planning/planner/make_plan.h"
#include "sheet/flat_files.h"
#include "sheet/plain_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <optional>
#include <ostream>

namespace tacksquare {
namespace {

std::string write_form(const std::string& form, const Plan& plan, const Document& document, int columns) {
  if (form == "xml") return write_plan(plan, document.signature);
  return form == "html" ? write_html(document) : write_text(document, columns);
}

// Of each part as it is cut. No id holds a plus, so that no two files have one name.
std::vector<FileToWrite> blank_files(const Plan& plan, const std::string& folder) {
  std::vector<FileToWrite> files;
  for (const BoxPlan& box : plan.boxes)
    for (const FlatPattern& pattern : box.patterns) {
      const std::string path = folder + "blank-" + box.id + "+" + pattern.part;
      files.push_back({path + ".dxf", write_flat_dxf(pattern)});
      files.push_back({path + ".svg", write_flat_svg(pattern)});
    }
  return files;
}

// Of each box, to be used by other jobs.
std::vector<FileToWrite> fixture_files(const Job& job, const Plan& plan, const std::string& folder) {
  std::vector<FileToWrite> files;
  for (const BoxPlan& box : plan.boxes)
    for (const Box& stated : job.boxes)
      if (box.fixture && !box.fixture->locating.six.empty() &&
          stated.id == box.id) // else no other job can use it
        files.push_back(
            {folder + "fixture-" + box.id + ".xml", write_fixture(fixture_of(*box.fixture), stated)});
  return files;
}

// Blanks and shapes of another plan in the same folder, which ends with a slash: whoever cuts by
// "blank-*.dxf" would cut them.
void tell_stale(const std::string& folder, const std::vector<FileToWrite>& written, Console& console) {
  for (const std::string& name : console.files.names_in(folder.substr(0, folder.size() - 1))) {
    const bool blank = name.starts_with("blank-") && (name.ends_with(".dxf") || name.ends_with(".svg"));
    const bool shape = name.starts_with("shape-") && name.ends_with(".vtu");
    const bool ours = std::any_of(written.begin(), written.end(),
                                  [&](const FileToWrite& file) { return file.path == folder + name; });
    if ((blank || shape) && !ours)
      console.out << (blank ? "NOT of this plan, do not cut: " : "NOT of this plan: ") << folder
                  << cleaned(name) << "\n";
  }
}

// What the pair will want to know first, and where the sheet lies.
void tell_result(const Plan& plan, const std::string& folder, std::size_t blanks, std::size_t fixtures,
                 std::size_t shapes, Console& console) {
  for (const BoxPlan& box : plan.boxes) {
    console.out << fmt::format("{}: {} box{}, {} seam{}, {} steps, first about {:.0f} min", cleaned(box.name),
                               box.count, box.count == 1 ? "" : "es", box.seams.size(),
                               box.seams.size() == 1 ? "" : "s", box.steps.size(),
                               box.first_off_s.value / 60.0);
    if (box.count > 1)
      console.out << fmt::format(", each further one about {:.0f} min", box.repeat_s.value / 60.0);
    console.out << "\n";
    const bool red = std::any_of(box.cautions.begin(), box.cautions.end(),
                                 [](const Caution& caution) { return caution.red; });
    if (red) console.out << "  RED: see the first page\n";
  }
  console.out << fmt::format("sheet:  {0}sheet.html  (to print)\n        {0}sheet.txt\nplan:   {0}plan.xml\n",
                             folder);
  if (fixtures > 0)
    console.out << fmt::format("holds:  {}fixture-*.xml  (to build the same way again)\n", folder);
  if (blanks > 0)
    console.out << fmt::format("blanks: {}blank-*.dxf  (to cut, {} part{})  and the same as .svg\n", folder,
                               blanks, blanks == 1 ? "" : "s");
  if (shapes > 0)
    console.out << fmt::format("shapes: {}shape-*.vtu  (the welded box, for viewers)\n", folder);
}

// In debug builds every plan is checked by code that shares nothing with the planner.
void check_own_work([[maybe_unused]] const Job& job, [[maybe_unused]] const Plan& plan) {
#ifndef NDEBUG
  Diagnostics none;
  std::vector<BoxGeometry> geometry;
  for (const Box& box : job.boxes)
    geometry.push_back(resolve_geometry(job, box, none));
  const std::vector<std::string> broken = check_plan(job, geometry, plan);
  if (!broken.empty()) throw InternalError("the plan breaks its own rules: " + broken.front());
#endif
}

} // namespace

Exit plan_command(const PlanOptions& options, Console& console) {
  std::optional<LoadedJob> loaded = load_job(options.job, console, options.orders);
  if (!loaded) return Exit::bad_input;
  std::optional<Plan> plan;
  std::vector<ShapeFile> shapes;
  if (loaded->job) {
    std::optional<Progress> progress; // in a log it would be noise
    if (console.err_is_terminal) progress.emplace(console.err, "planning");
    plan = make_plan(*loaded->job, loaded->diagnostics, options.quick, options.shapes ? &shapes : nullptr);
  }
  tell(*loaded, console);
  if (!plan) return Exit::bad_input;
  check_own_work(*loaded->job, *plan);

  const Document document = make_document(*plan, options.sheet);
  if (options.folder.empty() || options.folder == "-") {
    console.out << write_form(options.form, *plan, document, console.text_columns());
  } else {
    const std::string folder = options.folder.back() == '/' ? options.folder : options.folder + "/";
    std::vector<FileToWrite> files;
    files.push_back({folder + "sheet.html", write_html(document)});
    files.push_back({folder + "sheet.txt", write_text(document, 80)});
    files.push_back({folder + "plan.xml", write_plan(*plan, document.signature)});
    std::vector<FileToWrite> fixtures = fixture_files(*loaded->job, *plan, folder);
    const std::size_t held = fixtures.size();
    std::move(fixtures.begin(), fixtures.end(), std::back_inserter(files));
    std::vector<FileToWrite> blanks = blank_files(*plan, folder);
    const std::size_t parts = blanks.size() / 2;
    std::move(blanks.begin(), blanks.end(), std::back_inserter(files));
    if (options.shapes)
      for (ShapeFile& shape : shapes)
        files.push_back({folder + "shape-" + shape.box + ".vtu", std::move(shape.vtk)});
    if (const auto fault = console.files.write_all(files)) {
      tell(*fault, console);
      return Exit::bad_input;
    }
    tell_result(*plan, folder, parts, held, options.shapes ? shapes.size() : 0, console);
    tell_stale(folder, files, console);
  }
  return more_likely_missed(*plan) ? Exit::limit_likely_missed : Exit::done;
}

} // namespace tacksquare
