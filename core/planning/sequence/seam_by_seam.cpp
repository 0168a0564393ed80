#include "planning/sequence/weld_order.h"

#include <algorithm>

namespace tacksquare {
namespace {

// What a seam makes, dabs or all else.
SeamGroup group_of(const WeldOrder& planned, const Work& work, std::size_t seam, bool dabs) {
  for (const SeamGroup& group : planned.groups) {
    const auto unit = std::find(group.seams.begin(), group.seams.end(), seam);
    if (unit == group.seams.end()) continue;
    SeamGroup made{group.attitude, {seam}, {}};
    for (const auto& round : group.rounds) {
      std::vector<std::size_t> runs;
      for (const std::size_t run : round[static_cast<std::size_t>(unit - group.seams.begin())])
        if (work.runs[run].dab == dabs) runs.push_back(run);
      if (!runs.empty()) made.rounds.push_back({runs});
    }
    return made;
  }
  return {};
}

// Seam after seam; then the dabs, those first that the box need not be turned for.
std::vector<SeamGroup> groups_of(const WeldOrder& planned, const Work& work,
                                 const std::vector<std::size_t>& seams) {
  std::vector<SeamGroup> groups, dabs;
  for (const std::size_t seam : seams) {
    for (const bool dab : {false, true})
      if (SeamGroup group = group_of(planned, work, seam, dab); !group.rounds.empty())
        (dab ? dabs : groups).push_back(std::move(group));
  }
  while (!dabs.empty()) {
    const auto lies = std::find_if(dabs.begin(), dabs.end(), [&](const SeamGroup& group) {
      return !groups.empty() && group.attitude == groups.back().attitude;
    });
    const auto next = lies == dabs.end() ? dabs.begin() : lies;
    groups.push_back(std::move(*next));
    dabs.erase(next);
  }
  return groups;
}

} // namespace

WeldOrder seam_by_seam(const Job& job, const Box& box, const BoxGeometry& geometry, const Work& work,
                       const WeldOrder& planned, const std::vector<std::size_t>& seams) {
  const HeatScale scale(geometry, work);
  const FaceHeat heat(job, box, geometry, work);
  WeldOrder order = planned;
  order.groups = groups_of(planned, work, seams);
  order.problems.clear();
  order.compared.clear();
  order.figures.turns = 0;
  std::size_t lies = planned.first_attitude;
  Load already;
  for (const SeamGroup& group : order.groups) {
    if (group.attitude != lies) ++order.figures.turns;
    lies = group.attitude;
    order.problems.push_back(make_problem(work, group, {}, scale, heat, already));
    already = already + total_load(order.problems.back());
  }
  SeamOrders each(order.groups.size(), {0});
  return with_seams(job, box, geometry, work, std::move(order), std::move(each));
}

} // namespace tacksquare
