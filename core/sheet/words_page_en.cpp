// Fixed words of the page, and the terms that the plan names by a key. British words; words_en_us.cpp has
// what a US shop says otherwise.
#include "sheet/catalogue.h"

namespace tacksquare {

namespace {
constexpr Entry kWords[] = {
    {"list.next", ", "},
    {"list.last", " and "},
    {"list.nested", "; "},
    {"range.to", " to "},

    {"page.bench", "BENCH CARD"},
    {"page.foreman", "FOREMAN'S PAGES"},
    {"page.settings", "SETTINGS"},
    {"page.check", "CHECK"},
    {"page.off", "Off?"},
    {"off.above", "as above"},
    {"off.above-check", "as above for {check}"},
    {"off.step", "as in step {step}"},
    {"off.step-check", "as in step {step} for {check}"},
    {"page.stop-here", "GOOD PLACE TO STOP"},
    {"page.sign", "sign"},
    {"page.done", "step done"},
    {"page.red", "DO NOT BUILD IT LIKE THIS"},
    {"page.plan", "plan"},
    {"page.page", "page"},
    {"page.legend", "W = welder, G = grinder, B = both, F = foreman"},

    {"defer.first",
     "Local codes, a qualified welding procedure and licensed practice go before anything on this sheet."},
    {"defer.settings",
     "Settings and expected figures hold for nothing until a trial coupon has proven them."},
    {"defer.bands",
     "A range on the foreman's pages holds nine times out of ten, where it is not called a bound."},

    {"head.job", "Job {number}"},
    {"head.count", "{count} of this kind: build one, measure it, then the rest"},
    {"head.date", "wanted by {date}"},
    {"head.kit", "GET"},
    {"head.time", "TIME"},
    {"head.care", "CARE"},
    {"head.where-mm", "WHERE THE SIZE COMES FROM"},

    {"settings.title", "{id}, {process}"},
    {"settings.for", "{title} on {seams}"},
    {"settings.start", "{title}: start here, prove on the coupon"},

    {"time.first", "the pair, first one: {value} ({low} to {high})"},
    {"time.repeat", "the pair, repeat: {value} ({low} to {high})"},
    {"time.arc", "arc: {value} ({low} to {high})"},
    {"time.grind", "grinding: {value} ({low} to {high})"},
    {"time.used", "wire: {value} ({low} to {high})"},
    {"time.gas", "gas: {value} ({low} to {high})"},

    {"map.title", "SEAM MAP ({unit}, from the 0 of the drawings)"},
    {"map.seam", "seam"},
    {"map.faces", "faces"},
    {"map.length", "long"},
    {"map.tacks", "tacks at"},
    {"map.runs", "runs in order"},
    {"map.run", "({number}) {from}-{to}"},
    {"map.dab", "({number}) dab at {at}"},
    {"map.pair", "{a}-{b}"},
    {"map.below", "(3) is the third run of the whole box. A run starts at its first figure."},

    {"phase.check-parts", "CHECK PARTS"},
    {"phase.prepare", "PREPARE EDGES"},
    {"phase.mark", "MARK"},
    {"phase.coupon", "TRIAL COUPON"},
    {"phase.set-up", "SET UP"},
    {"phase.dry-fit", "DRY FIT"},
    {"phase.tack", "TACK"},
    {"phase.knock-down", "DRESS THE TACKS"},
    {"phase.weld", "WELD"},
    {"phase.cool", "COOL"},
    {"phase.release", "LET GO"},
    {"phase.check", "LOOK AND MEASURE"},
    {"phase.grind", "GRIND"},
    {"phase.final-check", "FINAL CHECK"},
    {"phase.sign", "SIGN"},

    {"who.welder", "W"},
    {"who.grinder", "G"},
    {"who.both", "B"},
    {"who.foreman", "F"},

    {"step.meanwhile", "{who} meanwhile: {text}"},
    {"step.hold", "HOLD {number}: not on without a second name"},
    {"step.hold-one", "HOLD {number}: not on without this name"},
    {"step.alongside", "Beside the step before, at the same time."},

    {"limit.over", "not over {high}"},
    {"limit.either-way", "within {high} either way"},
    {"limit.gap-gauge", "gap gauge set to {high} passes everywhere"},
    {"blank.at", "{place}:"},
    {"blank.widths", "widths"},
    {"blank.depths", "depths"},
    {"blank.heights", "heights"},
    {"expect.no-change", "expect no change you can see; more than {most}: stop"},
    {"expect.same", "expect {value}: no change you can see"},
    {"expect.value", "expect {value}"},
    {"expect.band", "expect {value} ({band})"},

    {"sign.used", "Settings used, if others"},
    {"sign.time", "Started, finished"},
    {"sign.fire", "Fire watch until"},

    {"gauge.tape", "tape"},
    {"gauge.steel-rule", "steel rule"},
    {"gauge.pinch-sticks", "pinch sticks"},
    {"gauge.calliper", "calliper"},
    {"gauge.feeler", "feeler gauge"},
    {"gauge.try-square", "try square and feeler"},
    {"gauge.straightedge", "straightedge and feeler"},
    {"gauge.gap-gauge", "gap gauge"},

    {"process.mag", "MAG"},
    {"process.mig", "MIG"},
    {"process.tig", "TIG"},
    {"process.mma", "stick"},

    {"down.rim", "rim"},

    {"heat.pos.flat", "flat"},
    {"heat.pos.horizontal", "horizontal"},
    {"heat.pos.downhill", "downhill"},
    {"heat.pos.uphill", "uphill"},
    {"heat.pos.overhead", "overhead"},

    {"joint.butt", "butt joint"},
    {"joint.corner", "corner joint"},
    {"joint.tee", "T joint"},
    {"joint.T", "T joint"},
    {"joint.lap", "lap joint"},
    {"corner.open-corner", "open corner"},
    {"corner.half-open-corner", "half-open corner"},
    {"corner.lapped-corner", "lapped corner"},
    {"weld.square", "square butt weld"},
    {"weld.fillet", "fillet weld"},
    {"weld.vee", "single-V butt weld"},
    {"weld.v", "single-V butt weld"},
    {"symbol.stitch", "stitch {length}-{pitch}"},
    {"side.outside", "outside"},
    {"side.inside", "inside"},
    {"finish.flush", "flush contour, G"},
    {"finish.left", "left as welded"},

    {"measure.width", "width"},
    {"measure.height", "height"},
    {"measure.depth", "depth"},
    {"measure.opposite-sides", "opposite sides"},
    {"measure.diagonals", "diagonals"},
    {"measure.rock", "rock on the table"},
    {"measure.wall-lean", "wall lean"},
    {"measure.belly", "belly"},
    {"measure.gap", "gap"},
    {"measure.step", "step between faces"},
    {"measure.proud", "proud after grinding"},
    {"place.rim", "rim"},
    {"place.middle", "middle"},
    {"place.back", "back"},
    {"place.overall", "overall"},

    {"mark.published", "published source"},
    {"mark.standard", "standard"},
    {"mark.derived", "derived"},
    {"mark.from-memory", "from memory, not verified"},
    {"mark.common-practice", "common practice, no source"},
    {"mark.stated", "stated in the job file"},

    {"foreman.cautions", "Cautions"},
    {"foreman.settings", "Settings to prove"},
    {"foreman.prove", "{settings}: a starting point for a trial coupon, not a procedure."},
    {"foreman.odd", "{settings}: {text}"},

    {"tack-orders.title", "The order of the tacks beside others"},
    {"tack-orders.order", "order"},
    {"tack-orders.worst", "the worse of both"},
    {"tack-orders.square", "square when tacked"},
    {"tack-orders.gap", "gap ahead"},
    {"tack-orders.gap-mm", "widest gap ahead, range"},
    {"tack-orders.below",
     "Means over what is not known, in parts of the limit: of the finished box for square, of "
     "a gap that is welded as it is for the gap at a tack whose seam has one. Searched: the best of those "
     "that "
     "were tried, by other draws. Source: theory.md, Tacks."},
    {"tack-orders.says", "Orders within 0.10 are equal: the simplest of them is taken."},
    {"tack-order.planned", "rim first, crosswise, halving"},
    {"tack-order.round-about", "rim first, round about, halving"},
    {"tack-order.seam-by-seam", "rim first, then seam by seam"},
    {"tack-order.searched", "searched"},
    {"tack-order.chosen", " (this sheet)"},
    {"orders.title", "The order of the seams beside others"},
    {"orders.order", "order"},
    {"orders.turns", "turns"},
    {"orders.square", "squareness, worst limit"},
    {"orders.chance", "keep all limits"},
    {"orders.worst", "heat off centre, worst"},
    {"orders.mean", "heat off centre, mean"},
    {"orders.hottest", "hottest arc start"},
    {"orders.below", "The planned order stands run by run in the table of heat, the others in plan.xml."},
    {"orders.by-heat-alone",
     "No order is preferred for squareness: what others would do to it is not computed here."},
    {"orders.proven", "By heat no allowed order is better: all were weighed."},
    {"orders.searched", "By heat the best of those that are as square, not of all."},
    {"orders.says",
     "Heat: turns first, then how far the heat lies off the centre (in parts of half the box's diagonal) "
     "and how warm the metal is where an arc starts. Squareness: the mean, over what is not known, of the "
     "worst of diagonals, rock, lean and opposite sides of the cold box, in parts of its limit. Keep all "
     "limits: of 2000 boxes, good to about 2 in 100."},
    {"order.planned", "planned"},
    {"order.by-id", "by number"},
    {"order.round-and-round", "round and round"},
    {"order.longest-first", "longest first"},
    {"order.balanced", "best by heat"},
    {"order.squarest", "squarest that was found"},
    {"order.worst", "worst that was found"},
    {"order.whole", "each seam in one go, any turns"},
    {"order.in-rounds", "in rounds, few turns"},
    {"order.own", "the shop's own, seam after seam"},
    {"proof.title", "How sure it is that no order is squarer"},
    {"proof.what", "orders; in rounds and with as few turns as can be where nothing else is said"},
    {"proof.worst-limit", "worst limit"},
    {"proof.none-beyond", "none is beyond"},
    {"proof.nominal", "tacks keep their force, middle of all that is not known: the best"},
    {"proof.least", "tacks keep their force, mean over 32 boxes: the best"},
    {"proof.most", "the same: the worst"},
    {"proof.any", "each seam in one go, in any order with any turns, tacks keep their force: the best"},
    {"proof.squarest", "tacks keep their force or melt, mean over 32 boxes: the squarest that was found"},
    {"proof.planned", "the same: as planned"},
    {"proof.proven", "Of tacks that keep their force all {orders} orders were weighed: proven to {within} of "
                     "the limit."},
    {"proof.open",
     "Of tacks that keep their force there are {orders} orders; the search was cut short before "
     "it was proven to {within} of the limit, and the best may be as far off as the last column says."},
    {"proof.whole", "tacks keep their force, seams as wholes, mean over 32 boxes: the best that was found"},
    {"proof.too-large", "There are too many seams in one group to prove the best: it was searched, and a "
                        "better one may be up to {gap} of the limit better."},
    {"proof.all", "Where tacks melt under the bead it hangs on the way the box came about: gone through were "
                  "{tried} orders, among them all within {width} of the proven best."},
    {"proof.some",
     "Where tacks melt under the bead it hangs on the way the box came about: gone through were "
     "{tried} orders, the best of them by a search. Those within {width} of a limit are equal; "
     "of them the best by heat is taken."},
    {"proof.plain",
     "Where tacks melt under the bead it hangs on the way the box came about: gone through were "
     "{tried} orders, the plain ones and the best and the worst of above, and not searched further. "
     "Those within {width} of a limit are equal; of them the best by heat is taken."},
    {"proof.in-one-go",
     "None of these is within {width} of the squarest that welds each seam in one go, so that is planned: "
     "of those within {width} one of few turns and little heat off centre, by moving one seam at a time."},
    {"proof.matters-none",
     "The order of the seams does nothing here that could be seen: {order} of the limit "
     "between the squarest and the worst. It is kept for the heat."},
    {"proof.matters-below", "The order of the seams does less here than boxes differ anyhow: {order} of the "
                            "limit between the squarest and the worst, +-{scatter} from box to box."},
    {"proof.matters-at", "The order of the seams does about as much here as boxes differ anyhow: {order} of "
                         "the limit between the squarest and the worst, +-{scatter} from box to box. "
                         "Keep to it."},
    {"proof.matters-above", "The order of the seams decides here: {order} of the limit between the squarest "
                            "and the worst, +-{scatter} from box to box. Keep to it."},
    {"proof.own", "The shop's own order, each seam finished before the next: {own} of the limit, as planned "
                  "{planned}; the chance that all limits hold is {chance} against {planned-chance}."},
    {"proof.finer", "On elements of {mesh} it is the same: as planned {planned}, the squarest of above "
                    "{squarest}."},
    {"proof.passed-over", "On elements of {mesh} it is not the same: the order that would be planned by the "
                          "figures above comes to "
                          "{other} there, what is planned instead to {planned}, the squarest to {squarest}."},
    {"proof.error",
     "A mean over 32 boxes is good to +-{error} of the limit (90 %). Orders are weighed by the same "
     "boxes: between them it is less."},
    {"proof.says", "More turns are planned only where no order of fewer is as square. Source: "
                   "theory.md, The order of seams. A seam of another shop's hand, other tacks, or a "
                   "fit worse than the limits of fit-up can make another order the better one."},

    {"heat.title", "Heat, run by run"},
    {"heat.order", "no."},
    {"heat.run", "run"},
    {"heat.from-to", "from, to"},
    {"heat.position", "position"},
    {"heat.down", "down"},
    {"heat.arc", "arc"},
    {"heat.heat", "net heat"},
    {"heat.warmth", "warmer"},
    {"heat.below", "From, to in {unit}. Down: the face on the table. Warmer: where the arc starts, above the "
                   "shop."},
    {"heat.range", "Nine times out of ten an arc takes {arc-low} to {arc-high} times what stands here, and "
                   "brings {low} to {high} times "
                   "the net heat; the warmth goes with it, and with the air in the shop."},
    {"heat.chart", "Warmer than the shop where the arc starts, run by run"},

    {"measures.title", "What will be measured"},
    {"measures.what", "measure"},
    {"measures.at", "{kind}: {where}"},
    {"measures.one", "{heads}, {tails}"},
    {"measures.each", "{heads}, each at {tails}"},
    {"measures.gauge", "gauge"},
    {"measures.limits", "limits"},
    {"measures.expected", "expected"},
    {"measures.band", "range"},
    {"measures.chance", "chance kept"},
    {"measures.formula", "by formula"},
    {"measures.sources", "limit, figure"},
    {"measures.below", "Limits are rounded to the strict side. Places within 0.06 mm of each other share a "
                       "row. Bounds: between a free edge and a fully tacked one; no chance "
                       "is given for them."},
    {"measures.put-back", "Blanks are cut larger than drawn (minus: smaller) by what the welds take at the "
                          "corners, on average: {width} along the width, {depth} along the depth, {height} "
                          "along the height. All sizes here are of such blanks."},
    {"measures.below-elastic", "Limits are rounded to the strict side. Expected: the elastic box, its welds, "
                               "tacks and usual misfit step "
                               "by step. By formula: closed forms beside it, as a check; their bounds lie "
                               "between a free edge and a fully "
                               "tacked one. No figure: the face buckles, or nothing is computed."},

    {"figures.title", "Figures"},
    {"figures.what", "figure"},
    {"figures.value", "value"},
    {"figures.band", "range"},
    {"figures.source", "source"},
    {"figure.bounds", "{range}, bounds"},
    {"figure.exact", "as drawn"},
    {"figure.none", "-"},

    {"seams.title", "Seams and weld symbols"},
    {"seams.seam", "seam"},
    {"seams.faces", "faces"},
    {"seams.symbol", "{seams}: {symbol}."},
    {"seams.welded", "welded"},
    {"seams.bead", "bead"},
    {"seams.throat", "throat left"},
    {"seams.heat", "net heat"},
    {"seams.wire", "wire"},
    {"seams.settings", "settings"},
    {"seams.below", "Terms of ISO 2553 and AWS A2.4: G is by grinding, a stitch is length-pitch."},
    {"seams.level", "Look-level where the order states none: ISO 5817 C, looked at by ISO 17637."},

    {"lanes.title", "The pair's time, step by step"},
    {"lanes.chart", "Who does which step when"},
    {"lanes.step", "step"},
    {"lanes.who", "who"},
    {"lanes.start", "from"},
    {"lanes.takes", "takes"},

    {"sources.title", "Where the figures come from"},
    {"sources.number", "no."},
    {"sources.source", "source"},
    {"sources.mark", "how sure"},

    {"draw.box", "The box from the front, above and right"},
    {"draw.box.told", "The box in space with seams {seams} and faces {faces}."},
    {"draw.shape", "How the welds pull the box, {times} times as large: at most {most}"},
    {"draw.shape.told", "Every edge of the box as drawn, dashed, and as the welds move it, {times} times as "
                        "large; at most {most}."},
    {"draw.face", "{id} {name}, from outside: {size}"},
    {"draw.face.own", "{id}, from outside: {size}"},
    {"draw.face.told", "Face {id} as seen from outside, with its seams, tacks and runs as in the seam map."},
    {"draw.by", " x "},
    {"draw.flat", "{part} flat, outside up: {size}"},
    {"draw.flat.told",
     "The flat part {part}: what is cut, its bends by name, their places, and what is etched."},
    {"draw.rim", "RIM"},
    {"draw.vent", "vent"},
    {"draw.up", "UP"},
    {"draw.front", "FRONT: you stand here"},
};
} // namespace

std::span<const Entry> words_page_en() {
  return kWords;
}

} // namespace tacksquare
