#include "planning/planner/foreman.h"

#include "formulas/band_math.h"

#include <algorithm>
#include <optional>

namespace tacksquare {
namespace {

Source derived(std::string text) {
  return {std::move(text), Mark::derived};
}

Figure exact(std::string key, std::vector<Arg> args, ArgKind kind, double value, Source source) {
  Figure figure;
  figure.what = {std::move(key), std::move(args)};
  figure.kind = kind;
  figure.value = {value, value, value};
  figure.has_band = false;
  figure.source = std::move(source);
  return figure;
}

Figure banded(std::string key, std::vector<Arg> args, ArgKind kind, const Band& band, Source source) {
  Figure figure = exact(std::move(key), std::move(args), kind, band.value, std::move(source));
  figure.value = band;
  figure.has_band = true;
  return figure;
}

// Sheet passes the first check within 5 % of its thickness. Taken as 99 % limits, that is 3.2 % nine times
// out of ten.
constexpr double kThicknessRelative = 0.032;

// What a force reaches, in parts of what it may: the more force, the less.
Band against(double factor, const Band& force) {
  return {factor, factor * force.value / force.high, factor * force.value / force.low};
}

// Cooling through thin sheet goes with the square of the heat.
Band as_heat_squared(double value, const Band& heat) {
  const double low = heat.low / heat.value, high = heat.high / heat.value;
  return {value, value * low * low, value * high * high};
}

void add_body(const BoxCase& box, std::vector<Figure>& out) {
  const Source geometry = derived("theory.md, Geometry");
  const auto mass = [&](std::string key, std::vector<Arg> args, double kg, Source source) {
    out.push_back(banded(std::move(key), std::move(args), ArgKind::mass_kg,
                         formulas::band_around(kg, kThicknessRelative), std::move(source)));
  };
  mass("figure.mass", {}, box.geometry.mass_kg, geometry);
  const Vec3 centre = box.geometry.centre_of_gravity - box.geometry.low;
  out.push_back(exact("figure.centre-x", {}, ArgKind::length_mm, centre.x, geometry));
  out.push_back(exact("figure.centre-y", {}, ArgKind::length_mm, centre.y, geometry));
  out.push_back(exact("figure.centre-z", {}, ArgKind::length_mm, centre.z, geometry));
}

void add_seam(const BoxCase& box, std::size_t index, std::vector<Figure>& out) {
  const WorkSeam& seam = box.work.seams[index];
  const SeamShrinkage& shrinkage = box.prediction.seams[index];
  const Settings& settings = box.work.settings[seam.settings];
  const Arg id = word("seam", seam.id);
  out.push_back(banded("figure.bead", {id}, ArgKind::area_mm2,
                       formulas::scaled(settings.slowness, seam.bead_mm2), derived("theory.md, Deposit")));
  Figure heat =
      banded("figure.heat", {id}, ArgKind::heat_J_mm, settings.net_heat, {"EN 1011-1", Mark::standard});
  if (seam.t85_s)
    out.push_back(banded("figure.t85", {id}, ArgKind::time_s, as_heat_squared(*seam.t85_s, settings.net_heat),
                         {"EN 1011-2:2001 Annex D.6", Mark::standard}));
  out.push_back(std::move(heat));
  out.push_back(
      banded("figure.throat", {id}, ArgKind::fine_mm, seam.throat_mm, derived("theory.md, Throat")));
  Figure across =
      banded("figure.across", {id}, ArgKind::fine_mm, shrinkage.across_mm, shrinkage.across_source);
  for (const std::string& note : shrinkage.notes)
    across.notes.push_back(simple("note." + note));
  out.push_back(std::move(across));
  out.push_back(banded("figure.force", {id}, ArgKind::force_N, shrinkage.force_N, shrinkage.force_source));
  out.push_back(
      banded("figure.shortening", {id}, ArgKind::fine_mm, shrinkage.shortening_mm, shrinkage.force_source));
  out.push_back(banded("figure.bow", {id}, ArgKind::fine_mm, shrinkage.bow_mm, shrinkage.force_source));
  out.push_back(
      banded("figure.angle", {id}, ArgKind::angle_deg, shrinkage.angle_deg, shrinkage.angle_source));
  const Seam& stated = box.box.seams[seam.seam];
  const Source buckling = derived("theory.md, Buckling: closed form, a floor");
  for (const auto& [face, factor] : {std::pair{stated.face_a, shrinkage.buckling_factor_a},
                                     std::pair{stated.face_b, shrinkage.buckling_factor_b}})
    out.push_back(banded("figure.buckling", {id, word("face", box.box.faces[face].id)}, ArgKind::ratio,
                         against(factor, shrinkage.force_N), buckling));
}

void add_heat(const BoxCase& box, std::vector<Figure>& out) {
  const CoolingTimes times = cooling_times(box);
  const Source cooling = derived("theory.md, Cooling: line source with loss, 10 to 25 W/m2K");
  out.push_back(
      banded("figure.mean-rise", {}, ArgKind::difference_K, box.mean_rise_K(), derived("theory.md, Heat")));
  out.push_back(banded("figure.touch-time", {}, ArgKind::time_s, times.touch_s, cooling));
  out.push_back(banded("figure.measure-time", {}, ArgKind::time_s, times.measure_s, cooling));
  if (box.prediction.trapped_air_bulge_mm)
    out.push_back(banded("figure.trapped-air", {}, ArgKind::fine_mm, *box.prediction.trapped_air_bulge_mm,
                         derived("theory.md, Trapped air")));
}

// Of each kind of measure the one that springs furthest, where it can be seen.
void add_spring_back(const BoxCase& box, const ElasticRelease& release, std::vector<Figure>& out) {
  constexpr double kSeen_mm = 0.01;
  for (const MeasureKind kind : {MeasureKind::width, MeasureKind::opposite_sides, MeasureKind::diagonals,
                                 MeasureKind::rock, MeasureKind::wall_lean, MeasureKind::belly}) {
    std::optional<std::size_t> most;
    std::string id;
    const auto reach = [&](std::size_t i) {
      return std::max(std::abs(release.low[i]), std::abs(release.high[i]));
    };
    for (std::size_t i = 0; i < box.elastic->readings.size(); ++i) {
      const ElasticReading& reading = box.elastic->readings[i];
      const bool of_kind =
          reading.kind == "measure" &&
          std::any_of(box.work.measures.begin(), box.work.measures.end(),
                      [&](const Measure& m) { return m.id == reading.id && m.kind == kind; });
      if (!of_kind || (most && reach(i) <= reach(*most))) continue;
      most = i;
      id = reading.id;
    }
    if (most && reach(*most) >= kSeen_mm)
      out.push_back(banded("figure.springs", {word("measure", id), word("after", release.after)},
                           ArgKind::fine_mm, {release.value[*most], release.low[*most], release.high[*most]},
                           derived("theory.md, The elastic box")));
  }
}

// The most that stands open or lies over at a tack whose seam has one already.
void add_gap_ahead(const BoxCase& box, const Source& source, std::vector<Figure>& out) {
  std::vector<bool> has_one(box.work.seams.size(), false);
  const ElasticState* widest = nullptr;
  const auto reach = [](const ElasticState& s) {
    return std::max(std::abs(s.gap_mm->low), std::abs(s.gap_mm->high));
  };
  for (const Tack& tack : box.tacks) {
    const bool ahead = has_one[tack.seam];
    has_one[tack.seam] = true;
    for (const ElasticState& s : box.elastic->states)
      if (ahead && s.gap_mm && s.after == tack.id && (!widest || reach(s) > reach(*widest))) widest = &s;
  }
  if (widest)
    out.push_back(
        banded("figure.gap-ahead", {word("tack", widest->after)}, ArgKind::fine_mm, *widest->gap_mm, source));
}

void add_pulls(const BoxCase& box, std::vector<Figure>& out) {
  const auto add = [&](const std::optional<PullPast>& pull, const char* after) {
    if (!pull) return;
    const Source source = derived("theory.md, Pulled square");
    const std::string key = std::string("figure.pull-past-") + after;
    out.push_back(
        banded(key + (pull->until_welded ? "-cold" : ""), {}, ArgKind::fine_mm, pull->past_mm, source));
  };
  add(box.pulls.rim_tacked, "rim");
  add(box.pulls.fully_tacked, "second");
}

// The two that pull most, either way.
void add_next_runs(const BoxCase& box, std::vector<Figure>& out) {
  if (box.next_runs.empty()) return;
  const auto [least, most] =
      std::minmax_element(box.next_runs.begin(), box.next_runs.end(),
                          [](const NextRun& a, const NextRun& b) { return a.mm.value < b.mm.value; });
  for (const auto next : {least, most}) {
    out.push_back(banded("figure.next-run", {word("run", next->run)}, ArgKind::fine_mm, next->mm,
                         derived("theory.md, The order of seams")));
    if (least == most) break;
  }
}

// What the elastic model says beside the measures.
void add_elastic(const BoxCase& box, std::vector<Figure>& out) {
  if (!box.elastic) return;
  const Source elastic = derived("theory.md, The elastic box");
  const auto most = [&](std::optional<Band> ElasticState::*force, const char* key, const char* after) {
    const ElasticState* hardest = nullptr;
    for (const ElasticState& s : box.elastic->states)
      if (s.*force && (!hardest || (s.*force)->value > (hardest->*force)->value)) hardest = &s;
    if (hardest)
      out.push_back(
          banded(key, {word(after, hardest->after)}, ArgKind::force_N, *(hardest->*force), elastic));
  };
  add_gap_ahead(box, elastic, out);
  most(&ElasticState::closing_N, "figure.closing", "tack");
  most(&ElasticState::holding_N, "figure.holding", "after");
  add_pulls(box, out);
  add_next_runs(box, out);
  for (const ElasticRelease& release : box.elastic->releases)
    add_spring_back(box, release, out);
  for (const FaceBuckling& b : box.elastic->buckling)
    out.push_back(banded("figure.buckling-box", {word("face", b.face)}, ArgKind::ratio, b.factor,
                         derived("theory.md, Buckling: eigenvalue of the welded box")));
}

} // namespace

std::vector<Figure> figures_of(const BoxCase& box) {
  std::vector<Figure> figures;
  add_body(box, figures);
  for (std::size_t i = 0; i < box.work.seams.size(); ++i)
    add_seam(box, i, figures);
  add_heat(box, figures);
  add_elastic(box, figures);
  return figures;
}

} // namespace tacksquare
