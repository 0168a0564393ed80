#include "tables/bench_gauges.h"

#include "base/numbers.h"

#include <cstddef>

namespace tacksquare {

const std::vector<BenchGaugeInfo>& bench_gauges() {
  static const std::vector<BenchGaugeInfo> gauges = [] {
    const Source practice{"what a pair reads at the bench", Mark::common_practice};
    const auto row = [&](BenchGauge gauge, std::string id, double resolution_mm, double step_mm,
                         double inch_step, int inch_parts, std::string reads) {
      const std::string key = "gauge." + id;
      return BenchGaugeInfo{gauge,      std::move(id),    key,     mm(resolution_mm), mm(step_mm), inch_step,
                            inch_parts, std::move(reads), practice};
    };
    std::vector<BenchGaugeInfo> all{
        row(BenchGauge::tape, "tape", 0.5, 0.5, 0.02, 32, "lengths over 1 m"),
        row(BenchGauge::steel_rule, "steel-rule", 0.3, 0.5, 0.02, 64, "lengths up to 600 mm"),
        row(BenchGauge::pinch_sticks, "pinch-sticks", 0.3, 0.5, 0.02, 64, "the difference of two diagonals"),
        row(BenchGauge::calliper, "calliper", 0.1, 0.1, 0.001, 0, "thickness and short widths"),
        row(BenchGauge::feeler, "feeler", 0.05, 0.05, 0.001, 0, "gaps, rock under the fourth corner"),
        row(BenchGauge::try_square, "try-square", 0.05, 0.05, 0.001, 0, "wall lean, with a feeler"),
        row(BenchGauge::straightedge, "straightedge", 0.05, 0.05, 0.001, 0, "belly and proud, with a feeler"),
        row(BenchGauge::gap_gauge, "gap-gauge", 0.1, 0.1, 0.001, 0, "goes over or does not"),
    };
    all[0].source = {"tape of class II at 1 m: 0.5 mm", Mark::from_memory};
    return all;
  }();
  return gauges;
}

const BenchGaugeInfo& bench_gauge(BenchGauge gauge) {
  return bench_gauges()[static_cast<std::size_t>(gauge)];
}

Length round_to_reading(BenchGauge gauge, Length length) {
  return mm(round_to(in_mm(length), in_mm(bench_gauge(gauge).step)));
}

std::string reading_text(BenchGauge gauge, Length length) {
  std::string text = fixed(in_mm(round_to_reading(gauge, length)), 2);
  if (text.back() == '0') text.pop_back();
  return text;
}

} // namespace tacksquare
