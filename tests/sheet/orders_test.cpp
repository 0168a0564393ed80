// What the foreman reads of the orders of seams, and how sure it is that none is squarer.
#include "sheet/document.h"
#include "sheet/sample_plan.h"
#include "support/catch.h"

#include <algorithm>
#include <functional>

namespace tacksquare {
namespace {

using Change = std::function<void(BoxPlan&)>;

// Two orders, and all that is proven of them.
void weigh(BoxPlan& box) {
  OrderCompared order;
  order.key = "planned";
  order.square = 0.3;
  order.chance = 0.9;
  OrderCompared worst = order;
  worst.key = "worst";
  worst.square = 0.5;
  box.orders = {order, worst};
  OrderProof proof;
  proof.orders = 24.0;
  proof.proven = true;
  proof.within = 0.02;
  proof.least = proof.least_bound = proof.squarest = 0.3;
  proof.most = proof.most_bound = 0.5;
  proof.tried = 5;
  proof.width = 0.05;
  proof.scatter = 0.25;
  proof.matters = "at";
  box.order_proof = proof;
}

// The lines below the table of the proof, in one.
std::string told_of(const Change& change) {
  Plan plan = test::sample_plan();
  BoxPlan& box = plan.boxes.at(0);
  weigh(box);
  change(box);
  const Document document = make_document(plan, {});
  const std::vector<DocumentTable>& all = document.boxes.at(0).foreman;
  const auto found = std::find_if(all.begin(), all.end(), [](const DocumentTable& table) {
    return table.title == "How sure it is that no order is squarer";
  });
  REQUIRE(found != all.end());
  std::string lines;
  for (const std::string& line : found->below)
    lines += line + "\n";
  return lines;
}

bool says(const std::string& lines, const char* part) {
  INFO(lines);
  return lines.find(part) != std::string::npos;
}

TEST_CASE("the foreman reads whether the order matters, and is told to keep to it only where it does") {
  const auto matters = [](const char* how) {
    return told_of([&](BoxPlan& box) { box.order_proof->matters = how; });
  };
  CHECK(says(matters("none"), "does nothing here that could be seen"));
  CHECK(says(matters("below"), "does less here than boxes differ anyhow"));
  for (const char* how : {"none", "below"})
    CHECK_FALSE(says(matters(how), "Keep to it"));
  for (const char* how : {"at", "above"})
    CHECK(says(matters(how), "Keep to it"));
}

TEST_CASE("the foreman reads why seams are welded in one go, and what the finer net says otherwise") {
  const char* in_one_go = "so that is planned";
  CHECK_FALSE(says(told_of([](BoxPlan&) {}), in_one_go));
  CHECK(says(told_of([](BoxPlan& box) {
               box.orders.push_back(box.orders.front());
               box.orders.back().key = "in-rounds";
             }),
             in_one_go));
  const auto finer = [](std::optional<double> passed_over) {
    return told_of([&](BoxPlan& box) {
      OrderProof& proof = *box.order_proof;
      proof.finer_mesh_mm = 25.0;
      proof.planned_finer = 0.31;
      proof.squarest_finer = 0.3;
      proof.passed_over_finer = passed_over;
    });
  };
  CHECK(says(finer(std::nullopt), "it is the same: as planned 0.31, the squarest of above 0.30"));
  CHECK(says(finer(0.42), "it is not the same"));
  CHECK(says(finer(0.42), "comes to 0.42 there, what is planned instead to 0.31, the squarest to 0.30"));
}

TEST_CASE("the foreman reads which orders were gone through, and how the shop's own one does") {
  const auto through = [](const char* matters, bool all_within) {
    return told_of([&](BoxPlan& box) {
      box.order_proof->matters = matters;
      box.order_proof->all_within = all_within;
    });
  };
  CHECK(
      says(through("at", true), "gone through were 5 orders, among them all within 0.05 of the proven best"));
  CHECK(says(through("at", false), "gone through were 5 orders, the best of them by a search"));
  CHECK(says(through("none", false), "and not searched further"));
  CHECK(says(told_of([](BoxPlan& box) {
               box.orders.push_back(box.orders.back());
               box.orders.back().key = "own";
             }),
             "The shop's own order, each seam finished before the next: 0.50 of the limit, as planned 0.30"));
}

TEST_CASE("the foreman reads what is not proven") {
  CHECK(says(told_of([](BoxPlan& box) { box.order_proof->proven = false; }), "the search was cut short"));
  CHECK(says(told_of([](BoxPlan& box) {
               box.order_proof->orders = 0.0;
               box.order_proof->least = 0.5;
               box.order_proof->least_bound = 0.38;
             }),
             "a better one may be up to 0.12 of the limit better"));
}

} // namespace
} // namespace tacksquare
