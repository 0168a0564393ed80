// make_plan: what nobody at a bench would do. Common practice of the trade, no source, where nothing else is
// named.
#include "plan/verify/check_plan.h"
#include "support/planned.h"
#include "work/work.h"

#include <algorithm>
#include <map>
#include <set>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

// The sample with one text in it replaced.
Planned changed(const std::string& sample, const std::string& from, const std::string& to) {
  std::string xml = sample_text(sample);
  const std::size_t at = xml.find(from);
  REQUIRE(at != std::string::npos);
  xml.replace(at, from.size(), to);
  return planned(xml);
}

// A sample by itself, nothing to go into.
std::string without_opening(std::string xml) {
  const std::size_t from = xml.find("<opening "), to = xml.find("</opening>");
  REQUIRE(to != std::string::npos);
  return xml.erase(from, to + std::string("</opening>").size() - from);
}

const BoxPlan& box_of(const Planned& made) {
  return made.plan.boxes.at(0);
}

std::vector<const Step*> steps_of(const BoxPlan& box, const std::string& key) {
  std::vector<const Step*> found;
  for (const Step& step : box.steps)
    if (step.what.key == key) found.push_back(&step);
  return found;
}

bool has(const BoxPlan& box, const std::string& key) {
  return !steps_of(box, key).empty();
}

// Keys of all rungs of all checks.
std::set<std::string> remedies_of(const BoxPlan& box) {
  std::set<std::string> keys;
  for (const Step& step : box.steps)
    for (const Check& check : step.checks)
      for (const Remedy& remedy : check.ladder)
        keys.insert(remedy.what.key);
  return keys;
}

double number_of(const Text& text, const std::string& name) {
  for (const Arg& arg : text.args)
    if (arg.name == name) return arg.number;
  FAIL("no argument " << name);
  return 0.0;
}

} // namespace

TEST_CASE("a box is not laid on its vent while there is another way, and says so when there is none") {
  const Planned on_top = changed("ballast-float.xml", "vent face=\"R\" at=\"50 mm, 250 mm\"",
                                 "vent face=\"T\" at=\"50 mm, 50 mm\"");
  for (const PlannedRun& run : box_of(on_top).runs)
    CHECK(run.down != "T");
  // One vent in every face: it has to lie on one.
  std::string vents;
  for (const char* face : {"T", "U", "F", "B", "L"})
    vents +=
        std::string("<vent face=\"") + face + "\" at=\"50 mm, 50 mm\" diameter=\"8 mm\" plugged=\"last\"/>";
  const Planned all = changed("ballast-float.xml", "<vent ", vents + "<vent ");
  int told = 0;
  for (const Step* turn : steps_of(box_of(all), "step.turn"))
    told += turn->odd.key == "why.vent-down";
  CHECK(told == static_cast<int>(steps_of(box_of(all), "step.turn").size()));
  CHECK(told > 0);
}

TEST_CASE("no arc starts above the start limit: the sheet waits, and says until when") {
  const Planned free = planned_sample("battery-box.xml");
  const Planned cool = changed("battery-box.xml", "start-limit=\"60 C\"", "start-limit=\"35 C\"");
  double warmest = 0.0, coolest = 0.0;
  for (const PlannedRun& run : box_of(free).runs)
    warmest = std::max(warmest, run.warmth_K);
  for (const PlannedRun& run : box_of(cool).runs)
    coolest = std::max(coolest, run.warmth_K);
  REQUIRE(warmest > 15.0); // the limit bites
  CHECK(coolest <= 15.0);
  int waits = 0;
  for (const Step& step : box_of(cool).steps) {
    if (step.until.key != "until.start") continue;
    ++waits;
    CHECK(number_of(step.until, "limit") == 35.0);
    CHECK(number_of(step.until, "low") < number_of(step.until, "time"));
    CHECK(number_of(step.until, "high") > number_of(step.until, "time"));
  }
  CHECK(waits > 0);
  CHECK(box_of(cool).first_off_s.value > box_of(free).first_off_s.value);
  CHECK(check_plan(cool.job, cool.geometry, cool.plan).empty());
}

