#include "physics/elastic/box_readings.h"

#include "base/diagnostic.h"
#include "geometry/polygon.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace tacksquare::elastic {

namespace {

using shell::Reading;

// What makes one plate of two faces: to a millionth of a millimetre.
using Key = std::vector<long long>;
void put(Key& key, Vec2 p) {
  key.push_back(std::llround(p.x * 1e6));
  key.push_back(std::llround(p.y * 1e6));
}
Key key_of(const shell::PlateShape& shape, const shell::PlateProperties& p,
           const std::vector<std::pair<Vec2, Vec2>>& ports) {
  Key key;
  const auto ring = [&](const Ring& points) {
    key.push_back(static_cast<long long>(points.size()));
    for (const Vec2 q : points)
      put(key, q);
  };
  ring(shape.outline);
  for (const Ring& c : shape.cutouts)
    ring(c);
  for (const auto* pairs : {&shape.lines, &ports}) {
    key.push_back(-1);
    for (const auto& [a, b] : *pairs) {
      put(key, a);
      put(key, b);
    }
  }
  for (const shell::FinePlace& fine : shape.fine) {
    put(key, fine.at);
    key.push_back(std::llround(fine.size_mm * 1e6));
  }
  key.push_back(-1);
  for (const double v : {p.E_mpa, p.nu, p.t_mm})
    key.push_back(std::llround(v * 1e6));
  return key;
}

// To what a mesh cannot tell apart: a box turned in space is cut into the same elements.
Vec2 rounded(Vec2 p) {
  constexpr double kStep_mm = 1e-7;
  return {std::round(p.x / kStep_mm) * kStep_mm, std::round(p.y / kStep_mm) * kStep_mm};
}

bool same(Vec2 a, Vec2 b) {
  return norm(a - b) < 1e-6;
}

} // namespace

void add(BoxReading& to, const BoxReading& other, double factor) {
  for (const auto& part : other) {
    const auto there =
        std::find_if(to.begin(), to.end(), [&](const auto& r) { return r.first == part.first; });
    Reading& into = there == to.end() ? to.emplace_back(part.first, Reading{}).second : there->second;
    into.add(part.second, factor);
  }
}

Plates::Plates(const Job& job, const Box& box, const std::vector<JointLine>& lines, const Fineness& fineness)
    : faces_(box.faces), plates_(box.faces.size()) {
  std::vector<std::pair<Key, std::shared_ptr<const shell::Plate>>> made;
  for (std::size_t f = 0; f < box.faces.size(); ++f) {
    const Face& face = box.faces[f];
    frames_.push_back(plate_frame(face));
    if (box.parts[face.part].loose) continue;
    const Sheet& sheet = job.sheets[box.parts[face.part].sheet];
    const Placement& frame = frames_.back();
    const auto in_frame = [&](const Ring& ring) {
      Ring made_ring;
      for (const Vec2 p : ring)
        made_ring.push_back(rounded(frame.local(face.placement.at(p))));
      return made_ring;
    };
    const Ring outline = in_frame(face.outline);
    shell::PlateShape shape{outline, {}, {}};
    const auto first =
        std::min_element(outline.begin(), outline.end(), [](Vec2 a, Vec2 b) { return norm(a) < norm(b); });
    std::rotate(shape.outline.begin(), shape.outline.begin() + (first - outline.begin()),
                shape.outline.end());
    for (const Ring& c : face.cutouts)
      shape.cutouts.push_back(in_frame(c));
    shape.fine = fineness.on_face(face, frame);
    std::vector<std::size_t> edges;
    for (const JointLine& line : lines)
      for (const LineSide* side : {&line.a, &line.b}) {
        if (side->face != f) continue;
        if (side->edge) edges.push_back(*side->edge);
        if (!side->inside) continue;
        const auto there = [&](const auto& l) {
          return (same(l.first, side->start) && same(l.second, side->end)) ||
                 (same(l.first, side->end) && same(l.second, side->start));
        };
        if (std::none_of(shape.lines.begin(), shape.lines.end(), there))
          shape.lines.emplace_back(rounded(side->start), rounded(side->end));
      }
    std::sort(edges.begin(), edges.end());
    edges.erase(std::unique(edges.begin(), edges.end()), edges.end());
    std::vector<std::pair<Vec2, Vec2>> ports = shape.lines;
    for (const std::size_t e : edges)
      ports.emplace_back(outline[e], outline[(e + 1) % outline.size()]);
    std::sort(ports.begin(), ports.end(), [](const auto& a, const auto& b) {
      return std::tuple(std::llround(a.first.x * 1e6), std::llround(a.first.y * 1e6)) <
             std::tuple(std::llround(b.first.x * 1e6), std::llround(b.first.y * 1e6));
    });

    const shell::PlateProperties properties{sheet.metal.youngs_MPa, sheet.metal.poisson,
                                            in_mm(sheet.thickness)};
    const Key key = key_of(shape, properties, ports);
    const auto known = std::find_if(made.begin(), made.end(), [&](const auto& m) { return m.first == key; });
    if (known != made.end()) {
      plates_[f] = known->second;
      continue;
    }
    plates_[f] = std::make_shared<const shell::Plate>(shape, properties, fineness.mesh_mm(), ports);
    made.emplace_back(key, plates_[f]);
  }
  different_ = made.size();
}

