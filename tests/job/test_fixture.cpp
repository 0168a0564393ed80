// Shop and fixtures: what stands in the job or in a file of its own stands in the values, and is written
// back.
#include "job/file/read_job.h"
#include "support/catch.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <vector>

using namespace tacksquare;

namespace {

std::string data(const std::string& name) {
  std::ifstream in(TACKSQUARE_TEST_DATA "/" + name, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  REQUIRE(!text.empty());
  return text;
}

// Files in memory, and how often each was opened.
struct Folder {
  std::map<std::string, std::string> files;
  std::map<std::string, int> opened;

  JobReading read(const std::string& text) {
    return read_job(text, [this](const std::string& path) -> std::variant<FileRead, FileFault> {
      ++opened[path];
      const auto found = files.find(path);
      if (found == files.end()) return FileFault{path, "cannot read " + path + ": it is not there", "look"};
      return FileRead{"jobs/" + path, found->second};
    });
  }
};

std::string printed(const JobReading& reading, const std::string& text) {
  return print_diagnostics(reading.diagnostics, "job.xml", text, false, reading.files);
}

Job well(const JobReading& reading, const std::string& text) {
  INFO(printed(reading, text));
  REQUIRE(reading.job);
  REQUIRE(reading.diagnostics.items().empty());
  return *reading.job;
}

void same_pieces(const Fixture& a, const Fixture& b) {
  CHECK(a.name == b.name);
  CHECK(a.down == b.down);
  CHECK(a.long_side == b.long_side);
  REQUIRE(a.pieces.size() == b.pieces.size());
  for (std::size_t i = 0; i < a.pieces.size(); ++i) {
    const FixturePiece &p = a.pieces[i], &q = b.pieces[i];
    INFO(p.id);
    CHECK(p.id == q.id);
    CHECK(p.kind == q.kind);
    CHECK(p.at == q.at);
    CHECK(p.to == q.to);
    CHECK(p.towards == q.towards);
    CHECK(p.faces == q.faces);
    CHECK(p.seam == q.seam);
    CHECK(p.from_mm == q.from_mm);
    CHECK(p.to_mm == q.to_mm);
    CHECK(p.width == q.width);
    CHECK(p.height == q.height);
    CHECK(p.clip == q.clip);
    CHECK(p.size == q.size);
    CHECK(p.force == q.force);
  }
}

const FixturePiece& piece(const Fixture& fixture, const std::string& id) {
  const auto found = std::find_if(fixture.pieces.begin(), fixture.pieces.end(),
                                  [&](const FixturePiece& p) { return p.id == id; });
  REQUIRE(found != fixture.pieces.end());
  return *found;
}

std::string box(const std::string& id) {
  return "  <box id=\"" + id +
         "\"><open-box width=\"400 mm\" depth=\"300 mm\" height=\"100 mm\" open=\"top\" "
         "made=\"panels\"/></box>\n";
}

std::string job(const std::string& inside) {
  return "<tacksquare-job name=\"N\">\n  <sheet id=\"s2\" metal=\"mild-steel\" thickness=\"2 mm\"/>\n" +
         inside + "</tacksquare-job>\n";
}

} // namespace

TEST_CASE("every attribute of the shop is read, and survives the long form") {
  const std::string text = data("job-everything.xml");
  const Job first = well(read_job(text), text);
  const std::string again = write_job(first);
  for (const Job& j : {first, well(read_job(again), again)}) {
    REQUIRE(j.shop);
    REQUIRE(j.shop->table);
    CHECK(j.shop->where.known());
    CHECK(j.shop->table->width == mm(2000));
    CHECK(in_mm(j.shop->table->depth) == Approx(1016)); // 40 in
    CHECK(j.shop->tools.nozzle == mm(18));
    CHECK(in_deg(*j.shop->tools.torch_lean) == Approx(15));
    CHECK(j.shop->tools.torch_reach == mm(150));
    CHECK(j.shop->tools.disc == mm(115));
    CHECK(j.shop->tools.grinder == mm(90));
    // By kind, then by what is said of it.
    const auto& owned = j.shop->owned;
    REQUIRE(owned.size() == 5);
    CHECK(owned[0].kind == ItemKind::stop);
    CHECK(owned[0].count == 1);
    CHECK(!owned[0].foot);
    CHECK(owned[1].kind == ItemKind::bar_clamp);
    CHECK(owned[1].count == 0);
    CHECK(owned[1].opens == mm(300));
    CHECK(owned[2].kind == ItemKind::bar_clamp);
    CHECK(owned[2].count == 2);
    CHECK(owned[2].opens == mm(600));
    CHECK(owned[2].force == newton(3000));
    CHECK(owned[2].foot == mm(40));
    CHECK(owned[3].kind == ItemKind::square);
    CHECK(owned[3].count == 4);
    CHECK(owned[3].length == mm(100));
    CHECK(owned[4].kind == ItemKind::spreader);
    CHECK(owned[4].length == mm(600));
    CHECK(owned[4].shortest == mm(350));
  }
}

TEST_CASE("every piece of a fixture is read, and survives the long form") {
  const std::string text = data("job-everything.xml");
  const Job first = well(read_job(text), text);
  const std::string again = write_job(first);
  for (const Job& j : {first, well(read_job(again), again)}) {
    // By box: bracket, tray; pieces by id.
    REQUIRE(j.fixtures.size() == 2);
    CHECK(j.boxes[j.fixtures[0].box].id == "bracket");
    CHECK(j.fixtures[0].name.empty());
    const Fixture& f = j.fixtures[1];
    CHECK(j.boxes[f.box].id == "tray");
    CHECK(f.name == "TRAY FIXTURE");
    CHECK(f.down == "rim");
    CHECK(f.long_side == "F");
    CHECK(f.where.known());
    std::vector<std::string> ids;
    for (const FixturePiece& p : f.pieces)
      ids.push_back(p.id);
    CHECK(ids ==
          std::vector<std::string>{"B1", "C1", "F1", "H1", "K1", "P2", "P3", "P4", "P10", "Q1", "T1", "Z2"});

    CHECK(piece(f, "Z2").kind == ItemKind::support);
    CHECK(piece(f, "Z2").at == Vec3{350, 50, 0});
    CHECK(piece(f, "P2").kind == ItemKind::stop);
    CHECK(piece(f, "P2").at == Vec3{340, 0, 40});
    CHECK(piece(f, "P2").towards == Vec3{0, 1, 0});
    CHECK(piece(f, "P10").towards == Vec3{1, 0, 0});
    CHECK(piece(f, "P3").towards == Vec3{-1, 0, 0});
    CHECK(piece(f, "P4").towards == Vec3{0, -1, 0});
    CHECK(piece(f, "H1").kind == ItemKind::hold_down);
    CHECK(piece(f, "H1").at == Vec3{100, 80, -2});
    CHECK(piece(f, "H1").force == newton(500));
    CHECK(piece(f, "C1").kind == ItemKind::bar_clamp);
    CHECK(piece(f, "C1").at == Vec3{0, 150, 80});
    CHECK(piece(f, "C1").to == Vec3{400, 150, 80});
    CHECK(in_n(*piece(f, "C1").force) == Approx(300));
    CHECK(piece(f, "K1").kind == ItemKind::corner_clamp);
    CHECK(piece(f, "K1").faces == std::vector<std::string>{"B", "L"});
    CHECK(piece(f, "K1").size == mm(80));
    CHECK(piece(f, "K1").force == newton(200));
    CHECK(piece(f, "Q1").kind == ItemKind::square);
    CHECK(piece(f, "Q1").at == Vec3{2, 2, 2});
    CHECK(piece(f, "Q1").size == mm(100));
    CHECK(piece(f, "F1").kind == ItemKind::former);
    CHECK(piece(f, "F1").below == mm(40.0));
    CHECK(piece(f, "F1").width == mm(395.5));
    CHECK(piece(f, "F1").height == mm(295.5));
    CHECK(piece(f, "F1").clip == mm(20));
    CHECK(piece(f, "T1").kind == ItemKind::spreader);
    CHECK(piece(f, "T1").to == Vec3{398, 200, 90});
    CHECK(piece(f, "B1").kind == ItemKind::backing_bar);
    CHECK(piece(f, "B1").seam == "S1");
    CHECK(piece(f, "B1").from_mm == 5);
    CHECK(piece(f, "B1").to_mm == 95);
    CHECK(piece(f, "B1").size == mm(40));
  }
}

TEST_CASE("a fixture says the same in the job and in a file of its own, and is written back to either") {
  const std::string everything = data("job-everything.xml");
  const Job inside = well(read_job(everything), everything);
  const std::string text = job(box("tray") + "  <fixture file=\"tray.xml\"/>\n");
  Folder folder{{{"tray.xml", data("fixture-everything.xml")}}, {}};
  const JobReading reading = folder.read(text);
  const Job own = well(reading, text);
  REQUIRE(own.fixtures.size() == 1);
  same_pieces(own.fixtures[0], inside.fixtures[1]);
  CHECK(own.fixtures[0].where.file == 1);
  CHECK(own.fixtures[0].pieces[0].where.file == 1);
  REQUIRE(reading.files.size() == 1);
  CHECK(reading.files[0].name == "jobs/tray.xml");

  // The comment that names the box must not end early.
  Box named = own.boxes[0];
  named.name = "TRAY --> 2 ---";
  folder.files["tray.xml"] = write_fixture(own.fixtures[0], named);
  const Job again = well(folder.read(text), text);
  same_pieces(again.fixtures[0], own.fixtures[0]);
  CHECK(write_fixture(again.fixtures[0], named) == folder.files["tray.xml"]);
  // The long form of the job needs no other file.
  const std::string whole = write_job(own);
  same_pieces(well(read_job(whole), whole).fixtures[0], own.fixtures[0]);
}

TEST_CASE("faults in the job and in its fixture file are told in one run, each in its own file, by place") {
  const std::string text = job(box("tray") + "  <fixture file=\"tray.xml\" flow=\"1\"/>\n  <shop/>\n");
  Folder folder{{{"tray.xml", "<tacksquare-fixture name=\"T\" long-side=\"F\">\n"
                              "  <stop id=\"P1\" at=\"60 mm, 0 mm, 40\" towards=\"y\"/>\n"
                              "  <square id=\"P1\" corner=\"F Q\" at=\"2 mm, 2 mm, 2 mm\"/>\n"
                              "</tacksquare-fixture>\n"}},
                {}};
  const JobReading reading = folder.read(text);
  CHECK(!reading.job);
  CHECK(printed(reading, text) == R"(job.xml:4:28: error: "flow" is not known in <fixture>
    4 |   <fixture file="tray.xml" flow="1"/>
      |                            ^
      do: known here: box, file, name, down, long-side
job.xml:5:3: error: <shop> holds nothing
    5 |   <shop/>
      |   ^
      do: add <owns item="bar-clamp" count="4"/>, or delete it
jobs/tray.xml:1:1: error: <tacksquare-fixture> does not state "down"
    1 | <tacksquare-fixture name="T" long-side="F">
      | ^
      do: add down="B"
jobs/tray.xml:2:34: error: at: "40" has no unit
    2 |   <stop id="P1" at="60 mm, 0 mm, 40" towards="y"/>
      |                                  ^
      do: write 40 mm, or 40 in if inches are meant
jobs/tray.xml:3:15: error: a piece "P1" is there already
    3 |   <square id="P1" corner="F Q" at="2 mm, 2 mm, 2 mm"/>
      |               ^
      do: choose another id
jobs/tray.xml:2:13: see: the first one
    2 |   <stop id="P1" at="60 mm, 0 mm, 40" towards="y"/>
      |             ^
jobs/tray.xml:3:29: error: there is no face "Q" in box "tray"
    3 |   <square id="P1" corner="F Q" at="2 mm, 2 mm, 2 mm"/>
      |                             ^
      do: known here: B, F, L, R, U
)");
}

TEST_CASE("one file can serve many boxes: it is opened once, and a fault in it is told once") {
  const std::string text = job(box("a") + box("b") +
                               "  <box id=\"c\"><closed-box width=\"400 mm\" depth=\"300 mm\" "
                               "height=\"100 mm\"/><vent face=\"R\" at=\"50 mm, 50 mm\" "
                               "diameter=\"8 mm\"/></box>\n"
                               "  <fixture box=\"a\" file=\"f.xml\"/>\n"
                               "  <fixture box=\"b\" file=\"f.xml\"/>\n"
                               "  <fixture box=\"c\" file=\"f.xml\"/>\n");
  Folder folder{{{"f.xml", "<tacksquare-fixture down=\"U\" long-side=\"F\"/>"}}, {}};
  CHECK(well(folder.read(text), text).fixtures.size() == 3);
  CHECK(folder.opened["f.xml"] == 1);

  // A box of panels that is open at its top has no face T: told for both such boxes, not for the closed one.
  folder.files["f.xml"] = "<tacksquare-fixture down=\"T\" long-side=\"F\" size=\"2\"/>";
  const JobReading reading = folder.read(text);
  std::vector<std::string> messages;
  for (const Diagnostic& d : reading.diagnostics.items()) {
    CHECK(d.where.file == 1);
    messages.push_back(d.message);
  }
  CHECK(messages == std::vector<std::string>{"there is no face \"T\" in box \"a\"",
                                             "there is no face \"T\" in box \"b\"",
                                             "\"size\" is not known in <tacksquare-fixture>"});
}

TEST_CASE(
    "a fixture file that cannot be opened is told where the job names it, one that is none in its text") {
  const std::string text = job(box("tray") + "  <fixture file=\"tray.xml\"/>\n");
  Folder folder;
  const JobReading missing = folder.read(text);
  REQUIRE(missing.diagnostics.items().size() == 1);
  const Diagnostic& d = missing.diagnostics.items()[0];
  CHECK(d.code == "file-unread");
  CHECK(d.message == "cannot read tray.xml: it is not there");
  CHECK(d.remedy == "look");
  CHECK(d.where.file == 0);
  CHECK(text.substr(d.where.offset, 8) == "tray.xml");
  REQUIRE(missing.sound); // the box itself has no fault
  CHECK(missing.sound->fixtures.empty());

  const std::map<std::string, std::string> bad = {
      {"", "file-empty"},
      {"<tacksquare-fixture", "xml"},
      {text, "root-wrong"},
      {"<!DOCTYPE x><tacksquare-fixture/>", "doctype"},
      {std::string("\xFF\xFE<\0t\0", 6), "utf16"},
      {"<tacksquare-fixture down=\"U\" long-side=\"F\"/><tacksquare-fixture/>", "root-twice"},
      {"<tacksquare-fixture down=\"U\" long-side=\"F\" file=\"tray.xml\"/>", "attribute-unknown"},
      {std::string(kLargestJobFile, ' ') + "<tacksquare-fixture/>", "files-large"},
  };
  for (const auto& [bytes, code] : bad) {
    INFO(code);
    folder.files["tray.xml"] = bytes;
    const JobReading reading = folder.read(text);
    CHECK(!reading.job);
    REQUIRE(reading.diagnostics.items().size() == 1);
    CHECK(reading.diagnostics.items()[0].code == code);
    CHECK(reading.diagnostics.items()[0].where.file == (code == "files-large" ? 0 : 1));
  }
}

TEST_CASE("the files of a job are together no longer than a job may be, however often one is read") {
  const std::string text = job(
      box("a") + box("b") + "  <fixture box=\"a\" file=\"f.xml\"/>\n  <fixture box=\"b\" file=\"f.xml\"/>\n");
  Folder folder;
  const std::string fixture = "<tacksquare-fixture down=\"U\" long-side=\"F\"/>";
  folder.files["f.xml"] = fixture + std::string(kLargestJobFile / 2 - fixture.size(), ' ');
  well(folder.read(text), text);
  folder.files["f.xml"] += ' ';
  const JobReading reading = folder.read(text);
  REQUIRE(reading.diagnostics.items().size() == 1);
  CHECK(reading.diagnostics.items()[0].code == "files-large");
  CHECK(reading.diagnostics.items()[0].where.offset == text.rfind("f.xml"));
}

TEST_CASE("a place in a file that nobody read is our bug, not a wrong line") {
  Diagnostics out;
  out.error("a", {0, 1}, "b");
  CHECK_THROWS_AS(print_diagnostics(out, "job.xml", "text", false), InternalError);
}
