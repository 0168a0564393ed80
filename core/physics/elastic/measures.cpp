#include "physics/elastic/measures.h"

#include "base/diagnostic.h"

#include <algorithm>

namespace tacksquare::elastic {

namespace {

Vec3 normal_of(const std::vector<Vec3>& ring) {
  Vec3 n;
  for (std::size_t i = 0; i < ring.size(); ++i)
    n = n + cross(ring[i], ring[(i + 1) % ring.size()]);
  return unit(n);
}

Vec3 outward(const Box& box, const std::string& face) {
  for (const Face& f : box.faces)
    if (f.id == face) return f.placement.normal();
  throw InternalError("a measure of a face that the box does not have: " + face);
}

} // namespace

std::optional<Figure> figure_of(const Measure& m, const Box& box) {
  Figure made{m.id, FigureKind::edge_length, m.points, {}, 0};
  switch (m.kind) {
  case MeasureKind::width:
    return made;
  case MeasureKind::opposite_sides:
    made.kind = FigureKind::length_pair;
    return made;
  case MeasureKind::diagonals:
    made.kind = FigureKind::diagonals;
    return made;
  case MeasureKind::rock:
    made.kind = FigureKind::twist;
    return made;
  case MeasureKind::wall_lean:
    made.kind = FigureKind::lean;
    made.direction = outward(box, m.where);
    return made;
  case MeasureKind::belly:
    made.kind = FigureKind::edge_bow;
    made.direction = outward(box, m.where);
    return made;
  case MeasureKind::gap:
  case MeasureKind::step:
  case MeasureKind::proud:
    return std::nullopt;
  }
  throw InternalError("unknown measure");
}

BoxReading reading_of(const Figure& f, const Plates& plates, double near_mm) {
  BoxReading made;
  const auto put = [&](std::size_t point, Vec3 direction, double factor) {
    add(made, plates.displacement(f.points.at(point), direction, near_mm), factor);
  };
  const auto length = [&](std::size_t a, std::size_t b, double factor) {
    const Vec3 e = unit(f.points.at(b) - f.points.at(a));
    put(b, e, factor);
    put(a, e, -factor);
  };
  switch (f.kind) {
  case FigureKind::diagonals:
    length(0, 2, 1.0);
    length(1, 3, -1.0);
    break;
  case FigureKind::twist: {
    const Vec3 n = normal_of(f.points);
    for (std::size_t i = 0; i < 4; ++i)
      put(i, n, i % 2 == 0 ? 1.0 : -1.0);
    break;
  }
  case FigureKind::bow:
    put(0, f.direction, 1.0);
    for (std::size_t i = 1; i < f.points.size(); ++i)
      put(i, f.direction, -1.0 / static_cast<double>(f.points.size() - 1));
    break;
  case FigureKind::edge_length:
    length(0, 1, 1.0);
    break;
  case FigureKind::edge_bow:
    put(1, f.direction, 1.0);
    put(0, f.direction, -0.5);
    put(2, f.direction, -0.5);
    break;
  case FigureKind::length_pair:
    length(0, 1, 1.0);
    length(2, 3, -1.0);
    break;
  case FigureKind::lean:
    put(1, f.direction, 1.0);
    put(0, f.direction, -1.0);
    break;
  case FigureKind::pushes:
    for (std::size_t i = 0; i < f.points.size(); ++i)
      if (const double push = norm(f.pushes.at(i)); push > 0.0) put(i, f.pushes[i] * (1.0 / push), push);
    for (std::size_t face = 0; face < f.spread.size(); ++face)
      if (f.spread[face] != 0.0) add(made, plates.mean_displacement(face, f.direction), f.spread[face]);
    break;
  case FigureKind::displacement:
    put(0, f.direction, 1.0);
    break;
  case FigureKind::rotation:
    add(made, plates.rotation(f.face, f.points.at(0), f.direction), 1.0);
    break;
  }
  return made;
}

} // namespace tacksquare::elastic
