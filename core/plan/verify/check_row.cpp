// The row in its opening: sizes that add up, chances that can be, and red when it must be red.
#include "plan/verify/checking.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

namespace tacksquare::verify {
namespace {

constexpr double kSlack_mm = 1e-4;  // numbers of a plan are settled to nine digits
constexpr double kReading_mm = 0.1; // sizes are rounded to what a gauge is made to

class RowChecking {
 public:
  RowChecking(const Job& job, const Plan& plan, std::vector<std::string>& lines)
      : job_(job), plan_(plan), row_(*plan.row), opening_(*job.opening), lines_(lines) {}

  void check() {
    check_stands();
    check_clear();
    check_sums();
    check_sizes();
    check_chances();
    check_nesting();
    check_flush();
  }

 private:
  template <class... Args> void tell(fmt::format_string<Args...> format, Args&&... args) {
    lines_.push_back("row " + row_.name + ": " + fmt::format(format, std::forward<Args>(args)...));
  }

  const BoxPlan* planned(const std::string& id) const {
    const auto found =
        std::find_if(plan_.boxes.begin(), plan_.boxes.end(), [&](const BoxPlan& b) { return b.id == id; });
    return found == plan_.boxes.end() ? nullptr : &*found;
  }

  // What the job states of the place; nothing where it states no row.
  const RowPlace* place_of(std::size_t stand) const {
    return stand < opening_.row.size() ? &opening_.row[stand] : nullptr;
  }

  void check_stands() {
    std::size_t stated = opening_.row.size();
    if (stated == 0)
      for (const Box& box : job_.boxes)
        stated += static_cast<std::size_t>(box.count);
    if (row_.stands.size() != stated) tell("has {} boxes, the job {}", row_.stands.size(), stated);
    std::set<std::pair<std::string, int>> seen;
    for (std::size_t i = 0; i < row_.stands.size(); ++i) {
      const StandFit& stand = row_.stands[i];
      const BoxPlan* box = planned(stand.box);
      if (!box || stand.copy < 1 || stand.copy > box->count)
        tell("place {} is for {} {}, which is not planned", i + 1, stand.box, stand.copy);
      if (!seen.insert({stand.box, stand.copy}).second)
        tell("{} {} stands in it twice", stand.box, stand.copy);
      const RowPlace* place = place_of(i);
      if (!place) continue;
      if (stand.box != job_.boxes[place->box].id || stand.copy != place->copy)
        tell("place {} is for another box than the job states", i + 1);
      if (std::abs(stand.gap_mm - in_mm(place->gap)) > kSlack_mm)
        tell("place {} has another gap than the job states", i + 1);
      if (stand.cut_last != place->cut_last) tell("place {} is cut last, or not, against the job", i + 1);
    }
  }

  void check_clear() {
    double least = 1e300;
    for (const std::vector<Length>& line : opening_.widths)
      for (const Length reading : line)
        least = std::min(least, in_mm(reading));
    const ClearSize& width = row_.clear.width;
    if (std::abs(width.narrowest_mm - least) > kSlack_mm)
      tell("is narrowest at {:.2f} mm, the job says {:.2f}", width.narrowest_mm, least);
    for (const ClearSize* size : sizes()) {
      if (size->lost_to_plumb_mm < 0.0 || size->lost_to_obstacles_mm < 0.0)
        tell("gains by what stands in its way");
      const double left = size->narrowest_mm - size->lost_to_plumb_mm - size->lost_to_obstacles_mm;
      if (std::abs(left - size->mm) > kSlack_mm)
        tell("leaves {:.2f} mm clear, its parts {:.2f}", size->mm, left);
    }
  }
  std::vector<const ClearSize*> sizes() const {
    std::vector<const ClearSize*> all{&row_.clear.width};
    for (const auto* size : {&row_.clear.height, &row_.clear.depth})
      if (*size) all.push_back(&**size);
    return all;
  }

