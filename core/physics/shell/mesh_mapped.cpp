#include "physics/shell/grading.h"
#include "physics/shell/mesh_parts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace tacksquare::shell {
namespace {

constexpr double kLeastSine = 0.5;       // of a corner's angle
constexpr double kLeastSideRatio = 0.25; // of opposite sides
constexpr double kThinnest_mm = 0.5;
// Halves are rounded up in spite of noise, so that a turned plate has the same net.
constexpr double kRounding = 1e-9;

// Places s, t from 0 to 1: s from side d-a to side b-c, t from side a-b to side d-c. Lines of one s, and of
// one t, are straight.
struct Net {
  Vec2 a, b, c, d;
  Vec2 at(double s, double t) const {
    return a * ((1 - s) * (1 - t)) + b * (s * (1 - t)) + c * (s * t) + d * ((1 - s) * t);
  }
  // s and t change places.
  Net turned() const { return {a, d, c, b}; }
  // Where on the net a point of the plate lies: s and t, each 0..1.
  Vec2 place(Vec2 p) const {
    constexpr int kSteps = 30; // Newton's
    Vec2 x{0.5, 0.5};
    for (int i = 0; i < kSteps; ++i) {
      const Vec2 off = p - at(x.x, x.y), ds = (b - a) * (1 - x.y) + (c - d) * x.y,
                 dt = (d - a) * (1 - x.x) + (c - b) * x.x;
      const double det = cross(ds, dt);
      x = x + Vec2{cross(off, dt), cross(ds, off)} * (1.0 / det);
      x = {std::clamp(x.x, 0.0, 1.0), std::clamp(x.y, 0.0, 1.0)};
    }
    return x;
  }
};

struct Pin { // a point that must be a node
  Vec2 point;
  double s = 0.0, t = 0.0;
};

struct Marks { // places that grid lines must have
  std::vector<double> s{0.0, 1.0}, t{0.0, 1.0};
  std::vector<Pin> pins;
};

double distance_to_line(Vec2 p, Vec2 a, Vec2 b) {
  return std::abs(cross(b - a, p - a)) / norm(b - a);
}

bool straight_on(Vec2 before, Vec2 at, Vec2 after) {
  return dot(at - before, after - at) > 0.0 && distance_to_line(at, before, after) <= kOne_mm;
}

std::optional<Net> net_of(const std::vector<Vec2>& outline) {
  std::vector<Vec2> corners;
  const std::size_t n = outline.size();
  for (std::size_t i = 0; i < n; ++i)
    if (!straight_on(outline[(i + n - 1) % n], outline[i], outline[(i + 1) % n]))
      corners.push_back(outline[i]);
  if (corners.size() != 4) return std::nullopt;
  for (std::size_t i = 0; i < 4; ++i) {
    const Vec2 in = corners[(i + 1) % 4] - corners[i], out = corners[(i + 2) % 4] - corners[(i + 1) % 4];
    if (!(cross(in, out) >= (kLeastSine - kRounding) * norm(in) * norm(out))) return std::nullopt;
    const double side = norm(in), opposite = norm(corners[(i + 3) % 4] - corners[(i + 2) % 4]);
    if (side < (kLeastSideRatio - kRounding) * opposite) return std::nullopt;
  }
  return Net{corners[0], corners[1], corners[2], corners[3]};
}

// Where the line through p and q meets the side from a to b, as a part of the side.
std::optional<double> meets(Vec2 p, Vec2 q, Vec2 a, Vec2 b) {
  const double across = cross(b - a, q - p);
  if (std::abs(across) <= kRounding * norm(b - a) * norm(q - p)) return std::nullopt;
  return cross(p - a, q - p) / across;
}

double in_range(double part, double length_mm) {
  if (std::abs(part) * length_mm <= kOne_mm) return 0.0;
  if (std::abs(1.0 - part) * length_mm <= kOne_mm) return 1.0;
  return part;
}

// The ends of a line of one s.
std::optional<std::array<Pin, 2>> line_of_one_s(const Net& net, Vec2 p, Vec2 q) {
  const auto low = meets(p, q, net.a, net.b), high = meets(p, q, net.d, net.c);
  if (!low || !high) return std::nullopt;
  const double s = in_range(0.5 * (*low + *high), norm(net.b - net.a));
  if (!(s >= 0.0 && s <= 1.0)) return std::nullopt;
  const Vec2 foot = net.at(s, 0.0), top = net.at(s, 1.0);
  std::array<Pin, 2> ends;
  for (std::size_t i = 0; i < 2; ++i) {
    const Vec2 end = i == 0 ? p : q;
    if (distance_to_line(end, foot, top) > kOne_mm) return std::nullopt;
    const double t = dot(end - foot, top - foot) / dot(top - foot, top - foot);
    ends[i] = {end, s, in_range(t, norm(top - foot))};
    if (!(ends[i].t >= 0.0 && ends[i].t <= 1.0)) return std::nullopt;
  }
  return ends;
}

// Nothing when a line does not run along the net.
std::optional<Marks> marks_of(const Net& net, const PlateShape& shape) {
  Marks marks;
  auto lines = shape.lines;
  // Straight corners lie on lines, too: their sides.
  const std::size_t n = shape.outline.size();
  for (std::size_t i = 0; i < n; ++i)
    lines.push_back({shape.outline[i], shape.outline[(i + 1) % n]});
  for (const auto& [p, q] : lines) {
    if (norm(q - p) <= kOne_mm) return std::nullopt;
    auto ends = line_of_one_s(net, p, q);
    if (!ends) {
      ends = line_of_one_s(net.turned(), p, q);
      if (!ends) return std::nullopt;
      for (Pin& end : *ends)
        std::swap(end.s, end.t);
    }
    for (const Pin& end : *ends) {
      marks.s.push_back(end.s);
      marks.t.push_back(end.t);
      marks.pins.push_back(end);
    }
  }
  return marks;
}

// Sizes along a side; fine: places and what they ask for.
SizeAlong sizes(const std::vector<std::pair<double, double>>& fine, double length_mm, double size_mm) {
  SizeAlong made{{}, size_mm};
  for (const auto& [at, size] : fine)
    made.least_mm = std::min(made.least_mm, size);
  made.at = [=](double at_mm) {
    double least = size_mm;
    for (const auto& [at, size] : fine)
      least = std::min(least, grown_mm(size, std::abs(at_mm - at * length_mm)));
    return least;
  };
  return made;
}

// Grid lines over a side: an even number of pieces of about the size, each mark a grid line, and the middle,
// too, when no mark is near it. Empty when marks are too near to each other.
std::vector<double> graded(std::vector<double> marks, const std::vector<std::pair<double, double>>& fine,
                           double length_mm, double size_mm) {
  const SizeAlong size = sizes(fine, length_mm, size_mm);
  std::sort(marks.begin(), marks.end());
  std::vector<double> fixed{0.0};
  for (const double mark : marks) {
    const double gap_mm = (mark - fixed.back()) * length_mm;
    if (gap_mm <= kOne_mm) continue;
    if (gap_mm < kThinnest_mm - kOne_mm) return {};
    fixed.push_back(mark);
  }
  const auto middle = std::lower_bound(fixed.begin(), fixed.end(), 0.5);
  const bool alone = std::none_of(fixed.begin() + 1, fixed.end() - 1, [&](double mark) {
    return std::abs(mark - 0.5) * length_mm < (0.5 - kRounding) * size_mm;
  });
  if (alone) fixed.insert(middle, 0.5);

  const std::size_t spans = fixed.size() - 1;
  std::vector<std::size_t> pieces(spans);
  std::vector<double> wanted(spans);
  std::size_t total = 0, widest = 0;
  const auto too_wide = [&](std::size_t i) { return wanted[i] / static_cast<double>(pieces[i]); };
  for (std::size_t i = 0; i < spans; ++i) {
    wanted[i] = pieces_along(size, fixed[i] * length_mm, fixed[i + 1] * length_mm);
    pieces[i] = std::max<std::size_t>(1, static_cast<std::size_t>(wanted[i] + 0.5 + kRounding));
    total += pieces[i];
    if (too_wide(i) > too_wide(widest) * (1.0 + kRounding)) widest = i;
  }
  if (total % 2 == 1) ++pieces[widest];

  std::vector<double> places;
  for (std::size_t i = 0; i < spans; ++i) {
    const auto cuts = cuts_along(size, fixed[i] * length_mm, fixed[i + 1] * length_mm, pieces[i]);
    places.push_back(fixed[i]);
    for (std::size_t k = 1; k + 1 < cuts.size(); ++k)
      places.push_back(cuts[k] / length_mm);
  }
  places.push_back(1.0);
  return places;
}

std::size_t nearest(const std::vector<double>& places, double place) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < places.size(); ++i)
    if (std::abs(places[i] - place) < std::abs(places[best] - place)) best = i;
  return best;
}

} // namespace

