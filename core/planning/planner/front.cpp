#include "planning/planner/front.h"

#include "fixture/items.h"

#include "planning/planner/steps.h"
#include "tables/process.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

Text letters_fact(const BoxCase& box) {
  std::vector<Text> faces;
  for (const Face& face : box.box.faces) {
    if (box.box.parts[face.part].loose) continue;
    const Text name = face_name(face.id);
    if (name.key == "plain" || face.id.size() != 1)
      faces.push_back({"plain", {word("text", face.id)}});
    else
      faces.push_back({"fact.letter", {word("id", face.id), list("name", {name})}});
  }
  const std::string key = box.box.form == BoxForm::own_faces ? "fact.letters-own"
                          : box.closed()                     ? "fact.letters-closed"
                          : box.box.open_side == "T"         ? "fact.letters-top"
                                                             : "fact.letters-front";
  return {key, {list("faces", std::move(faces))}};
}

Text seams_fact(const BoxCase& box) {
  std::vector<Text> seams;
  for (const Seam& seam : box.box.seams)
    seams.push_back({"fact.seam",
                     {word("id", seam.id), word("a", box.box.faces[seam.face_a].id),
                      word("b", box.box.faces[seam.face_b].id)}});
  double total_mm = 0.0;
  for (const WorkSeam& seam : box.work.seams)
    total_mm += seam.welded_mm;
  return {"fact.seams",
          {list("seams", std::move(seams)), count("number", static_cast<double>(box.box.seams.size())),
           length("total", total_mm, "tape")}};
}

SettingsBlock settings_block(const Settings& settings) {
  SettingsBlock block;
  block.id = settings.id;
  block.process = process_name(settings.process);
  block.starting_point = settings.starting_point;
  block.lines.push_back({"setting.wire",
                         {length("diameter", in_mm(settings.wire_diameter.value), "calliper"),
                          word("wire", settings.wire.value)}});
  if (in_mm_per_s(settings.wire_feed.value) > 0.0)
    block.lines.push_back(
        {"setting.feed", {number("feed", ArgKind::wire_feed_mm_s, in_mm_per_s(settings.wire_feed.value))}});
  block.lines.push_back({"setting.volts-amps",
                         {number("volts", ArgKind::voltage_V, in_v(settings.volts.value)),
                          number("amps", ArgKind::current_A, in_a(settings.amps.value))}});
  const double travel_mm_s = in_mm_per_s(settings.travel.value);
  block.lines.push_back(
      {"setting.travel",
       {length("length", 100, "steel-rule"), number("time", ArgKind::time_s, 100.0 / travel_mm_s)}});
  if (!settings.gas.value.empty())
    block.lines.push_back({"setting.gas",
                           {word("gas", settings.gas.value),
                            number("flow", ArgKind::flow_l_min, in_l_per_min(settings.gas_flow.value))}});
  if (in_mm(settings.stick_out.value) > 0.0)
    block.lines.push_back(
        {"setting.stick-out", {length("length", in_mm(settings.stick_out.value), "steel-rule")}});
  if (settings.full_penetration) block.lines.push_back(simple("setting.full-penetration"));
  for (const Diagnostic& odd : settings.oddities)
    block.oddities.push_back({"oddity", {word("message", odd.message), word("remedy", odd.remedy)}});
  return block;
}

// From the bill of the fixture; bars are bought by the hundred.
void add_fixture(const BoxCase& box, std::vector<Text>& kit) {
  constexpr double kOver_mm = 50.0, kStep_mm = 100.0; // of a bar clamp's length
  for (const fixture::Needed& need : box.fixed().set_up.bill) {
    const std::string key = "kit." + item_word(need.kind);
    const Arg pieces = count("pieces", need.wanted);
    switch (need.kind) {
    case ItemKind::bar_clamp:
      kit.push_back(
          {key,
           {pieces, length("length", std::ceil((need.size_mm + kOver_mm) / kStep_mm) * kStep_mm, "tape")}});
      break;
    case ItemKind::square:
    case ItemKind::spreader:
    case ItemKind::backing_bar:
      kit.push_back({key, {pieces, length("length", need.size_mm, "steel-rule")}});
      break;
    case ItemKind::former:
    case ItemKind::stop:
    case ItemKind::support:
    case ItemKind::hold_down:
    case ItemKind::corner_clamp:
      kit.push_back({key, {pieces}});
      break;
    }
  }
}

