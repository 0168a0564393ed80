#include "elastic/stated_box.h"

#include "geometry/segments.h"

#include <algorithm>
#include <fstream>
#include <numeric>
#include <sstream>
#include <stdexcept>

namespace tacksquare::test {

namespace {

using elastic::Figure;
using elastic::FigureKind;

// The bench reads boxes too: no check of the test library here.
void need(bool good, const std::string& what) {
  if (!good) throw std::runtime_error("elastic_boxes.txt: " + what);
}

Vec3 numbers(const std::string& word) {
  Vec3 p;
  char comma = 0;
  std::istringstream in(word);
  in >> p.x >> comma >> p.y >> comma >> p.z;
  need(!in.fail(), "not a point: " + word);
  return p;
}

std::size_t face_named(const Box& box, const std::string& id) {
  for (std::size_t f = 0; f < box.faces.size(); ++f)
    if (box.faces[f].id == id) return f;
  throw std::runtime_error("elastic_boxes.txt: no face " + id);
}

std::size_t seam_named(const Box& box, const std::string& id) {
  for (std::size_t s = 0; s < box.seams.size(); ++s)
    if (box.seams[s].id == id) return s;
  throw std::runtime_error("elastic_boxes.txt: no seam " + id);
}

Vec3 normal_of(const std::vector<Vec3>& ring) {
  Vec3 n;
  for (std::size_t i = 0; i < ring.size(); ++i)
    n = n + cross(ring[i] - ring[0], ring[(i + 1) % ring.size()] - ring[0]);
  return unit(n);
}

Vec3 middle_of(const FaceGeometry& face) {
  Vec3 sum;
  for (const Vec3 p : face.ring)
    sum = sum + p;
  return sum * (1.0 / static_cast<double>(face.ring.size()));
}

// Away from the line, in the face.
Vec3 into(const Box& box, const BoxGeometry& geometry, std::size_t face, Vec3 a, Vec3 b) {
  const Vec3 d = unit(cross(box.faces[face].placement.normal(), b - a));
  return dot(middle_of(geometry.faces[face]) - a, d) > 0.0 ? d : -d;
}

struct Reader {
  Change change{};
  std::vector<StatedBox> boxes{};

  Vec3 point(const std::string& word) const {
    return change.move ? change.move(numbers(word)) : numbers(word);
  }
  Vec3 vector(const std::string& word) const {
    return change.move ? change.move(numbers(word)) - change.move({0, 0, 0}) : numbers(word);
  }

  StatedBox& box() { return boxes.back(); }

  void face(std::istringstream& in) {
    Face face;
    in >> face.id;
    std::vector<Vec3> ring;
    for (std::string word; in >> word;)
      ring.push_back(point(word));
    if (change.mirrored) std::reverse(ring.begin(), ring.end()); // its normal still points out
    const Vec3 n = normal_of(ring);
    face.placement = {ring[0], unit(ring[1] - ring[0]), cross(n, unit(ring[1] - ring[0]))};
    for (const Vec3 p : ring)
      face.outline.push_back(face.placement.local(p));
    face.setback_mm.assign(ring.size(), 0.0);
    face.part = box().box.parts.size();
    box().box.parts.push_back({face.id, 0, false, {}, {}});
    double twice = 0.0;
    for (std::size_t i = 0; i < ring.size(); ++i)
      twice += cross(face.outline[i], face.outline[(i + 1) % ring.size()]);
    box().box.faces.push_back(face);
    box().geometry.faces.push_back({0.5 * twice, {}, ring, {}});
  }

  void line(std::istringstream& in, bool bent) {
    std::string id, a, b, p, q;
    if (!bent) in >> id;
    in >> a >> b >> p >> q;
    Box& made = box().box;
    const std::size_t fa = face_named(made, a), fb = face_named(made, b);
    const Vec3 start = point(p), end = point(q);
    if (bent) {
      const std::size_t part = made.faces[fa].part;
      box().geometry.bends.push_back({part, made.parts[part].bends.size(), start, end, 0.0});
      made.parts[part].bends.push_back({fa, fb, mm(1.0), {}});
      return;
    }
    Seam seam;
    seam.id = id;
    SeamLine line;
    line.start = start;
    line.end = end;
    line.length_mm = norm(end - start);
    line.into_a = into(made, box().geometry, fa, start, end);
    line.into_b = into(made, box().geometry, fb, start, end);
    line.towards_welder = unit(-(line.into_a + line.into_b));
    seam.face_a = fa;
    seam.face_b = fb;
    made.seams.push_back(seam);
    box().geometry.seams.push_back(line);
  }

