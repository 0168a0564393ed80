#include "sheet/flat_sizes.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

constexpr double kSame_mm = 0.05;
constexpr double kTextWide = 0.6; // of a figure, in heights

std::vector<double> places_of(const FlatPattern& pattern, bool across) {
  std::vector<double> at{0.0, across ? pattern.length_mm : pattern.width_mm};
  for (const FlatBend& bend : pattern.bends) {
    const Vec2 d = bend.end - bend.start;
    if (std::abs(across ? d.x : d.y) < kSame_mm) at.push_back(across ? bend.start.x : bend.start.y);
  }
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end(), [](double a, double b) { return b - a < kSame_mm; }), at.end());
  return at;
}

} // namespace

void spread_apart(std::vector<double>& at, double apart) {
  // Runs of neighbours that push each other keep the mean of their places.
  struct Run {
    double mean;
    std::size_t count;
  };
  std::vector<Run> runs;
  for (const double place : at) {
    runs.push_back({place, 1});
    while (runs.size() > 1) {
      const Run b = runs.back(), a = runs[runs.size() - 2];
      const double count = static_cast<double>(a.count + b.count);
      if (b.mean - a.mean >= 0.5 * apart * count) break;
      runs.pop_back();
      runs.back() = {(a.mean * static_cast<double>(a.count) + b.mean * static_cast<double>(b.count)) / count,
                     a.count + b.count};
    }
  }
  std::size_t i = 0;
  for (const Run& run : runs)
    for (std::size_t k = 0; k < run.count; ++k)
      at[i++] = run.mean + apart * (static_cast<double>(k) - 0.5 * (static_cast<double>(run.count) - 1.0));
}

std::vector<SizePlace> flat_sizes(const FlatPattern& pattern, double text_mm,
                                  const std::function<std::string(double)>& said) {
  std::vector<SizePlace> all;
  for (const bool below : {true, false}) {
    const std::vector<double> at = places_of(pattern, below);
    std::vector<double> labels = at;
    std::size_t widest = 0;
    for (const double place : at)
      widest = std::max(widest, said(place).size());
    spread_apart(labels, below ? text_mm * kTextWide * static_cast<double>(widest + 2) : 1.3 * text_mm);
    const auto point = [&](double along, double off) {
      return below ? Vec2{along, -off} : Vec2{-off, along};
    };
    for (std::size_t i = 0; i < at.size(); ++i)
      all.push_back({point(at[i], 0.6 * text_mm), point(at[i], 1.2 * text_mm),
                     point(labels[i], below ? 2.8 * text_mm : 2.2 * text_mm), below, said(at[i])});
  }
  return all;
}

} // namespace tacksquare
