// The elements of a job file, each into its value. Parts of read_job.
#pragma once

#include "job/file/further_files.h"
#include "job/file/reading.h"
#include "job/job.h"

#include <set>

namespace tacksquare {

// What of a box was read so that others can be held against it.
struct BoxSure {
  bool count = false;
  bool faces = false; // and parts and sizes
  bool seams = false;
};

// What elements may refer to.
struct Known {
  Ids metals{"metal"}, sheets{"sheet"}, procedures{"procedure"}, boxes{"box"};
  std::vector<Metal> own_metals;
  bool sure_of_sheets = false;                               // they were read without a fault
  std::set<std::size_t> sure_counts, sure_boxes, sure_seams; // indices in Job::boxes, by BoxSure
  bool sure_of_boxes = false;                                // all of them were read without a fault
};

void read_metal(Element& element, Known& known);
void read_sheet(Element& element, Known& known, Job& job);
void read_procedure(Element& element, Known& known, Job& job);
void read_rules(Element& element, Rules& rules);
void read_limits(Element& element, Limits& limits);
void read_crew(Element& element, Crew& crew);
void read_ambient(Element& element, Job& job);
BoxSure read_box(Element& element, const Known& known, Job& job);
// These refer to boxes, so they come after them.
void read_brake(Element& element, const Known& known, Job& job);
void read_opening(Element& element, const Known& known, Job& job);
void read_measured(const std::vector<Element>& elements, const Known& known, Job& job);
void read_fixtures(const std::vector<Element>& elements, const Known& known, FurtherFiles& files, Job& job);
void read_incoming(Element& element, Incoming& incoming);
void read_shop(Element& element, Shop& shop);

// The <shrinkage> child, if there is one.
void read_shrinkage(const Element& parent, OwnShrinkage& own);

// Index of the sheet that the element names; the only sheet of the job when it names none. Reported when
// absent.
std::optional<std::size_t> read_sheet_ref(Element& element, const Known& known, const Job& job);

// Index of the box that the element names, the only one of the job when it names none. Nothing when there is
// none, which is reported. What has faults in it is not to be held against anything: Known::sure_boxes.
std::optional<std::size_t> read_box_ref(Element& element, const Known& known, const Job& job);

// Copy of the box that the element names, 1 when it names none. Reported when it is beyond the box's count.
std::optional<int> read_copy(Element& element, std::optional<std::size_t> box, const Known& known,
                             const Job& job);

// Reports each inside radius under the least that the sheet's metal takes.
void check_bend_radii(const Element& box_element, const Job& job, const Box& box);

// Weld, leg, side, finish, stitch, procedure, position of a seam, or of every seam of a form. What is not
// stated keeps its value.
void read_seam_style(Element& element, const Known& known, Seam& seam);

// Faults between the attributes of one seam.
void check_seam(const Seam& seam, Diagnostics& out);

// <seam> children of a box. sure: its faces and seams were read without fault, so that a reference to nothing
// is one.
void read_seams(const Element& box_element, const Known& known, bool sure, Box& box, Diagnostics& out);

// <part> children: faces, bends.
void read_own_parts(const Element& box_element, const Known& known, const Job& job, Box& box);

// <hole> and <cut-out> children, into the face given or the one they name.
void read_cutouts(const Element& parent, Box& box, Face* face, bool sure);

// Cycles in what comes after what.
void check_after(const Box& box, bool sure, Diagnostics& out);

} // namespace tacksquare
