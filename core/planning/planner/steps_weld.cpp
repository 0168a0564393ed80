// Weld, cool, release.
#include "planning/planner/checks.h"
#include "planning/planner/fixture_steps.h"
#include "planning/planner/steps.h"

#include <algorithm>

namespace tacksquare {
namespace {

const Run& run_of(const BoxCase& box, const OrderedRun& ordered) {
  return box.work.runs[ordered.run];
}

bool is_stitch(const BoxCase& box, const Run& run) {
  return box.box.seams[box.work.seams[run.seam].seam].stitch.has_value();
}

constexpr double kDabMove_s = 5.0; // from one dab to the next [P]

// How the torch is held downhill is a matter of the puddle that runs after it: wire, not rod.
std::string position_key(WeldPosition position, Process process) {
  static const char* const keys[] = {"position.flat", "position.horizontal", "position.downhill",
                                     "position.uphill", "position.overhead"};
  const bool fed = process == Process::mag || process == Process::mig;
  return position == WeldPosition::downhill && fed ? "position.downhill-torch"
                                                   : keys[static_cast<int>(position)];
}

// One run a step, but for a box of few seams that are long: its card is to stay at forty steps, so that runs
// are made in turn, one a seam, in one step.
bool in_turn(const BoxCase& box) {
  constexpr std::size_t kFewSeams = 4;
  constexpr std::ptrdiff_t kFewRuns = 8;
  return box.work.seams.size() <= kFewSeams &&
         std::count_if(box.work.runs.begin(), box.work.runs.end(),
                       [&](const Run& run) { return !run.dab && !is_stitch(box, run); }) > kFewRuns;
}

// Runs that make one step: the stitches of one seam that follow each other, the dabs that follow each other,
// runs in turn that are welded alike, else a run alone.
std::size_t end_of_step(const BoxCase& box, const std::vector<OrderedRun>& runs, std::size_t from) {
  const Run& first = run_of(box, runs[from]);
  const bool ordinary = !first.dab && !is_stitch(box, first);
  std::size_t end = from + 1;
  if (ordinary && !in_turn(box)) return end;
  for (; end < runs.size() && runs[end].attitude == runs[from].attitude; ++end) {
    const Run& next = run_of(box, runs[end]);
    if (next.dab != first.dab) break;
    if (first.dab) continue;
    if (!ordinary && next.seam != first.seam) break;
    if (!ordinary) continue;
    const bool again = std::any_of(
        runs.begin() + static_cast<std::ptrdiff_t>(from), runs.begin() + static_cast<std::ptrdiff_t>(end),
        [&](const OrderedRun& made) { return run_of(box, made).seam == next.seam; });
    const bool alike = runs[end].position == runs[from].position && !is_stitch(box, next) &&
                       box.work.seams[next.seam].settings == box.work.seams[first.seam].settings;
    if (again || !alike) break;
  }
  return end;
}

void write_turn(const BoxCase& box, std::size_t to, StepWriter& out) {
  const Attitude& attitude = box.geometry.attitudes[to];
  Step& step = out.add(Who::both, "step.turn",
                       {list("attitude", {attitude_name(box, attitude)}),
                        term("lift", std::string("lift.") + box.lift_word())},
                       box.work.crew.turn_s);
  step.look = simple("look.turn");
  if (attitude.down == "rim") step.odd = simple("why.clear-rim");
  for (const Vent& vent : box.box.vents)
    if (box.box.faces[vent.face].id == attitude.down) step.odd = simple("why.vent-down");
}

Step& write_runs(const BoxCase& box, const std::vector<OrderedRun>& runs, std::size_t from, std::size_t end,
                 StepWriter& out) {
  const Run& first = run_of(box, runs[from]);
  const WorkSeam& seam = box.work.seams[first.seam];
  double arc_s = 0.0;
  std::vector<std::string> ids, seams;
  for (std::size_t i = from; i < end; ++i) {
    const Run& run = run_of(box, runs[i]);
    ids.push_back(run.id);
    arc_s += run.arc_s;
    const std::string& id = box.work.seams[run.seam].id;
    if (std::find(seams.begin(), seams.end(), id) == seams.end()) seams.push_back(id);
  }
  const double n = static_cast<double>(end - from);
  const double start_s = first.dab ? kDabMove_s : box.work.crew.weld_start_s;
  const double seconds = arc_s + start_s * n;
  Step* step = nullptr;
  if (first.dab) {
    step = &out.add(Who::welder,
                    box.folded() && box.box.form != BoxForm::own_faces ? "step.dabs-folded"
                    : box.closed()                                     ? "step.dabs-closed"
                                                                       : "step.dabs",
                    {words("seams", seams), count("dabs", n)}, seconds);
    step->look = simple("look.dabs");
  } else if (end > from + 1 && !is_stitch(box, first)) {
    std::vector<Text> each;
    for (std::size_t i = from; i < end; ++i) {
      const Run& run = run_of(box, runs[i]);
      each.push_back({"run.in-turn",
                      {word("seam", box.work.seams[run.seam].id), length("from", run.from_mm, "steel-rule"),
                       length("to", run.to_mm, "steel-rule"), number("time", ArgKind::time_s, run.arc_s)}});
    }
    step = &out.add(Who::welder, "step.runs", {list("runs", std::move(each))}, seconds);
  } else if (end > from + 1) {
    std::vector<Text> places;
    for (std::size_t i = from; i < end; ++i) {
      const Run& run = run_of(box, runs[i]);
      places.push_back(
          {"stitch.at", {length("from", run.from_mm, "steel-rule"), length("to", run.to_mm, "steel-rule")}});
    }
    step = &out.add(Who::welder, "step.stitches",
                    {word("seam", seam.id), count("stitches", n), list("places", std::move(places)),
                     number("time", ArgKind::time_s, arc_s / n)},
                    seconds);
  } else {
    step = &out.add(Who::welder, "step.run",
                    {word("seam", seam.id), length("from", first.from_mm, "steel-rule"),
                     length("to", first.to_mm, "steel-rule"), number("time", ArgKind::time_s, arc_s)},
                    seconds);
  }
  double tie_in_mm = 0.0;
  for (std::size_t i = from; i < end; ++i)
    if (!is_stitch(box, run_of(box, runs[i])))
      tie_in_mm = std::max(tie_in_mm, run_of(box, runs[i]).tie_in_mm);
  if (tie_in_mm > 0.0) step->look = {"look.tie-in", {length("over", tie_in_mm, "steel-rule")}};
  double waited_s = 0.0;
  for (std::size_t i = from; i < end; ++i)
    waited_s += runs[i].waited_s;
  if (waited_s > 0.0) {
    step->until = {"until.start",
                   {number("limit", ArgKind::temperature_C, box.work.rules.start_limit_C->value),
                    number("time", ArgKind::time_s, waited_s),
                    number("low", ArgKind::time_s,
                           waited_s * formulas::kStillAirFilm.value / formulas::kStillAirFilm.high),
                    number("high", ArgKind::time_s,
                           waited_s * formulas::kStillAirFilm.value / formulas::kStillAirFilm.low)}};
  }
  step->runs = ids;
  step->arc_s = arc_s;
  return *step;
}

// Where the settings or the way of going change, the step says so. A dab goes as it comes.
void note_changes(const BoxCase& box, const std::vector<OrderedRun>& runs, std::size_t from, Step& step) {
  if (run_of(box, runs[from]).dab) return;
  const auto settings = [&](std::size_t i) { return box.work.seams[run_of(box, runs[i]).seam].settings; };
  const Arg position =
      term("position", position_key(runs[from].position, box.work.settings[settings(from)].process));
  if (from > 0 && settings(from) != settings(from - 1))
    step.what = {
        "step.now-settings",
        {list("step", {step.what}), word("settings", box.work.settings[settings(from)].id), position}};
  else if (from == 0 || runs[from].position != runs[from - 1].position)
    step.what = {"step.now", {list("step", {step.what}), position}};
}

// More than boxes differ anyhow, or about as much.
bool order_decides(const BoxCase& box) {
  return box.order_proof && (box.order_proof->matters == "at" || box.order_proof->matters == "above");
}

// A look half way: before the box is first turned; else after the inner runs of all seams where there are
// inner and outer runs, else half way through.
std::size_t half_way(const BoxCase& box, const std::vector<OrderedRun>& runs) {
  constexpr std::size_t kWorthALook = 4;
  for (std::size_t i = kWorthALook; i < runs.size(); ++i)
    if (runs[i].attitude != runs[i - 1].attitude) return i;
  std::size_t inner = 0;
  for (std::size_t i = 0; i < runs.size(); ++i)
    if (run_of(box, runs[i]).rank == 0 && !run_of(box, runs[i]).dab) inner = i + 1;
  return inner < runs.size() && inner > 1 ? inner : runs.size() / 2;
}

void write_half_way_check(const BoxCase& box, std::size_t lies, StepWriter& out) {
  std::vector<Check> checks;
  if (box.geometry.attitudes[lies].down != "rim") // nobody reads diagonals from below
    checks = check_of_diagonals(box, Stage::half_welded);
  Step& step =
      out.add(Who::grinder, checks.empty() ? "step.look-half-way-faces" : "step.look-half-way", {}, 0);
  step.look = simple("look.weld");
  step.checks = std::move(checks);
  step.seconds = box.work.crew.look_s + 2.0 * reading_time_s(box, step.checks);
  step.safe_stop_after = box.work.seams.size() > 4;
}

void write_cooling(const BoxCase& box, StepWriter& out) {
  const CoolingTimes times = cooling_times(box);
  out.phase(Phase::cool);
  Step& cool = out.add(Who::both, "step.cool", {}, 0);
  cool.until = {"until.touch",
                {number("limit", ArgKind::temperature_C, box.work.rules.touch_limit_C.value),
                 number("low", ArgKind::time_s, times.touch_s.low),
                 number("high", ArgKind::time_s, times.touch_s.high)}};
  if (box.closed()) cool.odd = simple("why.vent-cooling");
  cool.safe_stop_after = true;
}

} // namespace

std::vector<OrderedRun> inside_runs(const BoxCase& box) {
  std::vector<OrderedRun> runs;
  for (const OrderedRun& ordered : box.order.runs) {
    const std::size_t seam = run_of(box, ordered).seam;
    const auto& first = box.work.inside_first;
    if (std::find(first.begin(), first.end(), seam) != first.end()) runs.push_back(ordered);
  }
  return runs;
}

void write_run_steps(const BoxCase& box, const std::vector<OrderedRun>& runs, std::size_t lies,
                     bool with_look, StepWriter& out) {
  const bool made = with_look && !inside_runs(box).empty(); // a weld before these
  const std::size_t look_at = with_look && runs.size() >= 4 ? half_way(box, runs) : runs.size();
  for (std::size_t i = 0; i < runs.size();) {
    std::vector<std::string> ids;
    for (std::size_t j = i; j < end_of_step(box, runs, i); ++j)
      ids.push_back(run_of(box, runs[j]).id);
    using fixture::Why;
    for (const auto& [why, key] : {std::pair{Why::tacked, "why.off-tacked"},
                                   {Why::turn, "why.off-turn"},
                                   {Why::torch, "why.off-torch"}})
      take_off(box, leaving_before_runs(box, why, ids), key, made || i > 0, out);
    if (runs[i].attitude != lies) write_turn(box, runs[i].attitude, out);
    lies = runs[i].attitude;
    const std::size_t end = end_of_step(box, runs, i);
    Step& step = write_runs(box, runs, i, end, out);
    note_changes(box, runs, i, step);
    if (i == 0 && with_look && order_decides(box)) step.odd = simple("why.keep-order");
    if (i < look_at && end >= look_at && end < runs.size()) write_half_way_check(box, lies, out);
    i = end;
  }
}

void write_welding(const BoxCase& box, StepWriter& out) {
  std::vector<OrderedRun> runs;
  const std::vector<OrderedRun> inside = inside_runs(box);
  for (const OrderedRun& run : box.order.runs)
    if (std::none_of(inside.begin(), inside.end(),
                     [&](const OrderedRun& done) { return done.run == run.run; }))
      runs.push_back(run);

  const std::size_t tacked = tacking_attitude_index(box);
  out.phase(Phase::weld);
  write_run_steps(box, runs, inside.empty() ? tacked : inside.back().attitude, true, out);
  write_cooling(box, out);

  out.phase(Phase::release);
  if (!runs.empty() && runs.back().attitude != tacked) write_turn(box, tacked, out);
  const Pieces on = staying(box), clamped = without_stops(box, on);
  const std::string key = clamped.empty() ? "step.release-bare" : "step.release";
  std::vector<Arg> args;
  if (!clamped.empty()) args.push_back(list("pieces", names_of(box, clamped)));
  Step& release = out.add(Who::both, key, std::move(args), 60);
  release.off = ids_of(box, on);
  const Pieces formers = pieces_of_kind(box, {ItemKind::former});
  const bool wedged = std::any_of(formers.begin(), formers.end(), [&](std::size_t former) {
    return std::find(on.begin(), on.end(), former) != on.end();
  });
  if (!clamped.empty()) release.look = simple(wedged ? "look.release-wedge" : "look.release");
}

} // namespace tacksquare