TEST_CASE("what holds a box from within goes in and comes out") {
  const Planned locker = planned(without_opening(sample_text("gear-locker.xml")));
  const std::vector<const Step*> former = steps_of(box_of(locker), "step.former");
  REQUIRE(former.size() == 1);
  // The bench sheet of the locker: 395.5 x 595.5, half a millimetre under the inside of 2 mm walls.
  CHECK(number_of(former[0]->what, "width") == Approx(395.5));
  CHECK(number_of(former[0]->what, "height") == Approx(595.5));
  CHECK(has(box_of(locker), "step.release"));

  const Planned tray = planned_sample("divided-tray.xml"); // dividers stand where a frame would
  CHECK_FALSE(has(box_of(tray), "step.former"));
  CHECK(has(box_of(tray), "step.corner-squares"));
  const std::vector<const Step*> inner = steps_of(box_of(tray), "step.inside-parts");
  REQUIRE(inner.size() == 1);
  const std::vector<Text>& places = inner[0]->what.args.at(0).list;
  REQUIRE(places.size() == 2);
  CHECK(number_of(places[0], "at") == Approx(200.0)); // as the job states it
  CHECK(number_of(places[1], "at") == Approx(400.0));

  // A lip turned in leaves less than the walls do: no frame gets past it.
  const std::string lipped = "<flange width=\"20 mm\" turned=\"in\" inside-radius=\"2 mm\"/></box>";
  CHECK(has(box_of(changed("gear-locker.xml", "</box>", lipped)), "step.corner-squares"));
  const std::string outward = "<flange width=\"20 mm\" turned=\"out\" inside-radius=\"2 mm\"/></box>";
  std::string text = without_opening(sample_text("gear-locker.xml")); // such lips do not go into the alcove
  text.replace(text.find("</box>"), 6, outward);
  CHECK(has(box_of(planned(text)), "step.former"));
}

TEST_CASE("a wall may come as a brake leaves it; only the finished box must be true") {
  const Planned locker = planned_sample("gear-locker.xml");
  const std::vector<const Step*> incoming = steps_of(box_of(locker), "step.wall-lean");
  REQUIRE(incoming.size() == 1);
  REQUIRE(incoming[0]->checks.size() == 1);
  const Check& check = incoming[0]->checks[0];
  CHECK(check.accept_high_mm == Approx(2.618).epsilon(1e-3)); // half a degree of 300 mm [derived]
  CHECK(number_of(check.ladder.at(0).what, "to") == Approx(5.236).epsilon(1e-3)); // one degree
  for (const Step* last : steps_of(box_of(locker), "step.square-final"))
    for (const Check& final_check : last->checks)
      if (final_check.what.key == "check.lean") CHECK(final_check.accept_high_mm == Approx(1.0));
}

TEST_CASE("nobody is told to bend a flat panel, or to reach into a box that is shut") {
  const std::set<std::string> shut = remedies_of(box_of(planned_sample("ballast-float.xml")));
  for (const char* key : {"fix.rebend", "fix.gap-over", "fix.planish", "fix.lean-over-block",
                          "fix.squeeze-set", "fix.slide-wedge", "fix.gap-colder", "fix.stiffen"}) {
    INFO(key);
    CHECK_FALSE(shut.count(key));
  }
  const std::set<std::string> panels = remedies_of(box_of(planned_sample("battery-box.xml")));
  CHECK_FALSE(panels.count("fix.rebend"));
  CHECK_FALSE(panels.count("fix.gap-over"));
  CHECK(panels.count("fix.gap-over-panel"));
  const std::set<std::string> folded = remedies_of(box_of(planned_sample("gear-locker.xml")));
  CHECK(folded.count("fix.rebend"));
  CHECK(folded.count("fix.gap-over"));
  for (const Text& line : box_of(planned_sample("ballast-float.xml")).kit)
    CHECK(line.key != "kit.backing-bar");
}

