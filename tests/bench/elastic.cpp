// The elastic model: set-up, one exact order, growth with the mesh and with seams. Printed, never judged.
#include "physics/elastic/reduced.h"
#include "physics/elastic/sequence.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <numeric>
#include <string>

using namespace tacksquare;
using namespace tacksquare::elastic;

namespace {

template <class Work> double milliseconds(Work work, int runs = 3) {
  double least = 1e300;
  for (int i = 0; i < runs; ++i) {
    const auto from = std::chrono::steady_clock::now();
    work();
    least = std::min(
        least, std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - from).count());
  }
  return least;
}

struct Made {
  Job job;
  Box box;
  BoxGeometry geometry;
  std::vector<TackPlace> tacks;
  std::vector<WeldLength> welds;
  std::vector<Figure> figures;
};

// A closed box of six panels 600 x 400 x 300, and `dividers` walls across it that are welded all round.
Made closed_box(std::size_t dividers, int lengths_each) {
  Made m;
  Sheet sheet;
  sheet.thickness = mm(2.5);
  sheet.metal.youngs_MPa = 210000.0;
  sheet.metal.poisson = 0.3;
  m.job.sheets.push_back(sheet);
  const auto face = [&](Vec3 origin, Vec3 u, Vec3 v, double w, double h) {
    Face f;
    f.id = std::string("F").append(std::to_string(m.box.faces.size()));
    f.part = m.box.parts.size();
    f.placement = {origin, u, v};
    f.outline = {{0, 0}, {w, 0}, {w, h}, {0, h}};
    f.setback_mm.assign(4, 0.0);
    m.box.parts.push_back({f.id, 0, false, {}, {}});
    m.box.faces.push_back(f);
    FaceGeometry g;
    g.area_mm2 = w * h;
    m.geometry.faces.push_back(g);
    return m.box.faces.size() - 1;
  };
  const double a = 600, b = 400, c = 300;
  const std::size_t base = face({0, b, 0}, {1, 0, 0}, {0, -1, 0}, a, b),
                    lid = face({0, 0, c}, {1, 0, 0}, {0, 1, 0}, a, b);
  const std::size_t front = face({0, 0, 0}, {1, 0, 0}, {0, 0, 1}, a, c),
                    back = face({a, b, 0}, {-1, 0, 0}, {0, 0, 1}, a, c);
  const std::size_t left = face({0, b, 0}, {0, -1, 0}, {0, 0, 1}, b, c),
                    right = face({a, 0, 0}, {0, 1, 0}, {0, 0, 1}, b, c);
  const auto seam = [&](std::size_t fa, std::size_t fb, Vec3 p, Vec3 q, Vec3 into_a, Vec3 into_b,
                        JointKind kind) {
    Seam s;
    s.id = std::string("S").append(std::to_string(m.box.seams.size()));
    s.face_a = fa;
    s.face_b = fb;
    s.joint = kind;
    SeamLine l;
    l.start = p;
    l.end = q;
    l.length_mm = norm(q - p);
    l.into_a = into_a;
    l.into_b = into_b;
    l.towards_welder = unit(-(into_a + into_b));
    m.box.seams.push_back(s);
    m.geometry.seams.push_back(l);
    const std::size_t index = m.box.seams.size() - 1;
    const int tacks = std::max(2, static_cast<int>(l.length_mm / 150.0) + 1);
    for (int i = 0; i < tacks; ++i)
      m.tacks.push_back({index, 12.5 + (l.length_mm - 25.0) * i / (tacks - 1), 20.0});
    for (int i = 0; i < lengths_each; ++i)
      m.welds.push_back({index, l.length_mm * i / lengths_each, l.length_mm * (i + 1) / lengths_each, false});
  };
  const Vec3 x{1, 0, 0}, y{0, 1, 0}, z{0, 0, 1};
  const auto corner = JointKind::corner;
  seam(base, front, {0, 0, 0}, {a, 0, 0}, y, z, corner);
  seam(base, back, {0, b, 0}, {a, b, 0}, -y, z, corner);
  seam(base, left, {0, 0, 0}, {0, b, 0}, x, z, corner);
  seam(base, right, {a, 0, 0}, {a, b, 0}, -x, z, corner);
  seam(lid, front, {0, 0, c}, {a, 0, c}, y, -z, corner);
  seam(lid, back, {0, b, c}, {a, b, c}, -y, -z, corner);
  seam(lid, left, {0, 0, c}, {0, b, c}, x, -z, corner);
  seam(lid, right, {a, 0, c}, {a, b, c}, -x, -z, corner);
  seam(front, left, {0, 0, 0}, {0, 0, c}, x, y, corner);
  seam(front, right, {a, 0, 0}, {a, 0, c}, -x, y, corner);
  seam(back, left, {0, b, 0}, {0, b, c}, x, -y, corner);
  seam(back, right, {a, b, 0}, {a, b, c}, -x, -y, corner);
  for (std::size_t d = 0; d < dividers; ++d) {
    const double at = a * static_cast<double>(d + 1) / static_cast<double>(dividers + 1);
    const std::size_t wall = face({at, 0, 0}, {0, 1, 0}, {0, 0, 1}, b, c);
    seam(wall, base, {at, 0, 0}, {at, b, 0}, z, x, JointKind::tee);
    seam(wall, lid, {at, 0, c}, {at, b, c}, -z, x, JointKind::tee);
    seam(wall, front, {at, 0, 0}, {at, 0, c}, y, x, JointKind::tee);
    seam(wall, back, {at, b, 0}, {at, b, c}, -y, x, JointKind::tee);
  }
  m.geometry.high = {a, b, c};
  m.figures = {{"front", FigureKind::diagonals, {{0, 0, 0}, {a, 0, 0}, {a, 0, c}, {0, 0, c}}, {}, 0},
               {"base", FigureKind::diagonals, {{0, 0, 0}, {a, 0, 0}, {a, b, 0}, {0, b, 0}}, {}, 0},
               {"twist", FigureKind::twist, {{0, 0, 0}, {a, 0, 0}, {a, b, 0}, {0, b, 0}}, {}, 0}};
  return m;
}

