#include "flat_parts.h"
#include "geometry/polygon.h"
#include "support/table.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

// Two legs of 2000 mm on middle surfaces, 40 wide, that turn by theta.
Case angle_part(double t_mm, double r_mm, double theta) {
  const double x = 2000.0 * std::cos(theta), z = 2000.0 * std::sin(theta);
  return bent(t_mm, r_mm,
              {{"A", {{-2000, 40, 0}, {0, 40, 0}, {0, 0, 0}, {-2000, 0, 0}}},
               {"B", {{0, 40, 0}, {x, 40, z}, {x, 0, z}, {0, 0, 0}}}},
              {{0, 1}});
}

double shoelace(const std::vector<Vec2>& ring) {
  double twice = 0.0;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
    twice += ring[j].x * ring[i].y - ring[i].x * ring[j].y;
  return 0.5 * twice;
}
Vec2 shoelace_moment(const std::vector<Vec2>& ring) { // area times centroid
  Vec2 sum;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
    sum = sum + (ring[i] + ring[j]) * ((ring[j].x * ring[i].y - ring[i].x * ring[j].y) / 6.0);
  return sum;
}

std::vector<Case> all_jobs() {
  std::vector<std::string> files;
  for (const char* folder : {TACKSQUARE_SOURCE "/samples", TACKSQUARE_TEST_DATA "/jobs"})
    for (const auto& entry : std::filesystem::directory_iterator(folder))
      if (entry.path().extension() == ".xml") files.push_back(entry.path().string());
  std::sort(files.begin(), files.end());
  std::vector<Case> cases;
  for (const std::string& name : files) {
    std::ifstream file(name, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    const JobReading reading = read_job(text.str());
    INFO(name);
    REQUIRE(reading.job);
    for (const Box& box : reading.job->boxes)
      cases.push_back({*reading.job, box});
  }
  return cases;
}

} // namespace

TEST_CASE("folded back over its bends each flat pattern is the box again, to a micrometre") {
  std::size_t parts = 0, bends = 0;
  double worst = 0.0;
  std::vector<Case> cases = all_jobs();
  for (const double theta : {0.1, 0.8, 1.7, 2.6, 2.9}) {
    cases.push_back(angle_part(2.0, 3.0, theta));
    cases.push_back(angle_part(2.0, 3.0, -theta));
  }
  for (const Case& c : cases) {
    Diagnostics ignored;
    const BoxGeometry g = resolve_geometry(c.job, c.box, ignored);
    for (const FlatPattern& pattern : patterns_of(c)) {
      ++parts;
      bends += pattern.bends.size();
      const auto rings = refolded(c.box, pattern);
      REQUIRE(rings.size() == pattern.faces.size());
      for (std::size_t i = 0; i < rings.size(); ++i) {
        const std::size_t f = face_of(c, pattern.faces[i].id);
        const auto& stated = g.faces[f].cut_outline;
        REQUIRE(rings[i].size() == stated.size());
        for (std::size_t k = 0; k < stated.size(); ++k)
          worst = std::max(worst, norm(rings[i][k] - c.box.faces[f].placement.at(stated[k])));
      }
    }
  }
  CHECK(parts >= 40);
  CHECK(bends >= 40);
  CHECK(worst < 0.001);
}

TEST_CASE("a bend on the wrong side, or of another length, is seen when the pattern is folded back") {
  const Case c = locker();
  FlatPattern pattern = patterns_of(c)[0];
  const auto right = refolded(c.box, pattern);
  pattern.bends[0].angle_rad = -pattern.bends[0].angle_rad;
  CHECK(refolded(c.box, pattern) != right);
  pattern.bends[0].angle_rad = -pattern.bends[0].angle_rad;
  pattern.bends[0].flat_mm += 0.01;
  CHECK(refolded(c.box, pattern) != right);
}

TEST_CASE("area, centre and size of each pattern are those of its outline, by the surveyor's formula") {
  for (const Case& c : all_jobs())
    for (const FlatPattern& p : patterns_of(c)) {
      INFO(c.job.name << " " << c.box.id << " " << p.part);
      double area = shoelace(p.outline);
      Vec2 moment = shoelace_moment(p.outline), low = p.outline[0], high = low;
      CHECK(area > 0.0);
      for (const auto& hole : p.holes) {
        area -= std::abs(shoelace(hole));
        moment = moment - shoelace_moment(hole) * (shoelace(hole) < 0.0 ? -1.0 : 1.0);
      }
      for (const Vec2 q : p.outline) {
        low = {std::min(low.x, q.x), std::min(low.y, q.y)};
        high = {std::max(high.x, q.x), std::max(high.y, q.y)};
      }
      CHECK(p.area_mm2 == Approx(area).epsilon(1e-9));
      CHECK(p.centroid.x == Approx(moment.x / area).epsilon(1e-9));
      CHECK(p.centroid.y == Approx(moment.y / area).epsilon(1e-9));
      CHECK(low == Vec2{0, 0});
      CHECK(high == Vec2{p.length_mm, p.width_mm});
      CHECK(ring_fault(p.outline).empty());
    }
}

TEST_CASE("a pattern is as large and as heavy as its blank, but for what the corners lose") {
  for (const Case& c : all_jobs()) {
    Diagnostics ignored;
    const BoxGeometry g = resolve_geometry(c.job, c.box, ignored);
    const std::vector<FlatPattern> patterns = patterns_of(c);
    for (std::size_t i = 0; i < patterns.size(); ++i) {
      const FlatPattern& p = patterns[i];
      INFO(c.job.name << " " << p.part);
      CHECK(std::max(p.length_mm, p.width_mm) == Approx(g.blanks[i].length_mm).epsilon(1e-9));
      CHECK(std::min(p.length_mm, p.width_mm) == Approx(g.blanks[i].width_mm).epsilon(1e-9));
      CHECK(p.area_mm2 < g.blanks[i].area_mm2 + 1e-3);
      CHECK(p.area_mm2 > 0.998 * g.blanks[i].area_mm2);
    }
  }
}

