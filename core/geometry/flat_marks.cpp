#include "geometry/flat_marks.h"

#include "geometry/polygon.h"
#include "geometry/views.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace tacksquare {
namespace {

constexpr double kAir_mm = 1.5;         // round a text
constexpr double kWide = 0.7;           // of a letter, in heights: the strokes of a cutter's font
constexpr double kEdgeSearch_mm = 60.0; // a cut edge lies within its setback of the seam line
constexpr double kOnMetal_mm = 1e-3;    // a tick starts on the edge

class Marker {
 public:
  Marker(const Box& box, const BoxGeometry& geometry, const TackPlaces& tacks, const FlatPattern& pattern)
      : box_(box), geometry_(geometry), tacks_(tacks), pattern_(pattern) {}

  std::vector<FlatMark> make() {
    for (const FlatFace& flat : pattern_.faces) {
      const auto found = std::find_if(box_.faces.begin(), box_.faces.end(),
                                      [&](const Face& face) { return face.id == flat.id; });
      const auto f = static_cast<std::size_t>(found - box_.faces.begin());
      witness_marks(f, flat);
      face_letter(flat);
      for (std::size_t s = 0; s < box_.seams.size(); ++s) {
        const Seam& seam = box_.seams[s];
        const bool edges = seam.joint == JointKind::corner || seam.joint == JointKind::butt;
        if (seam.face_a == f || (edges && seam.face_b == f)) seam_marks(s, f, flat);
      }
    }
    return std::move(marks_);
  }

 private:
  bool on_flat(const FlatFace& flat, Vec2 from, Vec2 to) const {
    const auto pieces = pieces_within({flat.flat, pattern_.holes}, from, to, kOnMetal_mm);
    const double length = norm(to - from);
    const bool on_face = pieces.size() == 1 && pieces[0].second - pieces[0].first > length - kOnMetal_mm;
    return on_face && pieces_within({pattern_.outline, {}}, from, to, kOnMetal_mm).size() == 1;
  }

  // Of a closed box every face; of an open one the face across from its opening, whose inside corners no
  // stick reaches.
  bool is_measured_outside(std::size_t f) const {
    if (geometry_.closed) {
      const auto& faces = geometry_.closed->faces;
      return std::find(faces.begin(), faces.end(), f) != faces.end();
    }
    constexpr double kAcross = -0.99;
    return geometry_.opening && dot(box_.faces[f].placement.normal(), geometry_.opening->outward) < kAcross;
  }

  void witness_marks(std::size_t f, const FlatFace& flat) {
    if (!is_measured_outside(f)) return;
    const std::vector<Vec3> corners = face_corners(geometry_, f);
    if (corners.size() != 4) return; // no diagonals
    Ring ring;
    for (const Vec3 corner : corners)
      ring.push_back(flat.at(box_.faces[f].placement.local(corner)));
    const double in_mm = kWitnessIn_mm - 0.5 * pattern_.thickness_mm;
    const Vec2 x{kWitnessArm_mm, 0}, y{0, kWitnessArm_mm};
    for (const Vec2 p : edges_moved(ring, std::vector<double>(4, in_mm)))
      for (const Vec2 arm : {x, y})
        if (on_flat(flat, p - x, p + x) && on_flat(flat, p - y, p + y)) {
          marks_.push_back({"witness", flat.id, p - arm, p + arm, 0.0});
          texts_.push_back({p - x - y, p + x + y});
        }
  }

