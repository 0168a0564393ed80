#include "planning/sequence/rounds.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace tacksquare {
namespace {

// A moment of a hundredth weighs as much as a kelvin of warmth: 100 points. Our choice, common practice has
// none.
constexpr double kLoadUnit = 1e6; // loads are whole millionths of (all heat x half diagonal)
constexpr long long kLoadPerPoint = 100;
constexpr long long kPeakWidth = 100;
constexpr double kPointsPerKelvin = 100.0;

struct SeamRuns {
  std::vector<std::size_t> runs, dabs; // in order of rank; dabs: those after the last other run
  bool stitched = false;

  // What the seam makes in the rounds that it joins.
  std::vector<std::vector<std::size_t>> turns() const {
    if (stitched && !runs.empty()) return {runs};
    std::vector<std::vector<std::size_t>> each;
    for (const std::size_t run : runs)
      each.push_back({run});
    return each;
  }
};

SeamRuns runs_of(const Box& box, const Work& work, std::size_t seam) {
  SeamRuns all;
  all.stitched = box.seams[work.seams[seam].seam].stitch.has_value();
  for (std::size_t run = 0; run < work.runs.size(); ++run)
    if (work.runs[run].seam == seam) all.runs.push_back(run);
  std::stable_sort(all.runs.begin(), all.runs.end(),
                   [&](std::size_t a, std::size_t b) { return work.runs[a].rank < work.runs[b].rank; });
  while (all.runs.size() > 1 && work.runs[all.runs.back()].dab) {
    all.dabs.insert(all.dabs.begin(), all.runs.back());
    all.runs.pop_back();
  }
  return all;
}

SeamGroup make_group(const Box& box, const Work& work, std::size_t attitude,
                     const std::vector<std::size_t>& seams, const SeamPairs& before) {
  SeamGroup group{attitude, seams, {}};
  const std::size_t units = seams.size();
  const auto unit_of = [&](std::size_t seam) {
    return static_cast<std::size_t>(std::find(seams.begin(), seams.end(), seam) - seams.begin());
  };
  std::vector<SeamRuns> runs;
  for (const std::size_t seam : seams)
    runs.push_back(runs_of(box, work, seam));
  // A seam that another one waits for is finished with its dabs.
  for (const auto& [a, b] : before) {
    if (unit_of(a) == units || unit_of(b) == units) continue;
    SeamRuns& first = runs[unit_of(a)];
    first.runs.insert(first.runs.end(), first.dabs.begin(), first.dabs.end());
    first.dabs.clear();
  }
  std::vector<std::vector<std::vector<std::size_t>>> turns;
  for (const SeamRuns& r : runs)
    turns.push_back(r.turns());
  // The waiting seam's first run shares a round with the other's last one.
  std::vector<std::size_t> offset(units, 0);
  for (std::size_t pass = 0; pass < units; ++pass) {
    for (const auto& [a, b] : before) {
      const std::size_t first = unit_of(a), second = unit_of(b);
      if (first == units || second == units) continue;
      const std::size_t last_round = offset[first] + std::max<std::size_t>(turns[first].size(), 1) - 1;
      offset[second] = std::max(offset[second], last_round);
    }
  }
  std::size_t ordinary = 0, dabbed = 0;
  for (std::size_t unit = 0; unit < units; ++unit) {
    ordinary = std::max(ordinary, offset[unit] + turns[unit].size());
    dabbed = std::max(dabbed, runs[unit].dabs.size());
  }
  group.rounds.assign(ordinary + dabbed, std::vector<std::vector<std::size_t>>(units));
  for (std::size_t unit = 0; unit < units; ++unit) {
    for (std::size_t i = 0; i < turns[unit].size(); ++i)
      group.rounds[offset[unit] + i][unit] = turns[unit][i];
    for (std::size_t i = 0; i < runs[unit].dabs.size(); ++i)
      group.rounds[ordinary + i][unit] = {runs[unit].dabs[i]};
  }
  return group;
}

// A long seam's last runs may follow on an earlier seam than the one before it; the mean over the rounds that
// both join stands for all of its runs, else pairs of long seams would look warmer than they are.
long long warmth_points(const Work& work, const SeamGroup& group, const FaceHeat& heat, std::size_t last,
                        std::size_t next) {
  double kelvin = 0.0;
  int shared = 0, runs = 0;
  for (const auto& round : group.rounds) {
    if (round[next].empty() || work.runs[round[next].front()].dab) continue;
    ++runs;
    if (round[last].empty() || work.runs[round[last].front()].dab) continue;
    ++shared;
    for (const std::size_t run : round[last])
      kelvin += heat.left_K(work.runs[run], work.runs[round[next].front()], work.crew.weld_start_s);
  }
  return shared == 0 ? 0 : std::llround(kPointsPerKelvin * kelvin * runs / shared);
}

// Seams that go together, in the order of the groups; one group of all where a seam would come before one
// that it waits for.
std::vector<std::vector<std::size_t>> parted(const Box& box, const BoxGeometry& geometry, const Work& work,
                                             std::size_t attitude, const std::vector<std::size_t>& seams,
                                             const SeamPairs& before) {
  const auto way = [&](std::size_t seam) {
    for (const Run& run : work.runs)
      if (run.seam == seam && !run.dab) return run_position(geometry, work, attitude, run);
    return WeldPosition::flat;
  };
  const auto rank = [&](std::size_t seam) {
    switch (way(seam)) {
    case WeldPosition::downhill:
    case WeldPosition::uphill:
      return 0;
    case WeldPosition::horizontal:
      return 1;
    case WeldPosition::flat:
      return 2;
    case WeldPosition::overhead:
      return 3;
    }
    return 3;
  };
  const auto outside_only = [&](std::size_t settings) {
    return std::none_of(seams.begin(), seams.end(), [&](std::size_t seam) {
      return work.seams[seam].settings == settings &&
             box.seams[work.seams[seam].seam].side == WeldSide::inside;
    });
  };
  std::map<std::tuple<bool, std::size_t, int>, std::vector<std::size_t>> groups;
  std::map<std::size_t, std::tuple<bool, std::size_t, int>> group_of;
  for (const std::size_t seam : seams) {
    const std::size_t settings = work.seams[seam].settings;
    group_of[seam] = {outside_only(settings), settings, rank(seam)};
    groups[group_of[seam]].push_back(seam);
  }
  for (const auto& [a, b] : before)
    if (group_of.count(a) && group_of.count(b) && group_of[b] < group_of[a]) return {seams};
  std::vector<std::vector<std::size_t>> in_order;
  for (auto& [key, members] : groups)
    in_order.push_back(std::move(members));
  return in_order;
}

} // namespace

