// The fields of what holds a box on the table; see describe.h.
#pragma once

#include "plan/fixture_plan.h"
#include "plan/is_a.h"

namespace tacksquare {

template <class V, IsA<PlannedPiece> T> void describe(V& v, T& f) {
  v.value("id", f.id);
  v.value("kind", f.kind);
  v.value("seam", f.seam);
  v.value("from-mm", f.from_mm);
  v.value("to-mm", f.to_mm);
  v.value("width-mm", f.width_mm);
  v.value("height-mm", f.height_mm);
  v.value("below-mm", f.below_mm);
  v.value("clip-mm", f.clip_mm);
  v.value("size-mm", f.size_mm);
  v.value("foot-mm", f.foot_mm);
  v.value("force-n", f.force_N);
  v.value("needs-n", f.needs_N);
  v.value("slide-mm", f.slide_mm);
  v.value("stops-n", f.stops_N);
  v.value("friction", f.friction);
  v.value("leaves", f.leaves);
  v.value("leaves-before", f.leaves_before);
  v.band("table-n", f.table_N);
  v.points("table", f.table);
  v.points("at", f.at);
  v.strings("face-id", f.faces);
  v.point("towards", f.towards);
}

template <class V, IsA<PlannedLocating> T> void describe(V& v, T& f) {
  v.value("rank", f.rank);
  v.value("determinant-mm3", f.determinant_mm3);
  v.value("error-mm", f.error_mm);
  v.value("worst-mm", f.worst_mm);
  v.value("turn-deg", f.turn_deg);
  v.strings("piece-id", f.six);
}

template <class V, IsA<BillLine> T> void describe(V& v, T& f) {
  v.value("kind", f.kind);
  v.value("size-mm", f.size_mm);
  v.value("wanted", f.wanted);
  v.value("owned", f.owned);
}

template <class V, IsA<FixtureCompared> T> void describe(V& v, T& f) {
  v.value("key", f.key);
  v.value("without", f.without);
  v.value("pieces", f.pieces);
  v.value("kept", f.kept);
  v.value("chosen", f.chosen);
}

template <class V, IsA<FixturePlan> T> void describe(V& v, T& f) {
  v.value("name", f.name);
  v.value("stated", f.stated);
  v.value("down", f.down);
  v.value("long-side", f.long_side);
  v.value("short-side", f.short_side);
  v.value("smaller-weighed", f.smaller_weighed);
  v.point("origin", f.origin);
  v.point("x", f.x);
  v.point("y", f.y);
  v.point("z", f.z);
  v.point("size-mm", f.size_mm);
  v.spot("table-mm", f.table_mm);
  v.children("piece", f.pieces);
  v.child("locating", f.locating);
  v.children("bill", f.bill);
  v.children("compared", f.compared);
}

} // namespace tacksquare
