#include "work/making.h"

#include "base/numbers.h"
#include "tables/practice.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::work {

namespace {

const Source kStated{"job file", Mark::stated};
// Grinding may take a tenth of a face, not more.
constexpr double kDeepestDig = 0.1;

template <class T> Filled<T> stated_or(const std::optional<T>& said, T value, Source source) {
  return said ? Filled<T>{*said, kStated} : Filled<T>{std::move(value), std::move(source)};
}
Filled<double> length_or(const std::optional<Length>& said, double value_mm, const Source& source) {
  return said ? Filled<double>{in_mm(*said), kStated} : Filled<double>{value_mm, source};
}

// The family that asks for most care, of the welded sheets.
MetalFamily hardest_family(const Making& m, bool (*worse)(MetalFamily, MetalFamily)) {
  std::optional<MetalFamily> found;
  for (std::size_t f = 0; f < m.box.faces.size(); ++f) {
    const MetalFamily family = m.sheet_of(f).metal.family;
    if (m.welded(f) && (!found || worse(family, *found))) found = family;
  }
  return found.value_or(MetalFamily::mild_steel);
}

// Rules that no pair can keep.
void check_rules(const Making& m, const WorkRules& r) {
  const Origin where = m.job.rules.where;
  const double ambient = in_celsius(m.job.ambient);
  const auto too_cool = [&](const char* name, double limit) {
    if (limit > ambient) return;
    m.error_once("limit-below-ambient", where,
                 std::string(name) + " of " + rounded(limit, 1) + " C is not above the shop's " +
                     rounded(ambient, 1) + " C: nothing ever gets that cool",
                 std::string("state a ") + name + " above ambient");
  };
  too_cool("touch-limit", r.touch_limit_C.value);
  if (r.start_limit_C) too_cool("start-limit", r.start_limit_C->value);
  if (r.tack_length_mm.value > r.tack_pitch_mm.value)
    m.error_once("tack-pitch", where,
                 "tacks of " + shortest(r.tack_length_mm.value) + " mm overlap at a pitch of " +
                     shortest(r.tack_pitch_mm.value) + " mm",
                 "state a tack-pitch longer than the tacks");
}

} // namespace

WorkRules make_rules(const Making& m) {
  const Rules& said = m.job.rules;
  const double t = thinnest_mm(m);
  const TackPractice tacks = tack_practice(mm(t), mm(thickest_mm(m)), said.tack_rule);
  const RunPractice& runs = run_practice();
  const GapLimits gaps = gap_limits(mm(t));
  const SourcedLength step = step_limit(mm(t));
  const MetalFamily coolest = hardest_family(m, [](MetalFamily a, MetalFamily b) {
    const auto at = [](MetalFamily f) { return start_limit(f) ? in_celsius(start_limit(f)->value) : 1e9; };
    return at(a) < at(b);
  });
  const MetalFamily slowest = hardest_family(m, [](MetalFamily a, MetalFamily b) {
    return grind_practice(a, mm(2.0)).pace > grind_practice(b, mm(2.0)).pace;
  });
  const GrindPractice grind = grind_practice(slowest, mm(t));

  WorkRules r;
  // Whole millimetres, as one marks them; the pitch is the widest that the rule allows.
  r.tack_length_mm = length_or(said.tack_length, std::floor(in_mm(tacks.length.middle())), tacks.source);
  r.tack_pitch_mm = length_or(said.tack_pitch, in_mm(tacks.pitch.high), tacks.source);
  r.first_tack_mm = length_or(said.first_tack, std::floor(in_mm(tacks.first.middle())), tacks.source);
  r.longest_run_mm = length_or(said.run_length, in_mm(runs.longest_run), runs.source);
  r.tie_in_mm = length_or(said.tie_in, in_mm(runs.tie_in), runs.source);
  r.back_step = said.back_step;
  r.gap_go_mm = length_or(said.gap, in_mm(gaps.go), gaps.source);
  r.gap_colder_mm = {std::max(in_mm(gaps.colder), r.gap_go_mm.value), gaps.source};
  r.gap_dress_mm = {std::max(in_mm(gaps.dress), r.gap_go_mm.value), gaps.source};
  r.step_mm = length_or(said.step, in_mm(step.value), step.source);
  if (said.start_limit)
    r.start_limit_C = Filled<double>{in_celsius(*said.start_limit), kStated};
  else if (const auto limit = start_limit(coolest))
    r.start_limit_C = Filled<double>{in_celsius(limit->value), limit->source};
  const SourcedTemperature touch = touch_limit(), bare = bare_hand_limit();
  r.touch_limit_C = said.touch_limit ? Filled<double>{in_celsius(*said.touch_limit), kStated}
                                     : Filled<double>{in_celsius(touch.value), touch.source};
  r.bare_limit_C = {std::min(in_celsius(bare.value), r.touch_limit_C.value), bare.source};
  r.proud_mm = length_or(said.proud, in_mm(grind.proud), grind.source);
  const Filled<double> dig = stated_or<double>(said.dig_fraction, grind.dig_fraction, grind.source);
  r.dig_mm = {dig.value * t, dig.source};
  // A ground corner as round as the sheet is thick, which leaves the faces alone.
  r.edge_radius_mm = length_or(said.edge_radius, t, grind.source);
  r.grits = stated_or<std::vector<int>>(said.grits, grind.grits, grind.source);
  r.grind_min_per_m = m.job.crew.grind ? Filled<double>{m.job.crew.grind->stored(), kStated}
                                       : Filled<double>{grind.pace.stored(), grind.source};
  check_rules(m, r);
  return r;
}

