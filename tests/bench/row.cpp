// A row of ten boxes: 100,000 draws, and all that is reckoned of it.
#include "opening/row_fit.h"

#include <algorithm>
#include <chrono>
#include <cstdio>

using namespace tacksquare;

namespace {

template <class Work> double milliseconds(Work work) {
  const auto from = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - from).count();
}

// The causes of a folded locker with half-open corners.
SizeBudget locker() {
  SizeBudget box;
  box.nominal_mm = 400.0;
  box.tall_mm = 600.0;
  box.causes = {{"blank", Spread::normal, 0.0, 0.2, 0.2, 0.5, "body@s2", {}},
                {"weld", Spread::normal, 0.0, 0.06, 0.06, 0.74, "weld", {}},
                {"coating", Spread::uniform, 0.16, 0.07, 0.07, 0.8, "powder", {}},
                {"rack", Spread::normal, 0.0, 1.4, 1.4, 0.3, "locker", {}}};
  for (int side = 0; side < 2; ++side) {
    box.causes.push_back({"fit-step", Spread::triangular, 0.0, 0.5, 0.5, 0.0, "fit", {}});
    box.causes.push_back({"bend-lean", Spread::normal, 0.0, 0.0, 1.1, 0.7, "body@s2", {}});
    box.causes.push_back({"belly", Spread::triangular, 0.0, 0.0, 1.0, 0.7, "body@s2", {}});
    box.causes.push_back({"grinding", Spread::uniform, 0.1, 0.1, 0.1, 0.3, "grinding", {}});
  }
  return box;
}

} // namespace

int main() {
  std::printf("draws of a row, ms, least of 3; target 1000 for ten boxes\n%6s %10s %10s %14s\n", "boxes",
              "draws", "ms", "ns for a cause");
  for (const std::size_t boxes : {1u, 3u, 10u, 30u}) {
    const std::vector<SizeBudget> row(boxes, locker());
    double least = 1e300;
    for (int run = 0; run < 3; ++run)
      least = std::min(least, milliseconds([&] { draw_row(row, kRowDraws, kRowSeed); }));
    const double causes = static_cast<double>(boxes * row.front().causes.size() * kRowDraws);
    std::printf("%6zu %10zu %10.0f %14.1f\n", boxes, kRowDraws, least, least * 1e6 / causes);
  }
}
