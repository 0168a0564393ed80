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

} // namespace

WeldOrder seam_by_seam(const Job& job, const Box& box, const BoxGeometry& geometry, const Work& work,
                       const WeldOrder& planned, const std::vector<std::size_t>& seams) {
  const HeatScale scale(geometry, work);
  const FaceHeat heat(job, box, geometry, work);
  WeldOrder order = planned;
  order.groups.clear();
  order.problems.clear();
  order.compared.clear();
  order.figures.turns = 0;
  std::size_t lies = planned.first_attitude;
  SeamOrders each;
  Load already;
  for (const bool dabs : {false, true})
    for (const std::size_t seam : seams) {
      SeamGroup group = group_of(planned, work, seam, dabs);
      if (group.rounds.empty()) continue;
      if (group.attitude != lies) ++order.figures.turns;
      lies = group.attitude;
      order.problems.push_back(make_problem(work, group, {}, scale, heat, already));
      already = already + total_load(order.problems.back());
      order.groups.push_back(std::move(group));
      each.push_back({0});
    }
  return with_seams(job, box, geometry, work, std::move(order), std::move(each));
}

} // namespace tacksquare
