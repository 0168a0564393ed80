// The hard opening and the row that stands in it.
#include "base/ids.h"
#include "job/file/check_opening.h"
#include "job/file/ranges.h"
#include "job/file/read_parts.h"
#include "job/file/words.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <tuple>
#include <utility>

namespace tacksquare {

namespace {

constexpr std::size_t kLongestRow = 100;

// Up to three lines of one to three readings; none where the element is not there.
SaidLines read_lines(const Element& parent, std::string_view tag,
                     const std::array<std::string_view, 3>& lines, NineReadings& into, Origin& where) {
  SaidLines said;
  auto e = parent.only_child(tag);
  if (!e) return said;
  where = said.where = e->where();
  bool any = false;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    any = e->has(lines[i]) || any;
    said.lines[i] = e->readings(lines[i], {1, 3}, parse_length, ranges::opening);
    for (const Said<Length>& reading : said.lines[i])
      into[i].push_back(reading.value);
  }
  if (!any)
    e->out().error("attribute-missing", e->where(), e->tag() + " states nothing",
                   "add " + std::string(lines[1]) + "=\"1203 mm, 1202 mm, 1202.5 mm\"");
  e->allow({});
  e->finish();
  return said;
}

void read_diagonals(const Element& parent, HardOpening& opening, Origin& where) {
  auto e = parent.only_child("diagonals");
  if (!e) return;
  where = e->where();
  opening.diagonal_up_right = e->quantity("up-right", parse_length, ranges::diagonal);
  opening.diagonal_up_left = e->quantity("up-left", parse_length, ranges::diagonal);
  if (!e->has("up-right") && !e->has("up-left"))
    e->out().error("attribute-missing", e->where(), "<diagonals> states nothing",
                   "add up-right=\"1345 mm\" up-left=\"1343 mm\"");
  e->allow({});
  e->finish();
}

void read_plumb(const Element& parent, HardOpening& opening, Origin& where) {
  auto e = parent.only_child("plumb");
  if (!e) return;
  where = e->where();
  opening.plumb_left = e->quantity("left", parse_length, ranges::plumb);
  opening.plumb_right = e->quantity("right", parse_length, ranges::plumb);
  if (!e->has("left") && !e->has("right"))
    e->out().error("attribute-missing", e->where(), "<plumb> states nothing",
                   "add left=\"2 mm\" right=\"-1 mm\"");
  e->allow({});
  e->finish();
}

void read_floor(const Element& parent, HardOpening& opening) {
  auto e = parent.only_child("floor");
  if (!e) return;
  e->require("rise", "1.5 mm");
  opening.floor_rise = e->quantity("rise", parse_length, ranges::plumb);
  e->allow({});
  e->finish();
}

Length most_of(const NineReadings& readings) {
  Length largest = mm(0);
  for (const auto& line : readings)
    for (const Length reading : line)
      largest = std::max(largest, reading);
  return largest; // zero: not stated
}

// One that lies outside of the opening, or fills it.
void check_obstacle(const Element& e, const Obstacle& obstacle, const HardOpening& opening) {
  const bool upright = obstacle.side != OpeningSide::top && obstacle.side != OpeningSide::floor;
  const Length along = most_of(upright ? opening.heights : opening.widths);
  if (obstacle.from && along > mm(0) && *obstacle.from >= along)
    e.out().error("obstacle-outside", e.where("from"),
                  "the obstacle begins " + written(*obstacle.from) + " along its side, which has " +
                      written(along),
                  "from counts up from the floor, on top and floor from the left");
  else if (obstacle.to && along > mm(0) && *obstacle.to > along)
    e.out().caution("obstacle-beyond", e.where("to"),
                    "the obstacle ends " + written(*obstacle.to) + " along its side, which has " +
                        written(along),
                    "check the number and its unit, or leave it out: up to the end");
  const Length across = most_of(obstacle.side == OpeningSide::back ? opening.depths
                                : upright                          ? opening.widths
                                                                   : opening.heights);
  if (across > mm(0) && obstacle.proud >= across)
    e.out().error("obstacle-outside", e.where("proud"),
                  "the obstacle stands in by " + written(obstacle.proud) + " and fills the opening, " +
                      written(across),
                  "check the number and its unit");
}

// By side, height and span.
using ObstaclesSeen =
    std::map<std::tuple<OpeningSide, Length, std::optional<Length>, std::optional<Length>>, Origin>;

void read_obstacle(Element e, HardOpening& opening, ObstaclesSeen& seen) {
  const std::size_t before = e.reading().errors();
  Obstacle obstacle;
  obstacle.where = e.where();
  e.require("side", "left");
  const auto side = e.choice("side", words::opening_sides);
  obstacle.side = side.value_or(OpeningSide::left);
  obstacle.name = e.seen_name().value_or("");
  e.require("proud", "3 mm");
  obstacle.proud = e.quantity("proud", parse_length, ranges::proud).value_or(mm(0));
  obstacle.from = e.quantity("from", parse_length, ranges::along_side);
  obstacle.to = e.quantity("to", parse_length, ranges::along_side);
  if (obstacle.from && obstacle.to && *obstacle.to <= *obstacle.from)
    e.out().error("span-turned", e.where("to"), "the obstacle ends where it has not begun",
                  "from counts up from the floor, on top and floor from the left: less than to");
  e.allow({});
  e.finish();
  if (side) check_obstacle(e, obstacle, opening);
  const auto [first, added] =
      seen.try_emplace({obstacle.side, obstacle.proud, obstacle.from, obstacle.to}, obstacle.where);
  if (!added && e.reading().errors() == before)
    e.out().caution(
        "obstacle-twice", obstacle.where, "an obstacle of this side, place and size is stated already",
        "delete one of them, or say where the second one is", Note{"the first one", first->second});
  opening.obstacles.push_back(std::move(obstacle));
}

// Stands as they come, and what may be there only once.
class Row {
 public:
  Row(const Known& known, const Job& job, HardOpening& opening)
      : known_(known), job_(job), opening_(opening) {}

