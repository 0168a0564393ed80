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

} // namespace

Document make_document(const Plan& plan, const SheetOptions& options) {
  const Composer compose(options);
  Document out;
  out.language = options.language;
  out.title = compose.line("plain", {word("text", plan.job)});
  out.signature = plan_signature(plan);
  out.defer = {compose.word("defer.first"), compose.word("defer.settings"), compose.word("defer.bands")};
  out.legend = compose.word("page.legend");
  out.words = page_words(compose);
  for (const BoxPlan& box : plan.boxes) {
    DocumentBox page;
    compose_bench(compose, plan, box, page);
    compose_foreman(compose, box, page);
    out.boxes.push_back(std::move(page));
  }
  for (const DocumentBox& box : out.boxes)
    for (const DocumentTable& table : box.foreman)
      for (const auto& row : table.rows)
        if (row.size() != table.head.size())
          throw InternalError("a row of " + table.title + " has the wrong width");
  return out;
}

} // namespace tacksquare