BoxModel model_of(const Made& m, double mesh_mm) {
  ModelOptions options;
  options.mesh_mm = mesh_mm;
  Diagnostics out;
  return *make_box_model(m.job, m.box, m.geometry, m.tacks, m.welds, m.figures, {}, options, out);
}

std::vector<std::size_t> as_listed(std::size_t n) {
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), std::size_t{0});
  return order;
}

void line(const char* name, const Made& m, double mesh_mm, bool reduce) {
  const int runs = mesh_mm < 20.0 ? 1 : 3;
  BoxModel model;
  TackedBox box, few;
  const double set_up = milliseconds(
      [&] {
        model = model_of(m, mesh_mm);
        box = tacked(model);
      },
      runs);
  const double shapes = reduce ? milliseconds([&] { few = reduced(box, {}); }, runs) : 0.0;
  const auto order = as_listed(box.welds.size());
  const double whole = milliseconds([&] { weld_sequence(box, order); });
  const double small = reduce ? milliseconds([&] { weld_sequence(few, order); }) : 0.0;
  std::printf("%-22s %6.1f %8zu %6zu %8td %10.1f %10.1f %10.2f %10.2f\n", name, mesh_mm, model.elements,
              m.welds.size(), box.structure.readings(), set_up, shapes, whole, small);
}

} // namespace

int main() {
  std::printf("ms, least of three (of one at 12.5 mm); set-up: mesh to tacked box; order: all welds in one "
              "exact order\n"
              "%-22s %6s %8s %6s %8s %10s %10s %10s %10s\n",
              "box", "mesh", "elements", "welds", "readings", "set-up", "shapes", "order", "by shapes");
  const Made twelve = closed_box(0, 2);
  for (const double mesh : {50.0, 25.0, 12.5})
    line("closed, 12 seams", twelve, mesh, true);
  for (const std::size_t dividers : {0u, 1u, 2u, 4u})
    line(("closed, " + std::to_string(dividers) + " dividers").c_str(), closed_box(dividers, 1), 50.0, true);
}
