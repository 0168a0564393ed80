// Where bends meet, end or are mitred: reliefs, slots and the sides of the bent zones.
#include "flat_parts.h"
#include "geometry/polygon.h"

#include <algorithm>
#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

bool on_metal(const FlatPattern& p, Vec2 at) {
  return distance_to({p.outline, p.holes}, at) == 0.0;
}

// A plate 200 x 100 with a tab 60 wide and 40 high, middle surfaces, bent up from the middle of its front
// edge.
Case tab_part() {
  return bent(2.0, 3.0,
              {{"P", {{0, 100, 0}, {200, 100, 0}, {200, 0, 0}, {0, 0, 0}}},
               {"T", {{70, 0, 0}, {130, 0, 0}, {130, 0, 40}, {70, 0, 40}}}},
              {{0, 1}});
}

} // namespace

TEST_CASE(
    "no metal is left where two bends of a corner cross: each relief covers both zones, t wide, r + t deep") {
  for (const double radius_mm : {0.5, 2.0, 12.0})
    for (const Case& sample : {locker(), tray()}) {
      Case c = sample;
      for (Bend& bend : c.box.parts.back().bends)
        bend.inside_radius = mm(radius_mm);
      for (Part& part : c.box.parts)
        for (Bend& bend : part.bends)
          bend.inside_radius = mm(radius_mm);
      Diagnostics told;
      const BoxGeometry g = resolve_geometry(c.job, c.box, told);
      for (const FlatPattern& p : flat_patterns(c.job, c.box, g, {}, told)) {
        if (p.bends.empty()) continue;
        INFO(p.part << " r " << radius_mm);
        CHECK(p.reliefs.size() == 4);
        for (const FlatRelief& relief : p.reliefs) {
          CHECK(relief.width_mm >= p.thickness_mm);
          CHECK(relief.depth_mm >= radius_mm + p.thickness_mm - 1e-9);
          CHECK(relief.width_mm >= p.bends[0].flat_mm - 1e-9);
          CHECK_FALSE(on_metal(p, relief.at));
          // Its corner on the base is where both tangent lines meet: metal just inside of it, none outside.
          const FlatFace& base = p.faces.front();
          const auto corner =
              std::min_element(relief.outline.begin(), relief.outline.end(), [&](Vec2 a, Vec2 b) {
                return distance_to({base.flat, {}}, a) < distance_to({base.flat, {}}, b);
              });
          const Vec2 out = (relief.at - *corner) * (0.01 / norm(relief.at - *corner));
          CHECK(on_metal(p, *corner - out));
          CHECK_FALSE(on_metal(p, *corner + out));
        }
      }
    }
}

TEST_CASE("beside a bend that ends in an edge a slot goes to the tangent line, t wide and r + t deep") {
  const FlatPattern p = patterns_of(tab_part())[0];
  REQUIRE(p.reliefs.size() == 2);
  // By hand: theta (r + k t/2), k = 0.65 + 0.5 log10(1.5): a zone of 5.8716; the plate's edge lies on the
  // sharp line.
  const double zone = kPi / 2.0 * (3.0 + 0.65 + 0.5 * std::log10(1.5)), tangent = 4.0;
  CHECK(p.bends[0].flat_mm == Approx(zone));
  CHECK(p.width_mm == Approx(100.0 - tangent + zone + 40.0 - tangent));
  CHECK(p.length_mm == Approx(200.0));
  // The plate less what the bend takes and the slots, the zone, the tab.
  CHECK(p.area_mm2 ==
        Approx(200.0 * 100.0 - 60.0 * tangent - 2 * 2.0 * tangent + 60.0 * zone + 60.0 * (40.0 - tangent)));
  for (const FlatRelief& slot : p.reliefs) {
    CHECK(slot.width_mm == Approx(2.0));
    CHECK(slot.depth_mm >= 5.0);
    CHECK_FALSE(on_metal(p, slot.at));
  }
  CHECK(norm(p.bends[0].end - p.bends[0].start) == Approx(60.0));
}

TEST_CASE("without room for a slot beside it the same bend would tear: the pattern has no metal there") {
  const FlatPattern p = patterns_of(tab_part())[0];
  const FlatBend& bend = p.bends[0];
  const Vec2 along = (bend.end - bend.start) * (1.0 / norm(bend.end - bend.start));
  for (const double beside : {0.1, 1.0, 1.9}) {
    CHECK_FALSE(on_metal(p, bend.start - along * beside));
    CHECK_FALSE(on_metal(p, bend.end + along * beside));
  }
}

