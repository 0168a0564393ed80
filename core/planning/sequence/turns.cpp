#include "planning/sequence/turns.h"

#include "base/ids.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace tacksquare {
namespace {

constexpr int kAllowed = 1;
constexpr std::size_t kMostVisits = 5;
constexpr double kThinSheet_mm = 3.0;
constexpr double kOpposite = 0.9; // cosine

// Down thin sheet a steel wire runs ahead of its heat, up it burns through. A rod, and aluminium, go either
// way.
int badness_of(WeldPosition position, bool thin, Process process) {
  const bool steel_wire = process == Process::mag;
  switch (position) {
  case WeldPosition::flat:
    return 0;
  case WeldPosition::downhill:
    return !thin ? 2 : steel_wire ? 0 : 1;
  case WeldPosition::horizontal:
    return 1;
  case WeldPosition::uphill:
    return thin && steel_wire ? 2 : 1;
  case WeldPosition::overhead:
    return 3;
  }
  return 3;
}

// The side that has to be open to the pair while they fit and tack: where the last face goes on, or the rim.
std::optional<Vec3> way_in(const Box& box, const BoxGeometry& geometry, const Work& work) {
  for (const Face& face : box.faces)
    if (work.last_face == face.id) return face.placement.normal();
  return geometry.opening ? std::optional(geometry.opening->outward) : std::nullopt;
}

// The stated one; else the one with the way in on top.
std::optional<std::size_t> first_attitude(const Box& box, const BoxGeometry& geometry, const Work& work) {
  const std::optional<Vec3> in = way_in(box, geometry, work);
  for (std::size_t i = 0; i < geometry.attitudes.size(); ++i) {
    const Attitude& attitude = geometry.attitudes[i];
    if (box.attitude ? attitude.down == *box.attitude : in && dot(attitude.down_direction, *in) < -kOpposite)
      return i;
  }
  return std::nullopt;
}

class Turner {
 public:
  Turner(const Box& box, const BoxGeometry& geometry, const Work& work, const SeamPairs& before)
      : attitudes_(geometry.attitudes.size()), seams_(work.seams.size()), before_(before) {
    if (attitudes_ == 0) throw InternalError("turns: the box has no way to lie");
    badness_.assign(attitudes_, std::vector<int>(seams_, 0));
    least_.assign(seams_, 0);
    for (std::size_t seam = 0; seam < seams_; ++seam) {
      for (std::size_t attitude = 0; attitude < attitudes_; ++attitude) {
        badness_[attitude][seam] = position_badness(box, geometry, work, attitude, seam);
        least_[seam] = attitude == 0 ? badness_[0][seam] : std::min(least_[seam], badness_[attitude][seam]);
      }
      length_.push_back(std::llround(work.seams[seam].welded_mm));
      by_id_.push_back(seam);
    }
    std::sort(by_id_.begin(), by_id_.end(),
              [&](std::size_t a, std::size_t b) { return id_before(work.seams[a].id, work.seams[b].id); });
    start_ = first_attitude(box, geometry, work);
    sort_by_precedence();
  }

  TurnPlan plan() {
    std::vector<std::size_t> sequence;
    for (std::size_t visits = 1; visits <= kMostVisits && best_.empty(); ++visits)
      try_sequences(sequence, visits);
    TurnPlan plan;
    plan.fewest = !best_.empty();
    if (best_.empty()) best_ = greedy_sequence();
    const std::vector<std::size_t> visit_of = *share(best_);
    for (const std::size_t attitude : best_)
      plan.visits.push_back({attitude, {}});
    for (const std::size_t seam : by_id_)
      plan.visits[visit_of[seam]].seams.push_back(seam);
    return plan;
  }

 private:
  bool allowed(std::size_t attitude, std::size_t seam) const {
    return badness_[attitude][seam] <= std::max(kAllowed, least_[seam]);
  }

