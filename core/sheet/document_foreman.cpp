// The foreman's pages: what to look out for, what to expect, the seams, why this order, and the pair's time.
#include "base/numbers.h"
#include "sheet/compose.h"
#include "sheet/draw.h"
#include "sheet/plain_text.h"
#include "sheet/share.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tacksquare {

namespace {

std::string symbol(const Composer& compose, const PlannedSeam& seam) {
  std::vector<std::string> parts;
  parts.push_back(compose.term("joint.", seam.joint));
  if (!seam.corner.empty()) parts.push_back(compose.term("corner.", seam.corner));
  std::string weld = compose.term("weld.", seam.weld);
  if (seam.leg_mm) weld.append(" ").append(compose.quantity(ArgKind::length_mm, *seam.leg_mm));
  if (seam.groove_deg) weld.append(" ").append(compose.quantity(ArgKind::angle_deg, *seam.groove_deg));
  parts.push_back(weld);
  if (seam.stitch_length_mm && seam.stitch_pitch_mm)
    parts.push_back(compose.line("symbol.stitch",
                                 {word("length", compose.bare(ArgKind::length_mm, *seam.stitch_length_mm)),
                                  word("pitch", compose.bare(ArgKind::length_mm, *seam.stitch_pitch_mm))}));
  parts.push_back(compose.term("side.", seam.side));
  parts.push_back(compose.term("finish.", seam.finish));
  return comma_joined(parts);
}

DocumentTable seam_table(const Composer& compose, const BoxPlan& box) {
  DocumentTable out;
  out.title = compose.word("seams.title");
  for (const char* key : {"seams.seam", "seams.faces", "seams.welded", "seams.bead", "seams.throat",
                          "seams.heat", "seams.wire", "seams.settings"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, false, true, true, true, true, true, false};
  // Seams with the same figures share a row.
  struct Row {
    std::vector<std::string> cells, seams, faces;
  };
  std::vector<Row> rows;
  for (const PlannedSeam& seam : box.seams) {
    std::vector<std::string> cells = {
        compose.quantity(ArgKind::length_mm, seam.welded_mm),
        compose.quantity(ArgKind::area_mm2, seam.bead_mm2.value),
        compose.range(ArgKind::fine_mm, seam.throat_mm.low, seam.throat_mm.high),
        compose.quantity(ArgKind::heat_J_mm, seam.heat_J_mm.value),
        compose.quantity(ArgKind::mass_g, seam.wire_g.value),
        cleaned(seam.settings)};
    auto same = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.cells == cells; });
    if (same == rows.end()) same = rows.insert(same, {std::move(cells), {}, {}});
    same->seams.push_back(seam.id);
    same->faces.push_back(compose.line("map.pair", {word("a", seam.face_a), word("b", seam.face_b)}));
  }
  for (const Row& row : rows) {
    out.rows.push_back({names(compose, box, row.seams), comma_joined(row.faces)});
    out.rows.back().insert(out.rows.back().end(), row.cells.begin(), row.cells.end());
  }
  // Seams with the same symbol share a line.
  std::vector<std::pair<std::string, std::vector<std::string>>> symbols;
  for (const PlannedSeam& seam : box.seams) {
    const std::string said = symbol(compose, seam);
    auto found =
        std::find_if(symbols.begin(), symbols.end(), [&](const auto& each) { return each.first == said; });
    if (found == symbols.end()) found = symbols.insert(symbols.end(), {said, {}});
    found->second.push_back(seam.id);
  }
  for (const auto& [said, seams] : symbols)
    out.below.push_back(
        compose.line("seams.symbol", {word("seams", names(compose, box, seams)), word("symbol", said)}));
  out.below.push_back(compose.word("seams.below"));
  out.below.push_back(compose.word("seams.level"));
  return out;
}

