#include "opening/rowing.h"

#include "base/ids.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare {

std::vector<RowPlace> row_of(const Job& job) {
  if (!job.opening) throw InternalError("row_of: a job without an opening");
  if (!job.opening->row.empty()) return job.opening->row;
  std::vector<std::size_t> boxes(job.boxes.size());
  for (std::size_t i = 0; i < boxes.size(); ++i)
    boxes[i] = i;
  std::sort(boxes.begin(), boxes.end(),
            [&](std::size_t a, std::size_t b) { return id_before(job.boxes[a].id, job.boxes[b].id); });
  std::vector<RowPlace> row;
  for (const std::size_t box : boxes)
    for (int copy = 1; copy <= job.boxes[box].count; ++copy) {
      RowPlace place;
      place.box = box;
      place.copy = copy;
      place.where = job.boxes[box].where;
      row.push_back(place);
    }
  return row;
}

namespace opening {

double outside_mm(const BoxKnown& known, std::size_t axis) {
  const std::array<std::optional<Length>, 3> stated = {known.box->width, known.box->depth, known.box->height};
  if (stated[axis]) return in_mm(*stated[axis]);
  const Vec3 size = known.geometry->high - known.geometry->low;
  return std::array{size.x, size.y, size.z}[axis];
}

double overhang_mm(const BoxKnown& known, std::size_t axis) {
  constexpr double kDrawn_mm = 0.05; // less is how a corner is drawn
  const Vec3 all = known.geometry->overall_high - known.geometry->overall_low;
  const double over = std::array{all.x, all.y, all.z}[axis] - outside_mm(known, axis);
  return over > kDrawn_mm ? over : 0.0;
}

const MeasuredBox* readings_of(const Job& job, const Box& box, int copy) {
  for (const MeasuredBox& measured : job.measured)
    if (job.boxes[measured.box].id == box.id && measured.copy == copy) return &measured;
  return nullptr;
}

std::optional<LatestSizes> latest_sizes(const MeasuredBox& measured, std::size_t axis) {
  std::optional<LatestSizes> latest;
  for (const SizeReading& read : measured.sizes) {
    const std::vector<Length>& found = axis == 0 ? read.widths : axis == 1 ? read.depths : read.heights;
    if (!found.empty() && (!latest || read.stage >= latest->stage)) latest = LatestSizes{read.stage, found};
  }
  return latest;
}

std::optional<double> measured_rack_mm(const MeasuredBox& measured, const BoxKnown& known) {
  std::optional<double> rack;
  BuildStage stage = BuildStage::dry_fit;
  const double w = outside_mm(known, 0);
  for (const SizeReading& read : measured.sizes) {
    if (!read.diagonal_up_right || !read.diagonal_up_left || (rack && read.stage < stage)) continue;
    const double right = in_mm(*read.diagonal_up_right), left = in_mm(*read.diagonal_up_left);
    rack = (right * right - left * left) / (4.0 * w); // d1^2 - d2^2 = 4 w h sin(off): h sin(off)
    stage = read.stage;
  }
  return rack;
}

} // namespace opening

} // namespace tacksquare
