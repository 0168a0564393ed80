// Readings of an opening that cannot all be right are told, and those that can are not.
#include "job/file/read_job.h"
#include "support/catch.h"
#include "support/table.h"

#include <fmt/format.h>

#include <string>
#include <vector>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

std::vector<std::string> codes(const std::string& readings) {
  const JobReading reading =
      read_job("<tacksquare-job name=\"N\"><sheet id=\"s2\" metal=\"mild-steel\" thickness=\"2 mm\"/>"
               "<box id=\"b\"><closed-box width=\"200 mm\" depth=\"200 mm\" height=\"200 mm\"/></box>"
               "<opening clearance=\"1 mm\">" +
               readings + "</opening></tacksquare-job>");
  std::vector<std::string> all;
  for (const Diagnostic& d : reading.diagnostics.items())
    all.push_back(d.code);
  return all;
}

const std::vector<std::string> kNothing;

} // namespace

TEST_CASE("two diagonals go together when four sides and one of them give the other within 10 mm") {
  const Table table("opening-diagonals.tsv",
                    {"top", "under", "left", "right", "up_right", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 7);
  for (const Table::Row& row : table.rows()) {
    INFO(row.shown());
    const double other = row.number("value"), slack = row.number("tolerance");
    const auto with = [&](double up_left) {
      return codes(
          fmt::format("<widths top=\"{} mm\" under=\"{} mm\"/><heights left=\"{} mm\" right=\"{} mm\"/>"
                      "<diagonals up-right=\"{} mm\" up-left=\"{} mm\"/>",
                      row.text("top"), row.text("under"), row.text("left"), row.text("right"),
                      row.text("up_right"), up_left));
    };
    const std::vector<std::string> refused = {"diagonal-contradicts"};
    CHECK(with(other) == kNothing);
    CHECK(with(other + 10.0 - slack) == kNothing);
    CHECK(with(other - 10.0 + slack) == kNothing);
    CHECK(with(other + 10.0 + slack) == refused);
    CHECK(with(other - 10.0 - slack) == refused);
  }
}

TEST_CASE("top width less under width is what the plumb line of both sides says, within 3 mm") {
  const auto with = [](double top, double left, double right) {
    return codes(
        fmt::format("<widths top=\"{} mm\" under=\"1000 mm\"/><plumb left=\"{} mm\" right=\"{} mm\"/>", top,
                    left, right));
  };
  const std::vector<std::string> refused = {"plumb-contradicts"};
  // Both tops stand in by 2: the top is narrower by 4.
  CHECK(with(996, 2, 2) == kNothing);
  CHECK(with(1004, -2, -2) == kNothing);
  // Both lean to the same side: as wide as under.
  CHECK(with(1000, 5, -5) == kNothing);
  CHECK(with(1002.9, 5, -5) == kNothing);
  CHECK(with(1003.1, 5, -5) == refused);
  CHECK(with(996.9, 5, -5) == refused);
  CHECK(with(1004, 2, 2) == refused); // a sign the wrong way round
  // One side alone says nothing of the width.
  CHECK(codes("<widths top=\"980 mm\" under=\"1000 mm\"/><plumb left=\"1 mm\"/>") == kNothing);
}

TEST_CASE("a reading is a slip when it is more than 5 % off the middle one, and nothing follows from it") {
  const std::string plumb = "<plumb left=\"0 mm\" right=\"0 mm\"/>";
  CHECK(codes("<widths top=\"1000 mm, 1049 mm\" middle=\"1000 mm\"/>") == kNothing);
  CHECK(codes("<widths top=\"1000 mm, 1051 mm\" middle=\"1000 mm\"/>") ==
        std::vector<std::string>{"reading-far"});
  CHECK(codes("<widths top=\"1100 mm\" middle=\"1000 mm\" under=\"1000 mm\"/>" + plumb) ==
        std::vector<std::string>{"reading-far"});
  CHECK(codes("<widths top=\"1020 mm\" middle=\"1000 mm\" under=\"1000 mm\"/>" + plumb) ==
        std::vector<std::string>{"plumb-contradicts"});
}

TEST_CASE("a racked opening has the diagonals that its plumb line and floor say") {
  // 600 x 400 leaning to the right by 40 at the top: uprights hypot(40, 398.0) = 400, diagonals hypot(640,
  // 398) and hypot(560, 398).
  const std::string sides =
      "<widths top=\"600 mm\" under=\"600 mm\"/><heights left=\"400 mm\" right=\"400 mm\"/>"
      "<floor rise=\"0 mm\"/><diagonals up-right=\"753.7 mm\" up-left=\"687 mm\"/>";
  CHECK(codes(sides + "<plumb left=\"40 mm\" right=\"-40 mm\"/>") == kNothing);
  CHECK(codes(sides + "<plumb left=\"-40 mm\" right=\"40 mm\"/>") ==
        std::vector<std::string>{"diagonal-contradicts"});
}
