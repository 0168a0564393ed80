// Small elements at the ends of seams, and what they are for: figures that do not hang on the mesh.
#include "elastic/made_box.h"
#include "physics/elastic/fineness.h"
#include "support/catch.h"

#include <algorithm>
#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;
using elastic::Fineness;

namespace {

// Of each diagonal: tacks kept, tacks melted, each after the last weld; and the most that one tack or weld
// moves it.
struct Diagonals {
  std::vector<double> end, step;
};

Diagonals diagonals(const StatedBox& b, double mesh_mm) {
  elastic::ModelOptions options;
  options.mesh_mm = mesh_mm;
  const elastic::BoxModel model = made_box(b, options);
  const std::size_t seams = b.box.seams.size();
  const elastic::Cases cases = elastic::cases_of(model, seams);
  Eigen::MatrixXd amounts = Eigen::MatrixXd::Zero(cases.count(), 1);
  for (std::size_t s = 0; s < seams; ++s) { // as 2 mm of steel
    amounts(cases.across(s), 0) = 0.2;
    amounts(cases.along(s), 0) = 30000.0;
    amounts(cases.angle(s), 0) = 0.005;
    amounts(cases.tack(s), 0) = 0.12;
  }
  std::vector<elastic::Event> events;
  for (std::size_t i = 0; i < model.tacks.size(); ++i)
    events.push_back({elastic::Event::Kind::tack, i});
  for (std::size_t w = 0; w < model.welds.size(); ++w)
    events.push_back({elastic::Event::Kind::weld, w});
  Diagonals made;
  for (const bool melted : {false, true}) {
    const auto moments = elastic::make_history(model, events, {}, cases, amounts, {melted});
    for (std::size_t i = 0; i < b.figures.size(); ++i) {
      if (b.figures[i].kind != elastic::FigureKind::diagonals) continue;
      const auto at = [&](std::size_t m) { return moments[m].measures(static_cast<Eigen::Index>(i), 0); };
      double most = std::abs(at(0));
      for (std::size_t m = 1; m < moments.size(); ++m)
        most = std::max(most, std::abs(at(m) - at(m - 1)));
      made.end.push_back(at(moments.size() - 1));
      made.step.push_back(most);
    }
  }
  return made;
}

} // namespace

TEST_CASE("elements and cells are 5 mm at the ends of seams, an eighth of a short one, and grow from there") {
  BoxGeometry geometry;
  geometry.seams.resize(2);
  geometry.seams[0].start = {0, 0, 0};
  geometry.seams[0].end = {300, 0, 0};
  geometry.seams[0].length_mm = 300.0;
  geometry.seams[1].start = {300, 200, 0};
  geometry.seams[1].end = {324, 200, 0};
  geometry.seams[1].length_mm = 24.0;
  const Fineness fine(geometry, 50.0, 5.0);
  CHECK(fine.size_at({0, 0, 0}) == Approx(5.0));
  CHECK(fine.size_at({20, 0, 0}) == Approx(15.0)); // half a millimetre for each of way
  CHECK(fine.size_at({150, 0, 0}) == Approx(50.0));
  CHECK(fine.size_at({300, 200, 0}) == Approx(3.0));

  const std::vector<double> cells = fine.cut({0, 0, 0}, {300, 0, 0}, 0.0, 300.0);
  CHECK(cells.front() == 0.0);
  CHECK(cells.back() == 300.0);
  CHECK(cells[1] < 7.0);
  for (std::size_t i = 0; i + 1 < cells.size(); ++i) {
    CHECK(cells[i + 1] - cells[i] < 52.0);
    CHECK(cells[i] + cells[cells.size() - 1 - i] == Approx(300.0)); // the same from either end
  }

  Face face;
  face.placement = {{0, 0, 0}, {1, 0, 0}, {0, 1, 0}};
  face.outline = {{0, 0}, {300, 0}, {300, 100}, {0, 100}};
  const auto on_face = fine.on_face(face, face.placement);
  REQUIRE(on_face.size() == 2); // the short seam's ends are 100 mm off
  CHECK(on_face[0].size_mm == Approx(5.0));
  face.placement.origin.z = 20.0; // what is beside a face counts as so far away
  CHECK(fine.on_face(face, face.placement).at(0).size_mm == Approx(15.0));

  const Fineness plain(geometry, 50.0, 0.0);
  CHECK(plain.size_at({0, 0, 0}) == 50.0);
  CHECK(plain.on_face(face, face.placement).empty());
  CHECK(plain.cut({0, 0, 0}, {300, 0, 0}, 0.0, 300.0).size() == 7);
}

TEST_CASE("a stitch shorter than an element has two, a seam in several lengths is no stitch") {
  StatedBox b = stated_box("divider");
  const auto elements = [&](const std::vector<elastic::WeldLength>& welds) {
    elastic::ModelOptions options;
    options.mesh_mm = 50.0;
    return made_box(b, b.tacks, welds, options);
  };
  const std::size_t seam = b.steps.back().seam; // a T
  const double long_mm = b.geometry.seams[seam].length_mm;
  const elastic::BoxModel whole = elements({{seam, 0.0, long_mm}}),
                          halves = elements({{seam, 0.0, 0.5 * long_mm}, {seam, 0.5 * long_mm, long_mm}}),
                          stitch = elements({{seam, 0.5 * long_mm - 12.5, 0.5 * long_mm + 12.5}});
  CHECK(halves.elements == whole.elements);
  CHECK(stitch.elements > whole.elements);
  CHECK(elastic::cells_of(stitch.welds[0]) == 2);
}

TEST_CASE("diagonals at the end are the same on a finer mesh, tacks kept or melted") {
  // Within 3 % of themselves, or of the most that one tack or weld moves them: sums of steps that cancel.
  // Without small elements those of the hopper, tacks melted, are 0.05 at 25 mm and 0.15 at 12.5.
  for (const char* name : {"hexagon", "hopper"}) {
    const StatedBox b = stated_box(name);
    const Diagonals coarse = diagonals(b, 25.0), fine = diagonals(b, 12.5);
    for (std::size_t i = 0; i < fine.end.size(); ++i) {
      INFO(name << ", diagonal " << i << ": " << coarse.end[i] << " " << fine.end[i] << ", one step "
                << fine.step[i]);
      CHECK(std::abs(coarse.end[i] - fine.end[i]) < 0.03 * std::max(std::abs(fine.end[i]), fine.step[i]));
    }
  }
}
