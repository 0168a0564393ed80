// The opening page: the row in its opening.
#include "sheet/catalogue.h"

namespace tacksquare {

namespace {
constexpr Entry kWords[] = {
    {"page.row", "OPENING PAGE"},
    {"row.count", "{stands} {stands|box/boxes} side by side"},
    {"row.never",
     "Even the smallest boxes that are allowed are too many for {opening}: one fewer, or other sizes."},
    {"row.more-likely-not",
     "More likely than not it does not go in: of 100 such rows {count} would. Cut nothing yet."},

    {"head.gauge", "{opening}: gap gauge {gauges}"},
    {"head.gauges", "{opening}: gap gauges {gauges}, by their place on the opening page"},
    {"head.left-right", "left [ ] right [ ]"},
    {"head.left-middle-right", "left [ ] middle [ ] right [ ]"},
    {"head.place", "place from the left ____ of {places}"},

    {"chance.fewer", "fewer than {count}"},
    {"chance.more", "more than {count}"},
    {"chance.range", "{value} ({low} to {high})"},

    {"row.make-all", "Make them {size} wide."},
    {"row.make-each", "Make {each}."},
    {"row.make-one", "no. {places} {size} wide"},
    {"row.chance-stated", "As drawn, of 100 rows go in: {count}."},
    {"row.chance-aimed", "Made like this, of 100 rows go in: {count}. Wanted: {wanted}."},

    {"row.stands", "The boxes, from the left as you stand in front"},
    {"row.place", "no."},
    {"row.box", "box"},
    {"row.drawn", "drawn"},
    {"row.make-it", "make it"},
    {"row.gauge", "gap gauge"},
    {"row.smallest", "not under"},
    {"row.gap", "gap on its left"},
    {"row.expected", "expect at the widest"},
    {"row.note", "note"},
    {"row.copy", "{name} {copy}"},
    {"row.note.cut-last", "cut last"},
    {"row.note.measured", "as measured"},
    {"row.note.keeps-size", "keeps its size"},
    {"row.note.overhang", "lips or lid take {by} more"},
    {"row.note.leans-right", "top leans {by} to the right"},
    {"row.note.leans-left", "top leans {by} to the left"},
    {"row.gauge-how", "Gap gauge: a flat bar with two end blocks, set to this. It passes over the box "
                      "everywhere, middle of the "
                      "walls too, before paint or powder. All widths here are before paint or powder."},
    {"row.go-stick", "Go stick: a bar {stick} long. It passes through the opening everywhere, or the opening "
                     "is not as it was "
                     "measured."},
    {"row.go-stick-height", "Go stick for the height: {stick}."},

    {"row.budget", "Where the width goes ({unit}), dearest first"},
    {"row.cause", "what"},
    {"row.average", "on average"},
    {"row.worst", "worst case"},
    {"row.rss", "root-sum-square"},
    {"row.share", "for {wanted} in 100"},
    {"row.source", "source"},
    {"row.narrowest", "Opening at its narrowest: {at}"},
    {"row.lost-plumb", "sides out of plumb, floor out of level"},
    {"row.lost-obstacles", "in the way: {names}"},
    {"row.clear", "Clear width"},
    {"row.boxes", "{stands} {stands|box/boxes} as drawn"},
    {"row.boxes-measured", "{stands} {stands|box/boxes} as measured"},
    {"row.gaps", "gaps wanted"},
    {"row.clearance", "clearance wanted over all"},
    {"row.free", "Left for all that follows"},
    {"row.together", "Together"},
    {"row.left", "Left over as drawn"},
    {"row.target", "size to make, by this rule"},
    {"row.none-good", "none good"},
    {"row.each", "Each box by itself at its widest, made to its size, before paint or powder"},
    {"row.dearest", "costs most"},
    {"row.all-built", "All are built. As they are, of 100 rows go in: {count}. Wanted: {wanted}."},
    {"row.held",
     "HOLD: cut and build nothing more of {name} before the first-off of its sheet is cleared up."},
    {"row.too-high", "The boxes are more likely too high for the opening than not. See BESIDES."},
    {"row.too-deep", "The boxes are more likely too deep for the opening than not. See BESIDES."},
    {"row.target-of", "size to make of no. {place}, by this rule"},
    {"row.over-gauge",
     "A box that does not pass it is no scrap yet: write its widest place down; what it is over, another "
     "may be under. The nine readings of the row decide."},
    {"row.left-how", "Left over with a minus: too wide by that."},
    {"row.rss-how",
     "Worst case: everything goes wrong the same way at once. Root-sum-square: seldom all of it does, so its "
     "lines do not add up one by one. The last column is what each takes when the row is to go in as often "
     "as "
     "wanted."},
    {"row.rule",
     "The sizes to make go by {rule}. By hand, with the allowance for belly and proud corners: {hand}."},
    {"row.by-chance", "the chance wanted"},
    {"row.by-root-sum-square", "root-sum-square"},
    {"row.by-worst-case", "the worst case"},
    {"row.draws-how", "How many of 100 go in: counted over {draws} rows made up by chance out of the causes "
                      "above; in brackets how "
                      "far that count can be trusted, nine times out of ten."},

    {"cause.blank", "blanks, cut too large or small"},
    {"cause.thickness", "sheet thicker or thinner"},
    {"cause.bend-place", "bends off their line"},
    {"cause.bend-lean", "bends off square, walls lean"},
    {"cause.fit-gap", "gaps at fit-up"},
    {"cause.fit-step", "steps at fit-up"},
    {"cause.weld", "weld shrinkage"},
    {"cause.grinding", "caps left proud"},
    {"cause.coating", "paint or powder"},
    {"cause.belly", "belly of the walls"},
    {"cause.rack", "boxes out of square"},
    {"cause.common", "what all of one kind have, as the first showed"},
    {"cause.overhang", "lips and lids that stand out"},
    {"cause.gauge", "reading the gauge"},

    {"row.last", "CUT LAST"},
    {"row.last-known", "No. {place}: {sum} = {aimed}."},
    {"row.last-most", "Never wider than {drawn}: what is left then is for the packer."},
    {"row.last-line", "No. {place}: {sum} = ____ {unit}"},
    {"row.last-how", "Fill in the widest place of no. {others}, measured before paint. If they come out as "
                     "expected, that gives "
                     "{aimed}. Readings in the job file make it sharper: plan again."},
    {"row.nesting", "ORDER"},
    {"row.nested", "Stand them {order}: so their leans nest, {row} in all. In the order above: {listed}."},
    {"row.nested-as-listed", "The order above is the one in which their leans nest best: {row} in all."},
    {"row.flush", "MUST BE FLUSH"},
    {"row.seam-cap", "{box}, side {side}: the cap of {where}. Left as welded it takes {proud} of the width."},
    {"row.bend-bulge",
     "{box}, side {side}: the bulge at the ends of bend {where}. Left alone it takes {proud} of the width."},
    {"row.entry", "HOW THEY GO IN"},
    {"row.entry.slide", "No. {places}: slide in from the front, upright."},
    {"row.entry.lower", "No. {places}: lowered from above."},
    {"row.entry.lean", "Lean it by no more than {lean} on the way in."},
    {"row.entry.tip", "No. {places}: foot first, then swung upright: the swing takes {sweep} of height."},
    {"row.rest", "BESIDES"},
    {"row.reading", "HOW TO READ THIS"},
    {"row.height", "Clear height {clear} ({at})."},
    {"row.depth", "Clear depth {clear} ({at})."},
    {"row.each-fits", "Of 100 boxes fit: {count}."},
    {"row.packer", "At the end of the row expect {packer}: fill it with a trim or a {=word.shim}."},

    {"opening.at.top", "top"},
    {"opening.at.middle", "middle"},
    {"opening.at.under", "under"},
    {"opening.at.left", "left"},
    {"opening.at.right", "right"},
    {"opening.at.front", "front"},
    {"opening.at.back", "back"},

    {"draw.row", "The row from the front. Gaps, paint and packer are drawn much larger than they are."},
    {"draw.row.told", "The boxes of the row, numbered from the left, in their opening."},
    {"draw.row.clear", "clear {width}"},
    {"draw.row.narrowest", "NARROWEST"},
    {"draw.row.coating", "paint or powder {coating} a face"},
    {"draw.row.gap", "gap {gap}"},
    {"draw.row.packer", "packer {packer}"},
    {"draw.row.over", "as drawn too wide by {over}"},
};
} // namespace

std::span<const Entry> words_row_en() {
  return kWords;
}

} // namespace tacksquare
