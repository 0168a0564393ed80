// The later steps of resolve_geometry, each from the scene to one kind of result. Not for other rooms.
#pragma once

#include "geometry/box_geometry.h"
#include "geometry/scene.h"

namespace tacksquare {

// Seam lines with their 0 mm end, torch side and neighbours.
std::vector<SeamLine> seam_lines(const Box& box, const std::vector<Panel>& panels,
                                 const std::vector<SeamMeeting>& meetings, const std::vector<FreeEdge>& free);

// The opening of a box that is not closed: the largest plane loop of free edges that all metal lies behind.
std::optional<Opening> find_opening(const std::vector<Panel>& panels, const std::vector<FreeEdge>& free);

// Sums up the unfolding of each part; faults as unfold tells them.
std::vector<Blank> blanks(const Job& job, const Box& box, const std::vector<Panel>& panels,
                          const std::vector<BendMeeting>& bends, Diagnostics& out);

SeamSection section_across(const std::vector<Panel>& panels, const SeamLine& seam);

// The volume that the welded faces enclose, if they do. Faults: no vent, a vent outside its face; caution: a
// vent near a seam.
std::optional<ClosedVolume> closed_volume(const Box& box, const std::vector<Panel>& panels,
                                          const std::vector<BendMeeting>& bends,
                                          const std::vector<SeamMeeting>& seams);
void check_vents(const Box& box, const std::vector<Panel>& panels, const BoxGeometry& geometry,
                 Diagnostics& out);

std::vector<Attitude> stable_attitudes(const std::vector<Panel>& panels, const BoxGeometry& geometry);
// Faults, where there is no attitude: faces whose outward side looks at all other metal; none such, the box.
void check_attitudes(const Box& box, const std::vector<Panel>& panels, const BoxGeometry& geometry,
                     Diagnostics& out);
SeamAccess access_to(const Box& box, const std::vector<Panel>& panels, const BoxGeometry& geometry,
                     std::size_t seam, Vec3 down);

} // namespace tacksquare
