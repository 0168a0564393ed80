// What places carry that push and never pull: against beams on three supports, against every choice of places
// that carry, and against the history on springs.
#include "base/random.h"
#include "elastic/stated_box.h"
#include "physics/elastic/course.h"
#include "physics/elastic/expect.h"
#include "support/catch.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::elastic;
using namespace tacksquare::test;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using Kind = Event::Kind;

namespace {

constexpr double kWide = 60.0, kLong = 600.0, kWeight_N = 10.0;

// A flat strip of two halves, folded along its middle by nothing: a beam without Poisson's ratio.
StatedBox strip() {
  StatedBox b;
  Sheet sheet;
  sheet.thickness = mm(2.0);
  sheet.metal.youngs_MPa = 210000.0;
  sheet.metal.poisson = 0.0;
  b.job.sheets.push_back(sheet);
  b.box.id = "strip";
  const auto half = [&](const std::string& id, double from) {
    Face f;
    f.id = id;
    f.part = b.box.parts.size();
    f.placement = {{from, 0, 0}, {1, 0, 0}, {0, 1, 0}};
    f.outline = {{0, 0}, {0.5 * kWide, 0}, {0.5 * kWide, kLong}, {0, kLong}};
    f.setback_mm.assign(4, 0.0);
    b.box.parts.push_back({f.id, 0, false, {}, {}});
    b.box.faces.push_back(f);
    FaceGeometry g;
    g.area_mm2 = 0.5 * kWide * kLong;
    for (const Vec2 p : f.outline)
      g.ring.push_back(f.placement.at(p));
    b.geometry.faces.push_back(g);
  };
  half("A", 0.0);
  half("E", 0.5 * kWide);
  b.box.parts[0].bends.push_back({0, 1, mm(1.0), {}});
  b.geometry.bends.push_back({0, 0, {0.5 * kWide, 0, 0}, {0.5 * kWide, kLong, 0}, 0.0});
  b.geometry.low = {0, 0, 0};
  b.geometry.high = {kWide, kLong, 0};
  return b;
}

// Lines across the strip, each with a place near either edge; nothing has happened to it but that a piece was
// on and is off again.
std::vector<double> carried_on(const std::vector<double>& lines) {
  const StatedBox b = strip();
  Making making;
  Piece bar;
  bar.at = {{30, 0, 0}, {30, 300, 0}, {30, 600, 0}};
  bar.out.assign(3, {0, 0, 1});
  bar.off_mm.assign(3, 0.0);
  bar.stiffness_N_mm = 1.0;
  making.pieces = {bar};
  making.events = {{Kind::hold, 0}, {Kind::let_go, 0}};
  Standing standing;
  for (const double y : lines)
    for (const double x : {5.0, kWide - 5.0})
      standing.at.push_back({x, y, 0});
  standing.up = {0, 0, 1};
  for (const double x : {0.25 * kWide, 0.75 * kWide})
    standing.faces.push_back({{x, 0.5 * kLong, 0}, 0.5 * kWeight_N});
  standing.stiffness_N_mm = 1e6;
  standing.moment = 1;
  making.standing = {standing};
  ModelOptions options;
  options.mesh_mm = 15.0;
  Diagnostics out;
  const auto e = expect(b.job, b.box, b.geometry, making, options, 1, out);
  REQUIRE(e);
  REQUIRE(e->carried.size() == 1);
  std::vector<double> of_lines;
  if (e->carried[0].empty()) return of_lines;
  REQUIRE(e->carried[0].size() == standing.at.size());
  for (std::size_t line = 0; line < lines.size(); ++line) {
    const Carried &one = e->carried[0][2 * line], &other = e->carried[0][2 * line + 1];
    CHECK(one.N.value == Approx(other.N.value).epsilon(0.02)); // alike about the middle, but for the net
    CHECK(one.N.high - one.N.low < 1e-9);                      // nothing in it is uncertain
    of_lines.push_back(one.N.value + other.N.value);
  }
  return of_lines;
}

} // namespace

// Continuous beams, uniform load w: ends and middle of two equal spans carry 0.375 w l and 1.25 w l (handbook
// tables of continuous beams, as in Roark's; from memory). Of spans that differ the moment over the middle
// support is w (l1^3 + l2^3)/(8 (l1 + l2)) (theorem of three moments).
TEST_CASE("a strip on three lines of places stands on them as a continuous beam") {
  const std::vector<double> equal = carried_on({0.0, 300.0, 600.0});
  REQUIRE(equal.size() == 3);
  const double per_mm = kWeight_N / kLong;
  CHECK(equal[0] == Approx(0.375 * per_mm * 300.0).epsilon(0.01));
  CHECK(equal[1] == Approx(1.25 * per_mm * 300.0).epsilon(0.01));
  CHECK(equal[2] == Approx(0.375 * per_mm * 300.0).epsilon(0.01));

  const double l1 = 240.0, l2 = 360.0;
  const std::vector<double> unequal = carried_on({0.0, l1, kLong});
  REQUIRE(unequal.size() == 3);
  const double moment = per_mm * (l1 * l1 * l1 + l2 * l2 * l2) / (8.0 * (l1 + l2));
  CHECK(unequal[0] == Approx(per_mm * l1 / 2.0 - moment / l1).epsilon(0.01));
  CHECK(unequal[2] == Approx(per_mm * l2 / 2.0 - moment / l2).epsilon(0.01));
}

