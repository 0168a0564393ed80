// make_plan: what must hold of every plan, whatever the job.
#include "plan/verify/check_plan.h"
#include "support/golden.h"
#include "support/planned.h"
#include "support/shuffled.h"
#include "support/table.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <map>
#include <set>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

// An open box of five own faces, drawn on the middle surfaces, walls of two heights so that no two walls are
// alike: width along x, depth along y.
struct Wall {
  std::string id;
  Vec3 origin, along, up;
  double x, y;
};

std::string vector_text(Vec3 v, bool with_unit) {
  const char* unit = with_unit ? " mm" : "";
  return fmt::format("{}{}, {}{}, {}{}", v.x, unit, v.y, unit, v.z, unit);
}

struct Seen {
  std::string id, between;
};

// As it stands, or its mirror image in x = 0, or turned by quarter turns about the upright.
enum class Moved { not_at_all, mirrored, turned_1, turned_2, turned_3 };

Vec3 moved(Vec3 v, Moved how) {
  switch (how) {
  case Moved::mirrored:
    return {0.0 - v.x, v.y, v.z};
  case Moved::turned_1:
    return {0.0 - v.y, v.x, v.z};
  case Moved::turned_2:
    return {0.0 - v.x, 0.0 - v.y, v.z};
  case Moved::turned_3:
    return {v.y, 0.0 - v.x, v.z};
  case Moved::not_at_all:
    break;
  }
  return v;
}

std::string own_box(Moved how) {
  constexpr double w = 500, d = 320, h = 260;
  const std::vector<Wall> walls = {{"base", {0, 0, 0}, {0, 1, 0}, {1, 0, 0}, d, w},
                                   {"near", {0, 0, 0}, {1, 0, 0}, {0, 0, 1}, w, h},
                                   {"far", {w, d, 0}, {-1, 0, 0}, {0, 0, 1}, w, h},
                                   {"port", {0, d, 0}, {0, -1, 0}, {0, 0, 1}, d, h},
                                   {"starboard", {w, 0, 0}, {0, 1, 0}, {0, 0, 1}, d, h}};
  const std::vector<Seen> seams = {{"S1", "near port"}, {"S2", "near starboard"}, {"S3", "far starboard"},
                                   {"S4", "far port"},  {"S5", "near base"},      {"S6", "far base"},
                                   {"S7", "port base"}, {"S8", "starboard base"}};
  std::string xml = "<tacksquare-job name=\"OWN\"><sheet id=\"s2\" metal=\"mild-steel\" thickness=\"2 mm\"/>"
                    "<box id=\"own\">";
  for (const Wall& wall : walls) {
    // A mirror image is seen from outside with its x the other way round: the zero goes to the other end.
    const bool mirror = how == Moved::mirrored;
    const Vec3 origin = moved(mirror ? wall.origin + wall.along * wall.x : wall.origin, how);
    const Vec3 along = mirror ? moved(-wall.along, how) : moved(wall.along, how);
    xml += fmt::format("<part id=\"{0}\"><face id=\"{0}\" origin=\"{1}\" along=\"{2}\" up=\"{3}\">", wall.id,
                       vector_text(origin, true), vector_text(along, false),
                       vector_text(moved(wall.up, how), false));
    for (const auto& [x, y] : {std::pair{0.0, 0.0}, {wall.x, 0.0}, {wall.x, wall.y}, {0.0, wall.y}})
      xml += fmt::format("<point x=\"{} mm\" y=\"{} mm\"/>", x, y);
    xml += "</face></part>";
  }
  for (const Seen& seam : seams)
    xml += fmt::format(
        "<seam id=\"{}\" between=\"{}\" joint=\"corner\" corner=\"half-open-corner\" over=\"{}\"/>", seam.id,
        seam.between, seam.between.substr(0, seam.between.find(' ')));
  return xml + "</box></tacksquare-job>";
}

// Value, low and high of what is expected, from nominal.
using Expected_um = std::array<long long, 3>;

// What a rigid motion or a mirror must leave alone.
struct Likeness {
  std::map<std::string, double> seam_mm, seam_heat_J, throat_mm;
  std::multiset<Expected_um> sizes, others;
  std::set<Expected_um> plain_sizes; // each once, without those that are bounds
  double mass_kg, arc_s, wire_g, first_off_s;
  std::size_t steps, tacks;
  int turns;
};

Likeness likeness_of(const Plan& plan) {
  const BoxPlan& box = plan.boxes.at(0);
  const auto settled = [](double x) { return std::round(x * 1e6) / 1e6; };
  Likeness same{};
  for (const PlannedSeam& seam : box.seams) {
    same.seam_mm[seam.id] = settled(seam.length_mm);
    same.throat_mm[seam.id] = settled(seam.throat_mm.value);
    same.seam_heat_J[seam.id] = settled(seam.heat_J_mm.value);
  }
  for (const PlannedMeasure& measure : box.measures) {
    if (!measure.has_expected) continue;
    const auto um = [&](double mm) { return std::llround((mm - measure.nominal_mm) * 1000.0); };
    const Band& mm = measure.expected_mm;
    const Expected_um expected{um(mm.value), um(mm.low), um(mm.high)};
    (measure.kind == "width" ? same.sizes : same.others).insert(expected);
    if (measure.kind == "width" && !measure.bound_only) same.plain_sizes.insert(expected);
  }
  same.mass_kg = settled(box.mass_kg);
  same.arc_s = settled(box.arc_s.value);
  same.wire_g = settled(box.wire_g.value);
  same.first_off_s = settled(box.first_off_s.value);
  same.steps = box.steps.size();
  same.tacks = box.tacks.size();
  same.turns = box.orders.at(0).turns;
  return same;
}

