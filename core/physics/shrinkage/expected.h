// Closed-form shrinkage of a box, seam by seam, rolled up into the figures to expect. docs/theory.md.
#pragma once

#include "base/band.h"
#include "work/work.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

inline constexpr double kNoBuckling = 1000.0;

// Bands join the formula's own with that of the heat input; both are the same for all seams of a job, so sums
// over seams reach their limits together. A seam's coupon values win, within the scatter from seam to seam.
struct SeamShrinkage {
  Band across_mm;     // total over the sheets that lose it: corner and butt both, T and lap the base
  Band force_N;       // tendon force along the seam
  Band shortening_mm; // of the whole box's section, by this seam alone
  Band bow_mm;        // of the whole section over the seam's length, by the beam form
  Band angle_deg;     // change of the corner
  // Critical over expected force of face a and b, a floor: below 2 a caution, below 1 beyond. At most
  // kNoBuckling: no force to speak of.
  double buckling_factor_a = kNoBuckling;
  double buckling_factor_b = kNoBuckling;
  Source across_source, force_source, angle_source;
  // Keys, "note." before them in the catalogue of texts: own-across, own-along, own-angle (coupon values
  // used); stitch (times the welded share); shared-zone (a near seam counts once with this one);
  // narrow-section (force held at yield); no-bow (section without a stiff direction); angle-range (outside
  // the formula's thickness); buckling-caution, buckling-beyond; buckling-floor (seam shorter than the face
  // is wide: the closed form is far on the safe side).
  std::vector<std::string> notes;
};

// A measure with what to expect. Sizes over a corner: a 90 % band of weld, blank and grinding. Sizes at
// mid-wall and all that is said of squareness (opposite sides, diagonals, rock, lean, belly): bounds. Gaps,
// steps and proud are not the weld's doing and have none.
struct Expected {
  std::size_t measure = 0; // index in Work::measures
  Band mm;                 // the reading itself for sizes (nominal + change), else the deviation
  Band before_grinding_mm; // sizes: as mm, on the faces clear of beads that will be ground
  bool bound_only = false; // low..high are bounds between a free edge and a fully tacked one, not a 90 % band
  double chance_kept = 0.0; // that the limit holds, normal on either side of the median; bounds: -1
  Source source;
  int ground_ends = 0; // sizes: ends where a bead is ground flush
  Band weld_mm;        // sizes: what the weld alone does to it, across and along; no blank, grinding or belly
};

// One line of "where the millimetres come from". Positive makes the box larger.
struct Contribution {
  std::string
      key; // "bends", "blank", "weld-across", "weld-along", "grinding", "gauge"; texts: "where." before it
  Band mm;
  Source source;
};

struct Prediction {
  std::vector<SeamShrinkage> seams; // as Work::seams
  std::vector<Expected> measures;
  std::vector<Contribution> contributions;  // largest reach first
  std::optional<Band> trapped_air_bulge_mm; // of the largest face, were the vent shut; closed boxes
};

// Chance that a figure of this band (normal on either side of its median) lies within low..high; to 0.0001.
namespace shrinkage {
double chance_between(const Band& band, double low, double high);
}

Prediction predict(const Box& box, const Job& job, const BoxGeometry& geometry, const Work& work);

} // namespace tacksquare
