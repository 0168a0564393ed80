#include "formulas/buckling.h"

#include "formulas/rows.h"
#include "formulas/shrinkage.h"

using namespace tacksquare;
using namespace tacksquare::formulas;
using tacksquare::test::Arguments;
using tacksquare::test::check_rows;

namespace {

double critical(const Arguments& a) {
  return critical_force_n(a[0], a[1], a[2], a[3], a[4]);
}
PanelSeams seams_of(double index) {
  return static_cast<PanelSeams>(static_cast<int>(index));
}

} // namespace

TEST_CASE("Buckling formulas give the figures of their sources") {
  const MetalFamily families[] = {MetalFamily::mild_steel, MetalFamily::stainless, MetalFamily::aluminium};
  check_rows("formulas_buckling.tsv", 33,
             {{"fcr_kN", [](const Arguments& a) { return critical(a) / 1000.0; }},
              {"stress", [](const Arguments& a) { return critical(a) / (a[3] * a[4]); }},
              {"qcr",
               [&](const Arguments& a) {
                 const ShrinkageMetal& m = shrinkage_metal(families[static_cast<int>(a[0])]);
                 return critical_heat_j_mm(critical_force_n(4.0, m.E_mpa, m.nu, a[1], a[2]),
                                           tendon_force_per_heat(m));
               }},
              {"megson", [](const Arguments& a) { return supported_plate_k(a[0]); }},
              {"K", [](const Arguments& a) { return buckling_coefficient(seams_of(a[0]), a[1]).value; }},
              {"depth", [](const Arguments& a) { return buckled_depth_mm(a[0], a[1], a[2]).value; }}});
}

TEST_CASE("Megson's k is the least over all numbers of half waves") {
  for (double ratio = 0.3; ratio < 9.0; ratio += 0.07) {
    double least = 1e9;
    for (int m = 1; m < 20; ++m)
      least = std::min(least, std::pow(m / ratio + ratio / m, 2));
    CHECK(supported_plate_k(ratio) == Approx(least));
    CHECK(supported_plate_k(ratio) >= 4.0 - 1e-12);
  }
}

TEST_CASE("K of a lip and of a loose sheet falls as the panel gets longer, down to the long value") {
  for (const PanelSeams seams : {PanelSeams::lip, PanelSeams::loose_centre}) {
    double last = 1e9;
    for (double ratio = 0.5; ratio < 30.0; ratio *= 1.2) {
      const Ranged K = buckling_coefficient(seams, ratio);
      CHECK(K.in_range());
      CHECK(K.value < last);
      last = K.value;
    }
  }
}

TEST_CASE("K says where it is only a floor") {
  CHECK_FALSE(buckling_coefficient(PanelSeams::lip, 0.4).in_range());
  CHECK(buckling_coefficient(PanelSeams::lip, 0.4).value == Approx(4.36));
  CHECK_FALSE(buckling_coefficient(PanelSeams::centre_line, 0.7).in_range());
  CHECK_FALSE(buckling_coefficient(PanelSeams::four_edges, 1.5).in_range());
}

TEST_CASE("F_cr goes with t cubed and 1/width; levels and depth start where they should") {
  CHECK(critical_force_n(4, 206e3, 0.3, 4, 300) == Approx(8 * critical_force_n(4, 206e3, 0.3, 2, 300)));
  CHECK(critical_force_n(4, 206e3, 0.3, 2, 600) == Approx(0.5 * critical_force_n(4, 206e3, 0.3, 2, 300)));
  CHECK(panel_share(2.0, 2.0) == Approx(0.5));
  CHECK(panel_share(3.0, 1.0) + panel_share(1.0, 3.0) == Approx(1.0));
  CHECK(buckling_level(0.49) == BucklingLevel::calm);
  CHECK(buckling_level(0.5) == BucklingLevel::caution);
  CHECK(buckling_level(1.0) == BucklingLevel::caution);
  CHECK(buckling_level(1.01) == BucklingLevel::beyond);
  CHECK(buckled_depth_mm(2.0, 0.3, 1.0).value == 0.0);
  CHECK_FALSE(buckled_depth_mm(2.0, 0.3, 4.0).in_range());
}
