// The only file that includes CGAL: it takes long to compile.
#include "base/diagnostic.h"
#include "physics/shell/mesh_parts.h"

#include <CGAL/Constrained_Delaunay_triangulation_2.h>
#include <CGAL/Delaunay_mesh_face_base_2.h>
#include <CGAL/Delaunay_mesh_size_criteria_2.h>
#include <CGAL/Delaunay_mesh_vertex_base_2.h>
#include <CGAL/Delaunay_mesher_2.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Triangulation_data_structure_2.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <list>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace tacksquare::shell {
namespace {

// Both bases carry stamps, by which CGAL orders its handles: no address decides.
using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Vertices = CGAL::Delaunay_mesh_vertex_base_2<Kernel>;
using Faces = CGAL::Delaunay_mesh_face_base_2<Kernel>;
using Triangulation =
    CGAL::Constrained_Delaunay_triangulation_2<Kernel, CGAL::Triangulation_data_structure_2<Vertices, Faces>>;
using Point = Triangulation::Point;

constexpr double kAspectBound = 0.125; // sin^2 of the least angle: 20.7 degrees
constexpr double kLongest = 1.5;       // edge, in sizes
constexpr double kTiny = 0.01;         // edge, in sizes

// No angle under the bound and no edge over the longest; but triangles tiny all round keep their angles: near
// corners sharper than 60 degrees, refinement for angles alone may go on until two places are one.
class Criteria : public CGAL::Delaunay_mesh_size_criteria_2<Triangulation> {
  using Base = CGAL::Delaunay_mesh_size_criteria_2<Triangulation>;

 public:
  Criteria(const PlateShape& shape, double size_mm)
      : Base(kAspectBound, kLongest * size_mm), shape_(&shape), size_mm_(size_mm) {}

  class Is_bad : public Base::Is_bad {
   public:
    Is_bad(const Base::Is_bad& base, const PlateShape& shape, double size_mm)
        : Base::Is_bad(base), shape_(&shape), size_mm_(size_mm) {}
    using Base::Is_bad::operator();
    CGAL::Mesh_2::Face_badness operator()(const Triangulation::Face_handle& face, Quality& quality) const {
      const auto badness = Base::Is_bad::operator()(face, quality);
      double longest = 0.0;
      Vec2 middle;
      for (int i = 0; i < 3; ++i) {
        const Point &p = face->vertex(i)->point(), &q = face->vertex((i + 1) % 3)->point();
        longest = std::max(longest, norm(Vec2{q.x() - p.x(), q.y() - p.y()}));
        middle = middle + Vec2{p.x(), p.y()} * (1.0 / 3.0);
      }
      const double wanted = size_at_mm(*shape_, size_mm_, middle);
      if (badness == CGAL::Mesh_2::BAD && longest <= kTiny * wanted) return CGAL::Mesh_2::NOT_BAD;
      if (shape_->fine.empty()) return badness;
      const double part = longest / (kLongest * wanted);
      if (part <= 1.0) return badness;
      quality.first = 1.0; // as the base does with what is too large; its angle is not asked
      quality.second = part * part;
      return CGAL::Mesh_2::IMPERATIVELY_BAD;
    }

   private:
    const PlateShape* shape_;
    double size_mm_;
  };
  Is_bad is_bad_object() const { return {Base::is_bad_object(), *shape_, size_mm_}; }

