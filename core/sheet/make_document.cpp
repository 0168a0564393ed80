#include "base/diagnostic.h"
#include "sheet/compose.h"
#include "sheet/document.h"

#include <algorithm>

namespace tacksquare {

namespace {

PageWords page_words(const Composer& compose) {
  PageWords out;
  out.bench = compose.word("page.bench");
  out.foreman = compose.word("page.foreman");
  out.settings = compose.word("page.settings");
  out.check = compose.word("page.check");
  out.off = compose.word("page.off");
  out.stop_here = compose.word("page.stop-here");
  out.sign = compose.word("page.sign");
  out.done = compose.word("page.done");
  out.red = compose.word("page.red");
  out.plan = compose.word("page.plan");
  out.page = compose.word("page.page");
  return out;
}

void check_widths(const DocumentTable& table) {
  const auto wrong = [&](const auto& row) { return row.size() != table.head.size(); };
  if (table.numeric.size() != table.head.size() || std::any_of(table.rows.begin(), table.rows.end(), wrong))
    throw InternalError("a row of " + table.title + " has the wrong width");
}
void check_widths(const DocumentPage& page) {
  for (const DocumentSection& section : page.sections)
    for (const DocumentTable& table : section.tables)
      check_widths(table);
}

} // namespace

std::vector<std::string> page_head(const Composer& compose, const Plan& plan) {
  std::vector<std::string> out;
  if (!plan.number.empty()) out.push_back(compose.line("head.job", {word("number", plan.number)}));
  if (!plan.date.empty()) out.push_back(compose.line("head.date", {word("date", plan.date)}));
  return out;
}

Document make_document(const Plan& plan, const SheetOptions& options) {
  const Composer compose(options);
  Document out;
  out.language = options.language;
  out.title = compose.line("plain", {word("text", plan.job)});
  out.signature = plan_signature(plan);
  out.defer = {compose.word("defer.first"), compose.word("defer.settings"), compose.word("defer.bands")};
  out.legend = compose.word("page.legend");
  out.words = page_words(compose);
  if (plan.row) {
    out.first.push_back(compose_row(compose, plan));
    if (plan.row->stands.size() > 1) {
      std::vector<DocumentSection>& sections = out.first.back().sections;
      sections.insert(sections.end() - 1, compose_row_check(compose, *plan.row)); // sources stay last
    }
  }
  for (const BoxPlan& box : plan.boxes) {
    DocumentBox page;
    compose_bench(compose, plan, box, page);
    if (box.fixture) page.cards.push_back(compose_fixture(compose, plan, box));
    if (!box.bend_orders.empty()) page.cards.push_back(compose_bends(compose, plan, box));
    if (!box.patterns.empty()) page.cards.push_back(compose_cut_list(compose, plan, box));
    compose_foreman(compose, plan, box, page);
    out.boxes.push_back(std::move(page));
  }
  for (const DocumentPage& page : out.first)
    check_widths(page);
  for (const DocumentBox& box : out.boxes) {
    check_widths(box.seam_map);
    for (const DocumentTable& table : box.foreman)
      check_widths(table);
    for (const DocumentPage& page : box.cards)
      check_widths(page);
  }
  return out;
}

} // namespace tacksquare
