// The fixture on the foreman's pages: how well the box is fixed, what presses on it and what it stands on,
// what it takes, and what less of it would do.
#include "base/numbers.h"
#include "sheet/compose.h"
#include "sheet/plain_text.h"
#include "tables/fixture_practice.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare {

namespace {

std::string kind_of(const Composer& compose, const std::string& kind) {
  return compose.term("fixture.kind.", kind);
}

// What the model leaves out: that a wall sticks to what it is pressed against.
void add_friction(const Composer& compose, const FixturePlan& fixture, DocumentTable& out) {
  const double there = friction_practice().steel_on_steel;
  double most_mm = 0.0;
  bool any = false, sticks = false;
  for (const PlannedPiece& piece : fixture.pieces) {
    if (!(piece.force_N > 0.0 && piece.stops_N > 0.0)) continue;
    const bool holds = piece.friction <= there;
    std::vector<Arg> args{number("force", ArgKind::force_N, piece.stops_N),
                          word("needed", fixed(piece.friction, 2)), word("there", fixed(there, 1))};
    if (!holds) args.push_back(number("slide", ArgKind::fine_mm, piece.slide_mm));
    out.rows.push_back({compose.line("fixture.sticks-piece",
                                     {word("id", piece.id), word("what", kind_of(compose, piece.kind))}),
                        compose.line(holds ? "fixture.sticks" : "fixture.slides", std::move(args))});
    any = true;
    sticks = sticks || holds;
    if (holds) most_mm = std::max(most_mm, piece.slide_mm);
  }
  if (any) out.below.push_back(compose.word("fixture.friction.below"));
  if (sticks)
    out.below.push_back(compose.line("fixture.friction.most", {number("slide", ArgKind::fine_mm, most_mm)}));
}

// Stops get no more than what friction on the table passes on.
void add_stops(const Composer& compose, const BoxPlan& box, DocumentTable& out) {
  double pressed_N = 0.0;
  bool stops = false;
  for (const PlannedPiece& piece : box.fixture->pieces) {
    if (piece.kind == "hold-down") pressed_N += piece.force_N;
    stops = stops || piece.kind == "stop";
  }
  const double friction = friction_practice().steel_on_steel;
  if (stops)
    out.below.push_back(
        compose.line("fixture.stops",
                     {number("force", ArgKind::force_N, friction * (kGravity_m_s2 * box.mass_kg + pressed_N)),
                      word("there", fixed(friction, 1))}));
}

DocumentTable locating_table(const Composer& compose, const BoxPlan& box) {
  const FixturePlan& fixture = *box.fixture;
  DocumentTable out;
  out.title = compose.word("fixture.foreman");
  out.head = {compose.word("fixture.figure"), compose.word("fixture.value")};
  out.numeric = {false, true};
  const PlannedLocating& locating = fixture.locating;
  std::vector<std::string> six;
  for (const std::string& id : locating.six)
    six.push_back(id == "table" ? compose.word("fixture.six.table") : cleaned(id));
  const auto row = [&](const char* key, std::string value) {
    out.rows.push_back({compose.word(key), std::move(value)});
  };
  if (!six.empty()) {
    row("fixture.six", comma_joined(six));
    row("fixture.rank", std::to_string(locating.rank));
    row("fixture.determinant", compose.quantity(ArgKind::volume_mm3, std::abs(locating.determinant_mm3)));
    row("fixture.error", compose.quantity(ArgKind::fine_mm, locating.error_mm));
    row("fixture.worst", compose.quantity(ArgKind::fine_mm, locating.worst_mm));
    row("fixture.turn", compose.quantity(ArgKind::angle_deg, locating.turn_deg));
    out.below.push_back(compose.word("fixture.foreman.below"));
  }
  for (const PlannedPiece& piece : fixture.pieces) {
    const auto force = [&](const char* key, double newtons) {
      if (newtons > 0.0)
        out.rows.push_back(
            {compose.line(key, {word("id", piece.id), word("what", kind_of(compose, piece.kind))}),
             compose.quantity(ArgKind::force_N, newtons)});
    };
    force("fixture.presses-piece", piece.force_N);
    force("fixture.needs-piece", piece.needs_N);
    if (piece.table_N)
      out.rows.push_back({compose.line("fixture.table-piece", {word("id", piece.id)}),
                          compose.range(ArgKind::force_N, piece.table_N->low, piece.table_N->high)});
  }
  add_friction(compose, fixture, out);
  add_stops(compose, box, out);
  if (fixture.stated) out.below.push_back(compose.word("fixture.stated"));
  return out;
}

// What it stands on until it is turned.
DocumentTable stand_table(const Composer& compose, const FixturePlan& fixture, const ElasticStand& stand) {
  DocumentTable out;
  out.title = compose.line("fixture.stand", {word("after", cleaned(stand.after)),
                                             word("unit", compose.unit(ArgKind::length_mm)),
                                             number("weight", ArgKind::force_N, stand.weight_N)});
  for (const char* key : {"fixture.stand.on", "fixture.x", "fixture.y", "fixture.stand.carries",
                          "fixture.stand.range", "fixture.stand.nothing"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, true, true, true, true, true};
  const std::string none = compose.word("figure.none");
  for (std::size_t i = 0; i < stand.at.size(); ++i) {
    const Vec3 from = stand.at[i] - fixture.origin;
    const bool told = i < stand.value.size();
    out.rows.push_back({stand.on[i] == "table" ? compose.word("fixture.six.table") : cleaned(stand.on[i]),
                        compose.place(dot(from, fixture.x)), compose.place(dot(from, fixture.y)),
                        told ? compose.quantity(ArgKind::force_N, stand.value[i]) : none,
                        told ? compose.range(ArgKind::force_N, stand.low[i], stand.high[i]) : none,
                        told ? compose.quantity(ArgKind::ratio, 100.0 * stand.nothing[i]) : none});
  }
  out.below.push_back(compose.word(stand.value.empty() ? "fixture.stand.tips" : "fixture.stand.below"));
  return out;
}

DocumentTable bill_table(const Composer& compose, const FixturePlan& fixture) {
  DocumentTable out;
  out.title = compose.word("fixture.bill.title");
  for (const char* key : {"fixture.bill.what", "fixture.bill.size", "fixture.bill.wanted",
                          "fixture.bill.owned", "fixture.bill.missing"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, true, true, true, true};
  const std::string none = compose.word("figure.none");
  for (const BillLine& line : fixture.bill)
    out.rows.push_back(
        {kind_of(compose, line.kind),
         line.size_mm > 0.0 ? compose.quantity(ArgKind::length_mm, line.size_mm, "tape", Rounding::up) : none,
         std::to_string(line.wanted),
         line.owned ? std::to_string(*line.owned) : compose.word("fixture.bill.unknown"),
         line.owned ? std::to_string(std::max(0, line.wanted - *line.owned)) : none});
  return out;
}

// What the model has nothing of: all but what holds from within, corner clamps, and the bars that press walls
// against a former.
std::vector<std::string> left_on(const BoxPlan& box) {
  std::vector<std::string> ids;
  for (const PlannedPiece& piece : box.fixture->pieces) {
    const auto is_it = [&](const auto& held) { return held.id == piece.id; };
    const bool weighed =
        box.elastic && (std::any_of(box.elastic->pieces.begin(), box.elastic->pieces.end(), is_it) ||
                        std::any_of(box.elastic->pressed.begin(), box.elastic->pressed.end(),
                                    [&](const PressedPlace& at) { return at.clamp == piece.id; }));
    if (!weighed) ids.push_back(piece.id);
  }
  return ids;
}

// What less of it would cost, and what it gains over nothing.
DocumentTable compared_table(const Composer& compose, const BoxPlan& box) {
  const FixturePlan& fixture = *box.fixture;
  DocumentTable out;
  out.title = compose.word("fixture.compared");
  for (const char* key : {"fixture.compared.held", "fixture.compared.pieces", "fixture.compared.kept"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, true, true};
  for (const FixtureCompared& each : fixture.compared) {
    const std::string key = "fixture.compared." + each.key;
    std::string held =
        each.without.empty() ? compose.word(key) : compose.line(key, {word("piece", each.without)});
    if (each.chosen) held += compose.word("fixture.compared.chosen");
    out.rows.push_back(
        {std::move(held), std::to_string(each.pieces), compose.quantity(ArgKind::ratio, 100.0 * each.kept)});
  }
  out.below.push_back(compose.word("fixture.compared.below"));
  out.below.push_back(fixture.smaller_weighed
                          ? compose.line("fixture.compared.exact", {count("count", *fixture.smaller_weighed)})
                          : compose.word("fixture.compared.eliminated"));
  if (const std::vector<std::string> ids = left_on(box); !ids.empty())
    out.below.push_back(compose.line("fixture.compared.left-on", {words("pieces", ids)}));
  return out;
}

// Planned and reckoned, but too much to weigh.
bool is_unweighed(const BoxPlan& box) {
  const std::array<const char*, 4> weighed{"former", "square", "spreader", "corner-clamp"};
  return !box.fixture->stated && box.fixture->compared.empty() && box.elastic &&
         std::any_of(box.fixture->pieces.begin(), box.fixture->pieces.end(), [&](const PlannedPiece& piece) {
           return std::find(weighed.begin(), weighed.end(), piece.kind) != weighed.end();
         });
}

} // namespace

std::string bill_text(const Composer& compose, const BillLine& line, int pieces) {
  std::vector<Arg> args{count("count", pieces), word("what", kind_of(compose, line.kind))};
  const std::array<const char*, 4> sized{"bar-clamp", "square", "spreader", "backing-bar"};
  if (!(line.size_mm > 0.0) || std::find(sized.begin(), sized.end(), line.kind) == sized.end())
    return compose.line("fixture.bill", std::move(args));
  args.push_back(word("size", compose.quantity(ArgKind::length_mm, line.size_mm, "tape", Rounding::up)));
  return compose.line("fixture.bill." + line.kind, std::move(args));
}

std::vector<DocumentTable> fixture_tables(const Composer& compose, const BoxPlan& box) {
  if (!box.fixture) return {};
  std::vector<DocumentTable> tables = {locating_table(compose, box), bill_table(compose, *box.fixture)};
  if (box.elastic)
    for (const ElasticStand& stand : box.elastic->stands)
      tables.push_back(stand_table(compose, *box.fixture, stand));
  if (!box.fixture->compared.empty()) tables.push_back(compared_table(compose, box));
  if (is_unweighed(box)) tables.back().below.push_back(compose.word("fixture.unweighed"));
  return tables;
}

} // namespace tacksquare
