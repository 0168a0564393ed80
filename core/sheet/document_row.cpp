// The foreman's opening page: what the opening leaves, where the width goes, the chance, and the sizes to
// make.
#include "sheet/draw.h"
#include "sheet/plain_text.h"
#include "sheet/row_names.h"
#include "sheet/sources.h"

#include <algorithm>
#include <cmath>
#include <numeric>

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

// Bars and gauges of the row are set with a calliper.
constexpr const char* kSetWith = "gap-gauge";

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
    page.sections.push_back({{{}, glance(), false}, {draw_row(compose_, plan_)}, {budget(), stands()}, true});
    page.sections.push_back({{compose_.word("row.last"), last(), false}, {}, {}, true});
    for (DocumentBlock& block : blocks())
      page.sections.push_back({std::move(block), {}, {}, false});
    page.sections.push_back({{}, {}, {sources_.table(compose_)}, false});
    return page;
  }

 private:
  std::string fine(double mm) const { return compose_.quantity(ArgKind::fine_mm, mm); }
  std::string bare(double mm) const { return compose_.bare(ArgKind::fine_mm, mm); }
  std::string most(double mm) const {
    return compose_.quantity(ArgKind::length_mm, mm, kSetWith, Rounding::down);
  }
  std::string least(double mm) const {
    return compose_.quantity(ArgKind::length_mm, mm, kSetWith, Rounding::up);
  }

  Arg wanted() const { return number("wanted", ArgKind::ratio, row_.wanted_chance * 100.0); }

  std::vector<std::string> red() const {
    if (row_.fits_never) return {compose_.line("row.never", {word("opening", row_.name)})};
    if (row_.as_aimed.value < 0.5)
      return {
          compose_.line("row.more-likely-not", {word("count", compose_.in_hundred(row_.as_aimed.value))})};
    return {};
  }

  // What to make, and the chance: read first.
  std::vector<std::string> glance() const {
    if (row_.stands.empty()) return {};
    std::vector<std::string> sizes;
    std::vector<std::vector<std::size_t>> places;
    for (std::size_t i = 0; i < row_.stands.size(); ++i) {
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
    return {sizes.size() == 1 ? compose_.line("row.make-all", {word("size", sizes.front())})
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

  void add(DocumentTable& out, const std::string& what, const std::string& value) const {
    out.rows.push_back({what, value, {}, {}, {}, {}});
  }
  void add_sum(DocumentTable& out, std::vector<std::string> row) const {
    out.sums.push_back(out.rows.size());
    out.rows.push_back(std::move(row));
  }
  std::string minus(double mm) const { return bare(-mm); }

  DocumentTable budget() {
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
    add_sum(out, {target_label(),
                  {},
                  bare(row_.worst.target_mm),
                  bare(row_.rss.target_mm),
                  bare(row_.drawn.target_mm),
                  {}});
    out.below = {
        compose_.line("row.rule", {term("rule", rule_key()), word("hand", most(row_.stated_target_mm))})};
    return out;
  }

  // Where boxes of several sizes stand, the size is that of the first which gives way.
  std::string target_label() const {
    const auto gives_way = [](const StandFit& stand) { return !stand.measured && !stand.keeps_size; };
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

  std::vector<DocumentBlock> blocks() const {
    return {{compose_.word("row.nesting"), nesting(), false},
            {compose_.word("row.flush"), flush(), false},
            {compose_.word("row.entry"), entry(), false},
            {compose_.word("row.rest"), rest(), false},
            {compose_.word("row.reading"), reading(), false}};
  }

  // How to read the page.
  std::vector<std::string> reading() const {
    return {compose_.word("row.gauge-how"), compose_.word("row.left-how"), compose_.word("row.rss-how"),
            compose_.line("row.draws-how", {count("draws", static_cast<double>(row_.as_aimed.draws))})};
  }

  // "1200.6 - ____ - ____ = ____": so that it comes to last_mm when the others come out as expected.
  std::vector<std::string> last() const {
    const auto cut = std::find_if(row_.stands.begin(), row_.stands.end(),
                                  [](const StandFit& stand) { return stand.cut_last && !stand.measured; });
    if (cut == row_.stands.end() || !row_.last_mm) return {};
    double all_mm = *row_.last_mm;
    std::string blanks;
    for (const StandFit& stand : row_.stands) {
      if (&stand == &*cut) continue;
      all_mm += stand.measured ? stand.target_mm : stand.width_mm.value;
      blanks += " - ";
      blanks += stand.measured ? bare(stand.target_mm) : "____";
    }
    const auto place = static_cast<double>(cut - row_.stands.begin() + 1);
    const auto others = places_where(
        compose_, row_, [&](const StandFit& stand) { return &stand != &*cut && !stand.measured; });
    std::vector<std::string> out = {
        compose_.line("row.last-line", {count("place", place), word("sum", bare(all_mm) + blanks),
                                        word("unit", compose_.unit(ArgKind::length_mm))})};
    if (!others.empty())
      out.push_back(
          compose_.line("row.last-how", {word("others", others), word("aimed", most(*row_.last_mm))}));
    return out;
  }

  std::vector<std::string> nesting() const {
    if (row_.nested.empty()) return {};
    std::vector<std::string> order;
    for (const std::size_t place : row_.nested)
      order.push_back(std::to_string(place + 1));
    std::vector<std::size_t> listed(row_.stands.size());
    std::iota(listed.begin(), listed.end(), std::size_t{0});
    if (row_.nested == listed)
      return {compose_.line("row.nested-as-listed", {word("row", fine(row_.as_listed_row_mm))})};
    return {compose_.line("row.nested",
                          {word("order", comma_joined(order)), word("row", fine(row_.nested_row_mm)),
                           word("listed", fine(row_.as_listed_row_mm))})};
  }

  std::vector<std::string> flush() const {
    std::vector<MustBeFlush> told;
    std::vector<std::vector<std::string>> wheres;
    for (const MustBeFlush& each : row_.flush) {
      const auto same = std::find_if(told.begin(), told.end(), [&](const MustBeFlush& other) {
        return other.box == each.box && other.what == each.what && other.side == each.side &&
               fine(other.proud_mm) == fine(each.proud_mm);
      });
      if (same == told.end()) {
        told.push_back(each);
        wheres.push_back({each.where});
      } else {
        wheres[static_cast<std::size_t>(same - told.begin())].push_back(each.where);
      }
    }
    std::vector<std::string> out;
    for (std::size_t i = 0; i < told.size(); ++i)
      out.push_back(compose_.line("row." + told[i].what,
                                  {word("box", kind_name(plan_, told[i].box)), words("where", wheres[i]),
                                   word("side", told[i].side), word("proud", fine(told[i].proud_mm))}));
    return out;
  }

  std::vector<std::string> entry() const {
    std::vector<std::string> out, told;
    for (const StandFit& stand : row_.stands) {
      const auto way = [&](const StandFit& each) {
        return each.entry == "tip" ? compose_.quantity(ArgKind::length_mm, each.sweep_mm) : each.entry;
      };
      if (std::find(told.begin(), told.end(), way(stand)) != told.end()) continue;
      told.push_back(way(stand));
      std::vector<Arg> args{word("places", places_where(compose_, row_, [&](const StandFit& other) {
                                   return way(other) == way(stand);
                                 }))};
      if (stand.entry == "tip") args.push_back(word("sweep", way(stand)));
      out.push_back(compose_.line("row.entry." + stand.entry, std::move(args)));
    }
    return out;
  }

  // Height, depth and the packer.
  std::vector<std::string> rest() const {
    std::vector<std::string> out;
    const auto size = [&](const char* key, const std::optional<ClearSize>& clear,
                          const std::optional<Chance>& fits) {
      if (!clear) return;
      const std::string at = place_in_opening(compose_, clear->at);
      out.push_back(compose_.line(key, {word("clear", fine(clear->mm)), word("at", at)}));
      if (fits)
        out.back() += " " + compose_.line("row.each-fits", {word("count", compose_.in_hundred(*fits))});
    };
    size("row.height", row_.clear.height, row_.height);
    size("row.depth", row_.clear.depth, row_.depth);
    if (row_.packer_mm > 0.0)
      out.push_back(compose_.line("row.packer", {word("packer", fine(row_.packer_mm))}));
    return out;
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
