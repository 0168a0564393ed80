#include "planning/planner/expectation.h"

#include "base/numbers.h"
#include "formulas/band_math.h"
#include "physics/elastic/write_vtk.h"
#include "planning/planner/elastic_case.h"
#include "planning/planner/elastic_shape.h"
#include "planning/planner/friction.h"
#include "planning/planner/standing.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tacksquare {
namespace {

constexpr std::uint64_t kSeed = 20270331; // any: the same on every run

// A history costs the cube of the springs that come and go: about ten seconds at this many.
constexpr double kMostSprings = 3000.0;

double settled(double mm) {
  return round_to(mm, kElasticStep_mm);
}
Band settled(const Band& mm) {
  return {settled(mm.value), settled(mm.low), settled(mm.high)};
}

Band settled_N(const Band& force) {
  constexpr double kStep_N = 0.1;
  return {round_to(force.value, kStep_N), round_to(force.low, kStep_N), round_to(force.high, kStep_N)};
}

const Source kElastic{"elastic box: welds, tacks and misfit step by step; theory.md, The elastic box",
                      Mark::derived};

// Of sizes along an axis that the walls' bellies have no part in, what the weld takes off on average.
double mean_loss_mm(const BoxCase& box, const std::string& axis) {
  double sum_mm = 0.0, places = 0.0;
  for (const Expected& expected : box.prediction.measures) {
    const Measure& measure = box.work.measures[expected.measure];
    if (measure.kind != MeasureKind::width || !measure.id.starts_with(axis) || expected.bound_only) continue;
    sum_mm += measure.nominal_mm - expected.before_grinding_mm.value;
    places += 1.0;
  }
  return places > 0.0 ? sum_mm / places : 0.0;
}

// The closed forms, of blanks with the loss put back.
void expect_by_formulas(BoxCase& box) {
  box.put_back_mm = {mean_loss_mm(box, "width-"), mean_loss_mm(box, "depth-"), mean_loss_mm(box, "height-")};
  box.expected = box.prediction.measures;
  for (Expected& e : box.expected) {
    const Measure& m = box.work.measures[e.measure];
    if (m.kind != MeasureKind::width) continue;
    const double by = put_back_along(box, m);
    e.mm = formulas::shifted(e.mm, by);
    e.before_grinding_mm = formulas::shifted(e.before_grinding_mm, by);
    if (!e.bound_only)
      e.chance_kept = shrinkage::chance_between(e.mm, m.nominal_mm - m.under_mm, m.nominal_mm + m.over_mm);
  }
}

// A face that buckles has no figure of its own for how flat it is: nothing is said of its belly, nor of sizes
// that are read in the middle of it.
bool withheld(const BoxCase& box, const Expected& by_formula, const std::vector<FaceBuckling>& buckling) {
  const Measure& m = box.work.measures[by_formula.measure];
  for (const FaceBuckling& b : buckling) {
    if (b.factor.value >= 1.0) continue;
    if (m.kind == MeasureKind::belly && m.where == b.face) return true;
    if (m.kind != MeasureKind::width || !by_formula.bound_only) continue;
    for (const Face& face : box.box.faces)
      if (face.id == b.face)
        for (const Vec3 end : m.points)
          if (std::abs(dot(end - face.placement.origin, face.placement.normal())) <= box.thinnest_mm())
            return true;
  }
  return false;
}

ElasticState state_of(const ElasticCase& made, const elastic::ExpectedMoment& moment, std::size_t index) {
  ElasticState state;
  state.after = made.made[index];
  for (const Band& mm : moment.mm) {
    state.value.push_back(settled(mm.value));
    state.low.push_back(settled(mm.low));
    state.high.push_back(settled(mm.high));
  }
  if (moment.event.kind == elastic::Event::Kind::tack) {
    state.gap_mm = settled(moment.gap_mm);
    state.closing_N = settled_N(moment.closing_N);
  }
  if (const Band held = settled_N(moment.holding_N); held.high > 0.0) state.holding_N = held;
  return state;
}

ElasticPlan plan_of(const ElasticCase& made, const elastic::Expectation& e, std::vector<PressedPlace> pressed,
                    std::vector<ElasticStand> stands) {
  ElasticPlan plan;
  plan.pressed = std::move(pressed);
  plan.stands = std::move(stands);
  plan.mesh_mm = made.options.mesh_mm;
  plan.elements = static_cast<int>(e.model->elements);
  plan.readings = made.readings;
  for (const double mm : e.put_back_mm)
    plan.put_back_mm.push_back(settled(mm));
  plan.pieces = made.pieces;
  constexpr double kStep_N = 0.1;
  for (std::size_t p = 0; p < plan.pieces.size(); ++p)
    for (const elastic::PlaceForce& place : e.place_forces[p]) {
      plan.pieces[p].pull_N.push_back(round_to(place.pull.high, kStep_N));
      plan.pieces[p].push_N.push_back(round_to(place.push.high, kStep_N));
    }
  for (std::size_t i = 0; i < e.slides.size(); ++i) {
    plan.pressed[i].slide_mm = settled(e.slides[i].mm);
    plan.pressed[i].stops_N = round_to(e.slides[i].N, kStep_N);
  }
  for (std::size_t i = 0; i < e.carried.size(); ++i)
    for (const elastic::Carried& place : e.carried[i]) {
      const Band N = settled_N(place.N);
      plan.stands[i].value.push_back(N.value);
      plan.stands[i].low.push_back(N.low);
      plan.stands[i].high.push_back(N.high);
      plan.stands[i].nothing.push_back(place.nothing);
    }
  for (const elastic::Release& release : e.releases) {
    ElasticRelease told{made.made[release.last], {}, {}, {}};
    for (const Band& mm : release.mm) {
      told.value.push_back(settled(mm.value));
      told.low.push_back(settled(mm.low));
      told.high.push_back(settled(mm.high));
    }
    plan.releases.push_back(std::move(told));
  }
  for (std::size_t i = 0; i < e.moments.size(); ++i)
    if (e.moments[i].event.kind != elastic::Event::Kind::hold)
      plan.states.push_back(state_of(made, e.moments[i], i));
  return plan;
}

std::vector<Expected> expected_measures(const ElasticCase& made, const elastic::Expectation& e,
                                        const std::vector<FaceBuckling>& buckling, const BoxCase& box) {
  std::vector<Expected> all;
  for (std::size_t i = 0; i < made.measure.size(); ++i) {
    const std::size_t measure = made.measure[i];
    const Measure& m = box.work.measures[measure];
    const double nominal = m.kind == MeasureKind::width ? m.nominal_mm : 0.0;
    Expected told;
    for (const Expected& by_formula : box.prediction.measures)
      if (by_formula.measure == measure) told = by_formula;
    told.measure = measure;
    if (withheld(box, told, buckling)) continue;
    told.mm = formulas::shifted(settled(e.ground_mm[i]), nominal);
    told.before_grinding_mm = formulas::shifted(settled(e.moments.back().mm[i]), nominal);
    told.bound_only = false;
    told.chance_kept = elastic::chance_within(e, i, -m.under_mm, m.over_mm);
    told.source = kElastic;
    all.push_back(std::move(told));
  }
  return all;
}

} // namespace

