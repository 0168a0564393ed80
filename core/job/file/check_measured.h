// Readings of the sizes of a box against what is stated of it, and against each other.
#pragma once

#include "job/file/reading.h"
#include "job/job.h"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace tacksquare {

// One <sizes> with its places. Sizes: widths, heights, depths.
struct SizesSaid {
  std::optional<BuildStage> stage;
  std::array<std::vector<Said<Length>>, 3> sizes;
  std::optional<Said<Length>> up_right, up_left;
};
inline constexpr std::array<std::string_view, 3> kSizeNames = {"widths", "heights", "depths"};

// Sizes and diagonals that are no sizes of this box, or not of one and the same. box: null where it has
// faults of its own. gives_way: its width is made to suit an opening. False when a size was told.
bool check_sizes(const SizesSaid& said, const Box* box, bool gives_way, std::optional<Length> size_under,
                 Diagnostics& out);

// A box that grows from stage to stage.
void check_stages(const std::vector<SizesSaid>& all, Diagnostics& out);

} // namespace tacksquare
