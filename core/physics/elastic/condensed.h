// A making as the pieces that hold it see it: what any of them change, without going through it all again.
// Only for restraint.
#pragma once

#include "physics/elastic/course.h"
#include "physics/elastic/judging.h"

#include <memory>

namespace tacksquare::elastic {

// The box is made once, held by nothing. A hold is a force on it that varies with time, and all is linear:
// after every joint the forces follow from what the held readings stand off and how they give to each other
// then (Woodbury, Memorandum 42, Statistical Research Group, Princeton 1950, from memory). What a joint does
// to a box that is displaced is written down beforehand: a tack closes what its gap stands open by that, a
// tack that melts lets go what it is stretched by, and what earlier lengths of a seam turned while the box
// was held is not turned again by later ones.
class Condensed {
 public:
  // One-way holds, and holds where the box happens to stand, are an InternalError. Throws NumericalFailure.
  Condensed(const Prepared& prepared, const Making& making);

  // events: tacks and welds in the making's order, pieces on and off as may be. Throws NumericalFailure.
  Ends ends(const std::vector<Event>& events) const;

 private:
  struct Parts;
  class Replay;
  std::shared_ptr<const Parts> parts_;
};

} // namespace tacksquare::elastic