TEST_CASE("walls are tacked and squared before what stands inside them") {
  const Planned tray = planned_sample("divided-tray.xml");
  std::size_t last_wall = 0, first_inner = box_of(tray).tacks.size();
  for (std::size_t i = 0; i < box_of(tray).tacks.size(); ++i) {
    const std::string& seam = box_of(tray).tacks[i].seam;
    const bool inner = std::set<std::string>{"S9", "S10", "S11", "S12", "S13", "S14"}.count(seam) > 0;
    if (inner) first_inner = std::min(first_inner, i);
    if (!inner) last_wall = i;
  }
  CHECK(last_wall < first_inner);
  // The first four are at the rim, one a corner; then the diagonals.
  const std::vector<const Step*> rim = steps_of(box_of(tray), "step.tack-rim");
  REQUIRE(rim.size() == 1);
  CHECK(rim[0]->tacks.size() == 4);
}

TEST_CASE("the machine is set once for all seams that it serves, and a seam's stitches are made in one go") {
  const Planned tray = planned_sample("divided-tray.xml");
  const BoxPlan& box = box_of(tray);
  std::string settings, position, seam;
  int sets = 0;
  std::set<std::string> left;
  for (const PlannedRun& run : box.runs) {
    for (const PlannedSeam& planned_seam : box.seams)
      if (planned_seam.id == run.seam && planned_seam.settings != settings) {
        settings = planned_seam.settings;
        ++sets;
      }
    if (seam != run.seam && !seam.empty()) left.insert(seam);
    seam = run.seam;
    const bool stitched = run.seam == "S9" || run.seam == "S12"; // five stitches each
    if (stitched) CHECK_FALSE(left.count(run.seam));
  }
  CHECK(sets == 2);
  // Between two turns: all uprights, then all that lies.
  const Planned closed = planned_sample("ballast-float.xml");
  int changes = 0;
  std::string down, way;
  for (const PlannedRun& run : box_of(closed).runs) {
    if (run.dab) continue;
    changes += run.down == down && run.position != way;
    down = run.down;
    way = run.position;
  }
  CHECK(changes <= 1);
}

TEST_CASE("as welded, sizes are read clear of the beads: nothing proud is expected yet") {
  const Planned locker = planned_sample("gear-locker.xml");
  for (const PlannedMeasure& measure : box_of(locker).measures) {
    if (measure.kind != "width" || measure.bound_only) continue;
    INFO(measure.id);
    CHECK(measure.before_grinding_mm.value <= measure.expected_mm.value + 1e-9);
  }
  const Step* hold = steps_of(box_of(locker), "step.hold-as-welded").at(0);
  for (const Check& check : hold->checks)
    CHECK(check.expected_mm.value <= check.accept_high_mm);
  // Welds only shrink: the box is not wider than nominal, give or take the blank.
  CHECK(hold->checks.at(0).expected_mm.value < 400.0);
}

TEST_CASE("a time that the pair does not keep is told, and is a limit missed when that is likely") {
  const auto with_takt = [](const std::string& takt) {
    return changed("gear-locker.xml", "<crew ", "<crew takt=\"" + takt + "\" ");
  };
  const auto told = [](const Planned& made) {
    return std::count_if(box_of(made).cautions.begin(), box_of(made).cautions.end(),
                         [](const Caution& caution) { return caution.what.key == "caution.takt"; });
  };
  CHECK(told(with_takt("30 min")) == 1);
  CHECK(more_likely_missed(with_takt("30 min").plan));
  CHECK(told(with_takt("48 min")) == 1); // kept at the median, not at the slow end
  CHECK_FALSE(more_likely_missed(with_takt("48 min").plan));
  CHECK(told(with_takt("90 min")) == 0);
}