int holds_of(const BoxPlan& box) {
  return static_cast<int>(
      std::count_if(box.steps.begin(), box.steps.end(), [](const Step& s) { return s.hold.has_value(); }));
}

// Seconds of a text, or of the text that it wraps: "now uphill: S1 from 150 to 0, 20 s".
const Arg* time_of(const Text& text) {
  for (const Arg& arg : text.args) {
    if (arg.name == "time" && arg.kind == ArgKind::time_s) return &arg;
    if ((arg.name == "step" || arg.name == "runs") && !arg.list.empty()) return time_of(arg.list.front());
  }
  return nullptr;
}

// The step makes something else than dabs, which are told by their number.
bool welds_a_length(const BoxPlan& box, const Step& step) {
  return std::any_of(step.runs.begin(), step.runs.end(), [&](const std::string& id) {
    return std::any_of(box.runs.begin(), box.runs.end(),
                       [&](const PlannedRun& run) { return run.id == id && !run.dab; });
  });
}

} // namespace

TEST_CASE("the plans of the samples are those that a person has read", "[together]") {
  std::string signatures;
  for (const std::string& name : sample_names())
    signatures += name + "\t" + plan_signature(whole_sample(name).plan) + "\n";
  check_golden("plan-signatures.txt", signatures);
}

TEST_CASE("the same job gives the same plan") {
  for (const std::string& name : sample_names()) {
    INFO(name);
    CHECK(planned(sample_text(name)).plan == planned_sample(name).plan);
  }
}

