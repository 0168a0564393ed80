// The budget of the opening page: where the millimetres go.
#include "sheet/plain_text.h"
#include "sheet/row_names.h"
#include "sheet/row_page.h"

#include <algorithm>

namespace tacksquare {

namespace {

class Budget {
 public:
  Budget(const Composer& compose, const RowFit& row, SourceList& sources)
      : compose_(compose), row_(row), sources_(sources) {}

  DocumentTable make() {
    DocumentTable out;
    out.title = compose_.line("row.budget", {word("unit", compose_.unit(ArgKind::length_mm))});
    out.head = {
        compose_.word("row.cause"), compose_.word("row.average"),           compose_.word("row.worst"),
        compose_.word("row.rss"),   compose_.line("row.share", {wanted()}), compose_.word("row.source")};
    out.numeric = {false, true, true, true, true, false};
    const double free_mm = add_ladder(out);
    double middle = 0.0, share = 0.0;
    for (const BudgetLine& line : row_.budget) {
      out.rows.push_back({compose_.term("cause.", line.key), bare(line.middle_mm),
                          bare(line.middle_mm + line.worst_mm), bare(line.middle_mm + line.rss_mm),
                          bare(line.share_mm), sources_.refer(line.source)});
      middle += line.middle_mm;
      share += line.share_mm;
    }
    add_sum(out, {compose_.word("row.together"),
                  bare(middle),
                  bare(free_mm - row_.worst.left_mm),
                  bare(free_mm - row_.rss.left_mm),
                  bare(share),
                  {}});
    add_sum(out, {compose_.word("row.left"),
                  bare(free_mm - middle),
                  bare(row_.worst.left_mm),
                  bare(row_.rss.left_mm),
                  bare(row_.drawn.left_mm),
                  {}});
    if (any_gives_way())
      add_sum(out, {target_label(), {}, target(row_.worst), target(row_.rss), target(row_.drawn), {}});
    if (any_gives_way())
      out.below = {
          compose_.line("row.rule", {term("rule", rule_key()), word("hand", most(row_.stated_target_mm))})};
    return out;
  }

 private:
  std::string bare(double mm) const { return compose_.bare(ArgKind::fine_mm, mm); }
  std::string most(double mm) const { return set_to(compose_, mm, Rounding::down); }
  Arg wanted() const { return word("wanted", wanted_in_hundred(row_)); }

  void add(DocumentTable& out, const std::string& what, const std::string& value) const {
    out.rows.push_back({what, value, {}, {}, {}, {}});
  }
  void add_sum(DocumentTable& out, std::vector<std::string> row) const {
    out.sums.push_back(out.rows.size());
    out.rows.push_back(std::move(row));
  }
  std::string minus(double mm) const { return bare(-mm); }

  static bool gives_way(const StandFit& stand) { return !stand.measured && !stand.keeps_size; }
  bool any_gives_way() const { return std::any_of(row_.stands.begin(), row_.stands.end(), gives_way); }
  std::string target(const Reckoned& way) const {
    return way.target_mm > 0.0 ? bare(way.target_mm) : compose_.word("row.none-good");
  }
  // Where boxes of several sizes stand, the size is that of the first which gives way.
  std::string target_label() const {
    const auto first = std::find_if(row_.stands.begin(), row_.stands.end(), gives_way);
    const bool alike = std::all_of(first, row_.stands.end(), [&](const StandFit& stand) {
      return !gives_way(stand) || stand.nominal_mm == first->nominal_mm;
    });
    if (alike) return compose_.word("row.target");
    return compose_.line("row.target-of",
                         {count("place", static_cast<double>(first - row_.stands.begin() + 1))});
  }

