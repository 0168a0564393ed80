// What stands below the budget on the opening page.
#include "base/numbers.h"
#include "sheet/plain_text.h"
#include "sheet/row_names.h"
#include "sheet/row_page.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace tacksquare {

namespace {

constexpr double kSeen_mm = 0.05; // what no tape tells is no reason to change places

class Blocks {
 public:
  Blocks(const Composer& compose, const Plan& plan) : compose_(compose), plan_(plan), row_(*plan.row) {}

  std::vector<DocumentBlock> all() const {
    return {{compose_.word("row.nesting"), nesting(), false},
            {compose_.word("row.flush"), flush(), false},
            {compose_.word("row.entry"), entry(), false},
            {compose_.word("row.rest"), rest(), false},
            {compose_.word("row.reading"), reading(), false}};
  }

 private:
  std::string fine(double mm) const { return compose_.quantity(ArgKind::fine_mm, mm); }

  // How to read the page.
  std::vector<std::string> reading() const {
    return {compose_.word("row.gauge-how"), compose_.word("row.over-gauge"), compose_.word("row.left-how"),
            compose_.word("row.rss-how"),
            compose_.line("row.draws-how", {count("draws", static_cast<double>(row_.as_aimed.draws))})};
  }

  std::vector<std::string> nesting() const {
    if (row_.nested.empty()) return {};
    std::vector<std::string> order;
    for (const std::size_t place : row_.nested)
      order.push_back(std::to_string(place + 1));
    std::vector<std::size_t> listed(row_.stands.size());
    std::iota(listed.begin(), listed.end(), std::size_t{0});
    if (row_.nested == listed || row_.nested_row_mm > row_.as_listed_row_mm - kSeen_mm)
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
      if (stand.lean_deg)
        out.back().append(1, ' ').append(
            compose_.line("row.entry.lean", {number("lean", ArgKind::angle_deg, *stand.lean_deg)}));
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
        out.back().append(1, ' ').append(
            compose_.line("row.each-fits", {word("count", compose_.in_hundred(*fits))}));
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
};

} // namespace

std::vector<DocumentBlock> row_blocks(const Composer& compose, const Plan& plan) {
  return Blocks(compose, plan).all();
}

// "1200.6 - ____ - ____ = ____": so that it comes to last_mm when the others come out as expected.
std::vector<std::string> row_cut_last(const Composer& compose, const RowFit& row) {
  const auto cut = std::find_if(row.stands.begin(), row.stands.end(),
                                [](const StandFit& stand) { return stand.cut_last && !stand.measured; });
  if (cut == row.stands.end() || !row.last_mm) return {};
  const auto bare = [&](double mm) { return compose.bare(ArgKind::fine_mm, mm); };
  double all_mm = *row.last_mm;
  std::string blanks;
  for (const StandFit& stand : row.stands) {
    if (&stand == &*cut) continue;
    all_mm += stand.measured ? stand.target_mm : stand.width_mm.value;
    blanks += " - ";
    blanks += stand.measured ? bare(stand.target_mm) : "____";
  }
  const Arg unit = word("unit", compose.unit(ArgKind::length_mm)),
            place = count("place", static_cast<double>(cut - row.stands.begin() + 1)),
            aimed = word("aimed", set_to(compose, *row.last_mm, Rounding::down));
  const std::string others =
      places_where(compose, row, [&](const StandFit& stand) { return &stand != &*cut && !stand.measured; });
  std::vector<std::string> out;
  if (others.empty()) {
    out.push_back(compose.line("row.last-known", {place, word("sum", bare(all_mm) + blanks), aimed}));
  } else {
    out.push_back(compose.line("row.last-line", {place, word("sum", bare(all_mm) + blanks), unit}));
    out.push_back(compose.line("row.last-how", {word("others", others), aimed}));
  }
  if (*row.last_mm > cut->nominal_mm)
    out.push_back(compose.line("row.last-most",
                               {word("drawn", compose.quantity(ArgKind::length_mm, cut->nominal_mm))}));
  return out;
}

std::string wanted_in_hundred(const RowFit& row) {
  std::string said = fixed(row.wanted_chance * 100.0, 2);
  while (said.back() == '0')
    said.pop_back();
  if (said.back() == '.') said.pop_back();
  return said;
}

} // namespace tacksquare
