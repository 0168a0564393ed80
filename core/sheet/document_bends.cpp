// The bend card: for whoever stands at the brake, one numbered bend a line.
#include "sheet/draw.h"
#include "sheet/plain_text.h"

#include <algorithm>

namespace tacksquare {

namespace {

// The stops of a back gauge are set to what a calliper reads.
constexpr const char* kStopsRead = "calliper";

std::string bend_name(const Composer& compose, const std::string& a, const std::string& b) {
  return compose.line("map.pair", {word("a", a), word("b", b)});
}

// All bends that the stroke makes.
std::string bend_names(const Composer& compose, const FlatPattern* pattern, const BendStep& step) {
  std::vector<std::string> names{bend_name(compose, step.face_a, step.face_b)};
  for (const std::size_t bend : step.with)
    if (pattern != nullptr && bend < pattern->bends.size())
      names.push_back(bend_name(compose, pattern->bends[bend].face_a, pattern->bends[bend].face_b));
  return compose.argument(words("bends", names));
}

std::string stops_on(const Composer& compose, const BendStep& step) {
  const std::string key = step.on_bend ? "bends.on-bend" : "bends.on-edge";
  if (step.gauged_on.size() == 1) return compose.line(key, {word("face", step.gauged_on[0])});
  return compose.line(key + "s", {words("faces", step.gauged_on)});
}

std::string length_of(const Composer& compose, double mm) {
  return compose.quantity(ArgKind::length_mm, mm);
}

DocumentTable bend_table(const Composer& compose, const FlatPattern* pattern, const BendOrder& order) {
  DocumentTable out;
  out.title = compose.line("bends.title", {word("part", order.part)});
  out.large = true;
  for (const char* key : {"bends.number", "bends.bend", "bends.up", "bends.edge", "bends.stops",
                          "bends.angle", "bends.punch", "bends.clear", "bends.done"})
    out.head.push_back(compose.word(key));
  out.numeric = {true, false, false, false, true, true, true, true, false};
  for (std::size_t i = 0; i < order.steps.size(); ++i) {
    const BendStep& step = order.steps[i];
    const bool turn = step.turned && i > 0;
    const std::string up = compose.word(step.outside_up ? "bends.outside" : "bends.inside");
    out.rows.push_back({std::to_string(i + 1), bend_names(compose, pattern, step),
                        turn ? compose.line("bends.turn", {word("up", up)}) : up, stops_on(compose, step),
                        compose.quantity(ArgKind::length_mm, step.gauge_mm, kStopsRead),
                        compose.quantity(ArgKind::angle_deg, step.angle_deg),
                        length_of(compose, step.punch_mm),
                        compose.line("bends.clear-of", {word("by", length_of(compose, step.clear_mm)),
                                                        term("tool", "bends.by." + step.nearest)}),
                        "[ ]"});
  }
  if (!order.proven) return out;
  if (order.far == 0)
    out.below.push_back(compose.line("bends.near", {count("turns", order.turns)}));
  else
    out.below.push_back(compose.line("bends.far", {count("turns", order.turns), count("far", order.far)}));
  return out;
}

std::string blocked_line(const Composer& compose, const BendOrder& order) {
  const BendBlocked& blocked = *order.blocked;
  std::string out =
      compose.line("bends.blocked", {word("part", order.part),
                                     word("bend", bend_name(compose, blocked.face_a, blocked.face_b)),
                                     term("why", "bends.blocked." + blocked.by)});
  if (blocked.needed_mm > 0.0)
    out.append(1, ' ').append(
        compose.line("bends.needs." + blocked.by, {word("size", length_of(compose, blocked.needed_mm))}));
  return out;
}

} // namespace

DocumentPage compose_bends(const Composer& compose, const Plan& plan, const BoxPlan& box) {
  DocumentPage page;
  page.title = compose.line("plain", {word("text", box.name.empty() ? box.id : box.name)});
  page.page = compose.word("page.bends");
  page.head = page_head(compose, plan);
  if (box.count > 1) page.head.push_back(compose.line("cutting.times", {count("count", box.count)}));
  const bool any = std::any_of(box.bend_orders.begin(), box.bend_orders.end(),
                               [](const BendOrder& order) { return !order.steps.empty(); });
  if (any)
    page.sections.push_back(
        {{{}, {compose.word("bends.one-out"), compose.word("bends.first-piece")}, false}, {}, {}, true});
  for (const BendOrder& order : box.bend_orders) {
    if (order.blocked) page.red.push_back(blocked_line(compose, order));
    if (order.steps.empty()) continue;
    DocumentSection section;
    const auto pattern = std::find_if(box.patterns.begin(), box.patterns.end(),
                                      [&](const FlatPattern& each) { return each.part == order.part; });
    const FlatPattern* known = pattern == box.patterns.end() ? nullptr : &*pattern;
    if (known != nullptr) section.drawings.push_back(draw_bends(compose, *known, order));
    section.tables.push_back(bend_table(compose, known, order));
    page.sections.push_back(std::move(section));
  }
  if (!any) return page;
  page.sections.push_back(
      {{compose.word("row.reading"), {compose.word("bends.how-up"), compose.word("bends.how-stops")}, false},
       {},
       {},
       false});
  return page;
}

} // namespace tacksquare
