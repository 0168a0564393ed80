// How boxes go in, what must be flush, how racked ones nest: by hand geometry and by trying all orders.
#include "opening/rowing.h"
#include "opening/rows.h"

#include "base/random.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

Row in_height(double height_mm, WayIn entry) {
  Row row(locker(), 1230, 3); // 400 wide, 300 deep, 600 high
  row.opening().heights[1] = lengths({height_mm});
  row.opening().entry = entry;
  return row;
}
std::vector<std::string> standing_out(Row& row) {
  std::vector<std::string> all;
  for (const MustBeFlush& m : row.fit().flush)
    all.push_back(fmt::format("{} {} {}", m.what, m.where, m.side));
  std::sort(all.begin(), all.end());
  return all;
}
Seam left_as_welded() {
  Seam seam;
  seam.finish = Finish::left;
  return seam;
}

} // namespace

TEST_CASE("A 600 box tipped into a 602 opening does not go in; slid upright it does") {
  Row tipped = in_height(602, WayIn::tip);
  const RowFit fit = tipped.fit();
  CHECK(fit.stands[0].entry == "tip");
  CHECK(fit.stands[0].sweep_mm == Approx(670.82).epsilon(1e-5)); // sqrt(600^2 + 300^2)
  REQUIRE(tipped.told(Severity::error) == std::vector<std::string>(3, "row-tip"));
  CHECK(tipped.out.items()[0].message.find("670.8 mm") != std::string::npos);
  // atan(300/600) - acos(602/670.82) = 26.565 - 26.181 = 0.384 deg: no way in. In 620: 26.565 - 22.448
  // = 4.117.
  CHECK(tipped.out.items()[0].remedy.find("no room to lean it") != std::string::npos);
  Row leaning = in_height(620, WayIn::tip);
  leaning.fit();
  CHECK(leaning.out.items()[0].remedy.find("no more than 4.1 deg") != std::string::npos);
  leaning.out = {};
  leaning.opening().tip_from = deg(4.1);
  CHECK(*leaning.fit().stands[0].lean_deg == Approx(4.1));
  CHECK(leaning.told(Severity::error).empty());
  leaning.opening().clearance_height = mm(1.0); // is to be left above it on the way in, too
  leaning.fit();
  CHECK(leaning.told(Severity::error).size() == 3);
  Row slid = in_height(602, WayIn::slide);
  CHECK(slid.fit().stands[0].sweep_mm == Approx(600.0));
  CHECK(slid.told(Severity::error).empty());
  tipped.out = {};
  tipped.opening().tip_from = deg(0.3);
  CHECK(tipped.fit().stands[0].sweep_mm ==
        Approx(600.0 * std::cos(0.3 * kPi / 180) + 300.0 * std::sin(0.3 * kPi / 180)));
  CHECK(tipped.told(Severity::error).empty());
  Row high = in_height(671, WayIn::tip);
  high.fit();
  CHECK(high.told(Severity::error).empty());
  high.opening().coating = mm(0.1); // a coat makes the diagonal 671.1
  high.fit();
  CHECK(high.told(Severity::error).size() == 3);
}

TEST_CASE("One box of the row may go in another way than the others") {
  Row row = in_height(602, WayIn::slide);
  row.opening().row.resize(2);
  row.opening().row[1].copy = 2;
  row.opening().row[1].entry = WayIn::tip;
  row.opening().row[1].where = Origin{5};
  const RowFit fit = row.fit();
  CHECK(fit.stands[0].entry == "slide");
  REQUIRE(row.told(Severity::error) == std::vector<std::string>{"row-tip"});
  CHECK(row.out.items()[0].where == Origin{5});
}

TEST_CASE("A box that is higher or deeper than its opening is an error, all in one run") {
  Row row = in_height(599, WayIn::slide);
  row.opening().depths[0] = lengths({299.5});
  row.fit();
  std::vector<std::string> told = row.told(Severity::error);
  std::sort(told.begin(), told.end());
  CHECK(told ==
        std::vector<std::string>{"row-deep", "row-deep", "row-deep", "row-high", "row-high", "row-high"});
}

TEST_CASE("Caps of seams that stay as welded are told for the sides that meet a neighbour") {
  Row ground(locker(), 1230, 3);
  CHECK(standing_out(ground).empty());
  Row left(locker(2.0, CornerStyle::half_open, left_as_welded()), 1230, 3);
  CHECK(standing_out(left) ==
        std::vector<std::string>{"seam-cap S1 L", "seam-cap S2 R", "seam-cap S3 R", "seam-cap S4 L"});
  // 2 mm: the usual cap is 0.5 + t/4 = 1 mm high.
  CHECK(left.fit().flush.front().proud_mm == Approx(1.0));
}

