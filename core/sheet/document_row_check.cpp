// The row on the table, before any paint: the last look before it has to go in.
#include "sheet/compose.h"

namespace tacksquare {

DocumentSection compose_row_check(const Composer& compose, const RowFit& row) {
  double least_mm = 0.0, most_mm = 0.0;
  for (const StandFit& stand : row.stands) {
    least_mm += stand.smallest_mm + stand.overhang_mm; // cramped side to side: without their gaps
    most_mm += stand.largest_mm + stand.overhang_mm;
  }
  DocumentSection out;
  out.block.title = compose.word("row.check");
  out.block.lines = {compose.line("row.check-stand",
                                  {number("stands", ArgKind::count, static_cast<double>(row.stands.size()))}),
                     compose.line("row.check-read", {number("least", ArgKind::fine_mm, least_mm),
                                                     number("most", ArgKind::fine_mm, most_mm)}),
                     compose.word("row.check-blanks"), compose.word("row.check-nest"),
                     compose.word("row.check-over")};
  return out;
}

} // namespace tacksquare