DocumentTable tack_order_table(const Composer& compose, const BoxPlan& box) {
  DocumentTable out;
  out.title = compose.word("tack-orders.title");
  for (const char* key : {"tack-orders.order", "tack-orders.worst", "tack-orders.square", "tack-orders.gap",
                          "tack-orders.gap-mm"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, true, true, true, true};
  for (const TackOrderCompared& order : box.tack_orders) {
    std::string name = compose.term("tack-order.", order.key);
    if (order.chosen) name += compose.word("tack-order.chosen");
    out.rows.push_back(
        {std::move(name), fixed(order.worst, 2), fixed(order.square, 2), fixed(order.gap, 2),
         compose.line("map.pair", {word("a", compose.quantity(ArgKind::fine_mm, order.gap_mm.low)),
                                   word("b", compose.quantity(ArgKind::fine_mm, order.gap_mm.high))})});
  }
  out.below.push_back(compose.word("tack-orders.below"));
  out.below.push_back(compose.word("tack-orders.says"));
  return out;
}

DocumentTable lever_table(const Composer& compose, const BoxPlan& box) {
  DocumentTable out;
  out.title = compose.word("levers.title");
  for (const char* key : {"levers.change", "levers.now", "levers.then"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, true, true};
  bool fixture = false;
  for (const Lever& lever : box.levers) {
    out.rows.push_back({compose.text(lever.what), compose.in_hundred(lever.chance_before),
                        compose.in_hundred(lever.chance_after)});
    fixture = fixture || lever.key.starts_with("fixture");
    if (!lever.advised) continue;
    Text what = lever.what;
    what.key.replace(0, what.key.find('.'), "advice");
    out.below.push_back(compose.line("levers.advice", {word("what", compose.text(what)),
                                                       count("more", std::round(100.0 * lever.gain()))}));
  }
  if (out.below.empty()) out.below.push_back(compose.word("levers.nothing"));
  out.below.push_back(compose.line("levers.below", {count("draws", kLeverDraws)}));
  if (fixture) out.below.push_back(compose.word("levers.fixture"));
  return out;
}

DocumentTable order_table(const Composer& compose, const BoxPlan& box) {
  DocumentTable out;
  out.title = compose.word("orders.title");
  for (const char* key :
       {"orders.order", "orders.turns", "orders.worst", "orders.mean", "orders.hottest", "orders.turning"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, true, true, true, true, true};
  for (const OrderCompared& order : box.orders) {
    out.rows.push_back({compose.term("order.", order.key), std::to_string(order.turns),
                        compose.quantity(ArgKind::chance, order.heat_moment),
                        compose.quantity(ArgKind::chance, order.mean_moment),
                        compose.quantity(ArgKind::difference_K, order.worst_warmth_K),
                        compose.quantity(ArgKind::time_s, order.turning_s)});
  }
  out.below.push_back(compose.word("orders.below"));
  out.below.push_back(compose.word(box.order_proven_best ? "orders.proven" : "orders.searched"));
  out.below.push_back(compose.word("orders.says"));
  return out;
}

DocumentTable heat_table(const Composer& compose, const BoxPlan& box) {
  DocumentTable out;
  out.title = compose.word("heat.title");
  for (const char* key : {"heat.order", "heat.run", "heat.from-to", "heat.position", "heat.down", "heat.arc",
                          "heat.heat", "heat.warmth"})
    out.head.push_back(compose.word(key));
  out.numeric = {true, false, true, false, false, true, true, true};
  out.slim = true;
  for (std::size_t i = 0; i < box.runs.size(); ++i) {
    const PlannedRun& run = box.runs[i];
    out.rows.push_back({std::to_string(i + 1), cleaned(run.id),
                        compose.line("map.pair", {word("a", compose.place(run.from_mm)),
                                                  word("b", compose.place(run.to_mm))}),
                        compose.term("heat.pos.", run.position), compose.term("down.", run.down),
                        compose.quantity(ArgKind::time_s, run.arc_s), fixed(run.heat_J / 1000.0, 1) + " kJ",
                        compose.quantity(ArgKind::difference_K, run.warmth_K)});
  }
  // One hand and one machine make all runs: what holds of the seams holds of each of them.
  Band arc{1.0, 1.0, 1.0}, heat = arc;
  const auto widen = [](Band& all, const Band& band) {
    if (!(band.value > 0.0)) return;
    all.low = std::min(all.low, band.low / band.value);
    all.high = std::max(all.high, band.high / band.value);
  };
  widen(arc, box.arc_s);
  for (const PlannedSeam& seam : box.seams)
    widen(heat, seam.heat_J_mm);
  out.below = {
      compose.line("heat.below", {word("unit", compose.unit(ArgKind::length_mm))}),
      compose.line("heat.range",
                   {number("arc-low", ArgKind::ratio, arc.low), number("arc-high", ArgKind::ratio, arc.high),
                    number("low", ArgKind::ratio, heat.low), number("high", ArgKind::ratio, heat.high)})};
  return out;
}

DocumentTable time_table(const Composer& compose, const BoxPlan& box) {
  DocumentTable out;
  out.title = compose.word("lanes.title");
  for (const char* key : {"lanes.step", "lanes.who", "lanes.start", "lanes.takes"})
    out.head.push_back(compose.word(key));
  out.numeric = {true, false, true, true};
  out.slim = true;
  for (const Step& step : box.steps)
    out.rows.push_back({std::to_string(step.number), compose.who(step.who),
                        compose.quantity(ArgKind::time_s, step.start_s),
                        compose.quantity(ArgKind::time_s, step.seconds)});
  return out;
}

std::vector<DocumentBlock> notes(const Composer& compose, const BoxPlan& box) {
  std::vector<DocumentBlock> out;
  DocumentBlock cautions{compose.word("foreman.cautions"), {}, false};
  std::vector<SharedText> shared;
  for (const Caution& caution : box.cautions) {
    const auto takes = [&](SharedText& each) { return take_in(compose, each, caution.what); };
    if (!caution.red && std::none_of(shared.begin(), shared.end(), takes))
      shared.push_back({caution.what, {}, {}});
  }
  for (const SharedText& each : shared)
    cautions.lines.push_back(shared_text(compose, box, each));
  DocumentBlock settings{compose.word("foreman.settings"), {}, false};
  for (const SettingsBlock& block : box.settings) {
    if (block.starting_point)
      settings.lines.push_back(compose.line("foreman.prove", {word("settings", block.id)}));
    for (const std::string& odd : compose.texts(block.oddities))
      settings.lines.push_back(compose.line("foreman.odd", {word("settings", block.id), word("text", odd)}));
  }
  for (DocumentBlock* block : {&cautions, &settings})
    if (!block->lines.empty()) out.push_back(*block);
  return out;
}

} // namespace

void compose_foreman(const Composer& compose, const Plan& plan, const BoxPlan& box, DocumentBox& out) {
  out.notes = notes(compose, box);
  compose_fit(compose, plan, box, out);
  if (std::optional<Drawing> shape = draw_shape(compose, box))
    out.foreman_drawings.push_back(std::move(*shape));
  for (DocumentTable& table : figure_tables(compose, box))
    out.foreman.push_back(std::move(table));
  for (DocumentTable& table : fixture_tables(compose, box))
    out.foreman.push_back(std::move(table));
  out.foreman.push_back(seam_table(compose, box));
  if (!box.tack_orders.empty()) out.foreman.push_back(tack_order_table(compose, box));
  if (!box.levers.empty()) out.foreman.push_back(lever_table(compose, box));
  if (!box.orders.empty()) out.foreman.push_back(order_table(compose, box));
  if (!box.runs.empty()) {
    for (Drawing& warmth : draw_warmth(compose, box))
      out.foreman_drawings.push_back(std::move(warmth));
    out.foreman.push_back(heat_table(compose, box));
  }
  if (!box.steps.empty()) {
    out.foreman_drawings.push_back(draw_lanes(compose, box));
    out.foreman.push_back(time_table(compose, box));
  }
}

} // namespace tacksquare
