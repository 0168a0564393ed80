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
  std::string kind;  // "wall-lean", "gap", "step", "blank", "thickness", "stack"
  std::string where; // face, seam, part or sheet id
  double go_mm = 0.0,
         dress_mm = 0.0; // up to go: use; up to dress: dress over a block; beyond: brake or reject
  PartVerdict beyond = PartVerdict::back_to_brake;
  // Wall lean: force at the rim that pulls it square from go_mm and what stays when let go untacked.
  std::optional<Band> force_N;
  std::optional<Band> belly_mm; // mid-wall, when it is held square at both ends: outward positive
  Source source;
  bool operator==(const ReceivingLimit&) const = default;
};

struct PartReading {
  std::string kind, where;
  int copy = 1;
  double reading_mm = 0.0; // the worst of its readings
  PartVerdict verdict = PartVerdict::use;
  std::optional<Band> force_N;    // to close it
  std::optional<Band> springs_mm; // back by this when it is let go
  std::optional<Band> size_mm;    // what it does to the size of the box that matters, widest place
  std::string why;                // key: "within", "gap-rule", "fit", "thin", ...
  bool operator==(const PartReading&) const = default;
};

std::vector<ReceivingLimit> receiving_limits(const Job& job, const Box& box, const BoxGeometry& geometry,
                                             const Work& work);
std::vector<PartReading> judge_parts(const Job& job, std::size_t box, const BoxGeometry& geometry,
                                     const Work& work);

} // namespace tacksquare