TEST_CASE("a bracket without rim or rectangle is read overall and at its corners, and nothing else is asked "
          "of it") {
  const std::string angle =
      "<tacksquare-job name=\"ANGLE\"><sheet id=\"s2\" metal=\"mild-steel\" thickness=\"2 mm\"/><box "
      "id=\"bracket\">"
      "<outside form=\"own-faces\" width=\"WIDTH mm\"/>"
      "<part id=\"base\"><face id=\"A\" origin=\"0 mm, 0 mm, 0 mm\" along=\"1, 0, 0\" up=\"0, 1, 0\">"
      "<point x=\"0 mm\" y=\"0 mm\"/><point x=\"100 mm\" y=\"0 mm\"/><point x=\"100 mm\" y=\"80 mm\"/>"
      "<point x=\"0 mm\" y=\"80 mm\"/></face></part>"
      "<part id=\"end\"><face id=\"E\" origin=\"100 mm, 0 mm, 0 mm\" along=\"0, 1, 0\" up=\"0, 0, 1\">"
      "<point x=\"0 mm\" y=\"0 mm\"/><point x=\"80 mm\" y=\"0 mm\"/><point x=\"80 mm\" y=\"50 mm\"/>"
      "<point x=\"0 mm\" y=\"50 mm\"/></face></part>"
      "<seam id=\"S1\" between=\"E A\" joint=\"corner\" corner=\"half-open-corner\" "
      "over=\"E\"/></box></tacksquare-job>";
  const auto with_width = [&](const std::string& width) {
    std::string xml = angle;
    xml.replace(xml.find("WIDTH"), 5, width);
    return planned(xml);
  };
  const Planned made = with_width("101");
  std::map<std::string, double> nominal;
  for (const PlannedMeasure& measure : box_of(made).measures)
    if (measure.kind == "width") nominal[measure.id] = measure.nominal_mm;
  // Middle surfaces 100 x 80 x 50: half a thickness of E on the right, of A underneath, and both sides of
  // neither's free edges.
  CHECK(nominal == std::map<std::string, double>{{"width-1", 101.0}, {"depth-1", 80.0}, {"height-1", 51.0}});
  for (const char* key :
       {"step.hold-fit-up", "step.square-as-welded", "step.square-final", "step.square-dry"})
    CHECK_FALSE(has(box_of(made), key)); // they ask for diagonals
  for (const char* key : {"step.hold-fit-up-faces", "step.square-as-welded-faces", "step.square-faces"})
    CHECK(has(box_of(made), key));
  CHECK(check_plan(made.job, made.geometry, made.plan).empty());

  // A stated size that the drawing does not make is told; the stated one is what is measured.
  const auto drawn_otherwise = [](const Planned& plan) {
    Diagnostics told_of;
    for (std::size_t i = 0; i < plan.job.boxes.size(); ++i)
      make_work(plan.job, plan.job.boxes[i], plan.geometry[i], told_of);
    return std::count_if(told_of.items().begin(), told_of.items().end(),
                         [](const Diagnostic& d) { return d.code == "size-drawn"; });
  };
  CHECK(drawn_otherwise(made) == 0);
  const Planned other = with_width("100");
  CHECK(drawn_otherwise(other) == 1);
  CHECK(box_of(other).measures.at(0).nominal_mm == 100.0);
}

TEST_CASE("a closed box is built up with its last face on top, whichever face that is") {
  for (const auto& [last, down] : std::vector<std::pair<std::string, std::string>>{{"T", "U"}, {"R", "L"}}) {
    INFO(last);
    std::string xml = sample_text("ballast-float.xml");
    for (const auto& [from, to] :
         {std::pair<std::string, std::string>{"last-face=\"T\"", "last-face=\"" + last + "\""},
          {"vent face=\"R\"", "vent face=\"F\""}})
      xml.replace(xml.find(from), from.size(), to);
    const Planned made = planned(xml);
    bool told_so = false;
    for (const Text& fact : box_of(made).facts)
      told_so = told_so || (fact.key == "fact.lies" && fact.args.at(0).list.at(0).key == "attitude." + down);
    CHECK(told_so);
    CHECK(check_plan(made.job, made.geometry, made.plan).empty());
  }
}