  void read(Element e) {
    RowPlace stand;
    stand.where = e.where();
    const auto box = read_box_ref(e, known_, job_);
    const auto copy = read_copy(e, box, known_, job_);
    stand.gap = e.quantity("gap", parse_length, ranges::gap).value_or(mm(0));
    stand.keep_size = e.yes_or_no("keep-size").value_or(false);
    stand.cut_last = e.yes_or_no("cut-last").value_or(false);
    stand.coating = e.quantity("coating", parse_length, ranges::coating);
    stand.entry = e.choice("entry", words::ways_in);
    e.allow({});
    e.finish();
    if (stand.cut_last && stand.keep_size)
      e.out().error("cut-last-kept", e.where("keep-size"),
                    "the box that is cut last cannot keep its size: it takes what is left",
                    "delete keep-size or cut-last");
    if (stand.cut_last) {
      if (cut_last_.known())
        e.out().error("cut-last-twice", e.where("cut-last"), "a second box is to be cut last",
                      "keep the one that is cut when all others stand", Note{"the first one", cut_last_});
      else
        cut_last_ = e.where("cut-last");
    }
    if (!box || !copy) return;
    stand.box = *box;
    stand.copy = *copy;
    const auto [first, added] = stands_.try_emplace({*box, *copy}, stand.where);
    if (!added)
      e.out().error("stand-twice", e.where(),
                    "copy " + std::to_string(*copy) + " of box " + quoted(job_.boxes[*box].id) +
                        " stands in the row already",
                    "each copy stands once: copy=\"2\" for the second", Note{"the first one", first->second});
    opening_.row.push_back(stand);
  }

 private:
  const Known& known_;
  const Job& job_;
  HardOpening& opening_;
  std::map<std::pair<std::size_t, int>, Origin> stands_;
  Origin cut_last_;
};

// All copies of all boxes, as listed.
std::vector<RowPlace> whole_row(const Job& job, Origin where) {
  std::vector<std::size_t> order(job.boxes.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return id_before(job.boxes[a].id, job.boxes[b].id); });
  std::vector<RowPlace> row;
  for (const std::size_t box : order) {
    for (int copy = 1; copy <= job.boxes[box].count && row.size() <= kLongestRow; ++copy) {
      RowPlace stand;
      stand.box = box;
      stand.copy = copy;
      stand.where = where;
      row.push_back(stand);
    }
  }
  return row;
}

