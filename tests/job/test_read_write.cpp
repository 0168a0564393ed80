// What stands in the file stands in the job; the long form reads back to the same job; starters are clean.
#include "job/file/read_job.h"
#include "job/file/start.h"
#include "support/catch.h"

#include <fstream>
#include <iterator>
#include <string>
#include <vector>

using namespace tacksquare;

namespace {

std::string file(const std::string& path) {
  std::ifstream in(std::string(TACKSQUARE_SOURCE) + path, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  REQUIRE(!text.empty());
  return text;
}

Job read(const std::string& text) {
  const JobReading reading = read_job(text);
  INFO(print_diagnostics(reading.diagnostics, "job.xml", text, false));
  REQUIRE(reading.job);
  REQUIRE(reading.diagnostics.items().empty());
  return *reading.job;
}

// As the fixture of a locker.
void read_fixture_file(const std::string& text) {
  const JobReading reading =
      read_job("<tacksquare-job name=\"N\"><sheet id=\"s2\" metal=\"mild-steel\" thickness=\"2 mm\"/><box "
               "id=\"locker\"><open-box width=\"400 mm\" depth=\"300 mm\" height=\"600 mm\" open=\"front\" "
               "made=\"folded\" inside-radius=\"2 mm\"/></box><fixture file=\"f.xml\"/></tacksquare-job>",
               [&](const std::string& path) -> std::variant<FileRead, FileFault> {
                 return FileRead{path, text};
               });
  REQUIRE(reading.job);
  REQUIRE(reading.diagnostics.items().empty());
  REQUIRE(reading.job->fixtures.size() == 1);
}

void same_shrinkage(const OwnShrinkage& a, const OwnShrinkage& b) {
  CHECK(a.across == b.across);
  CHECK(a.along == b.along);
  CHECK(a.angle == b.angle);
}

void same_box(const Box& a, const Box& b) {
  CHECK(a.id == b.id);
  CHECK(a.name == b.name);
  CHECK(a.count == b.count);
  CHECK(a.form == b.form);
  CHECK(a.construction == b.construction);
  CHECK(a.width == b.width);
  CHECK(a.depth == b.depth);
  CHECK(a.height == b.height);
  CHECK(a.open_side == b.open_side);
  CHECK(a.last_face == b.last_face);
  CHECK(a.attitude == b.attitude);
  CHECK(a.weld_order == b.weld_order);
  REQUIRE(a.parts.size() == b.parts.size());
  for (std::size_t i = 0; i < a.parts.size(); ++i) {
    CHECK(a.parts[i].id == b.parts[i].id);
    CHECK(a.parts[i].sheet == b.parts[i].sheet);
    CHECK(a.parts[i].loose == b.parts[i].loose);
    REQUIRE(a.parts[i].bends.size() == b.parts[i].bends.size());
    for (std::size_t k = 0; k < a.parts[i].bends.size(); ++k) {
      CHECK(a.parts[i].bends[k].face_a == b.parts[i].bends[k].face_a);
      CHECK(a.parts[i].bends[k].face_b == b.parts[i].bends[k].face_b);
      CHECK(a.parts[i].bends[k].inside_radius == b.parts[i].bends[k].inside_radius);
    }
  }
  REQUIRE(a.faces.size() == b.faces.size());
  for (std::size_t i = 0; i < a.faces.size(); ++i) {
    CHECK(a.faces[i].id == b.faces[i].id);
    CHECK(a.faces[i].part == b.faces[i].part);
    CHECK(a.faces[i].outline == b.faces[i].outline);
    CHECK(a.faces[i].setback_mm == b.faces[i].setback_mm);
    CHECK(a.faces[i].cutouts == b.faces[i].cutouts);
    const Placement &p = a.faces[i].placement, &q = b.faces[i].placement;
    CHECK(norm(p.origin - q.origin) == 0.0);
    CHECK(norm(p.u - q.u) == 0.0);
    CHECK(norm(p.v - q.v) == 0.0);
  }
  REQUIRE(a.seams.size() == b.seams.size());
  for (std::size_t i = 0; i < a.seams.size(); ++i) {
    const Seam &s = a.seams[i], &t = b.seams[i];
    CHECK(s.id == t.id);
    CHECK(s.face_a == t.face_a);
    CHECK(s.face_b == t.face_b);
    CHECK(s.joint == t.joint);
    if (s.joint == JointKind::corner) CHECK(s.corner == t.corner);
    CHECK(s.over == t.over);
    CHECK(s.weld == t.weld);
    CHECK(s.leg == t.leg);
    CHECK(s.groove == t.groove);
    CHECK(s.side == t.side);
    CHECK(s.finish == t.finish);
    CHECK(s.stitch.has_value() == t.stitch.has_value());
    if (s.stitch && t.stitch)
      CHECK((s.stitch->length == t.stitch->length && s.stitch->pitch == t.stitch->pitch));
    CHECK(s.procedure == t.procedure);
    CHECK(s.position == t.position);
    CHECK(s.after == t.after);
    same_shrinkage(s.own, t.own);
  }
  REQUIRE(a.vents.size() == b.vents.size());
  for (std::size_t i = 0; i < a.vents.size(); ++i) {
    CHECK(a.vents[i].face == b.vents[i].face);
    CHECK(a.vents[i].at == b.vents[i].at);
    CHECK(a.vents[i].diameter == b.vents[i].diameter);
    CHECK(a.vents[i].plugged_last == b.vents[i].plugged_last);
  }
}

// Text between ```xml and ``` of a Markdown text.
std::vector<std::string> examples(const std::string& markdown) {
  std::vector<std::string> all;
  const std::string start = "```xml\n";
  for (auto at = markdown.find(start); at != std::string::npos; at = markdown.find(start, at + 1))
    all.push_back(
        markdown.substr(at + start.size(), markdown.find("```\n", at + start.size()) - at - start.size()));
  return all;
}

const std::vector<std::string> kSamples = {"gear-locker", "ballast-float", "battery-box", "divided-tray"};

} // namespace

TEST_CASE("the long form of each sample reads back to the same boxes, and to the same long form") {
  for (const std::string& name : kSamples) {
    INFO(name);
    const Job job = read(file("/samples/" + name + ".xml"));
    const std::string written = write_job(job);
    const Job again = read(written);
    REQUIRE(again.boxes.size() == job.boxes.size());
    for (std::size_t i = 0; i < job.boxes.size(); ++i)
      same_box(job.boxes[i], again.boxes[i]);
    REQUIRE(again.procedures.size() == job.procedures.size());
    CHECK(write_job(again) == written);
  }
}

TEST_CASE("every attribute of the job is read, and survives the long form") {
  const std::string text = file("/tests/data/job-everything.xml");
  const Job job = read(text);
  const std::string written = write_job(job);
  const Job again = read(written);
  CHECK(write_job(again) == written);
  REQUIRE(job.boxes.size() == 2);
  for (std::size_t i = 0; i < job.boxes.size(); ++i)
    same_box(job.boxes[i], again.boxes[i]);

  for (const Job& j : {job, again}) {
    CHECK(j.name == "EVERYTHING & MORE");
    CHECK(j.number == "PS-0001");
    CHECK(j.date == "2028-02-29");
    CHECK(j.ambient == celsius(12));
    REQUIRE(j.sheets.size() == 4);
    CHECK(in_mm(j.sheets[0].thickness) == Approx(1.897).epsilon(1e-3)); // 14 US steel: .0747 in
    CHECK(j.sheets[0].thickness_said == "14 ga us-steel");
    // By id, whatever the order of the file: g14, i8, m2, own; bracket, tray.
    CHECK(j.sheets[1].thickness_said == "1/8 in");
    CHECK(j.sheets[1].thickness == inch(0.125));
    CHECK(j.sheets[2].thickness == mm(1.95));
    CHECK(j.sheets[2].thickness_said == "1.95 mm measured");
    CHECK(j.sheets[3].metal.name == "our own stainless");
    CHECK(j.sheets[3].metal.family == MetalFamily::stainless);
    CHECK(j.sheets[3].metal.density_kg_m3 == Approx(7900));
    CHECK(j.sheets[3].metal.expansion_per_K == Approx(16.5e-6));
    CHECK(j.sheets[3].metal.youngs_MPa == Approx(200e3));
    CHECK(j.sheets[3].metal.conductivity_W_mK == find_metal("304")->conductivity_W_mK);
    REQUIRE(j.procedures.size() == 2);
    const Procedure& p = j.procedures[0];
    CHECK(p.process == Process::mag);
    CHECK(in_m_per_min(*p.wire_feed) == Approx(4.3));
    CHECK(p.volts == volt(16.5));
    CHECK(p.amps == ampere(85));
    CHECK(in_cm_per_min(*p.travel) == Approx(45));
    CHECK(p.wire_diameter == mm(0.8));
    CHECK(p.wire == "G3Si1");
    CHECK(p.gas == "Ar/18 CO2");
    CHECK(p.gas_flow == l_per_min(12));
    CHECK(p.stick_out == mm(10));
    CHECK(p.efficiency == 0.8);
    CHECK(p.full_penetration);
    CHECK(p.penetration == mm(1.6));
    CHECK(p.own.across == mm(0.12));
    CHECK(p.own.along == newton(24000));
    CHECK(in_deg(*p.own.angle) == Approx(0.5));
    CHECK(!j.procedures[1].own.any());

    const Rules& r = j.rules;
    CHECK(r.tack_length == mm(6));
    CHECK(r.tack_pitch == mm(60));
    CHECK(r.tack_rule == TackRule::en_1011_2);
    CHECK(r.tack_throat == mm(1.2));
    CHECK(r.first_tack == mm(12));
    CHECK(r.run_length == mm(150));
    CHECK(r.back_step);
    CHECK(r.tie_in == mm(10));
    CHECK(r.gap == mm(0.5));
    CHECK(r.step == mm(0.5));
    CHECK(r.start_limit == celsius(150));
    CHECK(r.touch_limit == celsius(60));
    CHECK(r.proud == mm(0.2));
    CHECK(r.dig_fraction == 0.1);
    CHECK(r.grits == std::vector<int>{60, 120});
    CHECK(r.edge_radius == mm(2));

    const Limits& l = j.limits;
    CHECK(l.opposite_sides == mm(0.5));
    CHECK(l.diagonals == mm(1));
    CHECK(l.rock == mm(1));
    CHECK(l.wall_lean == mm(1));
    CHECK(l.belly == mm(0.8));
    CHECK(l.size_over == mm(0));
    CHECK(l.size_under == mm(1.2));
    CHECK(l.linear_class == LinearClass::B);
    CHECK(l.flatness_class == FlatnessClass::F);

    const Crew& c = j.crew;
    CHECK(c.welder == "W1");
    CHECK(c.grinder == "G1");
    CHECK(c.fit == minutes(4));
    CHECK(c.turn == seconds(45));
    CHECK(c.look == seconds(20));
    CHECK(c.tack == seconds(15));
    CHECK(c.weld_start == seconds(30));
    CHECK(c.knock_down == seconds(12));
    CHECK(c.disc_change == seconds(60));
    CHECK(c.grind == MinutesPerMetre(4));
    CHECK(c.metres_per_disc == mm(12000));
    CHECK(c.takt == minutes(45));

    const Box& box = j.boxes[1];
    CHECK(box.attitude == "B");
    CHECK(box.weld_order ==
          std::vector<std::string>{"S3", "S4", "S1", "S2", "S11", "S10", "S9", "S5", "S6", "S7", "S8"});
    CHECK(box.seams[0].finish == Finish::left);
    CHECK(box.seams[0].position == WeldPosition::downhill);
    CHECK(box.seams[0].after == std::vector<std::string>{"S3", "S4"});
    CHECK(box.seams[0].own.across == mm(0.2));
    CHECK(box.seams[1].weld == WeldKind::vee);
    CHECK(in_deg(*box.seams[1].groove) == Approx(60));
    CHECK(box.seams[2].stitch->pitch == mm(100));

    const Box& own = j.boxes[0];
    CHECK(own.form == BoxForm::own_faces);
    CHECK(own.weld_order.empty());
    CHECK(own.width == mm(100));
    CHECK(!own.depth);
    REQUIRE(own.faces.size() == 4);
    // Stated clockwise: turned, the setback of 1 mm stays with the edge from (0,0) to (0,80).
    CHECK(own.faces[0].outline[0] == Vec2{100, 0});
    CHECK(own.faces[0].outline[2] == Vec2{0, 80});
    CHECK(own.faces[0].setback_mm == std::vector<double>{0, 0, 1, 0});
    CHECK(own.faces[0].cutouts.size() == 2);
    CHECK(own.parts[0].bends.size() == 1);
    CHECK(own.seams[0].joint == JointKind::lap);
    CHECK(own.seams[0].weld == WeldKind::fillet);
    CHECK(own.vents[0].plugged_last == false);
  }
}

TEST_CASE("an order of many seams is read to its last word, with its place, as it was listed") {
  std::string order, dividers;
  for (int seam = 98; seam > 0; --seam)
    order.append(order.empty() ? "S" : "  S").append(std::to_string(seam));
  for (int i = 0; i < 30; ++i)
    dividers.append("<divider id=\"D")
        .append(std::to_string(i))
        .append("\" across=\"width\" at=\"")
        .append(std::to_string(50 + 25 * i))
        .append(" mm\" height=\"60 mm\" leg=\"2 mm\"/>");
  std::string text = "<tacksquare-job><sheet id=\"s2\" metal=\"mild-steel\" thickness=\"2 mm\"/>"
                     "<box id=\"tray\" weld-order=\"";
  text.append(order)
      .append(
          "\"><open-box width=\"900 mm\" depth=\"400 mm\" height=\"100 mm\" open=\"top\" made=\"panels\"/>")
      .append(dividers)
      .append("</box></tacksquare-job>");
  const Job job = read(text);
  REQUIRE(job.boxes[0].seams.size() == 98);
  CHECK(job.boxes[0].weld_order.size() == 98);
  CHECK(job.boxes[0].weld_order.front() == "S98");
  CHECK(job.boxes[0].weld_order.back() == "S1");
  CHECK(job.boxes[0].weld_order_where.offset == text.find("S98"));
  CHECK(read(write_job(job)).boxes[0].weld_order == job.boxes[0].weld_order);
}

TEST_CASE("a starter job reads back without a word, and what is impossible in it is told") {
  StarterOptions options;
  const Job open = read(starter_job(options));
  CHECK(open.boxes[0].name == "GEAR LOCKER");
  CHECK(open.boxes[0].seams.size() == 4);
  CHECK(open.boxes[0].width == mm(400));
  options.form = "closed";
  options.name = "FLOAT <1> & \"2\"";
  options.metal = "5052";
  options.thickness = "1/8 in";
  options.width = "23 5/8 in";
  options.count = 7;
  const Job closed = read(starter_job(options));
  CHECK(closed.boxes[0].name == "FLOAT <1> & \"2\"");
  CHECK(closed.boxes[0].seams.size() == 12);
  CHECK(closed.boxes[0].count == 7);
  CHECK(closed.boxes[0].vents.size() == 1);
  CHECK(closed.boxes[0].faces[closed.boxes[0].vents[0].face].id == "R");
  CHECK(!closed.opening);
  options.opening_width = "50 in";
  const Job row = read(starter_job(options));
  REQUIRE(row.opening);
  CHECK(row.opening->widths[1] == std::vector<Length>{inch(50)});
  CHECK(row.opening->row.size() == 7);
  for (const std::string& metal : built_in_metal_ids()) {
    options = {};
    options.metal = metal;
    read(starter_job(options));
  }
  options.width = "400";
  const JobReading bad = read_job(starter_job(options));
  REQUIRE(bad.diagnostics.items().size() == 1);
  CHECK(bad.diagnostics.items()[0].code == "unit-missing");
}

TEST_CASE(
    "every whole example of docs/job-file.md reads without a word, and all words of the reader stand there") {
  const std::string markdown = file("/docs/job-file.md");
  std::size_t whole = 0;
  for (const std::string& example : examples(markdown)) {
    INFO(example);
    if (example.find("<tacksquare-fixture") != std::string::npos) {
      read_fixture_file(example);
      ++whole;
    }
    if (example.find("<tacksquare-job") == std::string::npos) continue;
    read(example);
    ++whole;
  }
  CHECK(whole >= 12);
  // Each attribute and element that the schemas allow is explained.
  const std::string schema =
      file("/docs/job.xsd") + file("/docs/fixture.xsd") + file("/docs/fixture-types.xsd");
  std::size_t names = 0;
  for (const std::string mark : {"attribute name=\"", "element name=\""}) {
    for (auto at = schema.find(mark); at != std::string::npos; at = schema.find(mark, at + 1)) {
      const auto from = at + mark.size();
      const std::string name = schema.substr(from, schema.find('"', from) - from);
      INFO(name);
      CHECK(markdown.find("`" + name + "`") != std::string::npos);
      ++names;
    }
  }
  CHECK(names > 100);
}
