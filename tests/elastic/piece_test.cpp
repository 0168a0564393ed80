// Formers and squares: what they hold, with what force, and what is left when they come off.
#include "base/random.h"
#include "elastic/walls.h"
#include "physics/elastic/expect.h"
#include "support/catch.h"
#include "support/table.h"

#include <cmath>
#include <sstream>

using namespace tacksquare;
using namespace tacksquare::elastic;
using namespace tacksquare::test;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

constexpr double kFirm = 2e4; // N/mm

// A former in the rim of an opening of `wide` x `tall`, 40 mm from its corners.
Piece former(double wide, double tall) {
  Piece p;
  const auto touch = [&](Vec3 at, Vec3 out) {
    p.at.push_back(at);
    p.out.push_back(out);
    p.off_mm.push_back(0.0);
  };
  for (const double z : {40.0, tall - 40.0}) {
    touch({0, 0, z}, {-1, 0, 0});
    touch({wide, 0, z}, {1, 0, 0});
  }
  for (const double x : {40.0, wide - 40.0}) {
    touch({x, 0, 0}, {0, 0, -1});
    touch({x, 0, tall}, {0, 0, 1});
  }
  p.stiffness_N_mm = kFirm;
  return p;
}

VectorXd moved(const Piece& p, Vec3 by, Vec3 turned) {
  VectorXd all(static_cast<Index>(p.at.size()));
  for (std::size_t i = 0; i < p.at.size(); ++i)
    all(static_cast<Index>(i)) = dot(by + cross(turned, p.at[i]), p.out[i]);
  return all;
}

} // namespace

TEST_CASE("a piece holds nothing against its own motion as a whole, and all else once") {
  Random random(5);
  const auto any = [&] {
    return Vec3{random.uniform(-1.0, 1.0), random.uniform(-1.0, 1.0), random.uniform(-1.0, 1.0)};
  };
  Piece square; // two arms in the corner of two walls
  square.at = {{40, 0, 0}, {100, 0, 0}, {0, 40, 0}, {0, 100, 0}};
  square.out = {{0, -1, 0}, {0, -1, 0}, {-1, 0, 0}, {-1, 0, 0}};
  for (const auto& [piece, holds] : {std::pair{former(400, 600), 5}, std::pair{square, 1}}) {
    const MatrixXd shapes = holds_of(piece);
    REQUIRE(shapes.cols() == holds); // places less three motions in its own plane
    CHECK((shapes.transpose() * shapes - MatrixXd::Identity(holds, holds)).cwiseAbs().maxCoeff() < 1e-12);
    for (int i = 0; i < 5; ++i)
      CHECK((shapes.transpose() * moved(piece, any(), any() * 0.01)).cwiseAbs().maxCoeff() < 1e-9);
  }
}

// Two walls that lean out alike, a bar between their rims: each corner is pulled in as by hand. That pull was
// solved with bricks by CalculiX, one wall on a firm foot.
TEST_CASE("a bar between two leaning walls pulls as CalculiX says, and they spring back when it comes off") {
  const Table table("formulas_wall.tsv", {"function", "arguments", "value", "tolerance", "source", "mark"});
  int checked = 0;
  for (const auto& row : table.rows()) {
    if (row.text("function") != "corner_together" || row.text("source").rfind("CalculiX", 0) != 0) continue;
    INFO(row.shown());
    std::istringstream in(row.text("arguments"));
    double tall = 0, deep = 0, t = 0, e = 0, nu = 0;
    in >> tall >> deep >> t >> e >> nu;
    StatedBox b = wall(tall, deep, t, e, nu, true);
    Making making;
    Piece bar;
    for (const double x : {0.0, deep}) {
      bar.at.insert(bar.at.end(), {{x, 0, tall}, {x, 200, tall}});
      bar.out.insert(bar.out.end(), {{0, -1, 0}, {0, 1, 0}});
    }
    bar.off_mm.assign(4, 1.0); // too long by twice that
    bar.stiffness_N_mm = kFirm;
    making.pieces = {bar};
    making.events = {{Event::Kind::hold, 0}, {Event::Kind::let_go, 0}};
    constexpr double kLean = 0.01;
    making.misfits = {{{Misfit::Kind::lean, 0, 0, {}}, kLean, 0.0},
                      {{Misfit::Kind::lean, 1, 0, {}}, kLean, 0.0}};
    making.watched = {
        {{"rim", FigureKind::edge_length, {{0, 0, tall}, {0, 200, tall}}, {}, 0}, false, 0, 0.0}};
    ModelOptions options;
    options.mesh_mm = 25.0;
    Diagnostics out;
    const auto held = expect(b.job, b.box, b.geometry, making, options, 1, out);
    REQUIRE(held);
    CHECK(std::abs(held->moments[0].mm[0].value) < 0.01);
    CHECK(held->moments[0].holding_N.value == Approx(row.number("value") * kLean * tall).epsilon(0.02));
    CHECK(held->moments[1].mm[0].value == Approx(2.0 * kLean * tall).epsilon(0.01));
    CHECK(held->moments[1].holding_N.high == 0.0);

    // Untrue by 1 mm, one deviation: in the median of its size that is 0.674 mm.
    making.misfits.clear();
    making.pieces[0].deviation_mm = 1.0;
    const auto untrue = expect(b.job, b.box, b.geometry, making, options, 1, out);
    REQUIRE(untrue);
    CHECK(untrue->moments[0].holding_N.value == Approx(0.674 * row.number("value")).epsilon(0.08));
    CHECK(untrue->moments[0].mm[0].high == Approx(2.0 * 1.645).epsilon(0.08));
    ++checked;
  }
  CHECK(checked == 2);
}