TEST_CASE(
    "The bulge at the end of a bend is told where it reaches beyond a side and nothing there is ground") {
  // Front and back cover the sides' edges whole: their bends with the under side end in the sides' outer
  // planes.
  const auto tray = [](CornerStyle corner, Finish finish) {
    Case c;
    c.job.sheets.push_back(sheet_of("mild-steel", 2.0));
    c.job.boxes.emplace_back();
    c.box().id = "tray";
    OpenBoxForm form;
    form.width = mm(400);
    form.depth = mm(300);
    form.height = mm(150);
    form.inside_radius = mm(2);
    form.open_side = 'T';
    form.corner = corner;
    form.seam.finish = finish;
    if (finish == Finish::flush) form.seam.side = WeldSide::outside;
    expand(form, c.job.sheets, c.box(), c.out);
    return Row(std::move(c), 1230, 3);
  };
  Row lapped = tray(CornerStyle::lapped, Finish::left);
  std::vector<std::string> bulges;
  for (const MustBeFlush& m : lapped.fit().flush)
    if (m.what == "bend-bulge") {
      bulges.push_back(fmt::format("{} {}", m.where, m.side));
      CHECK(m.proud_mm == Approx(0.15 * 2.0)); // of the trade, no source
      CHECK(m.source.mark == Mark::common_practice);
    }
  std::sort(bulges.begin(), bulges.end());
  CHECK(bulges == std::vector<std::string>{"U-B L", "U-B R", "U-F L", "U-F R"});
  // A corner that covers half lies a millimetre inside: 0.3 does not reach out.
  Row half = tray(CornerStyle::half_open, Finish::left);
  for (const MustBeFlush& m : half.fit().flush)
    CHECK(m.what == "seam-cap");
}

TEST_CASE(
    "Racked boxes nest by rising lean: no order of up to seven takes less room, whatever their heights") {
  constexpr std::uint64_t kSeed = 99;
  Random random(kSeed);
  for (int trial = 0; trial < 60; ++trial) {
    const std::size_t n = 2 + static_cast<std::size_t>(trial) % 6;
    const bool alike = trial % 2 == 0;
    INFO("seed " << kSeed << ", trial " << trial);
    std::vector<double> lean, tall;
    for (std::size_t i = 0; i < n; ++i) {
      lean.push_back(random.uniform(-0.004, 0.004));
      tall.push_back(alike ? 600.0 : random.uniform(300.0, 900.0));
    }
    const auto room = [&](const std::vector<std::size_t>& order) {
      std::vector<double> l, t;
      for (const std::size_t i : order) {
        l.push_back(lean[i]);
        t.push_back(tall[i]);
      }
      return opening::contacts_mm(l, t);
    };
    std::vector<std::size_t> order(n);
    std::iota(order.begin(), order.end(), std::size_t{0});
    double least = room(order);
    while (std::next_permutation(order.begin(), order.end()))
      least = std::min(least, room(order));
    const std::vector<std::size_t> found = opening::nesting_order(lean, tall);
    std::vector<std::size_t> each = found;
    std::sort(each.begin(), each.end());
    std::iota(order.begin(), order.end(), std::size_t{0});
    CHECK(each == order);
    CHECK(room(found) == Approx(least).margin(1e-12));
  }
}

TEST_CASE("Measured racks are put into the order in which they nest, with what both orders take") {
  Row row(locker(), 1230, 3);
  const auto lean = [&](int copy, double rack) {
    SizeReading read;
    read.widths = lengths({400, 400, 400});
    read.diagonal_up_right = mm(std::hypot(400.0 + rack, 600.0));
    read.diagonal_up_left = mm(std::hypot(400.0 - rack, 600.0));
    row.measured(copy).sizes.push_back(read);
  };
  CHECK(row.fit().nested.empty());
  lean(1, 1.5);
  lean(2, -1.0);
  lean(3, 0.5);
  const RowFit fit = row.fit();
  CHECK(fit.stands[0].rack_mm.value() == Approx(1.5));
  CHECK(fit.nested == std::vector<std::size_t>{1, 2, 0});
  CHECK(fit.nested_row_mm == Approx(1200 + 1.0 + 1.5));    // left side, right side
  CHECK(fit.as_listed_row_mm == Approx(1200 + 2.5 + 0.5)); // 1.5 against -1, 0.5 at the right
}

TEST_CASE("The room of racked boxes that neighbours may take at worst is the worst of all leans") {
  constexpr std::uint64_t kSeed = 12;
  Random random(kSeed);
  for (int trial = 0; trial < 20; ++trial) {
    INFO("seed " << kSeed << ", trial " << trial);
    std::vector<SizeBudget> stands(1 + static_cast<std::size_t>(trial) % 6);
    std::vector<double> tall;
    for (SizeBudget& stand : stands) {
      stand.tall_mm = random.uniform(300, 900);
      tall.push_back(stand.tall_mm);
      stand.causes = {{"rack",
                       Spread::normal,
                       random.uniform(-0.5, 0.5),
                       random.uniform(0, 2),
                       random.uniform(0, 2),
                       0.0,
                       "",
                       {}}};
    }
    double worst = 0.0;
    for (std::size_t ends = 0; ends < (std::size_t{1} << stands.size()); ++ends) {
      std::vector<double> lean;
      for (std::size_t i = 0; i < stands.size(); ++i) {
        const SizeCause& c = stands[i].causes[0];
        lean.push_back((c.middle_mm + ((ends >> i) & 1 ? c.over_mm : -c.under_mm)) / tall[i]);
      }
      worst = std::max(worst, opening::contacts_mm(lean, tall));
    }
    CHECK(opening::reckon(stands, 0.95).excess.worst_mm == Approx(worst));
  }
}
