// Flat patterns as files: read back group by group, they hold the pattern, its area and the lengths to cut
// and to bend, on the right layers and nothing else.
#include "geometry/polygon.h"
#include "job/file/read_job.h"
#include "sheet/draw.h"
#include "sheet/flat_files.h"
#include "sheet/flat_sizes.h"
#include "support/catch.h"
#include "support/golden.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <set>
#include <sstream>

namespace tacksquare {
namespace {

std::vector<FlatPattern> patterns_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  const JobReading reading = read_job(text.str());
  REQUIRE(reading.job);
  std::vector<FlatPattern> all;
  for (const Box& box : reading.job->boxes) {
    Diagnostics out;
    const BoxGeometry geometry = resolve_geometry(*reading.job, box, out);
    TackPlaces tacks;
    for (std::size_t s = 0; s < box.seams.size(); ++s)
      for (const double share : {0.1, 0.5, 0.9})
        tacks.emplace_back(box.seams[s].id, share * geometry.seams[s].length_mm);
    for (FlatPattern& pattern : flat_patterns(*reading.job, box, geometry, tacks, out))
      all.push_back(std::move(pattern));
  }
  return all;
}
FlatPattern locker_body() {
  return patterns_of(TACKSQUARE_SOURCE "/samples/gear-locker.xml").at(0);
}

struct Group {
  int code = 0;
  std::string value;
};
std::vector<Group> groups_of(const std::string& dxf) {
  std::vector<Group> groups;
  std::istringstream lines(dxf);
  std::string code, value;
  while (std::getline(lines, code)) {
    REQUIRE(std::getline(lines, value));
    groups.push_back({std::stoi(code), value});
  }
  return groups;
}

struct Entity {
  std::string kind, layer, text;
  std::vector<Vec2> points;
  double size = 0.0, turned = 0.0; // 40 and 50
  bool closed = false;
};

// The entities of an R12 file, vertices gathered in their polyline.
std::vector<Entity> entities_of(const std::string& dxf) {
  const std::vector<Group> groups = groups_of(dxf);
  std::vector<Entity> entities;
  bool inside = false, vertex = false;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const auto& [code, value] = groups[i];
    if (code == 2 && groups[i - 1].value == "SECTION") inside = value == "ENTITIES";
    if (!inside) continue;
    if (code == 0) {
      vertex = value == "VERTEX";
      if (value == "ENDSEC") break;
      if (value != "VERTEX" && value != "SEQEND") entities.push_back({value, {}, {}, {}, 0.0, 0.0, false});
      if (vertex) entities.back().points.emplace_back();
      continue;
    }
    if (entities.empty()) continue;
    Entity& e = entities.back();
    const bool head = e.kind == "POLYLINE" && !vertex;
    if (code == 8) e.layer = value;
    if (code == 1) e.text = value;
    if (code == 70 && head) e.closed = value == "1";
    if (code == 40) e.size = std::stod(value);
    if (code == 50) e.turned = std::stod(value);
    if (head) continue; // its point is a dummy
    if (code == 10 && !vertex) e.points.emplace_back();
    if (code == 10 || code == 11) {
      if (code == 11) e.points.emplace_back();
      e.points.back().x = std::stod(value);
    }
    if (code == 20 || code == 21) e.points.back().y = std::stod(value);
  }
  return entities;
}

double shoelace(const std::vector<Vec2>& ring) {
  double twice = 0.0;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
    twice += cross(ring[j], ring[i]);
  return 0.5 * twice;
}

