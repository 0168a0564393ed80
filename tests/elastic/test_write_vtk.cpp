// The file for viewers, read back by a small reader of this test.
#include "elastic/made_box.h"
#include "physics/elastic/write_vtk.h"
#include "support/catch.h"

#include <cmath>
#include <sstream>
#include <utility>

using namespace tacksquare;
using namespace tacksquare::test;
using namespace tacksquare::elastic;
using Eigen::VectorXd;

namespace {

// What stands between the tags of the array named so.
std::vector<double> numbers_of(const std::string& file, const std::string& name) {
  const auto tag = file.find("Name=\"" + name + "\"");
  REQUIRE(tag != std::string::npos);
  const auto from = file.find(">\n", tag), to = file.find("</DataArray>", tag);
  REQUIRE(from < to);
  std::istringstream in(file.substr(from + 2, to - from - 2));
  std::vector<double> made;
  for (double x = 0.0; in >> x;)
    made.push_back(x);
  CHECK(in.eof());
  return made;
}

// Each tag is closed in turn; returns how many there are.
std::size_t tags_of(const std::string& file) {
  std::vector<std::string> open;
  std::size_t count = 0;
  for (std::size_t at = file.find('<'); at != std::string::npos; at = file.find('<', at + 1)) {
    const std::string tag = file.substr(at + 1, file.find('>', at) - at - 1);
    if (tag[0] == '?') continue;
    const std::string name = tag.substr(tag[0] == '/', tag.find(' ') - (tag[0] == '/'));
    if (tag[0] != '/') {
      open.push_back(name);
      ++count;
      continue;
    }
    REQUIRE_FALSE(open.empty());
    CHECK(open.back() == name);
    open.pop_back();
  }
  CHECK(open.empty());
  return count;
}

struct Drawn {
  BoxModel model;
  VectorXd readings;
  Shape shape;
};

// Welded all over; elements of 25 mm, so that all corners of figures are nodes.
Drawn drawn(const std::string& name) {
  const StatedBox b = stated_box(name);
  ModelOptions options;
  options.mesh_mm = 25.0;
  BoxModel model = made_box(b, options);
  std::vector<std::size_t> order;
  for (std::size_t w = 0; w < model.welds.size(); ++w)
    order.push_back(w);
  const WholeBox whole(model, welded_springs(model, order));
  const VectorXd u = whole.displacements(
      welded_loads(model, order, std::vector<Shrinkage>(b.box.seams.size(), {0.3, 20000.0, 0.01})));
  Shape shape = whole.shape(u);
  VectorXd readings = whole.read(u);
  return {std::move(model), std::move(readings), std::move(shape)};
}

} // namespace

