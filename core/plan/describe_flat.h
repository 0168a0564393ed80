// The fields of flat patterns and of the order of bends. See describe.h.
#pragma once

#include "geometry/flat_pattern.h"
#include "plan/is_a.h"
#include "work/bend_order.h"

namespace tacksquare {

template <class V, IsA<FlatBend> T> void describe(V& v, T& f) {
  v.value("face-a", f.face_a);
  v.value("face-b", f.face_b);
  v.value("angle-rad", f.angle_rad);
  v.value("radius-mm", f.radius_mm);
  v.value("flat-mm", f.flat_mm);
  v.value("deduction-mm", f.deduction_mm);
  v.value("own-deduction", f.own_deduction);
  v.spot("start", f.start);
  v.spot("end", f.end);
}

template <class V, IsA<FlatFace> T> void describe(V& v, T& f) {
  v.value("id", f.id);
  v.spot("origin", f.origin);
  v.spot("x", f.x);
  v.spot("y", f.y);
  v.ring("outline", f.outline);
  v.ring("flat", f.flat);
}

template <class V, IsA<FlatRelief> T> void describe(V& v, T& f) {
  v.value("width-mm", f.width_mm);
  v.value("depth-mm", f.depth_mm);
  v.spot("at", f.at);
  v.ring("outline", f.outline);
}

template <class V, IsA<FlatMark> T> void describe(V& v, T& f) {
  v.value("kind", f.kind);
  v.value("text", f.text);
  v.value("height-mm", f.height_mm);
  v.spot("from", f.from);
  v.spot("to", f.to);
}

template <class V, IsA<FlatPattern> T> void describe(V& v, T& f) {
  v.value("part", f.part);
  v.value("sheet", f.sheet);
  v.value("thickness-mm", f.thickness_mm);
  v.value("length-mm", f.length_mm);
  v.value("width-mm", f.width_mm);
  v.value("area-mm2", f.area_mm2);
  v.value("mass-kg", f.mass_kg);
  v.value("tolerance-mm", f.tolerance_mm);
  v.spot("centroid", f.centroid);
  v.ring("outline", f.outline);
  v.rings("hole", f.holes);
  v.children("face", f.faces);
  v.children("bend", f.bends);
  v.children("relief", f.reliefs);
  v.children("mark", f.marks);
}

template <class V, IsA<BendStep> T> void describe(V& v, T& f) {
  v.value("bend", f.bend);
  v.indices("with", f.with);
  v.value("face-a", f.face_a);
  v.value("face-b", f.face_b);
  v.value("angle-deg", f.angle_deg);
  v.value("length-mm", f.length_mm);
  v.value("punch-mm", f.punch_mm);
  v.strings("gauged-on", f.gauged_on);
  v.value("on-bend", f.on_bend);
  v.value("gauge-mm", f.gauge_mm);
  v.value("far", f.far);
  v.value("outside-up", f.outside_up);
  v.value("clear-mm", f.clear_mm);
  v.value("nearest", f.nearest);
  v.value("turned", f.turned);
}

template <class V, IsA<BendBlocked> T> void describe(V& v, T& f) {
  v.value("face-a", f.face_a);
  v.value("face-b", f.face_b);
  v.value("by", f.by);
  v.value("needed-mm", f.needed_mm);
}

template <class V, IsA<BendOrder> T> void describe(V& v, T& f) {
  v.value("part", f.part);
  v.value("orders-seen", f.orders_seen);
  v.value("turns", f.turns);
  v.value("far", f.far);
  v.value("changes", f.changes);
  v.value("proven", f.proven);
  v.children("step", f.steps);
  v.child("blocked", f.blocked);
}

} // namespace tacksquare
