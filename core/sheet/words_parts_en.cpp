// Parts as they come, and the row in its opening, as the bench card and the cautions say it.
#include "sheet/catalogue.h"

namespace tacksquare {

namespace {
constexpr Entry kWords[] = {
    {"look.wall-lean-out", "Read the gap at the free edge. {walls} outward by more than {out}: dress it too, "
                           "it bellies out of the row's "
                           "width."},
    {"check.blank", "size of each panel against the cut list, the worst"},

    {"record.lots-place", "PLACE from the left ____  SHEET heat no. ____  wire lot ____  welder ID ____"},

    {"row.check", "BEFORE ANY PAINT"},
    {"row.check-stand",
     "When the last box is done: stand all {stands} in their order against a straight fence on the "
     "flat table, cramp them side to side."},
    {"row.check-read", "Read the row overall at nine places: {least} to {most}."},
    {"row.check-blanks", "____  ____  ____    ____  ____  ____    ____  ____  ____"},
    {"row.check-nest",
     "Boxes that lean the same way nest; opposite ways they jam: change places and read again."},
    {"row.check-over",
     "Still over? Dress caps, bend bulges and spatter; then the foreman: trim the last box, or hold "
     "the row back."},

    {"fact.row", "One of {stands} side by side in {opening}: nowhere wider than {largest}."},
    {"fact.copy-wider",
     "No. {place} of the row is made {width} wide: all that runs from left to right on its parts is "
     "{by} longer than here."},
    {"fact.copy-narrower",
     "No. {place} of the row is made {width} wide: all that runs from left to right on its parts "
     "is {by} shorter than here."},
    {"fact.cut-last", "The last one is cut when the others stand: its width from the opening page."},

    {"caution.bend-blocked",
     "Part {part} cannot be bent on this brake in any order: bend {a}-{b} is left over, because of {by}. See "
     "the bend card."},
    {"caution.part-reject", "Box {copy}, {where}: {kind} of {reading} is too much: reject the part."},
    {"caution.part-brake",
     "Box {copy}, {where}: {kind} of {reading}: back to the brake before anything is tacked."},
    {"caution.clamp-weak", "Clamp {piece} presses with {presses}; the walls pull with up to {needs}: two of "
                           "them, or a stronger one."},
    {"caution.by-hand", "Gaps on {seams} {seams|seam/seams} that one hand ({hand}) and the clamps beside "
                        "them may not close; the "
                        "most: {tacks}. Help with a clamp across the seam there, or dress the edge."},
    {"caution.tack-by-hand", "{tack} ({force} more)"},
    {"caution.row",
     "The row goes into {opening} with a chance of {chance} only; {wanted} is wanted. See the opening "
     "page."},
    {"caution.row-height",
     "By its height a box goes into {opening} with a chance of {chance} only; {wanted} is wanted. See "
     "the opening page."},
    {"caution.row-depth",
     "By its depth a box goes into {opening} with a chance of {chance} only; {wanted} is wanted. See the "
     "opening page."},
    {"caution.held", "HOLD: the first-off of box {copy} is not cleared up. Cut and build nothing more."},
    {"caution.seam-cap",
     "The cap of {where} stands {proud} out of side {side}, which meets its neighbour: grind it "
     "flush."},
    {"caution.bend-bulge", "The bend {where} bulges {proud} at its end out of side {side}, which meets its "
                           "neighbour: dress it flush."},
    {"tool.punch", "the punch"},
    {"tool.ram", "the ram"},
    {"tool.die", "the die"},
    {"tool.bed", "the bed"},
    {"tool.gauge", "the back gauge"},
    {"tool.short", "the die: the leg is too short for it"},
    {"reading.wall-lean", "a wall lean"},
    {"reading.wall-lean-out", "a lean outward"},
    {"reading.wall-twist", "a twist"},
    {"reading.gap", "a gap"},
    {"reading.step", "a step"},
    {"reading.blank-length", "a length"},
    {"reading.blank-width", "a width"},
    {"reading.thickness", "a thickness"},
    {"reading.stack", "an edge"},
};
} // namespace

std::span<const Entry> words_parts_en() {
  return kWords;
}

} // namespace tacksquare
