// The figures of the foreman's pages: what will be measured, every figure with its range, and the sources of
// both.
#include "sheet/compose.h"
#include "sheet/plain_text.h"
#include "sheet/share.h"
#include "sheet/sources.h"

#include <algorithm>
#include <fmt/format.h>
#include <set>

namespace tacksquare {

namespace {

std::string band_text(const Composer& compose, ArgKind kind, const Band& band, bool bound_only) {
  const std::string range = compose.range(kind, band.low, band.high);
  return bound_only ? compose.line("figure.bounds", {word("range", range)}) : range;
}

// Sizes are told apart by their id: "height-3" is one of the heights.
std::string measure_name(const Composer& compose, const PlannedMeasure& measure) {
  return compose.term("measure.",
                      measure.kind == "width" ? measure.id.substr(0, measure.id.find('-')) : measure.kind);
}

using Strings = std::vector<std::string>;

DocumentTable measure_table(const Composer& compose, const BoxPlan& box, SourceList& sources) {
  DocumentTable out;
  out.title = compose.word("measures.title");
  for (const char* key : {"measures.what", "measures.gauge", "measures.limits", "measures.expected",
                          "measures.band", "measures.chance", "measures.sources"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, false, true, true, true, true, false};
  // Places with the same figures share a row.
  struct Row {
    std::string kind;
    Strings cells, wheres;
  };
  std::vector<Row> rows;
  const std::string none = compose.word("figure.none");
  for (const PlannedMeasure& measure : box.measures) {
    const std::string kind = measure_name(compose, measure);
    const bool expects = measure.has_expected;
    std::string references = sources.refer(measure.limit_source);
    if (expects) references.append(" ").append(sources.refer(measure.source));
    const double low_mm = measure.nominal_mm - measure.under_mm,
                 high_mm = measure.nominal_mm + measure.over_mm;
    std::optional<double> expected;
    if (expects) expected = measure.expected_mm.value;
    Strings cells = {
        compose.term("gauge.", measure.gauge),
        compose.limits(low_mm, high_mm, compose.step(low_mm, high_mm, expected, measure.gauge)),
        expects ? compose.quantity(ArgKind::fine_mm, measure.expected_mm.value) : none,
        expects ? band_text(compose, ArgKind::fine_mm, measure.expected_mm, measure.bound_only) : none,
        expects && measure.chance_kept >= 0.0 ? compose.quantity(ArgKind::chance, measure.chance_kept) : none,
        references};
    auto same = std::find_if(rows.begin(), rows.end(),
                             [&](const Row& row) { return row.kind == kind && row.cells == cells; });
    if (same == rows.end()) same = rows.insert(same, {kind, std::move(cells), {}});
    same->wheres.push_back(measure.where);
  }
  for (const Row& row : rows) {
    out.rows.push_back({compose.line(
        "measures.at", {word("kind", row.kind), word("where", places(compose, box, row.wheres))})});
    out.rows.back().insert(out.rows.back().end(), row.cells.begin(), row.cells.end());
  }
  out.below = {compose.word("measures.below")};
  return out;
}

// The numbers of the notes, which stand under the table, each once and in order: " 1) 2)".
std::string note_marks(const Strings& notes, Strings& below) {
  std::set<std::ptrdiff_t> numbers;
  for (const std::string& note : notes) {
    const auto same = std::find_if(below.begin(), below.end(), [&](const std::string& line) {
      return line.size() > note.size() && line.compare(line.size() - note.size(), note.size(), note) == 0;
    });
    const auto number = same - below.begin() + 1;
    if (same == below.end()) below.push_back(fmt::format("{}) {}", number, note));
    numbers.insert(number);
  }
  std::string out;
  for (const std::ptrdiff_t number : numbers)
    out += fmt::format(" {})", number);
  return out;
}

DocumentTable figure_table(const Composer& compose, const BoxPlan& box, SourceList& sources) {
  DocumentTable out;
  out.title = compose.word("figures.title");
  for (const char* key : {"figures.what", "figures.value", "figures.band", "figures.source"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, true, true, false};
  // Seams and parts with the same figures share a row.
  struct Row {
    SharedText what;
    std::string marks;
    Strings cells;
  };
  std::vector<Row> rows;
  for (const Figure& figure : box.figures) {
    const std::string marks = note_marks(compose.texts(figure.notes), out.below);
    Strings cells = {compose.quantity(figure.kind, figure.value.value),
                     figure.has_band ? band_text(compose, figure.kind, figure.value, figure.bound_only)
                                     : compose.word("figure.exact"),
                     sources.refer(figure.source)};
    const bool shared = std::any_of(rows.begin(), rows.end(), [&](Row& row) {
      return row.marks == marks && row.cells == cells && take_in(compose, row.what, figure.what);
    });
    if (!shared) rows.push_back({{figure.what, {}, {}}, marks, std::move(cells)});
  }
  for (const Row& row : rows) {
    out.rows.push_back({shared_text(compose, box, row.what) + row.marks});
    out.rows.back().insert(out.rows.back().end(), row.cells.begin(), row.cells.end());
  }
  return out;
}

} // namespace

std::vector<DocumentTable> figure_tables(const Composer& compose, const BoxPlan& box) {
  std::vector<DocumentTable> out;
  SourceList sources;
  if (!box.measures.empty()) out.push_back(measure_table(compose, box, sources));
  if (!box.figures.empty()) out.push_back(figure_table(compose, box, sources));
  if (!out.empty()) out.push_back(sources.table(compose));
  return out;
}

} // namespace tacksquare
