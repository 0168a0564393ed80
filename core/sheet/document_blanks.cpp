// Which blank of a check is which.
#include "sheet/compose.h"
#include "sheet/share.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace {

// Two opposite sides are told apart by what they make: the width, the depth or the height.
std::string label_of_sides(const Composer& compose, const PlannedMeasure& measure) {
  if (measure.kind != "opposite-sides" || measure.points.size() < 2) return {};
  const Vec3 side = measure.points[1] - measure.points[0];
  const double x = std::abs(side.x), y = std::abs(side.y), z = std::abs(side.z);
  return compose.word(x >= y && x >= z ? "blank.widths" : y >= z ? "blank.depths" : "blank.heights");
}

const PlannedMeasure* find_measure(const BoxPlan& box, const std::string& id) {
  const auto found = std::find_if(box.measures.begin(), box.measures.end(),
                                  [&](const PlannedMeasure& measure) { return measure.id == id; });
  return found == box.measures.end() ? nullptr : &*found;
}

// At the three places of a seam the step says in which order they are read.
bool on_seam(const BoxPlan& box, const std::string& head) {
  return std::any_of(box.seams.begin(), box.seams.end(),
                     [&](const PlannedSeam& seam) { return seam.id == head; });
}

} // namespace

std::vector<DocumentBlanks> blanks(const Composer& compose, const BoxPlan& box, const Check& check,
                                   bool named) {
  const auto readings = static_cast<std::size_t>(std::max(check.readings, 0));
  std::vector<DocumentBlanks> out;
  std::vector<std::string> heads;
  for (const std::string& id : check.measures) {
    const PlannedMeasure* measure = find_measure(box, id);
    if (!measure || !named || check.measures.size() != readings) {
      out.clear();
      break;
    }
    PlaceName at = place_name(box, measure->where);
    const auto found = std::find(heads.begin(), heads.end(), at.head);
    const auto index = static_cast<std::size_t>(found - heads.begin());
    if (found == heads.end()) {
      out.push_back({compose.term(on_seam(box, at.head) ? "" : "place.", at.head), {}});
      heads.push_back(at.head);
    }
    const bool told = on_seam(box, at.head) || at.tail.empty();
    out[index].each.push_back(told ? label_of_sides(compose, *measure) : compose.term("place.", at.tail));
  }
  if (out.empty() && readings > 0) out.push_back({{}, std::vector<std::string>(readings)});
  for (DocumentBlanks& group : out)
    if (std::any_of(group.each.begin(), group.each.end(), [](const auto& label) { return !label.empty(); }))
      group.place = compose.line("blank.at", {word("place", group.place)});
  return out;
}

} // namespace tacksquare
