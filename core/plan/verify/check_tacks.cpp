// Tacks: on their seams, close enough, clear of vents and each other, before the welds.
#include "plan/verify/checking.h"
#include "tables/practice.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::verify {
namespace {

constexpr double kTape_mm = 5.0; // places are marked to whole steps of a tape

using Tacks = std::vector<const PlannedTack*>;

bool has_vent(const Checking& c, const Seam& seam) {
  return std::any_of(c.box.vents.begin(), c.box.vents.end(),
                     [&](const Vent& vent) { return c.on_face(seam, vent.face); });
}

void check_place(const Checking& c, const PlannedTack& tack, std::size_t index) {
  const Seam& seam = c.box.seams[index];
  const SeamLine& line = c.geometry.seams[index];
  const double length = norm(line.end - line.start), half = 0.5 * tack.length_mm;
  if (!(tack.length_mm > 0.0)) c.tell("tack {} has no length", tack.id);
  if (tack.at_mm - half < -0.01 || tack.at_mm + half > length + 0.01)
    c.tell("tack {} does not lie on its seam", tack.id);
  const Vec3 at = line.start + (line.end - line.start) * (tack.at_mm / length);
  for (const Vent& vent : c.box.vents)
    if (c.on_face(seam, vent.face) &&
        norm(at - c.box.faces[vent.face].placement.at(vent.at)) < 0.5 * in_mm(vent.diameter))
      c.tell("tack {} lies over the vent in {}", tack.id, c.box.faces[vent.face].id);
}

void check_spacing(const Checking& c, const Seam& seam, double length, Tacks tacks) {
  std::sort(tacks.begin(), tacks.end(),
            [](const PlannedTack* a, const PlannedTack* b) { return a->at_mm < b->at_mm; });
  const TackPractice practice =
      tack_practice(mm(c.thinnest_mm()), mm(c.thinnest_mm()), c.job.rules.tack_rule);
  const double pitch = in_mm(c.job.rules.tack_pitch.value_or(practice.pitch.high));
  // Beside a vent a tack moves aside; stitches are tacked where a stitch will lie.
  const bool free = !seam.stitch && !has_vent(c, seam);
  for (std::size_t i = 0; i + 1 < tacks.size(); ++i) {
    const PlannedTack &a = *tacks[i], &b = *tacks[i + 1];
    if (b.at_mm - a.at_mm < 0.5 * (a.length_mm + b.length_mm) - 0.01)
      c.tell("tacks {} and {} lie on each other", a.id, b.id);
    if (free && b.at_mm - a.at_mm > pitch + kTape_mm)
      c.tell("tacks {} and {} are {:.0f} mm apart, more than the pitch of {:.0f}", a.id, b.id,
             b.at_mm - a.at_mm, pitch);
  }
  if (!free) return;
  for (const double bare : {tacks.front()->at_mm, length - tacks.back()->at_mm})
    if (bare > pitch + kTape_mm) c.tell("seam {}: {:.0f} mm at an end are not tacked", seam.id, bare);
}

// No run on a seam before all its own tacks are made, in the list of steps and by the clock.
void check_before_welds(const Checking& c, const PlannedTack& tack) {
  const auto made = c.step_of_tack.find(tack.id);
  if (made == c.step_of_tack.end()) return; // told with the steps
  for (const PlannedRun& run : c.plan.runs) {
    const auto welded = c.step_of_run.find(run.id);
    if (run.seam != tack.seam || welded == c.step_of_run.end()) continue;
    const Step &tacking = c.plan.steps[made->second], &welding = c.plan.steps[welded->second];
    if (welded->second <= made->second || welding.start_s < tacking.end_s - 1e-6) {
      c.tell("step {} welds run {} before step {} has made tack {}", welding.number, run.id, tacking.number,
             tack.id);
      return;
    }
  }
}

void check_rounds(const Checking& c) {
  const std::vector<PlannedTack>& tacks = c.plan.tacks;
  int round = 0;
  for (const PlannedTack& tack : tacks) {
    if (tack.round < round || tack.round > round + 1)
      c.tell("tack {} of round {} follows round {}", tack.id, tack.round, round);
    round = tack.round;
  }
  // Square is looked at after the first round, while the box can still be pulled.
  const auto second =
      std::find_if(tacks.begin(), tacks.end(), [](const PlannedTack& t) { return t.round > 0; });
  if (second == tacks.end()) return;
  const auto first_step = c.step_of_tack.find(tacks.front().id), next_step = c.step_of_tack.find(second->id);
  if (first_step == c.step_of_tack.end() || next_step == c.step_of_tack.end()) return;
  const bool can_be_read = std::any_of(c.plan.measures.begin(), c.plan.measures.end(),
                                       [](const PlannedMeasure& m) { return m.kind == "diagonals"; });
  bool looked = !can_be_read;
  for (std::size_t i = first_step->second; i < next_step->second; ++i)
    for (const Check& check : c.plan.steps[i].checks)
      for (const std::string& id : check.measures)
        looked = looked ||
                 std::any_of(c.plan.measures.begin(), c.plan.measures.end(),
                             [&](const PlannedMeasure& m) { return m.id == id && m.kind == "diagonals"; });
  if (!looked) c.tell("no diagonals are read between the first round of tacks and the second");
}

// One of those that were weighed is taken: the first that is as good as the best to a tenth of a limit.
void check_orders(const Checking& c) {
  constexpr double kSame = 0.1, kRounding = 1e-6;
  const std::vector<TackOrderCompared>& orders = c.plan.tack_orders;
  if (orders.empty()) return;
  double best = 1e30;
  for (const TackOrderCompared& order : orders) {
    best = std::min(best, order.worst);
    if (!(order.worst >= std::max(order.square, order.gap) - kRounding))
      c.tell("the order {} of the tacks is better than the worse of its two parts", order.key);
    if (!(order.worst <= order.square + order.gap + kRounding))
      c.tell("the order {} of the tacks is worse than both its parts", order.key);
    if (!(order.gap_mm.low <= order.gap_mm.value && order.gap_mm.value <= order.gap_mm.high))
      c.tell("the band of the gap of the order {} is not in order", order.key);
  }
  const auto good = std::find_if(orders.begin(), orders.end(), [&](const TackOrderCompared& order) {
    return order.worst <= best + kSame + kRounding;
  });
  for (const TackOrderCompared& order : orders)
    if (order.chosen != (&order == &*good))
      c.tell("of the orders of the tacks {} is to be taken, {} is{}", good->key, order.key,
             order.chosen ? "" : " not");
}

void check_knock_down(const Checking& c) {
  const auto flat = [&](const std::string& seam_id) {
    const std::size_t seam = c.seam_index(seam_id);
    return seam < c.box.seams.size() && c.box.seams[seam].side == WeldSide::outside;
  };
  const std::size_t knock = c.last_step([](const Step& s) { return s.phase == Phase::knock_down; });
  for (const PlannedTack& tack : c.plan.tacks) {
    const auto made = c.step_of_tack.find(tack.id);
    if ((tack.then == "knock-down") != flat(tack.seam))
      c.tell("tack {} is to be {}: a disc gets {} it", tack.id,
             flat(tack.seam) ? "knocked down" : "feathered", flat(tack.seam) ? "at" : "not at");
    if (!flat(tack.seam) || made == c.step_of_tack.end()) continue;
    if (!c.has(knock) || knock < made->second) {
      c.tell("tack {} is never knocked down", tack.id);
      return;
    }
  }
  for (const PlannedRun& run : c.plan.runs) {
    const auto welded = c.step_of_run.find(run.id);
    if (flat(run.seam) && welded != c.step_of_run.end() && c.has(knock) && welded->second < knock) {
      c.tell("run {} is welded over tacks that are not knocked down", run.id);
      return;
    }
  }
}

} // namespace

