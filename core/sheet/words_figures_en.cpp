// Facts, settings, kit, care, cautions and the foreman's figures.
#include "sheet/catalogue.h"

namespace tacksquare {

namespace {
constexpr Entry kWords[] = {
    // Faces and how the box lies
    {"face.F", "front"},
    {"face.B", "back"},
    {"face.L", "left"},
    {"face.R", "right"},
    {"face.U", "under"},
    {"face.T", "top"},
    {"attitude.F", "on its front"},
    {"attitude.B", "on its back"},
    {"attitude.L", "on its left side"},
    {"attitude.R", "on its right side"},
    {"attitude.U", "on its base"},
    {"attitude.T", "on its top"},
    {"attitude.rim", "on its rim, opening down"},
    {"attitude.face", "on face {face}"},

    // Facts
    {"fact.size", "{width} wide x {height} high x {depth} deep, outside."},
    {"fact.size-over", "Over the lips {x} x {y} x {z}, left-right x front-back x under-top."},
    {"fact.size-own", "{x} x {y} x {z}, outside, left-right x front-back x under-top."},
    {"fact.sheet", "Sheet: {metal|spelled}, {thickness} ({said})."},
    {"fact.lift-one", "{mass}: one person lifts, two turn."},
    {"fact.lift-two", "{mass}: two people lift and turn."},
    {"fact.lift-hoist", "{mass}: hoist."},
    {"fact.lies", "Starts {attitude}."},
    {"fact.letters-front", "Stand in front, look in: {faces}. RIM = the open front edge."},
    {"fact.letters-top", "Stand in front, look down in: {faces}. RIM = the open top edge."},
    {"fact.letters-closed", "Stand in front: {faces}."},
    {"fact.letters-own", "Faces: {faces}."},
    {"fact.letter", "{id} {name}"},
    {"fact.seams", "{number} {number|seam/seams}, {total|place} of weld: {seams}."},
    {"fact.seam", "{id} {a}-{b}"},
    {"fact.seam-zero",
     "0 on a seam is the rim end; else the lower, front or left end. The drawing shows it."},

    {"fact.start-limit", "No arc where the metal is above {limit|most}: wait, or weld at another corner."},

    // Settings
    {"setting.wire", "{diameter} wire, {wire}"},
    {"setting.feed", "wire feed {feed}"},
    {"setting.volts-amps", "{volts}, about {amps}"},
    {"setting.travel", "{time} for {length|round}"},
    {"setting.gas", "{gas}, {flow}"},
    {"setting.stick-out", "stick-out {length|round}"},
    {"setting.full-penetration", "fused through to the root: proven on a coupon"},
    {"oddity", "{message}; {remedy}"},

    // Kit
    {"kit.stop", "{pieces} {pieces|stop/stops}"},
    {"kit.support", "{pieces} {pieces|pad/pads}"},
    {"kit.hold-down", "{pieces} hold-down {pieces|clamp/clamps}"},
    {"kit.bar-clamp", "{pieces} sash cramp{pieces|/s} {length|round}"},
    {"kit.corner-clamp", "{pieces} corner {pieces|clamp/clamps}"},
    {"kit.square", "{pieces} inside {pieces|square/squares} {length|round}"},
    {"kit.spreader", "{=word.spreaders}: {pieces} of {length}"},
    {"kit.blocks", "squares and blocks for every seam"},
    {"kit.former", "{pieces} former{pieces|/s} with wedge"},
    {"kit.backing-bar", "{pieces} copper {pieces|bar/bars} {length|round}"},
    {"kit.measuring", "try square, pinch sticks, calliper, steel rule, feelers, straightedge"},
    {"kit.gap-gauge", "gap gauge {length}"},
    {"kit.discs", "flap disc {grit}: {pieces}"},
    {"kit.crayon", "crayon {limit|most}"},
    {"kit.marking", "paint pen, scriber, block, soft hammer"},

    // Care
    {"care.welding", "Hood, gloves, long sleeves, ears. Screen between you two."},
    {"care.fume", "Fume extraction on, also on plain steel; breathing protection for what is left."},
    {"care.grinder",
     "Guard on, between wheel and you. Disc rated for the machine. Never the side of a cut-off disc."},
    {"care.fire", "Burnables away. Fire watch {time} after the last spark."},
    {"care.hot", "Hot until the {limit|most} crayon stays dry. An infrared gun lies on bright metal."},
    {"care.stainless", "Stainless fume has hexavalent chromium: extraction at the arc and when grinding. Own "
                       "brush, own discs."},
    {"care.zinc", "Zinc off before the arc: its fume makes you ill the same evening."},
    {"care.aluminium", "Aluminium dust burns: keep it apart from steel sparks. Own discs."},
    {"care.closed", "Closed box: never an arc with the vent shut. Never compressed air for the leak test."},
    {"care.closed-argon",
     "Closed box: never an arc with the vent shut, never compressed air in it. Argon in it chokes: "
     "air it out, no head inside."},
    {"care.lift", "{mass}: not alone. Fingers clear when it is turned."},
    {"care.solvent",
     "No brake cleaner or chlorinated solvent near the arc. No welding beside batteries on charge."},

    // Where the millimetres come from
    {"where.bends", "bends {low} to {high} at the free edge"},
    {"where.blank", "blank {low} to {high}"},
    {"where.weld-across", "weld, across {low} to {high}"},
    {"where.weld-along", "weld, along {low} to {high}"},
    {"where.grinding", "proud after grinding {low} to {high}"},
    {"where.gauge", "reading the gauge {low} to {high}"},

    // Cautions
    {"caution.limit-missed",
     "{measure}: at {places} {places|place/places} the limit ({low} to {high}) is more likely "
     "missed than kept: {expected} to expect, "
     "kept with {chance}. Change the size, the limit or the weld before building."},
    {"caution.takt",
     "A further box is to take {takt}, and takes {repeat} ({low} to {high}). More hands, fewer readings, "
     "or another date."},
    {"caution.throat", "{seam}: {left} of throat left after finishing, {needed} needed."},
    {"caution.reach", "{seam}: no torch gets there, however the box lies. Weld it from the other side, or "
                      "before the rest is on."},
    {"caution.position",
     "{seam}: the box cannot lie so that it is welded in the position that the job asks for."},
    {"caution.overhead", "{seam}: only overhead can it be reached, which sheet does not forgive. Change the "
                         "joint or the way the box lies."},
    {"caution.buckles",
     "Face {face} may buckle from {seam}: critical force is {factor} times the expected one (closed form, a "
     "floor). "
     "Its flatness is not to be relied on. Less heat, a stitch, a fold or a stiffener helps."},
    {"caution.may-buckle", "Face {face}: shrinkage of {seam} takes more than half of what buckles it "
                           "(critical is {factor} times the expected)."},
    {"caution.face-buckles",
     "Buckles: {faces}. The seams pull harder than the sheet stands, {factor} of the expected force is "
     "enough: about {depth} off flat, an order of size, in or out. Fold instead of weld, return the rim, "
     "cross-break it, stitch, or weld with less heat."},
    {"caution.face-may-buckle", "Near buckling: {faces}. The sheet stands {factor} times the expected pull "
                                "of the seams, less than twice."},
    {"caution.starting-point", "Settings {settings} are a starting point from tables: prove them on the "
                               "coupon, they are no procedure."},
    {"caution.oddity", "Settings {settings}: {message}."},

    // Notes to figures
    {"note.own-across", "coupon value of the job"},
    {"note.own-along", "coupon value of the job"},
    {"note.own-angle", "coupon value of the job"},
    {"note.stitch", "times the welded share"},
    {"note.shared-zone", "a seam close by shares the heated zone: counted once"},
    {"note.narrow-section", "held at yield: the section is too narrow for the full force"},
    {"note.no-bow", "no bow: the section has no stiff direction"},
    {"note.angle-range", "angle: thickness outside the formula's range"},
    {"note.buckling-caution", "more than half of what buckles the face"},
    {"note.buckling-beyond", "beyond what buckles the face by the closed form"},
    {"note.buckling-floor", "seam shorter than the face is wide: the closed form is far on the safe side"},

    // Figures
    {"figure.mass", "mass, all parts"},
    {"figure.centre-x", "centre of gravity from the left"},
    {"figure.centre-y", "centre of gravity from the front"},
    {"figure.centre-z", "centre of gravity from under"},
    {"figure.bead", "{seam} bead area"},
    {"figure.heat", "{seam} net heat"},
    {"figure.t85", "{seam} cooling time 800 to 500 C"},
    {"figure.throat", "{seam} throat left"},
    {"figure.across", "{seam} shrinkage across"},
    {"figure.force", "{seam} shrinkage force along"},
    {"figure.shortening", "{seam} shortening along"},
    {"figure.bow", "{seam} bow of the section"},
    {"figure.angle", "{seam} change of angle"},
    {"figure.buckling", "{seam} face {face}: critical force over expected"},
    {"figure.buckling-box", "face {face}: force at which it buckles, over expected"},
    {"figure.closing",
     "force that closes the gap at tack {tack}, the most of all tacks; a gap left as it is takes less"},
    {"figure.gap-ahead", "seam open before tack {tack} (negative: edges over each other), the most of all "
                         "tacks whose seam has one"},
    {"figure.pull-past-rim",
     "1 mm out of square after the first tacks: pulled past it by, let go when all is tacked"},
    {"figure.pull-past-rim-cold",
     "1 mm out of square after the first tacks: pulled past it by, let go when all is cold"},
    {"figure.pull-past-second",
     "1 mm out of square after the second round: pulled past it by, let go when all is tacked"},
    {"figure.pull-past-second-cold",
     "1 mm out of square after the second round: pulled past it by, let go when all is cold"},
    {"figure.next-run", "look half way: {run} next makes the first diagonal grow against the second by"},
    {"figure.holding", "most that a piece of the fixture has to hold at one place, after {after}"},
    {"figure.springs", "{measure} springs at the release that ends with {after}, the most of its kind"},
    {"figure.mean-rise", "whole box above ambient after the last arc, no loss"},
    {"figure.touch-time", "last arc until the seams may be touched"},
    {"figure.measure-time", "last arc until sizes may be read"},
    {"figure.trapped-air", "bulge of the largest face, were the vent shut"},

    // What would help; lever.X in the table, advice.X the same as something to do
    {"levers.title", "What would help, and what would not"},
    {"levers.change", "one change, all else as on this sheet"},
    {"levers.now", "of 100 boxes keep all limits now"},
    {"levers.then", "then"},
    {"levers.advice", "{what}: of 100 boxes {more} more {more|keeps/keep} all limits."},
    {"levers.nothing", "Nothing on this list would help to speak of."},
    {"levers.below",
     "By {draws} draws of the elastic model on a coarse net: good to about 1 of 100. Gains do not add up. "
     "The heat is shrinkage of every kind down by a fifth. Thicker sheet is welded by the job's settings "
     "where it states them. Cost is not in it."},
    {"levers.fixture",
     "What holds the box was weighed before the order of the tacks: with draws and a figure for now of its "
     "own."},
    {"lever.pitch", "tacks at half the distance, {pitch|round} at most"},
    {"advice.pitch", "Put the tacks at half the distance, {pitch|round} at most"},
    {"lever.tack-length", "tacks half as long again, {length|round}"},
    {"advice.tack-length", "Make the tacks half as long again, {length|round}"},
    {"lever.fixture-throughout", "held by all, until torch, lid or release wants it out"},
    {"advice.fixture-throughout", "Hold it by all there is, until torch, lid or release wants it out"},
    {"lever.fixture-for-tacks", "held by all, what is inside out before the first weld"},
    {"advice.fixture-for-tacks",
     "Hold it by all there is, and take what is inside out before the first weld"},
    {"lever.fixture-rim-alone", "held by what is inside alone, no corner clamps"},
    {"advice.fixture-rim-alone", "Hold it by what is inside alone, no corner clamps"},
    {"lever.fixture-without", "held without {piece}"},
    {"advice.fixture-without", "Leave {piece} off"},
    {"lever.fixture-none", "held by nothing that could be left out"},
    {"advice.fixture-none", "Leave off all that could be left out"},
    {"lever.runs", "runs half as long, {run|round} at most"},
    {"advice.runs", "Weld runs half as long, {run|round} at most"},
    {"lever.back-step-on", "runs in back-step"},
    {"advice.back-step-on", "Weld in back-step"},
    {"lever.back-step-off", "runs in skips, no back-step"},
    {"advice.back-step-off", "Weld in skips, not in back-step"},
    {"lever.heat", "a fifth less heat"},
    {"advice.heat", "Weld with a fifth less heat, proven on a coupon"},
    {"lever.side-inside", "corner and butt seams from inside"},
    {"advice.side-inside", "Weld corner and butt seams from inside"},
    {"lever.side-outside", "corner and butt seams from outside"},
    {"advice.side-outside", "Weld corner and butt seams from outside"},
    {"lever.side-other", "corner and butt seams from their other side"},
    {"advice.side-other", "Weld corner and butt seams from their other side"},
    {"lever.bends", "bends that come in half as far off"},
    {"advice.bends", "Have bends that come in half as far off"},
    {"lever.thicker", "sheet of {thickness}"},
    {"advice.thicker", "Take sheet of {thickness}"},
    {"lever.thicker-each", "each sheet the next thicker one"},
    {"advice.thicker-each", "Take each sheet the next thicker one"},
    {"lever.order", "seams in the squarest order that was found"},
    {"advice.order", "Weld the seams in the squarest order that was found (plan.xml)"},
};
} // namespace

std::span<const Entry> words_figures_en() {
  return kWords;
}

} // namespace tacksquare
