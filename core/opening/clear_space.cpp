#include "opening/row_fit.h"

#include "formulas/squareness.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare {

namespace {

using Names = std::array<const char*, 3>;

constexpr Names kWidthLines = {"top", "middle", "under"}, kOtherLines = {"left", "middle", "right"};
constexpr Names kFrontToBack = {"front", "middle", "back"}, kTopToUnder = {"top", "middle", "under"};

// "top-front"; of a line with one reading the line alone.
std::string place_of(const char* line, const Names& along, std::size_t index, std::size_t count) {
  if (count == 1) return line;
  const std::size_t at = index == 0 ? 0 : index + 1 == count ? 2 : 1;
  return std::string(line) + "-" + along[at];
}

std::optional<ClearSize> narrowest(const NineReadings& readings, const Names& lines, const Names& along) {
  std::optional<ClearSize> least;
  for (std::size_t line = 0; line < readings.size(); ++line)
    for (std::size_t i = 0; i < readings[line].size(); ++i) {
      const double mm = in_mm(readings[line][i]);
      if (least && mm >= least->narrowest_mm) continue;
      least.emplace();
      least->mm = least->narrowest_mm = mm;
      least->at = place_of(lines[line], along, i, readings[line].size());
    }
  return least;
}

double largest_mm(const NineReadings& readings) {
  double most = 0.0;
  for (const std::vector<Length>& line : readings)
    for (const Length l : line)
      most = std::max(most, in_mm(l));
  return most;
}

// The farthest that stands in from one side, up to a height.
void add_obstacles(const HardOpening& opening, OpeningSide side, double up_to_mm, ClearSize& size) {
  const Obstacle* most = nullptr;
  for (const Obstacle& o : opening.obstacles) {
    const bool upright = side == OpeningSide::left || side == OpeningSide::right || side == OpeningSide::back;
    if (o.side != side || (upright && o.from && in_mm(*o.from) >= up_to_mm)) continue;
    if (!most || o.proud > most->proud) most = &o;
  }
  if (!most || most->proud <= mm(0.0)) return;
  size.lost_to_obstacles_mm += in_mm(most->proud);
  size.obstacles.push_back(most->name);
}

// Widths by height over the floor: straight between the lines that were read, the nearest line beyond them.
class WidthsByHeight {
 public:
  WidthsByHeight(const NineReadings& widths, double tall_mm) {
    const std::array<double, 3> at = {tall_mm, 0.5 * tall_mm, 0.0};
    for (std::size_t line = 3; line-- > 0;)
      if (!widths[line].empty())
        lines_.emplace_back(at[line], in_mm(*std::min_element(widths[line].begin(), widths[line].end())));
  }
  double at(double z_mm) const {
    if (z_mm <= lines_.front().first) return lines_.front().second;
    for (std::size_t i = 1; i < lines_.size(); ++i) {
      const auto& [low, from] = lines_[i - 1];
      const auto& [high, to] = lines_[i];
      if (z_mm <= high) return from + (to - from) * (z_mm - low) / (high - low);
    }
    return lines_.back().second;
  }

 private:
  std::vector<std::pair<double, double>> lines_; // upwards
};

// Room between two uprights on the floor when one side leans by this (to the right positive) and the other
// lies the width off it.
double between_uprights(const WidthsByHeight& widths, double lean, bool left_is_known, double hole_mm,
                        double box_mm) {
  double left = -1e300, right = 1e300;
  for (const double z : {0.0, 0.5 * hole_mm, hole_mm, box_mm}) {
    if (z > box_mm) continue;
    const double known = lean * z, other = left_is_known ? known + widths.at(z) : known - widths.at(z);
    left = std::max(left, left_is_known ? known : other);
    right = std::min(right, left_is_known ? other : known);
  }
  return right - left;
}

double lost_to_plumb(const HardOpening& opening, double narrowest_mm, double tallest_mm) {
  const double stated = largest_mm(opening.heights);
  const double hole = stated > 0.0 ? stated : tallest_mm > 0.0 ? tallest_mm : 1.0;
  const double box = tallest_mm > 0.0 ? std::min(tallest_mm, hole) : hole;
  const double slope = opening.floor_rise && (stated > 0.0 || tallest_mm > 0.0)
                           ? in_mm(*opening.floor_rise) / narrowest_mm
                           : 0.0;
  const WidthsByHeight widths(opening.widths, hole);
  double room = narrowest_mm;
  const auto side = [&](double lean, bool left) {
    room = std::min(room, between_uprights(widths, lean, left, hole, box));
  };
  if (opening.plumb_left) side(in_mm(*opening.plumb_left) / hole + slope, true);
  if (opening.plumb_right) side(-in_mm(*opening.plumb_right) / hole + slope, false);
  if (opening.diagonal_up_right && opening.diagonal_up_left) {
    const double off = in_mm(*opening.diagonal_up_right) - in_mm(*opening.diagonal_up_left);
    const double lean = formulas::angle_from_difference_rad(narrowest_mm, hole, off).value;
    side(lean, true);
    side(lean, false);
  } else if (opening.floor_rise && !opening.plumb_left && !opening.plumb_right) {
    side(slope, true);
    side(slope, false);
  }
  return narrowest_mm - room;
}

void settle(ClearSize& size) {
  size.mm = size.narrowest_mm - size.lost_to_plumb_mm - size.lost_to_obstacles_mm;
}

} // namespace

ClearSpace clear_space(const HardOpening& opening, double tallest_mm) {
  const std::optional<ClearSize> width = narrowest(opening.widths, kWidthLines, kFrontToBack);
  if (!width) throw InternalError("clear_space: an opening without a width");
  ClearSpace clear{*width, narrowest(opening.heights, kOtherLines, kFrontToBack),
                   narrowest(opening.depths, kOtherLines, kTopToUnder)};
  const double up_to = tallest_mm > 0.0 ? tallest_mm : 1e300;
  clear.width.lost_to_plumb_mm = lost_to_plumb(opening, clear.width.narrowest_mm, tallest_mm);
  add_obstacles(opening, OpeningSide::left, up_to, clear.width);
  add_obstacles(opening, OpeningSide::right, up_to, clear.width);
  settle(clear.width);
  if (clear.height) {
    add_obstacles(opening, OpeningSide::floor, up_to, *clear.height);
    add_obstacles(opening, OpeningSide::top, up_to, *clear.height);
    settle(*clear.height);
  }
  if (clear.depth) {
    add_obstacles(opening, OpeningSide::back, up_to, *clear.depth);
    settle(*clear.depth);
  }
  return clear;
}

} // namespace tacksquare
