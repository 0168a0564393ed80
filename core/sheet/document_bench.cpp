// The bench card: settings once on top, then the steps, one thing each.
#include "sheet/compose.h"
#include "sheet/draw.h"
#include "sheet/quantities.h"
#include "sheet/share.h"

#include <algorithm>

namespace tacksquare {

namespace {

const char* phase_key(Phase phase) {
  switch (phase) {
  case Phase::check_parts:
    return "phase.check-parts";
  case Phase::prepare:
    return "phase.prepare";
  case Phase::mark:
    return "phase.mark";
  case Phase::coupon:
    return "phase.coupon";
  case Phase::set_up:
    return "phase.set-up";
  case Phase::dry_fit:
    return "phase.dry-fit";
  case Phase::tack:
    return "phase.tack";
  case Phase::knock_down:
    return "phase.knock-down";
  case Phase::weld:
    return "phase.weld";
  case Phase::cool:
    return "phase.cool";
  case Phase::release:
    return "phase.release";
  case Phase::check:
    return "phase.check";
  case Phase::grind:
    return "phase.grind";
  case Phase::final_check:
    return "phase.final-check";
  case Phase::sign:
    break;
  }
  return "phase.sign";
}

ReadingStep step_of(const Composer& compose, const Check& check) {
  std::optional<double> expected;
  if (check.has_expected) expected = check.expected_mm.value;
  return compose.step(check.accept_low_mm, check.accept_high_mm, expected, check.gauge);
}

std::string check_go(const Composer& compose, const Check& check) {
  const ReadingStep step = step_of(compose, check);
  if (check.gauge == "gap-gauge")
    return compose.line("limit.gap-gauge",
                        {word("high", reading(check.accept_high_mm, step, Rounding::down))});
  return compose.limits(check.accept_low_mm, check.accept_high_mm, step);
}

std::string check_expect(const Composer& compose, const Check& check) {
  if (!check.has_expected) return {};
  const ReadingStep step = step_of(compose, check);
  const std::string value = reading(check.expected_mm.value, step);
  if (check.no_change_seen && check.accept_low_mm > 0.0)
    return compose.line("expect.same", {word("value", value)});
  if (check.no_change_seen)
    return compose.line("expect.no-change",
                        {word("most", reading(check.accept_high_mm, step, Rounding::down))});
  const std::string low = reading(check.expected_mm.low, step), high = reading(check.expected_mm.high, step);
  if (low == high) return compose.line("expect.value", {word("value", value)});
  const std::string band = range_text(low, high, compose.word("range.to"));
  return compose.line("expect.band", {word("value", value), word("band", band)});
}

// What stands on the card already. A ladder of several rungs is printed once.
class Ladders {
 public:
  explicit Ladders(const Composer& compose) : compose_(compose) {}

  // Leaves the rungs out and says where they stand, when they do.
  void refer(const std::string& step, DocumentCheck& check) {
    if (check.put_right.size() < 2) return;
    const auto same =
        std::find_if(told_.begin(), told_.end(), [&](const Told& t) { return t.rungs == check.put_right; });
    if (same == told_.end()) {
      told_.push_back({step, check.what, check.put_right});
      last_ = told_.size() - 1;
      return;
    }
    const auto index = static_cast<std::size_t>(same - told_.begin());
    const Arg of_check = word("check", same->check), in_step = word("step", same->step);
    const bool only = std::none_of(told_.begin(), told_.end(), [&](const Told& other) {
      return &other != &*same && other.step == same->step;
    });
    if (same->step == step)
      check.put_right_as =
          index == last_ ? compose_.word("off.above") : compose_.line("off.above-check", {of_check});
    else
      check.put_right_as = only || same->check == check.what
                               ? compose_.line("off.step", {in_step})
                               : compose_.line("off.step-check", {in_step, of_check});
    check.put_right.clear();
    last_ = index;
  }

