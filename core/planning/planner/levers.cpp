#include "planning/planner/levers.h"

#include "base/at_once.h"
#include "formulas/band_math.h"
#include "physics/elastic/ordering.h"
#include "planning/planner/case_of.h"
#include "planning/planner/elastic_case.h"
#include "planning/planner/fixing.h"
#include "planning/planner/tack_order.h"
#include "planning/planner/weigh_fixture.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <tuple>
#include <utility>

namespace tacksquare {
namespace {

using elastic::Ends;
using elastic::Judging;
using elastic::Making;
using elastic::Ordering;

constexpr double kMostSprings = 1800.0, kMostAnew = 1750.0; // half a second each
constexpr double kCloser = 0.5, kLonger = 1.5, kShorter = 0.5, kLessHeat = 0.8, kTruer = 0.5;
constexpr std::array kStock_mm = {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0}; // common practice, no source
static_assert(kLeverDraws == Judging::draws());
constexpr double kSameSheet = 1.05; // as measured

// A job that is planned anew.
struct Changed {
  std::string key;
  Text what;
  Job job;
};

Changed with_rules(const BoxCase& box, std::string key, Text what, Rules rules) {
  Changed made{std::move(key), std::move(what), box.job};
  made.job.rules = std::move(rules);
  return made;
}

std::size_t index_of(const BoxCase& box) {
  return static_cast<std::size_t>(&box.box - box.job.boxes.data());
}

// Corner and butt seams from the other side. What was ground outside is left inside: no disc gets there.
std::optional<Changed> from_other_side(const BoxCase& box) {
  if (box.closed()) return std::nullopt;
  Changed made{"side", {}, box.job};
  bool outside = false, inside = false;
  for (std::size_t s = 0; s < box.box.seams.size(); ++s) {
    if (box.geometry.seams[s].other_side) return std::nullopt;
    Seam& seam = made.job.boxes[index_of(box)].seams[s];
    if (seam.joint != JointKind::corner && seam.joint != JointKind::butt) continue;
    outside = outside || seam.side == WeldSide::inside;
    inside = inside || seam.side == WeldSide::outside;
    if (seam.side == WeldSide::outside) seam.finish = Finish::left;
    seam.side = seam.side == WeldSide::inside ? WeldSide::outside : WeldSide::inside;
  }
  if (!outside && !inside) return std::nullopt;
  made.what = simple(outside && inside ? "lever.side-other"
                     : inside          ? "lever.side-inside"
                                       : "lever.side-outside");
  return made;
}

// Cut edges stay as far from the neighbour's surface as they were.
void thicken(Box& box, std::size_t sheet, double times) {
  for (Face& face : box.faces)
    if (box.parts[face.part].sheet == sheet)
      for (double& setback : face.setback_mm)
        setback *= times;
}

std::optional<Changed> thicker(const BoxCase& box) {
  Changed made{"thicker", {}, box.job};
  std::vector<double> sizes;
  for (std::size_t s = 0; s < box.job.sheets.size(); ++s) {
    if (std::none_of(box.box.parts.begin(), box.box.parts.end(),
                     [&](const Part& part) { return !part.loose && part.sheet == s; }))
      continue;
    const double now = in_mm(box.job.sheets[s].thickness);
    const auto next = std::find_if(kStock_mm.begin(), kStock_mm.end(),
                                   [&](double stock) { return stock > kSameSheet * now; });
    if (next == kStock_mm.end()) return std::nullopt;
    made.job.sheets[s].thickness = mm(*next);
    thicken(made.job.boxes[index_of(box)], s, *next / now);
    sizes.push_back(*next);
  }
  made.what = sizes.size() == 1 ? Text{"lever.thicker", {length("thickness", sizes.front())}}
                                : simple("lever.thicker-each");
  return made;
}

std::vector<Changed> changes_of(const BoxCase& box) {
  const WorkRules& now = box.work.rules;
  std::vector<Changed> all;
  const auto with = [&](const char* key, Text what, auto change) {
    Rules rules = box.job.rules;
    change(rules);
    all.push_back(with_rules(box, key, std::move(what), std::move(rules)));
  };
  const double pitch = kCloser * now.tack_pitch_mm.value, tack = kLonger * now.tack_length_mm.value,
               run = kShorter * now.longest_run_mm.value;
  with("pitch", {"lever.pitch", {length("pitch", pitch)}}, [&](Rules& r) { r.tack_pitch = mm(pitch); });
  with("tack-length", {"lever.tack-length", {length("length", tack)}},
       [&](Rules& r) { r.tack_length = mm(tack); });
  with("runs", {"lever.runs", {length("run", run)}}, [&](Rules& r) { r.run_length = mm(run); });
  with("back-step", simple(now.back_step ? "lever.back-step-off" : "lever.back-step-on"),
       [&](Rules& r) { r.back_step = !now.back_step; });
  if (auto side = from_other_side(box)) all.push_back(std::move(*side));
  if (auto sheet = thicker(box)) all.push_back(std::move(*sheet));
  return all;
}

void keep_order_of_seams(const BoxCase& box, BoxCase& other) {
  const auto same_units = [](const SeamGroup& a, const SeamGroup& b) {
    return a.attitude == b.attitude && a.seams == b.seams;
  };
  if (box.order_in_rounds && box.work.before == other.work.before) {
    other.order = seam_by_seam(other.job, other.box, other.geometry, other.work, other.order,
                               box.judged_orders.front().seam_by_seam);
    hold_again(other);
    return;
  }
  const auto& groups = box.order.groups;
  if (box.work.before != other.work.before || other.order.seams == box.order.seams ||
      !std::equal(groups.begin(), groups.end(), other.order.groups.begin(), other.order.groups.end(),
                  same_units))
    return;
  other.order =
      with_seams(other.job, other.box, other.geometry, other.work, std::move(other.order), box.order.seams);
  hold_again(other);
}

// Each tack when the nearest one of its seam was made; the rim tacks first.
void keep_order_of_tacks(const BoxCase& box, BoxCase& other) {
  if (std::none_of(box.tack_orders.begin(), box.tack_orders.end(),
                   [](const TackOrderCompared& each) { return each.chosen && each.key != "planned"; }))
    return;
  std::vector<std::tuple<bool, std::size_t, double, std::size_t>> places;
  for (std::size_t t = 0; t < other.tacks.size(); ++t) {
    const Tack& tack = other.tacks[t];
    std::size_t nearest = box.tacks.size();
    double off_mm = 1e9;
    for (std::size_t i = 0; i < box.tacks.size(); ++i) {
      const double off = std::abs(box.tacks[i].at_mm - tack.at_mm);
      if (box.tacks[i].seam != tack.seam || off >= off_mm) continue;
      off_mm = off;
      nearest = i;
    }
    places.emplace_back(tack.round > 0, nearest, tack.at_mm, t);
  }
  std::sort(places.begin(), places.end());
  TackOrder order{{}, box.tack_orders, 0};
  for (const auto& place : places)
    order.order.push_back(std::get<3>(place));
  tack_by(order, other);
}

// Nothing where the change has given it another fixture.
void keep_pieces(const BoxCase& box, BoxCase& other) {
  if (box.fixed().compared.empty()) return;
  FewPieces few;
  for (const FixturePiece& piece : box.fixed().fixture.pieces) {
    const auto& all = other.fixed().fixture.pieces;
    if (std::none_of(all.begin(), all.end(), [&](const FixturePiece& each) {
          return each.id == piece.id && each.kind == piece.kind && each.faces == piece.faces;
        }))
      return;
    few.held.insert(piece.id);
    few.throughout = few.throughout && !piece.until_tacked;
  }
  hold_by(few, other);
}

bool in_reach(const BoxCase& box) {
  return std::all_of(box.order.runs.begin(), box.order.runs.end(), [&](const OrderedRun& run) {
    const std::size_t seam = box.work.seams[box.work.runs[run.run].seam].seam;
    return box.geometry.access[run.attitude][seam].reachable && run.position != WeldPosition::overhead;
  });
}

class Levers {
 public:
  explicit Levers(const BoxCase& box, ElasticCase made) : box_(box), made_(std::move(made)) {
    if (box.row) row_ = *box.row;
  }

