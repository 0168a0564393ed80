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

void list_faces(Box& box, const std::vector<std::size_t>& part_place) {
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
}

} // namespace

void list_by_id(Job& job) {
  const std::vector<std::size_t> sheet_place = sort_by_id(job.sheets);
  const std::vector<std::size_t> procedure_place = sort_by_id(job.procedures);
  for (Box& box : job.boxes) {
    for (Part& part : box.parts)
      part.sheet = sheet_place[part.sheet];
    for (Seam& seam : box.seams)
      if (seam.procedure) seam.procedure = procedure_place[*seam.procedure];
    list_faces(box, sort_by_id(box.parts));
    sort_by_id(box.seams);
  }
  sort_by_id(job.boxes);
}

} // namespace tacksquare