// By three moments its end would be pulled down: it stands on the other two lines, by statics.
TEST_CASE("a strip whose end would have to be pulled down stands off there") {
  const std::vector<double> lines = carried_on({0.0, 150.0, 600.0});
  REQUIRE(lines.size() == 3);
  CHECK(lines[0] == 0.0);
  CHECK(lines[1] == Approx(kWeight_N * 2.0 / 3.0).epsilon(1e-6));
  CHECK(lines[2] == Approx(kWeight_N / 3.0).epsilon(1e-6));
}

TEST_CASE("what all lies to one side of its weight carries nothing that could be told") {
  CHECK(carried_on({400.0, 500.0, 600.0}).empty());
}

// Every choice of places that carry nothing: the one by which forces push and gaps open is the answer (there
// is one, since the work is convex).
TEST_CASE("what places carry is what every choice of places that carry nothing agrees on") {
  Random random(11);
  int stood = 0, off = 0;
  for (int round = 0; round < 300; ++round) {
    Standing s;
    const int places = 3 + static_cast<int>(random.uniform(0.0, 5.0));
    for (int i = 0; i < places; ++i)
      s.at.push_back({random.uniform(0.0, 100.0), random.uniform(0.0, 100.0), 0.0});
    if (round % 3 == 0)
      s.at = {{0, 0, 0}, {100, 0, 0}, {100, 100, 0}, {0, 100, 0}, {50, 0, 0}}; // as boxes are
    s.up = {0, 0, 1};
    const bool square = round % 3 == 0;
    s.faces = {
        {{square ? 50.0 : random.uniform(20.0, 80.0), square ? 50.0 : random.uniform(20.0, 80.0), 10.0},
         random.uniform(1.0, 100.0)}};
    const Footing f = footing_of(s);
    const Index n = f.weight.size(), sets = f.balanced.cols();
    REQUIRE(sets == n - 3);
    MatrixXd half(sets, sets + 2);
    VectorXd reads(sets);
    for (Index i = 0; i < sets; ++i) {
      reads(i) = random.normal();
      for (Index j = 0; j < half.cols(); ++j)
        half(i, j) = 0.2 * random.normal();
    }
    const MatrixXd gives = half * half.transpose();
    const auto found = carried(f, gives, reads);

    std::optional<VectorXd> answer;
    for (unsigned choice = 0; choice < (1U << n) && !answer; ++choice) {
      std::vector<Index> none;
      for (Index i = 0; i < n; ++i)
        if (choice & (1U << i)) none.push_back(i);
      const auto count = static_cast<Index>(none.size());
      if (count > sets) continue;
      MatrixXd all = MatrixXd::Zero(sets + count, sets + count);
      VectorXd right(sets + count);
      all.topLeftCorner(sets, sets) = gives;
      right.head(sets) = -reads;
      for (Index i = 0; i < count; ++i) {
        const Index place = none[static_cast<std::size_t>(i)];
        all.row(sets + i).head(sets) = f.balanced.row(place);
        all.col(sets + i).head(sets) = -f.balanced.row(place).transpose();
        right(sets + i) = -f.weight(place);
      }
      const VectorXd solved = right.size() > 0 ? VectorXd(all.fullPivLu().solve(right)) : right;
      if ((all * solved - right).norm() > 1e-8 * (1.0 + right.norm())) continue;
      const VectorXd forces = f.weight + f.balanced * solved.head(sets);
      if (forces.minCoeff() < -1e-7) continue;
      if (count > 0 && solved.tail(count).minCoeff() < -1e-7) continue;
      answer = forces;
    }
    INFO("round " << round << ", " << n << " places");
    REQUIRE(found.has_value() == answer.has_value());
    if (!found) continue;
    ++stood;
    off += static_cast<int>((found->array() == 0.0).count());
    CHECK((*found - *answer).cwiseAbs().maxCoeff() < 1e-5);
    CHECK(found->minCoeff() >= 0.0);
    CHECK(found->sum() == Approx(s.faces[0].second).epsilon(1e-9));
  }
  CHECK(stood > 150);
  CHECK(off > 100);
}

