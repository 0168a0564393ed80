// The order in which the shop is used to weld, against what has to come first.
#include "boxes.h"

using namespace tacksquare;
using namespace tacksquare::test;

TEST_CASE(
    "an order of the shop's own may not weld before what has to come first: two seams and why are told") {
  Case c = locker();
  c.box().seams[0].after = {"S3", "S4"};
  c.box().seams[0].where = {77};
  c.box().weld_order = {"S4", "S3", "S1", "S2"};
  c.make();
  CHECK(c.errors().empty());

  Case d = locker();
  d.box().seams[0].after = {"S3", "S4"};
  d.box().seams[0].where = {77};
  d.box().weld_order = {"S2", "S1", "S3", "S4"};
  d.box().weld_order_where = {42};
  d.make();
  REQUIRE(d.errors().size() == 2);
  CHECK(d.errors()[0] ==
        "order-before: the order of box locker welds seam S1 before seam S3, which has to come "
        "first: seam S1 is stated to come after it | put S3 before S1");
  CHECK(d.errors()[1] ==
        "order-before: the order of box locker welds seam S1 before seam S4, which has to come "
        "first: seam S1 is stated to come after it | put S4 before S1");
  CHECK(d.out.items()[0].where == Origin{42});
  REQUIRE(d.out.items()[0].also);
  CHECK(d.out.items()[0].also->where == Origin{77});
}

TEST_CASE("an order of the shop's own welds what is inside a closed box first, after what that waits for") {
  const auto with_order = [](const std::vector<std::string>& order) {
    Case c = ballast_float();
    for (const std::size_t seam : {4u, 5u}) { // on the under side
      c.box().seams[seam].side = WeldSide::inside;
      c.box().seams[seam].finish = Finish::left;
    }
    c.box().seams[5].after = {"S1"};
    c.box().weld_order = order;
    return c.make().errors();
  };
  CHECK(with_order({"S5", "S1", "S6", "S2", "S3", "S4", "S7", "S8", "S9", "S10", "S11", "S12"}).empty());
  CHECK(with_order({"S1", "S6", "S5", "S12", "S2", "S3", "S4", "S7", "S8", "S9", "S10", "S11"}).empty());
  // Also before seams of faces that do not close the box.
  CHECK(
      with_order({"S7", "S1", "S5", "S6", "S2", "S3", "S4", "S8", "S9", "S10", "S11", "S12"}) ==
      std::vector<std::string>{
          "order-before: the order of box float welds seam S7 before seam S1, which has to come first: seam "
          "S6 "
          "is inside and waits for it, and nobody gets in there when face T is on | put S1 before S7",
          "order-before: the order of box float welds seam S7 before seam S5, which has to come first: it is "
          "inside, and nobody gets in there when face T is on | put S5 before S7",
          "order-before: the order of box float welds seam S7 before seam S6, which has to come first: it is "
          "inside, and nobody gets in there when face T is on | put S6 before S7"});
}
