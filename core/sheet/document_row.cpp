// The foreman's opening page: what the opening leaves, where the width goes, the chance, and the sizes to
// make.
#include "sheet/draw.h"
#include "sheet/plain_text.h"
#include "sheet/row_names.h"
#include "sheet/row_page.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

std::string kind_name(const Plan& plan, const std::string& box) {
  for (const BoxPlan& each : plan.boxes)
    if (each.id == box) return cleaned(each.name.empty() ? each.id : each.name);
  return cleaned(box);
}

std::string numbers(const Composer& compose, const std::vector<std::size_t>& places) {
  std::vector<std::string> said;
  for (std::size_t i = 0; i < places.size();) {
    std::size_t length = 1;
    while (i + length < places.size() && places[i + length] == places[i] + length)
      ++length;
    if (length < 3) length = 1;
    const std::string first = std::to_string(places[i]);
    said.push_back(length == 1 ? first
                               : first + compose.word("range.to") + std::to_string(places[i + length - 1]));
    i += length;
  }
  return said.empty() ? std::string() : compose.line("seams", {words("seams", said)});
}

std::string place_in_opening(const Composer& compose, const std::string& at) {
  std::vector<std::string> parts;
  for (std::size_t from = 0; from <= at.size();) {
    const std::size_t end = std::min(at.find('-', from), at.size());
    parts.push_back(compose.term("opening.at.", at.substr(from, end - from)));
    from = end + 1;
  }
  return comma_joined(parts);
}

namespace {

class RowPage {
 public:
  RowPage(const Composer& compose, const Plan& plan) : compose_(compose), plan_(plan), row_(*plan.row) {}

  DocumentPage make() {
    DocumentPage page;
    page.title = cleaned(row_.name);
    page.page = compose_.word("page.row");
    page.head = page_head(compose_, plan_);
    page.head.push_back(
        compose_.line("row.count", {count("stands", static_cast<double>(row_.stands.size()))}));
    page.red = red();
    page.sections.push_back({{{}, glance(), false},
                             {draw_row(compose_, plan_)},
                             {row_budget(compose_, row_, sources_), stands(), row_each(compose_, plan_)},
                             true});
    page.sections.push_back({{compose_.word("row.last"), row_cut_last(compose_, row_), false}, {}, {}, true});
    for (DocumentBlock& block : row_blocks(compose_, plan_))
      page.sections.push_back({std::move(block), {}, {}, false});
    page.sections.push_back({{}, {}, {sources_.table(compose_)}, false});
    return page;
  }

 private:
  std::string fine(double mm) const { return compose_.quantity(ArgKind::fine_mm, mm); }
  std::string most(double mm) const { return set_to(compose_, mm, Rounding::down); }
  std::string least(double mm) const { return set_to(compose_, mm, Rounding::up); }
  Arg wanted() const { return word("wanted", wanted_in_hundred(row_)); }

  std::vector<std::string> red() const {
    for (const BoxPlan& box : plan_.boxes)
      if (box.first_off && box.first_off->release == Release::hold)
        return {compose_.line("row.held", {word("name", kind_name(plan_, box.id))})};
    if (row_.fits_never) return {compose_.line("row.never", {word("opening", row_.name)})};
    if (row_.as_aimed.value < 0.5)
      return {
          compose_.line("row.more-likely-not", {word("count", compose_.in_hundred(row_.as_aimed.value))})};
    for (const auto& [chance, key] : {std::pair{&row_.height, "row.too-high"}, {&row_.depth, "row.too-deep"}})
      if (*chance && (*chance)->value < 0.5) return {compose_.word(key)};
    return {};
  }

