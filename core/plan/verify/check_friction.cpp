// Friction at the clamps: every place that is pressed stands once and lies under its clamp; what each clamp
// needs is the most of its places, over what it presses with.
#include "plan/verify/checking.h"
#include "tables/fixture_practice.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace tacksquare::verify {
namespace {

bool same(double a, double b) {
  return std::abs(a - b) <= 1e-6 * std::max(1.0, std::abs(b));
}

template <class T> const T* with_id(const std::vector<T>& all, const std::string& id) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const T& one) { return one.id == id; });
  return found == all.end() ? nullptr : &*found;
}

// A jaw presses on the outside of the sheet, or a screw's travel off it; the model has the sheet's middle,
// and may be of a box that differs by what a saw takes.
bool under_a_jaw(const Checking& c, const PlannedPiece& bar, Vec3 at, Vec3 out) {
  constexpr double kSaw_mm = 2.0;
  const double off_mm = in_mm(clamp_practice().takes_up) + c.thinnest_mm() + kSaw_mm;
  return std::any_of(bar.at.begin(), bar.at.end(), [&](Vec3 jaw) {
    const Vec3 off = jaw - at;
    const double straight_mm = dot(off, out);
    return std::abs(straight_mm) <= off_mm && norm(off - out * straight_mm) <= kSaw_mm;
  });
}

void check_place(const Checking& c, const PressedPlace& place) {
  const PlannedPiece* clamp = with_id(c.plan.fixture->pieces, place.clamp);
  const HoldingPiece* piece = with_id(c.plan.elastic->pieces, place.piece);
  if (!clamp || !piece || place.place < 0 || static_cast<std::size_t>(place.place) >= piece->at.size()) {
    c.tell("{} is said to press on place {} of {}, which is none", place.clamp, place.place, place.piece);
    return;
  }
  const auto i = static_cast<std::size_t>(place.place);
  const bool screwed = clamp->kind == "bar-clamp" || clamp->kind == "hold-down";
  const bool there = clamp->kind == "corner-clamp"
                         ? place.clamp == place.piece
                         : screwed && under_a_jaw(c, *clamp, piece->at[i], piece->out[i]);
  if (!there) c.tell("{} does not press on place {} of {}", place.clamp, place.place, place.piece);
  if (!(place.slide_mm >= 0.0 && place.stops_N >= 0.0 && std::isfinite(place.slide_mm + place.stops_N)))
    c.tell("place {} of {} slides by less than nothing", place.place, place.piece);
}

} // namespace

void check_friction(const Checking& c, const FixturePlan& fixture) {
  const std::vector<PressedPlace> none;
  const std::vector<PressedPlace>& places = c.plan.elastic ? c.plan.elastic->pressed : none;
  std::set<std::pair<std::string, std::pair<std::string, int>>> known;
  for (const PressedPlace& place : places) {
    check_place(c, place);
    if (!known.insert({place.clamp, {place.piece, place.place}}).second)
      c.tell("place {} of {} is pressed twice by {}", place.place, place.piece, place.clamp);
  }
  for (const PlannedPiece& piece : fixture.pieces) {
    double slide_mm = 0.0, stops_N = 0.0;
    for (const PressedPlace& place : places) {
      if (place.clamp != piece.id) continue;
      slide_mm = std::max(slide_mm, place.slide_mm);
      stops_N = std::max(stops_N, place.stops_N);
    }
    if (!same(piece.slide_mm, slide_mm) || !same(piece.stops_N, stops_N))
      c.tell("piece {} is told another slide, or force against it, than its places have", piece.id);
    if (!same(piece.friction * piece.force_N, piece.force_N > 0.0 ? piece.stops_N : 0.0) ||
        (piece.force_N <= 0.0 && piece.friction != 0.0))
      c.tell("piece {} is told another friction than its force and what it presses with make", piece.id);
  }
}

} // namespace tacksquare::verify
