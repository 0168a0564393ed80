// What clamps hold along the walls that they press: how far those would slide, and what would stop it.
#include "physics/elastic/course.h"
#include "physics/elastic/expect.h"
#include "plan/verify/check_plan.h"
#include "support/planned.h"
#include "tables/fixture_practice.h"

#include <algorithm>
#include <cmath>
#include <functional>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

constexpr double kWide = 30.0, kLong = 600.0, kThick = 2.0, kForce_N = 10000.0, kOff = 100.0;

// Two strips side by side, joined along their long edges, pressed on a flat piece in four places.
struct Strips {
  Job job;
  BoxGeometry geometry;
  elastic::Making making;
  elastic::ModelOptions options;
};

Strips strips(double stiffness_N_mm) {
  const auto strip = [](const std::string& id, double from) {
    const auto point = [](double x, double y) {
      return "<point x=\"" + std::to_string(x) + " mm\" y=\"" + std::to_string(y) + " mm\"/>";
    };
    return "<part id=\"p" + id + "\"><face id=\"" + id + "\" origin=\"" + std::to_string(from) +
           " mm, 0 mm, 0 mm\" along=\"1, 0, 0\" up=\"0, -1, 0\">" + point(0, -kLong) + point(kWide, -kLong) +
           point(kWide, 0) + point(0, 0) + "</face></part>";
  };
  JobReading reading = read_job("<tacksquare-job name=\"STRIPS\"><sheet id=\"s\" metal=\"mild-steel\" "
                                "thickness=\"2 mm\"/><box id=\"b\">" +
                                strip("A", 0) + strip("E", kWide) +
                                "<seam id=\"S1\" between=\"A E\" joint=\"butt\"/></box></tacksquare-job>");
  INFO(told(reading.diagnostics));
  REQUIRE(reading.job);
  Strips made{std::move(*reading.job), {}, {}, {}};
  Diagnostics faults;
  made.geometry = resolve_geometry(made.job, made.job.boxes[0], faults);
  const SeamLine& seam = made.geometry.seams.at(0);
  REQUIRE(seam.length_mm == Approx(kLong));
  const Vec3 along = unit(seam.end - seam.start), middle = (seam.start + seam.end) * 0.5;

  elastic::Piece bed;
  for (const double x : {-0.5 * kWide, 0.5 * kWide})
    for (const double y : {-kOff, kOff}) {
      bed.at.push_back(middle + Vec3{x, 0, 0} + along * y);
      bed.out.push_back(made.job.boxes[0].faces[0].placement.normal());
    }
  bed.off_mm.assign(4, 0.0);
  bed.stiffness_N_mm = stiffness_N_mm;
  elastic::Making& m = made.making;
  m.pieces = {bed};
  m.tacks = {{0, 0.5 * kLong, 6.0}}; // the weld is then made in one go
  m.welds = {{0, 0.0, kLong}};
  m.seams = {{{}, {kForce_N, kForce_N, kForce_N}, {}}};
  using Kind = elastic::Event::Kind;
  m.events = {{Kind::hold, 0}, {Kind::tack, 0}, {Kind::weld, 0}, {Kind::let_go, 0}};
  for (std::size_t place = 0; place < 4; ++place)
    m.pressed.push_back({0, place, 0, 3});
  m.pressed.push_back({0, 0, 0, 2}); // off before the weld
  made.options.mesh_mm = 10.0;
  return made;
}

elastic::Expectation expected(const Strips& s) {
  Diagnostics faults;
  auto e = elastic::expect(s.job, s.job.boxes[0], s.geometry, s.making, s.options, 1, faults);
  INFO(told(faults));
  REQUIRE(e);
  REQUIRE(e->slides.size() == s.making.pressed.size());
  return std::move(*e);
}

} // namespace

// Hooke's law: a bar of section A that F shortens moves by F a/(E A) at a from its middle. The places stand
// alike about the middle, so that the piece stays.
TEST_CASE("a strip that its weld shortens slides past the piece as a bar under that force") {
  const Strips soft = strips(1.0);
  const elastic::Expectation e = expected(soft);
  const double slide = kForce_N * kOff / (soft.job.sheets[0].metal.youngs_MPa * 2.0 * kWide * kThick);
  for (std::size_t place = 0; place < 4; ++place) {
    CHECK(e.slides[place].mm == Approx(slide).epsilon(0.03));
    // A place that gives far more than the strip: its stiffness times the slide.
    CHECK(e.slides[place].N == Approx(e.slides[place].mm).epsilon(1e-3));
  }
  CHECK(e.slides[4].mm < 0.01 * slide);
}