TEST_CASE("a drawn box is well-formed and has all nodes and elements of its faces") {
  for (const std::string name : {"open", "cutouts", "hexagon"}) {
    INFO(name);
    const Drawn d = drawn(name);
    const std::string file = write_vtk(*d.model.plates, d.shape, {});
    CHECK(tags_of(file) == 13);
    std::size_t nodes = 0, cells = 0, corners = 0;
    std::vector<double> faces;
    for (std::size_t f = 0; f < d.model.plates->faces(); ++f) {
      const shell::PlateMesh& mesh = d.model.plates->plate(f).mesh();
      nodes += mesh.nodes.size();
      cells += mesh.cells.size();
      faces.insert(faces.end(), mesh.cells.size(), static_cast<double>(f));
      for (const shell::Cell& c : mesh.cells)
        corners += c.corners;
    }
    CHECK(file.find("NumberOfPoints=\"" + std::to_string(nodes) + "\" NumberOfCells=\"" +
                    std::to_string(cells) + "\"") != std::string::npos);
    CHECK(numbers_of(file, "Points").size() == 3 * nodes);
    CHECK(numbers_of(file, "displacement").size() == 3 * nodes);
    CHECK(numbers_of(file, "face") == faces);
    const std::vector<double> connectivity = numbers_of(file, "connectivity"),
                              offsets = numbers_of(file, "offsets"), types = numbers_of(file, "types"),
                              points = numbers_of(file, "Points");
    CHECK(connectivity.size() == corners);
    REQUIRE(offsets.size() == cells);
    REQUIRE(types.size() == cells);
    CHECK(offsets.back() == static_cast<double>(corners));
    // Areas of all elements make up the faces'.
    double area = 0.0, stated = 0.0, before = 0.0;
    for (std::size_t c = 0; c < cells; ++c) {
      const auto point = [&](double at) {
        const auto i = 3 * static_cast<std::size_t>(connectivity[static_cast<std::size_t>(at)]);
        return Vec3{points[i], points[i + 1], points[i + 2]};
      };
      CHECK(offsets[c] - before == (types[c] == 5.0 ? 3.0 : 4.0));
      for (double k = before + 2; k < offsets[c]; k += 1.0)
        area += 0.5 * norm(cross(point(k - 1) - point(before), point(k) - point(before)));
      before = offsets[c];
    }
    const StatedBox b = stated_box(name);
    for (std::size_t f = 0; f < b.box.faces.size(); ++f) {
      stated += b.geometry.faces[f].area_mm2;
      for (const auto& hole : b.box.faces[f].cutouts)
        stated -= norm(hole[1] - hole[0]) * norm(hole[2] - hole[1]);
    }
    CHECK(area == Approx(stated).epsilon(1e-5));
  }
}

TEST_CASE("the drawn displacements are those that the figures read") {
  const StatedBox b = stated_box("open");
  const Drawn d = drawn("open");
  const std::string file = write_vtk(*d.model.plates, d.shape, {});
  const std::string tenfold = write_vtk(*d.model.plates, d.shape, {10.0, 0.0001});
  const std::vector<double> points = numbers_of(file, "Points");
  CHECK(numbers_of(tenfold, "Points") == points);
  std::size_t lengths = 0;
  for (const double scale : {1.0, 10.0}) {
    const std::vector<double> moved = numbers_of(scale == 1.0 ? file : tenfold, "displacement");
    const auto at = [&](Vec3 p) { // mean of the faces
      Vec3 sum;
      int n = 0;
      for (std::size_t i = 0; i + 2 < points.size(); i += 3)
        if (norm(Vec3{points[i], points[i + 1], points[i + 2]} - p) < 1e-3) {
          sum = sum + Vec3{moved[i], moved[i + 1], moved[i + 2]};
          ++n;
        }
      REQUIRE(n > 0);
      return sum * (1.0 / n);
    };
    for (std::size_t i = 0; i < b.figures.size(); ++i) {
      const Figure& f = b.figures[i];
      if (f.kind != FigureKind::edge_length) continue;
      const double grown = dot(at(f.points[1]) - at(f.points[0]), unit(f.points[1] - f.points[0]));
      INFO(f.id);
      CHECK(std::abs(grown - scale * d.readings(d.model.measures[i])) < 2e-4);
      CHECK(std::abs(grown) > 0.01);
      ++lengths;
    }
  }
  CHECK(lengths >= 2);
}

TEST_CASE("all drawn numbers are multiples of the step, and nothing is minus zero") {
  const Drawn d = drawn("hexagon");
  const std::string file = write_vtk(*d.model.plates, d.shape, {1.0, 0.01});
  for (const std::string name : {"Points", "displacement"})
    for (const double x : numbers_of(file, name))
      CHECK(std::abs(x * 100.0 - std::round(x * 100.0)) < 1e-6);
  CHECK(file.find("-0.00\n") == std::string::npos);
  CHECK(file.find("-0.00 ") == std::string::npos);
  CHECK(file == write_vtk(*drawn("hexagon").model.plates, d.shape, {1.0, 0.01}));
}
