// What the shop has for its fixtures: table, torch, grinder, and what it owns.
#include "job/file/ranges.h"
#include "job/file/read_parts.h"
#include "job/file/words.h"

#include <algorithm>

namespace tacksquare {

namespace {

void end(Element& e) {
  e.allow({});
  e.finish();
}

void read_table(Element e, std::optional<ShopTable>& into) {
  ShopTable table;
  table.where = e.where();
  e.require("width", "2000 mm");
  e.require("depth", "1000 mm");
  table.width = e.quantity("width", parse_length, ranges::table).value_or(mm(0));
  table.depth = e.quantity("depth", parse_length, ranges::table).value_or(mm(0));
  end(e);
  into = table;
}

void states_something(const Element& e, bool something, const std::string& example) {
  if (!something)
    e.out().error("attribute-missing", e.where(), e.tag() + " states nothing", "add " + example);
}

void read_torch(Element e, ToolReach& tools) {
  tools.where = e.where();
  tools.nozzle = e.quantity("nozzle", parse_length, ranges::tool);
  tools.torch_lean = e.quantity("lean", parse_angle, ranges::lean);
  tools.torch_reach = e.quantity("reach", parse_length, ranges::tool);
  states_something(e, e.has("nozzle") || e.has("lean") || e.has("reach"), "nozzle=\"18 mm\"");
  end(e);
}

void read_grinder(Element e, ToolReach& tools) {
  if (!tools.where.known()) tools.where = e.where();
  tools.disc = e.quantity("disc", parse_length, ranges::tool);
  tools.grinder = e.quantity("height", parse_length, ranges::tool);
  states_something(e, e.has("disc") || e.has("height"), "disc=\"115 mm\"");
  end(e);
}

// What can be said of a kind, besides its count and foot.
std::vector<std::string> said_of(ItemKind kind) {
  switch (kind) {
  case ItemKind::hold_down:
  case ItemKind::bar_clamp:
  case ItemKind::corner_clamp:
    return {"foot", "opens", "force"};
  case ItemKind::spreader:
    return {"foot", "length", "shortest"};
  case ItemKind::square:
  case ItemKind::backing_bar:
    return {"foot", "length"};
  case ItemKind::stop:
  case ItemKind::support:
  case ItemKind::former:
    return {"foot"};
  }
  throw InternalError("an item of no kind");
}

void check_said(Element& e, ItemKind kind) {
  const std::vector<std::string> known = said_of(kind);
  for (const char* name : {"opens", "length", "shortest", "force"})
    if (e.has(name) && std::find(known.begin(), known.end(), name) == known.end())
      e.out().error("item-odd", e.where(name),
                    quoted(name) + " says nothing of a " + word_of(words::items, kind),
                    "delete it; " + suggestion("", known));
}

void read_owned(Element e, Shop& shop) {
  OwnedItem item;
  item.where = e.where();
  e.require("item", "bar-clamp");
  const auto kind = e.choice("item", words::items);
  item.count = e.count("count", ranges::owned).value_or(1);
  item.opens = e.quantity("opens", parse_length, ranges::piece);
  item.length = e.quantity("length", parse_length, ranges::piece);
  item.shortest = e.quantity("shortest", parse_length, ranges::piece);
  item.foot = e.quantity("foot", parse_length, ranges::piece);
  item.force = e.quantity("force", parse_force, ranges::press);
  end(e);
  if (!kind) return;
  item.kind = *kind;
  check_said(e, *kind);
  if (item.length && item.shortest && *item.shortest > *item.length)
    e.out().error("span-turned", e.where("shortest"),
                  "the spreader is longer at its shortest than at its longest",
                  "length is what it is screwed out to at most");
  shop.owned.push_back(item);
}

} // namespace

void read_shop(Element& e, Shop& shop) {
  shop.where = e.where();
  if (const auto table = e.only_child("table")) read_table(*table, shop.table);
  if (const auto torch = e.only_child("torch")) read_torch(*torch, shop.tools);
  if (const auto grinder = e.only_child("grinder")) read_grinder(*grinder, shop.tools);
  for (const Element& owns : e.children("owns"))
    read_owned(owns, shop);
  if (!shop.table && !shop.tools.where.known() && e.children("owns").empty())
    e.out().error("shop-empty", e.where(), "<shop> holds nothing",
                  "add <owns item=\"bar-clamp\" count=\"4\"/>, or delete it");
  e.allow({"table", "torch", "grinder", "owns"});
  e.finish();
}

} // namespace tacksquare