  void former(std::istringstream& in) {
    elastic::Piece piece;
    in >> piece.stiffness_N_mm;
    for (std::string at, out; in >> at >> out;) {
      piece.at.push_back(point(at));
      piece.out.push_back(vector(out));
    }
    piece.off_mm.assign(piece.at.size(), 0.0);
    box().former = piece;
  }

  void measure(std::istringstream& in) {
    Figure f;
    std::string kind;
    in >> f.id >> kind;
    std::vector<Vec3> points;
    std::string last;
    for (std::string word; in >> word; last = word)
      points.push_back(point(word));
    if (kind == "edge_bow") {
      f.kind = FigureKind::edge_bow;
      points.pop_back();
      f.direction = unit(vector(last));
    } else if (kind == "bow") {
      f.kind = FigureKind::bow;
      f.direction = normal_of({points[0], points[1], points[2]});
      std::rotate(points.begin(), points.end() - 1, points.end());
    } else {
      const std::map<std::string, FigureKind> kinds = {{"diagonal", FigureKind::diagonals},
                                                       {"twist", FigureKind::twist},
                                                       {"length", FigureKind::edge_length}};
      need(kinds.count(kind) == 1, "no such measure: " + kind);
      f.kind = kinds.at(kind);
    }
    f.points = points;
    box().figures.push_back(f);
  }

  void load(std::istringstream& in) {
    std::string name, kind;
    in >> name >> kind;
    StatedCase& made = box().cases[name];
    if (kind == "weld") {
      std::string seam;
      elastic::WeldLength w;
      in >> seam >> w.from_mm >> w.to_mm;
      w.seam = seam_named(box().box, seam);
      made.joined.push_back(w);
    } else {
      std::string p, v;
      in >> p >> v;
      made.forces.emplace_back(point(p), vector(v));
    }
  }

