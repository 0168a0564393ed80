// What an opening and the readings of a first box do to the plan: sizes, blanks, cautions.
#include "plan/verify/check_plan.h"
#include "support/planned.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

std::string file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}
std::string lockers() {
  return file(TACKSQUARE_SOURCE "/samples/gear-locker.xml");
}
std::string with(std::string xml, const std::string& what, const std::string& instead) {
  const std::size_t at = xml.find(what);
  REQUIRE(at != std::string::npos);
  return xml.replace(at, what.size(), instead);
}
// The lockers with readings of copy 1, and none of them cut last.
std::string read_first(const std::string& sizes) {
  return with(with(lockers(), " cut-last=\"yes\"", ""), "<incoming",
              "<measured copy=\"1\">" + sizes + "</measured>\n  <incoming");
}
std::string ground(double width_mm) {
  return "<sizes stage=\"ground\" widths=\"" + std::to_string(width_mm) + " mm, " + std::to_string(width_mm) +
         " mm, " + std::to_string(width_mm) + " mm\"/>";
}

Planned checked(const std::string& xml) {
  Planned made = planned(xml);
  CHECK(joined(check_plan(made.job, made.geometry, made.plan)) == "");
  return made;
}
double blank_length(const Planned& made) {
  return made.plan.boxes.at(0).patterns.at(0).length_mm;
}
double aimed_width(const Planned& made) {
  const StandFit* stand = stand_of(made.plan.row, "locker");
  REQUIRE(stand);
  return stand->target_mm;
}
bool has_red(const Planned& made, const std::string& key) {
  for (const Caution& caution : made.plan.boxes.at(0).cautions)
    if (caution.what.key == key) return caution.red;
  return false;
}

} // namespace

TEST_CASE("The blank is as much smaller as the row asks the box to be") {
  const Planned in_row = checked(lockers());
  std::string free = lockers();
  const std::size_t from = free.find("<opening"), to = free.find("</opening>");
  free.erase(from, to + 10 - from);
  const Planned by_itself = checked(free);
  CHECK_FALSE(by_itself.plan.row);
  // Losses of boxes that differ by 2 mm differ by less than 0.01 mm.
  CHECK(blank_length(by_itself) - blank_length(in_row) == Approx(400.0 - aimed_width(in_row)).margin(0.02));
}

TEST_CASE("What the first box teaches goes into blank, opening page and bench card alike, and once") {
  const Planned before = checked(with(lockers(), " cut-last=\"yes\"", ""));
  const double aimed = aimed_width(before);
  const Planned wide = checked(read_first(ground(aimed + 2.4)));
  REQUIRE(wide.plan.boxes[0].first_off);
  const FirstOff& told = *wide.plan.boxes[0].first_off;
  REQUIRE(told.release == Release::correct);
  const double correction = told.sizes.at(0).correction_mm;
  CHECK(correction < -0.2);
  CHECK(told.sizes[0].aimed_mm == Approx(aimed));
  CHECK(aimed_width(wide) == Approx(aimed + correction));
  CHECK(blank_length(wide) - blank_length(before) == Approx(correction).margin(0.02));
  CHECK(wide.plan.row->as_aimed == told.corrected);
  CHECK(wide.plan.row->as_aimed.value >= wide.plan.row->wanted_chance);
}

TEST_CASE("A first box that is as it should be leaves the blanks of the rest as they are") {
  const Planned before = checked(with(lockers(), " cut-last=\"yes\"", ""));
  const Planned good = checked(read_first(ground(before.plan.row->stands[0].width_mm.value)));
  REQUIRE(good.plan.boxes[0].first_off);
  CHECK(good.plan.boxes[0].first_off->release == Release::release);
  CHECK(aimed_width(good) == aimed_width(before));
  CHECK(blank_length(good) == blank_length(before));
  CHECK(good.plan.row->as_aimed.value > before.plan.row->as_aimed.value);
}

TEST_CASE("Readings that cannot be right hold the batch, in red, and the plan exits as one that is missed") {
  const Planned held = checked(read_first(ground(408.0)));
  REQUIRE(held.plan.boxes[0].first_off);
  CHECK(held.plan.boxes[0].first_off->release == Release::hold);
  CHECK(held.plan.boxes[0].first_off->why == "contradicts-ground");
  CHECK(has_red(held, "caution.held"));
  CHECK(more_likely_missed(held.plan));
}

TEST_CASE("Boxes without an opening are judged by their own limits") {
  std::string free = read_first(ground(402.5));
  const std::size_t from = free.find("<opening"), to = free.find("</opening>");
  free.erase(from, to + 10 - from);
  const Planned made = checked(free);
  REQUIRE(made.plan.boxes[0].first_off);
  const FirstOff& told = *made.plan.boxes[0].first_off;
  CHECK(told.release == Release::correct);
  CHECK(told.corrected.value > told.uncorrected.value);
  std::string unread = free;
  unread = with(unread, "<measured copy=\"1\">" + ground(402.5) + "</measured>", "");
  CHECK(blank_length(checked(unread)) + told.sizes.at(0).correction_mm ==
        Approx(blank_length(made)).margin(0.02));
}

TEST_CASE("Too high for the opening is told as too wide is") {
  std::string low = with(lockers(), "604 mm, 604 mm, 603.5 mm", "600.2 mm, 600.2 mm, 600.2 mm");
  low = with(low, "604 mm, 603.5 mm, 603.5 mm", "600.2 mm, 600.2 mm, 600.2 mm");
  const Planned made = checked(low);
  CHECK(has_red(made, "caution.row-height"));
  CHECK(more_likely_missed(made.plan));
}

TEST_CASE("Copies of other widths than the card's are told with what their parts differ by") {
  const Planned made = checked(with(lockers(), "<stand box=\"locker\" copy=\"2\"/>",
                                    "<stand box=\"locker\" copy=\"2\" keep-size=\"yes\"/>"));
  const StandFit& kept = made.plan.row->stands.at(1);
  CHECK(kept.keeps_size);
  CHECK(kept.target_mm == 400.0);
  bool told = false;
  for (const Text& fact : made.plan.boxes[0].facts)
    if (fact.key == "fact.copy-wider") {
      told = true;
      CHECK(fact.args.back().name == "by");
      CHECK(fact.args.back().number == Approx(400.0 - aimed_width(made)));
    }
  CHECK(told);
}

TEST_CASE("Lids that stand out take their width of the bay") {
  const Planned made = checked(file(TACKSQUARE_SOURCE "/samples/battery-box.xml"));
  REQUIRE(made.plan.row);
  for (const StandFit& stand : made.plan.row->stands)
    CHECK(stand.overhang_mm == Approx(8.0));
  // By hand: 2 x (450 + 8) + 10 + 2 = 928 of 931 less what the floor's slope takes; a bay 4 mm narrower is
  // too small.
  CHECK(made.plan.row->as_stated.value > 0.9);
  const Planned tight = checked(with(file(TACKSQUARE_SOURCE "/samples/battery-box.xml"),
                                     "middle=\"931.5 mm, 931 mm\"", "middle=\"931.5 mm, 927 mm\""));
  CHECK(tight.plan.row->as_stated.value < 0.1);
}