 private:
  const PlateShape* shape_;
  double size_mm_;
};
using Mesher = CGAL::Delaunay_mesher_2<Triangulation, Criteria>;

// A point inside a ring: the corner lowest by x is convex; half way from it to the deepest corner within its
// ear, or to the ear's base where none is (as in the proof that every polygon has a diagonal: Meisters,
// American Mathematical Monthly 82, 1975; from memory).
Point inside(const std::vector<Vec2>& ring) {
  const std::size_t n = ring.size();
  std::size_t low = 0;
  for (std::size_t i = 1; i < n; ++i)
    if (std::pair(ring[i].x, ring[i].y) < std::pair(ring[low].x, ring[low].y)) low = i;
  const Vec2 tip = ring[low];
  Vec2 a = ring[(low + n - 1) % n], b = ring[(low + 1) % n];
  if (cross(tip - a, b - tip) < 0.0) std::swap(a, b);
  Vec2 deepest = (a + b) * 0.5;
  double depth = 0.0;
  for (const Vec2 p : ring) {
    const bool in_ear = cross(tip - a, p - a) > 0.0 && cross(b - tip, p - tip) > 0.0;
    if (in_ear && cross(a - b, p - b) > depth) {
      depth = cross(a - b, p - b);
      deepest = p;
    }
  }
  return {0.5 * (tip.x + deepest.x), 0.5 * (tip.y + deepest.y)};
}

Triangulation refined(const PlateShape& shape, double size_mm) {
  const PlateGraph graph = plate_graph(shape, size_mm);
  Triangulation triangles;
  std::vector<Triangulation::Vertex_handle> vertices;
  for (const Vec2 p : graph.points)
    vertices.push_back(triangles.insert(Point(p.x, p.y)));
  for (const auto& [from, to] : graph.pieces)
    triangles.insert_constraint(vertices[from], vertices[to]);

  Triangulation::Face_handle nearby; // the last point's neighbour in the row
  for (const Vec2 p : lattice(shape, graph, size_mm))
    nearby = triangles.insert(Point(p.x, p.y), nearby)->face();

  std::list<Point> holes;
  for (const auto& cutout : shape.cutouts)
    holes.push_back(inside(cutout));
  Mesher mesher(triangles, Criteria(shape, size_mm));
  mesher.set_seeds(holes.begin(), holes.end(), false);
  mesher.init();
  while (!mesher.is_refinement_done()) {
    mesher.step_by_step_refine_mesh();
    if (triangles.number_of_vertices() > kMostNodes)
      throw InternalError("triangle_mesh: more nodes than any plate needs");
  }
  return triangles;
}

// Nodes by place, cells by their nodes.
PlateMesh numbered(const Triangulation& triangles) {
  const auto place = [](Triangulation::Face_handle face, int corner) {
    const Point& p = face->vertex(corner)->point();
    return std::pair(p.x(), p.y());
  };
  std::map<std::pair<double, double>, std::size_t> number;
  for (const auto face : triangles.finite_face_handles())
    if (face->is_in_domain())
      for (int i = 0; i < 3; ++i)
        number[place(face, i)] = 0;
  PlateMesh mesh;
  for (auto& [p, index] : number) {
    index = mesh.nodes.size();
    mesh.nodes.push_back({p.first, p.second});
  }
  for (const auto face : triangles.finite_face_handles()) {
    if (!face->is_in_domain()) continue;
    std::array<std::size_t, 3> corner{number.at(place(face, 0)), number.at(place(face, 1)),
                                      number.at(place(face, 2))};
    std::rotate(corner.begin(), std::min_element(corner.begin(), corner.end()), corner.end());
    mesh.cells.push_back({{corner[0], corner[1], corner[2], 0}, 3});
  }
  std::sort(mesh.cells.begin(), mesh.cells.end(),
            [](const Cell& p, const Cell& q) { return p.node < q.node; });
  return mesh;
}

double area_mm2(const PlateMesh& mesh) {
  double area = 0.0;
  for (const Cell& cell : mesh.cells) {
    const Vec2 a = mesh.nodes[cell.node[0]];
    area += 0.5 * cross(mesh.nodes[cell.node[1]] - a, mesh.nodes[cell.node[2]] - a);
  }
  return area;
}

} // namespace

PlateMesh triangle_mesh(const PlateShape& shape, double size_mm) {
  const auto mesh = [&] {
    try {
      return numbered(refined(shape, size_mm));
    } catch (const Triangulation::Intersection_of_constraints_exception&) {
      throw InternalError("triangle_mesh: rings or lines cross");
    } catch (const CGAL::Failure_exception& failure) {
      throw InternalError(std::string("triangle_mesh: ") + failure.what());
    }
  }();
  // Rings that cross, or run the wrong way, give another area.
  const double area = shape_area_mm2(shape);
  if (!(std::abs(area_mm2(mesh) - area) <= 1e-6 * area))
    throw InternalError("triangle_mesh: the elements do not add up to the plate");
  return mesh;
}

} // namespace tacksquare::shell