TEST_CASE("an open box is fitted and tacked with its opening up, where frame and diagonals are") {
  for (const auto& [sample, down] : std::vector<std::pair<std::string, std::string>>{
           {"gear-locker.xml", "B"}, {"battery-box.xml", "U"}, {"divided-tray.xml", "U"}}) {
    INFO(sample);
    std::string lies;
    for (const Step& step : box_of(planned_sample(sample)).steps) {
      if (step.what.key == "step.lay-down" || step.what.key == "step.turn")
        lies = step.what.args.at(0).list.at(0).key;
      if (step.what.key == "step.lay-down") CHECK(lies == "attitude." + down);
      for (const Check& check : step.checks)
        if (check.what.key == "check.diagonals")
          CHECK(lies != "attitude.rim"); // nobody reads them from below
    }
  }
}

TEST_CASE("down thin sheet goes a steel wire; aluminium and a rod need not be turned over for it") {
  // Six seams of the tray stand upright: with a steel wire they would be welded downhill, with aluminium the
  // box is not turned for it.
  CHECK(box_of(planned_sample("divided-tray.xml")).orders.at(0).turns == 0);
  for (const PlannedRun& run : box_of(planned_sample("gear-locker.xml")).runs)
    if (!run.dab) CHECK(run.position == "downhill");
}

TEST_CASE("before its last face is on, a closed box is square as its opening is, and is read there") {
  const Planned made = planned_sample("ballast-float.xml");
  const auto stood = [&](const std::string& key) { return steps_of(box_of(made), key).at(0); };
  for (const char* key : {"step.square-dry", "step.hold-fit-up", "step.diagonals-again"}) {
    INFO(key);
    REQUIRE(stood(key)->checks.size() == 1);
    CHECK(stood(key)->checks[0].what.key == "check.diagonals-opening");
    CHECK(stood(key)->checks[0].measures == std::vector<std::string>{"diagonals-T"});
  }
  std::size_t faces = 0;
  for (const Check& check : stood("step.square-final")->checks)
    if (check.what.key == "check.diagonals") faces += check.measures.size();
  CHECK(faces == 6);
  // One round of tacks a step.
  for (const Step* step : steps_of(box_of(made), "step.tack-lid"))
    for (const std::string& id : step->tacks)
      for (const PlannedTack& tack : box_of(made).tacks)
        if (tack.id == id)
          CHECK(tack.round == [&] {
            for (const PlannedTack& first : box_of(made).tacks)
              if (first.id == step->tacks.front()) return first.round;
            return -1;
          }());
}

TEST_CASE(
    "a four-seam box has at most forty steps, however deep: many runs are made in turn, a round a step") {
  for (const char* depth : {"300 mm", "460 mm", "600 mm", "900 mm"}) {
    INFO(depth);
    std::string xml = without_opening(sample_text("gear-locker.xml"));
    const std::string stated = "depth=\"300 mm\"";
    REQUIRE(xml.find(stated) != std::string::npos);
    xml.replace(xml.find(stated), stated.size(), std::string("depth=\"") + depth + "\"");
    const Planned made = planned(xml);
    CHECK(box_of(made).steps.size() <= 40);
    CHECK(check_plan(made.job, made.geometry, made.plan).empty());
    for (const Step* step : steps_of(box_of(made), "step.runs")) {
      CHECK(step->runs.size() >= 2);
      CHECK(step->runs.size() <= 4);
      CHECK(step->what.args.at(0).list.size() == step->runs.size()); // each with its seconds
    }
  }
  CHECK(steps_of(box_of(planned_sample("gear-locker.xml")), "step.run").size() ==
        7); // and the first one: step.now
}

TEST_CASE("a box whose sizes are not stated says those that it is drawn with") {
  const Planned made = planned(odd_job_text("form-without-sizes.xml"));
  REQUIRE_FALSE(box_of(made).facts.empty());
  CHECK(box_of(made).facts[0].key == "fact.size-own");
  CHECK(number_of(box_of(made).facts[0], "x") == Approx(101.0));
  CHECK(number_of(box_of(made).facts[0], "z") == Approx(51.0));
}
