// The set-up card: what to get first, where each piece stands on the table, and how to check that it does.
#include "base/numbers.h"
#include "sheet/draw.h"
#include "sheet/plain_text.h"
#include "tables/practice.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare {

namespace {

// What a rule reads up to 600 mm, beyond that a tape.
const char* gauge_for(double mm) {
  constexpr double kRule_mm = 600.0;
  return mm > kRule_mm ? "tape" : "steel-rule";
}

// A triangle of 3, 4 and 5 that fits, in round figures: the legs along x and y, and the long side. Lies as
// the larger one would.
struct Triangle {
  double along_x = 0.0, along_y = 0.0, across = 0.0;
};
Triangle triangle_in(double x_mm, double y_mm, bool inch) {
  const double unit_mm = inch ? kMmPerInch : 10.0, round_mm = inch ? 2.0 * kMmPerInch : 100.0;
  const double wide_mm = std::min(x_mm / 4.0, y_mm / 3.0), deep_mm = std::min(x_mm / 3.0, y_mm / 4.0);
  const double most_mm = std::max(wide_mm, deep_mm);
  const double step_mm = most_mm >= round_mm ? round_mm : unit_mm;
  const double part_mm = step_mm * std::max(1.0, std::floor(most_mm / step_mm + 1e-9));
  return wide_mm >= deep_mm ? Triangle{4.0 * part_mm, 3.0 * part_mm, 5.0 * part_mm}
                            : Triangle{3.0 * part_mm, 4.0 * part_mm, 5.0 * part_mm};
}

class SetUp {
 public:
  SetUp(const Composer& compose, const Plan& plan, const BoxPlan& box)
      : compose_(compose), plan_(plan), box_(box), fixture_(*box.fixture) {}

  DocumentPage make() const {
    DocumentPage page;
    page.title = compose_.line("plain", {word("text", box_.name.empty() ? box_.id : box_.name)});
    page.page = compose_.word("page.fixture");
    page.head = page_head(compose_, plan_);
    page.head.push_back(compose_.line("fixture.head", {word("name", fixture_.name)}));
    page.red_title = compose_.word("fixture.get-first");
    for (const BillLine& line : fixture_.bill)
      if (line.owned && *line.owned < line.wanted)
        page.red.push_back(compose_.line("fixture.missing",
                                         {word("line", bill_text(compose_, line, line.wanted - *line.owned)),
                                          count("wanted", line.wanted), count("owned", *line.owned)}));
    DocumentSection lies, stand, early, look;
    lies.block.lines = how_it_lies();
    lies.large = true;
    stand.drawings = draw_fixture_walls(compose_, box_);
    stand.drawings.insert(stand.drawings.begin(), draw_fixture(compose_, box_));
    stand.tables = {table()};
    look.block = {compose_.word("fixture.check"), checks(), false};
    early.block = {compose_.word("fixture.early"), leaving(), false};
    page.sections = {std::move(lies), std::move(stand), std::move(early), std::move(look)};
    return page;
  }

 private:
  std::string size(double mm) const { return compose_.quantity(ArgKind::length_mm, mm, gauge_for(mm)); }

  // Where 0 is when the box lies in the middle of the table.
  Vec2 zero_on(Vec2 table) const {
    return {std::max(0.0, 0.5 * (table.x - fixture_.size_mm.x)),
            std::max(0.0, 0.5 * (table.y - fixture_.size_mm.y))};
  }

  std::vector<std::string> how_it_lies() const {
    const Arg long_side = word("long", fixture_.long_side), short_side = word("short", fixture_.short_side);
    std::vector<std::string> out;
    if (fixture_.short_side.empty())
      out.push_back(compose_.line("fixture.lies-free", {word("down", fixture_.down)}));
    else if (fixture_.down == "rim")
      out.push_back(compose_.line("fixture.lies-rim", {long_side, short_side}));
    else
      out.push_back(compose_.line("fixture.lies", {word("down", fixture_.down), long_side, short_side}));
    out.push_back(compose_.line("fixture.zero", {long_side}));
    if (fixture_.table_mm) {
      const Vec2 table = *fixture_.table_mm, zero = zero_on(table);
      out.push_back(compose_.line("fixture.on-table", {length("width", table.x), length("depth", table.y),
                                                       length("left", zero.x), length("front", zero.y)}));
    }
    return out;
  }