TEST_CASE("a DXF read back has the area that is cut and the bends' length, each on its layer") {
  std::vector<FlatPattern> all;
  for (const char* name : {"gear-locker", "divided-tray", "battery-box", "ballast-float"})
    for (FlatPattern& p : patterns_of(std::string(TACKSQUARE_SOURCE "/samples/") + name + ".xml"))
      all.push_back(std::move(p));
  REQUIRE(all.size() == 1 + 3 + 6 + 6);
  std::size_t circles = 0;
  for (const FlatPattern& pattern : all) {
    INFO(pattern.part);
    double area = 0.0, bent = 0.0;
    std::size_t marks = 0;
    for (const Entity& e : entities_of(write_flat_dxf(pattern))) {
      if (e.kind == "POLYLINE") {
        CHECK(e.layer == "CUT");
        CHECK(e.closed);
        area += area == 0.0 ? shoelace(e.points) : -std::abs(shoelace(e.points));
      } else if (e.kind == "CIRCLE") {
        CHECK(e.layer == "CUT");
        area -= 3.14159265358979 * e.size * e.size;
        ++circles;
      } else if (e.kind == "LINE" && e.layer == "BEND") {
        bent += norm(e.points.at(1) - e.points.at(0));
      } else {
        CHECK(e.layer == "ETCH");
        CHECK((e.kind == "LINE" || e.kind == "TEXT"));
        CHECK((e.kind == "TEXT") == !e.text.empty());
        ++marks;
      }
    }
    double bends = 0.0;
    for (const FlatBend& bend : pattern.bends)
      bends += norm(bend.end - bend.start);
    CHECK(area == Approx(pattern.area_mm2).margin(0.5));
    CHECK(bent == Approx(bends).margin(0.001));
    CHECK(marks == pattern.marks.size());
  }
  CHECK(circles == 4 + 1); // two in each side of the battery box, the vent of the float
}

TEST_CASE("a DXF is plain R12: its header, the tables of what it uses, and no group that came later") {
  const std::string dxf = write_flat_dxf(locker_body());
  const std::vector<Group> groups = groups_of(dxf);
  std::set<std::string> kinds, layers, named;
  std::set<int> codes;
  std::string last_table;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const auto& [code, value] = groups[i];
    codes.insert(code);
    if (code == 0) kinds.insert(value);
    if (code == 8) layers.insert(value);
    if (code == 2 && (groups[i - 1].value == "LAYER" || groups[i - 1].value == "LTYPE")) named.insert(value);
    if (code == 6) CHECK((value == "CONTINUOUS" || value == "DASHED"));
  }
  CHECK(dxf.find("$ACADVER\n  1\nAC1009\n") != std::string::npos);
  CHECK(kinds == std::set<std::string>{"SECTION", "ENDSEC", "TABLE", "ENDTAB", "LTYPE", "LAYER", "STYLE",
                                       "POLYLINE", "VERTEX", "SEQEND", "LINE", "TEXT", "EOF"});
  CHECK(layers == std::set<std::string>{"CUT", "BEND", "ETCH"});
  for (const char* name : {"CUT", "BEND", "ETCH", "CONTINUOUS", "DASHED"})
    CHECK(named.count(name) == 1);
  CHECK(codes.count(5) == 0);   // handles, and what came with objects
  CHECK(codes.count(100) == 0); // subclasses: after R12
  CHECK(groups.back().value == "EOF");
  for (const char c : dxf)
    REQUIRE((c == '\n' || (c >= ' ' && c <= '~')));
}

TEST_CASE("names that the form does not know become plain in the DXF, and are escaped in the SVG") {
  FlatPattern pattern = locker_body();
  pattern.part = "a<b\n0\nEOF\xc3\xa9";
  pattern.marks[0].text = "\"<&\n";
  const std::string dxf = write_flat_dxf(pattern), svg = write_flat_svg(pattern);
  CHECK(groups_of(dxf).front().value == "part a<b_0_EOF__, sheet s2, 2 mm thick");
  CHECK(svg.find("a<b") == std::string::npos);
  CHECK(svg.find("a&lt;b") != std::string::npos);
}

