// The fields of the row in its opening, of parts as they come and of the first-off. See describe.h.
#pragma once

#include "opening/first_off.h"
#include "opening/row_fit.h"
#include "plan/is_a.h"
#include "receiving/verdicts.h"

namespace tacksquare {

template <class V, IsA<ClearSize> T> void describe(V& v, T& f) {
  v.value("mm", f.mm);
  v.value("narrowest-mm", f.narrowest_mm);
  v.value("at", f.at);
  v.value("lost-to-plumb-mm", f.lost_to_plumb_mm);
  v.value("lost-to-obstacles-mm", f.lost_to_obstacles_mm);
  v.strings("obstacle", f.obstacles);
}

template <class V, IsA<MustBeFlush> T> void describe(V& v, T& f) {
  v.value("box", f.box);
  v.value("what", f.what);
  v.value("where", f.where);
  v.value("side", f.side);
  v.value("proud-mm", f.proud_mm);
  v.source("source", f.source);
}

template <class V, IsA<StandFit> T> void describe(V& v, T& f) {
  v.value("box", f.box);
  v.value("copy", f.copy);
  v.value("nominal-mm", f.nominal_mm);
  v.value("target-mm", f.target_mm);
  v.value("largest-mm", f.largest_mm);
  v.value("smallest-mm", f.smallest_mm);
  v.value("gap-mm", f.gap_mm);
  v.value("overhang-mm", f.overhang_mm);
  v.value("cut-last", f.cut_last);
  v.value("measured", f.measured);
  v.value("keeps-size", f.keeps_size);
  v.value("lean-deg", f.lean_deg);
  v.value("worst-mm", f.worst_mm);
  v.value("rss-mm", f.rss_mm);
  v.value("drawn-mm", f.drawn_mm);
  v.value("dearest", f.dearest);
  v.value("entry", f.entry);
  v.value("sweep-mm", f.sweep_mm);
  v.value("rack-mm", f.rack_mm);
  v.band("width-mm", f.width_mm);
}

template <class V, IsA<BudgetLine> T> void describe(V& v, T& f) {
  v.value("key", f.key);
  v.value("middle-mm", f.middle_mm);
  v.value("worst-mm", f.worst_mm);
  v.value("rss-mm", f.rss_mm);
  v.value("share-mm", f.share_mm);
  v.source("source", f.source);
}

template <class V, IsA<Reckoned> T> void describe(V& v, T& f) {
  v.value("row-mm", f.row_mm);
  v.value("left-mm", f.left_mm);
  v.value("target-mm", f.target_mm);
}

template <class V, IsA<Chance> T> void describe(V& v, T& f) {
  v.value("value", f.value);
  v.value("low", f.low);
  v.value("high", f.high);
  v.value("draws", f.draws);
}

template <class V, IsA<RowFit> T> void describe(V& v, T& f) {
  v.value("name", f.name);
  v.value("clearance-mm", f.clearance_mm);
  v.value("coating-mm", f.coating_mm);
  v.value("wanted-chance", f.wanted_chance);
  v.value("by", f.by);
  v.value("stated-target-mm", f.stated_target_mm);
  v.value("allowance-mm", f.allowance_mm);
  v.value("nested-row-mm", f.nested_row_mm);
  v.value("as-listed-row-mm", f.as_listed_row_mm);
  v.value("last-mm", f.last_mm);
  v.value("go-stick-mm", f.go_stick_mm);
  v.value("go-stick-height-mm", f.go_stick_height_mm);
  v.value("packer-mm", f.packer_mm);
  v.value("fits-never", f.fits_never);
  v.child("clear-width", f.clear.width);
  v.child("clear-height", f.clear.height);
  v.child("clear-depth", f.clear.depth);
  v.child("worst", f.worst);
  v.child("rss", f.rss);
  v.child("drawn", f.drawn);
  v.child("as-stated", f.as_stated);
  v.child("as-aimed", f.as_aimed);
  v.child("height-chance", f.height);
  v.child("depth-chance", f.depth);
  v.children("budget", f.budget);
  v.children("stand", f.stands);
  v.indices("nested", f.nested);
  v.children("flush", f.flush);
}

template <class V, IsA<ReceivingLimit> T> void describe(V& v, T& f) {
  v.value("kind", f.kind);
  v.value("where", f.where);
  v.value("go-mm", f.go_mm);
  v.value("dress-mm", f.dress_mm);
  v.value("beyond", f.beyond);
  v.band("force-n", f.force_N);
  v.band("belly-mm", f.belly_mm);
  v.source("source", f.source);
}

template <class V, IsA<PartReading> T> void describe(V& v, T& f) {
  v.value("kind", f.kind);
  v.value("where", f.where);
  v.value("copy", f.copy);
  v.value("reading-mm", f.reading_mm);
  v.value("verdict", f.verdict);
  v.value("why", f.why);
  v.band("force-n", f.force_N);
  v.band("springs-mm", f.springs_mm);
  v.band("size-mm", f.size_mm);
}

template <class V, IsA<CauseFound> T> void describe(V& v, T& f) {
  v.value("key", f.key);
  v.band("before-mm", f.before_mm);
  v.band("after-mm", f.after_mm);
  v.band("common-mm", f.common_mm);
}

template <class V, IsA<SizeFound> T> void describe(V& v, T& f) {
  v.value("axis", f.axis);
  v.value("aimed-mm", f.aimed_mm);
  v.value("correction-mm", f.correction_mm);
  v.band("measured-mm", f.measured_mm);
  v.band("rest-mm", f.rest_mm);
  v.children("cause", f.causes);
}

template <class V, IsA<FirstOff> T> void describe(V& v, T& f) {
  v.value("box", f.box);
  v.value("copy", f.copy);
  v.value("release", f.release);
  v.value("why", f.why);
  v.value("axis", f.axis);
  v.child("uncorrected", f.uncorrected);
  v.child("corrected", f.corrected);
  v.children("size", f.sizes);
}

} // namespace tacksquare
