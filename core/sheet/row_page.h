// The pieces of the opening page. Used by the files that make it.
#pragma once

#include "sheet/compose.h"
#include "sheet/sources.h"

#include <string>
#include <vector>

namespace tacksquare {

// Bars and gauges of the row are set with a calliper.
inline constexpr const char* kSetWith = "gap-gauge";
inline std::string set_to(const Composer& compose, double mm, Rounding rounding) {
  return compose.quantity(ArgKind::length_mm, mm, kSetWith, rounding);
}
// "95", "99.99": how many of 100 rows are wanted to go in.
std::string wanted_in_hundred(const RowFit& row);

// Where the width goes, cause by cause, by the three ways to reckon.
DocumentTable row_budget(const Composer& compose, const RowFit& row, SourceList& sources);
// What each box by itself takes at its widest, by the three ways, and what costs it most.
DocumentTable row_each(const Composer& compose, const Plan& plan);
// Nesting, what must be flush, ways in, the rest, and how to read the page.
std::vector<DocumentBlock> row_blocks(const Composer& compose, const Plan& plan);
// The box that is cut last; empty: none is.
std::vector<std::string> row_cut_last(const Composer& compose, const RowFit& row);

} // namespace tacksquare