  void item(const std::string& what, std::istringstream& in) {
    if (what == "box") {
      boxes.emplace_back();
      double t = 0.0, e = 0.0, nu = 0.0;
      in >> box().name >> t >> e >> nu;
      t *= change.thicker;
      Sheet sheet;
      sheet.thickness = mm(t);
      sheet.metal.youngs_MPa = e;
      sheet.metal.poisson = nu;
      box().job.sheets.push_back(sheet);
      box().box.id = box().name;
    } else if (what == "face")
      face(in);
    else if (what == "hole") {
      std::string id;
      in >> id;
      Face& face = box().box.faces[face_named(box().box, id)];
      std::vector<Vec2> ring;
      for (std::string word; in >> word;)
        ring.push_back(face.placement.local(point(word)));
      face.cutouts.push_back(ring);
    } else if (what == "bend" || what == "seam")
      line(in, what == "bend");
    else if (what == "tack") {
      std::string seam;
      elastic::TackPlace t;
      in >> seam >> t.at_mm >> t.length_mm;
      t.seam = seam_named(box().box, seam);
      box().tacks.push_back(t);
    } else if (what == "step") {
      std::string seam;
      StatedStep s;
      in >> seam >> s.from_mm >> s.to_mm >> s.force_N >> s.moment_Nmm;
      s.seam = seam_named(box().box, seam);
      box().steps.push_back(s);
    } else if (what == "former")
      former(in);
    else if (what == "load")
      load(in);
    else if (what == "measure")
      measure(in);
    else
      need(false, "no such word: " + what);
  }
};

} // namespace

std::vector<StatedBox> stated_boxes(const Change& change) {
  std::ifstream file(TACKSQUARE_TEST_DATA "/elastic_boxes.txt", std::ios::binary);
  need(file.is_open(), "cannot be read");
  std::vector<std::string> lines;
  for (std::string text; std::getline(file, text);)
    if (!text.empty() && text[0] != '#') lines.push_back(text);
  const auto is_face = [](const std::string& line) { return line.rfind("face ", 0) == 0; };
  if (change.faces_backward)
    for (auto from = lines.begin(); from != lines.end();) {
      from = std::find_if(from, lines.end(), is_face);
      const auto to = std::find_if_not(from, lines.end(), is_face);
      std::reverse(from, to);
      from = to;
    }
  Reader reader;
  reader.change = change;
  for (const std::string& line : lines) {
    std::istringstream in(line);
    std::string what;
    in >> what;
    reader.item(what, in);
  }
  for (StatedBox& b : reader.boxes) {
    // An end that no other line has lies on a free rim.
    const auto held = [&](Vec3 p, std::size_t of) {
      const auto touches = [&](Vec3 start, Vec3 end) { return distance(Segment{start, end}, p) < 1e-3; };
      for (const BendLine& l : b.geometry.bends)
        if (touches(l.start, l.end)) return true;
      for (std::size_t s = 0; s < b.geometry.seams.size(); ++s)
        if (s != of && touches(b.geometry.seams[s].start, b.geometry.seams[s].end)) return true;
      return false;
    };
    for (std::size_t s = 0; s < b.geometry.seams.size(); ++s) {
      b.geometry.seams[s].start_at_rim = !held(b.geometry.seams[s].start, s);
      b.geometry.seams[s].end_at_rim = !held(b.geometry.seams[s].end, s);
    }
    // A box lies between the corners of its faces.
    b.geometry.low = {1e9, 1e9, 1e9};
    b.geometry.high = {-1e9, -1e9, -1e9};
    for (const FaceGeometry& f : b.geometry.faces)
      for (const Vec3 p : f.ring) {
        b.geometry.low = {std::min(b.geometry.low.x, p.x), std::min(b.geometry.low.y, p.y),
                          std::min(b.geometry.low.z, p.z)};
        b.geometry.high = {std::max(b.geometry.high.x, p.x), std::max(b.geometry.high.y, p.y),
                           std::max(b.geometry.high.z, p.z)};
      }
  }
  return reader.boxes;
}

StatedBox stated_box(const std::string& name, const Change& change) {
  for (StatedBox& b : stated_boxes(change))
    if (b.name == name) return b;
  throw std::runtime_error("elastic_boxes.txt: no box " + name);
}

std::vector<StatedLoad> step_loads(StatedBox& b) {
  std::vector<StatedLoad> loads;
  for (const StatedStep& s : b.steps) {
    StatedLoad load;
    const Seam& seam = b.box.seams[s.seam];
    const SeamLine& line = b.geometry.seams[s.seam];
    const Vec3 e = unit(line.end - line.start);
    // A T lies inside face a; the welder stands on the side that its normal looks to.
    const auto d_of = [&](std::size_t face) {
      const Vec3 n = b.box.faces[face].placement.normal();
      const Vec3 d = unit(cross(n, e));
      const std::vector<Vec3>& ring = b.geometry.faces[face].ring;
      bool inside = true;
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec3 along = unit(ring[(i + 1) % ring.size()] - ring[i]);
        if (norm(cross(along, line.start - ring[i])) < 1e-3 && norm(cross(along, line.end - ring[i])) < 1e-3)
          inside = false;
      }
      if (inside) return b.box.faces[face == seam.face_a ? seam.face_b : seam.face_a].placement.normal();
      return dot(middle_of(b.geometry.faces[face]) - line.start, d) > 0.0 ? d : -d;
    };
    const auto on = [&](FigureKind kind, Vec3 at, Vec3 direction, std::size_t face, double amount) {
      load.on.emplace_back(b.figures.size(), amount);
      b.figures.push_back({"load", kind, {at}, direction, face});
    };
    // Half of the force on each face.
    for (const auto& [at, amount] : {std::pair{s.from_mm + 50.0, s.force_N}, {s.to_mm - 50.0, -s.force_N}})
      on(FigureKind::displacement, line.start + e * at, e, 0, amount);
    const Vec3 da = d_of(seam.face_a), db = d_of(seam.face_b), c = unit(cross(da, db));
    if (s.moment_Nmm != 0.0)
      for (double at = 50.0 * (std::floor(s.from_mm / 50.0) + 1.0); at < s.to_mm - 1e-6; at += 50.0) {
        on(FigureKind::rotation, line.start + e * at + da * 50.0, c, seam.face_a, s.moment_Nmm);
        on(FigureKind::rotation, line.start + e * at + db * 50.0, c, seam.face_b, -s.moment_Nmm);
      }
    loads.push_back(load);
  }
  return loads;
}

StatedLoad case_load(StatedBox& b, const std::string& name) {
  StatedLoad load;
  for (const auto& [at, force] : b.cases.at(name).forces) {
    load.on.emplace_back(b.figures.size(), norm(force));
    b.figures.push_back({"load", FigureKind::displacement, {at}, unit(force), 0});
  }
  return load;
}

} // namespace tacksquare::test