TEST_CASE("the SVG has the layers as groups, in mm, and the cut line where the pattern has it") {
  const FlatPattern pattern = locker_body();
  const std::string svg = write_flat_svg(pattern);
  std::size_t at = 0;
  for (const char* id : {"CUT", "BEND", "ETCH", "SIZES"}) {
    const std::size_t found = svg.find(std::string("<g id=\"") + id + "\">");
    REQUIRE(found != std::string::npos);
    CHECK(found > at);
    at = found;
  }
  const std::size_t from = svg.find("points=\"") + 8;
  std::string points = svg.substr(from, svg.find('"', from) - from);
  std::replace(points.begin(), points.end(), ',', ' ');
  std::istringstream in(points);
  std::vector<Vec2> ring;
  for (Vec2 p; in >> p.x >> p.y;)
    ring.push_back(p);
  REQUIRE(ring.size() == pattern.outline.size());
  CHECK(-shoelace(ring) == Approx(shoelace(pattern.outline)).margin(0.5)); // y runs down
  const std::size_t wide = svg.find("width=\"") + 7, box = svg.find("viewBox=\"0 0 ") + 13;
  CHECK(std::stod(svg.substr(wide)) == std::stod(svg.substr(box)));
  CHECK(svg.substr(wide, 12).find("mm\"") != std::string::npos);
  for (const char* text :
       {"298.08", "694.24", "894.24", "992.33", "1192.33", "B-L, 90\u00b0 down, r 2", "outside up"})
    CHECK(svg.find(text) != std::string::npos);
}

TEST_CASE("sizes that lie close are spread, in order, and each place is told once") {
  const FlatPattern tray = [] {
    for (FlatPattern& p : patterns_of(TACKSQUARE_SOURCE "/samples/divided-tray.xml"))
      if (!p.bends.empty()) return std::move(p);
    FAIL("no folded part");
    return FlatPattern{};
  }();
  std::size_t below = 0;
  double before = -1e9;
  for (const SizePlace& size :
       flat_sizes(tray, 12.0, [](double mm) { return std::to_string(mm).substr(0, 6); })) {
    if (!size.below) continue;
    ++below;
    CHECK(size.label.x - before > 6 * 0.6 * 12.0);
    before = size.label.x;
  }
  CHECK(below == 6); // both edges, two walls, two lips
}

TEST_CASE("golden: the flat pattern of the gear locker, DXF and SVG", "[golden]") {
  const FlatPattern pattern = locker_body();
  test::check_golden("locker-body.dxf", write_flat_dxf(pattern));
  test::check_golden("locker-body.svg", write_flat_svg(pattern));
}

TEST_CASE("the drawing of a pattern shows each bend's name, each letter and seam, and no label on another") {
  const Composer compose({UnitSystem::metric, "en-GB"});
  for (const char* name : {"gear-locker", "divided-tray", "battery-box", "ballast-float"})
    for (const FlatPattern& pattern :
         patterns_of(std::string(TACKSQUARE_SOURCE "/samples/") + name + ".xml")) {
      INFO(name << " " << pattern.part);
      const Drawing drawing = draw_flat(compose, pattern);
      std::vector<std::string> wanted;
      for (const FlatBend& bend : pattern.bends)
        wanted.push_back(bend.face_a + "-" + bend.face_b);
      for (const FlatMark& mark : pattern.marks)
        if (mark.height_mm > 0.0) wanted.push_back(mark.text);
      std::vector<std::string> there;
      for (const DrawnLabel& label : drawing.labels)
        there.push_back(label.text);
      for (const std::string& text : wanted)
        CHECK(std::count(there.begin(), there.end(), text) == std::count(wanted.begin(), wanted.end(), text));
      for (std::size_t i = 0; i < drawing.labels.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) {
          const LabelArea a = label_area(drawing.labels[i], drawing.labels[i].at),
                          b = label_area(drawing.labels[j], drawing.labels[j].at);
          CHECK_FALSE((a.x0 < b.x1 - 1e-6 && b.x0 < a.x1 - 1e-6 && a.y0 < b.y1 - 1e-6 && b.y0 < a.y1 - 1e-6));
        }
      CHECK(drawing.width_mm < 180.0); // of A4 between its margins
    }
}

} // namespace
} // namespace tacksquare
