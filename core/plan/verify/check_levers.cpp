// What would help: chances that are chances, what gains most first, and advised the first of them that one
// would see.
#include "plan/verify/checking.h"

namespace tacksquare::verify {

void check_levers(const Checking& c) {
  constexpr double kSame = 1e-6;
  constexpr double kSeen = 0.01; // one box of a hundred
  constexpr std::size_t kAdvised = 3;
  if (!c.plan.levers.empty() && !c.plan.elastic) c.tell("levers are told of a box without an elastic model");
  double last = 2.0;
  for (std::size_t i = 0; i < c.plan.levers.size(); ++i) {
    const Lever& lever = c.plan.levers[i];
    for (const double chance : {lever.chance_before, lever.chance_after})
      if (!(chance >= 0.0 && chance <= 1.0)) c.tell("lever {} has a chance of {}", lever.key, chance);
    const double gain = lever.chance_after - lever.chance_before;
    if (gain > last + kSame) c.tell("lever {} gains more than the one before it", lever.key);
    last = gain;
    const bool helps = i < kAdvised && gain >= kSeen - kSame;
    if (lever.advised != helps)
      c.tell("lever {} is {}advised, but gains {:.4f}", lever.key, lever.advised ? "" : "not ", gain);
    if (lever.what.key.rfind("lever.", 0) != 0) c.tell("lever {} has no words of its own", lever.key);
  }
}

} // namespace tacksquare::verify
