// The figures of the foreman's pages: what will be measured, every figure with its range, and the sources of
// both.
#include "plan/furthest.h"
#include "sheet/compose.h"
#include "sheet/plain_text.h"
#include "sheet/share.h"
#include "sheet/sources.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <set>
#include <tuple>

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

// Places whose figures differ by less than this share a row, which has the furthest of them.
constexpr double kAlike_mm = 0.06;

bool near(const Band& a, const Band& b) {
  return std::abs(a.value - b.value) < kAlike_mm && std::abs(a.low - b.low) < kAlike_mm &&
         std::abs(a.high - b.high) < kAlike_mm;
}

bool share_row(const PlannedMeasure& a, const PlannedMeasure& b) {
  const auto as_stated = [](const PlannedMeasure& m) {
    return std::tie(m.kind, m.gauge, m.nominal_mm, m.under_mm, m.over_mm, m.has_expected, m.bound_only,
                    m.formula_bound_only, m.limit_source.text, m.source.text);
  };
  return as_stated(a) == as_stated(b) && near(a.expected_mm, b.expected_mm) &&
         a.by_formula_mm.has_value() == b.by_formula_mm.has_value() &&
         (!a.by_formula_mm || near(*a.by_formula_mm, *b.by_formula_mm));
}

struct MeasureRow {
  PlannedMeasure first, told; // told: with the furthest figures of all places
  Strings wheres;
};

std::vector<MeasureRow> measure_rows(const Composer& compose, const BoxPlan& box) {
  std::vector<MeasureRow> rows;
  for (const PlannedMeasure& m : box.measures) {
    const auto same = std::find_if(rows.begin(), rows.end(), [&](const MeasureRow& row) {
      return share_row(row.first, m) && measure_name(compose, row.first) == measure_name(compose, m);
    });
    if (same == rows.end()) {
      rows.push_back({m, m, {m.where}});
      continue;
    }
    PlannedMeasure& told = same->told;
    told.expected_mm = furthest(told.expected_mm, m.expected_mm, m.nominal_mm);
    if (m.by_formula_mm) told.by_formula_mm = furthest(*told.by_formula_mm, *m.by_formula_mm, m.nominal_mm);
    told.chance_kept = std::min(told.chance_kept, m.chance_kept);
    same->wheres.push_back(m.where);
  }
  return rows;
}

DocumentTable measure_table(const Composer& compose, const BoxPlan& box, SourceList& sources) {
  DocumentTable out;
  out.title = compose.word("measures.title");
  for (const char* key : {"measures.what", "measures.gauge", "measures.limits", "measures.expected",
                          "measures.band", "measures.chance"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, false, true, true, true, true};
  const bool beside = box.elastic.has_value();
  if (beside) {
    out.head.push_back(compose.word("measures.formula"));
    out.numeric.push_back(true);
  }
  out.head.push_back(compose.word("measures.sources"));
  out.numeric.push_back(false);
  const std::string none = compose.word("figure.none");
  for (const MeasureRow& row : measure_rows(compose, box)) {
    const PlannedMeasure& m = row.told;
    std::string references = sources.refer(m.limit_source);
    std::optional<double> expected;
    if (m.has_expected) {
      references.append(" ").append(sources.refer(m.source));
      expected = m.expected_mm.value;
    }
    const double low_mm = m.nominal_mm - m.under_mm, high_mm = m.nominal_mm + m.over_mm;
    Strings cells = {
        compose.line("measures.at", {word("kind", measure_name(compose, m)),
                                     word("where", places(compose, box, row.wheres))}),
        compose.term("gauge.", m.gauge),
        compose.limits(low_mm, high_mm, compose.step(low_mm, high_mm, expected, m.gauge)),
        m.has_expected ? compose.quantity(ArgKind::fine_mm, m.expected_mm.value) : none,
        m.has_expected ? band_text(compose, ArgKind::fine_mm, m.expected_mm, m.bound_only) : none,
        m.has_expected && m.chance_kept >= 0.0 ? compose.quantity(ArgKind::chance, m.chance_kept) : none};
    if (beside)
      cells.push_back(m.by_formula_mm
                          ? band_text(compose, ArgKind::fine_mm, *m.by_formula_mm, m.formula_bound_only)
                          : none);
    cells.push_back(std::move(references));
    out.rows.push_back(std::move(cells));
  }
  out.below = {compose.word(beside ? "measures.below-elastic" : "measures.below")};
  if (beside && box.elastic->put_back_mm.size() == 3) {
    const std::vector<double>& mm = box.elastic->put_back_mm;
    out.below.push_back(compose.line("measures.put-back", {number("width", ArgKind::fine_mm, mm[0]),
                                                           number("depth", ArgKind::fine_mm, mm[1]),
                                                           number("height", ArgKind::fine_mm, mm[2])}));
  }
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