void check_coating(const Element& e, const HardOpening& opening) {
  if (opening.coating_least && *opening.coating_least > opening.coating)
    e.out().error("coating-order", e.where("coating-least"), "the least coating is more than the usual one",
                  "least, usual, most: each no less than the one before");
  if (opening.coating_most && *opening.coating_most < opening.coating)
    e.out().error("coating-order", e.where("coating-most"), "the most coating is less than the usual one",
                  "least, usual, most: each no less than the one before");
}

void read_row(Element& e, const Known& known, const Job& job, HardOpening& opening) {
  const std::size_t before = e.reading().errors();
  const auto stands = e.children("stand");
  Row row(known, job, opening);
  for (const Element& stand : stands)
    row.read(stand);
  if (stands.empty()) opening.row = whole_row(job, opening.where);
  if (opening.row.size() > kLongestRow) {
    e.out().error("row-long", e.where(),
                  "more than " + std::to_string(kLongestRow) + " boxes would stand in the opening",
                  "name those that do, from left to right: <stand box=\"locker\" copy=\"1\"/>");
    opening.row.erase(opening.row.begin() + kLongestRow, opening.row.end());
  }
  const bool tips = std::any_of(opening.row.begin(), opening.row.end(), [&](const RowPlace& stand) {
    return stand.entry.value_or(opening.entry) == WayIn::tip;
  });
  if (opening.tip_from && !tips && e.reading().errors() == before)
    e.out().error("tip-odd", e.where("tip-from"), "no box is tipped in, so it has no lean to be tipped from",
                  "entry=\"tip\", or delete tip-from");
}

} // namespace

void read_opening(Element& e, const Known& known, Job& job) {
  HardOpening o;
  o.where = e.where();
  o.name = e.seen_name().value_or("");
  const std::size_t before = e.reading().errors();
  o.entry = e.choice("entry", words::ways_in).value_or(WayIn::slide);
  const bool sure_of_entry = e.reading().errors() == before;
  o.tip_from = e.quantity("tip-from", parse_angle, ranges::tip);
  e.require("clearance", "1.6 mm");
  o.clearance = e.quantity("clearance", parse_length, ranges::gap).value_or(mm(0));
  o.clearance_height = e.quantity("clearance-height", parse_length, ranges::gap).value_or(mm(0));
  o.clearance_depth = e.quantity("clearance-depth", parse_length, ranges::gap).value_or(mm(0));
  const auto coating = e.quantity("coating", parse_length, ranges::coating);
  o.coating = coating.value_or(mm(0));
  o.coating_least = e.quantity("coating-least", parse_length, ranges::coating);
  o.coating_most = e.quantity("coating-most", parse_length, ranges::coating);
  if (coating)
    check_coating(e, o);
  else if (!e.has("coating") && (o.coating_least || o.coating_most))
    e.out().error("attribute-missing", e.where(),
                  "<opening> states the least or most of a coating, not the usual one",
                  "add coating=\"0.08 mm\"");
  o.allowance = e.quantity("allowance", parse_length, ranges::limit);
  o.chance = e.quantity("chance", parse_number, ranges::chance).value_or(o.chance);
  o.by = e.choice("by", words::target_rules).value_or(TargetRule::chance);

  OpeningSaid said;
  said.widths = read_lines(e, "widths", words::width_lines, o.widths, o.widths_where);
  said.heights = read_lines(e, "heights", words::upright_lines, o.heights, o.heights_where);
  said.depths = read_lines(e, "depths", words::upright_lines, o.depths, o.depths_where);
  if (e.children("widths").empty())
    e.out().error(
        "no-widths", e.where(), "the opening states no width",
        "add <widths top=\"1203 mm\" middle=\"1202 mm\" under=\"1202.5 mm\"/>, up to three readings each");
  read_diagonals(e, o, said.diagonals);
  read_plumb(e, o, said.plumb);
  read_floor(e, o);
  ObstaclesSeen seen;
  for (const Element& obstacle : e.children("obstacle"))
    read_obstacle(obstacle, o, seen);
  check_opening(o, said, e.out());
  if (!sure_of_entry) o.tip_from.reset();
  read_row(e, known, job, o);
  e.allow({"widths", "heights", "depths", "diagonals", "plumb", "floor", "obstacle", "stand"});
  e.finish();
  job.opening = std::move(o);
}

} // namespace tacksquare