// The same with a spring there from the beginning, through the whole history.
TEST_CASE("the force that stops a slide is that of a spring which holds the place along the wall") {
  constexpr double kFirm = 1e5;
  const Strips firm = strips(kFirm);
  const elastic::Expectation e = expected(firm);
  Diagnostics faults;
  const auto prepared =
      elastic::prepared_of(firm.job, firm.job.boxes[0], firm.geometry, firm.making, firm.options, faults);
  REQUIRE(prepared);
  const std::size_t slides = 2 * firm.making.pressed.size(), measures = prepared->model->measures.size();
  const elastic::Course course = elastic::variants_of(*prepared, firm.making).course;
  Eigen::VectorXd amounts = Eigen::VectorXd::Zero(prepared->cases.count());
  amounts(prepared->cases.along(0)) = kForce_N;
  double most = 0.0;
  for (std::size_t direction = 0; direction < 2; ++direction) {
    std::vector<elastic::Hold> holds = prepared->holding.holds;
    holds.push_back({prepared->model->measures[measures - slides + direction], kFirm, false, std::nullopt});
    std::vector<elastic::Event> events = course.events;
    events.insert(events.begin(), {elastic::Event::Kind::hold, holds.size() - 1});
    double force = 0.0;
    for (const bool remelted : {false, true}) {
      const auto moments =
          elastic::make_history(*prepared->model, events, holds, prepared->cases, amounts, {remelted});
      double furthest = 0.0;
      for (const elastic::Moment& moment : moments)
        furthest = std::max(furthest, std::abs(moment.reactions(moment.reactions.rows() - 1, 0)));
      force += 0.5 * furthest;
    }
    most = std::hypot(most, force);
  }
  CHECK(e.slides[0].N == Approx(most).epsilon(0.02));
  CHECK(e.slides[0].N < 0.9 * kFirm * e.slides[0].mm); // the strip gives, too
}

TEST_CASE("forces past a piece are in balance, and blind to its motion as a whole, also on one line") {
  const elastic::Piece bed = strips(1.0).making.pieces[0];
  elastic::Piece row = bed;
  for (std::size_t i = 0; i < row.at.size(); ++i)
    row.at[i] = {10.0 + 70.0 * static_cast<double>(i * i), 20.0, 5.0};
  for (const elastic::Piece& piece : {bed, row}) {
    const std::vector<Vec3> forces = elastic::past_piece(piece, 2, {0.6, 0.8, 0});
    Vec3 sum, turn;
    for (std::size_t i = 0; i < piece.at.size(); ++i) {
      sum = sum + forces[i];
      turn = turn + cross(piece.at[i], forces[i]);
    }
    CHECK(norm(sum) < 1e-12);
    CHECK(norm(turn) < 1e-9);
    CHECK(dot(forces[2], Vec3{0.6, 0.8, 0}) > 0.3);
  }
}

TEST_CASE("each place under a clamp is told once, with what would hold it, and the plan stands its check",
          "[together]") {
  for (const char* name : {"gear-locker.xml", "battery-box.xml"}) {
    INFO(name);
    const Planned& made = whole_sample(name);
    CHECK(joined(check_plan(made.job, made.geometry, made.plan)) == "");
    const BoxPlan& box = made.plan.boxes.at(0);
    REQUIRE(box.elastic);
    REQUIRE(box.fixture);
    int bars = 0, corners = 0;
    for (const PlannedPiece& piece : box.fixture->pieces) {
      const auto places = std::count_if(box.elastic->pressed.begin(), box.elastic->pressed.end(),
                                        [&](const PressedPlace& p) { return p.clamp == piece.id; });
      if (piece.kind == "corner-clamp") CHECK(places == 4);
      if (places == 0) { // also a bar that meets no former
        CHECK(piece.slide_mm + piece.stops_N + piece.friction == 0.0);
        continue;
      }
      if (piece.kind == "bar-clamp") CHECK(places == 2);
      ++(piece.kind == "bar-clamp" ? bars : corners);
      CHECK(piece.slide_mm > 0.0);
      CHECK(piece.friction == Approx(piece.stops_N / piece.force_N));
      // No more than a place so stiff against a box that does not give at all.
      CHECK(piece.stops_N < 2.0 * 1e4 * piece.slide_mm + 1.0);
    }
    // What the planner leaves in: the locker a former with its bars, the battery box clamps in its corners.
    const bool locker = std::string(name) == "gear-locker.xml";
    CHECK((locker ? bars >= 2 && corners == 0 : bars == 0 && corners == 4));
  }
}

