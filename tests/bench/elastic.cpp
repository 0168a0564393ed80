// The elastic model: set-up, one order exact and by shapes, growth with the mesh and with seams; then stated
// boxes side by side with CalculiX on the same mesh, where ccx and python3 are there. Printed, never judged.
#include "elastic/stated_box.h"
#include "physics/elastic/reduced.h"
#include "physics/elastic/sequence.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <numeric>
#include <string>

using namespace tacksquare;
using namespace tacksquare::elastic;

namespace {

// CPU time: others may be at work on the machine.
template <class Work> double milliseconds(Work work, int runs = 3, int at_once = 1) {
  double least = 1e300;
  for (int i = 0; i < runs; ++i) {
    const std::clock_t from = std::clock();
    for (int k = 0; k < at_once; ++k)
      work();
    least = std::min(least, 1e3 * static_cast<double>(std::clock() - from) / CLOCKS_PER_SEC / at_once);
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

BoxModel model_of(const Made& m, double mesh_mm, bool fine_ends) {
  ModelOptions options;
  if (!fine_ends) options.end_mm = 0.0;
  options.mesh_mm = mesh_mm;
  Diagnostics out;
  return *make_box_model(m.job, m.box, m.geometry, m.tacks, m.welds, m.figures, {}, options, out);
}

std::vector<std::size_t> as_listed(std::size_t n) {
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), std::size_t{0});
  return order;
}

struct Times {
  double set_up = 0.0, shapes = 0.0, exact = 0.0, by_shapes = 0.0; // ms
  std::size_t elements = 0, welds = 0;
  Index springs = 0, kept = 0; // shapes in the place of springs
};

template <class Make> Times times(Make make, int runs) {
  BoxModel model;
  TackedBox box, few;
  Times t;
  t.set_up = milliseconds(
      [&] {
        model = make();
        box = tacked(model);
      },
      runs);
  t.shapes = milliseconds([&] { few = reduced(box, {}); }, runs);
  const auto order = as_listed(box.welds.size());
  t.exact = milliseconds([&] { weld_sequence(box, order); }, 3, 5);
  t.by_shapes = milliseconds([&] { weld_sequence(few, order); }, 3, 20);
  t.elements = model.elements;
  t.welds = order.size();
  t.springs = closing_of(box.welds, 0).stiffness.size();
  t.kept = closing_of(few.welds, 0).stiffness.size();
  return t;
}

void line(const std::string& name, const Made& m, double mesh_mm, bool fine_ends) {
  const Times t = times([&] { return model_of(m, mesh_mm, fine_ends); }, mesh_mm < 20.0 ? 1 : 3);
  std::printf("%-30s %6.1f %8zu %5zu %8.0f %8td %8.2f %8.0f %8td %9.2f\n",
              (fine_ends ? name + ", fine ends" : name).c_str(), mesh_mm, t.elements, t.welds, t.set_up,
              t.springs, t.exact, t.shapes, t.kept, t.by_shapes);
}

// CPU seconds on the decks of the box's steps; negative where there is no ccx.
double calculix_seconds(const std::string& box, const std::string& mesh) {
  const std::string command =
      std::string("python3 '" TACKSQUARE_SOURCE "/tests/elastic/boxes_by_calculix.py' '")
          .append(TACKSQUARE_TEST_DATA "' ")
          .append(mesh)
          .append(" --cpu=")
          .append(box);
  std::FILE* said = popen(command.c_str(), "r");
  double seconds = -1.0;
  if (!said) return seconds;
  if (std::fscanf(said, "%lf", &seconds) != 1) seconds = -1.0;
  pclose(said);
  return seconds;
}

// An order of all its steps against a deck a step.
void against_calculix(const std::string& name) {
  const test::StatedBox b = test::stated_box(name);
  std::vector<WeldLength> welds;
  for (const test::StatedStep& s : b.steps)
    welds.push_back({s.seam, s.from_mm, s.to_mm});
  const auto make = [&] {
    ModelOptions options;
    options.mesh_mm = 25.0;
    options.end_mm = 0.0; // as the other program has it
    Diagnostics out;
    return *make_box_model(b.job, b.box, b.geometry, b.tacks, welds, b.figures, {}, options, out);
  };
  const Times t = times(make, 3);
  std::printf("%-20s %5zu %8.0f %8td %8.2f %8.0f %8td %9.3f", name.c_str(), t.welds, t.set_up, t.springs,
              t.exact, t.shapes, t.kept, t.by_shapes);
  std::fflush(stdout);
  const double seconds = calculix_seconds(name, "25");
  if (seconds > 0.0)
    std::printf(" %9.1f %9.0f %10.0f\n", seconds, 1e3 * seconds / t.exact, 1e3 * seconds / t.by_shapes);
  else
    std::printf("  no ccx\n");
}

void load() {
  double of[1] = {0.0};
  if (getloadavg(of, 1) == 1) std::printf("load %.1f\n", of[0]);
}

} // namespace

int main() {
  load();
  std::printf(
      "CPU ms, least of three (of one at 12.5 mm). set-up: mesh to tacked box; order: all welds in one "
      "exact order;\nfind: looking for shapes; by shapes: the same order, figures off by 0.3 %% at most\n"
      "%-30s %6s %8s %5s %8s %8s %8s %8s %8s %9s\n",
      "box", "mesh", "elements", "welds", "set-up", "springs", "order", "find", "shapes", "by shapes");
  const Made twelve = closed_box(0, 2), whole = closed_box(0, 1);
  for (const bool fine : {false, true}) {
    for (const double mesh : {50.0, 25.0, 12.5})
      line("12 seams, 24 lengths", twelve, mesh, fine);
    for (const double mesh : {50.0, 25.0, 12.5})
      line("12 seams whole", whole, mesh, fine);
    for (const std::size_t dividers : {1u, 2u, 4u})
      line(std::to_string(dividers) + " dividers", closed_box(dividers, 1), 50.0, fine);
  }

  std::printf(
      "\nStated boxes at 25 mm against CalculiX, S8R, one deck a step: its CPU seconds on all, and times an "
      "order\n%-20s %5s %8s %8s %8s %8s %8s %9s %9s %9s %10s\n",
      "box", "steps", "set-up", "springs", "order", "find", "shapes", "by shapes", "CalculiX", "of exact",
      "of shapes");
  std::fflush(stdout);
  for (const char* name : {"open", "closed"})
    against_calculix(name);
  load();
}