  // Nothing where the box itself cannot be reckoned, which is told elsewhere.
  std::vector<Lever> all() {
    Diagnostics unused;
    const std::optional<Ordering> planned = ordering_of(box_, made_, unused);
    if (!planned) return {};
    const Ends ends = planned->ends(made_.making.events);
    before_ = chance(*planned->judging().kept(ends));
    planned_anew();
    other_draws(*planned, ends);
    held_otherwise();
    ordered_otherwise();
    std::stable_sort(levers_.begin(), levers_.end(),
                     [](const Lever& a, const Lever& b) { return in_draws(a.gain()) > in_draws(b.gain()); });
    for (std::size_t i = 0; i < levers_.size(); ++i)
      levers_[i].advised = i < kMostAdvised && levers_[i].seen();
    return std::move(levers_);
  }

 private:
  static double chance(int kept) { return static_cast<double>(kept) / Judging::draws(); }
  static long in_draws(double gain) { return std::lround(gain * Judging::draws()); }

  void add(std::string key, Text what, double before, double after) {
    levers_.push_back({std::move(key), std::move(what), before, after, false});
  }

  static std::optional<Ordering> ordering_of(const BoxCase& box, const ElasticCase& made, Diagnostics& out) {
    return Ordering::make(box.job, box.box, box.geometry, made.making, made.options, kWeighingSeed,
                          limits_of(box, made), out);
  }

