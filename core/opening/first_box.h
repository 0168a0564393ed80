// The first box of a kind, and what its readings tell. Not for other rooms.
#pragma once

#include "opening/learning.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare::opening {

struct FirstBox {
  std::size_t box = 0; // of the job
  const MeasuredBox* measured = nullptr;
  const BoxKnown* known = nullptr;
  std::array<std::optional<Learning>, 3> learnt{}; // by axis
  std::string mistake;                             // key of the first reading that cannot be right
  char mistaken_axis = 'x';                        // of the size that it was held against
};

// Of each box the measured copy of the lowest number that has sizes as welded or ground.
std::vector<FirstBox> first_boxes(const Job& job, const std::vector<BoxKnown>& boxes);
// Whether it has such sizes along an axis.
bool has_finished_sizes(const MeasuredBox& measured, std::size_t axis);

// Takes the readings one after the other into `learnt` of the axis. bare: the job without readings. as_read:
// the next boxes are held to limits where this one was read; with few readings their bellies play no part.
SizeFound learn_size(const Job& bare, FirstBox& first, std::size_t axis, double aimed_mm, bool as_read);

} // namespace tacksquare::opening