CrewRates make_crew(const Making& m) {
  const Crew& said = m.job.crew;
  const CrewPractice& usual = crew_rates();
  const Lift lift = lift_for(kg(m.geometry.mass_kg));
  const Duration turn = lift == Lift::one_person   ? usual.turn
                        : lift == Lift::two_people ? usual.turn_two
                                                   : usual.turn_hoist;
  const auto rate = [](const std::optional<Duration>& stated, Duration fallback) {
    return in_s(stated.value_or(fallback));
  };
  CrewRates r;
  r.welder = said.welder;
  r.grinder = said.grinder;
  r.fit_s = rate(said.fit, usual.fit);
  r.turn_s = rate(said.turn, turn);
  r.look_s = rate(said.look, usual.look);
  r.tack_s = rate(said.tack, usual.tack);
  r.weld_start_s = rate(said.weld_start, usual.weld_start);
  r.knock_down_s = rate(said.knock_down, usual.knock_down);
  r.disc_change_s = rate(said.disc_change, usual.disc_change);
  const GrindPractice grind = grind_practice(
      m.job.sheets.empty() ? MetalFamily::mild_steel : m.sheet_of(0).metal.family, mm(thinnest_mm(m)));
  r.m_per_disc = in_mm(said.metres_per_disc.value_or(grind.metres_per_disc)) / 1000.0;
  if (said.takt) r.takt_s = in_s(*said.takt);
  r.source = usual.source;
  return r;
}

void check_grinding(const Making& m, const WorkRules& rules) {
  const double share = m.job.rules.dig_fraction.value_or(0.0);
  if (share > kDeepestDig + 1e-12) {
    m.error_once("grind-too-deep", m.job.rules.where,
                 "grinding may dig " + rounded(share, 0.01) +
                     " of the thickness by this job, but a face must keep nine tenths of it",
                 "state a dig of at most 0.1");
  }
  const double radius = rules.edge_radius_mm.value;
  for (const Seam& seam : m.box.seams) {
    if (seam.finish != Finish::flush) continue;
    const double ta = m.thickness_mm(seam.face_a), tb = m.thickness_mm(seam.face_b);
    const double thin = std::min(ta, tb), thick = std::max(ta, tb);
    if (seam.joint == JointKind::butt) {
      // Middle surfaces in line: the thicker sheet stands out by half the difference on either side.
      const double off = 0.5 * (thick - thin);
      if (off > kDeepestDig * thick)
        m.out.error("grind-step", seam.where,
                    "seam " + seam.id + ": grinding it flush takes " + rounded(off, 0.01) +
                        " mm off the face of " + shortest(round_to(thick, 0.01)) + " mm, more than a tenth",
                    "leave the seam as welded, or make both faces of the same sheet");
    } else if (seam.joint == JointKind::corner && seam.side == WeldSide::outside && radius > thin) {
      // Where the neighbour's edge ends the face is alone: what the round takes there.
      const double past = radius - thin;
      const double cut = radius - std::sqrt(radius * radius - past * past);
      if (cut > kDeepestDig * thin)
        m.error_once("grind-radius", m.job.rules.where,
                     "an edge radius of " + shortest(round_to(radius, 0.01)) + " mm takes " +
                         rounded(cut, 0.01) + " mm off a face of " + shortest(round_to(thin, 0.01)) +
                         " mm, more than a tenth",
                     "state an edge-radius of at most " + rounded(thin, 0.1) + " mm");
    }
  }
}

} // namespace tacksquare::work