Vec3 Plates::local(std::size_t face, Vec3 d) const {
  const Placement& p = frames_[face];
  return {dot(d, p.u), dot(d, p.v), dot(d, p.normal())};
}

BoxReading Plates::displacement(std::size_t face, Vec3 point, Vec3 direction) const {
  return {{face, plates_[face]->displacement(frames_[face].local(point), local(face, direction))}};
}

BoxReading Plates::mean_displacement(std::size_t face, Vec3 direction) const {
  return {{face, plates_[face]->mean_displacement(local(face, direction))}};
}

BoxReading Plates::rotation(std::size_t face, Vec3 point, Vec3 axis) const {
  return {{face, plates_[face]->rotation(frames_[face].local(point), local(face, axis))}};
}

BoxReading Plates::displacement(Vec3 point, Vec3 direction, double near_mm) const {
  std::vector<std::pair<double, std::size_t>> reach;
  for (std::size_t f = 0; f < plates_.size(); ++f) {
    if (!has(f)) continue;
    const Placement& frame = faces_[f].placement;
    const double off = std::abs(dot(point - frame.origin, frame.normal()));
    const double beside = distance_to({faces_[f].outline, faces_[f].cutouts}, frame.local(point));
    reach.emplace_back(std::hypot(off, beside), f);
  }
  std::stable_sort(reach.begin(), reach.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  if (reach.empty()) throw InternalError("a box without welded faces");
  std::size_t n = 0;
  while (n < reach.size() && reach[n].first <= near_mm)
    ++n;
  n = std::max<std::size_t>(n, 1);
  BoxReading made;
  for (std::size_t i = 0; i < n; ++i)
    add(made, displacement(reach[i].second, point, direction), 1.0 / static_cast<double>(n));
  return made;
}

double Plates::stretched(const BoxReading& reading, std::size_t face, Vec3 direction) const {
  const Vec3 d = local(face, direction);
  const Vec2 along{d.x, d.y};
  const auto& nodes = plates_[face]->mesh().nodes;
  double low = dot(nodes.front(), along), high = low;
  for (const Vec2 p : nodes) {
    low = std::min(low, dot(p, along));
    high = std::max(high, dot(p, along));
  }
  double sum = 0.0;
  for (const auto& [f, r] : reading)
    if (f == face)
      for (const Reading::Term& t : r.terms) {
        const std::size_t which = t.freedom % shell::kNodeFreedoms;
        if (which > 1) continue;
        const double moved =
            (dot(nodes[t.freedom / shell::kNodeFreedoms], along) - 0.5 * (low + high)) / (high - low);
        sum += t.factor * moved * (which == 0 ? along.x : along.y);
      }
  return sum;
}

Structure Plates::structure(const std::vector<BoxReading>& readings, Vec3 centre, double reach_mm) const {
  const auto n = static_cast<Index>(readings.size());
  Index welded = 0;
  for (std::size_t f = 0; f < plates_.size(); ++f)
    welded += has(f) ? 1 : 0;
  Structure made{Eigen::MatrixXd::Zero(n, n), Eigen::MatrixXd::Zero(n, 6 * welded), {}};
  Index body = 0;
  for (std::size_t f = 0; f < plates_.size(); ++f) {
    if (!has(f)) continue;
    std::vector<Reading> own;
    Indices of;
    for (std::size_t i = 0; i < readings.size(); ++i)
      for (const auto& [face, reading] : readings[i])
        if (face == f) {
          own.push_back(reading);
          of.push_back(static_cast<Index>(i));
        }
    if (own.empty()) {
      ++body;
      continue;
    }
    const Eigen::MatrixXd c = plates_[f]->compliance(own);
    for (std::size_t j = 0; j < of.size(); ++j)
      for (std::size_t i = 0; i < of.size(); ++i)
        made.compliance(of[i], of[j]) += c(static_cast<Index>(i), static_cast<Index>(j));
    // The plate's own six motions in those of space.
    const Eigen::MatrixXd r = plates_[f]->rigid(own);
    const Placement& frame = frames_[f];
    Eigen::Matrix<double, 6, 6> to_space = Eigen::Matrix<double, 6, 6>::Zero();
    const std::array<Vec3, 3> axes = {Vec3{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    for (std::size_t a = 0; a < 3; ++a) {
      const Vec3 moved = local(f, axes[a]), turned = local(f, cross(axes[a], frame.origin - centre));
      const auto col = static_cast<Index>(a);
      to_space.col(col) << moved.x, moved.y, moved.z, 0, 0, 0;
      to_space.col(col + 3) << turned.x, turned.y, turned.z, moved.x, moved.y, moved.z;
      to_space.col(col + 3) /= reach_mm;
    }
    const Eigen::MatrixXd motions = r * to_space;
    for (std::size_t i = 0; i < of.size(); ++i)
      made.motions.row(of[i]).segment(6 * body, 6) += motions.row(static_cast<Index>(i));
    ++body;
  }
  made.free = Eigen::MatrixXd::Zero(n, 0);
  return made;
}

LineReader::LineReader(const Plates& plates, const JointLine& line)
    : plates_(plates), line_(line),
      on_a_(plates.plate(line.a.face).chain(rounded(line.a.start), rounded(line.a.end))),
      on_b_(plates.plate(line.b.face).chain(rounded(line.b.start), rounded(line.b.end))) {}

std::pair<double, double> LineReader::part_of(const LineSide& side, double from_mm, double to_mm) const {
  constexpr double kLeast_mm = 1e-3; // what is left of a part that its side only just has
  const double length = norm(side.end - side.start);
  const double from = std::clamp(from_mm - side.shift_mm, 0.0, length - kLeast_mm);
  return {from, std::clamp(to_mm - side.shift_mm, from + kLeast_mm, length)};
}

BoxReading LineReader::displacement(const LineSide& side, double from_mm, double to_mm, Vec3 direction,
                                    shell::Weight weight) const {
  const auto [from, to] = part_of(side, from_mm, to_mm);
  return {{side.face,
           plates_.plate(side.face).displacement(chain(side), from, to, plates_.local(side.face, direction),
                                                 plates_.local(side.face, side.arm), weight)}};
}

BoxReading LineReader::rotation(const LineSide& side, double from_mm, double to_mm) const {
  const auto [from, to] = part_of(side, from_mm, to_mm);
  return {{side.face, plates_.plate(side.face).rotation(chain(side), from, to)}};
}

BoxReading LineReader::strip(const LineSide& side, double from_mm, double to_mm) const {
  const auto [from, to] = part_of(side, from_mm, to_mm);
  return {{side.face, plates_.plate(side.face).strip(chain(side), from, to)}};
}

BoxReading LineReader::jump(double from_mm, double to_mm, Vec3 direction, shell::Weight weight) const {
  BoxReading made = displacement(line_.a, from_mm, to_mm, direction, weight);
  add(made, displacement(line_.b, from_mm, to_mm, direction, weight), -1.0);
  return made;
}

BoxReading LineReader::turn(double from_mm, double to_mm) const {
  BoxReading made = rotation(line_.a, from_mm, to_mm);
  add(made, rotation(line_.b, from_mm, to_mm), -1.0);
  return made;
}

JointGive LineReader::unseen(double from_mm, double to_mm) const {
  JointGive made;
  for (const LineSide* side : {&line_.a, &line_.b}) {
    const auto [from, to] = part_of(*side, from_mm, to_mm);
    const Vec2 along = chain(*side).along;
    const shell::Unseen own = plates_.plate(side->face).unseen(chain(*side), from, to);
    const auto give = [&](Vec3 direction, double with_line, double across_line) {
      const Vec3 d = plates_.local(side->face, direction);
      const double with = dot(Vec2{d.x, d.y}, along), across = cross(Vec2{d.x, d.y}, along);
      return with * with * with_line + across * across * across_line;
    };
    made.along += give(line_.along, own.along, own.across);
    made.first += give(line_.first, own.along, own.across);
    made.second += give(line_.second, own.along, own.across);
    made.turn += own.turn;
    made.first_slope += give(line_.first, 0.0, own.slope);
    made.second_slope += give(line_.second, 0.0, own.slope);
  }
  return made;
}

} // namespace tacksquare::elastic