  // by_id_ so that each seam stands after those that it waits for.
  void sort_by_precedence() {
    std::vector<char> done(seams_, 0);
    while (topological_.size() < seams_) {
      const auto ready = std::find_if(by_id_.begin(), by_id_.end(), [&](std::size_t seam) {
        return !done[seam] && std::none_of(before_.begin(), before_.end(), [&](const auto& pair) {
          return pair.second == seam && !done[pair.first];
        });
      });
      if (ready == by_id_.end()) throw InternalError("turns: seams wait for each other in a ring");
      done[*ready] = 1;
      topological_.push_back(*ready);
    }
  }

  // The visit of each seam: between the earliest and the latest one that precedence leaves, where it lies
  // best.
  std::optional<std::vector<std::size_t>> share(const std::vector<std::size_t>& sequence) const {
    const std::size_t visits = sequence.size();
    std::vector<std::size_t> latest(seams_, visits - 1), chosen(seams_, 0);
    for (auto seam = topological_.rbegin(); seam != topological_.rend(); ++seam) {
      for (const auto& [a, b] : before_)
        if (a == *seam) latest[a] = std::min(latest[a], latest[b]);
      while (!allowed(sequence[latest[*seam]], *seam)) {
        if (latest[*seam] == 0) return std::nullopt;
        --latest[*seam];
      }
    }
    for (const std::size_t seam : topological_) {
      std::size_t from = 0;
      for (const auto& [a, b] : before_)
        if (b == seam) from = std::max(from, chosen[a]);
      chosen[seam] = latest[seam];
      for (std::size_t visit = latest[seam] + 1; visit-- > from;) {
        const std::size_t attitude = sequence[visit];
        if (allowed(attitude, seam) && badness_[attitude][seam] <= badness_[sequence[chosen[seam]]][seam])
          chosen[seam] = visit;
      }
    }
    return chosen;
  }

  void try_sequences(std::vector<std::size_t>& sequence, std::size_t visits) {
    if (sequence.size() < visits) {
      for (std::size_t attitude = 0; attitude < attitudes_; ++attitude) {
        if (sequence.empty() ? start_ && *start_ != attitude : sequence.back() == attitude) continue;
        sequence.push_back(attitude);
        try_sequences(sequence, visits);
        sequence.pop_back();
      }
      return;
    }
    const auto visit_of = share(sequence);
    if (!visit_of) return;
    long long badness = 0;
    for (std::size_t seam = 0; seam < seams_; ++seam)
      badness += length_[seam] * badness_[sequence[(*visit_of)[seam]]][seam];
    if (best_.empty() || badness < best_badness_) {
      best_ = sequence;
      best_badness_ = badness;
    }
  }

  std::vector<std::size_t> greedy_sequence() const {
    std::vector<std::size_t> sequence;
    std::vector<char> done(seams_, 0);
    const auto finish = [&](std::size_t attitude, std::vector<char>& state) {
      std::size_t finished = 0;
      for (const std::size_t seam : topological_) {
        const bool ready = std::all_of(before_.begin(), before_.end(), [&](const auto& pair) {
          return pair.second != seam || state[pair.first];
        });
        if (state[seam] || !ready || !allowed(attitude, seam)) continue;
        state[seam] = 1;
        ++finished;
      }
      return finished;
    };
    if (start_) {
      sequence.push_back(*start_);
      finish(*start_, done);
    }
    while (std::find(done.begin(), done.end(), char{0}) != done.end()) {
      std::size_t most = 0, chosen = 0;
      for (std::size_t attitude = 0; attitude < attitudes_; ++attitude) {
        std::vector<char> tried = done;
        const std::size_t finished = finish(attitude, tried);
        if (finished > most) {
          most = finished;
          chosen = attitude;
        }
      }
      if (most == 0) throw InternalError("turns: no attitude lets the work go on");
      finish(chosen, done);
      sequence.push_back(chosen);
    }
    return sequence;
  }

  std::size_t attitudes_, seams_;
  const SeamPairs& before_;
  std::vector<std::vector<int>> badness_; // [attitude][seam]
  std::vector<int> least_;
  std::vector<long long> length_;
  std::vector<std::size_t> by_id_, topological_;
  std::optional<std::size_t> start_;
  std::vector<std::size_t> best_;
  long long best_badness_ = 0;
};

} // namespace

