// The foreman's pages: orders of tacks and of seams beside each other, and how sure it is that none is
// better.
#include "base/numbers.h"
#include "sheet/compose.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace {

constexpr double kDrawsOfOrders = 32.0;

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

const OrderCompared* find_order(const BoxPlan& box, const std::string& key) {
  const auto found = std::find_if(box.orders.begin(), box.orders.end(),
                                  [&](const OrderCompared& order) { return order.key == key; });
  return found == box.orders.end() ? nullptr : &*found;
}

DocumentTable order_table(const Composer& compose, const BoxPlan& box) {
  const bool weighed = box.order_proof.has_value();
  DocumentTable out;
  out.title = compose.word("orders.title");
  for (const char* key : {"orders.order", "orders.turns"})
    out.head.push_back(compose.word(key));
  if (weighed)
    for (const char* key : {"orders.square", "orders.chance"})
      out.head.push_back(compose.word(key));
  for (const char* key : {"orders.worst", "orders.mean", "orders.hottest"})
    out.head.push_back(compose.word(key));
  out.numeric.assign(out.head.size(), true);
  out.numeric.front() = false;
  for (const OrderCompared& order : box.orders) {
    std::vector<std::string> row = {compose.term("order.", order.key), std::to_string(order.turns)};
    if (weighed) {
      row.push_back(order.square ? fixed(*order.square, 2) : "");
      row.push_back(order.chance ? compose.quantity(ArgKind::chance, *order.chance) : "");
    }
    row.push_back(compose.quantity(ArgKind::chance, order.heat_moment));
    row.push_back(compose.quantity(ArgKind::chance, order.mean_moment));
    row.push_back(compose.quantity(ArgKind::difference_K, order.worst_warmth_K));
    out.rows.push_back(std::move(row));
  }
  out.below.push_back(compose.word("orders.below"));
  out.below.push_back(compose.word(!weighed ? "orders.by-heat-alone"
                                   : box.order_proven_best && !find_order(box, "balanced")
                                       ? "orders.proven"
                                       : "orders.searched"));
  if (!weighed && box.order_proven_best) out.below.push_back(compose.word("orders.proven"));
  out.below.push_back(compose.word("orders.says"));
  return out;
}

// What was proven, what was gone through, and what it means.
DocumentTable proof_table(const Composer& compose, const BoxPlan& box) {
  const OrderProof& proof = *box.order_proof;
  const auto part = [](const char* name, double value) { return word(name, fixed(value, 2)); };
  DocumentTable out;
  out.title = compose.word("proof.title");
  for (const char* key : {"proof.what", "proof.worst-limit", "proof.none-beyond"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, true, true};
  if (proof.orders > 0.0) {
    out.rows = {{compose.word("proof.nominal"), fixed(proof.nominal, 2), fixed(proof.nominal_bound, 2)},
                {compose.word("proof.least"), fixed(proof.least, 2), fixed(proof.least_bound, 2)},
                {compose.word("proof.most"), fixed(proof.most, 2), fixed(proof.most_bound, 2)}};
  } else {
    out.rows = {{compose.word("proof.whole"), fixed(proof.least, 2), fixed(proof.least_bound, 2)}};
  }
  if (proof.whole && proof.whole_bound)
    out.rows.push_back({compose.word("proof.any"), fixed(*proof.whole, 2), fixed(*proof.whole_bound, 2)});
  const double planned = box.orders.front().square.value_or(0.0);
  out.rows.push_back({compose.word("proof.squarest"), fixed(proof.squarest, 2), ""});
  out.rows.push_back({compose.word("proof.planned"), fixed(planned, 2), ""});
  if (proof.orders > 0.0)
    out.below.push_back(compose.line(proof.proven ? "proof.proven" : "proof.open",
                                     {count("orders", proof.orders), part("within", proof.within)}));
  else
    out.below.push_back(compose.line("proof.too-large", {part("gap", proof.least - proof.least_bound)}));
  const char* through = proof.all_within          ? "proof.all"
                        : proof.matters == "none" ? "proof.plain"
                                                  : "proof.some";
  out.below.push_back(compose.line(through, {count("tried", proof.tried), part("width", proof.width)}));
  if (find_order(box, "in-rounds") != nullptr)
    out.below.push_back(compose.line("proof.in-one-go", {part("width", proof.width)}));
  const OrderCompared* last = find_order(box, "worst");
  const double by_order = last != nullptr ? last->square.value_or(0.0) - proof.squarest : 0.0;
  std::vector<Arg> matters = {part("order", by_order)};
  if (proof.matters != "none") matters.push_back(part("scatter", proof.scatter));
  out.below.push_back(compose.line("proof.matters-" + proof.matters, matters));
  if (const OrderCompared* own = find_order(box, "own"))
    out.below.push_back(compose.line(
        "proof.own", {part("own", own->square.value_or(0.0)), part("planned", planned),
                      number("chance", ArgKind::chance, own->chance.value_or(0.0)),
                      number("planned-chance", ArgKind::chance, box.orders.front().chance.value_or(0.0))}));
  if (proof.finer_mesh_mm > 0.0) {
    const Arg mesh = number("mesh", ArgKind::length_mm, proof.finer_mesh_mm);
    if (proof.passed_over_finer)
      out.below.push_back(compose.line("proof.passed-over", {mesh, part("other", *proof.passed_over_finer),
                                                             part("planned", proof.planned_finer),
                                                             part("squarest", proof.squarest_finer)}));
    else
      out.below.push_back(compose.line("proof.finer", {mesh, part("planned", proof.planned_finer),
                                                       part("squarest", proof.squarest_finer)}));
  }
  out.below.push_back(
      compose.line("proof.error", {part("error", proof.scatter / std::sqrt(kDrawsOfOrders))}));
  out.below.push_back(compose.word("proof.says"));
  return out;
}

} // namespace

std::vector<DocumentTable> order_tables(const Composer& compose, const BoxPlan& box) {
  std::vector<DocumentTable> tables;
  if (!box.tack_orders.empty()) tables.push_back(tack_order_table(compose, box));
  if (!box.levers.empty()) tables.push_back(lever_table(compose, box));
  if (!box.orders.empty()) tables.push_back(order_table(compose, box));
  if (box.order_proof && !box.orders.empty()) tables.push_back(proof_table(compose, box));
  return tables;
}

} // namespace tacksquare
