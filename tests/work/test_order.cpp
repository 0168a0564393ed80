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

TEST_CASE("an order of the shop's own welds what is inside a closed box first") {
  const auto with_order = [](const std::vector<std::string>& order) {
    Case c = ballast_float();
    for (const std::size_t seam : {4u, 5u}) { // on the under side
      c.box().seams[seam].side = WeldSide::inside;
      c.box().seams[seam].finish = Finish::left;
    }
    c.box().weld_order = order;
    return c.make().errors();
  };
  CHECK(with_order({"S6", "S5", "S12", "S1", "S2", "S3", "S4", "S7", "S8", "S9", "S10", "S11"}).empty());
  // Also before seams of faces that do not close the box.
  CHECK(
      with_order({"S7", "S1", "S6", "S5", "S2", "S3", "S4", "S8", "S9", "S10", "S11", "S12"}) ==
      std::vector<std::string>{
          "order-before: the order of box float welds seam S7 before seam S5, which has to come first: it is "
          "inside, and nobody gets in there when face T is on | put S5 before S7",
          "order-before: the order of box float welds seam S7 before seam S6, which has to come first: it is "
          "inside, and nobody gets in there when face T is on | put S6 before S7"});
  // One that is last of all is still after the first of the others only.
  CHECK(
      with_order({"S5", "S1", "S2", "S3", "S4", "S7", "S8", "S9", "S10", "S11", "S12", "S6"}) ==
      std::vector<std::string>{
          "order-before: the order of box float welds seam S1 before seam S6, which has to come first: it is "
          "inside, and nobody gets in there when face T is on | put S6 before S1"});
}

TEST_CASE("what is inside a closed box may wait for what is inside, and for nothing else") {
  Case c = ballast_float();
  for (const std::size_t seam : {4u, 5u}) {
    c.box().seams[seam].side = WeldSide::inside;
    c.box().seams[seam].finish = Finish::left;
  }
  c.box().seams[5].after = {"S5"};
  CHECK(c.make().errors().empty());
  c.box().seams[5].after = {"S5", "S1", "S9"}; // S9 is on the last face
  const std::string why =
      "closed-inside-waits: seam S6 is inside, so it comes before all that is welded from outside, "
      "but it is stated to come after seam ";
  CHECK(c.make().errors() == std::vector<std::string>{why + "S1 | take S1 out of its \"after\"",
                                                      why + "S9 | take S9 out of its \"after\""});
}
