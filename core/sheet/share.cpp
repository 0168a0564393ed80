#include "sheet/share.h"

#include <algorithm>

namespace tacksquare {

namespace {

using Strings = std::vector<std::string>;

template <class Items, class Item> bool holds(const Items& items, const Item& item) {
  return std::find(items.begin(), items.end(), item) != items.end();
}

std::size_t seam_index(const BoxPlan& box, const std::string& id) {
  const auto found = std::find_if(box.seams.begin(), box.seams.end(),
                                  [&](const PlannedSeam& seam) { return seam.id == id; });
  return static_cast<std::size_t>(found - box.seams.begin());
}

bool is_about(const Arg& arg) {
  return arg.kind == ArgKind::word && (arg.name == "seam" || arg.name == "part");
}

std::string listed(const Composer& compose, const Strings& items) {
  return compose.line("seams", {words("seams", items)});
}

} // namespace

bool take_in(const Composer& compose, SharedText& shared, const Text& other) {
  if (shared.text.key != other.key || shared.text.args.size() != other.args.size()) return false;
  const Arg* differs = nullptr;
  for (std::size_t i = 0; i < other.args.size(); ++i) {
    const Arg& a = shared.text.args[i];
    const Arg& b = other.args[i];
    if (a == b || (a.kind == b.kind && a.name == b.name && compose.argument(a) == compose.argument(b)))
      continue;
    if (differs || !is_about(a) || !is_about(b) || a.name != b.name) return false;
    if (!shared.by.empty() && shared.by != a.name) return false;
    differs = &b;
    if (shared.by.empty()) shared.ids = {a.word};
  }
  if (!differs) return true;
  shared.by = differs->name;
  if (!holds(shared.ids, differs->word)) shared.ids.push_back(differs->word);
  return true;
}

std::string shared_text(const Composer& compose, const BoxPlan& box, const SharedText& shared) {
  Text all = shared.text;
  for (Arg& arg : all.args)
    if (!shared.by.empty() && arg.name == shared.by) arg.word = names(compose, box, shared.ids);
  return compose.text(all);
}

std::string names(const Composer& compose, const BoxPlan& box, const Strings& ids) {
  constexpr std::size_t kLeast = 3;
  Strings said;
  for (std::size_t i = 0; i < ids.size();) {
    const std::size_t first = seam_index(box, ids[i]);
    std::size_t length = 1;
    while (i + length < ids.size() && first + length < box.seams.size() &&
           box.seams[first + length].id == ids[i + length])
      ++length;
    if (length < kLeast) length = 1;
    said.push_back(length == 1 ? ids[i] : ids[i] + compose.word("range.to") + ids[i + length - 1]);
    i += length;
  }
  return listed(compose, said);
}

PlaceName place_name(const BoxPlan& box, const std::string& where) {
  const bool face = std::any_of(box.faces.begin(), box.faces.end(),
                                [&](const FaceOutline& each) { return each.id == where; });
  const std::size_t dash =
      face || seam_index(box, where) < box.seams.size() ? std::string::npos : where.rfind('-');
  if (dash == std::string::npos) return {where, {}};
  return {where.substr(0, dash), where.substr(dash + 1)};
}

std::string places(const Composer& compose, const BoxPlan& box, const Strings& wheres) {
  struct Place {
    Strings heads, tails;
  };
  std::vector<Place> all;
  for (const std::string& where : wheres) {
    const auto [head, end] = place_name(box, where);
    auto found =
        std::find_if(all.begin(), all.end(), [&head = head](const Place& p) { return p.heads[0] == head; });
    if (found == all.end()) found = all.insert(all.end(), {{head}, {}});
    if (end.empty()) continue;
    const std::string tail = compose.term("place.", end);
    if (!holds(found->tails, tail)) found->tails.push_back(tail);
  }
  std::vector<Place> merged;
  for (Place& each : all) {
    const auto found =
        std::find_if(merged.begin(), merged.end(), [&](const Place& p) { return p.tails == each.tails; });
    if (found == merged.end())
      merged.push_back(std::move(each));
    else
      found->heads.push_back(each.heads[0]);
  }
  std::string out;
  for (Place& each : merged) {
    const bool several = each.heads.size() > 1;
    for (std::string& head : each.heads)
      if (seam_index(box, head) == box.seams.size()) head = compose.term("place.", head);
    const std::string heads = names(compose, box, each.heads);
    if (!out.empty()) out += "; ";
    out += each.tails.empty()
               ? heads
               : compose.line(several ? "measures.each" : "measures.one",
                              {word("heads", heads), word("tails", listed(compose, each.tails))});
  }
  return out;
}

} // namespace tacksquare