  // The biggest letter that has room, as near to the middle as it can be.
  void face_letter(const FlatFace& flat) {
    if (flat.flat.empty()) return;
    const Vec2 middle = centroid({flat.flat, {}});
    Vec2 low = middle, high = middle;
    for (const Vec2 p : flat.flat) {
      low = {std::min(low.x, p.x), std::min(low.y, p.y)};
      high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
    std::vector<Vec2> spots{middle};
    constexpr int kGrid = 12;
    for (int i = 1; i < kGrid; ++i)
      for (int j = 1; j < kGrid; ++j)
        spots.push_back({low.x + (high.x - low.x) * i / kGrid, low.y + (high.y - low.y) * j / kGrid});
    // To the micrometre, so that spots equally far stay in order.
    std::stable_sort(spots.begin(), spots.end(), [&](Vec2 a, Vec2 b) {
      return std::llround(1e3 * norm(a - middle)) < std::llround(1e3 * norm(b - middle));
    });
    place("face-letter", flat.id, flat, kFaceLetter_mm, spots);
  }

  // To the right if it has room so, else upwards, else smaller.
  void place(const std::string& kind, const std::string& text, const FlatFace& flat, double most_mm,
             const std::vector<Vec2>& spots) {
    for (double height = most_mm; height >= kSmallestText_mm; height *= 0.7)
      for (const bool upwards : {false, true})
        for (const Vec2 spot : spots) {
          const double long_mm = 0.5 * kWide * height * static_cast<double>(text.size()) + kAir_mm,
                       high_mm = 0.5 * height + kAir_mm;
          const Vec2 half = upwards ? Vec2{high_mm, long_mm} : Vec2{long_mm, high_mm};
          if (!has_room(flat, spot - half, spot + half)) continue;
          marks_.push_back({kind, text, spot, spot + (upwards ? Vec2{0, height} : Vec2{height, 0}), height});
          texts_.push_back({spot - half, spot + half});
          return;
        }
  }

  bool has_room(const FlatFace& flat, Vec2 low, Vec2 high) const {
    for (const auto& [l, h] : texts_)
      if (low.x < h.x && high.x > l.x && low.y < h.y && high.y > l.y) return false;
    const Ring area{low, {high.x, low.y}, high, {low.x, high.y}};
    if (!lies_within(area, flat.flat) || !lies_within(area, pattern_.outline)) return false;
    return std::none_of(pattern_.holes.begin(), pattern_.holes.end(),
                        [&](const Ring& hole) { return overlap(area, hole); });
  }

  // How far from p, into the face, the cut edge is.
  std::optional<double> edge_from(const FlatFace& flat, Vec2 p, Vec2 into) const {
    std::optional<double> best;
    const Ring& ring = flat.flat;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Vec2 a = ring[i] - p, b = ring[(i + 1) % ring.size()] - p;
      const double side_a = cross(into, a), side_b = cross(into, b);
      if ((side_a < 0.0) == (side_b < 0.0)) continue;
      const double at = dot(a + (b - a) * (side_a / (side_a - side_b)), into);
      if (!best || std::abs(at) < std::abs(*best)) best = at;
    }
    if (best && std::abs(*best) > kEdgeSearch_mm) return {};
    return best;
  }

  void seam_marks(std::size_t s, std::size_t f, const FlatFace& flat) {
    const Seam& seam = box_.seams[s];
    const SeamLine& line = geometry_.seams[s];
    const Placement& place_of = box_.faces[f].placement;
    const Vec3 into3 = seam.face_a == f ? line.into_a : line.into_b;
    const Vec2 start = flat.at(place_of.local(line.start)), end = flat.at(place_of.local(line.end));
    Vec2 into = flat.x * dot(into3, place_of.u) + flat.y * dot(into3, place_of.v);
    into = into * (1.0 / norm(into));
    const Vec2 along = (end - start) * (1.0 / norm(end - start));
    for (const auto& [id, at_mm] : tacks_) {
      if (id != seam.id) continue;
      const Vec2 p = start + along * at_mm;
      const auto edge = edge_from(flat, p, into);
      if (!edge) continue;
      const Vec2 from = p + into * *edge, to = from + into * kTick_mm;
      if (on_flat(flat, from, to)) marks_.push_back({"tack-tick", "", from, to, 0.0});
    }
    std::vector<Vec2> spots;
    for (const double in_mm : {18.0, 12.0, 25.0, 8.0, 6.0})
      for (const double share : {0.5, 0.35, 0.65, 0.2, 0.8}) {
        const Vec2 p = start + (end - start) * share;
        if (const auto edge = edge_from(flat, p, into)) spots.push_back(p + into * (*edge + in_mm));
      }
    place("seam-number", seam.id, flat, kSeamNumber_mm, spots);
  }

  const Box& box_;
  const BoxGeometry& geometry_;
  const TackPlaces& tacks_;
  const FlatPattern& pattern_;
  std::vector<FlatMark> marks_;
  std::vector<std::pair<Vec2, Vec2>> texts_; // what texts and crosses cover
};

} // namespace

std::vector<FlatMark> flat_marks(const Box& box, const BoxGeometry& geometry, const TackPlaces& tacks,
                                 const FlatPattern& pattern) {
  return Marker(box, geometry, tacks, pattern).make();
}

} // namespace tacksquare
