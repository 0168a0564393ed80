// The opening, the brake and the readings: what stands in the file stands in the job, whatever its order.
#include "job/file/read_job.h"
#include "support/catch.h"
#include "support/shuffled.h"

#include <fstream>
#include <iterator>
#include <string>
#include <vector>

using namespace tacksquare;

namespace {

Job read(const std::string& text) {
  const JobReading reading = read_job(text);
  INFO(print_diagnostics(reading.diagnostics, "job.xml", text, false));
  REQUIRE(reading.job);
  REQUIRE(reading.diagnostics.items().empty());
  return *reading.job;
}

std::string everything() {
  std::ifstream in(TACKSQUARE_TEST_DATA "/job-everything.xml", std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::vector<Length> lengths(std::initializer_list<double> all_mm) {
  std::vector<Length> all;
  for (const double v : all_mm)
    all.push_back(mm(v));
  return all;
}

const std::string kSheets = "<sheet id=\"s2\" metal=\"mild-steel\" thickness=\"2 mm\"/>";

std::string box(const std::string& id, int count) {
  return "<box id=\"" + id + "\" count=\"" + std::to_string(count) +
         "\"><open-box width=\"400 mm\" depth=\"300 mm\" height=\"600 mm\" open=\"front\" made=\"folded\" "
         "inside-radius=\"2 mm\"/></box>";
}

std::string job(const std::string& inside) {
  return "<tacksquare-job name=\"N\">" + inside + "</tacksquare-job>";
}

const std::string kOpening = "<opening clearance=\"1.6 mm\"><widths middle=\"1202 mm\"/>";

std::vector<std::string> row_of(const Job& job) {
  std::vector<std::string> row;
  for (const RowPlace& stand : job.opening->row)
    row.push_back(job.boxes[stand.box].id + " " + std::to_string(stand.copy));
  return row;
}

std::vector<std::string> codes(const std::string& text) {
  const JobReading reading = read_job(text);
  std::vector<std::string> all;
  for (const Diagnostic& d : reading.diagnostics.items())
    all.push_back(d.code);
  return all;
}

} // namespace

TEST_CASE("every attribute of opening and row is read, and survives the long form") {
  const Job first = read(everything());
  for (const Job& j : {first, read(write_job(first))}) {
    REQUIRE(j.opening);
    const HardOpening& o = *j.opening;
    CHECK(o.name == "ALCOVE 2");
    CHECK(o.widths == NineReadings{lengths({903, 902, 902.5}), lengths({901.5, 901}), lengths({902})});
    CHECK(o.heights == NineReadings{lengths({150}), lengths({151, 150.5}), lengths({149, 150, 150})});
    CHECK(o.depths == NineReadings{lengths({330}), lengths({331}), lengths({330, 329})});
    CHECK(o.widths_where.known());
    CHECK(o.diagonal_up_right == mm(915));
    CHECK(o.diagonal_up_left == mm(914));
    CHECK(o.plumb_left == mm(1));
    CHECK(o.plumb_right == mm(-1.5));
    CHECK(o.floor_rise == mm(-0.5));
    CHECK(o.entry == WayIn::tip);
    CHECK(in_deg(*o.tip_from) == Approx(12));
    CHECK(o.clearance == mm(1.6));
    CHECK(o.clearance_height == mm(4));
    CHECK(o.clearance_depth == mm(3));
    CHECK(o.coating == mm(0.08));
    CHECK(o.coating_least == mm(0.05));
    CHECK(o.coating_most == mm(0.125));
    CHECK(o.allowance == mm(0.5));
    CHECK(o.chance == 0.9);
    CHECK(o.by == TargetRule::root_sum_square);
    // By side, then from where on.
    REQUIRE(o.obstacles.size() == 3);
    CHECK(o.obstacles[0].name == "rivet heads");
    CHECK(o.obstacles[0].side == OpeningSide::left);
    CHECK(o.obstacles[0].proud == mm(3));
    CHECK(o.obstacles[0].from == mm(40));
    CHECK(o.obstacles[0].to == mm(140));
    CHECK(o.obstacles[1].side == OpeningSide::floor);
    CHECK(!o.obstacles[1].to);
    CHECK(o.obstacles[2].side == OpeningSide::back);
    CHECK(o.obstacles[2].name.empty());
    // As stated, from left to right.
    CHECK(row_of(j) == std::vector<std::string>{"tray 2", "bracket 1", "tray 1"});
    CHECK(o.row[0].gap == mm(0.5));
    CHECK(o.row[0].keep_size);
    CHECK(o.row[0].coating == mm(0));
    CHECK(!o.row[0].entry);
    CHECK(o.row[1].entry == WayIn::lower);
    CHECK(!o.row[1].coating);
    CHECK(o.row[2].cut_last);
    CHECK(!o.row[2].keep_size);
  }
}

TEST_CASE("every attribute of brake, misfit and readings is read, and survives the long form") {
  const Job first = read(everything());
  for (const Job& j : {first, read(write_job(first))}) {
    CHECK(in_deg(*j.incoming.bend) == Approx(0.4));
    CHECK(j.incoming.bend_place == mm(0.15));
    CHECK(j.incoming.blank == mm(0.1));

    REQUIRE(j.brake);
    const Brake& b = *j.brake;
    CHECK(b.name == "BRAKE 1");
    CHECK(in_deg(b.punch_angle) == Approx(86));
    CHECK(b.punch_height == mm(120));
    CHECK(b.punch_thickness == mm(24));
    CHECK(b.neck_from == mm(30));
    CHECK(b.neck_in == mm(9));
    CHECK(b.ram_thickness == mm(80));
    CHECK(b.die_opening == mm(16));
    CHECK(b.die_width == mm(60));
    CHECK(b.die_height == mm(70));
    CHECK(b.bed_thickness == mm(90));
    CHECK(b.gauge_least == mm(8));
    CHECK(b.gauge_most == mm(650));
    CHECK(b.shortest_punch == mm(10));
    // By sheet, bend and radius.
    REQUIRE(b.deductions.size() == 3);
    CHECK(j.sheets[b.deductions[0].sheet].id == "g14");
    CHECK(in_deg(b.deductions[0].bend) == Approx(89.8));
    CHECK(b.deductions[0].deduction == mm(3.7));
    CHECK(b.deductions[1].deduction == mm(3.8));
    CHECK(j.sheets[b.deductions[2].sheet].id == "i8");
    CHECK(b.deductions[2].radius == mm(4));

    REQUIRE(j.measured.size() == 2); // by box and copy
    const MeasuredBox &bracket = j.measured[0], &tray = j.measured[1];
    const Box &bracket_box = j.boxes[bracket.box], &tray_box = j.boxes[tray.box];
    CHECK(bracket_box.id == "bracket");
    CHECK(bracket.copy == 1);
    REQUIRE(bracket.stacks.size() == 1);
    CHECK(bracket_box.faces[bracket.stacks[0].face_a].id == "E");
    CHECK(bracket_box.faces[bracket.stacks[0].face_b].id == "G");
    CHECK(bracket.stacks[0].off == mm(0.3));
    CHECK(tray_box.id == "tray");
    CHECK(tray.copy == 2);
    REQUIRE(tray.leans.size() == 2);
    CHECK(tray_box.faces[tray.leans[0].face].id == "L");
    CHECK(tray.leans[0].one == mm(1.5));
    CHECK(tray.leans[0].other == mm(2));
    CHECK(tray_box.faces[tray.leans[1].face].id == "R");
    CHECK(tray.leans[1].one == mm(-0.5));
    REQUIRE(tray.fits.size() == 2);
    CHECK(tray_box.seams[tray.fits[0].seam].id == "S2");
    CHECK(tray.fits[0].gaps == lengths({0, 0.5, 0.3}));
    CHECK(tray.fits[0].steps == lengths({0.1, -0.2, 0}));
    CHECK(tray_box.seams[tray.fits[1].seam].id == "S10");
    CHECK(tray.fits[1].steps.empty());
    REQUIRE(tray.blanks.size() == 1);
    CHECK(tray_box.parts[tray.blanks[0].part].id == "body");
    CHECK(tray.blanks[0].length_off == mm(0.2));
    CHECK(tray.blanks[0].width_off == mm(-0.1));
    REQUIRE(tray.thicknesses.size() == 1);
    CHECK(j.sheets[tray.thicknesses[0].sheet].id == "g14");
    CHECK(tray.thicknesses[0].is == mm(1.88));
    REQUIRE(tray.sizes.size() == 3); // by stage
    CHECK(tray.sizes[0].stage == BuildStage::dry_fit);
    CHECK(tray.sizes[0].diagonal_up_right == mm(500.5));
    CHECK(tray.sizes[0].diagonal_up_left == mm(499.5));
    CHECK(tray.sizes[1].stage == BuildStage::as_welded);
    CHECK(tray.sizes[2].stage == BuildStage::ground);
    CHECK(tray.sizes[2].widths == lengths({400.1, 400.3, 400}));
    CHECK(tray.sizes[2].heights == lengths({100}));
    CHECK(tray.sizes[2].depths == lengths({300.2, 300.4}));
  }
}

TEST_CASE("without a stand the row is all copies of all boxes by id; with stands it is what they say") {
  const std::string boxes = box("L10", 1) + box("L2", 2);
  CHECK(row_of(read(job(kSheets + boxes + kOpening + "</opening>"))) ==
        std::vector<std::string>{"L2 1", "L2 2", "L10 1"});
  CHECK(row_of(read(job(kOpening + "</opening>" + box("L2", 2) + box("L10", 1) + kSheets))) ==
        std::vector<std::string>{"L2 1", "L2 2", "L10 1"});
  CHECK(row_of(read(job(kSheets + boxes + kOpening +
                        "<stand box=\"L10\"/><stand box=\"L2\" copy=\"2\"/></opening>"))) ==
        std::vector<std::string>{"L10 1", "L2 2"});
  // The only box of a job need not be named.
  CHECK(row_of(read(job(kSheets + box("a", 2) + kOpening + "<stand copy=\"2\"/><stand/></opening>"))) ==
        std::vector<std::string>{"a 2", "a 1"});
  CHECK(!read(job(kSheets + boxes)).opening);
}

TEST_CASE("what is not stated of an opening is left at its default") {
  const Job j = read(job(kSheets + box("a", 1) + kOpening + "</opening>"));
  const HardOpening& o = *j.opening;
  CHECK(o.entry == WayIn::slide);
  CHECK(o.chance == 0.95);
  CHECK(o.by == TargetRule::chance);
  CHECK(o.coating == mm(0));
  CHECK(!o.allowance);
  CHECK(!o.coating_least);
  CHECK(o.heights == NineReadings{});
  CHECK(!o.heights_where.known());
}

TEST_CASE("of a box that has faults of its own, nothing is told where it is referred to") {
  const std::string bad = "<box id=\"b\" count=\"2\"><open-box width=\"400 mm\"/></box>";
  const std::string refers =
      kOpening + "<stand box=\"b\" copy=\"5\"/></opening>" +
      "<measured box=\"b\" copy=\"9\"><wall-lean face=\"Q\" one=\"1 mm\" other=\"1 mm\"/>"
      "</measured>";
  const auto without = codes(job(kSheets + bad)), with = codes(job(kSheets + bad + refers));
  CHECK(!without.empty());
  // But of its count, which has none.
  CHECK(std::vector<std::string>(with.begin(), with.begin() + static_cast<std::ptrdiff_t>(without.size())) ==
        without);
  CHECK(std::vector<std::string>(with.begin() + static_cast<std::ptrdiff_t>(without.size()), with.end()) ==
        std::vector<std::string>{"copy-beyond", "copy-beyond"});
}

TEST_CASE(
    "faults of an opening are told together with those of the boxes, and the boxes are looked at further") {
  const std::string text =
      job(kSheets + box("a", 2) + "<opening><widths middle=\"0 mm\"/><stand copy=\"3\"/></opening>");
  CHECK(codes(text) == std::vector<std::string>{"attribute-missing", "out-of-range", "copy-beyond"});
  const JobReading reading = read_job(text);
  REQUIRE(reading.sound);
  CHECK(reading.sound->boxes.size() == 1);
  CHECK(!reading.sound->opening);
}

TEST_CASE("a box that is made to suit its opening may be 10 % off as stated, one that keeps its size 5 %") {
  const auto judged = [](const std::string& stand, double wide, const std::string& limits = "") {
    std::string width = std::to_string(wide);
    return codes(job(kSheets + limits + box("a", 2) + kOpening + "<stand " + stand +
                     "/></opening><measured><sizes stage=\"ground\" widths=\"" + width + " mm, " + width +
                     " mm\"/></measured>"));
  };
  const std::vector<std::string> good, far = {"size-far", "size-far"};
  for (const char* stand : {"cut-last=\"yes\"", "copy=\"1\""}) {
    CHECK(judged(stand, 361) == good);
    CHECK(judged(stand, 439) == good);
    CHECK(judged(stand, 359) == far);
    CHECK(judged(stand, 441) == far);
    CHECK(judged(stand, 250) == far);
    CHECK(judged(stand, 4000) == far);
  }
  CHECK(judged("keep-size=\"yes\"", 381) == good);
  CHECK(judged("keep-size=\"yes\"", 379) == far);
  // What the job lets the box be smaller counts: 40 mm and 5 %.
  const std::string under = "<limits size-under=\"40 mm\"/>";
  CHECK(judged("copy=\"1\"", 341, under) == good);
  CHECK(judged("copy=\"1\"", 339, under) == far);
  // Copy 1 stands elsewhere.
  CHECK(judged("copy=\"2\"", 379) == std::vector<std::string>{"measured-elsewhere", "size-far", "size-far"});
}

TEST_CASE("diagonals go with the sides between them, whatever the box is racked by") {
  const auto judged = [](const std::string& sizes) {
    return codes(job(kSheets + box("a", 1) + "<measured><sizes stage=\"ground\" " + sizes + "/></measured>"));
  };
  const std::vector<std::string> good, odd = {"diagonal-odd"}, apart = {"diagonals-apart"};
  // 400 x 600 is 721.11 across. Racked by 17 at the top the same sides have 730.5 and 711.6 (Pythagoras).
  CHECK(judged("diagonal-up-right=\"721.1 mm\" diagonal-up-left=\"721.1 mm\"") == good);
  CHECK(judged("diagonal-up-right=\"730.5 mm\" diagonal-up-left=\"711.6 mm\"") == good);
  CHECK(judged("diagonal-up-right=\"729 mm\" diagonal-up-left=\"728 mm\"") == odd);
  CHECK(judged("diagonal-up-right=\"728 mm\"") == good);
  CHECK(judged("diagonal-up-right=\"729 mm\"") == odd);
  // Its own sides, where they are measured: 405 x 606 is 728.9.
  CHECK(judged("widths=\"405 mm\" heights=\"606 mm\" diagonal-up-right=\"729 mm\"") == good);
  CHECK(judged("diagonal-up-right=\"741 mm\" diagonal-up-left=\"704.5 mm\"") == good);
  CHECK(judged("diagonal-up-right=\"741 mm\" diagonal-up-left=\"703.5 mm\"") == apart);
}

TEST_CASE("the order of the file changes nothing but the row of an opening") {
  const std::string text = everything(), written = write_job(read(text));
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    INFO("seed " << seed);
    const std::string other = test::shuffled(text, seed);
    REQUIRE(other != text);
    CHECK(write_job(read(other)) == written);
  }
}
