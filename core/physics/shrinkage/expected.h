// Closed-form shrinkage of a box, seam by seam, rolled up into the figures to expect. docs/theory.md.
#pragma once

#include "base/band.h"
#include "work/work.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

struct SeamShrinkage {
  Band across_mm;     // total over both sheets
  Band force_N;       // tendon force along the seam
  Band shortening_mm; // of the section along the seam
  Band bow_mm;        // of the whole section, by the beam form
  Band angle_deg;     // change of the corner
  double buckling_factor_a = 0.0,
         buckling_factor_b = 0.0; // force critical / force expected, face a and b; floor
  Source across_source, force_source, angle_source;
  std::vector<std::string> notes; // keys of notes: outside a formula's range, own values used, ...
};

// A measure with what to expect.
struct Expected {
  std::size_t measure = 0; // index in Work::measures
  Band mm;                 // the reading itself for sizes (nominal + change), else the deviation
  bool bound_only = false; // low..high are bounds between a free edge and a fully tacked one, not a 90 % band
  double chance_kept =
      0.0; // that the measure's limit holds, by the band's distribution; for bounds: not given (-1)
  Source source;
};

// One line of "where the millimetres come from". Positive makes the box larger.
struct Contribution {
  std::string key; // "bends", "blank", "weld-across", "weld-along", "grinding", "gauge"
  Band mm;
  Source source;
};

struct Prediction {
  std::vector<SeamShrinkage> seams; // as Work::seams
  std::vector<Expected> measures;
  std::vector<Contribution> contributions;  // largest reach first
  std::optional<Band> trapped_air_bulge_mm; // of the largest face, were the vent shut; closed boxes
};

Prediction predict(const Box& box, const Job& job, const BoxGeometry& geometry, const Work& work);

} // namespace tacksquare
