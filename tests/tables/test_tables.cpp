// Every row of the reference tables, against data files that name their sources.
#include "support/catch.h"
#include "support/table.h"

#include "tables/bench_gauges.h"
#include "tables/gauges.h"
#include "tables/metals.h"
#include "tables/tolerances.h"

using namespace tacksquare;
using test::Table;

TEST_CASE("gauges 7 to 20 are those of three published tables") {
  const Table table("gauges_7_20.tsv", {"gauge", "system", "inches", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 42);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    const auto system = parse_gauge_system(row.text("system"));
    REQUIRE(system);
    const auto thickness = sheet_thickness(*system, row.integer("gauge"));
    REQUIRE(thickness);
    CHECK(in_inch(*thickness) == Approx(row.number("inches")).margin(row.number("tolerance")).epsilon(0));
  }
}

TEST_CASE("one gauge number is a different thickness in every system") {
  const Table table("gauges_systems_mm.tsv", {"gauge", "system", "mm", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 18);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    const auto system = parse_gauge_system(row.text("system"));
    REQUIRE(system);
    const auto thickness = sheet_thickness(*system, row.integer("gauge"));
    REQUIRE(thickness);
    CHECK(in_mm(*thickness) == Approx(row.number("mm")).margin(row.number("tolerance")).epsilon(0));
  }
}

TEST_CASE("a higher gauge is thinner, and there is nothing outside the range") {
  for (const std::string& name : gauge_system_names()) {
    const auto system = parse_gauge_system(name);
    REQUIRE(system);
    CHECK(gauge_system_name(*system) == name);
    CHECK_FALSE(gauge_source(*system).text.empty());
    const GaugeRange range = gauge_range(*system);
    for (int gauge = range.first; gauge < range.last; ++gauge) {
      INFO(name << " " << gauge);
      CHECK(*sheet_thickness(*system, gauge) > *sheet_thickness(*system, gauge + 1));
    }
    CHECK_FALSE(sheet_thickness(*system, range.first - 1));
    CHECK_FALSE(sheet_thickness(*system, range.last + 1));
  }
  CHECK_FALSE(parse_gauge_system("steel"));
}

TEST_CASE("both ends of every cell of ISO 13920, and the five values that shifted copies get wrong") {
  const Table table("iso_13920.tsv", {"table", "class", "length", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 221);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    const std::string& kind = row.text("table");
    const Length length = mm(row.number("length"));
    double value = -1.0;
    if (kind == "flatness") {
      const auto c = parse_flatness_class(row.text("class"));
      REQUIRE(c);
      CHECK(class_name(*c) == row.text("class"));
      value = in_mm(flatness_tolerance(*c, length).value());
    } else {
      const auto c = parse_linear_class(row.text("class"));
      REQUIRE(c);
      CHECK(class_name(*c) == row.text("class"));
      if (kind == "linear") value = in_mm(linear_tolerance(*c, length).value());
      if (kind == "angle-minutes") value = in_deg(angular_tolerance(*c, length)) * 60.0;
      if (kind == "angle-mm-per-m") value = angular_tolerance_mm_per_m(*c, length);
    }
    CHECK(value == Approx(row.number("value")).margin(row.number("tolerance")).epsilon(0));
  }
}

TEST_CASE("ISO 13920 has no cell under 2 mm, nor flatness up to 30 mm, and no other classes") {
  CHECK_FALSE(linear_tolerance(LinearClass::A, mm(1.9)));
  CHECK_FALSE(flatness_tolerance(FlatnessClass::E, mm(30.0)));
  CHECK(flatness_tolerance(FlatnessClass::E, mm(30.1)));
  for (const char* text : {"", "a", "E", "AB"})
    CHECK_FALSE(parse_linear_class(text));
  for (const char* text : {"", "e", "D", "I"})
    CHECK_FALSE(parse_flatness_class(text));
}