  std::string what(const PlannedPiece& piece) const {
    const Arg kind = word("what", compose_.term("fixture.kind.", piece.kind));
    if (piece.kind == "former") {
      std::vector<Arg> args{kind, word("width", size(piece.width_mm)), word("height", size(piece.height_mm))};
      if (!(piece.clip_mm > 0.0)) return compose_.line("fixture.frame", std::move(args));
      args.push_back(word("clip", size(piece.clip_mm)));
      return compose_.line("fixture.frame-cut", std::move(args));
    }
    if (piece.kind == "square" && piece.size_mm > 0.0)
      return compose_.line("fixture.of-arms", {kind, word("size", size(piece.size_mm))});
    if (piece.kind == "backing-bar" && piece.size_mm > 0.0)
      return compose_.line("fixture.of-width", {kind, word("width", size(piece.size_mm))});
    if (piece.kind == "spreader" && piece.table.size() == 2)
      return compose_.line("fixture.of-length",
                           {kind, word("length", size(norm(piece.table[1] - piece.table[0])))});
    return kind.word;
  }

  std::string against(const PlannedPiece& piece) const {
    if (!piece.seam.empty())
      return compose_.line("fixture.behind",
                           {word("seam", piece.seam), word("from", compose_.place(piece.from_mm)),
                            word("to", compose_.place(piece.to_mm))});
    const std::string faces = comma_joined(cleaned_all(piece.faces));
    if (piece.kind == "former") return compose_.line("fixture.inside", {word("faces", faces)});
    if (piece.kind == "square" || piece.kind == "corner-clamp")
      return compose_.line("fixture.corner", {word("faces", faces)});
    return faces;
  }

  static std::vector<std::string> cleaned_all(std::vector<std::string> ids) {
    for (std::string& id : ids)
      id = cleaned(id);
    return ids;
  }

  // From the one end to the other, where they differ.
  std::string place(const PlannedPiece& piece, double Vec3::*axis) const {
    if (piece.table.empty()) return compose_.word("figure.none");
    const std::string first = compose_.place(piece.table.front().*axis),
                      last = compose_.place(piece.table.back().*axis);
    return first == last ? first : first + compose_.word("range.to") + last;
  }

  DocumentTable table() const {
    DocumentTable out;
    out.title = compose_.line("fixture.table", {word("unit", compose_.unit(ArgKind::length_mm))});
    for (const char* key : {"fixture.id", "fixture.what", "fixture.against", "fixture.x", "fixture.y",
                            "fixture.z", "fixture.presses", "fixture.set"})
      out.head.push_back(compose_.word(key));
    out.numeric = {false, false, false, true, true, true, true, false};
    out.large = true;
    const std::string none = compose_.word("figure.none");
    for (const PlannedPiece& piece : fixture_.pieces) {
      const bool frame = piece.kind == "former"; // it fills the box: only its level is set
      out.rows.push_back(
          {cleaned(piece.id), what(piece), against(piece), frame ? none : place(piece, &Vec3::x),
           frame ? none : place(piece, &Vec3::y), place(piece, &Vec3::z),
           piece.force_N > 0.0 ? compose_.quantity(ArgKind::force_N, piece.force_N) : none, "[ ]"});
    }
    return out;
  }

  // Pieces that go for the same reason before the same weld share a line.
  std::vector<std::string> leaving() const {
    std::vector<std::string> out;
    for (const Step& step : box_.steps) {
      if (step.off.empty() || step.phase >= Phase::release) continue;
      const auto first =
          std::find_if(fixture_.pieces.begin(), fixture_.pieces.end(),
                       [&](const PlannedPiece& piece) { return piece.id == step.off.front(); });
      const bool way = first != fixture_.pieces.end() && !first->leaves.empty();
      out.push_back(
          compose_.line("fixture.leaves", {words("pieces", step.off), count("step", step.number),
                                           term("why", "fixture.why." + (way ? first->leaves : "shut"))}));
    }
    if (!out.empty()) out.push_back(compose_.word("fixture.rest"));
    return out;
  }

