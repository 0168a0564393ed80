// The fields of what the elastic model expects; see describe.h.
#pragma once

#include "plan/elastic_plan.h"
#include "plan/is_a.h"

namespace tacksquare {

template <class V, IsA<ElasticReading> T> void describe(V& v, T& f) {
  v.value("id", f.id);
  v.value("kind", f.kind);
  v.value("where", f.where);
  v.value("without-sign", f.without_sign);
}

template <class V, IsA<HoldingPiece> T> void describe(V& v, T& f) {
  v.value("id", f.id);
  v.value("stiffness-n-mm", f.stiffness_N_mm);
  v.value("untrue-mm", f.untrue_mm);
  v.numbers("off", f.off);
  v.numbers("pull-n", f.pull_N);
  v.numbers("push-n", f.push_N);
  v.points("at", f.at);
  v.points("out", f.out);
}

template <class V, IsA<PressedPlace> T> void describe(V& v, T& f) {
  v.value("clamp", f.clamp);
  v.value("piece", f.piece);
  v.value("place", f.place);
  v.value("slide-mm", f.slide_mm);
  v.value("stops-n", f.stops_N);
}

template <class V, IsA<ElasticStand> T> void describe(V& v, T& f) {
  v.value("after", f.after);
  v.value("weight-n", f.weight_N);
  v.numbers("value", f.value);
  v.numbers("low", f.low);
  v.numbers("high", f.high);
  v.numbers("nothing", f.nothing);
  v.points("at", f.at);
  v.strings("on-id", f.on);
}

template <class V, IsA<ElasticState> T> void describe(V& v, T& f) {
  v.value("after", f.after);
  v.numbers("value", f.value);
  v.numbers("low", f.low);
  v.numbers("high", f.high);
  v.band("gap-mm", f.gap_mm);
  v.band("closing-n", f.closing_N);
  v.band("holding-n", f.holding_N);
}

template <class V, IsA<ElasticRelease> T> void describe(V& v, T& f) {
  v.value("after", f.after);
  v.numbers("value", f.value);
  v.numbers("low", f.low);
  v.numbers("high", f.high);
}

template <class V, IsA<MovedEdge> T> void describe(V& v, T& f) {
  v.value("face", f.face);
  v.points("at", f.at);
  v.points("moved", f.moved);
}

template <class V, IsA<FaceBuckling> T> void describe(V& v, T& f) {
  v.value("face", f.face);
  v.value("depth-mm", f.depth_mm);
  v.band("factor", f.factor);
}

template <class V, IsA<ElasticPlan> T> void describe(V& v, T& f) {
  v.value("mesh-mm", f.mesh_mm);
  v.value("elements", f.elements);
  v.numbers("put-back-mm", f.put_back_mm);
  v.children("reading", f.readings);
  v.children("piece", f.pieces);
  v.children("pressed", f.pressed);
  v.children("stands-on", f.stands);
  v.children("state", f.states);
  v.children("release", f.releases);
  v.children("edge", f.shape);
  v.children("buckling", f.buckling);
}

} // namespace tacksquare
