#include "geometry/flat_pattern.h"
#include "geometry/polygon.h"
#include "job/forms.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

constexpr double kRound_mm = 1e-6;

Vec2 low_of(const std::vector<Vec2>& ring) {
  Vec2 low = ring.front();
  for (const Vec2 p : ring)
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
  return low;
}

Vec2 size_of(const std::vector<Vec2>& ring) {
  Vec2 high = ring.front();
  for (const Vec2 p : ring)
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  return high - low_of(ring);
}

void add_bends(const FlatPattern& pattern, std::vector<FlatDimension>& all) {
  for (const FlatBend& bend : pattern.bends) {
    const std::string of = bend.face_a + "-" + bend.face_b;
    const Vec2 d = bend.end - bend.start;
    const double slack = 1e-6 * norm(d);
    // A line across is found from below, one up from the left, a sloping one by both ends.
    if (std::abs(d.y) > slack) all.push_back({"bend-from-left", of, bend.start.x});
    if (std::abs(d.x) > slack) all.push_back({"bend-from-lower", of, bend.start.y});
    if (std::abs(d.x) > slack && std::abs(d.y) > slack) {
      all.push_back({"bend-from-left", of, bend.end.x});
      all.push_back({"bend-from-lower", of, bend.end.y});
    }
    all.push_back({"bend-zone", of, bend.flat_mm});
    all.push_back({"bend-deduction", of, bend.deduction_mm});
  }
}

void add_holes(const FlatPattern& pattern, std::vector<FlatDimension>& all) {
  for (std::size_t i = 0; i < pattern.holes.size(); ++i) {
    const std::string of = std::to_string(i + 1);
    const auto circle = circle_of(pattern.holes[i]);
    const Vec2 at = circle ? circle->first : low_of(pattern.holes[i]), size = size_of(pattern.holes[i]);
    if (circle) {
      all.push_back({"hole-diameter", of, circle->second});
    } else {
      all.push_back({"hole-along-x", of, size.x});
      all.push_back({"hole-along-y", of, size.y});
    }
    all.push_back({"hole-from-left", of, at.x});
    all.push_back({"hole-from-lower", of, at.y});
  }
}

// The marks of a face come in pairs, a line each way, round its corners.
void add_witness(const FlatPattern& pattern, std::vector<FlatDimension>& all) {
  for (const FlatFace& face : pattern.faces) {
    std::vector<Vec2> corners;
    bool first = true;
    for (const FlatMark& mark : pattern.marks) {
      if (mark.kind != "witness" || mark.text != face.id) continue;
      if (first) corners.push_back((mark.from + mark.to) * 0.5);
      first = !first;
    }
    if (corners.size() != 4) continue;
    all.push_back({"witness-diagonal", face.id, norm(corners[2] - corners[0])});
    all.push_back({"witness-diagonal", face.id, norm(corners[3] - corners[1])});
  }
}

} // namespace

std::vector<FlatDimension> flat_dimensions(const FlatPattern& pattern) {
  std::vector<FlatDimension> all{{"length", "", pattern.length_mm}, {"width", "", pattern.width_mm}};
  for (const FlatFace& face : pattern.faces) {
    if (face.flat.empty()) continue;
    const Vec2 size = size_of(face.flat);
    all.push_back({"face-along-x", face.id, size.x});
    all.push_back({"face-along-y", face.id, size.y});
  }
  add_bends(pattern, all);
  for (std::size_t i = 0; i < pattern.reliefs.size(); ++i) {
    all.push_back({"relief-width", std::to_string(i + 1), pattern.reliefs[i].width_mm});
    all.push_back({"relief-depth", std::to_string(i + 1), pattern.reliefs[i].depth_mm});
  }
  add_holes(pattern, all);
  add_witness(pattern, all);
  return all;
}

std::optional<std::pair<Vec2, double>> circle_of(const std::vector<Vec2>& hole) {
  const std::size_t corners = round_hole({}, mm(1)).size();
  if (hole.size() != corners) return {};
  Vec2 middle;
  for (const Vec2 p : hole)
    middle = middle + p * (1.0 / static_cast<double>(corners));
  const double radius = norm(hole.front() - middle), side = norm(hole[1] - hole[0]);
  for (std::size_t i = 0; i < corners; ++i)
    if (std::abs(norm(hole[i] - middle) - radius) > kRound_mm * radius ||
        std::abs(norm(hole[(i + 1) % corners] - hole[i]) - side) > kRound_mm * radius)
      return {};
  return std::pair{middle,
                   2.0 * std::sqrt(std::abs(signed_area(hole)) / kPi)}; // as round_hole keeps the area
}

} // namespace tacksquare
