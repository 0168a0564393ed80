// The cut list: blanks to order, and every dimension of each.
#include "base/numbers.h"
#include "sheet/draw.h"
#include "sheet/plain_text.h"

#include <algorithm>
#include <map>

namespace tacksquare {

namespace {

constexpr std::size_t kFew = 9; // rows that need no columns side by side

// Of a kind of box: as many as are cut to the sizes of this list, are built, are cut last.
struct Pieces {
  int cut = 0, built = 0, last = 0;
};
Pieces pieces_of(const Plan& plan, const BoxPlan& box) {
  const StandFit* written_for = stand_of(plan.row, box.id);
  if (!plan.row || !written_for) {
    const int built = box.first_off && !plan.row ? 1 : 0;
    return {box.count - built, built, 0};
  }
  Pieces pieces;
  for (const StandFit& stand : plan.row->stands) {
    if (stand.box != box.id) continue;
    if (stand.measured)
      ++pieces.built;
    else if (stand.cut_last && &stand != written_for)
      ++pieces.last;
    else if (stand.target_mm == written_for->target_mm)
      ++pieces.cut;
  }
  return pieces;
}

class CutList {
 public:
  CutList(const Composer& compose, const Plan& plan, const BoxPlan& box)
      : compose_(compose), plan_(plan), box_(box), pieces_(pieces_of(plan, box)) {}

  DocumentPage make() const {
    DocumentPage page;
    page.title = compose_.line("plain", {word("text", box_.name.empty() ? box_.id : box_.name)});
    page.page = compose_.word("page.cutting");
    page.head = page_head(compose_, plan_);
    if (pieces_.cut > 1) page.head.push_back(compose_.line("cutting.times", {count("count", pieces_.cut)}));
    page.sections.push_back({{}, {}, {blanks()}, false});
    for (const FlatPattern& pattern : box_.patterns)
      page.sections.push_back(
          {{}, {draw_flat(compose_, pattern)}, {dimensions(pattern), corners(pattern)}, false});
    return page;
  }

 private:
  std::string size(double mm) const { return compose_.quantity(ArgKind::fine_mm, mm); }
  std::string bare(double mm) const { return compose_.bare(ArgKind::fine_mm, mm); }
  // Square metres or square feet: what sheet is bought in.
  std::string area(double mm2) const {
    constexpr double kMm2PerFt2 = 144.0 * kMmPerInch * kMmPerInch;
    return compose_.inch() ? fixed(mm2 / kMm2PerFt2, 2) + " ft2" : fixed(mm2 / 1e6, 3) + " m2";
  }
  static double sheet_mm2(const FlatPattern& pattern) { return pattern.length_mm * pattern.width_mm; }

  std::string metal_of(const std::string& sheet) const {
    for (const PlannedSheet& each : box_.sheets)
      if (each.id == sheet) return compose_.line("cutting.metal", {word("metal", each.metal)});
    return cleaned(sheet);
  }

  DocumentTable blanks() const {
    DocumentTable out;
    out.title = compose_.word("cutting.title");
    for (const char* key :
         {"cutting.part", "cutting.pieces", "cutting.size", "cutting.thickness", "cutting.metal-of",
          "cutting.tolerance", "cutting.bends", "cutting.mass", "cutting.sheet", "cutting.net"})
      out.head.push_back(compose_.word(key));
    out.numeric = {false, true, true, true, false, true, true, true, true, true};
    double mass_kg = 0.0, sheet = 0.0, net_mm2 = 0.0;
    const double boxes = pieces_.cut;
    for (const FlatPattern& pattern : box_.patterns) {
      out.rows.push_back(
          {cleaned(pattern.part), std::to_string(pieces_.cut),
           bare(pattern.length_mm) + compose_.word("draw.by") + size(pattern.width_mm),
           compose_.quantity(ArgKind::length_mm, pattern.thickness_mm, "calliper"), metal_of(pattern.sheet),
           compose_.line("cutting.within", {word("tolerance", size(pattern.tolerance_mm))}),
           std::to_string(pattern.bends.size()), compose_.quantity(ArgKind::mass_kg, pattern.mass_kg),
           area(sheet_mm2(pattern)), area(pattern.area_mm2)});
      mass_kg += pattern.mass_kg * boxes;
      sheet += sheet_mm2(pattern) * boxes;
      net_mm2 += pattern.area_mm2 * boxes;
    }
    out.sums = {out.rows.size()};
    out.rows.push_back({compose_.line("cutting.all", {count("count", boxes)}),
                        {},
                        {},
                        {},
                        {},
                        {},
                        {},
                        compose_.quantity(ArgKind::mass_kg, mass_kg),
                        area(sheet),
                        area(net_mm2)});
    out.below = {compose_.word("cutting.below"), compose_.word("cutting.shrinkage")};
    for (std::string& line : which())
      out.below.push_back(std::move(line));
    return out;
  }

  // Which of the boxes are cut like this, and when.
  std::vector<std::string> which() const {
    std::vector<std::string> out;
    if (pieces_.built > 0) out.push_back(compose_.line("cutting.built", {count("boxes", pieces_.built)}));
    if (box_.count > 1 && !box_.first_off) out.push_back(compose_.word("cutting.first"));
    if (pieces_.last > 0) out.push_back(compose_.word("cutting.last"));
    for (const Text& fact : box_.facts)
      if (fact.key.starts_with("fact.copy-")) out.push_back(compose_.text(fact));
    return out;
  }

  DocumentTable dimensions(const FlatPattern& pattern) const {
    DocumentTable out;
    out.title = compose_.line("cutting.dimensions",
                              {word("part", pattern.part), word("unit", compose_.unit(ArgKind::fine_mm))});
    out.head = {compose_.word("cutting.what"), compose_.word("cutting.mm")};
    out.numeric = {false, true};
    for (const FlatDimension& each : flat_dimensions(pattern)) {
      std::vector<Arg> args;
      if (!each.of.empty()) args.push_back(word("of", each.of));
      out.rows.push_back({compose_.line("flat." + each.key, std::move(args)), bare(each.mm)});
    }
    out.slim = out.rows.size() > kFew;
    if (!pattern.bends.empty()) out.below = {compose_.word("cutting.bend-line")};
    for (const FlatBend& bend : pattern.bends)
      if (bend.own_deduction) {
        out.below.push_back(compose_.word("cutting.own-deduction"));
        break;
      }
    return out;
  }

  DocumentTable corners(const FlatPattern& pattern) const {
    DocumentTable out;
    out.title = compose_.line("cutting.corners",
                              {word("part", pattern.part), word("unit", compose_.unit(ArgKind::fine_mm))});
    for (const char* key : {"cutting.corner", "cutting.x", "cutting.y"})
      out.head.push_back(compose_.word(key));
    out.numeric = {true, true, true};
    out.slim = pattern.outline.size() > kFew;
    for (std::size_t i = 0; i < pattern.outline.size(); ++i)
      out.rows.push_back({std::to_string(i + 1), bare(pattern.outline[i].x), bare(pattern.outline[i].y)});
    return out;
  }

  const Composer& compose_;
  const Plan& plan_;
  const BoxPlan& box_;
  Pieces pieces_;
};

} // namespace

DocumentPage compose_cut_list(const Composer& compose, const Plan& plan, const BoxPlan& box) {
  return CutList(compose, plan, box).make();
}

} // namespace tacksquare
