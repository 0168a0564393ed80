#include "job/file/list_by_id.h"

#include "base/ids.h"

#include <algorithm>
#include <numeric>
#include <tuple>
#include <utility>

namespace tacksquare {
namespace {

// The new index of each old one.
template <class T> std::vector<std::size_t> sort_by_id(std::vector<T>& items) {
  std::vector<std::size_t> order(items.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return id_before(items[a].id, items[b].id); });
  std::vector<T> sorted;
  std::vector<std::size_t> place(items.size());
  for (const std::size_t old : order) {
    place[old] = sorted.size();
    sorted.push_back(std::move(items[old]));
  }
  items = std::move(sorted);
  return place;
}

bool hole_before(const std::vector<Vec2>& a, const std::vector<Vec2>& b) {
  return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(),
                                      [](Vec2 p, Vec2 q) { return std::tie(p.x, p.y) < std::tie(q.x, q.y); });
}

// The new index of each old one, of what readings refer to in one box.
struct Places {
  std::vector<std::size_t> parts, faces, seams;
};

std::vector<std::size_t> list_faces(Box& box, const std::vector<std::size_t>& part_place) {
  for (Face& face : box.faces) {
    face.part = part_place[face.part];
    std::stable_sort(face.cutouts.begin(), face.cutouts.end(), hole_before);
  }
  const std::vector<std::size_t> place = sort_by_id(box.faces);
  for (Part& part : box.parts) {
    for (Bend& bend : part.bends) {
      bend.face_a = place[bend.face_a];
      bend.face_b = place[bend.face_b];
    }
    std::stable_sort(part.bends.begin(), part.bends.end(), [](const Bend& a, const Bend& b) {
      return std::tie(a.face_a, a.face_b) < std::tie(b.face_a, b.face_b);
    });
  }
  for (Seam& seam : box.seams) {
    seam.face_a = place[seam.face_a];
    seam.face_b = place[seam.face_b];
    if (seam.over) seam.over = place[*seam.over];
  }
  for (Vent& vent : box.vents)
    vent.face = place[vent.face];
  std::stable_sort(box.vents.begin(), box.vents.end(), [](const Vent& a, const Vent& b) {
    return std::tie(a.face, a.at.x, a.at.y, a.diameter) < std::tie(b.face, b.at.x, b.at.y, b.diameter);
  });
  return place;
}

template <class T, class Key> void sort_by(std::vector<T>& items, const Key& key) {
  std::stable_sort(items.begin(), items.end(), [&](const T& a, const T& b) { return key(a) < key(b); });
}

void list_readings(MeasuredBox& m, const Places& places, const std::vector<std::size_t>& sheet_place) {
  for (WallLeanReading& r : m.leans)
    r.face = places.faces[r.face];
  for (FitReading& r : m.fits)
    r.seam = places.seams[r.seam];
  for (BlankReading& r : m.blanks)
    r.part = places.parts[r.part];
  for (ThicknessReading& r : m.thicknesses)
    r.sheet = sheet_place[r.sheet];
  for (StackReading& r : m.stacks) {
    const auto [one, other] = std::minmax(places.faces[r.face_a], places.faces[r.face_b]);
    r.face_a = one;
    r.face_b = other;
  }
  sort_by(m.leans, [](const WallLeanReading& r) { return r.face; });
  sort_by(m.fits, [](const FitReading& r) { return r.seam; });
  sort_by(m.blanks, [](const BlankReading& r) { return r.part; });
  sort_by(m.thicknesses, [](const ThicknessReading& r) { return r.sheet; });
  sort_by(m.stacks, [](const StackReading& r) { return std::pair(r.face_a, r.face_b); });
  sort_by(m.sizes, [](const SizeReading& r) { return r.stage; });
}

void list_fixtures(Job& job, const std::vector<std::size_t>& box_place) {
  if (job.shop)
    sort_by(job.shop->owned, [](const OwnedItem& i) {
      return std::tie(i.kind, i.opens, i.length, i.shortest, i.foot, i.force, i.count);
    });
  for (Fixture& fixture : job.fixtures) {
    fixture.box = box_place[fixture.box];
    sort_by_id(fixture.pieces);
  }
  sort_by(job.fixtures, [](const Fixture& fixture) { return fixture.box; });
}

} // namespace

void list_by_id(Job& job) {
  const std::vector<std::size_t> sheet_place = sort_by_id(job.sheets);
  const std::vector<std::size_t> procedure_place = sort_by_id(job.procedures);
  std::vector<Places> places; // by old index of the box
  for (Box& box : job.boxes) {
    for (Part& part : box.parts)
      part.sheet = sheet_place[part.sheet];
    for (Seam& seam : box.seams)
      if (seam.procedure) seam.procedure = procedure_place[*seam.procedure];
    Places& place = places.emplace_back();
    place.parts = sort_by_id(box.parts);
    place.faces = list_faces(box, place.parts);
    place.seams = sort_by_id(box.seams);
  }
  const std::vector<std::size_t> box_place = sort_by_id(job.boxes);

  if (job.brake) {
    for (Deduction& d : job.brake->deductions)
      d.sheet = sheet_place[d.sheet];
    sort_by(job.brake->deductions, [](const Deduction& d) { return std::tuple(d.sheet, d.bend, d.radius); });
  }
  if (job.opening) {
    // The row stays: it is stated from left to right.
    for (RowPlace& stand : job.opening->row)
      stand.box = box_place[stand.box];
    sort_by(job.opening->obstacles,
            [](const Obstacle& o) { return std::tie(o.side, o.from, o.to, o.proud, o.name); });
  }
  for (MeasuredBox& m : job.measured) {
    list_readings(m, places[m.box], sheet_place);
    m.box = box_place[m.box];
  }
  sort_by(job.measured, [](const MeasuredBox& m) { return std::pair(m.box, m.copy); });
  list_fixtures(job, box_place);
}

} // namespace tacksquare
