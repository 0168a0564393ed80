// The press brake: tooling that can exist, and deductions that can come out of it.
#include "base/numbers.h"
#include "formulas/bends.h"
#include "job/file/ranges.h"
#include "job/file/read_parts.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

namespace tacksquare {

namespace {

constexpr double kLeastDie = 4.0, kMostDie = 20.0; // openings in thicknesses of the sheet; common practice

std::string shown(double value_mm) {
  return shortest(round_to(value_mm, 0.01)) + " mm";
}

// The neutral line of a bend lies in the sheet: between its inside and its outside. False where it cannot.
bool check_deduction(const Element& e, const Deduction& d, const Sheet& sheet) {
  const double theta = in_rad(d.bend), r = in_mm(d.radius), t = in_mm(sheet.thickness);
  const double least = formulas::bend_deduction_mm(theta, r, t, 1.0).value;
  const double most = formulas::bend_deduction_mm(theta, r, t, 0.0).value;
  if (in_mm(d.deduction) >= least && in_mm(d.deduction) <= most) return true;
  e.out().error(
      "deduction-odd", e.where("is"),
      "a deduction of " + written(d.deduction) + " would put the neutral line of this bend " +
          (in_mm(d.deduction) < least ? "outside of" : "inside of") + " the sheet of " + shown(t),
      "between " + shown(least) + " and " + shown(most) +
          " for this bend, radius and thickness: two legs to the outer vertex less the flat length");
  return false;
}

using DeductionPlaces = std::map<std::tuple<std::size_t, Angle, Length>, Origin>;

void read_deduction(Element e, const Known& known, const Job& job, DeductionPlaces& places, Brake& brake) {
  Deduction d;
  d.where = e.where();
  const auto sheet = read_sheet_ref(e, known, job);
  e.require("bend", "90 deg");
  e.require("radius", "2 mm");
  e.require("is", "3.8 mm");
  const auto bend = e.quantity("bend", parse_angle, ranges::bend);
  const auto radius = e.quantity("radius", parse_length, ranges::radius);
  const auto is = e.quantity("is", parse_length, ranges::deduction);
  e.allow({});
  e.finish();
  if (!sheet || !bend || !radius || !is) return;
  d.sheet = *sheet;
  d.bend = *bend;
  d.radius = *radius;
  d.deduction = *is;
  const auto [first, added] = places.try_emplace({d.sheet, d.bend, d.radius}, d.where);
  if (!added)
    e.out().error("deduction-twice", e.where(),
                  "a deduction of this sheet, bend and radius is stated already",
                  "keep the one that was measured last", Note{"the first one", first->second});
  // One that cannot be is not kept: the flat pattern then goes by DIN 6935, and nothing false follows.
  if (known.sure_of_sheets && !check_deduction(e, d, job.sheets[*sheet])) return;
  brake.deductions.push_back(d);
}

// A kind of bend that the job has, and the first one of it.
struct Turned {
  double deg = 0.0; // turned through
  std::size_t sheet = 0;
  const Bend* bend = nullptr;
  const Box* box = nullptr;
  double radius_mm() const { return in_mm(bend->inside_radius); }
  Note note() const {
    return {"bend " + box->faces[bend->face_a].id + "-" + box->faces[bend->face_b].id + " of box " +
                quoted(box->id),
            bend->where};
  }
  std::string angle() const { return shortest(round_to(deg, 0.1)) + " deg"; }
};

std::vector<Turned> bent_work(const Known& known, const Job& job) {
  std::vector<Turned> work;
  for (const std::size_t index : known.sure_boxes) {
    const Box& box = job.boxes[index];
    for (const Part& part : box.parts) {
      for (const Bend& bend : part.bends) {
        const double cosine = std::clamp(
            dot(box.faces[bend.face_a].placement.normal(), box.faces[bend.face_b].placement.normal()), -1.0,
            1.0);
        const Turned turned{std::acos(cosine) * 180.0 / kPi, part.sheet, &bend, &box};
        const bool known_kind = std::any_of(work.begin(), work.end(), [&](const Turned& other) {
          return other.sheet == turned.sheet && std::abs(other.deg - turned.deg) < 0.01 &&
                 std::abs(other.radius_mm() - turned.radius_mm()) < 0.001;
        });
        if (!known_kind) work.push_back(turned);
      }
    }
  }
  return work;
}

// Deductions that no bend takes.
void check_used(const Brake& brake, const std::vector<Turned>& work, const Job& job, Diagnostics& out) {
  for (const Deduction& d : brake.deductions) {
    const auto takes = [&](const Turned& t) {
      return belongs_to(d, t.sheet, t.deg * kPi / 180.0, t.radius_mm());
    };
    if (std::any_of(work.begin(), work.end(), takes)) continue;
    std::string there;
    for (const Turned& t : work)
      if (t.sheet == d.sheet)
        there += (there.empty() ? "" : "; ") + t.angle() + " with a radius of " + shown(t.radius_mm());
    out.caution("deduction-unused", d.where,
                "no bend of sheet " + quoted(job.sheets[d.sheet].id) + " has " +
                    shortest(round_to(in_deg(d.bend), 0.1)) + " deg and a radius of " + written(d.radius) +
                    ": this deduction is not used",
                there.empty() ? "nothing of that sheet is bent"
                              : "its bends have " + there + "; within 0.5 deg and 0.1 mm fits");
  }
}

// All common practice.
constexpr double kDeepestNeck = 0.8;                    // of the punch's thickness
constexpr double kSpringsBackDeg = 1.0;                 // at the least
constexpr double kLeastRadius = 0.5, kMostRadius = 2.0; // of what air bending makes

// Faults between the sizes of the tooling.
class Tooling {
 public:
  Tooling(Element& e, const Brake& brake) : e_(e), b_(brake) {}

