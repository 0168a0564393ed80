#include "cli/state_orders.h"

#include "job/file/weld_order.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace tacksquare {
namespace {

constexpr std::string_view kWhite = " \t\n\r";

// Between white space, from a place on.
std::vector<Word> words_in(const std::string& text, std::size_t from, std::size_t file) {
  std::vector<Word> words;
  for (std::size_t at = text.find_first_not_of(kWhite, from); at != std::string::npos;) {
    const std::size_t end = std::min(text.find_first_of(kWhite, at), text.size());
    words.push_back({text.substr(at, end - at), {at, file}});
    at = text.find_first_not_of(kWhite, end);
  }
  return words;
}

// The box that an option speaks of, and its seams.
struct Order {
  std::optional<Word> box; // nothing where a fault in it was told
  std::vector<Word> seams;
};

Order read_order(const std::string& text, const std::vector<std::string>& boxes, std::size_t file,
                 Diagnostics& out) {
  const std::size_t colon = text.find(':');
  if (colon == std::string::npos) {
    Order order{std::nullopt, words_in(text, 0, file)};
    if (boxes.size() == 1)
      order.box = Word{boxes.front(), {0, file}};
    else if (boxes.size() > 1)
      out.error("order-of-which", {0, file},
                fmt::format("the job states {} boxes, and this does not say of which it is the order",
                            boxes.size()),
                fmt::format("its id goes before, for example \"{}: S1 S2 S3\"", boxes.front()));
    return order;
  }
  const std::vector<Word> named = words_in(text.substr(0, colon), 0, file);
  Order order{std::nullopt, words_in(text, colon + 1, file)};
  if (named.size() != 1) {
    out.error("order-of-which", {0, file}, "before the colon stands the id of one box",
              "for example --order \"locker: S1 S3 S2 S4\"");
  } else if (boxes.empty() || std::find(boxes.begin(), boxes.end(), named[0].text) != boxes.end()) {
    order.box = named[0];
  } else {
    out.error("reference", named[0].where, "there is no box " + quoted(named[0].text),
              suggestion(named[0].text, boxes));
  }
  return order;
}

} // namespace

void state_orders(const std::vector<std::string>& options, const std::vector<std::string>& boxes, Job* job,
                  std::vector<FileRead>& files, Diagnostics& out) {
  std::map<std::string, Origin> first_of;
  for (const std::string& option : options) {
    files.push_back({"--order", option});
    const Order order = read_order(option, boxes, files.size(), out);
    if (!order.box) continue;
    const auto [first, alone] = first_of.try_emplace(order.box->text, order.box->where);
    if (!alone)
      out.error("order-twice", order.box->where,
                "the order of box " + quoted(order.box->text) + " is stated twice",
                "leave out one of the two", Note{"the first one", first->second});
    if (!job) continue;
    for (Box& box : job->boxes)
      if (box.id == order.box->text)
        state_weld_order(box, order.seams, order.seams.empty() ? order.box->where : order.seams.front().where,
                         out);
  }
}

} // namespace tacksquare