  std::vector<const PlannedPiece*> stops(bool along_x) const {
    std::vector<const PlannedPiece*> out;
    for (const PlannedPiece& piece : fixture_.pieces)
      if (piece.kind == "stop" && !piece.table.empty() &&
          (std::abs(piece.towards.x) > std::abs(piece.towards.y)) != along_x)
        out.push_back(&piece);
    std::stable_sort(out.begin(), out.end(), [&](const PlannedPiece* a, const PlannedPiece* b) {
      return along_x ? a->table[0].x < b->table[0].x : a->table[0].y < b->table[0].y;
    });
    return out;
  }

  std::vector<std::string> checks() const {
    std::vector<std::string> out;
    const std::vector<const PlannedPiece*> along = stops(true), across = stops(false);
    const bool six = along.size() >= 2 && !across.empty();
    if (six) {
      const Arg left = word("left", along.front()->id), right = word("right", along.back()->id),
                single = word("short", across.front()->id);
      out.push_back(
          compose_.line("fixture.check.line", {left, right, word("at", size(along.front()->table[0].x))}));
      out.push_back(square_line(single));
    }
    std::vector<std::string> supports;
    for (const PlannedPiece& piece : fixture_.pieces)
      if (piece.kind == "support") supports.push_back(piece.id);
    if (supports.size() > 1)
      out.push_back(
          compose_.line("fixture.check.supports", {words("supports", supports), word("off", feeler())}));
    for (const PlannedPiece& piece : fixture_.pieces)
      if (piece.kind == "former") out.push_back(former_line(piece));
    if (six)
      out.push_back(compose_.line("fixture.check.push",
                                  {word("left", along.front()->id), word("right", along.back()->id),
                                   word("short", across.front()->id), word("feeler", feeler())}));
    return out;
  }

  std::string feeler() const {
    return compose_.quantity(ArgKind::length_mm, fixture_.locating.error_mm, "feeler", Rounding::down);
  }

  // As far as the table goes from 0, or the box where no table is stated.
  std::string square_line(const Arg& single) const {
    const Vec2 size_mm{fixture_.size_mm.x, fixture_.size_mm.y};
    const Vec2 reach = fixture_.table_mm ? *fixture_.table_mm - zero_on(*fixture_.table_mm) : size_mm;
    const Triangle marks = triangle_in(reach.x, reach.y, compose_.inch());
    const std::string gauge = gauge_for(marks.across);
    const double one_reading_mm = compose_.inch() ? kMmPerInch / 32.0 : 0.5; // that rule and tape still tell
    return compose_.line(
        "fixture.check.square",
        {single, word("along-x", size(marks.along_x)), word("along-y", size(marks.along_y)),
         word("across", size(marks.across)), term("gauge", "gauge." + gauge),
         word("off", compose_.quantity(ArgKind::length_mm, one_reading_mm, gauge, Rounding::down))});
  }

  std::string former_line(const PlannedPiece& former) const {
    const double diagonal_mm =
        std::hypot(former.width_mm - former.clip_mm, former.height_mm - former.clip_mm);
    const std::string gauge = gauge_for(std::max(former.width_mm, former.height_mm));
    return compose_.line(
        former.clip_mm > 0.0 ? "fixture.check.former-cut" : "fixture.check.former",
        {word("id", former.id), word("width", size(former.width_mm)), word("height", size(former.height_mm)),
         term("gauge", "gauge." + gauge), word("diagonal", size(diagonal_mm)),
         word("off", compose_.quantity(ArgKind::length_mm, in_mm(holding_practice().former_untrue),
                                       "pinch-sticks"))});
  }

  const Composer& compose_;
  const Plan& plan_;
  const BoxPlan& box_;
  const FixturePlan& fixture_;
};

} // namespace

DocumentPage compose_fixture(const Composer& compose, const Plan& plan, const BoxPlan& box) {
  return SetUp(compose, plan, box).make();
}

} // namespace tacksquare
