#include "planning/planner/fixture_steps.h"

#include "fixture/items.h"
#include "tables/practice.h"

#include <algorithm>

namespace tacksquare {
namespace {

using fixture::Leaving;
using fixture::Why;

const FixturePiece& piece_at(const BoxCase& box, std::size_t placed) {
  return box.fixed().fixture.pieces[box.fixed().set_up.placed[placed].piece];
}

// In the order in which they go on, each kind as listed.
template <class F> Pieces those(const BoxCase& box, F test) {
  Pieces pieces;
  for (const ItemKind kind :
       {ItemKind::stop, ItemKind::support, ItemKind::former, ItemKind::square, ItemKind::spreader,
        ItemKind::backing_bar, ItemKind::hold_down, ItemKind::bar_clamp, ItemKind::corner_clamp})
    for (std::size_t i = 0; i < box.fixed().set_up.placed.size(); ++i)
      if (piece_at(box, i).kind == kind && test(piece_at(box, i), box.fixed().set_up.leaving[i]))
        pieces.push_back(i);
  return pieces;
}

bool among(const std::vector<std::string>& ids, const std::string& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

Step& put_on(const BoxCase& box, const Pieces& pieces, std::string key, std::vector<Arg> args, double seconds,
             StepWriter& out) {
  Step& step = out.add(Who::both, std::move(key), std::move(args), seconds);
  step.on = ids_of(box, pieces);
  return step;
}

void write_former(const BoxCase& box, std::size_t placed, StepWriter& out) {
  const FixturePiece& piece = piece_at(box, placed);
  const HoldingPractice& practice = holding_practice();
  std::vector<Arg> args = {word("id", piece.id)};
  args.push_back(length("width", in_mm(*piece.width), "steel-rule"));
  args.push_back(length("height", in_mm(*piece.height), "steel-rule"));
  args.push_back(length("below", in_mm(piece.below.value_or(practice.below_rim)), "steel-rule"));
  Step& step = put_on(box, {placed}, "step.former", std::move(args), box.work.crew.fit_s, out);
  step.look = {"look.former-true", {length("within", in_mm(practice.former_untrue), "steel-rule")}};
  step.odd = simple("why.comes-out");
}

void write_squares(const BoxCase& box, const Pieces& squares, StepWriter& out) {
  const bool closed = box.closed();
  std::vector<Arg> args = {words("ids", ids_of(box, squares))};
  if (closed) args.push_back(count("pieces", static_cast<double>(pieces_inside(box).size())));
  Step& step = put_on(box, squares, closed ? "step.inside-squares" : "step.corner-squares", std::move(args),
                      box.work.crew.fit_s, out);
  const HoldingPractice& practice = holding_practice();
  step.look = {
      "look.squares-true",
      {length("within", in_mm(practice.square_untrue), "feeler"),
       length("reach", in_mm(piece_at(box, squares.front()).size.value_or(practice.reach)), "steel-rule")}};
  step.odd = simple(closed ? "why.count-out" : "why.squares-out");
}

} // namespace

Pieces pieces_of_kind(const BoxCase& box, std::initializer_list<ItemKind> kinds) {
  return those(box, [&](const FixturePiece& piece, const Leaving&) {
    return std::find(kinds.begin(), kinds.end(), piece.kind) != kinds.end();
  });
}

Pieces all_pieces(const BoxCase& box) {
  return those(box, [](const FixturePiece&, const Leaving&) { return true; });
}

Pieces pieces_inside(const BoxCase& box) {
  return those(box, [](const FixturePiece& piece, const Leaving&) { return fixture::is_inside(piece.kind); });
}

Pieces leaving_before_tacks(const BoxCase& box, const std::vector<std::string>& tacks) {
  return those(box, [&](const FixturePiece&, const Leaving& leaving) {
    return leaving.why == Why::tack && among(tacks, leaving.before);
  });
}

Pieces leaving_before_knock_down(const BoxCase& box) {
  return those(box,
               [](const FixturePiece&, const Leaving& leaving) { return leaving.why == Why::knock_down; });
}

Pieces leaving_before_runs(const BoxCase& box, Why why, const std::vector<std::string>& runs) {
  return those(box, [&](const FixturePiece&, const Leaving& leaving) {
    return leaving.why == why && among(runs, leaving.before);
  });
}

Pieces staying(const BoxCase& box) {
  return those(box, [&](const FixturePiece& piece, const Leaving& leaving) {
    return leaving.why == Why::stays && !(box.work.last_face && fixture::is_inside(piece.kind));
  });
}

Pieces without_stops(const BoxCase& box, const Pieces& pieces) {
  Pieces rest;
  for (const std::size_t i : pieces)
    if (const ItemKind kind = piece_at(box, i).kind; kind != ItemKind::stop && kind != ItemKind::support)
      rest.push_back(i);
  return rest;
}

Pieces counted_out(const BoxCase& box) {
  return those(box, [](const FixturePiece& piece, const Leaving& leaving) {
    return leaving.why == Why::stays && fixture::is_inside(piece.kind);
  });
}

std::vector<std::string> ids_of(const BoxCase& box, const Pieces& pieces) {
  std::vector<std::string> ids;
  for (const std::size_t i : pieces)
    ids.push_back(piece_at(box, i).id);
  return ids;
}

std::vector<Text> names_of(const BoxCase& box, const Pieces& pieces) {
  std::vector<Text> names;
  for (std::size_t i = 0; i < pieces.size();) {
    const ItemKind kind = piece_at(box, pieces[i]).kind;
    std::vector<std::string> ids;
    for (; i < pieces.size() && piece_at(box, pieces[i]).kind == kind; ++i)
      ids.push_back(piece_at(box, pieces[i]).id);
    names.push_back(
        {"pieces." + item_word(kind), {count("pieces", static_cast<double>(ids.size())), words("ids", ids)}});
  }
  return names;
}

void take_off(const BoxCase& box, const Pieces& pieces, const char* why, bool hot, StepWriter& out) {
  constexpr double kEach_s = 10.0;
  if (pieces.empty()) return;
  Step& step = out.add(Who::both, "step.pieces-off", {list("pieces", names_of(box, pieces))},
                       kEach_s * static_cast<double>(pieces.size()));
  step.look = simple(hot ? "look.off-hot" : "look.off-cold");
  step.odd = simple(why);
  step.off = ids_of(box, pieces);
}

Step& write_table(const BoxCase& box, StepWriter& out) {
  const Pieces stops = pieces_of_kind(box, {ItemKind::stop});
  std::vector<std::string> along, end;
  for (const std::size_t i : stops)
    (std::abs(piece_at(box, i).towards.y) > 0.5 ? along : end).push_back(piece_at(box, i).id);
  if (stops.empty()) return out.add(Who::grinder, "step.table-plain", {}, 3 * box.work.crew.look_s);
  Step& step = out.add(Who::grinder, "step.table", {words("along", along), words("end", end)},
                       3 * box.work.crew.look_s);
  step.look = simple("look.stops");
  step.on = ids_of(box, stops);
  return step;
}

void write_supports(const BoxCase& box, StepWriter& out) {
  const Pieces pads = pieces_of_kind(box, {ItemKind::support});
  if (pads.empty()) return;
  Step& under =
      out.add(Who::grinder, "step.supports", {words("ids", ids_of(box, pads))}, box.work.crew.fit_s);
  under.look = simple("look.supports");
  under.on = ids_of(box, pads);
}

void write_inside_pieces(const BoxCase& box, StepWriter& out) {
  for (const std::size_t former : pieces_of_kind(box, {ItemKind::former}))
    write_former(box, former, out);
  const double each_s = 0.25 * box.work.crew.fit_s;
  const auto pieces = [&](ItemKind kind) { return pieces_of_kind(box, {kind}); };
  const auto seconds = [&](const Pieces& some) { return each_s * static_cast<double>(some.size()); };
  if (const Pieces squares = pieces(ItemKind::square); !squares.empty()) write_squares(box, squares, out);
  if (const Pieces spreaders = pieces(ItemKind::spreader); !spreaders.empty())
    put_on(box, spreaders, "step.spreaders", {words("ids", ids_of(box, spreaders))}, seconds(spreaders), out);
  if (const Pieces bars = pieces(ItemKind::backing_bar); !bars.empty()) {
    std::vector<Text> places;
    for (const std::size_t i : bars)
      places.push_back(
          {"backing-bar.at", {word("id", piece_at(box, i).id), word("seam", piece_at(box, i).seam)}});
    put_on(box, bars, "step.backing-bars", {list("places", std::move(places))}, seconds(bars), out);
  }
}

void write_clamps(const BoxCase& box, StepWriter& out) {
  const Pieces clamps =
      pieces_of_kind(box, {ItemKind::hold_down, ItemKind::bar_clamp, ItemKind::corner_clamp});
  if (clamps.empty())
    out.add(Who::both, "step.hold-by-hand", {}, box.work.crew.fit_s);
  else
    put_on(box, clamps, "step.clamps-on", {list("pieces", names_of(box, clamps))},
           0.25 * box.work.crew.fit_s * static_cast<double>(clamps.size()), out);
  out.last().look = simple("look.work-clamp");
}

} // namespace tacksquare
