#include "job/file/write_fit.h"

#include "job/file/tag.h"
#include "job/file/words.h"

namespace tacksquare {

namespace {

void write_lines(std::string& out, std::string_view name, const std::array<std::string_view, 3>& lines,
                 const NineReadings& readings) {
  if (readings[0].empty() && readings[1].empty() && readings[2].empty()) return;
  Tag tag(out, 2, name);
  for (std::size_t i = 0; i < lines.size(); ++i)
    tag.with(lines[i], readings[i]);
  tag.empty();
}

// Lengths that a file need not state are zero.
std::optional<Length> unless_zero(Length length) {
  return length == mm(0) ? std::optional<Length>() : length;
}

std::optional<std::string> stated(const std::string& text) {
  return text.empty() ? std::optional<std::string>() : text;
}

} // namespace

void write_incoming(std::string& out, const Incoming& i) {
  if (!i.bend && !i.bend_place && !i.blank) return;
  Tag(out, 1, "incoming")
      .with("bend", i.bend)
      .with("bend-place", i.bend_place)
      .with("blank", i.blank)
      .empty();
}

void write_brake(std::string& out, const Job& job, const Brake& b) {
  Tag tag(out, 1, "brake");
  tag.with("name", stated(b.name))
      .with("punch-angle", written(b.punch_angle))
      .with("punch-height", written(b.punch_height))
      .with("punch-thickness", written(b.punch_thickness));
  if (b.neck_from != mm(0) || b.neck_in != mm(0))
    tag.with("neck-from", written(b.neck_from)).with("neck-in", written(b.neck_in));
  tag.with("ram-thickness", written(b.ram_thickness))
      .with("die-opening", written(b.die_opening))
      .with("die-width", written(b.die_width))
      .with("die-height", written(b.die_height))
      .with("bed-thickness", written(b.bed_thickness))
      .with("gauge-least", written(b.gauge_least))
      .with("gauge-most", written(b.gauge_most))
      .with("shortest-punch", unless_zero(b.shortest_punch))
      .open();
  for (const Deduction& d : b.deductions)
    Tag(out, 2, "deduction")
        .with("sheet", job.sheets[d.sheet].id)
        .with("bend", written(d.bend))
        .with("radius", written(d.radius))
        .with("is", written(d.deduction))
        .empty();
  tag.close();
}

void write_opening(std::string& out, const Job& job, const HardOpening& o) {
  Tag tag(out, 1, "opening");
  tag.with("name", stated(o.name))
      .with("entry", words::ways_in, o.entry)
      .with("tip-from", o.tip_from)
      .with("clearance", written(o.clearance))
      .with("clearance-height", unless_zero(o.clearance_height))
      .with("clearance-depth", unless_zero(o.clearance_depth))
      .with("coating", written(o.coating))
      .with("coating-least", o.coating_least)
      .with("coating-most", o.coating_most)
      .with("allowance", o.allowance)
      .with("chance", shortest(o.chance))
      .with("by", words::target_rules, o.by)
      .open();
  write_lines(out, "widths", words::width_lines, o.widths);
  write_lines(out, "heights", words::upright_lines, o.heights);
  write_lines(out, "depths", words::upright_lines, o.depths);
  if (o.diagonal_up_right || o.diagonal_up_left)
    Tag(out, 2, "diagonals")
        .with("up-right", o.diagonal_up_right)
        .with("up-left", o.diagonal_up_left)
        .empty();
  if (o.plumb_left || o.plumb_right)
    Tag(out, 2, "plumb").with("left", o.plumb_left).with("right", o.plumb_right).empty();
  if (o.floor_rise) Tag(out, 2, "floor").with("rise", o.floor_rise).empty();
  for (const Obstacle& obstacle : o.obstacles)
    Tag(out, 2, "obstacle")
        .with("name", stated(obstacle.name))
        .with("side", words::opening_sides, obstacle.side)
        .with("proud", written(obstacle.proud))
        .with("from", obstacle.from)
        .with("to", obstacle.to)
        .empty();
  for (const RowPlace& stand : o.row) {
    Tag row(out, 2, "stand");
    row.with("box", job.boxes[stand.box].id)
        .with("copy", std::to_string(stand.copy))
        .with("gap", unless_zero(stand.gap))
        .with("coating", stand.coating);
    if (stand.keep_size) row.with("keep-size", "yes");
    if (stand.cut_last) row.with("cut-last", "yes");
    if (stand.entry) row.with("entry", words::ways_in, *stand.entry);
    row.empty();
  }
  tag.close();
}

void write_measured(std::string& out, const Job& job, const MeasuredBox& m) {
  const Box& box = job.boxes[m.box];
  Tag tag(out, 1, "measured");
  tag.with("box", box.id).with("copy", std::to_string(m.copy)).open();
  for (const WallLeanReading& r : m.leans)
    Tag(out, 2, "wall-lean")
        .with("face", box.faces[r.face].id)
        .with("one", written(r.one))
        .with("other", written(r.other))
        .empty();
  for (const FitReading& r : m.fits)
    Tag(out, 2, "fit").with("seam", box.seams[r.seam].id).with("gaps", r.gaps).with("steps", r.steps).empty();
  for (const BlankReading& r : m.blanks)
    Tag(out, 2, "blank")
        .with("part", box.parts[r.part].id)
        .with("length-off", r.length_off)
        .with("width-off", r.width_off)
        .empty();
  for (const ThicknessReading& r : m.thicknesses)
    Tag(out, 2, "thickness").with("sheet", job.sheets[r.sheet].id).with("is", written(r.is)).empty();
  for (const StackReading& r : m.stacks)
    Tag(out, 2, "stack")
        .with("faces", box.faces[r.face_a].id + ' ' + box.faces[r.face_b].id)
        .with("off", written(r.off))
        .empty();
  for (const SizeReading& r : m.sizes)
    Tag(out, 2, "sizes")
        .with("stage", words::stages, r.stage)
        .with("widths", r.widths)
        .with("heights", r.heights)
        .with("depths", r.depths)
        .with("diagonal-up-right", r.diagonal_up_right)
        .with("diagonal-up-left", r.diagonal_up_left)
        .empty();
  tag.close();
}

} // namespace tacksquare