// A strip on a firm foot is a cantilever: F = 3 E I d/L^3 (any textbook of strength of materials; Timoshenko,
// Strength of Materials, part I, from memory). Narrow, and without Poisson's ratio, so that it is a beam.
TEST_CASE("strips that a bar holds upright pull as beams do, and spring back by all of that") {
  constexpr double kTall = 300.0, kDeep = 30.0, kThick = 2.0, kE = 210000.0, kLean = 0.01;
  StatedBox b = wall(kTall, kDeep, kThick, kE, 0.0, true);
  Making making;
  Piece bar;
  bar.at = {{0.5 * kDeep, 0, kTall}, {0.5 * kDeep, 200, kTall}};
  bar.out = {{0, -1, 0}, {0, 1, 0}};
  bar.off_mm = {0.0, 0.0};
  bar.stiffness_N_mm = kFirm;
  making.pieces = {bar};
  making.events = {{Event::Kind::hold, 0}, {Event::Kind::let_go, 0}};
  making.misfits = {{{Misfit::Kind::lean, 0, 0, {}}, kLean, 0.0},
                    {{Misfit::Kind::lean, 1, 0, {}}, kLean, 0.0}};
  making.watched = {
      {{"rim", FigureKind::edge_length, {{0.5 * kDeep, 0, kTall}, {0.5 * kDeep, 200, kTall}}, {}, 0},
       false,
       0,
       0.0}};
  ModelOptions options;
  options.mesh_mm = 10.0;
  Diagnostics out;
  const auto e = expect(b.job, b.box, b.geometry, making, options, 1, out);
  REQUIRE(e);
  const double inertia = kDeep * kThick * kThick * kThick / 12.0;
  const double force = 3.0 * kE * inertia * kLean / (kTall * kTall);
  REQUIRE(e->place_forces.size() == 1);
  for (const PlaceForce& place : e->place_forces[0]) { // they lean out, so the bar has to pull both in
    CHECK(place.pull.value == Approx(force).epsilon(0.02));
    CHECK(place.push.value == 0.0);
  }
  REQUIRE(e->releases.size() == 1);
  CHECK(e->releases[0].mm[0].value == Approx(2.0 * kLean * kTall).epsilon(0.01));
}

TEST_CASE("what is so stiff that rounding is all that is left when it comes off is told, not reckoned with") {
  StatedBox b = wall(500, 500, 2, 210000, 0.3, true);
  Making making;
  Piece bar;
  for (const double x : {0.0, 500.0}) {
    bar.at.insert(bar.at.end(), {{x, 0, 500}, {x, 200, 500}});
    bar.out.insert(bar.out.end(), {{0, -1, 0}, {0, 1, 0}});
  }
  bar.off_mm.assign(4, 0.0);
  bar.stiffness_N_mm = 1e8;
  making.pieces = {bar};
  making.events = {{Event::Kind::hold, 0}, {Event::Kind::let_go, 0}};
  making.misfits = {{{Misfit::Kind::lean, 0, 0, {}}, 0.01, 0.0}};
  Diagnostics out;
  CHECK_THROWS_AS(expect(b.job, b.box, b.geometry, making, {}, 1, out), NumericalFailure);
}
