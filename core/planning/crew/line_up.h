// Several boxes on two people: whose turn it is next.
#pragma once

#include "planning/crew/schedule.h"

#include <cstdint>

namespace tacksquare {

struct LineTask {
  Task task;                 // After::task counts in the line
  std::size_t box = 0;       // ascending
  bool welder_stays = false; // he takes nothing of another box before the next task of this one that is his
};

struct LinedUp {
  std::vector<std::size_t> order; // of tasks; those of one box as they stand
  Schedule schedule;              // slots by task, as in the line
};

// Looks for the turns that end soonest; a change of box, of either person, counts as ten seconds, so that
// nobody walks to and fro for nothing. From the best of a few rules of thumb (the older box first, a younger
// one where it fills what would be waiting) by taking a few turns out and putting them in elsewhere, a fixed
// number of times: good, not proven; Schedule::no_sooner_than_s bounds it. One box needs no search. The same
// on every machine: the search counts in whole tenths of a second. Preconditions: as schedule(), and some
// order exists (InternalError).
LinedUp line_up(const std::vector<LineTask>& line, std::uint64_t seed, int trials);

} // namespace tacksquare
