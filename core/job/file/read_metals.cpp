// Metals, sheets, procedures.
#include "base/numbers.h"
#include "job/file/ranges.h"
#include "job/file/read_parts.h"
#include "job/file/words.h"

namespace tacksquare {

namespace {

template <class Q>
void take(Element& e, std::string_view name, Parsed<Q> (*parse)(std::string_view), Range<Q> range,
          double& into) {
  if (const auto q = e.quantity(name, parse, range)) into = q->stored();
}

template <class Q>
void take(Element& e, std::string_view name, Parsed<Q> (*parse)(std::string_view), Range<Q> range,
          std::optional<Q>& into) {
  if (const auto q = e.quantity(name, parse, range)) into = q;
}

std::vector<std::string> metal_names(const Known& known) {
  std::vector<std::string> names = built_in_metal_ids();
  for (const Metal& metal : known.own_metals)
    names.push_back(metal.id);
  return names;
}

const Metal* metal_called(const std::string& id, const Known& known) {
  for (const Metal& metal : known.own_metals)
    if (metal.id == id) return &metal;
  return find_metal(id);
}

std::string systems_for(int gauge) {
  std::string all;
  for (const std::string& name : gauge_system_names()) {
    const auto t = sheet_thickness(*parse_gauge_system(name), gauge);
    if (!t) continue;
    all += (all.empty() ? "gauge-system=\"" : ", \"") + name + "\" (" + fixed(in_mm(*t), 2) + " mm)";
  }
  return all.empty() ? "no system has this number" : all;
}

bool fits(GaugeSystem system, MetalFamily family) {
  switch (system) {
  case GaugeSystem::us_steel:
    return family == MetalFamily::mild_steel;
  case GaugeSystem::us_galvanized:
    return family == MetalFamily::galvanized;
  case GaugeSystem::stainless:
    return family == MetalFamily::stainless;
  case GaugeSystem::aluminium:
    return family == MetalFamily::aluminium;
  case GaugeSystem::uk_swg:
    return true;
  }
  return false;
}

// Thickness by gauge, and how the file says it.
void read_gauge(Element& e, Sheet& sheet) {
  const auto gauge = e.count("gauge", ranges::gauge);
  const auto said = e.text("gauge-system");
  if (!gauge) return;
  if (!e.has("gauge-system")) {
    e.out().error("gauge-system-missing", e.where("gauge"),
                  "gauge " + std::to_string(*gauge) + " says nothing without its system",
                  systems_for(*gauge));
    return;
  }
  if (!said) return;
  const auto system = parse_gauge_system(*said);
  if (!system) {
    e.out().error("word-unknown", e.where("gauge-system"), quoted(*said) + " is not a gauge system",
                  suggestion(*said, gauge_system_names()));
    return;
  }
  const auto t = sheet_thickness(*system, *gauge);
  if (!t) {
    const GaugeRange range = gauge_range(*system);
    e.out().error("gauge-unknown", e.where("gauge"),
                  "gauge " + std::to_string(*gauge) + " is not in the system " + quoted(*said),
                  "it has " + std::to_string(range.first) + " to " + std::to_string(range.last));
    return;
  }
  if (*t < ranges::thickness.low) {
    e.out().error("gauge-thin", e.where("gauge"),
                  "gauge " + std::to_string(*gauge) + " of " + quoted(*said) + " is " + fixed(in_mm(*t), 2) +
                      " mm thick, too thin for a box",
                  "at least " + written(ranges::thickness.low));
    return;
  }
  if (!fits(*system, sheet.metal.family)) {
    e.out().caution("gauge-system-odd", e.where("gauge-system"),
                    "the gauge system " + quoted(*said) + " is not the one of " + sheet.metal.name,
                    systems_for(*gauge));
  }
  sheet.thickness = *t;
  sheet.thickness_said = std::to_string(*gauge) + " ga " + *said;
}

void read_thickness(Element& e, Sheet& sheet) {
  sheet.thickness = mm(2);
  const auto stated = e.quantity("thickness", parse_length, ranges::thickness);
  if (stated) {
    sheet.thickness = *stated;
    sheet.thickness_said = *e.text("thickness");
  }
  read_gauge(e, sheet);
  const auto measured = e.quantity("measured", parse_length, ranges::thickness);
  if (measured) {
    const double nominal = in_mm(sheet.thickness), real = in_mm(*measured);
    if (!sheet.thickness_said.empty() && (real < 0.8 * nominal || real > 1.2 * nominal)) {
      e.out().caution("measured-odd", e.where("measured"),
                      "the measured thickness is more than a fifth off the stated " + sheet.thickness_said,
                      "measure again, or correct the sheet");
    }
    sheet.thickness = *measured;
    sheet.thickness_said = *e.text("measured") + " measured";
  }
  const bool nominal = e.has("thickness"), gauge = e.has("gauge");
  if (nominal && gauge)
    e.out().error("thickness-twice", e.where("gauge"), "both a thickness and a gauge are stated",
                  "keep one; add measured=\"...\" where it was measured",
                  Note{"the thickness", e.where("thickness")});
  if (!gauge && e.has("gauge-system"))
    e.out().error("attribute-missing", e.where("gauge-system"), "a gauge system is stated without a gauge",
                  "add gauge=\"14\"");
  if (!nominal && !gauge && !e.has("gauge-system") && !e.has("measured"))
    e.out().error(
        "attribute-missing", e.where(), "<sheet> states no thickness",
        "add thickness=\"2 mm\", or gauge=\"14\" with gauge-system=\"us-steel\", or measured=\"1.9 mm\"");
}

} // namespace

void read_metal(Element& e, Known& known) {
  const std::string id = e.id();
  e.require("like", "mild-steel");
  const auto like = e.text("like");
  Metal metal = built_in_metals().front();
  if (like) {
    if (const Metal* base = find_metal(*like))
      metal = *base;
    else
      e.out().error("reference", e.where("like"), "there is no built-in metal " + quoted(*like),
                    suggestion(*like, built_in_metal_ids()));
  }
  metal.id = id;
  metal.name = e.seen_name().value_or(id);
  metal.source = {"the job file, the rest as " + like.value_or(""), Mark::stated};
  if (const auto family = e.choice("family", words::families)) metal.family = *family;
  take(e, "density", parse_density, ranges::density, metal.density_kg_m3);
  take(e, "youngs-modulus", parse_stress, ranges::youngs, metal.youngs_MPa);
  if (const auto nu = e.quantity("poisson", parse_number, ranges::poisson)) metal.poisson = *nu;
  if (const auto a = e.quantity("expansion", parse_expansion, ranges::expansion))
    metal.expansion_per_K = a->stored() / 1e6;
  take(e, "conductivity", parse_conductivity, ranges::conductivity, metal.conductivity_W_mK);
  take(e, "specific-heat", parse_specific_heat, ranges::specific_heat, metal.specific_heat_J_kgK);
  take(e, "yield", parse_stress, ranges::strength, metal.yield_MPa);
  take(e, "ultimate", parse_stress, ranges::strength, metal.ultimate_MPa);
  take(e, "solidus", parse_temperature, ranges::melting, metal.solidus_C);
  take(e, "liquidus", parse_temperature, ranges::melting, metal.liquidus_C);
  if (const auto ratio = e.quantity("least-bend-ratio", parse_number, ranges::bend_ratio))
    metal.min_bend_ratio = *ratio;
  if (metal.ultimate_MPa < metal.yield_MPa)
    e.out().error("metal-odd", e.where("ultimate"), "the ultimate strength is below the yield strength",
                  "state both");
  if (metal.liquidus_C < metal.solidus_C)
    e.out().error("metal-odd", e.where("liquidus"), "the liquidus is below the solidus", "state both");
  e.allow({});
  e.finish();
  if (id.empty()) return;
  if (find_metal(id)) {
    e.out().error("id-twice", e.where("id"), quoted(id) + " is a built-in metal", "choose another id");
  } else if (known.metals.add(id, known.own_metals.size(), e.where("id"), e.out())) {
    known.own_metals.push_back(metal);
  }
}

void read_sheet(Element& e, Known& known, Job& job) {
  Sheet sheet;
  sheet.where = e.where();
  sheet.id = e.id();
  sheet.metal = built_in_metals().front();
  e.require("metal", "mild-steel");
  if (const auto said = e.text("metal")) {
    if (const Metal* metal = metal_called(*said, known))
      sheet.metal = *metal;
    else
      e.out().error("reference", e.where("metal"), "there is no metal " + quoted(*said),
                    suggestion(*said, metal_names(known)));
  }
  read_thickness(e, sheet);
  e.allow({});
  e.finish();
  if (sheet.id.empty() || !known.sheets.add(sheet.id, job.sheets.size(), e.where("id"), e.out())) return;
  job.sheets.push_back(std::move(sheet));
}

void read_shrinkage(const Element& parent, OwnShrinkage& own) {
  auto e = parent.only_child("shrinkage");
  if (!e) return;
  own.where = e->where();
  take(*e, "across", parse_length, ranges::shrinkage, own.across);
  take(*e, "along", parse_force, ranges::force, own.along);
  take(*e, "angle", parse_angle, ranges::angle, own.angle);
  if (!e->has("across") && !e->has("along") && !e->has("angle"))
    e->out().error("attribute-missing", e->where(), "<shrinkage> states nothing",
                   "add across=\"0.2 mm\", along=\"25 kN\" or angle=\"0.5 deg\"");
  e->allow({});
  e->finish();
}

void read_procedure(Element& e, Known& known, Job& job) {
  Procedure p;
  p.where = e.where();
  p.id = e.id();
  p.process = e.choice("process", words::processes);
  take(e, "wire-feed", parse_speed, ranges::wire_feed, p.wire_feed);
  take(e, "volts", parse_voltage, ranges::volts, p.volts);
  take(e, "amps", parse_current, ranges::amps, p.amps);
  take(e, "travel", parse_speed, ranges::travel, p.travel);
  take(e, "wire-diameter", parse_length, ranges::wire, p.wire_diameter);
  p.wire = e.text("wire");
  p.gas = e.text("gas");
  take(e, "gas-flow", parse_flow, ranges::flow, p.gas_flow);
  take(e, "stick-out", parse_length, ranges::limit, p.stick_out);
  p.efficiency = e.quantity("efficiency", parse_number, ranges::efficiency);
  p.full_penetration = e.yes_or_no("full-penetration").value_or(false);
  take(e, "penetration", parse_length, ranges::limit, p.penetration);
  read_shrinkage(e, p.own);
  if (p.process && *p.process == Process::tig && p.wire_feed)
    e.out().error("wire-feed-tig", e.where("wire-feed"), "TIG with a rod has no wire feed",
                  "delete wire-feed, or state another process");
  e.allow({"shrinkage"});
  e.finish();
  if (p.id.empty() || !known.procedures.add(p.id, job.procedures.size(), e.where("id"), e.out())) return;
  job.procedures.push_back(std::move(p));
}

} // namespace tacksquare
