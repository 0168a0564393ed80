// How the box lies while it is welded, and how seldom it can be turned.
#pragma once

#include "work/work.h"

#include <utility>
#include <vector>

namespace tacksquare {

// Seam a before seam b, indices in Work::seams.
using SeamPairs = std::vector<std::pair<std::size_t, std::size_t>>;

struct Visit {
  std::size_t attitude = 0;       // index in BoxGeometry::attitudes
  std::vector<std::size_t> seams; // indices in Work::seams, by id; may be empty for the stated first attitude
};

struct TurnPlan {
  std::vector<Visit> visits;
  bool fewest = false; // no plan has fewer turns
};

// Whether the box would lie on a hole through which its air must go.
bool shuts_a_vent(const Box& box, const Attitude& attitude);

// How bad it is to weld a seam like this: 0 good, 1 allowed, from 2 on only when no attitude gives better.
// Sheet up to 3 mm wants flat or, with a steel wire, downhill (uphill burns through); a rod and aluminium go
// either way; thicker sheet flat, then horizontal or uphill; overhead, a position other than the stated one,
// and a box that lies on its vent never by choice. Common practice, no source. Runs that are turned round
// count as 2: the box is laid so that they go away from the rim where it can be.
int position_badness(const Box& box, const BoxGeometry& geometry, const Work& work, std::size_t attitude,
                     std::size_t seam);

// Whether the runs of a seam, its dabs not, are welded from their stop to their start while the box lies so:
// where that lies better than away from the rim, and no run would then stop at a free edge, where a crater
// stays.
bool turned_round(const Box& box, const BoxGeometry& geometry, const Work& work, std::size_t attitude,
                  std::size_t seam);

// Work::runs as the turns have them. Back-step that is turned round begins at the rim, so that each run still
// ends where the one before it began.
std::vector<Run> directed_runs(const Box& box, const BoxGeometry& geometry, const Work& work,
                               const TurnPlan& turns);

// The position in which a run is welded while the box lies so: by the direction from its start to its stop.
WeldPosition run_position(const BoxGeometry& geometry, const Work& work, std::size_t attitude,
                          const Run& run);

// The stated attitude comes first; unstated, the one with the opening, or the place of the last face, on top:
// so the box is fitted and tacked; else any. Fewest turns (all sequences of up to 5 attitudes are tried,
// beyond that the attitude that finishes most seams goes next); of these the one whose lengths lie best; of
// these the first by attitude. Preconditions: at least one attitude, before without a cycle (InternalError).
TurnPlan plan_turns(const Box& box, const BoxGeometry& geometry, const Work& work, const SeamPairs& before);

} // namespace tacksquare
