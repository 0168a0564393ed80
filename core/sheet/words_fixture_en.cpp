// The set-up card, and the fixture on the foreman's pages.
#include "sheet/catalogue.h"

namespace tacksquare {

namespace {
constexpr Entry kWords[] = {
    {"page.fixture", "SET-UP CARD"},
    {"fixture.fact", "Fixture {name}: set-up card."},
    {"fixture.head", "Fixture {name}"},
    {"fixture.get-first", "GET FIRST: YOU DO NOT HAVE IT"},
    {"fixture.missing", "{line}: {wanted} needed, {owned} in the shop"},

    {"fixture.kind.stop", "stop"},
    {"fixture.kind.support", "support"},
    {"fixture.kind.hold-down", "hold-down"},
    {"fixture.kind.bar-clamp", "sash cramp"},
    {"fixture.kind.corner-clamp", "corner clamp"},
    {"fixture.kind.square", "square"},
    {"fixture.kind.former", "former"},
    {"fixture.kind.spreader", "spreader"},
    {"fixture.kind.backing-bar", "backing bar"},
    {"fixture.bill", "{count} x {what}"},
    {"fixture.bill.bar-clamp", "{count} x {what}, opens {size}"},
    {"fixture.bill.square", "{count} x {what}, arms of {size}"},
    {"fixture.bill.spreader", "{count} x {what}, {size} long"},
    {"fixture.bill.backing-bar", "{count} x {what}, {size} long"},

    {"fixture.lies", "{down} on the table, {long} against the two stops, {short} against the one."},
    {"fixture.lies-rim", "RIM on the table, {long} against the two stops, {short} against the one."},
    {"fixture.lies-free", "{down} on the table. No stop finds a place: it is held from within alone."},
    {"fixture.zero", "Stand at {long}. 0 is the corner in front of you on the left: x to the right, y away "
                     "from you, z up from the table."},
    {"fixture.on-table",
     "Table {width|round} x {depth|round}: 0 is about {left|round} from its left edge and "
     "{front|round} from the edge in front of you."},

    {"fixture.table", "What goes where, in this order ({unit}, from 0)"},
    {"fixture.id", "piece"},
    {"fixture.what", "what"},
    {"fixture.against", "against"},
    {"fixture.x", "x"},
    {"fixture.y", "y"},
    {"fixture.z", "z"},
    {"fixture.presses", "presses with"},
    {"fixture.set", "set"},
    {"fixture.of-width", "{what} {width} wide"},
    {"fixture.of-length", "{what} {length} long"},
    {"fixture.of-arms", "{what}, arms of {size}"},
    {"fixture.frame", "{what} {width} x {height}"},
    {"fixture.frame-cut", "{what} {width} x {height}, corners cut off {clip}"},
    {"fixture.behind", "behind {seam}, {from} to {to}"},
    {"fixture.inside", "inside {faces}"},
    {"fixture.corner", "corner {faces}"},
    {"fixture.leaves", "{pieces} OFF in step {step}: {why}."},
    {"fixture.why.torch", "in the way of the torch"},
    {"fixture.why.grinder", "in the way of the grinder"},
    {"fixture.why.turn", "the box is turned"},
    {"fixture.why.tacked", "held through the welds it would leave the box worse"},
    {"fixture.why.shut", "the box is shut next"},
    {"fixture.early", "COMES OFF EARLY"},
    {"fixture.rest", "All others stay until the box is let go."},

    {"fixture.check", "CHECK THE TABLE BEFORE THE BOX GOES ON IT"},
    {"fixture.check.line", "Straightedge against {left} and {right}: that is the line of y = 0. Scribe it. 0 "
                           "is on it, {at} to the left of the middle of {left}."},
    {"fixture.check.square",
     "{short} square to that: mark {along-x} from 0 on the first line and {along-y} from "
     "0 away from you, the marks {across} apart ({gauge}, not over {off} off). Scribe "
     "that line, too: it is x = 0, and {short} touches it."},
    {"fixture.check.supports", "Straightedge over {supports}, two at a time: feeler not over {off}."},
    {"fixture.check.former", "{id}: sides first, {width} twice and {height} twice ({gauge}). Then its "
                             "diagonals, not over {off} apart (pinch sticks); about {diagonal}."},
    {"fixture.check.former-cut",
     "{id}: sides first, {width} twice and {height} twice ({gauge}). Then its "
     "diagonals, from the middle of one cut corner to the middle of the other, not "
     "over {off} apart (pinch sticks); about {diagonal}."},
    {"fixture.check.push",
     "Box on it: push to {left} and {right} first, then along to {short}. It touches all "
     "three: a feeler of {feeler} goes in nowhere."},

    {"draw.fixture", "The table from above ({unit} from 0)"},
    {"draw.fixture.told",
     "The table from above, the box {width} along x and {depth} along y, 0 in its corner "
     "below on the left. {pieces}. All of it is in the table."},
    {"draw.fixture.piece", "{id} {what}"},
    {"draw.fixture.down", "{face} DOWN"},
    {"draw.fixture.stand", "YOU STAND HERE"},
    {"draw.fixture.wall", "{face} from outside ({unit} up)"},
    {"draw.fixture.wall.told", "Face {face} as seen from outside, with the heights of {pieces} as in the "
                               "table."},
    {"draw.fixture.table", "table"},

    {"fixture.foreman", "Fixture: how well the box is fixed, and what presses on it"},
    {"fixture.figure", "figure"},
    {"fixture.value", "value"},
    {"fixture.six", "located by"},
    {"fixture.six.table", "the table"},
    {"fixture.rank", "rank of the six places"},
    {"fixture.determinant", "their determinant"},
    {"fixture.error", "error of each place"},
    {"fixture.worst", "a corner of the box moves by then, at worst"},
    {"fixture.turn", "the two stops turn it by then, at worst"},
    {"fixture.presses-piece", "{id}, {what}, presses with"},
    {"fixture.needs-piece", "{id}, {what}: the walls pull with up to"},
    {"fixture.table-piece", "{id}: the table under it carries, beside the box's weight"},
    {"fixture.stops",
     "Stops carry nothing while the box lies still. Whatever pushes it along, all stops together get no more "
     "than friction passes on: {force} ({there} of what presses on the table, dry; from memory); more, and "
     "the box "
     "slides."},
    {"fixture.sticks-piece", "{id}, {what}: to hold its walls from sliding"},
    {"fixture.sticks", "{force}, friction {needed} of {there}: sticks"},
    {"fixture.slides", "{force}, friction {needed} of {there}: slides up to {slide}"},
    {"fixture.friction.below",
     "To hold its walls from sliding: the expected slide where nothing holds it, stopped by a place as stiff "
     "along "
     "the wall as square to it, each by itself. Friction needed, of what there is: steel on steel, dry; from "
     "memory."},
    {"fixture.friction.most", "What the model lets slide and friction would hold: {slide} at most."},
    {"fixture.stand",
     "Fixture: what the box stands on after {after}, cold; it weighs {weight}; x, y in {unit} from 0"},
    {"fixture.stand.on", "on"},
    {"fixture.stand.carries", "carries"},
    {"fixture.stand.range", "of 100 boxes 90 lie in"},
    {"fixture.stand.nothing", "stands off there, of 100 boxes"},
    {"fixture.stand.below",
     "Each place pushes and never pulls, and may be out of level with the others as a stop is out of place. "
     "Where it stands off a box rocks until it is pressed down: no fault of it yet. "
     "Derived: theory.md, What it stands on; out of level: common practice, no source."},
    {"fixture.stand.tips", "It tips over unless it is pressed down."},
    {"fixture.compared", "Fixture: more of it, or less"},
    {"fixture.compared.held", "held by"},
    {"fixture.compared.pieces", "pieces in all"},
    {"fixture.compared.kept", "of 100 boxes keep all limits"},
    {"fixture.compared.throughout", "all, until torch, lid or release wants it out"},
    {"fixture.compared.for-tacks", "all, what is inside out before the first weld"},
    {"fixture.compared.none", "nothing that could be left out"},
    {"fixture.compared.rim-alone", "what is inside alone, no corner clamps: worse than nothing"},
    {"fixture.compared.as-planned", "fewer"},
    {"fixture.compared.as-planned-for-tacks", "fewer, what is inside out before the first weld"},
    {"fixture.compared.without", "as planned, but without {piece}"},
    {"fixture.compared.chosen", " - PLANNED"},
    {"fixture.compared.below",
     "Counted over 2000 boxes made up by chance, good to 2 in a hundred, on a coarser net than the expected "
     "figures; "
     "rows are counted over the same boxes. The fewest pieces "
     "that lose "
     "not more than one box of a hundred against the best of: all, what is inside alone, corner clamps "
     "alone, "
     "nothing. Of panels that stand loose each corner keeps a piece that sets it. "
     "Seams are taken to shrink the same, held or not."},
    {"fixture.compared.exact", "Exact: smaller sets, all weighed, none keeps as much: {count}."},
    {"fixture.compared.eliminated",
     "Left out one after the other, the one that is missed least: a smaller set is not ruled out."},
    {"fixture.compared.left-on", "Not weighed, and left as they are: {pieces}. Stops and supports find the "
                                 "box, backing carries heat away, cramps "
                                 "that press no former push loose panels onto the edge that they are tacked "
                                 "to: the model takes that as done."},
    {"fixture.unweighed",
     "Not weighed whether fewer pieces would do: there are too many tacks and welds for it, or its "
     "figures cannot be trusted."},
    {"fixture.stated", "Stated by the shop, not chosen here."},
    {"fixture.foreman.below",
     "Rank 6: nothing can slide or turn. The determinant is twice the area between the "
     "three places underneath, times what the two stops stand apart: the larger the "
     "better. Error of a place: common practice, no source. What walls pull: the elastic box, 95 in 100 lie "
     "below."},
    {"fixture.bill.title", "Fixture: what it takes"},
    {"fixture.bill.what", "what"},
    {"fixture.bill.size", "size"},
    {"fixture.bill.wanted", "needed"},
    {"fixture.bill.owned", "owned"},
    {"fixture.bill.missing", "missing"},
    {"fixture.bill.unknown", "not stated"},
};
} // namespace

std::span<const Entry> words_fixture_en() {
  return kWords;
}

} // namespace tacksquare
