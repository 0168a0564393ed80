// A predicted number with its 90 % interval.
#pragma once

#include <string>

namespace tacksquare {

// 90 % interval: the 5 % and 95 % quantiles of a stated distribution, value its median. Unit by context.
struct Band {
  double value = 0.0;
  double low = 0.0;
  double high = 0.0;
  bool operator==(const Band&) const = default;
};

inline constexpr double kNinetyFive = 1.6448536269514722; // 95 % quantile of the standard normal

// Where a figure comes from and how sure that is.
enum class Mark {
  published,       // read in a published source
  standard,        // two or more independent texts of a standard agree
  derived,         // from first principles, docs/theory.md
  from_memory,     // not verified in a text
  common_practice, // of the trade, no source
  stated           // the job file says so
};

struct Source {
  std::string text; // "EN 1011-2:2001, Annex D.6"
  Mark mark = Mark::common_practice;
  bool operator==(const Source&) const = default;
};

} // namespace tacksquare