  void judge() {
    const double wedge = in_mm(b_.punch_thickness) / 2.0 / std::tan(in_rad(b_.punch_angle) / 2.0);
    if (wedge >= in_mm(b_.punch_height))
      odd("punch-angle",
          "a tip of this angle is as thick as the punch " + shown(wedge) +
              " above its edge, which is above the punch",
          "check angle, thickness and height of the punch");
    if (b_.punch_thickness > b_.ram_thickness * 2.0)
      odd("punch-thickness", "the punch is more than twice as thick as the ram that holds it",
          "ram-thickness counts over the clamps that hold the punch");
    if (b_.neck_in > b_.punch_thickness * kDeepestNeck)
      odd("neck-in",
          "the neck is set back by more than four fifths of the punch: too little is left to press with",
          "at most " + shown(in_mm(b_.punch_thickness) * kDeepestNeck));
    if (b_.neck_from >= b_.punch_height)
      odd("neck-from", "the neck begins above the punch",
          "it counts from the edge up: less than " + written(b_.punch_height));
    if (b_.die_opening >= b_.die_width)
      odd("die-opening", "the opening of the die is wider than the die",
          "die-opening is the width of the V, die-width that of the block");
    if (in_mm(b_.die_opening) / 2.0 >= in_mm(b_.die_height))
      odd("die-opening", "a V of this opening is deeper than the die is high",
          "check die-opening and die-height");
    if (b_.gauge_most <= b_.gauge_least)
      odd("gauge-most", "the back gauge ends where it has not begun",
          "gauge-least is its nearest place to the bend, gauge-most its farthest");
  }

  void judge(const std::vector<Turned>& work, const Job& job) {
    judge_punch(work);
    const std::set<std::size_t> too_narrow = judge_round(work, job);
    std::set<std::size_t> seen;
    for (const Turned& turned : work) {
      const Sheet& sheet = job.sheets[turned.sheet];
      const double ratio = b_.die_opening / sheet.thickness;
      if (!seen.insert(turned.sheet).second || too_narrow.count(turned.sheet) != 0 ||
          (ratio >= kLeastDie && ratio <= kMostDie))
        continue;
      e_.out().caution("die-for-sheet", e_.where("die-opening"),
                       "the die opens " + fixed(ratio, 1) + " thicknesses of sheet " + quoted(sheet.id),
                       "usual are 6 to 12, at least " + shortest(kLeastDie) + " and at most " +
                           shortest(kMostDie) + ": " + shown(kLeastDie * in_mm(sheet.thickness)) + " to " +
                           shown(kMostDie * in_mm(sheet.thickness)));
    }
    judge_radii(work, too_narrow);
  }

 private:
  void judge_punch(const std::vector<Turned>& work) {
    const auto sharpest = std::max_element(
        work.begin(), work.end(), [](const Turned& a, const Turned& b) { return a.deg < b.deg - 1e-6; });
    if (sharpest == work.end()) return;
    const double finished = 180.0 - sharpest->deg, punch = in_deg(b_.punch_angle);
    if (punch > finished + 0.01)
      odd("punch-angle", "this punch is too blunt for a bend of " + sharpest->angle(),
          "at most " + shortest(round_to(finished, 0.1)) + " deg, less what springs back", sharpest->note());
    else if (punch > finished - kSpringsBackDeg)
      e_.out().caution("punch-angle", e_.where("punch-angle"),
                       "a bend of " + sharpest->angle() +
                           " springs back, and this punch leaves too little to bend it further",
                       "a degree or more springs back: at most " +
                           shortest(round_to(finished - kSpringsBackDeg, 0.1)) + " deg",
                       sharpest->note());
  }

