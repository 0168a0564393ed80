// What the box stands on: its own supports, or what lies on the table; what they carry is its weight.
#include "plan/verify/checking.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::verify {
namespace {

constexpr double kRounded_N = 0.1;             // each figure of a place
constexpr double kSame_mm = 2.0, kSame = 0.02; // the model's box may differ by what a saw takes

double welded_N(const Checking& c) {
  double sum = 0.0;
  for (std::size_t f = 0; f < c.box.faces.size(); ++f) {
    const Part& part = c.box.parts[c.box.faces[f].part];
    if (!part.loose)
      sum += c.geometry.faces[f].area_mm2 * c.thickness_mm(f) * 1e-9 *
             c.job.sheets[part.sheet].metal.density_kg_m3 * kGravity_m_s2;
  }
  return sum;
}

void check_places(const Checking& c, const FixturePlan& fixture, const ElasticStand& stand) {
  std::vector<std::string> supports;
  for (const PlannedPiece& piece : fixture.pieces)
    if (piece.kind == "support") supports.push_back(piece.id);
  if (!supports.empty()) {
    std::vector<std::string> on = stand.on;
    std::sort(supports.begin(), supports.end());
    std::sort(on.begin(), on.end());
    if (on != supports) c.tell("after {} the box stands on other supports than it has", stand.after);
  } else if (std::any_of(stand.on.begin(), stand.on.end(),
                         [](const std::string& id) { return id != "table"; })) {
    c.tell("after {} the box stands on supports that it does not have", stand.after);
  }
  for (std::size_t i = 0; i < stand.at.size() && i < stand.on.size(); ++i) {
    const double up_mm = dot(stand.at[i] - fixture.origin, fixture.z);
    if (stand.on[i] == "table" && std::abs(up_mm) > kSame_mm)
      c.tell("after {} the box stands on the table {} mm above it", stand.after, up_mm);
  }
}

// In each case the places carry just the weight, so it lies between the sums of what they carry at least and
// at most.
void check_carried(const Checking& c, const ElasticStand& stand) {
  const std::size_t n = stand.value.size();
  if (stand.low.size() != n || stand.high.size() != n || stand.nothing.size() != n ||
      (n != 0 && n != stand.at.size())) {
    c.tell("after {} what carries the box has not one figure for each place", stand.after);
    return;
  }
  if (n == 0) return;
  double low = 0.0, high = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    low += stand.low[i] - kRounded_N;
    high += stand.high[i] + kRounded_N;
    if (!in_order({stand.value[i], stand.low[i], stand.high[i]}) || stand.low[i] < 0.0)
      c.tell("after {} the band of what place {} carries is not in order", stand.after, i);
    if (!(stand.nothing[i] >= 0.0 && stand.nothing[i] <= 1.0) ||
        (stand.nothing[i] > 0.5 && stand.value[i] > kRounded_N))
      c.tell("after {} place {} carries nothing in {} of all cases", stand.after, i, stand.nothing[i]);
  }
  if (!(low <= stand.weight_N && stand.weight_N <= high))
    c.tell("after {} the places do not carry the weight of {} N", stand.after, stand.weight_N);
}

} // namespace

void check_stands(const Checking& c, const FixturePlan& fixture) {
  if (!c.plan.elastic) return;
  const double all_N = welded_N(c);
  for (const ElasticStand& stand : c.plan.elastic->stands) {
    const auto state = std::find_if(c.plan.elastic->states.begin(), c.plan.elastic->states.end(),
                                    [&](const ElasticState& each) { return each.after == stand.after; });
    if (state == c.plan.elastic->states.end())
      c.tell("the box stands after {}, which is no step", stand.after);
    if (stand.at.size() < 3 || stand.on.size() != stand.at.size())
      c.tell("after {} the box stands on {} places", stand.after, stand.at.size());
    if (!(stand.weight_N > 0.0 && stand.weight_N <= all_N * (1.0 + kSame)))
      c.tell("after {} the box weighs {} N, but all its metal {} N", stand.after, stand.weight_N, all_N);
    if (!c.geometry.closed && std::abs(stand.weight_N - all_N) > kSame * all_N)
      c.tell("after {} all is tacked, but {} N of {} N stand", stand.after, stand.weight_N, all_N);
    check_places(c, fixture, stand);
    check_carried(c, stand);
  }
}

} // namespace tacksquare::verify
