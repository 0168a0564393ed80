// How quick the index of blocks is: growth with their number, against looking at each block.
#include "../geometry/blocks.h"

#include <chrono>
#include <cstdio>

using namespace tacksquare;

namespace {

// The least of five runs: the others waited for somebody.
template <class Work> double microseconds(Work work) {
  double least = 1e300;
  for (int run = 0; run < 5; ++run) {
    const auto from = std::chrono::steady_clock::now();
    work();
    const std::chrono::duration<double, std::micro> took = std::chrono::steady_clock::now() - from;
    least = std::min(least, took.count());
  }
  return least;
}

} // namespace

int main() {
  std::printf(
      "blocks as dense as pieces round a box, 400 queries of each number\n%8s %10s %12s %12s %8s %8s %8s\n",
      "blocks", "build us", "query us", "each us", "quicker", "found", "equal");
  Random random(1);
  for (const int n : {100, 300, 1000, 3000, 10000}) {
    const double within_mm = 100.0 * std::cbrt(static_cast<double>(n));
    std::vector<Solid> solids, asked;
    for (int i = 0; i < n; ++i)
      solids.push_back(test::any_block(random, within_mm));
    for (int i = 0; i < 400; ++i)
      asked.push_back(test::any_block(random, within_mm));
    SolidIndex index({});
    const double build = microseconds([&] { index = SolidIndex(solids); });
    std::vector<std::vector<std::size_t>> found(asked.size()), each(asked.size());
    const double query = microseconds([&] {
      for (std::size_t i = 0; i < asked.size(); ++i)
        found[i] = index.overlapping(asked[i], 0.0);
    });
    const double all = microseconds([&] {
      for (std::size_t i = 0; i < asked.size(); ++i) {
        each[i].clear();
        for (std::size_t k = 0; k < solids.size(); ++k)
          if (overlap(asked[i], solids[k], 0.0)) each[i].push_back(k);
      }
    });
    std::size_t count = 0;
    for (const auto& f : found)
      count += f.size();
    const auto queries = static_cast<double>(asked.size());
    std::printf("%8d %10.0f %12.2f %12.2f %8.1f %8zu %8s\n", n, build, query / queries, all / queries,
                all / query, count, found == each ? "yes" : "NO");
  }
}