  bool changes_nothing(const BoxCase& other, const Making& made) const {
    const auto thickness = [](const BoxCase& box) {
      std::vector<double> all;
      for (const WorkSeam& seam : box.work.seams)
        all.insert(all.end(), {seam.t_a_mm, seam.t_b_mm, seam.inside ? 1.0 : 0.0});
      return all;
    };
    const Making& now = made_.making;
    return made.tacks == now.tacks && made.welds == now.welds && made.events == now.events &&
           thickness(other) == thickness(box_);
  }

  std::optional<int> kept_by(const Job& job) const {
    Diagnostics faults;
    std::optional<BoxCase> other = case_of(job, index_of(box_), row_, faults);
    if (!other || faults.has_errors() || (in_reach(box_) && !in_reach(*other))) return std::nullopt;
    keep_order_of_seams(box_, *other);
    keep_order_of_tacks(box_, *other);
    keep_pieces(box_, *other);
    const ElasticCase made = coarse_case(*other);
    if (springs_in(made) > kMostAnew || changes_nothing(*other, made.making)) return std::nullopt;
    try {
      const std::optional<Ordering> ordering = ordering_of(*other, made, faults);
      if (!ordering) return std::nullopt;
      return ordering->judging().kept(ordering->ends(made.making.events));
    } catch (const NumericalFailure&) { // of this change only
      return std::nullopt;
    }
  }

  // Two at once: most of a model is made in one thread.
  void planned_anew() {
    std::vector<Changed> changes = changes_of(box_);
    std::vector<std::optional<int>> kept(changes.size());
    each_at_once(changes.size(), [&](std::size_t i) { kept[i] = kept_by(changes[i].job); });
    for (std::size_t i = 0; i < changes.size(); ++i)
      if (kept[i]) add(std::move(changes[i].key), std::move(changes[i].what), before_, chance(*kept[i]));
  }

  // The box as it is, of other shrinkage or misfit.
  void other_draws(const Ordering& planned, const Ends& ends) {
    const auto judged = [&](const Making& making) {
      const Judging judging(making, planned.prepared().cases, planned.judging().limits(), kWeighingSeed);
      return chance(*judging.kept(ends));
    };
    Making cooler = planned.making();
    for (elastic::SeamSpread& seam : cooler.seams)
      for (Band* band : {&seam.across_mm, &seam.force_N, &seam.angle_rad})
        *band = formulas::scaled(*band, kLessHeat);
    add("heat", simple("lever.heat"), before_, judged(cooler));
    Making truer = planned.making();
    bool bends = false;
    for (elastic::MisfitSpread& misfit : truer.misfits) {
      if (misfit.misfit.kind != elastic::Misfit::Kind::lean) continue;
      bends = true;
      misfit.middle *= kTruer;
      misfit.deviation *= kTruer;
    }
    if (bends) add("bends", simple("lever.bends"), before_, judged(truer));
  }

  void held_otherwise() {
    const auto& compared = box_.fixed().compared;
    const auto chosen = std::find_if(compared.begin(), compared.end(),
                                     [](const FixtureCompared& each) { return each.chosen; });
    if (chosen == compared.end()) return;
    const FixtureCompared* best = nullptr;
    for (const FixtureCompared& each : compared) {
      if (each.chosen) continue;
      if (each.key == "none")
        add("fixture-none", simple("lever.fixture-none"), chosen->kept, each.kept);
      else if (!best || each.kept > best->kept)
        best = &each;
    }
    if (!best) return;
    Text what = simple("lever.fixture-" + best->key);
    if (!best->without.empty()) what.args.push_back(word("piece", best->without));
    add("fixture", std::move(what), chosen->kept, best->kept);
  }

  void ordered_otherwise() {
    const auto squarest =
        std::find_if(box_.judged_orders.begin(), box_.judged_orders.end(),
                     [](const JudgedOrder& each) { return each.key == "squarest" && each.chance; });
    if (squarest != box_.judged_orders.end())
      add("order", simple("lever.order"), *box_.judged_orders.front().chance, *squarest->chance);
  }

  const BoxCase& box_;
  ElasticCase made_;
  std::optional<RowFit> row_;
  double before_ = 0.0;
  std::vector<Lever> levers_;
};

} // namespace

std::vector<Lever> levers_of(const BoxCase& box) {
  if (box.tacks.empty()) return {};
  ElasticCase made = coarse_case(box);
  if (made.measure.empty() || springs_in(made) > kMostSprings) return {};
  try {
    return Levers(box, std::move(made)).all();
  } catch (const NumericalFailure&) { // told when the box is reckoned
    return {};
  }
}

} // namespace tacksquare