std::optional<PlateMesh> mapped_mesh(const PlateShape& shape, double size_mm) {
  if (!shape.cutouts.empty()) return std::nullopt;
  const auto net = net_of(shape.outline);
  if (!net) return std::nullopt;
  const auto marks = marks_of(*net, shape);
  if (!marks) return std::nullopt;
  std::vector<std::pair<double, double>> fine_s, fine_t;
  for (const FinePlace& fine : shape.fine) {
    const Vec2 place = net->place(fine.at);
    fine_s.emplace_back(place.x, fine.size_mm);
    fine_t.emplace_back(place.y, fine.size_mm);
  }
  const auto s = graded(marks->s, fine_s, std::max(norm(net->b - net->a), norm(net->c - net->d)), size_mm);
  const auto t = graded(marks->t, fine_t, std::max(norm(net->d - net->a), norm(net->c - net->b)), size_mm);
  if (s.empty() || t.empty()) return std::nullopt;

  PlateMesh mesh;
  for (const double row : t)
    for (const double column : s)
      mesh.nodes.push_back(net->at(column, row));
  const std::size_t across = s.size();
  for (const Pin& pin : marks->pins)
    mesh.nodes[nearest(t, pin.t) * across + nearest(s, pin.s)] = pin.point;
  for (std::size_t j = 0; j + 1 < t.size(); ++j)
    for (std::size_t i = 0; i + 1 < across; ++i) {
      const std::size_t low = j * across + i, high = low + across;
      mesh.cells.push_back({{low, low + 1, high + 1, high}, 4});
    }
  return mesh;
}

} // namespace tacksquare::shell
