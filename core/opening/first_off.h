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
  std::string key;          // as SizeCause; "thickness": of the sheet, measured
  Band before_mm, after_mm; // this box's own and common part together
  Band common_mm;           // what the rest will have too
  bool operator==(const CauseFound&) const = default;
};

struct SizeFound {
  char axis = 'x';
  double aimed_mm = 0.0; // what the first was made to
  Band measured_mm;      // widest place that the readings of the last stage tell, with the gauge's band
  std::vector<CauseFound> causes;
  Band rest_mm; // the next boxes, when nothing is changed
  // Of the blank of the next ones against that of the first, 0.1 mm at the finest; 0: none. Made to
  // aimed_mm + correction_mm they come out right.
  double correction_mm = 0.0;
  bool operator==(const SizeFound&) const = default;
};

struct FirstOff {
  std::string box;
  int copy = 1;
  Release release = Release::hold;
  // key. release: "in-limits". correct: "common-offset" (what all have in common is put back), "scatter"
  // (they are made smaller for what they have not), "last-trimmed" (the box that is cut last takes it all).
  // hold: "no-chance", or "contradicts-" and the reading that cannot be right ("blank", "bend-lean",
  // "fit-gap", "dry-fit", "as-welded", "ground"): more than 99.9 % off what all else says.
  std::string why;
  char axis = 'x'; // "contradicts-": of the size that the reading was held against
  std::vector<SizeFound> sizes;
  // Of the row, with the rest as they would come and with the correction; of boxes that stand in no row: that
  // the sizes of one that were read come out within their limits.
  Chance uncorrected, corrected;
  bool operator==(const FirstOff&) const = default;
};

// Of each box the measured copy of the lowest number that has sizes as welded or ground. row: as fit_row of
// the same job, none without an opening; where a first box was judged it is reckoned anew with what that
// taught, and its targets are the sizes of the decision: of a kind that was read those of the blanks as first
// cut, corrected where told.
std::vector<FirstOff> judge_first_off(const Job& job, const std::vector<BoxKnown>& boxes,
                                      std::optional<RowFit>& row);

} // namespace tacksquare
