// What is etched: where one looks for it, on flat metal and off the holes.
#include "flat_parts.h"
#include "geometry/polygon.h"

#include <algorithm>
#include <cmath>
#include <map>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

TackPlaces tacks_of(const Case& c, const std::vector<double>& shares) {
  const BoxGeometry g = resolved(c);
  TackPlaces places;
  for (std::size_t s = 0; s < c.box.seams.size(); ++s)
    for (const double share : shares)
      places.emplace_back(c.box.seams[s].id, share * g.seams[s].length_mm);
  return places;
}

std::map<std::string, int> counted(const std::vector<FlatPattern>& patterns) {
  std::map<std::string, int> kinds;
  for (const FlatPattern& p : patterns)
    for (const FlatMark& mark : p.marks)
      ++kinds[mark.kind];
  return kinds;
}

} // namespace

TEST_CASE("each face has its letter, each seam its number on both faces, each tack a tick on both") {
  const Case l = locker();
  auto kinds = counted(patterns_of(l, tacks_of(l, {0.1, 0.4, 0.7})));
  CHECK(kinds["face-letter"] == 5);
  CHECK(kinds["seam-number"] == 2 * 4);
  CHECK(kinds["tack-tick"] == 2 * 4 * 3);
  CHECK(kinds["witness"] == 4 * 2); // on its back; at the rim diagonals are read inside
  const Case f = ballast_float();
  kinds = counted(patterns_of(f, tacks_of(f, {0.1, 0.4, 0.7})));
  CHECK(kinds["face-letter"] == 6);
  CHECK(kinds["seam-number"] == 2 * 12);
  CHECK(kinds["tack-tick"] == 2 * 12 * 3);
  CHECK(kinds["witness"] == 6 * 4 * 2);
  const Case t = tray(); // T seams are marked on the divider only
  kinds = counted(patterns_of(t, tacks_of(t, {0.5})));
  CHECK(kinds["face-letter"] == 9 + 2);
  CHECK(kinds["seam-number"] == 2 * 8 + 6);
  CHECK(kinds["tack-tick"] == 2 * 8 + 6);
}

TEST_CASE("a tick stands square on the cut edge and goes 3 mm into the metal, at its place along the seam") {
  const Case c = locker();
  const BoxGeometry g = resolved(c);
  const FlatPattern p = patterns_of(c, {{"S1", 100.0}})[0]; // T-L, 0 mm at the rim in front
  std::size_t ticks = 0;
  for (const FlatMark& mark : p.marks) {
    if (mark.kind != "tack-tick") continue;
    ++ticks;
    CHECK(norm(mark.to - mark.from) == Approx(3.0));
    CHECK(distance_to_edges({p.outline, {}}, mark.from) == Approx(0.0).margin(1e-6));
    CHECK(distance_to_edges({p.outline, {}}, mark.to) == Approx(3.0));
    // From the rim, which is the pattern's edge: T's above, L's on the right.
    const bool on_t = mark.from.y > 900.0;
    CHECK((on_t ? p.width_mm - mark.from.y : p.length_mm - mark.from.x) == Approx(100.0));
  }
  CHECK(ticks == 2);
}

TEST_CASE("texts lie whole on the flat of their face, clear of holes and of each other") {
  for (const Case& sample : {locker(), ballast_float(), battery_box(), tray()}) {
    for (const FlatPattern& p : patterns_of(sample, tacks_of(sample, {0.5}))) {
      std::vector<std::pair<Vec2, Vec2>> texts;
      for (const FlatMark& mark : p.marks) {
        if (mark.height_mm <= 0.0) continue;
        INFO(p.part << " " << mark.text);
        const bool upwards = mark.to.y > mark.from.y;
        const double half_long = 0.35 * mark.height_mm * static_cast<double>(mark.text.size());
        const Vec2 half =
            upwards ? Vec2{0.5 * mark.height_mm, half_long} : Vec2{half_long, 0.5 * mark.height_mm};
        const Vec2 low = mark.from - half, high = mark.from + half;
        const std::vector<Vec2> ring{low, {high.x, low.y}, high, {low.x, high.y}};
        CHECK(std::any_of(p.faces.begin(), p.faces.end(), [&](const FlatFace& face) {
          return lies_within(ring, face.flat) && (mark.kind == "seam-number" || face.id == mark.text);
        }));
        for (const auto& hole : p.holes)
          CHECK_FALSE(overlap(ring, hole));
        for (const auto& [l, h] : texts)
          CHECK_FALSE((low.x < h.x && l.x < high.x && low.y < h.y && l.y < high.y));
        texts.emplace_back(low, high);
        CHECK(mark.height_mm >= 2.5);
      }
    }
  }
}

TEST_CASE("a hole in the middle of a face moves its letter, and a long name on a narrow lip reads upwards") {
  Case c = locker();
  const FlatPattern before = patterns_of(c)[0];
  c.box.faces[face_of(c, "T")].cutouts.push_back({{150, 100}, {250, 100}, {250, 200}, {150, 200}});
  const FlatPattern after = patterns_of(c)[0];
  const auto letter = [](const FlatPattern& p, const std::string& id) {
    return *std::find_if(p.marks.begin(), p.marks.end(),
                         [&](const FlatMark& m) { return m.kind == "face-letter" && m.text == id; });
  };
  CHECK(norm(letter(after, "T").from - letter(before, "T").from) > 50.0);
  CHECK(letter(after, "T").height_mm == Approx(20.0));
  for (const FlatPattern& p : patterns_of(tray()))
    if (p.part == "body") {
      CHECK(letter(p, "L-lip").to.y > letter(p, "L-lip").from.y);
      CHECK(letter(p, "L-lip").height_mm > 8.0);
    }
}

TEST_CASE("witness crosses lie 20 mm in from the outside of a closed box") {
  // U stands on nothing: half-open corners, so its sheet ends at the middles of the walls, 1.5 mm in.
  for (const FlatPattern& p : patterns_of(ballast_float())) {
    if (p.part != "T") continue;
    std::vector<Vec2> middles;
    for (const FlatMark& mark : p.marks)
      if (mark.kind == "witness") middles.push_back((mark.from + mark.to) * 0.5);
    REQUIRE(middles.size() == 8);
    for (const Vec2 m : middles) {
      CHECK(std::min(m.x, p.length_mm - m.x) == Approx(20.0 - 1.5));
      CHECK(std::min(m.y, p.width_mm - m.y) == Approx(20.0 - 1.5));
    }
  }
}
