// The parts of make_work. Not for others.
#pragma once

#include "work/work.h"

#include <string>

namespace tacksquare::work {

// What every part looks at.
struct Making {
  const Job& job;
  const Box& box;
  const BoxGeometry& geometry;
  Diagnostics& out;

  const Sheet& sheet_of(std::size_t face) const { return job.sheets[box.parts[box.faces[face].part].sheet]; }
  double thickness_mm(std::size_t face) const { return in_mm(sheet_of(face).thickness); }
  double thinner_mm(const Seam& seam) const;
  bool welded(std::size_t face) const { return !box.parts[box.faces[face].part].loose; }

  // Several boxes may share a rule or a procedure: its fault is told once.
  void error_once(std::string code, Origin where, std::string message, std::string remedy = {}) const;
};

// What several seams share is told once, for all of them, at the place of the first.
class SeamFaults {
 public:
  // The message goes on after "seam S1".
  void add(const Seam& seam, Diagnostic fault);
  std::vector<Diagnostic> told() const; // "seams S1, S2 and S3: ..."

 private:
  struct Fault {
    Diagnostic what;
    std::vector<std::string> seams;
  };
  std::vector<Fault> faults_;
};

// "S1, S2 and S3".
std::string list_words(const std::vector<std::string>& words);

// Order of ids as people number them: "S2" before "S10".
bool id_before(const std::string& a, const std::string& b);

// Of the sheets that are welded: the thinnest.
double thinnest_mm(const Making& m);
double thickest_mm(const Making& m);

// Metal family to choose settings and rules by: the one of both faces, galvanized when only one is coated.
std::optional<MetalFamily> common_family(const Making& m, const Seam& seam);

// Weld metal of a seam at gap 0, cap included, mm2; docs/theory.md, "Work of a box".
double bead_of(const Making& m, const Seam& seam);
// Fillet leg: stated, else the thinner sheet.
double leg_of(const Making& m, const Seam& seam);
bool is_fillet(const Seam& seam);

// Settings and what is odd about them, and faults of seams, while seams are made.
struct SeamMaking {
  std::vector<Settings>& settings;
  std::vector<SeamFaults> odd{}; // as settings
  SeamFaults faults{};
};
// Index of the seam's settings, which grow; nothing after an error.
std::optional<std::size_t> resolve_settings(const Making& m, const Seam& seam, SeamMaking& making);

WorkRules make_rules(const Making& m);
CrewRates make_crew(const Making& m);
void check_grinding(const Making& m, const WorkRules& rules);

std::vector<WorkSeam> make_seams(const Making& m, const WorkRules& rules, std::vector<Settings>& settings);
std::vector<Run> make_runs(const Making& m, const Work& work);
std::vector<Measure> make_measures(const Making& m, const WorkRules& rules);
void set_precedence(const Making& m, Work& work);

// Stitches of a seam: how many, the start of the first, and the share of the seam that is welded.
struct Stitches {
  int count = 0;
  double first_mm = 0.0, length_mm = 0.0, pitch_mm = 0.0;
};
Stitches stitches_of(const Stitch& stitch, double seam_mm);

} // namespace tacksquare::work