TEST_CASE("friction that does not follow from the places, and places that no clamp presses, are told",
          "[together]") {
  const auto spoilt = [](const std::function<void(BoxPlan&)>& spoil, const std::string& words) {
    const Planned& made = whole_sample("gear-locker.xml");
    Plan plan = made.plan;
    spoil(plan.boxes.at(0));
    const std::string lines = joined(check_plan(made.job, made.geometry, plan));
    INFO("wanted: " << words << "\ntold:\n" << lines);
    CHECK(lines.find(words) != std::string::npos);
  };
  const auto bar = [](BoxPlan& p) -> PlannedPiece& {
    return *std::find_if(p.fixture->pieces.begin(), p.fixture->pieces.end(),
                         [](const PlannedPiece& piece) { return piece.kind == "bar-clamp"; });
  };
  spoilt([&](BoxPlan& p) { bar(p).friction *= 1.01; }, "told another friction than its force");
  spoilt([&](BoxPlan& p) { bar(p).stops_N += 1.0; }, "told another slide, or force against it");
  spoilt([&](BoxPlan& p) { bar(p).slide_mm += 0.01; }, "told another slide, or force against it");
  spoilt([](BoxPlan& p) { p.elastic->pressed[0].place = 99; }, "place 99 of M1, which is none");
  spoilt([](BoxPlan& p) { p.elastic->pressed[0].place = 0; }, "does not press on place 0 of M1");
  spoilt([](BoxPlan& p) { p.elastic->pressed[1] = p.elastic->pressed[0]; }, "is pressed twice by");
  spoilt([](BoxPlan& p) { p.elastic->pressed[0].stops_N = -1.0; }, "slides by less than nothing");
}

// No clamp anywhere: all that closes a gap is done by hand.
TEST_CASE("the tacks that take most by hand are told, one of a seam, where a hand's push does not do") {
  std::string job = sample_text("gear-locker.xml");
  job.insert(job.rfind("</tacksquare-job>"),
             "<fixture box=\"locker\" name=\"F\" down=\"B\" long-side=\"R\">"
             "<stop id=\"P1\" at=\"100 mm, 0 mm, 20 mm\" towards=\"y\"/>"
             "<stop id=\"P2\" at=\"500 mm, 0 mm, 20 mm\" towards=\"y\"/>"
             "<stop id=\"P3\" at=\"0 mm, 200 mm, 20 mm\" towards=\"x\"/></fixture>");
  const Planned made = planned(job, false);
  const BoxPlan& box = made.plan.boxes.at(0);
  REQUIRE(box.elastic);
  std::map<std::string, std::pair<double, std::string>> worst; // by seam
  for (const PlannedTack& tack : box.tacks)
    for (const ElasticState& state : box.elastic->states)
      if (state.after == tack.id && state.closing_N->high > worst[tack.seam].first)
        worst[tack.seam] = {state.closing_N->high, tack.id};
  std::vector<std::pair<double, std::string>> wanted;
  for (const auto& [seam, tack] : worst)
    if (tack.first > in_n(hand_practice().push)) wanted.push_back(tack);
  REQUIRE(wanted.size() > 1);
  std::sort(wanted.rbegin(), wanted.rend());
  const std::size_t seams = wanted.size();
  wanted.resize(std::min<std::size_t>(3, seams));
  std::map<std::string, double> told;
  for (const Caution& caution : box.cautions)
    if (caution.what.key == "caution.by-hand") {
      CHECK(told.empty()); // once
      CHECK(caution.what.args.at(0).number == static_cast<double>(seams));
      for (const Text& tack : caution.what.args.at(1).list)
        told[tack.args.at(0).word] = tack.args.at(1).number;
    }
  REQUIRE(told.size() == wanted.size());
  for (const auto& [force, tack] : wanted)
    CHECK(told[tack] == Approx(force));
}