WeldPosition run_position(const BoxGeometry& geometry, const Work& work, std::size_t attitude,
                          const Run& run) {
  const SeamAccess& access = geometry.access[attitude][work.seams[run.seam].seam];
  return run.from_mm <= run.to_mm ? access.forward : access.backward;
}

bool shuts_a_vent(const Box& box, const Attitude& attitude) {
  return std::any_of(box.vents.begin(), box.vents.end(),
                     [&](const Vent& vent) { return box.faces[vent.face].id == attitude.down; });
}

namespace {

Run turned(Run run) {
  std::swap(run.from_mm, run.to_mm);
  return run;
}

// Of the runs as they are made away from the rim, or turned round.
int badness_of_runs(const Box& box, const BoxGeometry& geometry, const Work& work, std::size_t attitude,
                    std::size_t seam, bool round) {
  const WorkSeam& worked = work.seams[seam];
  const bool thin = std::max(worked.t_a_mm, worked.t_b_mm) <= kThinSheet_mm;
  const Process process = work.settings[worked.settings].process;
  const auto& stated = box.seams[worked.seam].position;
  int worst = 0;
  for (const Run& run : work.runs) {
    if (run.seam != seam || run.dab) continue;
    const WeldPosition position = run_position(geometry, work, attitude, round ? turned(run) : run);
    worst = std::max(worst, !stated ? badness_of(position, thin, process) : position == *stated ? 0 : 4);
  }
  return worst;
}

// A lip too short to stop short of its edge.
bool starts_on_free_edge(const BoxGeometry& geometry, const Work& work, std::size_t seam) {
  return std::any_of(work.runs.begin(), work.runs.end(), [&](const Run& run) {
    return run.seam == seam && !run.dab && geometry.seams[work.seams[seam].seam].start_at_rim &&
           run.from_mm <= 0.0;
  });
}

} // namespace

bool turned_round(const Box& box, const BoxGeometry& geometry, const Work& work, std::size_t attitude,
                  std::size_t seam) {
  return badness_of_runs(box, geometry, work, attitude, seam, true) <
             badness_of_runs(box, geometry, work, attitude, seam, false) &&
         !starts_on_free_edge(geometry, work, seam);
}

int position_badness(const Box& box, const BoxGeometry& geometry, const Work& work, std::size_t attitude,
                     std::size_t seam) {
  if (!geometry.access[attitude][work.seams[seam].seam].reachable) return 5;
  if (shuts_a_vent(box, geometry.attitudes[attitude])) return 4;
  const bool round = turned_round(box, geometry, work, attitude, seam);
  return std::max(round ? 2 : 0, badness_of_runs(box, geometry, work, attitude, seam, round));
}

std::vector<Run> directed_runs(const Box& box, const BoxGeometry& geometry, const Work& work,
                               const TurnPlan& turns) {
  std::vector<Run> all = work.runs;
  for (const Visit& visit : turns.visits)
    for (const std::size_t seam : visit.seams) {
      if (!turned_round(box, geometry, work, visit.attitude, seam)) continue;
      std::vector<std::size_t> own;
      for (std::size_t i = 0; i < all.size(); ++i)
        if (all[i].seam == seam && !all[i].dab) own.push_back(i);
      const bool back_step = work.rules.back_step && !box.seams[work.seams[seam].seam].stitch;
      for (std::size_t k = 0; k < own.size(); ++k) {
        const Run& lies_here = work.runs[back_step ? own[own.size() - 1 - k] : own[k]];
        Run& run = all[own[k]];
        run.from_mm = lies_here.to_mm;
        run.to_mm = lies_here.from_mm;
        run.arc_s = lies_here.arc_s;
        run.heat_J = lies_here.heat_J;
        run.middle = lies_here.middle;
      }
    }
  return all;
}

TurnPlan plan_turns(const Box& box, const BoxGeometry& geometry, const Work& work, const SeamPairs& before) {
  return Turner(box, geometry, work, before).plan();
}

} // namespace tacksquare
