#include "sheet/draw.h"
#include "sheet/plain_text.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>

namespace tacksquare {

namespace {

constexpr double kChartWidth_mm = 170.0;

DrawnLine bar(double x0, double y0, double x1, double y1, Stroke stroke) {
  return {{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, stroke, true, false};
}

} // namespace

std::vector<Drawing> draw_warmth(const Composer& compose, const BoxPlan& box) {
  constexpr std::size_t kRowsPerChart = 24;
  constexpr double kWidth_mm = 88.0, kRow_mm = 3.6, kLeft_mm = 20.0, kRight_mm = 14.0; // two side by side
  double most = 1.0;
  for (const PlannedRun& run : box.runs)
    most = std::max(most, run.warmth_K);
  std::vector<Drawing> out;
  for (std::size_t i = 0; i < box.runs.size(); ++i) {
    if (i % kRowsPerChart == 0) {
      Drawing chart;
      chart.title = compose.word("heat.chart");
      chart.told = compose.word("heat.title");
      chart.width_mm = kWidth_mm;
      out.push_back(std::move(chart));
    }
    Drawing& chart = out.back();
    const PlannedRun& run = box.runs[i];
    const double y = chart.height_mm + kRow_mm / 2;
    const double end = kLeft_mm + std::max(run.warmth_K, 0.0) / most * (kWidth_mm - kLeft_mm - kRight_mm);
    chart.lines.push_back(bar(kLeft_mm, y - 1.2, end, y + 1.2, Stroke::bar));
    chart.labels.push_back(
        {{kLeft_mm - 1.5, y}, fmt::format("{}  {}", i + 1, cleaned(run.id)), Anchor::end, 2.6, false});
    chart.labels.push_back(
        {{end + 1.5, y}, compose.quantity(ArgKind::difference_K, run.warmth_K), Anchor::start, 2.6, false});
    chart.height_mm += kRow_mm;
  }
  for (Drawing& chart : out)
    chart.lines.push_back({{{kLeft_mm, 0.0}, {kLeft_mm, chart.height_mm}}, Stroke::dimension, false, false});
  return out;
}

Drawing draw_lanes(const Composer& compose, const BoxPlan& box) {
  constexpr double kLane_mm = 7.0, kLeft_mm = 8.0, kRight_mm = 4.0;
  constexpr std::array<Who, 3> kLanes{Who::welder, Who::grinder, Who::foreman};
  Drawing out;
  out.title = compose.word("lanes.chart");
  out.told = compose.word("lanes.title");
  out.width_mm = kChartWidth_mm;
  out.height_mm = kLane_mm * kLanes.size() + 6.0;
  double total_s = 1.0;
  for (const Step& step : box.steps)
    total_s = std::max(total_s, step.end_s);
  const auto x_of = [&](double s) {
    return kLeft_mm + s / total_s * (kChartWidth_mm - kLeft_mm - kRight_mm);
  };
  for (std::size_t lane = 0; lane < kLanes.size(); ++lane) {
    const double y0 = kLane_mm * static_cast<double>(lane) + 0.8, y1 = y0 + kLane_mm - 1.6;
    out.labels.push_back(
        {{kLeft_mm - 2.0, (y0 + y1) / 2}, compose.who(kLanes[lane]), Anchor::end, 3.2, true});
    for (const Step& step : box.steps) {
      if (step.who != kLanes[lane] && !(step.who == Who::both && kLanes[lane] != Who::foreman)) continue;
      const double x0 = x_of(step.start_s), x1 = x_of(step.end_s);
      out.lines.push_back(bar(x0, y0, x1, y1, Stroke::bar_open));
      const DrawnLabel label{
          {(x0 + x1) / 2, (y0 + y1) / 2}, std::to_string(step.number), Anchor::middle, 2.2, false};
      if (text_width_mm(label) < x1 - x0) out.labels.push_back(label);
    }
  }
  const double axis = kLane_mm * kLanes.size() + 0.8;
  out.lines.push_back({{{kLeft_mm, axis}, {x_of(total_s), axis}}, Stroke::dimension, false, false});
  // Marks at round times, six to a dozen of them.
  double step_s = 300.0;
  while (total_s / step_s > 12.0)
    step_s *= 2.0;
  for (double s = 0.0; s <= total_s; s += step_s) {
    out.lines.push_back({{{x_of(s), axis}, {x_of(s), axis + 1.2}}, Stroke::dimension, false, false});
    out.labels.push_back(
        {{x_of(s), axis + 3.2}, compose.quantity(ArgKind::time_s, s), Anchor::middle, 2.2, false});
  }
  return out;
}

} // namespace tacksquare