void add_discs(const BoxCase& box, std::vector<Text>& kit) {
  if (!box.has_flush_seam()) return;
  double metres = 0.0;
  for (const WorkSeam& seam : box.work.seams)
    if (box.box.seams[seam.seam].finish == Finish::flush) metres += seam.welded_mm / 1000.0;
  for (const int grit : box.work.rules.grits.value)
    kit.push_back(
        {"kit.discs",
         {count("pieces", 1.0 + std::floor(metres / box.work.crew.m_per_disc)), count("grit", grit)}});
}

// Copies that are made to another width than the one that the card is written for.
void add_other_copies(const BoxCase& box, std::vector<Text>& facts) {
  const std::vector<StandFit>& stands = box.row->stands;
  for (std::size_t i = 0; i < stands.size(); ++i) {
    const StandFit& other = stands[i];
    if (other.box != box.box.id || other.measured || other.cut_last) continue;
    const double wider_mm = other.target_mm - box.stand->target_mm;
    if (wider_mm == 0.0) continue;
    facts.push_back(
        {wider_mm > 0.0 ? "fact.copy-wider" : "fact.copy-narrower",
         {count("place", static_cast<double>(i + 1)), length("width", other.target_mm, "gap-gauge"),
          number("by", ArgKind::fine_mm, std::abs(wider_mm))}});
  }
}

} // namespace

std::vector<Text> facts_of(const BoxCase& box) {
  std::vector<Text> facts;
  const double x = box.outside_mm('x'), y = box.outside_mm('y'), z = box.outside_mm('z');
  const std::vector<Arg> overall = {length("x", x, "steel-rule"), length("y", y, "steel-rule"),
                                    length("z", z, "steel-rule")};
  if (box.box.form == BoxForm::own_faces || !box.sized()) {
    facts.push_back({"fact.size-own", overall});
  } else {
    const double width = in_mm(*box.box.width), height = in_mm(*box.box.height),
                 depth = in_mm(*box.box.depth);
    facts.push_back({"fact.size",
                     {length("width", width, box.stand ? "gap-gauge" : "steel-rule"),
                      length("height", height, "steel-rule"), length("depth", depth, "steel-rule")}});
    // What has to go into the alcove, where lips stand out.
    if (std::max({x - width, y - depth, z - height}) > 1.0) facts.push_back({"fact.size-over", overall});
  }
  if (box.row && box.stand) {
    facts.push_back(
        {"fact.row",
         {count("stands", static_cast<double>(box.row->stands.size())), word("opening", box.row->name),
          length("largest", box.stand->largest_mm, "gap-gauge")}});
    if (std::any_of(box.row->stands.begin(), box.row->stands.end(),
                    [&](const StandFit& stand) { return stand.box == box.box.id && stand.cut_last; }))
      facts.push_back(simple("fact.cut-last"));
    add_other_copies(box, facts);
  }
  std::vector<std::size_t> told;
  for (const Part& part : box.box.parts) {
    if (std::find(told.begin(), told.end(), part.sheet) != told.end()) continue;
    told.push_back(part.sheet);
    const Sheet& sheet = box.sheet_of(part);
    facts.push_back(
        {"fact.sheet",
         {word("metal", sheet.metal.name), length("thickness", in_mm(sheet.thickness), "calliper"),
          word("said", sheet.thickness_said)}});
  }
  facts.push_back({std::string("fact.lift-") + box.lift_word(),
                   {number("mass", ArgKind::mass_kg, box.geometry.mass_kg)}});
  facts.push_back({"fact.lies", {list("attitude", {attitude_name(box, tacking_attitude(box))})}});
  facts.push_back(letters_fact(box));
  facts.push_back(seams_fact(box));
  facts.push_back(simple("fact.seam-zero"));
  if (box.work.rules.start_limit_C)
    facts.push_back(
        {"fact.start-limit", {number("limit", ArgKind::temperature_C, box.work.rules.start_limit_C->value)}});
  return facts;
}

