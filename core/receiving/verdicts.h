// Parts as they come: what each reading means. docs/theory.md.
#pragma once

#include "base/band.h"
#include "geometry/box_geometry.h"
#include "job/job.h"
#include "work/work.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

enum class PartVerdict { use, dress, back_to_brake, reject };

// Limits of one kind of incoming reading, for the bench card.
struct ReceivingLimit {
  // "wall-lean", either way; "wall-lean-out", outward, where the row asks for more; "wall-twist", both ends
  // against each other; "gap", "step", "blank", "thickness", "stack"
  std::string kind;
  std::string where; // face, seam, part or sheet id; a stack: both faces, "L-R"
  double go_mm = 0.0,
         dress_mm = 0.0; // up to go: use; up to dress: dress over a block; beyond: brake or reject
  PartVerdict beyond = PartVerdict::back_to_brake;
  // Wall lean: force at the rim that pulls it square from go_mm, all of which springs back when let go
  // untacked.
  std::optional<Band> force_N;
  std::optional<Band> belly_mm; // mid-wall, when it is held square at both ends: outward positive
  Source source;
  bool operator==(const ReceivingLimit&) const = default;
};

struct PartReading {
  std::string kind, where; // as above; a blank: "blank-length", "blank-width", by the figures of its flat
                           // pattern
  int copy = 1;
  double reading_mm = 0.0; // the worst of its readings
  PartVerdict verdict = PartVerdict::use;
  std::optional<Band> force_N;    // to close it
  std::optional<Band> springs_mm; // back by this when it is let go
  std::optional<Band> size_mm;    // what it adds to the box's width, widest place
  // key: "within", "copper" (weld colder or over copper), "lean", "twist", "gap-rule", "step", "trim",
  // "short", "stack", "thin", "thick" (state it in the job: settings and bends go by it), "other-sheet",
  // "fit" (the row has no room for it)
  std::string why;
  bool operator==(const PartReading&) const = default;
};

// width_room_mm: how much wider at its widest place than aimed at a box of the row may be
// (StandFit::largest_mm less target_mm): tightens what the pair lets pass. Absent: nothing to go into.
std::vector<ReceivingLimit> receiving_limits(const Job& job, const Box& box, const BoxGeometry& geometry,
                                             const Work& work,
                                             std::optional<double> width_room_mm = std::nullopt);
// Each reading of each measured copy of the box. Those that the row has no room for together are dressed, the
// largest first.
std::vector<PartReading> judge_parts(const Job& job, std::size_t box, const BoxGeometry& geometry,
                                     const Work& work, std::optional<double> width_room_mm = std::nullopt);

} // namespace tacksquare