TEST_CASE("metals are those of the standards and data sheets") {
  const Table table("metals.tsv", {"metal", "property", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 40);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    const Metal* const metal = find_metal(row.text("metal"));
    REQUIRE(metal != nullptr);
    const std::string& property = row.text("property");
    const double value = property == "density"         ? metal->density_kg_m3
                         : property == "youngs"        ? metal->youngs_MPa
                         : property == "poisson"       ? metal->poisson
                         : property == "expansion"     ? metal->expansion_per_K * 1e6
                         : property == "conductivity"  ? metal->conductivity_W_mK
                         : property == "specific_heat" ? metal->specific_heat_J_kgK
                         : property == "yield"         ? metal->yield_MPa
                         : property == "ultimate"      ? metal->ultimate_MPa
                         : property == "solidus"       ? metal->solidus_C
                         : property == "liquidus"      ? metal->liquidus_C
                                                       : -1.0;
    CHECK(value == Approx(row.number("value")).margin(row.number("tolerance")).epsilon(0));
  }
}

TEST_CASE("five metals are built in and yield when restrained by the warming that the reference derives") {
  // Derived: yield / (E * expansion): 93 K S235, 64 K 304, 115 K 5052, 170 K 6061.
  const auto warming = [](const char* id) {
    const Metal* const m = find_metal(id);
    REQUIRE(m != nullptr);
    return m->yield_MPa / (m->youngs_MPa * m->expansion_per_K);
  };
  CHECK(warming("mild-steel") == Approx(93.0).margin(0.5));
  CHECK(warming("304") == Approx(64.0).margin(0.5));
  CHECK(warming("5052") == Approx(115.0).margin(0.5));
  CHECK(warming("6061") == Approx(170.0).margin(0.5));
  CHECK(built_in_metal_ids() == std::vector<std::string>{"mild-steel", "galvanized", "304", "5052", "6061"});
  CHECK(find_metal("steel") == nullptr);
  for (const Metal& metal : built_in_metals()) {
    INFO(metal.id);
    CHECK(metal.min_bend_ratio > 0.0);
    CHECK(metal.solidus_C < metal.liquidus_C);
    CHECK_FALSE(metal.source.text.empty());
  }
  CHECK(family_name(find_metal("galvanized")->family) == "galvanized");
}

TEST_CASE("gauges of the bench read no finer than the trade says, and a figure keeps to their step") {
  const Table table("bench_gauges.tsv",
                    {"gauge", "resolution", "step", "inch_step", "inch_parts", "source", "mark"});
  REQUIRE(table.size() == 8);
  REQUIRE(bench_gauges().size() == 8);
  for (std::size_t i = 0; i < table.size(); ++i) {
    const auto row = table[i];
    INFO(row.shown());
    const BenchGaugeInfo& info = bench_gauges()[i];
    CHECK(info.id == row.text("gauge"));
    CHECK(info.gauge == static_cast<BenchGauge>(i));
    CHECK(info.name_key == "gauge." + row.text("gauge"));
    CHECK(in_mm(info.resolution) == row.number("resolution"));
    CHECK(in_mm(info.step) == row.number("step"));
    CHECK(info.step >= info.resolution);
    CHECK(info.inch_step == row.number("inch_step"));
    CHECK(info.inch_parts == row.number("inch_parts"));
    CHECK(reading_text(info.gauge, mm(400.0)) == "400.0");
  }
  CHECK(reading_text(BenchGauge::tape, mm(399.87)) == "400.0");
  CHECK(reading_text(BenchGauge::calliper, mm(399.87)) == "399.9");
  CHECK(reading_text(BenchGauge::feeler, mm(0.34)) == "0.35");
  CHECK(reading_text(BenchGauge::pinch_sticks, mm(-0.1)) == "0.0");
  CHECK(in_mm(round_to_reading(BenchGauge::steel_rule, mm(-1.3))) == -1.5);
}