double put_back_along(const BoxCase& box, const Measure& size) {
  return size.id.starts_with("width-")    ? box.put_back_mm.x
         : size.id.starts_with("depth-")  ? box.put_back_mm.y
         : size.id.starts_with("height-") ? box.put_back_mm.z
                                          : 0.0;
}

std::shared_ptr<const ReckonedBox> reckon_box(const BoxCase& box, Diagnostics& out) {
  if (box.tacks.empty()) return nullptr;
  try {
    auto reckoned = std::make_shared<ReckonedBox>();
    reckoned->made = elastic_case(box);
    std::vector<PressedPlace> pressed = press(box, reckoned->made);
    std::vector<ElasticStand> stands = stand(box, reckoned->made);
    const ElasticCase& made = reckoned->made;
    if (springs_in(made) > kMostSprings) {
      out.caution(
          "elastic-large", box.box.where,
          "box " + box.box.id + " has " + std::to_string(box.tacks.size()) + " tacks and " +
              std::to_string(made.making.welds.size()) + " lengths of weld: too many for the elastic model",
          "expected sizes are those of the closed forms, squareness has bounds only; a longer tack-pitch "
          "makes fewer tacks");
      return nullptr;
    }
    std::optional<elastic::Expectation> e =
        elastic::expect(box.job, box.box, box.geometry, made.making, made.options, kSeed, out);
    if (!e || e->moments.empty()) return nullptr;
    reckoned->expected = std::move(*e);
    reckoned->plan = plan_of(made, reckoned->expected, std::move(pressed), std::move(stands));
    reckoned->shape = put_shape(made, reckoned->expected, box, reckoned->plan);
    reckoned->plates = reckoned->expected.model->plates;
    reckoned->expected.model.reset();
    return reckoned;
  } catch (const NumericalFailure& failure) {
    out.caution("elastic-failed", box.box.where,
                "the elastic model of box " + box.box.id + " gave no figures: " + failure.what(),
                "expected sizes are those of the closed forms, squareness has bounds only");
    return nullptr;
  }
}