void check_tacks(const Checking& c) {
  for (const PlannedTack& tack : c.plan.tacks) {
    const std::size_t index = c.seam_index(tack.seam);
    if (index == c.box.seams.size()) {
      c.tell("tack {} lies on seam {}, which the job does not state", tack.id, tack.seam);
      continue;
    }
    check_place(c, tack, index);
    check_before_welds(c, tack);
  }
  for (std::size_t i = 0; i < c.box.seams.size(); ++i) {
    Tacks tacks;
    for (const PlannedTack& tack : c.plan.tacks)
      if (tack.seam == c.box.seams[i].id) tacks.push_back(&tack);
    const SeamLine& line = c.geometry.seams[i];
    const auto held = [&](std::size_t seam) { // by the tacks of the same line's other side
      return std::any_of(c.plan.tacks.begin(), c.plan.tacks.end(),
                         [&](const PlannedTack& tack) { return tack.seam == c.box.seams[seam].id; });
    };
    if (tacks.empty() && line.other_side && held(*line.other_side)) continue;
    if (tacks.empty())
      c.tell("seam {} is not tacked", c.box.seams[i].id);
    else
      check_spacing(c, c.box.seams[i], norm(line.end - line.start), std::move(tacks));
  }
  check_rounds(c);
  check_orders(c);
  check_knock_down(c);
}

} // namespace tacksquare::verify
