// A box that the model cannot take is told what it lacks, part by part.
#include "elastic/stated_box.h"
#include "support/catch.h"

#include <algorithm>

using namespace tacksquare;
using namespace tacksquare::elastic;
using namespace tacksquare::test;

namespace {

std::vector<Diagnostic> told(const StatedBox& b, const std::vector<WeldLength>& welds,
                             const ModelOptions& options = {}) {
  Diagnostics out;
  CHECK(!make_box_model(b.job, b.box, b.geometry, b.tacks, welds, b.figures, {}, options, out));
  return out.items();
}

} // namespace

TEST_CASE("a part that no tack ties to the rest is named, with the seams that could hold it") {
  StatedBox b = stated_box("closed");
  b.tacks.erase(std::remove_if(b.tacks.begin(), b.tacks.end(),
                               [&](const TackPlace& t) {
                                 const Seam& s = b.box.seams[t.seam];
                                 return b.box.faces[s.face_a].id == "lid" ||
                                        b.box.faces[s.face_b].id == "lid";
                               }),
                b.tacks.end());
  const auto items = told(b, {});
  REQUIRE(items.size() == 1);
  CHECK(items[0].code == "part-untied");
  CHECK(items[0].message == "part lid of box closed is tied to the rest by no tack");
  CHECK(items[0].remedy == "let one of these seams have tacks: t1 t2 t3 t4");
}

TEST_CASE("a seam that is welded without a tack is named, all of them in one run") {
  StatedBox b = stated_box("open");
  b.tacks.erase(std::remove_if(b.tacks.begin(), b.tacks.end(), [](const TackPlace& t) { return t.seam < 2; }),
                b.tacks.end());
  const auto items = told(b, {{0, 0, 300}, {1, 0, 300}, {2, 0, 300}});
  REQUIRE(items.size() == 2);
  CHECK(items[0].code == "seam-untacked");
  CHECK(items[0].message == "seam c1 of box open has no tack when it is welded");
  CHECK(items[1].message == "seam c2 of box open has no tack when it is welded");
}

TEST_CASE("a mesh larger than stated is refused before it is made") {
  ModelOptions fine;
  fine.mesh_mm = 1.0;
  const auto items = told(stated_box("open"), {}, fine);
  REQUIRE(items.size() == 1);
  CHECK(items[0].code == "mesh-large");
  CHECK(items[0].message == "box open needs about 840000 elements, more than 60000");
}
