// How size_budget finds the causes of one size. Not for others.
#pragma once

#include "opening/rowing.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare::opening {

inline constexpr double kAlong = 0.95; // cosine: runs along an axis
inline const Source kReading{"reading of this box", Mark::stated};
inline const Source kJobFile{"job file", Mark::stated};

// What every cause looks at: one size of one copy of a box.
struct Budgeting {
  const Job& job;
  const BoxKnown& known;
  int copy = 1;
  std::size_t axis = 0;
  const MeasuredBox* measured = nullptr;
  std::optional<LatestSizes> latest; // sizes that were read along the axis

  const Box& box() const { return *known.box; }
  const BoxGeometry& geometry() const { return *known.geometry; }
  const Work& work() const { return *known.work; }
  const Sheet& sheet_of(std::size_t face) const {
    return job.sheets[box().parts[box().faces[face].part].sheet];
  }
  double thickness_mm(std::size_t face) const { return in_mm(sheet_of(face).thickness); }
  bool welded(std::size_t face) const { return !box().parts[box().faces[face].part].loose; }
  double along(Vec3 v) const { return std::array{v.x, v.y, v.z}[axis]; }
  // The job states what belly and proud corners may take of the width.
  bool allowed() const { return axis == 0 && job.opening && job.opening->allowance; }
  // Boxes whose parts come from one order of cutting and bending share it.
  std::string order_of(std::size_t face) const {
    const Part& part = box().parts[box().faces[face].part];
    return part.id + "@" + job.sheets[part.sheet].id;
  }
  // Where the box ends on the axis at its low (0) or high (1) end: the outermost of its faces square to the
  // axis, lips beyond them left out.
  double end(int which) const;
  // Outside faces square to the axis at that end.
  std::vector<std::size_t> walls_at(int which) const;

 private:
  bool faces_out(std::size_t face, int which) const; // square to the axis, outward at that end
};

SizeCause even_cause(const std::string& key, double low, double high, double common, const std::string& order,
                     const Source& source);

// Causes of the place that is likely the widest: blank, bends, fit, and what stands out between held ends.
std::vector<SizeCause> widest_place(const Budgeting& b);
// Outward belly by the weld: by the elastic box, else between nothing and its bound, at most what the
// straightedge lets pass.
void add_belly(const Budgeting& b, std::size_t wall, std::vector<SizeCause>& causes);

} // namespace tacksquare::opening
