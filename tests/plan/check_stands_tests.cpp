// check_plan on what carries a box while it stands.
#include "plan/verify/check_plan.h"
#include "support/planned.h"

#include <functional>

using namespace tacksquare;
using namespace tacksquare::test;

TEST_CASE("what a box stands on, and what it carries, is told where it cannot be", "[together]") {
  const Planned& made = whole_sample("gear-locker.xml");
  CHECK(joined(check_plan(made.job, made.geometry, made.plan)) == "");
  REQUIRE(made.plan.boxes.at(0).elastic->stands.size() == 2);
  const auto spoilt = [&](const std::function<void(ElasticStand&)>& spoil, const std::string& piece) {
    Plan bad = made.plan;
    spoil(bad.boxes.at(0).elastic->stands[0]);
    const std::vector<std::string> lines = check_plan(made.job, made.geometry, bad);
    INFO("wanted: " << piece << "\ntold:\n" << joined(lines));
    CHECK(std::any_of(lines.begin(), lines.end(),
                      [&](const std::string& line) { return line.find(piece) != std::string::npos; }));
  };
  spoilt([](ElasticStand& s) { s.after = "S9@1"; }, "which is no step");
  spoilt([](ElasticStand& s) { s.on.pop_back(); }, "stands on 4 places");
  spoilt([](ElasticStand& s) { s.weight_N *= 1.05; }, "but all its metal");
  spoilt([](ElasticStand& s) { s.weight_N *= 0.95; }, "all is tacked");
  spoilt([](ElasticStand& s) { s.on[1] = "P1"; }, "supports that it does not have");
  spoilt([](ElasticStand& s) { s.at[2] = s.at[2] + Vec3{0, 5, 0}; }, "mm above it");
  spoilt([](ElasticStand& s) { s.low.pop_back(); }, "not one figure for each place");
  spoilt([](ElasticStand& s) { s.low[0] = s.value[0] + 1.0; }, "is not in order");
  spoilt([](ElasticStand& s) { s.low[0] = -1.0; }, "is not in order");
  spoilt([](ElasticStand& s) { s.nothing[0] = 1.5; }, "carries nothing in 1.5");
  spoilt([](ElasticStand& s) { s.nothing[0] = 0.9; }, "carries nothing in 0.9");
  spoilt(
      [](ElasticStand& s) {
        for (double& N : s.high)
          N = 10.0;
        for (double& N : s.value)
          N = 5.0;
        s.low.assign(4, 0.0);
        s.nothing.assign(4, 0.0);
      },
      "do not carry the weight");
  Plan padded = made.plan;
  PlannedPiece pad = padded.boxes.at(0).fixture->pieces.front();
  pad.id = "Z1";
  pad.kind = "support";
  padded.boxes.at(0).fixture->pieces.push_back(pad);
  CHECK(joined(check_plan(made.job, made.geometry, padded)).find("other supports than it has") !=
        std::string::npos);
}