TEST_CASE("the mitre of lips runs round the bend in the plane that both lips share") {
  // On the round the sheet stands R (1 - cos) out of its wall; a mitre of 45 degrees has it as much further
  // along. Walls that go under their neighbours stop half a sheet short of that.
  const Case c = tray();
  const std::vector<FlatPattern> patterns = patterns_of(c);
  const auto body =
      std::find_if(patterns.begin(), patterns.end(), [](const FlatPattern& p) { return p.part == "body"; });
  REQUIRE(body != patterns.end());
  const FlatPattern& p = *body;
  std::size_t on_round = 0;
  for (const FlatBend& bend : p.bends) {
    if (bend.face_b.find("-lip") == std::string::npos) continue;
    const Vec2 along = (bend.end - bend.start) * (1.0 / norm(bend.end - bend.start)), out{along.y, -along.x};
    const double R = bend.radius_mm + 0.5 * p.thickness_mm;
    // The wall's sharp corners, from the lip's stated outline.
    const auto lip =
        std::find_if(p.faces.begin(), p.faces.end(), [&](const FlatFace& f) { return f.id == bend.face_b; });
    double first = 1e9, last = -1e9;
    for (const Vec2 q : lip->outline) {
      const double u = dot(q - bend.start, out) + 0.5 * bend.flat_mm;
      if (u > bend.flat_mm) continue; // its free edge
      first = std::min(first, dot(q - bend.start, along));
      last = std::max(last, dot(q - bend.start, along));
    }
    const bool under = bend.face_a == "L" || bend.face_a == "R";
    for (const Vec2 q : p.outline) {
      const double u = dot(q - bend.start, out) + 0.5 * bend.flat_mm, s = dot(q - bend.start, along);
      if (u < 0.01 || u > bend.flat_mm - 0.01 || s < first - 20.0 || s > last + 20.0) continue;
      const double beyond = s > 0.5 * (first + last) ? s - last : first - s;
      const double stands_out = R * (1.0 - std::cos(std::abs(bend.angle_rad) * u / bend.flat_mm));
      CHECK(beyond == Approx(stands_out - (under ? 0.5 * p.thickness_mm : 0.0)).margin(1e-6));
      ++on_round;
    }
  }
  CHECK(on_round == 4 * 2 * 7); // seven corners between the eight chords of each side
}

TEST_CASE("a hole in a bent zone is told, one beside it is not") {
  // T meets the back on its sharp line at y = 299; from the tangent line at 296 on it is bent.
  for (const auto& [upper, told] : {std::pair<double, std::size_t>{297.0, 1}, {295.0, 0}}) {
    Case c = locker();
    c.box.faces[face_of(c, "T")].cutouts.push_back({{100, 280}, {110, 280}, {110, upper}, {100, upper}});
    Diagnostics out;
    const BoxGeometry g = resolve_geometry(c.job, c.box, out);
    flat_patterns(c.job, c.box, g, {}, out);
    REQUIRE_FALSE(out.has_errors());
    CHECK(out.items().size() == told);
    if (told > 0) CHECK(out.items().at(0).code == "hole-in-bend");
  }
}

TEST_CASE("round holes and vents are holes of the pattern, where the face has them, and known as round") {
  const Case c = ballast_float();
  const std::vector<FlatPattern> patterns = patterns_of(c);
  const auto r =
      std::find_if(patterns.begin(), patterns.end(), [](const FlatPattern& p) { return p.part == "R"; });
  REQUIRE(r->holes.size() == 1);
  const auto round = circle_of(r->holes[0]);
  REQUIRE(round);
  CHECK(round->second == Approx(8.0));
  // Stated at 50, 250 from the corner of the box; R stands behind F (3 mm) and on U (3 mm).
  CHECK(round->first.x == Approx(50.0 - 3.0));
  CHECK(round->first.y == Approx(250.0 - 3.0));
  CHECK_FALSE(circle_of({{0, 0}, {10, 0}, {10, 10}, {0, 10}}));
  auto oval = r->holes[0];
  for (Vec2& q : oval)
    q.x *= 1.001;
  CHECK_FALSE(circle_of(oval));
}

TEST_CASE("setbacks that leave a bend no metal are told at the bend") {
  Case c = u_part();
  c.box.parts[0].bends[0].where = Origin{5};
  // M is cut 30 mm short on one side, L on the other: of 40 mm no millimetre is common.
  c.box.faces[0].setback_mm[0] = 30.0;
  c.box.faces[1].setback_mm[1] = 30.0;
  Diagnostics out;
  resolve_geometry(c.job, c.box, out);
  REQUIRE(out.items().size() == 1);
  CHECK(out.items()[0].code == "bend-metal");
  CHECK(out.items()[0].where == Origin{5});
}