std::vector<SettingsBlock> settings_of(const BoxCase& box) {
  std::vector<SettingsBlock> blocks;
  for (const Settings& settings : box.work.settings)
    blocks.push_back(settings_block(settings));
  return blocks;
}

std::vector<Text> kit_of(const BoxCase& box) {
  std::vector<Text> kit;
  add_fixture(box, kit);
  if (box.hold() == Hold::blocks) kit.push_back(simple("kit.blocks"));
  if (!box.closed() && !box.has_piece(ItemKind::backing_bar)) // nobody holds a bar inside a box that is shut
    kit.push_back(
        {"kit.backing-bar", {count("pieces", 1), length("length", box.longest_seam_mm(), "steel-rule")}});
  kit.push_back(simple("kit.measuring"));
  for (const Measure& measure : box.work.measures)
    if (measure.kind == MeasureKind::width && measure.gauge == "gap-gauge") {
      kit.push_back({"kit.gap-gauge", {length("length", measure.nominal_mm + measure.over_mm, "calliper")}});
      break;
    }
  add_discs(box, kit);
  kit.push_back(
      {"kit.crayon", {number("limit", ArgKind::temperature_C, box.work.rules.touch_limit_C.value)}});
  kit.push_back(simple("kit.marking"));
  return kit;
}

std::vector<Text> care_of(const BoxCase& box) {
  std::vector<Text> care = {
      simple("care.welding"),
      simple("care.fume"),
      simple("care.grinder"),
      {"care.fire", {number("time", ArgKind::time_s, in_s(fire_watch().value))}},
      {"care.hot", {number("limit", ArgKind::temperature_C, box.work.rules.touch_limit_C.value)}}};
  if (box.any_family(MetalFamily::stainless)) care.push_back(simple("care.stainless"));
  if (box.any_family(MetalFamily::galvanized)) care.push_back(simple("care.zinc"));
  if (box.any_family(MetalFamily::aluminium)) care.push_back(simple("care.aluminium"));
  if (box.closed())
    care.push_back(simple(box.any_process(Process::tig) ? "care.closed-argon" : "care.closed"));
  if (lift_for(kg(box.geometry.mass_kg)) != Lift::one_person)
    care.push_back({"care.lift", {number("mass", ArgKind::mass_kg, box.geometry.mass_kg)}});
  if (care.size() < 8) care.push_back(simple("care.solvent"));
  constexpr std::size_t kMost = 8; // more is never read
  if (care.size() > kMost) care.resize(kMost);
  return care;
}

std::vector<Text> where_mm_of(const BoxCase& box) {
  std::vector<Text> lines;
  for (const Contribution& part : box.prediction.contributions)
    lines.push_back(
        {"where." + part.key,
         {number("low", ArgKind::fine_mm, part.mm.low), number("high", ArgKind::fine_mm, part.mm.high)}});
  return lines;
}

std::string joint_word(JointKind joint) {
  static const char* const words[] = {"butt", "corner", "tee", "lap"};
  return words[static_cast<int>(joint)];
}
std::string corner_word(CornerStyle corner) {
  static const char* const words[] = {"open-corner", "half-open-corner", "lapped-corner"};
  return words[static_cast<int>(corner)];
}
std::string weld_word(WeldKind weld) {
  static const char* const words[] = {"square", "fillet", "vee"};
  return words[static_cast<int>(weld)];
}
std::string position_word(WeldPosition position) {
  static const char* const words[] = {"flat", "horizontal", "downhill", "uphill", "overhead"};
  return words[static_cast<int>(position)];
}

} // namespace tacksquare