bool stands_for(const ReckonedBox& reckoned, const BoxCase& box) {
  constexpr double kSame_mm = 2.0;
  const ElasticCase other = elastic_case(box);
  const elastic::Making &a = reckoned.made.making, &b = other.making;
  const auto same = [](double x, double y) { return std::abs(x - y) <= kSame_mm; };
  return other.made == reckoned.made.made && other.measure == reckoned.made.measure &&
         std::equal(a.tacks.begin(), a.tacks.end(), b.tacks.begin(), b.tacks.end(),
                    [&](const auto& x, const auto& y) { return same(x.at_mm, y.at_mm); }) &&
         std::equal(a.welds.begin(), a.welds.end(), b.welds.begin(), b.welds.end(),
                    [&](const auto& x, const auto& y) {
                      return same(x.from_mm, y.from_mm) && same(x.to_mm, y.to_mm);
                    });
}

WeldEffect weld_effect(const ReckonedBox& reckoned, const BoxCase& box) {
  WeldEffect effect;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    if (!reckoned.made.making.put_back[axis].corners.empty())
      effect.corner_mm[axis] = settled(reckoned.expected.corner_by_weld_mm[axis]);
    effect.put_back_mm[axis] = reckoned.plan.put_back_mm[axis];
  }
  for (std::size_t i = 0; i < reckoned.made.measure.size(); ++i) {
    const Measure& m = box.work.measures[reckoned.made.measure[i]];
    const auto buckles = [&](const FaceBuckling& b) { return b.face == m.where && b.factor.value < 1.0; };
    const std::vector<FaceBuckling>& buckling = reckoned.plan.buckling;
    if (m.kind != MeasureKind::belly || std::any_of(buckling.begin(), buckling.end(), buckles)) continue;
    const Band belly = settled(reckoned.expected.by_weld_mm[i]);
    const auto found = effect.belly_mm.find(m.where);
    if (found == effect.belly_mm.end() || found->second.value < belly.value) effect.belly_mm[m.where] = belly;
  }
  return effect;
}

void expect_box(BoxCase& box, const ReckonedBox* reckoned, std::vector<ShapeFile>* shapes) {
  expect_by_formulas(box);
  if (!reckoned) return;
  const ElasticPlan& plan = reckoned->plan;
  box.put_back_mm = {plan.put_back_mm[0], plan.put_back_mm[1], plan.put_back_mm[2]};
  box.expected = expected_measures(reckoned->made, reckoned->expected, plan.buckling, box);
  box.elastic = plan;
  if (shapes) shapes->push_back({box.box.id, elastic::write_vtk(*reckoned->plates, reckoned->shape, {})});
}

} // namespace tacksquare