  double gaps_mm() const {
    return std::accumulate(row_.stands.begin(), row_.stands.end(), in_mm(opening_.clearance),
                           [](double sum, const StandFit& stand) { return sum + stand.gap_mm; });
  }
  // What boxes to their gauges take besides.
  double around_mm() const {
    double sum = 0.0;
    for (std::size_t i = 0; i < row_.stands.size(); ++i) {
      const RowPlace* place = place_of(i);
      sum += row_.stands[i].overhang_mm +
             2.0 * in_mm(place && place->coating ? *place->coating : opening_.coating);
    }
    return sum;
  }

  // The budget is what the three ways of reckoning take beyond boxes, gaps and clearance.
  void check_sums() {
    double boxes = 0.0, middle = 0.0, worst = 0.0, square = 0.0, share = 0.0;
    for (const StandFit& stand : row_.stands)
      boxes += stand.measured ? stand.target_mm : stand.nominal_mm;
    for (const BudgetLine& line : row_.budget) {
      middle += line.middle_mm;
      worst += line.middle_mm + line.worst_mm;
      square += line.rss_mm * line.rss_mm;
      share += line.share_mm;
      if (line.source.text.empty()) tell("cause {} has no source", line.key);
      if (line.worst_mm < -kSlack_mm || line.rss_mm < -kSlack_mm)
        tell("cause {} takes less than nothing", line.key);
    }
    const double before = boxes + gaps_mm();
    const auto same = [&](const char* way, double takes, const Reckoned& reckoned) {
      if (std::abs(before + takes - reckoned.row_mm) > kSlack_mm)
        tell("takes {:.3f} mm {}, its causes {:.3f}", reckoned.row_mm, way, before + takes);
      if (std::abs(row_.clear.width.mm - reckoned.row_mm - reckoned.left_mm) > kSlack_mm)
        tell("leaves {:.3f} mm {}, which is not clear width less row", reckoned.left_mm, way);
    };
    same("by the worst case", worst, row_.worst);
    same("by root-sum-square", middle + std::sqrt(square), row_.rss);
    same("by chance", share, row_.drawn);
    const auto cheaper = [](const BudgetLine& a, const BudgetLine& b) { return a.share_mm < b.share_mm; };
    if (std::is_sorted(row_.budget.rbegin(), row_.budget.rend(), cheaper)) return;
    tell("has a budget that does not tell the dearest first");
  }

  // Every box that passes its gap gauge leaves room for the others.
  void check_sizes() {
    double largest = 0.0;
    bool last = false;
    for (std::size_t i = 0; i < row_.stands.size(); ++i) {
      const StandFit& stand = row_.stands[i];
      largest += stand.largest_mm;
      last = last || (stand.cut_last && !stand.measured);
      if (!in_order(stand.width_mm)) tell("place {} expects a width that is not in order", i + 1);
      if (stand.measured) continue;
      if (stand.target_mm > stand.nominal_mm + kSlack_mm) tell("place {} aims at more than is stated", i + 1);
      const RowPlace* place = place_of(i);
      if (place && place->keep_size && std::abs(stand.target_mm - stand.nominal_mm) > kSlack_mm)
        tell("place {} keeps its size by the job, and is aimed at another", i + 1);
      if (stand.target_mm < stand.smallest_mm - kReading_mm)
        tell("place {} aims at less than is good", i + 1);
      if (row_.as_aimed.value >= row_.wanted_chance && stand.largest_mm < stand.target_mm - kSlack_mm)
        tell("place {} has a gap gauge that a box to size does not pass", i + 1);
    }
    const double all = largest + gaps_mm() + around_mm();
    if (row_.as_aimed.value >= row_.wanted_chance && all > row_.clear.width.mm + kReading_mm)
      tell("takes {:.2f} mm when all boxes just pass their gap gauges, clear are {:.2f}", all,
           row_.clear.width.mm);
    if (row_.last_mm.has_value() != last) tell("says what is left for a box that is cut last, or does not");
    if (row_.go_stick_mm > row_.clear.width.narrowest_mm + kSlack_mm)
      tell("has a go stick that is longer than the opening is wide");
    if (row_.packer_mm < 0.0) tell("has a packer of less than nothing");
  }

