#include "job/file/weld_order.h"

#include "job/file/reading.h"

#include <algorithm>

namespace tacksquare {

namespace {

constexpr std::size_t kMostListed = 50;

std::string listed(const std::vector<std::string>& ids) {
  std::string all;
  for (std::size_t i = 0; i < std::min(ids.size(), kMostListed); ++i)
    all.append(i == 0 ? "" : ", ").append(ids[i]);
  if (ids.size() > kMostListed) all += " and " + std::to_string(ids.size() - kMostListed) + " more";
  return all;
}

} // namespace

void state_weld_order(Box& box, const std::vector<Word>& seams, Origin where, Diagnostics& out) {
  const std::string whose = "box " + quoted(box.id);
  const Ids ids = ids_of("seam", box.seams, whose);
  std::vector<std::optional<Origin>> stated(box.seams.size());
  std::vector<std::string> order;
  for (const Word& word : seams) {
    const auto index = ids.find(word, out);
    if (!index) continue;
    if (std::optional<Origin>& first = stated[*index]) {
      out.error("order-twice", word.where,
                "seam " + quoted(word.text) + " stands twice in the order of " + whose,
                "each seam stands once: delete one of the two", Note{"the first one", *first});
      continue;
    }
    stated[*index] = word.where;
    order.push_back(word.text);
  }
  std::vector<std::string> left_out;
  for (std::size_t i = 0; i < stated.size(); ++i)
    if (!stated[i]) left_out.push_back(box.seams[i].id);
  if (!left_out.empty())
    out.error("order-short", where, "the order of " + whose + " leaves out " + listed(left_out),
              "each seam of the box stands in it once");
  if (!left_out.empty() || order.size() < seams.size()) return;
  box.weld_order = std::move(order);
  box.weld_order_where = where;
}

} // namespace tacksquare