std::vector<SeamGroup> make_groups(const Box& box, const BoxGeometry& geometry, const Work& work,
                                   const TurnPlan& turns, const SeamPairs& before,
                                   const std::vector<char>& comes_first) {
  std::vector<SeamGroup> groups;
  for (const Visit& visit : turns.visits) {
    std::vector<std::size_t> first, others;
    for (const std::size_t seam : visit.seams)
      (comes_first[seam] ? first : others).push_back(seam);
    for (const auto& seams : {first, others})
      for (const auto& part : parted(box, geometry, work, visit.attitude, seams, before))
        groups.push_back(make_group(box, work, visit.attitude, part, before));
  }
  return groups;
}

HeatScale::HeatScale(const BoxGeometry& geometry, const Work& work)
    : half_diagonal_mm_(0.5 * norm(geometry.high - geometry.low)) {
  Vec3 sum;
  for (const Run& run : work.runs) {
    sum = sum + run.middle * run.heat_J;
    total_J_ += run.heat_J;
  }
  if (total_J_ > 0.0) centroid_ = sum * (1.0 / total_J_);
}

Load HeatScale::load(const Run& run) const {
  if (total_J_ <= 0.0 || half_diagonal_mm_ <= 0.0) return {};
  const Vec3 moment = (run.middle - centroid_) * (kLoadUnit * run.heat_J / (total_J_ * half_diagonal_mm_));
  return {std::llround(moment.x), std::llround(moment.y), std::llround(moment.z)};
}

double HeatScale::moment(const Load& sum) const {
  return norm(Vec3{static_cast<double>(sum.x), static_cast<double>(sum.y), static_cast<double>(sum.z)}) /
         kLoadUnit;
}

RoundProblem make_problem(const Work& work, const SeamGroup& group, const SeamPairs& before,
                          const HeatScale& scale, const FaceHeat& heat, const Load& already) {
  RoundProblem problem;
  problem.units = group.seams.size();
  problem.rounds = group.rounds.size();
  problem.before = already;
  problem.load_per_point = kLoadPerPoint;
  problem.peak_width = kPeakWidth;
  problem.after.resize(problem.units);
  for (const auto& round : group.rounds) {
    for (const std::vector<std::size_t>& runs : round) {
      Load load;
      for (const std::size_t run : runs)
        load = load + scale.load(work.runs[run]);
      problem.joins.push_back(runs.empty() ? 0 : 1);
      problem.load.push_back(load);
    }
  }
  for (std::size_t last = 0; last < problem.units; ++last)
    for (std::size_t next = 0; next < problem.units; ++next)
      problem.follow.push_back(last == next ? 0 : warmth_points(work, group, heat, last, next));
  for (const auto& [a, b] : before) {
    const auto first = std::find(group.seams.begin(), group.seams.end(), a);
    const auto second = std::find(group.seams.begin(), group.seams.end(), b);
    if (first == group.seams.end() || second == group.seams.end()) continue;
    problem.after[static_cast<std::size_t>(second - group.seams.begin())].push_back(
        static_cast<std::size_t>(first - group.seams.begin()));
  }
  return problem;
}

Load total_load(const RoundProblem& problem) {
  Load sum;
  for (const Load& load : problem.load)
    sum = sum + load;
  return sum;
}

} // namespace tacksquare
