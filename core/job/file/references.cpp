// What elements refer to by id, and what is judged by it at once.
#include "base/numbers.h"
#include "job/file/ranges.h"
#include "job/file/read_parts.h"

#include <algorithm>

namespace tacksquare {

namespace {

// A radius is as good as the least one when it misses it by no more than sheet differs in thickness.
constexpr double kRadiusSlack = 0.05;

void check_bend_radius(const Element& e, Length radius, const Sheet& sheet) {
  const Length least = sheet.thickness * sheet.metal.min_bend_ratio;
  if (radius >= least * (1.0 - kRadiusSlack)) return;
  e.out().error("bend-tight", e.where("inside-radius"),
                "an inside radius of " + written(radius) + " can crack " + sheet.metal.name + ", " +
                    fixed(in_mm(sheet.thickness), 2) + " mm thick",
                "at least " + shortest(round_to(in_mm(least), 0.01)) +
                    " mm, or a <metal> of your own with the least-bend-ratio that a trial bend has shown");
}

} // namespace

std::optional<std::size_t> read_sheet_ref(Element& e, const Known& known, const Job& job) {
  if (e.has("sheet")) {
    const auto said = e.text("sheet");
    if (!said) return {};
    return known.sheets.find(Word{*said, e.where("sheet")}, e.out());
  }
  if (job.sheets.size() == 1) return 0;
  if (job.sheets.empty()) return {}; // reported once for the job
  e.out().error("attribute-missing", e.where(), e.tag() + " does not say of which \"sheet\" it is",
                suggestion("", known.sheets.all()));
  return {};
}

std::optional<std::size_t> read_box_ref(Element& e, const Known& known, const Job& job) {
  if (e.has("box")) {
    const auto said = e.text("box");
    if (!said) return {};
    const auto box = known.boxes.find(Word{*said, e.where("box")}, e.out());
    return box && *box < job.boxes.size() ? box : std::nullopt;
  }
  if (job.boxes.size() == 1) return 0;
  if (!job.boxes.empty()) {
    e.out().error("attribute-missing", e.where(), e.tag() + " does not say of which \"box\" it is",
                  suggestion("", known.boxes.all()));
  }
  return {};
}

std::optional<int> read_copy(Element& e, std::optional<std::size_t> box, const Known& known, const Job& job) {
  const int copy = e.count("copy", ranges::count).value_or(e.has("copy") ? 0 : 1);
  if (copy == 0) return {};
  if (!box || known.sure_counts.count(*box) == 0 || copy <= job.boxes[*box].count) return copy;
  const Box& of = job.boxes[*box];
  e.out().error("copy-beyond", e.where("copy"),
                "there is no copy " + std::to_string(copy) + " of box " + quoted(of.id) + ": its count is " +
                    std::to_string(of.count),
                "a copy from 1 on up to the count, or a higher count", Note{"the box", of.where});
  return {};
}

void check_bend_radii(const Element& box_element, const Job& job, const Box& box) {
  std::vector<Element> stating = box_element.children("open-box");
  for (const Element& flange : box_element.children("flange"))
    stating.push_back(flange);
  for (const Element& part : box_element.children("part"))
    for (const Element& bend : part.children("bend"))
      stating.push_back(bend);
  for (const Element& e : stating) {
    for (const Part& part : box.parts) {
      const auto bend = std::find_if(part.bends.begin(), part.bends.end(),
                                     [&](const Bend& b) { return b.where == e.where(); });
      if (bend != part.bends.end()) check_bend_radius(e, bend->inside_radius, job.sheets[part.sheet]);
    }
  }
}

} // namespace tacksquare