TEST_CASE("flat patterns agree with hand and with published figures") {
  const std::map<std::string, Case> cases{
      {"locker", locker()}, {"tray", tray()}, {"float", ballast_float()}, {"u-part", u_part()}};
  const Table table("flat_patterns.tsv", {"box", "quantity", "of", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 25);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    std::vector<FlatPattern> patterns = patterns_of(cases.at(row.text("box"))); // of the largest part
    std::stable_sort(patterns.begin(), patterns.end(), [](const FlatPattern& a, const FlatPattern& b) {
      return a.area_mm2 > b.area_mm2 + 1.0;
    });
    const std::string key = row.text("quantity");
    std::vector<double> found;
    if (key == "area") found.push_back(patterns[0].area_mm2);
    if (key == "mass") found.push_back(patterns[0].mass_kg);
    if (key == "reliefs") found.push_back(static_cast<double>(patterns[0].reliefs.size()));
    for (const FlatPattern& p : patterns)
      for (const FlatDimension& d : flat_dimensions(p))
        if (d.key == key && d.of == row.text("of")) found.push_back(d.mm);
    REQUIRE_FALSE(found.empty());
    CHECK(found[0] == Approx(row.number("value")).margin(row.number("tolerance")).epsilon(0));
  }
}

TEST_CASE("what a bend adds to legs at the outer tangents changes its sign at an opening angle of 65 deg 24' "
          "30\"") {
  // DIN 6935, published; for a radius that is large against the sheet. Legs: to the tangent on the outside.
  const double t = 0.5, r = 400.0, change = kPi - (65.0 + 24.0 / 60.0 + 30.0 / 3600.0) * kPi / 180.0;
  const auto v = [&](double theta) {
    const Case c = angle_part(t, r, theta);
    const FlatPattern p = patterns_of(c)[0];
    const double leg = 2000.0 - (r + 0.5 * t) * std::tan(0.5 * theta) + (r + t);
    return std::max(p.length_mm, p.width_mm) - 2.0 * leg;
  };
  CHECK(v(change - 0.005) < 0.0);
  CHECK(v(change + 0.005) > 0.0);
}

TEST_CASE(
    "the brake's own deduction wins within half a degree and a tenth of a millimetre, the nearest first") {
  Case c = u_part(2.5);
  const auto length = [&] { return patterns_of(c)[0].length_mm; };
  const auto own = [&] { return patterns_of(c)[0].bends[0].own_deduction; };
  const double by_formula = length();
  CHECK_FALSE(own());
  Brake brake;
  brake.deductions.push_back({0, deg(90.5), mm(2.6), mm(3.7), {}});
  c.job.brake = brake;
  CHECK(length() == Approx(180.0 - 2 * 3.7));
  CHECK(own());
  CHECK(patterns_of(c)[0].bends[0].deduction_mm == Approx(3.7));
  Diagnostics ignored;
  CHECK(resolve_geometry(c.job, c.box, ignored).blanks[0].length_mm == Approx(180.0 - 2 * 3.7));
  c.job.brake->deductions.push_back({0, deg(90.2), mm(2.5), mm(3.8), {}});
  CHECK(length() == Approx(180.0 - 2 * 3.8));
  for (const Deduction& off :
       {Deduction{0, deg(90.6), mm(2.5), mm(3.7), {}}, Deduction{0, deg(90), mm(2.61), mm(3.7), {}},
        Deduction{1, deg(90), mm(2.5), mm(3.7), {}}}) {
    c.job.sheets.resize(1);
    c.job.sheets.push_back(sheet("mild-steel", 3.0));
    c.job.brake->deductions = {off};
    CHECK(length() == Approx(by_formula));
    CHECK_FALSE(own());
  }
}

TEST_CASE("a deduction that no sheet can take up is told at its place, with what is possible") {
  // 2/2/90: legs to the outer vertex 8; the neutral line between the inside (flat 3.14) and the outside
  // (6.28).
  // What follows goes by DIN 6935: a figure of 30 mm would lay the flanges on each other.
  for (const double deduction : {1.5, 5.1, 30.0}) {
    Case c = u_part(2.0);
    Diagnostics none;
    const Blank by_standard = resolve_geometry(c.job, c.box, none).blanks.at(0);
    Brake brake;
    brake.deductions.push_back({0, deg(90), mm(2), mm(deduction), Origin{77}});
    c.job.brake = brake;
    Diagnostics out;
    const Blank blank = resolve_geometry(c.job, c.box, out).blanks.at(0);
    CHECK(blank.length_mm == by_standard.length_mm);
    CHECK(blank.width_mm == by_standard.width_mm);
    REQUIRE(out.items().size() == 1); // once, though two bends take it
    CHECK(out.items()[0].code == "deduction");
    CHECK(out.items()[0].where == Origin{77});
    CHECK(out.items()[0].remedy.find("1.56 to 5.02 mm") != std::string::npos);
  }
}

TEST_CASE("faces that their bends take up whole are told") {
  Case c = u_part(40.0);
  Diagnostics out;
  resolve_geometry(c.job, c.box, out);
  REQUIRE(out.items().size() == 1);
  CHECK(out.items()[0].code == "bend-narrow");
}
