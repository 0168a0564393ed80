// The first box of a batch, measured cold: what the blank, the bends and the weld did, and what that means
// for the rest. docs/theory.md.
#pragma once

#include "opening/row_fit.h"

#include <string>
#include <vector>

namespace tacksquare {

enum class Release { release, correct, hold };

// What a cause did to one size, as far as the readings tell: posterior of a linear normal model.
struct CauseFound {
  std::string key;
  Band before_mm, after_mm; // this box's own and common part together
  Band common_mm;           // what the rest will have too
  bool operator==(const CauseFound&) const = default;
};

struct SizeFound {
  char axis = 'x';
  double aimed_mm = 0.0;
  Band measured_mm; // mean of the readings with the gauge's band
  std::vector<CauseFound> causes;
  Band rest_mm;               // the next boxes, when nothing is changed
  double correction_mm = 0.0; // of the blank of the next ones, rounded to what the cutter can set; 0: none
  bool operator==(const SizeFound&) const = default;
};

struct FirstOff {
  std::string box;
  int copy = 1;
  Release release = Release::hold;
  std::string why; // key: "in-limits", "common-offset", "scatter", "no-chance", "last-trimmed"
  std::vector<SizeFound> sizes;
  Chance uncorrected, corrected; // of the row, with the rest as they would come and with the correction
  bool operator==(const FirstOff&) const = default;
};

// For each measured copy of the lowest number of a box with sizes as welded or ground.
std::vector<FirstOff> judge_first_off(const Job& job, const std::vector<BoxKnown>& boxes, const RowFit& row);

} // namespace tacksquare