  void check_chance(const char* what, const Chance& chance) {
    constexpr double kQuantile = 1.6449, kEnough = 50.0, kNear = 1.25;
    const double p = chance.value, n = static_cast<double>(chance.draws);
    if (!(0.0 <= chance.low && chance.low <= p && p <= chance.high && chance.high <= 1.0) || n < 1.0) {
      tell("has a chance {} that is none", what);
      return;
    }
    // Where there are enough of both, the confidence is that of the normal distribution.
    if (n * p * (1.0 - p) < kEnough) return;
    const double wide = 2.0 * kQuantile * std::sqrt(p * (1.0 - p) / n), said = chance.high - chance.low;
    if (said > wide * kNear || said < wide / kNear)
      tell("has a chance {} that is sure to {:.4f}, not {:.4f}", what, said, wide);
  }

  void check_chances() {
    check_chance("as stated", row_.as_stated);
    check_chance("as aimed", row_.as_aimed);
    if (row_.height) check_chance("of the height", *row_.height);
    if (row_.depth) check_chance("of the depth", *row_.depth);
    if (row_.as_aimed.value < row_.as_stated.value) tell("goes in less often as aimed than as stated");
    bool told = false, red = false;
    for (const BoxPlan& box : plan_.boxes)
      for (const Caution& caution : box.cautions)
        if (caution.what.key == "caution.row") {
          told = true;
          red = red || caution.red;
        }
    if (row_.as_aimed.value < row_.wanted_chance && !told)
      tell("goes in less often than wanted, and no caution says so");
    if (row_.as_aimed.value < 0.5 && !red)
      tell("more likely does not go in than it does, and no red caution says so");
  }

  void check_nesting() {
    if (row_.nested.empty()) return;
    std::vector<std::size_t> places = row_.nested;
    std::sort(places.begin(), places.end());
    for (std::size_t i = 0; i < places.size() || i < row_.stands.size(); ++i)
      if (i >= places.size() || i >= row_.stands.size() || places[i] != i) {
        tell("nests in an order that is none of its boxes");
        return;
      }
    if (row_.nested_row_mm > row_.as_listed_row_mm + kSlack_mm) tell("takes more when it nests");
  }

  void check_flush() {
    for (const MustBeFlush& flush : row_.flush) {
      const BoxPlan* box = planned(flush.box);
      const auto is = [](const std::string& id) { return [&](const auto& each) { return each.id == id; }; };
      const bool side = box && std::any_of(box->faces.begin(), box->faces.end(), is(flush.side));
      const bool seam = box && std::any_of(box->seams.begin(), box->seams.end(), is(flush.where));
      if (!side || (flush.what == "seam-cap" && !seam))
        tell("has {} flush on {}, which {} does not have", flush.where, flush.side, flush.box);
      if (flush.proud_mm <= 0.0) tell("has {} flush, which is not proud", flush.where);
      if (flush.source.text.empty()) tell("has {} flush without a source", flush.where);
    }
  }

  const Job& job_;
  const Plan& plan_;
  const RowFit& row_;
  const HardOpening& opening_;
  std::vector<std::string>& lines_;
};

} // namespace

void check_row(const Job& job, const Plan& plan, std::vector<std::string>& lines) {
  if (job.opening.has_value() != plan.row.has_value())
    lines.emplace_back(job.opening ? "row: the job states an opening, and no row is planned"
                                   : "row: is planned, but the job states no opening");
  else if (job.opening)
    RowChecking(job, plan, lines).check();
}

} // namespace tacksquare::verify
