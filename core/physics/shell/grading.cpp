#include "physics/shell/grading.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::shell {
namespace {

constexpr double kStepsInLeast = 8.0; // of the sum over the way, in the smallest size

// Calls visit(pieces so far, pieces of this step, its start, its length).
template <class Visit> double sum(const SizeAlong& size, double from, double to, Visit visit) {
  const double steps = std::max(1.0, std::ceil(kStepsInLeast * (to - from) / size.least_mm - 1e-9));
  const double step = (to - from) / steps;
  double all = 0.0;
  for (double i = 0.0; i < steps; ++i) {
    const double start = from + i * step, pieces = step / size.at(start + 0.5 * step);
    visit(all, pieces, start, step);
    all += pieces;
  }
  return all;
}

} // namespace

double pieces_along(const SizeAlong& size, double from_mm, double to_mm) {
  return sum(size, from_mm, to_mm, [](double, double, double, double) {});
}

std::vector<double> cuts_along(const SizeAlong& size, double from_mm, double to_mm, std::size_t pieces) {
  const double each = pieces_along(size, from_mm, to_mm) / static_cast<double>(pieces);
  std::vector<double> cuts{from_mm};
  sum(size, from_mm, to_mm, [&](double so_far, double part, double start, double step) {
    while (cuts.size() < pieces && so_far + part >= static_cast<double>(cuts.size()) * each)
      cuts.push_back(start + step * (static_cast<double>(cuts.size()) * each - so_far) / part);
  });
  cuts.push_back(to_mm);
  return cuts;
}

} // namespace tacksquare::shell