  // The flat of both halves lies on the die's edges when the bend is made: the round between them, outside
  // radius r + t over half of the angle to each side, has to go in. The sheets that have a bend too large.
  std::set<std::size_t> judge_round(const std::vector<Turned>& work, const Job& job) {
    std::set<std::size_t> sheets;
    const Turned* worst = nullptr;
    double most_mm = 0.0;
    for (const Turned& turned : work) {
      const double outside_mm = turned.radius_mm() + in_mm(job.sheets[turned.sheet].thickness);
      const double wide_mm = 2.0 * outside_mm * std::sin(0.5 * turned.deg * kPi / 180.0);
      if (wide_mm <= in_mm(b_.die_opening) + 0.005) continue;
      sheets.insert(turned.sheet);
      if (wide_mm <= most_mm) continue;
      worst = &turned;
      most_mm = wide_mm;
    }
    if (worst != nullptr)
      odd("die-opening",
          "the round of a bend of " + worst->angle() + " with an inside radius of " +
              shown(worst->radius_mm()) + " in sheet " + quoted(job.sheets[worst->sheet].id) + " is " +
              shown(most_mm) + " wide: it does not go into this die",
          "more than that, usual are 6 to 12 thicknesses; or a smaller inside radius", worst->note());
    return sheets;
  }

  void judge_radii(const std::vector<Turned>& work, const std::set<std::size_t>& told) {
    const double makes_mm = formulas::air_bend_radius_mm(in_mm(b_.die_opening));
    std::vector<double> seen;
    for (const Turned& turned : work) {
      const double r = turned.radius_mm(), share = r / makes_mm;
      if (told.count(turned.sheet) != 0 || (share >= kLeastRadius - 1e-9 && share <= kMostRadius + 1e-9) ||
          std::find(seen.begin(), seen.end(), r) != seen.end())
        continue;
      seen.push_back(r);
      e_.out().caution("radius-for-die", e_.where("die-opening"),
                       "bent in air, this die makes an inside radius of about " +
                           shown(round_to(makes_mm, 0.1)) + ", and " + shown(r) + " is stated",
                       "state the radius that comes out (about a sixth of the opening in mild steel), or "
                       "take an opening of about " +
                           shown(6.0 * r) + ": blanks go by the radius",
                       turned.note());
    }
  }

  void odd(std::string_view name, const std::string& message, const std::string& remedy,
           std::optional<Note> also = {}) {
    e_.out().error("tooling-odd", e_.where(name), message, remedy, std::move(also));
  }

  Element& e_;
  const Brake& b_;
};

} // namespace

void read_brake(Element& e, const Known& known, Job& job) {
  Brake b;
  const std::size_t before = e.reading().errors();
  b.where = e.where();
  b.name = e.text("name").value_or("");
  const auto need = [&](std::string_view name, std::string_view example, Range<Length> range) {
    e.require(name, example);
    return e.quantity(name, parse_length, range).value_or(mm(0));
  };
  e.require("punch-angle", "86 deg");
  b.punch_angle = e.quantity("punch-angle", parse_angle, ranges::punch).value_or(deg(0));
  b.punch_height = need("punch-height", "100 mm", ranges::tooling);
  b.punch_thickness = need("punch-thickness", "20 mm", ranges::tooling);
  b.neck_from = e.quantity("neck-from", parse_length, ranges::tooling_or_none).value_or(mm(0));
  b.neck_in = e.quantity("neck-in", parse_length, ranges::tooling_or_none).value_or(mm(0));
  b.ram_thickness = need("ram-thickness", "80 mm", ranges::tooling);
  b.die_opening = need("die-opening", "16 mm", ranges::tooling);
  b.die_width = need("die-width", "60 mm", ranges::tooling);
  b.die_height = need("die-height", "60 mm", ranges::tooling);
  b.bed_thickness = need("bed-thickness", "90 mm", ranges::tooling);
  b.gauge_least = need("gauge-least", "8 mm", ranges::gauge_reach);
  b.gauge_most = need("gauge-most", "600 mm", ranges::gauge_reach);
  b.shortest_punch = e.quantity("shortest-punch", parse_length, ranges::tooling_or_none).value_or(mm(0));
  if (e.has("neck-from") != e.has("neck-in"))
    e.out().error("neck-half", e.where(), "a neck has a beginning and a depth, and one of them is not stated",
                  "for example neck-from=\"25 mm\" neck-in=\"8 mm\"");
  const std::vector<Turned> work = known.sure_of_sheets ? bent_work(known, job) : std::vector<Turned>{};
  if (e.reading().errors() == before) {
    Tooling tooling(e, b);
    tooling.judge();
    tooling.judge(work, job);
  }
  DeductionPlaces places;
  for (const Element& deduction : e.children("deduction"))
    read_deduction(deduction, known, job, places, b);
  if (known.sure_of_sheets && known.sure_of_boxes) check_used(b, work, job, e.out());
  e.allow({"deduction"});
  e.finish();
  job.brake = std::move(b);
}

} // namespace tacksquare
