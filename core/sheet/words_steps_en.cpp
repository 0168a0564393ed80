// What to do, where to look, what to put right: the bench card in the words of a British shop. Words that a
// US shop says otherwise stand under "word." and are overridden in words_en_us.cpp.
#include "sheet/catalogue.h"

namespace tacksquare {

namespace {
constexpr Entry kWords[] = {
    {"plain", "{text}"},
    {"seams", "{seams}"},

    {"word.bar-clamps", "sash cramps"},
    {"word.former", "former"},
    {"word.work-clamp", "earth clamp"},
    {"word.shim", "packer"},
    {"word.knock-down", "Dress the tacks"},
    {"word.flush", "Dress flush"},
    {"word.brake", "brake press"},
    {"word.racked", "out of square"},
    {"word.runs", "runs"},

    // Check parts
    {"step.count-parts", "Count parts and kit: {parts} in all. Calliper the sheet on three edges."},
    {"look.cut-edges", "Cut edges: burr side, oxide from the cutter, oil, rust."},
    {"step.wall-lean", "Check wall lean. Try square on the base against each wall, at both ends."},
    {"look.wall-lean",
     "Read the gap at the free edge. Half a degree of bend shows there: tell it now, not after welding."},
    {"step.panels", "Check panels by stacking opposite ones. No tape: feel the edges all round."},
    {"look.panels", "Stack square: edges level all round, then turn one over and stack again."},

    // Prepare edges
    {"step.prepare-steel", "Seam edges: burr off, oxide, scale and oil off {width} back, inside and out."},
    {"step.prepare-galvanized",
     "Seam edges: zinc off {width} back, both sides, burr and oil off. Extraction on."},
    {"step.prepare-stainless",
     "Seam edges: burr off, wipe with acetone {width} back. Stainless brush and discs only."},
    {"step.prepare-aluminium",
     "Seam edges: degrease, then stainless brush {width} back, in this order. Weld in the same shift."},

    // Mark
    {"step.mark", "Paint pen, where no grinding comes: face letters, seams {seams}, arrow UP, tack ticks."},
    {"look.mark", "A box that has been turned twice has no seam numbers left unless they are on the metal."},
    {"step.witness-marks",
     "Centre-punch witness marks {in} in from the corners of every face: diagonals are taken on them."},

    // Coupon
    {"step.coupon",
     "Coupon {settings}, for {seams}: two offcuts {length} x {width}, same joint, same position."},
    {"look.coupon", "No hole, no undercut, even bead; break it open: fused to the root corner."},
    {"look.coupon-through",
     "Root shows all along on the back, no hole; opens flat under the hammer without a crack."},
    {"record.wire", "USED: wire feed ____  V ____  travel ____"},
    {"record.amps", "USED: A ____  V ____  travel ____"},

    // Set up
    {"step.table", "Table clean and flat. Two stops on the long side, one on the short side, square."},
    {"step.lay-down", "Lay the box {attitude}, against the stops. Weight on it. Does it rock?"},
    {"step.build-up", "Base panel down, against the stops; then the walls. The last face stays off."},
    {"look.work-clamp", "{=word.work-clamp} on bare metal of the box, not on the table."},
    {"step.inside-squares", "Squares in the inside corners: {pieces} in. Write {pieces} on the base."},
    {"why.count-out", "What goes inside must come out before the box is shut."},
    {"step.former",
     "Inside {=word.former} {width} x {height} in, {below} below the rim, wedge finger-tight."},
    {"why.comes-out", "It must come out again: corners clipped clear of the seams."},
    {"step.hold-faces", "Hold the faces to each other with squares and blocks at every seam."},
    {"step.clamps-open",
     "{=word.bar-clamps} across the rim, both ways, and at half depth. Corner clamps on every seam."},
    {"step.clamps-closed",
     "{=word.bar-clamps} round the walls, low and high. Corner clamps on the uprights."},

    // Dry fit
    {"step.gaps", "Check fit: gap and step of each seam at start, middle and end."},
    {"step.square-dry", "Check square, no arc yet. Opposite sides first, THEN the diagonals."},
    {"look.sides-first", "Equal diagonals prove square only when opposite sides are equal."},

    // Tack
    {"step.tack-rim", "Tack, {places}."},
    {"step.tack", "Tack, {places}."},
    {"step.tack-rest", "Tack the rest, in this order: {places}."},
    {"step.tack-lid", "Tack the last face: {places}."},
    {"tacks.at", "at {at}: {seams}"},
    {"look.hold-flat", "The other holds the faces level with a block."},
    {"look.tacks", "Look for cracks. A cracked tack is cut out, not welded over."},
    {"step.hold-fit-up", "Fit-up: read the diagonals. Point tacks still act as hinges: nothing need be cut."},
    {"step.diagonals-again", "Diagonals again."},
    {"step.inside-finished", "Finish the inside now: {face} goes on next and there is no way back in."},
    {"look.inside-clean", "Spatter, oil, chips, offcuts out. Nuts, baffles and inside welds done."},
    {"step.tooling-out", "Inside tooling out and counted: {pieces} in, {pieces} out."},
    {"record.tooling", "OUT ____"},
    {"step.vent-open", "Vent {vents} is there and open. It stays open through all welding and cooling."},
    {"vent.of", "{diameter} in face {face}"},
    {"why.vent", "Trapped warm air bulges the faces and blows the puddle out at the tie-in."},
    {"step.lid-trim",
     "Measure the opening at both ends, both ways; trim {face} to it, not to the drawing; lay it on."},
    {"look.lid-trim", "The last face is the part that forgives: it is cut last."},
    {"step.knock-down", "{=word.knock-down} to {to} and feather both ends: {tacks} tacks."},
    {"look.knock-down", "Every tack left standing is a lump and a cold start."},
    {"meanwhile.tip", "new tip, nozzle clean"},

    // Weld
    {"step.clamps-off", "Corner clamps OFF. {=word.former} and {=word.bar-clamps} STAY."},
    {"step.clamps-off-closed", "Corner clamps OFF where the torch goes. {=word.bar-clamps} STAY."},
    {"look.vent", "Vent open?"},
    {"step.run", "{seam}  {from} -> {to}, about {time}."},
    {"step.stitches", "{seam}  {stitches} stitches of {length} every {pitch}, about {time} each."},
    {"step.dabs", "Ends and relief holes of {seams}: one dab each, {dabs} in all. Copper behind."},
    {"look.tie-in", "Tie in {over} over the run before."},
    {"look.dabs", "No crater on a free edge."},
    {"step.turn", "Turn the box: {attitude}. {lift}."},
    {"look.turn", "Not on a corner. Stops again; table clean of spatter."},
    {"step.look-half-way", "Look at the welds; read the diagonals."},
    {"look.weld", "Holes, undercut, missed edge, open crater."},
    {"step.now", "{step} Now {position}."},
    {"step.now-settings", "{step} Settings {settings} now, {position}."},
    {"position.flat", "flat"},
    {"position.horizontal", "horizontal"},
    {"position.downhill", "downhill, torch pointing up 10-15 deg"},
    {"position.uphill", "uphill"},
    {"position.overhead", "overhead"},
    {"lift.one", "One person lifts"},
    {"lift.two", "Two lift"},
    {"lift.hoist", "Hoist"},
    {"meanwhile.next-parts", "check the parts of the next box"},
    {"meanwhile.grinder-ready", "discs and gauges ready, screen up, look at each run when it is done"},

    // Cool and release
    {"step.cool", "COOL. Leave everything clamped."},
    {"until.touch", "Not before the {limit} crayon stays dry on every seam (about {low} to {high})."},
    {"why.vent-cooling", "Vent stays open: cooling air sucks the faces in."},
    {"meanwhile.next-box", "next box, steps {steps}"},
    {"meanwhile.tidy", "tidy, gauges clean, settings and times into the record"},
    {"step.release", "Wedge out, {=word.former} out, {=word.bar-clamps} off."},
    {"step.release-closed", "{=word.bar-clamps} off."},
    {"look.release", "Stuck? Tap the wedge. Never pry on a wall."},

    // Check
    {"step.square-as-welded",
     "As welded, hand-warm will do: opposite sides, diagonals, rock, walls, bellies."},
    {"look.widest", "The widest place is mid-wall or a proud corner, hardly ever where the diagonals look."},
    {"step.hold-as-welded",
     "As welded, cold: sizes. Run a finger over the corners first: no spatter under the gauge."},
    {"until.measure", "Box as cold as the shop (about {time} after the last arc)."},

    // Grind
    {"until.grind", "Not before the {limit} crayon stays dry."},
    {"step.grind", "{grit} flap, along the seam, disc flat, 3 s at most in one place: {seams}. Twice round."},
    {"look.grind", "Proud a little is good; a dig cannot be put back."},
    {"step.grind-finish",
     "New {grit} disc, same order: {seams}. Corner to radius {radius}, spatter off, wipe."},
    {"look.grind-finish", "Rule across the seam: no light, no step to feel."},
    {"look.grind-stainless",
     "Light hand: blue means too hot, and thin stainless warps. Discs kept for stainless only."},
    {"meanwhile.welder-looks", "looks at the ground seams for pinholes; next box"},
    {"step.pinholes", "Look along every ground seam against the light. Pinhole: dab 1 s, cool, grind again."},
    {"look.pinholes", "Straightedge across: proud and dig."},
    {"record.pinholes", "PINHOLES ____"},
    {"step.clean-inside", "Inside: spatter and sharp ends off. Letters still readable?"},
    {"step.clean-outside", "Outside: spatter off, sharp ends broken. Letters still readable?"},
    {"look.clean", "No disc reaches an inside corner: burr or finger belt."},

    // Final check and signing
    {"step.sizes-final", "Final sizes, at the same places."},
    {"step.square-final", "Final: opposite sides, diagonals, rock, walls, bellies."},
    {"step.lid-fits", "Loose parts on: they drop in place by hand, all ways round that they must."},
    {"step.hold-first-off", "First-off: decide for the boxes that follow."},
    {"step.hold-final", "Accept the box."},
    {"record.release", "RELEASE next [ ]   CORRECT blank by ____ [ ]   STOP [ ]"},
    {"record.accept", "ACCEPT [ ]   PUT RIGHT ____ [ ]   REJECT [ ]"},
    {"step.record", "Serial, place in the row, record kept, on a flat rack, not on a corner. Fire watch "
                    "{watch} from the last spark."},
    {"record.lots", "SHEET heat no. ____  wire lot ____  welder ID ____"},
    {"step.plug-vent", "Last of all: plug or dab the {diameter} vent on {face}. Fire watch starts again."},
    {"until.cold", "Box as cold as the shop, right through."},
    {"look.leak-test", "Leak test only with soap and at most {pressure}. Never air from the line."},

    // Checks
    {"check.thickness", "thickness of sheet {sheet}"},
    {"check.stack", "edges of stacked panels"},
    {"check.table", "gap under the straightedge"},
    {"check.width", "widths, left to right"},
    {"check.depth", "depths, front to back"},
    {"check.height", "heights, under to top"},
    {"check.opposite", "opposite sides differ"},
    {"check.diagonals", "diagonals differ"},
    {"check.rock", "rock, feeler under the fourth corner"},
    {"check.lean", "wall lean, gap at the free edge"},
    {"check.belly", "belly, in or out"},
    {"check.gap", "gap"},
    {"check.step", "step between faces"},
    {"check.proud", "proud or dug in"},

    // Put it right
    {"fix.thickness",
     "Thinner or thicker than ordered: tell the foreman before the first arc; settings and sizes change."},
    {"fix.dress-panel", "Dress the long edge and stack again."},
    {"fix.reject-part", "Set the part aside, order it again."},
    {"fix.reseat", "Slack off, tap the faces home, clamp again."},
    {"fix.slide-wedge", "Slide the wedge towards the short diagonal, clamp again."},
    {"fix.rebend", "Open up, bend the wall to 90 by hand over a block, fit again."},
    {"fix.squeeze-tacks", "Clamp across the LONG diagonal: pull to equal, then the same again past it; let "
                          "go, read. Cut nothing yet."},
    {"fix.cut-one-rim-tack", "Cut the rim tack at one end of the long diagonal, pull equal, tack again."},
    {"fix.cut-last-tacks", "Cut the tacks of the last round, pull as before, tack again."},
    {"fix.bars-tight", "Tighten the {=word.bar-clamps} across the long diagonal, read again."},
    {"fix.stop-foreman", "Stop. Call the foreman before the next run."},
    {"fix.foreman", "Still off: the foreman decides."},
    {"fix.squeeze-set", "Clamp across the LONG diagonal, {start} past equal, let go, read. A little more "
                        "each time until it stays."},
    {"fix.slit-seam", "Slit one half seam, pull equal, tack, weld again, let cool, read."},
    {"fix.reject", "Still off: the foreman decides: use elsewhere or reject."},
    {"fix.clean-under", "Clean under it, turn it half round, read again."},
    {"fix.shim", "Thin {=word.shim} under the low corner, so that it is held and not pulled down."},
    {"fix.untwist", "Hold the high corner down, pull the opposite one up a little past flat, let go, read."},
    {"fix.dress-bend", "Dress the bend over a block, read again."},
    {"fix.back-to-brake", "More than a block can do: back to the {=word.brake}."},
    {"fix.lean-over-block", "Push the wall over a block a little past square, let go, read."},
    {"fix.planish", "Planish the bead on a dolly: it stretches what shrank. A few taps, read."},
    {"fix.heat-spots", "Heat spots on the proud side, thumb wide, dull red, a hand apart. Plain steel only."},
    {"fix.stiffen", "Cross-break or stiffener: the foreman decides."},
    {"fix.dress-proud", "A little too wide: dress caps, bend bulges and spatter, read again."},
    {"fix.packer", "Too small: it is made up with a {=word.shim} or trim when it is fitted."},
    {"fix.gap-colder", "{from} to {to}: colder settings, or copper behind."},
    {"fix.gap-dress", "Up to {to}: dress the edge, or fill with a strip."},
    {"fix.gap-over", "Over {over}: stop. Back to the {=word.brake}, or a new part."},
    {"fix.step-block", "Tap level over a block, clamp again."},
    {"fix.grind-again", "Proud: grind again, same grit."},
    {"fix.dig-fill",
     "Dug in: fill with a dab, cool, grind again. Deeper than a tenth of the sheet: foreman."},
};
} // namespace

std::span<const Entry> words_steps_en() {
  return kWords;
}

} // namespace tacksquare
