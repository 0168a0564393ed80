// What must not change a box's answer, and what must change it by a known power.
#include "elastic/stated_box.h"
#include "physics/elastic/sequence.h"
#include "support/catch.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::elastic;
using namespace tacksquare::test;
using Eigen::VectorXd;

namespace {

// All seams welded as listed, each in two lengths.
VectorXd finished(const StatedBox& b, double mesh_mm, const Shrinkage& shrinkage, double taper_mm = 15.0) {
  std::vector<WeldLength> welds;
  for (std::size_t s = 0; s < b.box.seams.size(); ++s) {
    const double l = b.geometry.seams[s].length_mm;
    welds.push_back({s, 0.0, 0.5 * l});
    welds.push_back({s, 0.5 * l, l});
  }
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < welds.size(); ++i)
    order.push_back(i);
  ModelOptions options;
  options.mesh_mm = mesh_mm;
  options.jump_taper_mm = taper_mm;
  options.force_taper_mm = taper_mm * 50.0 / 15.0;
  options.end_mm = taper_mm / 3.0;
  Diagnostics out;
  const auto model = make_box_model(b.job, b.box, b.geometry, b.tacks, welds, b.figures, {}, options, out);
  REQUIRE(model);
  const TackedBox box = tacked(*model);
  return states(box, order, weld_sequence(box, order), std::vector<Shrinkage>(b.box.seams.size(), shrinkage))
      .rightCols(1);
}

constexpr Shrinkage kUsual{0.15, 20000.0, 0.01};

// By 31 degrees about x, then 17 about z, and moved.
Vec3 turned(Vec3 p) {
  const double a = 0.541, b = 0.297;
  const Vec3 q{p.x, p.y * std::cos(a) - p.z * std::sin(a), p.y * std::sin(a) + p.z * std::cos(a)};
  return {q.x * std::cos(b) - q.y * std::sin(b) + 311.0, q.x * std::sin(b) + q.y * std::cos(b) - 97.0,
          q.z + 53.0};
}

} // namespace

TEST_CASE("a box turned in space, or with its faces listed backward, answers as before") {
  for (const char* name : {"open", "closed", "divider", "cutouts"}) {
    INFO(name);
    const VectorXd straight = finished(stated_box(name), 50.0, kUsual);
    const double scale = straight.cwiseAbs().maxCoeff();
    REQUIRE(scale > 0.1);
    Change change;
    change.move = turned;
    CHECK((finished(stated_box(name, change), 50.0, kUsual) - straight).cwiseAbs().maxCoeff() < 1e-6 * scale);
    Change listed;
    listed.faces_backward = true;
    CHECK((finished(stated_box(name, listed), 50.0, kUsual) - straight).cwiseAbs().maxCoeff() < 1e-6 * scale);
  }
}

TEST_CASE("a mirrored box answers as a mirror image") {
  for (const char* name : {"open", "closed", "hexagon", "hopper", "divider"}) {
    INFO(name);
    const StatedBox b = stated_box(name);
    Change change;
    change.move = [](Vec3 p) { return Vec3{-p.x, p.y, p.z}; };
    change.mirrored = true;
    const StatedBox image = stated_box(name, change);
    const VectorXd straight = finished(b, 50.0, kUsual), mirrored = finished(image, 50.0, kUsual);
    // A hexagon's triangles are not those of its image, and corners are stated to 1e-7 mm.
    const double slack = (std::string(name) == "hexagon" ? 5e-3 : 1e-5) * straight.cwiseAbs().maxCoeff();
    for (std::size_t i = 0; i < b.figures.size(); ++i) {
      INFO(b.figures[i].id);
      const auto row = static_cast<Index>(i);
      // Normals made by the right-hand rule from points look the other way.
      const bool turns = b.figures[i].kind == FigureKind::twist || b.figures[i].kind == FigureKind::bow;
      CHECK(std::abs(mirrored(row) - (turns ? -straight(row) : straight(row))) < slack);
    }
  }
}

// Lengths, thickness and shrinkage by s, forces by s^2, angles as they are: all moves by s (theory of
// elasticity: strains are the same).
TEST_CASE("a box twice as large in all that has a length moves twice as much") {
  for (const char* name : {"open", "closed"}) {
    INFO(name);
    const double s = 2.0;
    Change change;
    change.move = [&](Vec3 p) { return p * s; };
    change.thicker = s;
    StatedBox large = stated_box(name, change);
    for (TackPlace& t : large.tacks)
      t = {t.seam, s * t.at_mm, s * t.length_mm};
    const VectorXd one = finished(stated_box(name), 50.0, kUsual, 5.0);
    const VectorXd two =
        finished(large, 100.0, {s * kUsual.across_mm, s * s * kUsual.force_N, kUsual.angle_rad}, s * 5.0);
    CHECK((two - s * one).cwiseAbs().maxCoeff() < 1e-6 * s * one.cwiseAbs().maxCoeff());
  }
}

TEST_CASE("the same box gives the same bits, run after run") {
  const VectorXd one = finished(stated_box("hexagon"), 50.0, kUsual),
                 other = finished(stated_box("hexagon"), 50.0, kUsual);
  CHECK((one - other).cwiseAbs().maxCoeff() == 0.0);
}

TEST_CASE("equal faces share their plate") {
  const StatedBox b = stated_box("closed");
  Diagnostics out;
  const auto model = make_box_model(b.job, b.box, b.geometry, b.tacks, {}, b.figures, {}, {}, out);
  REQUIRE(model);
  CHECK(model->plates->different() == 3); // of six faces
}
