#include "base/numbers.h"
#include "opening/row_fit.h"

#include <algorithm>
#include <utility>

namespace tacksquare {

namespace {

struct Told {
  const char *sizes, *remedy;
};

// With which sizes it is tight, and what can be done about them.
Told told_of(const RowFit& fit) {
  constexpr double kSeen_mm = 0.05;
  const auto count = [&](auto test) { return std::count_if(fit.stands.begin(), fit.stands.end(), test); };
  const auto free = [](const StandFit& s) { return !s.measured && !s.keeps_size; };
  if (count(free) == 0)
    return {"with the sizes as they are", count([](const StandFit& s) { return !s.measured; }) > 0
                                              ? "let boxes give way (keep-size), or less clearance"
                                              : "trim the widest, or less clearance"};
  if (count([&](const StandFit& s) { return free(s) && s.target_mm > s.smallest_mm + kSeen_mm; }) == 0)
    return {"at the smallest sizes that are still good",
            "allow smaller boxes (size-under), less clearance, or measure the parts and state what comes in"};
  return {"with the sizes aimed at", fit.by == TargetRule::chance
                                         ? "see the first-off on the sheet; measure again, or less clearance"
                                         : "aim by chance (by), or want less of it (chance)"};
}

} // namespace

void tell_chances(const HardOpening& opening, const RowFit& fit, Diagnostics& out) {
  // As many figures as it takes to tell the two apart.
  const auto chance_of = [&](double chance) {
    const auto said = [](double part, double step) { return rounded(100.0 * part, step) + " %"; };
    const double step = said(chance, 0.1) == said(fit.wanted_chance, 0.1) ? 0.001 : 0.1;
    return "a chance of " + said(chance, step) + ", not " + said(fit.wanted_chance, step);
  };
  for (const auto& [chance, what] : {std::pair{&fit.height, "height"}, {&fit.depth, "depth"}})
    if (*chance && (*chance)->value < fit.wanted_chance)
      out.caution("row-tight", opening.where,
                  std::string("by their ") + what + " the boxes go in with " + chance_of((*chance)->value),
                  std::string("smaller boxes, or less clearance-") + what);
  if (fit.fits_never || fit.as_aimed.high >= fit.wanted_chance) return;
  const Told told = told_of(fit);
  out.caution("row-tight", opening.where,
              std::string(told.sizes) + " the row goes in with " + chance_of(fit.as_aimed.value),
              told.remedy);
}

} // namespace tacksquare
