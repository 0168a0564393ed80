// A row of boxes in its opening: chance, targets, gauges.
#include "opening/rows.h"

using namespace tacksquare;
using namespace tacksquare::test;

TEST_CASE("Three lockers in a tight alcove are aimed smaller, by as much as keeps the chance") {
  Row row(locker(), 1201.6, 3);
  row.opening().clearance = mm(0.5);
  row.opening().coating = mm(0.08);
  const RowFit fit = row.fit();
  CHECK(row.told(Severity::error).empty());
  CHECK(fit.clear.width.mm == Approx(1201.6));
  CHECK(fit.as_stated.value < 0.5);
  CHECK(fit.as_aimed.value >= 0.95);
  REQUIRE(fit.stands.size() == 3);
  double shares = 0.0;
  for (const BudgetLine& line : fit.budget)
    shares += line.share_mm;
  CHECK(3.0 * 400.0 + shares + 0.5 == Approx(fit.drawn.row_mm)); // where the millimetres come from
  for (const StandFit& stand : fit.stands) {
    CHECK(stand.target_mm < 400.0);
    CHECK(stand.target_mm > stand.smallest_mm);
    CHECK(stand.largest_mm > stand.target_mm);
  }
}
