#include "sheet/sources.h"

#include "sheet/plain_text.h"

#include <algorithm>
#include <fmt/format.h>

namespace tacksquare {

namespace {

const char* mark_key(Mark mark) {
  switch (mark) {
  case Mark::published:
    return "mark.published";
  case Mark::standard:
    return "mark.standard";
  case Mark::derived:
    return "mark.derived";
  case Mark::from_memory:
    return "mark.from-memory";
  case Mark::stated:
    return "mark.stated";
  case Mark::common_practice:
    break;
  }
  return "mark.common-practice";
}

std::string numbered(std::size_t index) {
  return fmt::format("[{}]", index + 1);
}

} // namespace

std::string SourceList::refer(const Source& source) {
  auto found = std::find(sources_.begin(), sources_.end(), source);
  if (found == sources_.end()) found = sources_.insert(sources_.end(), source);
  return numbered(static_cast<std::size_t>(found - sources_.begin()));
}

DocumentTable SourceList::table(const Composer& compose) const {
  DocumentTable out;
  out.title = compose.word("sources.title");
  out.head = {compose.word("sources.number"), compose.word("sources.source"), compose.word("sources.mark")};
  out.numeric = {false, false, false};
  for (std::size_t i = 0; i < sources_.size(); ++i)
    out.rows.push_back({numbered(i), cleaned(sources_[i].text), compose.word(mark_key(sources_[i].mark))});
  return out;
}

} // namespace tacksquare