// The history with springs under the places that carry, and one so soft that it pulls down with the weight
// wherever the box lies: they push with what is told, and the box stands off at the others.
TEST_CASE("a tacked box stands as the history has it on springs") {
  constexpr double kSoft = 1e-3, kHard = 1e5;
  int lifted = 0;
  for (const double wry_mm : {0.0, 1.0, -2.5}) {
    const StatedBox b = stated_box("open");
    Making m;
    m.tacks = b.tacks;
    m.seams.resize(b.box.seams.size());
    m.misfits = {{{Misfit::Kind::stretch, 1, 0, b.box.faces[1].placement.u}, wry_mm, 0.0},
                 {{Misfit::Kind::lean, 0, 1, {}}, 0.004 * wry_mm, 0.0}};
    for (std::size_t i = 0; i < m.tacks.size(); ++i)
      m.events.push_back({Kind::tack, i});
    Standing s;
    for (const double x : {0.0, 300.0, 600.0})
      for (const double y : {0.0, 200.0, 400.0})
        s.at.push_back({x, y, 0.0});
    s.up = {0, 0, 1};
    for (std::size_t f = 0; f < b.box.faces.size(); ++f) {
      Vec3 centre;
      for (const Vec3 p : b.geometry.faces[f].ring)
        centre = centre + p * 0.25;
      s.faces.push_back({centre, 5.0 + 3.0 * static_cast<double>(f)});
    }
    s.stiffness_N_mm = kHard;
    s.moment = m.events.size() - 1;
    m.standing = {s};
    Diagnostics out;
    const auto e = expect(b.job, b.box, b.geometry, m, {}, 1, out);
    REQUIRE(e);
    REQUIRE(e->carried.at(0).size() == s.at.size());

    std::vector<Figure> figures;
    const auto point = [&](Vec3 at, Vec3 direction) {
      figures.push_back({"p", FigureKind::displacement, {at}, direction, 0});
    };
    point({0, 0, 0}, {1, 0, 0});
    point({0, 0, 0}, {0, 1, 0});
    point({600, 0, 0}, {0, 1, 0});
    Figure weight{"weight", FigureKind::pushes, {}, {0, 0, -1}, 0};
    for (const auto& [centre, N] : s.faces)
      weight.spread.push_back(N);
    figures.push_back(weight);
    for (const Vec3 at : s.at)
      point(at, {0, 0, -1});
    const auto model = make_box_model(b.job, b.box, b.geometry, m.tacks, {}, figures,
                                      {m.misfits[0].misfit, m.misfits[1].misfit}, ModelOptions{}, out);
    REQUIRE(model);
    std::vector<Hold> holds;
    std::vector<Event> events = m.events;
    for (std::size_t f = 0; f < figures.size(); ++f) {
      if (f >= 4 && !(e->carried[0][f - 4].N.value > 0.0)) continue;
      events.push_back({Kind::hold, holds.size()});
      holds.push_back(f == 3 ? Hold{model->measures[f], kSoft, false, 1.0 / kSoft}
                             : Hold{model->measures[f], kHard, false, 0.0});
    }
    const Cases cases = cases_of(*model, b.box.seams.size());
    VectorXd amounts = VectorXd::Zero(cases.count());
    for (std::size_t i = 0; i < 2; ++i)
      amounts(cases.misfit(i)) = m.misfits[i].middle;
    const auto moments = make_history(*model, events, holds, cases, amounts, {});
    double sum = 0.0, total = 0.0;
    for (const auto& [centre, N] : s.faces)
      total += N;
    Index hold = 4;
    for (std::size_t p = 0; p < s.at.size(); ++p) {
      INFO("wry by " << wry_mm << ", place " << p);
      const Carried& place = e->carried[0][p];
      const bool carries = place.N.value > 0.0;
      CHECK(place.nothing == (carries ? 0.0 : 1.0));
      if (carries)
        CHECK(place.N.value == Approx(moments.back().reactions(hold++, 0)).margin(5e-3 * total));
      else
        CHECK(moments.back().measures(static_cast<Index>(4 + p), 0) < 0.0); // above its place
      lifted += carries ? 0 : 1;
      sum += place.N.value;
    }
    CHECK(sum == Approx(total).epsilon(1e-6));
  }
  CHECK(lifted > 3);
}

// Four places far more uneven than the box gives: it stands on the three of one diagonal or the other, half
// of the draws each.
TEST_CASE(
    "a stiff box on uneven places rocks: two of them share its weight, and either of the others nothing") {
  const StatedBox b = stated_box("open");
  Making m;
  m.tacks = b.tacks;
  m.seams.resize(b.box.seams.size());
  for (std::size_t i = 0; i < m.tacks.size(); ++i)
    m.events.push_back({Kind::tack, i});
  Standing s;
  s.at = {{0, 0, 0}, {600, 0, 0}, {600, 400, 0}, {0, 400, 0}};
  s.up = {0, 0, 1};
  for (std::size_t f = 0; f < b.box.faces.size(); ++f)
    s.faces.push_back({{300, 200, 100}, 10.0});
  s.stiffness_N_mm = 1e4;
  s.uneven_mm = 100.0;
  s.moment = m.events.size() - 1;
  m.standing = {s};
  Diagnostics out;
  const auto e = expect(b.job, b.box, b.geometry, m, {}, 1, out);
  REQUIRE(e);
  const double weight = 10.0 * static_cast<double>(b.box.faces.size());
  for (const Carried& place : e->carried.at(0)) {
    CHECK(place.nothing == Approx(0.5).margin(0.08)); // 400 draws: three standard errors
    CHECK(place.N.low == 0.0);
    CHECK(place.N.high == Approx(0.5 * weight).epsilon(1e-6));
  }
}