 private:
  struct Told {
    std::string step, check;
    std::vector<DocumentRung> rungs;
  };
  const Composer& compose_;
  std::vector<Told> told_;
  std::size_t last_ = 0; // the ladder of the check before
};

// Whether the words of a step give a time.
bool tells_time(const Text& text) {
  return std::any_of(text.args.begin(), text.args.end(), [](const Arg& arg) {
    return arg.kind == ArgKind::time_s || std::any_of(arg.list.begin(), arg.list.end(), tells_time);
  });
}

DocumentCheck document_check(const Composer& compose, const BoxPlan& box, const Step& step,
                             const Check& check) {
  DocumentCheck out;
  out.what = compose.text(check.what);
  out.gauge = compose.term("gauge.", check.gauge);
  out.go = check_go(compose, check);
  out.expect = check_expect(compose, check);
  // One blank needs no place, but where two checks of a step have the same name.
  const auto alike = std::count_if(step.checks.begin(), step.checks.end(),
                                   [&](const Check& other) { return other.what == check.what; });
  out.blanks = blanks(compose, box, check, check.measures.size() > 1 || alike > 1);
  if (check.gauge != "gap-gauge") out.unit = compose.unit(ArgKind::length_mm, check.gauge);
  for (const Remedy& rung : check.ladder) {
    const std::string time =
        rung.seconds > 0.0 ? compose.quantity(ArgKind::time_s, rung.seconds) : std::string();
    out.put_right.push_back({compose.who(rung.who), compose.text(rung.what), time});
  }
  return out;
}

DocumentStep document_step(const Composer& compose, const BoxPlan& box, const Step& step, Ladders& ladders) {
  DocumentStep out;
  out.number = std::to_string(step.number);
  out.by = step.who;
  out.who = compose.who(step.who);
  out.what = compose.text(step.what);
  if (step.alongside) out.notes.push_back(compose.word("step.alongside"));
  if (!step.look.empty()) out.notes.push_back(compose.text(step.look));
  if (!step.until.empty()) out.notes.push_back(compose.text(step.until));
  if (!step.odd.empty()) out.notes.push_back(compose.text(step.odd));
  out.record = compose.text(step.record);
  if (!step.meanwhile.empty()) {
    const Who other = step.who == Who::welder    ? Who::grinder
                      : step.who == Who::grinder ? Who::welder
                                                 : Who::both;
    out.meanwhile = compose.line(
        "step.meanwhile", {word("who", compose.who(other)), word("text", compose.text(step.meanwhile))});
  }
  for (const Check& check : step.checks) {
    out.checks.push_back(document_check(compose, box, step, check));
    ladders.refer(out.number, out.checks.back());
  }
  if (step.hold) {
    out.hold = compose.line(step.second ? "step.hold" : "step.hold-one", {count("number", *step.hold)});
    out.names = {out.who};
    if (step.second) out.names.push_back(compose.who(*step.second));
  }
  if (step.arc_s > 0.0 && !tells_time(step.what)) out.time = compose.quantity(ArgKind::time_s, step.arc_s);
  out.safe_stop_after = step.safe_stop_after;
  return out;
}

std::vector<DocumentPhase> phases(const Composer& compose, const BoxPlan& box) {
  std::vector<DocumentPhase> out;
  std::optional<Phase> last;
  Ladders ladders(compose);
  for (const Step& step : box.steps) {
    if (step.phase != last) out.push_back({compose.word(phase_key(step.phase)), {}});
    last = step.phase;
    out.back().steps.push_back(document_step(compose, box, step, ladders));
  }
  return out;
}

// Travel is told as the time for a stretch: of 100 mm, as the plan has it, or of 4 in.
Text with_stretch(const Composer& compose, Text line) {
  constexpr double kFourInches = 4.0 * kMmPerInch / 100.0;
  if (line.key == "setting.travel" && compose.inch())
    for (Arg& arg : line.args)
      arg.number *= kFourInches;
  return line;
}

std::vector<DocumentBlock> settings(const Composer& compose, const BoxPlan& box) {
  std::vector<DocumentBlock> out;
  for (const SettingsBlock& block : box.settings) {
    std::vector<std::string> seams;
    for (const PlannedSeam& seam : box.seams)
      if (seam.settings == block.id) seams.push_back(seam.id);
    const std::string process = compose.term("process.", block.process);
    std::string title = compose.line("settings.title", {word("id", block.id), word("process", process)});
    if (box.settings.size() > 1 && !seams.empty())
      title = compose.line("settings.for", {word("title", title), word("seams", names(compose, box, seams))});
    if (block.starting_point) title = compose.line("settings.start", {word("title", title)});
    std::vector<std::string> lines;
    for (const Text& line : block.lines)
      lines.push_back(compose.text(with_stretch(compose, line)));
    out.push_back({title, std::move(lines), true});
  }
  return out;
}

std::vector<std::string> times(const Composer& compose, const BoxPlan& box) {
  std::vector<std::string> out;
  const auto add = [&](const char* key, ArgKind kind, const Band& band) {
    if (band.value > 0.0)
      out.push_back(compose.line(key, {number("value", kind, band.value), number("low", kind, band.low),
                                       number("high", kind, band.high)}));
  };
  add("time.first", ArgKind::time_s, box.first_off_s);
  add("time.repeat", ArgKind::time_s, box.repeat_s);
  add("time.arc", ArgKind::time_s, box.arc_s);
  add("time.grind", ArgKind::time_s, box.grind_s);
  add("time.used", ArgKind::mass_g, box.wire_g);
  add("time.gas", ArgKind::gas_l, box.gas_l);
  return out;
}

DocumentTable seam_map(const Composer& compose, const BoxPlan& box) {
  DocumentTable out;
  const auto mm = [&](double value) { return compose.place(value); };
  out.title = compose.line("map.title", {word("unit", compose.unit(ArgKind::length_mm))});
  out.head = {compose.word("map.seam"), compose.word("map.faces"), compose.word("map.length"),
              compose.word("map.tacks"), compose.word("map.runs")};
  out.numeric = {false, false, true, false, false};
  for (const PlannedSeam& seam : box.seams) {
    std::vector<PlannedTack> tacks;
    std::copy_if(box.tacks.begin(), box.tacks.end(), std::back_inserter(tacks),
                 [&](const PlannedTack& tack) { return tack.seam == seam.id; });
    std::stable_sort(tacks.begin(), tacks.end(),
                     [](const PlannedTack& a, const PlannedTack& b) { return a.at_mm < b.at_mm; });
    std::vector<std::string> at, runs;
    for (const PlannedTack& tack : tacks)
      at.push_back(mm(tack.at_mm));
    for (std::size_t i = 0; i < box.runs.size(); ++i) {
      const PlannedRun& run = box.runs[i];
      if (run.seam != seam.id) continue;
      const Arg order = count("number", static_cast<double>(i + 1));
      runs.push_back(run.dab ? compose.line("map.dab", {order, word("at", mm(run.to_mm))})
                             : compose.line("map.run", {order, word("from", mm(run.from_mm)),
                                                        word("to", mm(run.to_mm))}));
    }
    const std::string faces = compose.line("map.pair", {word("a", seam.face_a), word("b", seam.face_b)});
    out.rows.push_back({compose.line("plain", {word("text", seam.id)}), faces, mm(seam.length_mm),
                        comma_joined(at), comma_joined(runs)});
  }
  out.below = {compose.word("map.below")};
  return out;
}

std::vector<std::string> sign_off(const Composer& compose) {
  std::vector<std::string> out;
  for (const char* key : {"sign.used", "sign.time", "sign.fire"})
    out.push_back(compose.word(key));
  return out;
}

// The opening that the box goes into: its gap gauge, and the place to tick.
std::vector<std::string> place_in_row(const Composer& compose, const RowFit& row, const BoxPlan& box) {
  std::vector<Text> gauges;
  for (const StandFit& stand : row.stands) {
    if (stand.box != box.id) continue;
    const Text gauge{
        "plain",
        {word("text", compose.quantity(ArgKind::length_mm, stand.largest_mm, "gap-gauge", Rounding::down))}};
    if (std::find(gauges.begin(), gauges.end(), gauge) == gauges.end()) gauges.push_back(gauge);
  }
  if (gauges.empty()) return {};
  const std::size_t places = row.stands.size();
  return {compose.line(gauges.size() == 1 ? "head.gauge" : "head.gauges",
                       {word("opening", row.name), list("gauges", gauges)}),
          places == 2   ? compose.word("head.left-right")
          : places == 3 ? compose.word("head.left-middle-right")
                        : compose.line("head.place", {count("places", static_cast<double>(places))})};
}

} // namespace

void compose_bench(const Composer& compose, const Plan& plan, const BoxPlan& box, DocumentBox& out) {
  out.title = compose.line("plain", {word("text", box.name.empty() ? box.id : box.name)});
  out.head = page_head(compose, plan);
  if (box.count > 1) {
    const auto place = out.head.begin() + (plan.number.empty() ? 0 : 1);
    out.head.insert(place, compose.line("head.count", {count("count", box.count)}));
  }
  if (plan.row)
    for (std::string& line : place_in_row(compose, *plan.row, box))
      out.head.push_back(std::move(line));
  for (const Caution& caution : box.cautions)
    if (caution.red) out.red.push_back(compose.text(caution.what));
  out.facts = compose.texts(box.facts);
  if (box.fixture) out.facts.push_back(compose.line("fixture.fact", {word("name", box.fixture->name)}));
  out.settings = settings(compose, box);
  out.before = {{compose.word("head.kit"), compose.texts(box.kit), true},
                {compose.word("head.time"), times(compose, box), true},
                {compose.word("head.care"), compose.texts(box.care), false},
                {compose.word("head.where-mm"), compose.texts(box.where_mm), true}};
  out.before.erase(std::remove_if(out.before.begin(), out.before.end(),
                                  [](const DocumentBlock& block) { return block.lines.empty(); }),
                   out.before.end());
  out.bench_drawings = bench_drawings(compose, box);
  out.seam_map = seam_map(compose, box);
  out.phases = phases(compose, box);
  out.sign_off = sign_off(compose);
}

} // namespace tacksquare
