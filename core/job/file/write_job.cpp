#include "base/escape.h"
#include "base/numbers.h"
#include "job/file/read_job.h"
#include "job/file/tag.h"
#include "job/file/words.h"
#include "job/file/write_fit.h"
#include "job/file/write_fixture.h"

#include <algorithm>

namespace tacksquare {

namespace {

std::string direction(Vec3 p) {
  return shortest(p.x).append(", ").append(shortest(p.y)).append(", ").append(shortest(p.z));
}

void write_metal(std::string& out, const Metal& m) {
  const auto& all = built_in_metals();
  const auto like =
      std::find_if(all.begin(), all.end(), [&](const Metal& b) { return b.family == m.family; });
  Tag(out, 1, "metal")
      .with("id", m.id)
      .with("name", m.name)
      .with("like", like->id)
      .with("family", words::families, m.family)
      .with("density", written(Density(m.density_kg_m3)))
      .with("youngs-modulus", written(megapascal(m.youngs_MPa)))
      .with("poisson", shortest(m.poisson))
      .with("expansion", written(Expansion(round_to(m.expansion_per_K * 1e6, 1e-6))))
      .with("conductivity", written(Conductivity(m.conductivity_W_mK)))
      .with("specific-heat", written(SpecificHeat(m.specific_heat_J_kgK)))
      .with("yield", written(megapascal(m.yield_MPa)))
      .with("ultimate", written(megapascal(m.ultimate_MPa)))
      .with("solidus", written(celsius(m.solidus_C)))
      .with("liquidus", written(celsius(m.liquidus_C)))
      .with("least-bend-ratio", shortest(m.min_bend_ratio))
      .empty();
}

// The thickness as the file said it, when that can be said again.
void write_sheet(std::string& out, const Sheet& s) {
  Tag tag(out, 1, "sheet");
  tag.with("id", s.id).with("metal", s.metal.id);
  const std::string& said = s.thickness_said;
  const auto ga = said.find(" ga ");
  const auto measured = said.rfind(" measured");
  if (ga != std::string::npos)
    tag.with("gauge", said.substr(0, ga)).with("gauge-system", said.substr(ga + 4));
  else if (measured != std::string::npos)
    tag.with("measured", said.substr(0, measured));
  else
    tag.with("thickness", said.empty() ? written(s.thickness) : said);
  tag.empty();
}

void write_shrinkage(std::string& out, std::size_t depth, const OwnShrinkage& own) {
  if (!own.any()) return;
  Tag(out, depth, "shrinkage")
      .with("across", own.across)
      .with("along", own.along)
      .with("angle", own.angle)
      .empty();
}

void close_around(std::string& out, std::size_t depth, Tag& tag, const OwnShrinkage& own) {
  if (!own.any()) return tag.empty();
  tag.open();
  write_shrinkage(out, depth + 1, own);
  tag.close();
}

void write_procedure(std::string& out, const Procedure& p) {
  Tag tag(out, 1, "procedure");
  tag.with("id", p.id);
  if (p.process) tag.with("process", words::processes, *p.process);
  tag.with("wire-feed", p.wire_feed)
      .with("volts", p.volts)
      .with("amps", p.amps)
      .with("travel", p.travel)
      .with("wire-diameter", p.wire_diameter)
      .with("wire", p.wire)
      .with("gas", p.gas)
      .with("gas-flow", p.gas_flow)
      .with("stick-out", p.stick_out)
      .with("efficiency", p.efficiency)
      .with("full-penetration", p.full_penetration ? "yes" : "no")
      .with("penetration", p.penetration);
  close_around(out, 1, tag, p.own);
}

void write_rules(std::string& out, const Rules& r) {
  std::optional<std::string> grits;
  if (r.grits) {
    grits.emplace();
    for (const int grit : *r.grits)
      grits->append(grits->empty() ? "" : " ").append(std::to_string(grit));
  }
  Tag(out, 1, "rules")
      .with("tack-rule", words::tack_rules, r.tack_rule)
      .with("tack-length", r.tack_length)
      .with("tack-pitch", r.tack_pitch)
      .with("first-tack", r.first_tack)
      .with("tack-throat", r.tack_throat)
      .with("run-length", r.run_length)
      .with("back-step", r.back_step ? "yes" : "no")
      .with("tie-in", r.tie_in)
      .with("gap", r.gap)
      .with("step", r.step)
      .with("start-limit", r.start_limit)
      .with("touch-limit", r.touch_limit)
      .with("proud", r.proud)
      .with("dig-fraction", r.dig_fraction)
      .with("grits", grits)
      .with("edge-radius", r.edge_radius)
      .empty();
}

void write_limits(std::string& out, const Limits& l) {
  Tag tag(out, 1, "limits");
  tag.with("opposite-sides", l.opposite_sides)
      .with("diagonals", l.diagonals)
      .with("rock", l.rock)
      .with("wall-lean", l.wall_lean)
      .with("belly", l.belly)
      .with("size-over", l.size_over)
      .with("size-under", l.size_under);
  if (l.linear_class) tag.with("linear-class", words::linear_classes, *l.linear_class);
  if (l.flatness_class) tag.with("flatness-class", words::flatness_classes, *l.flatness_class);
  tag.empty();
}

void write_crew(std::string& out, const Crew& c) {
  Tag(out, 1, "crew")
      .with("welder", c.welder)
      .with("grinder", c.grinder)
      .with("fit", c.fit)
      .with("turn", c.turn)
      .with("look", c.look)
      .with("tack", c.tack)
      .with("weld-start", c.weld_start)
      .with("knock-down", c.knock_down)
      .with("disc-change", c.disc_change)
      .with("grind", c.grind)
      .with("length-per-disc", c.metres_per_disc)
      .with("takt", c.takt)
      .empty();
}

void write_face(std::string& out, const Face& f) {
  Tag tag(out, 3, "face");
  tag.with("id", f.id)
      .with("origin", place(f.placement.origin))
      .with("along", direction(f.placement.u))
      .with("up", direction(f.placement.v))
      .open();
  for (std::size_t i = 0; i < f.outline.size(); ++i) {
    Tag point(out, 4, "point");
    point.with("x", millimetres(f.outline[i].x)).with("y", millimetres(f.outline[i].y));
    if (f.setback_mm[i] != 0.0) point.with("setback", millimetres(f.setback_mm[i]));
    point.empty();
  }
  for (const auto& ring : f.cutouts) {
    Tag cutout(out, 4, "cut-out");
    cutout.open();
    for (const Vec2 p : ring)
      Tag(out, 5, "point").with("x", millimetres(p.x)).with("y", millimetres(p.y)).empty();
    cutout.close();
  }
  tag.close();
}

void write_part(std::string& out, const Job& job, const Box& box, std::size_t index) {
  const Part& part = box.parts[index];
  Tag tag(out, 2, "part");
  tag.with("id", part.id)
      .with("sheet", job.sheets[part.sheet].id)
      .with("loose", part.loose ? "yes" : "no")
      .open();
  for (const Face& face : box.faces)
    if (face.part == index) write_face(out, face);
  for (const Bend& bend : part.bends)
    Tag(out, 3, "bend")
        .with("faces", box.faces[bend.face_a].id + ' ' + box.faces[bend.face_b].id)
        .with("inside-radius", written(bend.inside_radius))
        .empty();
  tag.close();
}

std::string spaced(const std::vector<std::string>& ids) {
  std::string all;
  for (const std::string& id : ids)
    all.append(all.empty() ? "" : " ").append(id);
  return all;
}

void write_seam(std::string& out, const Job& job, const Box& box, const Seam& s) {
  Tag tag(out, 2, "seam");
  tag.with("id", s.id)
      .with("between", box.faces[s.face_a].id + ' ' + box.faces[s.face_b].id)
      .with("joint", words::joints, s.joint);
  if (s.joint == JointKind::corner) tag.with("corner", words::corners, s.corner);
  if (s.joint == JointKind::corner && s.over) tag.with("over", box.faces[*s.over].id);
  tag.with("weld", words::welds, s.weld)
      .with("leg", s.leg)
      .with("groove-angle", s.groove)
      .with("side", words::sides, s.side)
      .with("finish", words::finishes, s.finish);
  if (s.stitch)
    tag.with("stitch-length", written(s.stitch->length)).with("stitch-pitch", written(s.stitch->pitch));
  if (s.procedure) tag.with("procedure", job.procedures[*s.procedure].id);
  if (s.position) tag.with("position", words::positions, *s.position);
  if (!s.after.empty()) tag.with("after", spaced(s.after));
  close_around(out, 2, tag, s.own);
}

void write_box(std::string& out, const Job& job, const Box& box) {
  Tag tag(out, 1, "box");
  tag.with("id", box.id)
      .with("name", box.name)
      .with("count", std::to_string(box.count))
      .with("face-down", box.attitude)
      .with("last-face", box.last_face);
  if (!box.weld_order.empty()) tag.with("weld-order", spaced(box.weld_order));
  tag.open();
  Tag outside(out, 2, "outside");
  outside.with("form", words::box_forms, box.form)
      .with("made", words::constructions, box.construction)
      .with("width", box.width)
      .with("depth", box.depth)
      .with("height", box.height);
  if (!box.open_side.empty()) outside.with("open", words::openings, box.open_side);
  outside.empty();
  for (std::size_t i = 0; i < box.parts.size(); ++i)
    write_part(out, job, box, i);
  for (const Vent& vent : box.vents)
    Tag(out, 2, "vent")
        .with("face", box.faces[vent.face].id)
        .with("at", place(vent.at))
        .with("diameter", written(vent.diameter))
        .with("plugged", words::plugged, vent.plugged_last)
        .empty();
  for (const Seam& seam : box.seams)
    write_seam(out, job, box, seam);
  tag.close();
}

} // namespace

std::string write_job(const Job& job) {
  std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  Tag root(out, 0, "tacksquare-job");
  const auto stated = [](const std::string& text) {
    return text.empty() ? std::optional<std::string>() : std::optional<std::string>(text);
  };
  root.with("name", stated(job.name))
      .with("number", stated(job.number))
      .with("date", stated(job.date))
      .open();
  std::vector<std::string> done;
  for (const Sheet& sheet : job.sheets) {
    if (find_metal(sheet.metal.id) || std::find(done.begin(), done.end(), sheet.metal.id) != done.end())
      continue;
    done.push_back(sheet.metal.id);
    write_metal(out, sheet.metal);
  }
  for (const Sheet& sheet : job.sheets)
    write_sheet(out, sheet);
  for (const Procedure& procedure : job.procedures)
    write_procedure(out, procedure);
  if (job.ambient_stated) Tag(out, 1, "ambient").with("temperature", written(job.ambient)).empty();
  write_rules(out, job.rules);
  write_limits(out, job.limits);
  write_crew(out, job.crew);
  write_incoming(out, job.incoming);
  for (const Box& box : job.boxes)
    write_box(out, job, box);
  if (job.brake) write_brake(out, job, *job.brake);
  if (job.opening) write_opening(out, job, *job.opening);
  for (const MeasuredBox& measured : job.measured)
    write_measured(out, job, measured);
  if (job.shop) write_shop(out, *job.shop);
  for (const Fixture& fixture : job.fixtures)
    write_fixture(out, job, fixture);
  root.close();
  return out;
}

} // namespace tacksquare