TEST_CASE("every whole example of docs/job-file.md can be planned as it stands") {
  std::ifstream in(std::string(TACKSQUARE_SOURCE) + "/docs/job-file.md", std::ios::binary);
  const std::string page{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  const std::string head = "```xml\n", tail = "```";
  std::map<std::string, Planned> examples;
  for (std::size_t at = page.find(head); at != std::string::npos; at = page.find(head, at + 1)) {
    const std::string xml =
        page.substr(at + head.size(), page.find(tail, at + head.size()) - at - head.size());
    if (xml.find("<tacksquare-job") == std::string::npos) continue;
    const Planned made = planned(xml);
    const std::string broken = joined(check_plan(made.job, made.geometry, made.plan));
    INFO(made.plan.job << ": " << broken);
    CHECK(broken.empty());
    examples.emplace(made.plan.job, made);
  }
  REQUIRE(examples.size() == 11);

  // 2 mm sheet: uphill burns through.
  const BoxPlan& bracket = examples.at("ANGLE AND STRIP").plan.boxes.at(0);
  CHECK(std::count_if(bracket.runs.begin(), bracket.runs.end(),
                      [](const PlannedRun& run) { return !run.dab && run.position == "downhill"; }) == 1);

  // The fillet inside holds the corner that is ground flush; one set of tacks holds both.
  const BoxPlan& sink = examples.at("LAPPED FLUSH").plan.boxes.at(0);
  CHECK(sink.seams.size() == 8);
  CHECK(std::none_of(sink.cautions.begin(), sink.cautions.end(), [](const Caution& c) { return c.red; }));
  CHECK(std::all_of(sink.tacks.begin(), sink.tacks.end(),
                    [](const PlannedTack& tack) { return tack.seam.front() == 'S'; }));
}

TEST_CASE("the order in which a job file states things changes nothing") {
  std::vector<std::pair<std::string, std::string>> jobs;
  for (const std::string& name : sample_names())
    jobs.emplace_back(name, sample_text(name));
  jobs.emplace_back("own faces", own_box(Moved::not_at_all));
  for (const auto& [name, xml] : jobs) {
    const Plan plan = planned(xml).plan;
    for (std::uint64_t seed = 1; seed <= 3; ++seed) {
      INFO(name << ", seed " << seed);
      CHECK(plan_signature(planned(shuffled(xml, seed)).plan) == plan_signature(plan));
    }
  }
}

TEST_CASE("short forms and the faces and seams that they stand for give the same plan") {
  for (const std::string& name : sample_names()) {
    INFO(name);
    const Planned& made = planned_sample(name);
    CHECK(plan_signature(planned(write_job(made.job)).plan) == plan_signature(made.plan));
  }
}

TEST_CASE("a box that is turned or mirrored is the same box") {
  const Likeness as_drawn = likeness_of(planned(own_box(Moved::not_at_all)).plan);
  CHECK(as_drawn.seam_mm.size() == 8);
  CHECK(as_drawn.sizes.size() == 19);
  CHECK(as_drawn.plain_sizes.size() == 3);
  CHECK_FALSE(as_drawn.others.empty());
  for (const Moved how : {Moved::mirrored, Moved::turned_1, Moved::turned_2, Moved::turned_3}) {
    INFO("moved " << static_cast<int>(how));
    const Planned made = planned(own_box(how));
    CHECK(joined(check_plan(made.job, made.geometry, made.plan)).empty());
    const Likeness here = likeness_of(made.plan);
    CHECK(here.seam_mm == as_drawn.seam_mm);
    CHECK(here.seam_heat_J == as_drawn.seam_heat_J);
    CHECK(here.throat_mm == as_drawn.throat_mm);
    // A quarter turn makes a depth of a width, which is taken at more places.
    if (how == Moved::mirrored || how == Moved::turned_2) CHECK(here.sizes == as_drawn.sizes);
    CHECK(here.plain_sizes == as_drawn.plain_sizes);
    CHECK(here.others == as_drawn.others);
    CHECK(here.mass_kg == as_drawn.mass_kg);
    CHECK(here.arc_s == as_drawn.arc_s);
    CHECK(here.wire_g == as_drawn.wire_g);
    CHECK(here.first_off_s == as_drawn.first_off_s);
    CHECK(here.steps == as_drawn.steps);
    CHECK(here.tacks == as_drawn.tacks);
    CHECK(here.turns == as_drawn.turns);
  }
}

TEST_CASE("the bench card of a four-seam box has at most 40 steps") {
  const BoxPlan& box = planned_sample("gear-locker.xml").plan.boxes.at(0);
  REQUIRE(box.seams.size() == 4);
  CHECK(box.steps.size() <= 40);
}

TEST_CASE("few holds, few cautions, a gauge and a ladder for each check, seconds for each run") {
  for (const std::string& name : sample_names())
    for (const BoxPlan& box : planned_sample(name).plan.boxes) {
      INFO(name << ", " << box.id);
      CHECK(holds_of(box) == 3);
      CHECK(box.care.size() >= 5);
      CHECK(box.care.size() <= 8);
      std::size_t checks = 0, welds = 0;
      for (const Step& step : box.steps) {
        INFO("step " << step.number << " " << step.what.key);
        for (const Check& check : step.checks) {
          CHECK_FALSE(check.gauge.empty());
          CHECK(check.ladder.size() >= 1);
          ++checks;
        }
        if (welds_a_length(box, step)) {
          const Arg* time = time_of(step.what);
          REQUIRE(time != nullptr);
          CHECK(time->number >= 1.0);
          ++welds;
        }
      }
      CHECK(checks >= 10);
      CHECK(welds >= box.seams.size());
    }
}

TEST_CASE("the pair needs for the gear locker what pairs need") {
  const BoxPlan& box = planned_sample("gear-locker.xml").plan.boxes.at(0);
  const std::map<std::string, double> figures = {
      {"arc_s", box.arc_s.value},
      {"wire_g", box.wire_g.value},
      {"gas_l", box.gas_l.value},
      {"mass_kg", box.mass_kg},
      {"first_off_min", box.first_off_s.value / 60.0},
      {"repeat_min", box.repeat_s.value / 60.0},
      {"arc_share_of_first", box.arc_s.value / box.first_off_s.value}};
  const Table table("bench_times.tsv", {"figure", "value", "tolerance", "source", "mark"});
  CHECK(table.size() == figures.size());
  for (const Table::Row& row : table.rows()) {
    INFO(row.shown());
    CHECK(figures.at(row.text("figure")) == Approx(row.number("value")).margin(row.number("tolerance")));
  }
}

TEST_CASE("the faults of two boxes are told in one run") {
  const std::string xml =
      "<tacksquare-job name=\"TWO\"><sheet id=\"s2\" metal=\"mild-steel\" thickness=\"2 mm\"/>"
      "<box id=\"one\"><closed-box width=\"400 mm\" depth=\"300 mm\" height=\"200 mm\"/></box>"
      "<box id=\"two\"><open-box width=\"400 mm\" depth=\"300 mm\" height=\"200 mm\" open=\"top\" "
      "made=\"folded\" "
      "inside-radius=\"2 mm\" corner=\"lapped-corner\" finish=\"flush\"/></box>"
      "</tacksquare-job>";
  JobReading reading = read_job(xml);
  INFO(told(reading.diagnostics));
  REQUIRE(reading.job);
  Diagnostics faults;
  CHECK_FALSE(make_plan(*reading.job, faults));
  std::set<std::size_t> places;
  for (const Diagnostic& d : faults.items())
    if (d.severity == Severity::error) {
      INFO(d.code << ": " << d.message);
      REQUIRE(d.where.known());
      places.insert(d.where.offset < xml.find("<box id=\"two\"") ? 1 : 2);
    }
  INFO(told(faults));
  CHECK(places == std::set<std::size_t>{1, 2});
}
