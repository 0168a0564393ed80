// Rules, limits, crew, ambient, misfit to reckon with.
#include "job/file/ranges.h"
#include "job/file/read_parts.h"
#include "job/file/words.h"

namespace tacksquare {

void read_rules(Element& e, Rules& r) {
  r.where = e.where();
  const auto length = [&](std::string_view name, Range<Length> range) {
    return e.quantity(name, parse_length, range);
  };
  r.tack_rule = e.choice("tack-rule", words::tack_rules).value_or(TackRule::sheet);
  r.tack_length = length("tack-length", ranges::run);
  r.tack_pitch = length("tack-pitch", ranges::run);
  r.first_tack = length("first-tack", ranges::run);
  r.tack_throat = length("tack-throat", ranges::tack_throat);
  r.run_length = length("run-length", ranges::run);
  r.back_step = e.yes_or_no("back-step").value_or(false);
  r.tie_in = length("tie-in", ranges::limit);
  r.gap = length("gap", ranges::limit);
  r.step = length("step", ranges::limit);
  r.start_limit = e.quantity("start-limit", parse_temperature, ranges::temperature);
  r.touch_limit = e.quantity("touch-limit", parse_temperature, ranges::temperature);
  r.proud = length("proud", ranges::limit);
  r.dig_fraction = e.quantity("dig-fraction", parse_number, ranges::fraction);
  r.edge_radius = length("edge-radius", ranges::edge_radius);
  std::vector<int> grits;
  for (const Word& word : e.words("grits")) {
    const auto parsed = parse_count(word.text);
    const int* grit = std::get_if<int>(&parsed);
    if (grit && *grit >= ranges::grit.low && *grit <= ranges::grit.high) {
      grits.push_back(*grit);
    } else {
      e.out().error("grit-bad", word.where, quoted(word.text) + " is not a grit",
                    "numbers from 16 to 1000 separated by spaces, such as \"60 120\"");
    }
  }
  if (!grits.empty()) r.grits = std::move(grits);
  if (r.tack_length && r.tack_pitch && *r.tack_pitch <= *r.tack_length)
    e.out().error("tack-pitch", e.where("tack-pitch"), "the tack pitch is not longer than a tack",
                  "the pitch counts from middle to middle");
  e.allow({});
  e.finish();
}

void read_limits(Element& e, Limits& l) {
  l.where = e.where();
  const auto length = [&](std::string_view name) { return e.quantity(name, parse_length, ranges::limit); };
  l.opposite_sides = length("opposite-sides");
  l.diagonals = length("diagonals");
  l.rock = length("rock");
  l.wall_lean = length("wall-lean");
  l.belly = length("belly");
  l.size_over = length("size-over");
  l.size_under = length("size-under");
  l.linear_class = e.choice("linear-class", words::linear_classes);
  l.flatness_class = e.choice("flatness-class", words::flatness_classes);
  e.allow({});
  e.finish();
}

void read_crew(Element& e, Crew& c) {
  c.where = e.where();
  const auto task = [&](std::string_view name) { return e.quantity(name, parse_duration, ranges::task); };
  c.welder = e.text("welder").value_or(c.welder);
  c.grinder = e.text("grinder").value_or(c.grinder);
  c.fit = task("fit");
  c.turn = task("turn");
  c.look = task("look");
  c.tack = task("tack");
  c.weld_start = task("weld-start");
  c.knock_down = task("knock-down");
  c.disc_change = task("disc-change");
  c.grind = e.quantity("grind", parse_pace, ranges::pace);
  c.metres_per_disc = e.quantity("length-per-disc", parse_length, ranges::disc);
  c.takt = e.quantity("takt", parse_duration, ranges::takt);
  if (c.welder == c.grinder)
    e.out().error("crew-same", e.where("grinder"), "welder and grinder have the same name on the sheet",
                  "two hands need two names");
  e.allow({});
  e.finish();
}

void read_incoming(Element& e, Incoming& i) {
  i.where = e.where();
  i.bend = e.quantity("bend", parse_angle, ranges::bend_misfit);
  i.bend_place = e.quantity("bend-place", parse_length, ranges::misfit);
  i.blank = e.quantity("blank", parse_length, ranges::misfit);
  if (!e.has("bend") && !e.has("bend-place") && !e.has("blank"))
    e.out().error("attribute-missing", e.where(), "<incoming> states nothing",
                  "add bend=\"0.5 deg\", bend-place=\"0.2 mm\" or blank=\"0.2 mm\"");
  e.allow({});
  e.finish();
}

void read_ambient(Element& e, Job& job) {
  e.require("temperature", "20 C");
  if (const auto t = e.quantity("temperature", parse_temperature, ranges::ambient)) {
    job.ambient = *t;
    job.ambient_stated = true;
  }
  e.allow({});
  e.finish();
}

} // namespace tacksquare