  // What to make, and the chance: read first.
  std::vector<std::string> glance() const {
    if (row_.stands.empty()) return {};
    std::vector<std::string> sizes;
    std::vector<std::vector<std::size_t>> places;
    for (std::size_t i = 0; i < row_.stands.size(); ++i) {
      if (row_.stands[i].measured) continue;
      const std::string size = most(row_.stands[i].target_mm);
      const auto same = std::find(sizes.begin(), sizes.end(), size) - sizes.begin();
      if (same == static_cast<std::ptrdiff_t>(sizes.size())) {
        sizes.push_back(size);
        places.emplace_back();
      }
      places[static_cast<std::size_t>(same)].push_back(i + 1);
    }
    std::vector<Text> each;
    for (std::size_t i = 0; i < sizes.size(); ++i)
      each.push_back(
          {"row.make-one", {word("places", numbers(compose_, places[i])), word("size", sizes[i])}});
    const bool all_alike = sizes.size() == 1 && places.front().size() == row_.stands.size();
    if (sizes.empty())
      return {compose_.line("row.all-built", {word("count", compose_.in_hundred(row_.as_aimed)), wanted()})};
    return {all_alike ? compose_.line("row.make-all", {word("size", sizes.front())})
                      : compose_.line("row.make-each", {list("each", std::move(each))}),
            compose_.line("row.chance-stated", {word("count", compose_.in_hundred(row_.as_stated))}),
            compose_.line("row.chance-aimed", {word("count", compose_.in_hundred(row_.as_aimed)), wanted()})};
  }

  DocumentTable stands() const {
    struct Column {
      const char* key;
      bool numeric;
      std::vector<std::string> cells;
    };
    std::vector<Column> columns{
        {"row.place", true, {}},    {"row.box", false, {}},  {"row.drawn", true, {}},
        {"row.make-it", true, {}},  {"row.gauge", true, {}}, {"row.smallest", true, {}},
        {"row.expected", true, {}}, {"row.gap", true, {}},   {"row.note", false, {}}};
    bool gaps = false, notes = false;
    for (std::size_t i = 0; i < row_.stands.size(); ++i) {
      const StandFit& stand = row_.stands[i];
      const std::string cells[] = {
          std::to_string(i + 1),
          compose_.line("row.copy", {word("name", kind_name(plan_, stand.box)), count("copy", stand.copy)}),
          compose_.quantity(ArgKind::length_mm, stand.nominal_mm),
          most(stand.target_mm),
          most(stand.largest_mm),
          least(stand.smallest_mm),
          compose_.range(ArgKind::length_mm, stand.width_mm.low, stand.width_mm.high, kSetWith),
          compose_.quantity(ArgKind::length_mm, stand.gap_mm),
          note(stand)};
      for (std::size_t c = 0; c < columns.size(); ++c)
        columns[c].cells.push_back(cells[c]);
      gaps = gaps || stand.gap_mm > 0.0;
      notes = notes || !columns.back().cells.back().empty();
    }
    if (!notes) columns.pop_back();
    if (!gaps) columns.erase(columns.begin() + 7);
    DocumentTable out;
    out.title = compose_.word("row.stands");
    out.rows.resize(row_.stands.size());
    for (const Column& column : columns) {
      out.head.push_back(compose_.word(column.key));
      out.numeric.push_back(column.numeric);
      for (std::size_t i = 0; i < out.rows.size(); ++i)
        out.rows[i].push_back(column.cells[i]);
    }
    out.below = {compose_.line("row.go-stick", {word("stick", least(row_.go_stick_mm))})};
    if (row_.go_stick_height_mm)
      out.below.push_back(
          compose_.line("row.go-stick-height", {word("stick", least(*row_.go_stick_height_mm))}));
    return out;
  }

  std::string note(const StandFit& stand) const {
    std::vector<std::string> parts;
    if (stand.cut_last) parts.push_back(compose_.word("row.note.cut-last"));
    if (stand.measured) parts.push_back(compose_.word("row.note.measured"));
    if (stand.keeps_size && !stand.measured) parts.push_back(compose_.word("row.note.keeps-size"));
    if (stand.overhang_mm > 0.0)
      parts.push_back(compose_.line("row.note.overhang", {word("by", fine(stand.overhang_mm))}));
    if (stand.rack_mm && *stand.rack_mm != 0.0)
      parts.push_back(compose_.line(*stand.rack_mm > 0.0 ? "row.note.leans-right" : "row.note.leans-left",
                                    {word("by", fine(std::abs(*stand.rack_mm)))}));
    return comma_joined(parts);
  }

  const Composer& compose_;
  const Plan& plan_;
  const RowFit& row_;
  SourceList sources_;
};

} // namespace

DocumentPage compose_row(const Composer& compose, const Plan& plan) {
  return RowPage(compose, plan).make();
}

} // namespace tacksquare