  // From the opening down to what is left for all causes; returns that.
  double add_ladder(DocumentTable& out) const {
    const ClearSize& clear = row_.clear.width;
    add(out, compose_.line("row.narrowest", {word("at", place_in_opening(compose_, clear.at))}),
        bare(clear.narrowest_mm));
    if (clear.lost_to_plumb_mm != 0.0)
      add(out, compose_.word("row.lost-plumb"), minus(clear.lost_to_plumb_mm));
    if (clear.lost_to_obstacles_mm != 0.0)
      add(out, compose_.line("row.lost-obstacles", {words("names", clear.obstacles)}),
          minus(clear.lost_to_obstacles_mm));
    if (out.rows.size() > 1) add_sum(out, {compose_.word("row.clear"), bare(clear.mm), {}, {}, {}, {}});
    double drawn = 0.0, measured = 0.0, gaps = 0.0, count_drawn = 0.0;
    for (const StandFit& stand : row_.stands) {
      (stand.measured ? measured : drawn) += stand.measured ? stand.target_mm : stand.nominal_mm;
      count_drawn += stand.measured ? 0.0 : 1.0;
      gaps += stand.gap_mm;
    }
    const double count_measured = static_cast<double>(row_.stands.size()) - count_drawn;
    if (count_measured > 0.0)
      add(out, compose_.line("row.boxes-measured", {count("stands", count_measured)}), minus(measured));
    if (count_drawn > 0.0) add(out, compose_.line("row.boxes", {count("stands", count_drawn)}), minus(drawn));
    if (gaps != 0.0) add(out, compose_.word("row.gaps"), minus(gaps));
    if (row_.clearance_mm != 0.0) add(out, compose_.word("row.clearance"), minus(row_.clearance_mm));
    const double free_mm = clear.mm - drawn - measured - gaps - row_.clearance_mm;
    add_sum(out, {compose_.word("row.free"), bare(free_mm), {}, {}, {}, {}});
    return free_mm;
  }

  std::string rule_key() const {
    switch (row_.by) {
    case TargetRule::worst_case:
      return "row.by-worst-case";
    case TargetRule::root_sum_square:
      return "row.by-root-sum-square";
    case TargetRule::chance:
      break;
    }
    return "row.by-chance";
  }

  const Composer& compose_;
  const RowFit& row_;
  SourceList& sources_;
};

} // namespace

DocumentTable row_budget(const Composer& compose, const RowFit& row, SourceList& sources) {
  return Budget(compose, row, sources).make();
}

DocumentTable row_each(const Composer& compose, const Plan& plan) {
  const RowFit& row = *plan.row;
  DocumentTable out;
  out.title = compose.word("row.each");
  out.head = {compose.word("row.place"), compose.word("row.worst"), compose.word("row.rss"),
              compose.line("row.share", {word("wanted", wanted_in_hundred(row))}),
              compose.word("row.dearest")};
  out.numeric = {true, true, true, true, false};
  std::vector<std::vector<std::size_t>> places; // boxes with the same figures share a row
  for (std::size_t i = 0; i < row.stands.size(); ++i) {
    const StandFit& stand = row.stands[i];
    if (stand.measured) continue;
    const auto size = [&](double mm) { return compose.quantity(ArgKind::fine_mm, mm); };
    const std::vector<std::string> cells = {{},
                                            size(stand.worst_mm),
                                            size(stand.rss_mm),
                                            size(stand.drawn_mm),
                                            compose.term("cause.", stand.dearest)};
    const auto same =
        std::find_if(out.rows.begin(), out.rows.end(), [&](const std::vector<std::string>& other) {
          return std::equal(cells.begin() + 1, cells.end(), other.begin() + 1);
        });
    if (same == out.rows.end()) {
      out.rows.push_back(cells);
      places.push_back({i + 1});
    } else {
      places[static_cast<std::size_t>(same - out.rows.begin())].push_back(i + 1);
    }
  }
  for (std::size_t i = 0; i < out.rows.size(); ++i)
    out.rows[i][0] = numbers(compose, places[i]);
  return out;
}

} // namespace tacksquare
