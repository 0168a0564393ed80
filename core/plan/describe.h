// The fields of a Plan, named once: the writer, the reader and the signature all walk this description, so
// that none of them can forget a field.
//
// A visitor has: value(name, field) for strings, numbers, bools and enums, optional or not; text, band,
// source, point, spot (in a plane) and ring for the small values, a band or a spot optional or not; strings,
// indices, texts, points and rings for vectors of them; child(name, field) for a described struct, optional
// or not, and children for a vector of them. Values come before all else in each description: they are
// attributes in plan.xml.
#pragma once

#include "plan/describe_elastic.h"
#include "plan/describe_fit.h"
#include "plan/describe_fixture.h"
#include "plan/describe_flat.h"
#include "plan/plan.h"

namespace tacksquare {

template <class V, IsA<Remedy> T> void describe(V& v, T& f) {
  v.value("who", f.who);
  v.value("seconds", f.seconds);
  v.text("what", f.what);
}

template <class V, IsA<Check> T> void describe(V& v, T& f) {
  v.value("gauge", f.gauge);
  v.value("readings", f.readings);
  v.value("accept-low-mm", f.accept_low_mm);
  v.value("accept-high-mm", f.accept_high_mm);
  v.value("has-expected", f.has_expected);
  v.value("no-change-seen", f.no_change_seen);
  v.text("what", f.what);
  v.band("expected-mm", f.expected_mm);
  v.strings("measure-id", f.measures);
  v.children("remedy", f.ladder);
}

template <class V, IsA<Step> T> void describe(V& v, T& f) {
  v.value("number", f.number);
  v.value("phase", f.phase);
  v.value("who", f.who);
  v.value("alongside", f.alongside);
  v.value("hold", f.hold);
  v.value("second", f.second);
  v.value("safe-stop-after", f.safe_stop_after);
  v.value("seconds", f.seconds);
  v.value("arc-s", f.arc_s);
  v.value("start-s", f.start_s);
  v.value("end-s", f.end_s);
  v.text("what", f.what);
  v.text("look", f.look);
  v.text("odd", f.odd);
  v.text("meanwhile", f.meanwhile);
  v.text("until", f.until);
  v.text("record", f.record);
  v.strings("tack-id", f.tacks);
  v.strings("run-id", f.runs);
  v.strings("on-id", f.on);
  v.strings("off-id", f.off);
  v.children("check", f.checks);
}

template <class V, IsA<Figure> T> void describe(V& v, T& f) {
  v.value("kind", f.kind);
  v.value("has-band", f.has_band);
  v.value("bound-only", f.bound_only);
  v.text("what", f.what);
  v.band("band", f.value);
  v.source("source", f.source);
  v.texts("note", f.notes);
}

template <class V, IsA<FaceOutline> T> void describe(V& v, T& f) {
  v.value("id", f.id);
  v.value("part", f.part);
  v.text("name", f.name);
  v.point("origin", f.placement.origin);
  v.point("u", f.placement.u);
  v.point("v", f.placement.v);
  v.points("vent", f.vents);
  v.ring("outline", f.outline);
  v.rings("cut-out", f.cutouts);
}

template <class V, IsA<PlannedSeam> T> void describe(V& v, T& f) {
  v.value("id", f.id);
  v.value("face-a", f.face_a);
  v.value("face-b", f.face_b);
  v.value("joint", f.joint);
  v.value("corner", f.corner);
  v.value("weld", f.weld);
  v.value("side", f.side);
  v.value("finish", f.finish);
  v.value("leg-mm", f.leg_mm);
  v.value("groove-deg", f.groove_deg);
  v.value("stitch-length-mm", f.stitch_length_mm);
  v.value("stitch-pitch-mm", f.stitch_pitch_mm);
  v.value("settings", f.settings);
  v.value("length-mm", f.length_mm);
  v.value("welded-mm", f.welded_mm);
  v.point("start", f.start);
  v.point("end", f.end);
  v.band("bead-mm2", f.bead_mm2);
  v.band("heat-j-mm", f.heat_J_mm);
  v.band("wire-g", f.wire_g);
  v.band("gas-l", f.gas_l);
  v.band("throat-mm", f.throat_mm);
}

template <class V, IsA<PlannedTack> T> void describe(V& v, T& f) {
  v.value("id", f.id);
  v.value("seam", f.seam);
  v.value("at-mm", f.at_mm);
  v.value("length-mm", f.length_mm);
  v.value("round", f.round);
  v.value("then", f.then);
}

template <class V, IsA<TackOrderCompared> T> void describe(V& v, T& f) {
  v.value("key", f.key);
  v.value("worst", f.worst);
  v.value("square", f.square);
  v.value("gap", f.gap);
  v.value("chosen", f.chosen);
  v.band("gap-mm", f.gap_mm);
}

template <class V, IsA<Lever> T> void describe(V& v, T& f) {
  v.value("key", f.key);
  v.value("chance-before", f.chance_before);
  v.value("chance-after", f.chance_after);
  v.value("advised", f.advised);
  v.text("what", f.what);
}

template <class V, IsA<PlannedRun> T> void describe(V& v, T& f) {
  v.value("id", f.id);
  v.value("seam", f.seam);
  v.value("from-mm", f.from_mm);
  v.value("to-mm", f.to_mm);
  v.value("tie-in-mm", f.tie_in_mm);
  v.value("arc-s", f.arc_s);
  v.value("heat-j", f.heat_J);
  v.value("warmth-k", f.warmth_K);
  v.value("down", f.down);
  v.value("position", f.position);
  v.value("dab", f.dab);
}

template <class V, IsA<PlannedMeasure> T> void describe(V& v, T& f) {
  v.value("id", f.id);
  v.value("kind", f.kind);
  v.value("where", f.where);
  v.value("gauge", f.gauge);
  v.value("nominal-mm", f.nominal_mm);
  v.value("under-mm", f.under_mm);
  v.value("over-mm", f.over_mm);
  v.value("has-expected", f.has_expected);
  v.value("bound-only", f.bound_only);
  v.value("chance-kept", f.chance_kept);
  v.value("formula-bound-only", f.formula_bound_only);
  v.points("point", f.points);
  v.band("expected-mm", f.expected_mm);
  v.band("before-grinding-mm", f.before_grinding_mm);
  v.band("by-formula-mm", f.by_formula_mm);
  v.source("limit-source", f.limit_source);
  v.source("source", f.source);
}

template <class V, IsA<SettingsBlock> T> void describe(V& v, T& f) {
  v.value("id", f.id);
  v.value("process", f.process);
  v.value("starting-point", f.starting_point);
  v.texts("line", f.lines);
  v.texts("oddity", f.oddities);
}

template <class V, IsA<OrderCompared> T> void describe(V& v, T& f) {
  v.value("key", f.key);
  v.value("turns", f.turns);
  v.value("heat-moment", f.heat_moment);
  v.value("mean-moment", f.mean_moment);
  v.value("worst-warmth-k", f.worst_warmth_K);
  v.value("turning-s", f.turning_s);
  v.value("cost", f.cost);
  v.value("square", f.square);
  v.value("chance", f.chance);
  v.strings("run-id", f.runs);
}

template <class V, IsA<OrderProof> T> void describe(V& v, T& f) {
  v.value("orders", f.orders);
  v.value("proven", f.proven);
  v.value("within", f.within);
  v.value("nominal", f.nominal);
  v.value("nominal-bound", f.nominal_bound);
  v.value("least", f.least);
  v.value("least-bound", f.least_bound);
  v.value("most", f.most);
  v.value("most-bound", f.most_bound);
  v.value("whole", f.whole);
  v.value("whole-bound", f.whole_bound);
  v.value("tried", f.tried);
  v.value("all-within", f.all_within);
  v.value("squarest", f.squarest);
  v.value("width", f.width);
  v.value("scatter", f.scatter);
  v.value("matters", f.matters);
  v.value("finer-mesh-mm", f.finer_mesh_mm);
  v.value("planned-finer", f.planned_finer);
  v.value("squarest-finer", f.squarest_finer);
  v.value("passed-over-finer", f.passed_over_finer);
}

template <class V, IsA<Caution> T> void describe(V& v, T& f) {
  v.value("red", f.red);
  v.text("what", f.what);
}

template <class V, IsA<PlannedSheet> T> void describe(V& v, T& f) {
  v.value("id", f.id);
  v.value("metal", f.metal);
  v.value("thickness-mm", f.thickness_mm);
}

template <class V, IsA<BoxPlan> T> void describe(V& v, T& f) {
  v.value("id", f.id);
  v.value("name", f.name);
  v.value("count", f.count);
  v.value("order-proven-best", f.order_proven_best);
  v.value("takt-s", f.takt_s);
  v.value("mass-kg", f.mass_kg);
  v.point("low", f.low);
  v.point("high", f.high);
  v.band("first-off-s", f.first_off_s);
  v.band("repeat-s", f.repeat_s);
  v.band("batch-s", f.batch_s);
  v.band("arc-s", f.arc_s);
  v.band("grind-s", f.grind_s);
  v.band("wire-g", f.wire_g);
  v.band("gas-l", f.gas_l);
  v.children("caution", f.cautions);
  v.texts("fact", f.facts);
  v.children("settings", f.settings);
  v.texts("get", f.kit);
  v.texts("care", f.care);
  v.texts("where-mm", f.where_mm);
  v.children("face", f.faces);
  v.children("seam", f.seams);
  v.children("tack", f.tacks);
  v.children("run", f.runs);
  v.children("measure", f.measures);
  v.children("step", f.steps);
  v.child("elastic", f.elastic);
  v.child("fixture", f.fixture);
  v.children("tack-order", f.tack_orders);
  v.children("lever", f.levers);
  v.children("order", f.orders);
  v.child("order-proof", f.order_proof);
  v.children("figure", f.figures);
  v.children("sheet", f.sheets);
  v.children("pattern", f.patterns);
  v.children("bend-order", f.bend_orders);
  v.children("receiving", f.receiving);
  v.children("reading", f.part_readings);
  v.child("first-off", f.first_off);
}

template <class V, IsA<Plan> T> void describe(V& v, T& f) {
  v.value("job", f.job);
  v.value("number", f.number);
  v.value("date", f.date);
  v.child("row", f.row);
  v.children("box", f.boxes);
}

} // namespace tacksquare
