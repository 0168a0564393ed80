// Defaults of the trade for what holds a part, against the reference.
#include "tables/fixture_practice.h"

#include "support/table.h"

#include <map>
#include <set>
#include <string>

using namespace tacksquare;
using tacksquare::test::Table;

namespace {

using Figure = double (*)();

const std::map<std::string, Figure>& figures() {
  static const std::map<std::string, Figure> all = {
      {"nozzle", [] { return in_mm(tool_practice().nozzle); }},
      {"torch_lean_deg", [] { return in_deg(tool_practice().torch_lean); }},
      {"torch_reach", [] { return in_mm(tool_practice().torch_reach); }},
      {"disc", [] { return in_mm(tool_practice().disc); }},
      {"grinder", [] { return in_mm(tool_practice().grinder); }},
      {"inset", [] { return in_mm(locator_practice().inset); }},
      {"up", [] { return in_mm(locator_practice().up); }},
      {"slack", [] { return in_mm(locator_practice().slack); }},
      {"set_error", [] { return in_mm(locator_practice().error); }},
      {"clamp_pitch_low", [] { return in_mm(clamp_practice().pitch.low); }},
      {"clamp_pitch_high", [] { return in_mm(clamp_practice().pitch.high); }},
      {"corner_arm", [] { return in_mm(clamp_practice().arm); }},
      {"foot", [] { return in_mm(clamp_practice().foot); }},
      {"stands_off", [] { return in_mm(clamp_practice().stands_off); }},
      {"takes_up", [] { return in_mm(clamp_practice().takes_up); }},
      {"hold_down_force", [] { return in_n(clamp_practice().hold_down); }},
      {"bar_force", [] { return in_n(clamp_practice().bar); }},
      {"corner_force", [] { return in_n(clamp_practice().corner); }},
      {"former_under_low", [] { return in_mm(former_practice().under.low); }},
      {"former_under_high", [] { return in_mm(former_practice().under.high); }},
      {"former_clip", [] { return in_mm(former_practice().clip); }},
      {"friction", [] { return friction_practice().steel_on_steel; }},
      {"hand_push", [] { return in_n(hand_practice().push); }},
      {"former_bar", [] { return in_mm(former_practice().bar); }},
  };
  return all;
}

} // namespace

TEST_CASE("defaults of fixtures are those of the reference, and say that they are common practice") {
  const Table table("fixture_practice.tsv", {"rule", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 24);
  std::set<std::string> seen;
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    const auto figure = figures().find(row.text("rule"));
    REQUIRE(figure != figures().end());
    seen.insert(row.text("rule"));
    CHECK(figure->second() == Approx(row.number("value")).margin(row.number("tolerance")).epsilon(0));
  }
  CHECK(seen.size() == figures().size());
  for (const Source& source : {tool_practice().source, locator_practice().source, clamp_practice().source,
                               former_practice().source, hand_practice().source})
    CHECK(source.mark == Mark::common_practice);
  CHECK(friction_practice().source.mark == Mark::from_memory);
}
