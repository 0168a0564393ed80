// Everything that is known about one box before its steps are written.
#pragma once

#include "fixture/set_up.h"
#include "formulas/heat.h"
#include "geometry/box_geometry.h"
#include "job/job.h"
#include "opening/row_fit.h"
#include "physics/shrinkage/expected.h"
#include "plan/plan.h"
#include "planning/fixture/plan_fixture.h"
#include "planning/sequence/weld_order.h"
#include "receiving/verdicts.h"
#include "tables/practice.h"
#include "work/work.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

// What holds the box on the table, and from within.
struct Fixing {
  Fixture fixture;
  bool stated = false;
  fixture::SetUp set_up;
  std::vector<FixtureCompared> compared{}; // of a planned one: what less in it would do
  std::optional<int> smaller_weighed{};    // FixturePlan
};

// A tacked box that is off by 1 mm is pulled past square by so much across its long diagonal.
struct PullPast {
  bool until_welded = false; // let go when all is welded and cold; else when all is tacked
  Band past_mm;              // elastic/pull.h
};

// How far the box is pulled past square, put on after the first round of tacks, after the second. Reckoned
// unless the elastic model is not asked, or of very many tacks; nothing where a pull does not stay.
struct Pulls {
  bool reckoned = false;
  std::optional<PullPast> rim_tacked, fully_tacked;
};

// An order of the seams as it was weighed: of the groups, or else seam after seam.
struct JudgedOrder {
  std::string key; // OrderCompared
  SeamOrders seams;
  std::vector<std::size_t> seam_by_seam; // indices in Work::seams
  std::optional<double> square, chance;  // OrderCompared
};

// A run that could come next at the look half way: by how much the first diagonal of the measure that is read
// then grows against the second, median and 90 %.
struct NextRun {
  std::string run, seam, measure; // ids
  Band mm;
};

struct BoxCase {
  const Job& job;
  const Box& box;
  BoxGeometry geometry;
  Work work;
  std::vector<Tack> tacks; // in order
  WeldOrder order;
  Prediction prediction;
  std::vector<ReceivingLimit> receiving;
  std::vector<PartReading> part_readings;
  const RowFit* row = nullptr;     // of the opening, where the box stands in one
  const StandFit* stand = nullptr; // its place there; of several copies the first that is not cut last
  // What to expect, blanks cut larger by put_back_mm; by expectation.h. `prediction` has the closed forms of
  // blanks as drawn.
  std::vector<Expected> expected{};
  Vec3 put_back_mm{};
  std::optional<ElasticPlan> elastic{};
  std::optional<Fixing> fixing{};
  std::vector<TackOrderCompared> tack_orders{}; // that were weighed
  std::vector<Lever> levers{};                  // planner/levers.h
  Pulls pulls{};
  std::vector<JudgedOrder> judged_orders{}; // the planned one first
  std::optional<OrderProof> order_proof{};
  std::vector<NextRun> next_runs{};
  std::optional<WeldOrder> order_in_rounds{}; // what `order` would be, where it welds seam after seam

  const Sheet& sheet_of(const Part& part) const { return job.sheets[part.sheet]; }
  double thinnest_mm() const;
  bool any_family(MetalFamily family) const; // of what is welded
  bool any_process(Process process) const;
  bool folded() const;
  bool sized() const; // width, depth and height are stated
  Hold hold() const;
  // Inside of an open box of a form behind its rim, as seen from the open side: width and height.
  // Precondition: sized().
  Vec2 inside_of_opening_mm() const;
  const char* lift_word() const; // "one", "two", "hoist": ends the keys of texts
  const Fixing& fixed() const;   // InternalError before it is made
  bool has_piece(ItemKind kind) const;
  bool closed() const { return geometry.closed.has_value(); }
  bool has_flush_seam() const;
  bool has_loose_part() const;
  std::vector<std::string> seam_ids() const;
  double longest_seam_mm() const;
  double outside_mm(char axis) const; // 'x', 'y', 'z' of the outside
  // Rise of the whole box above ambient when all welds are in and no heat is lost, K.
  Band mean_rise_K() const;
};

// How long until a figure falls to what is wanted: median and 90 % interval, s.
struct CoolingTimes {
  Band touch_s;   // hottest seam line down to the touch limit
  Band measure_s; // mean of the box within 5 K of ambient
};
CoolingTimes cooling_times(const BoxCase& box);

// Of all runs: one hand makes them all.
Band arc_seconds(const BoxCase& box);

// Names on the sheet.
Text face_name(const std::string& face_id); // "plain" with the id, or the word for a face letter
Text seam_list(const std::vector<std::string>& ids);
Text simple(std::string key); // a text without arguments
const ReceivingLimit* find_limit(const BoxCase& box, const std::string& kind, const std::string& where);
const Measure* find_measure(const Work& work, MeasureKind kind, const std::string& where = {});

} // namespace tacksquare
