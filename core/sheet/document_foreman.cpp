// The foreman's pages: why this order, what to expect, how sure that is, and where every figure comes from.
#include "base/numbers.h"
#include "sheet/compose.h"
#include "sheet/draw.h"
#include "sheet/plain_text.h"

#include <algorithm>
#include <fmt/format.h>

namespace tacksquare {

namespace {

const char* mark_key(Mark mark) {
  switch (mark) {
  case Mark::published:
    return "mark.published";
  case Mark::standard:
    return "mark.standard";
  case Mark::derived:
    return "mark.derived";
  case Mark::from_memory:
    return "mark.from-memory";
  case Mark::stated:
    return "mark.stated";
  case Mark::common_practice:
    break;
  }
  return "mark.common-practice";
}

// Each source once, with a number to refer to.
class SourceList {
 public:
  std::string refer(const Source& source) {
    auto found = std::find(sources_.begin(), sources_.end(), source);
    if (found == sources_.end()) found = sources_.insert(sources_.end(), source);
    return numbered(static_cast<std::size_t>(found - sources_.begin()));
  }
  DocumentTable table(const Composer& compose) const {
    DocumentTable out;
    out.title = compose.word("sources.title");
    out.head = {compose.word("sources.number"), compose.word("sources.source"), compose.word("sources.mark")};
    out.numeric = {false, false, false};
    for (std::size_t i = 0; i < sources_.size(); ++i)
      out.rows.push_back({numbered(i), cleaned(sources_[i].text), compose.word(mark_key(sources_[i].mark))});
    return out;
  }

 private:
  static std::string numbered(std::size_t index) { return fmt::format("[{}]", index + 1); }
  std::vector<Source> sources_;
};

std::string band_text(const Composer& compose, ArgKind kind, const Band& band, bool bound_only) {
  const std::string range = compose.range(kind, band.low, band.high);
  return bound_only ? compose.line("figure.bounds", {word("range", range)}) : range;
}

std::string face_of(const Composer& compose, const BoxPlan& box, const std::string& id) {
  for (const FaceOutline& face : box.faces)
    if (face.id == id)
      return compose.line("face.named", {word("id", id), word("name", compose.text(face.name))});
  return compose.term("down.", id);
}

std::string symbol(const Composer& compose, const PlannedSeam& seam) {
  std::vector<std::string> parts;
  parts.push_back(compose.term("joint.", seam.joint));
  if (!seam.corner.empty()) parts.push_back(compose.term("corner.", seam.corner));
  std::string weld = compose.term("weld.", seam.weld);
  if (seam.leg_mm) weld.append(" ").append(compose.quantity(ArgKind::length_mm, *seam.leg_mm));
  if (seam.groove_deg) weld.append(" ").append(compose.quantity(ArgKind::angle_deg, *seam.groove_deg));
  parts.push_back(weld);
  if (seam.stitch_length_mm && seam.stitch_pitch_mm)
    parts.push_back(compose.line("symbol.stitch",
                                 {word("length", compose.bare(ArgKind::length_mm, *seam.stitch_length_mm)),
                                  word("pitch", compose.bare(ArgKind::length_mm, *seam.stitch_pitch_mm))}));
  parts.push_back(compose.term("side.", seam.side));
  parts.push_back(compose.term("finish.", seam.finish));
  return comma_joined(parts);
}

DocumentTable seam_table(const Composer& compose, const BoxPlan& box) {
  DocumentTable out;
  out.title = compose.word("seams.title");
  for (const char* key : {"seams.seam", "seams.faces", "seams.welded", "seams.bead", "seams.throat",
                          "seams.heat", "seams.wire", "seams.settings"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, false, true, true, true, true, true, false};
  for (const PlannedSeam& seam : box.seams)
    out.rows.push_back({cleaned(seam.id),
                        compose.line("map.pair", {word("a", seam.face_a), word("b", seam.face_b)}),
                        compose.quantity(ArgKind::length_mm, seam.welded_mm),
                        compose.quantity(ArgKind::area_mm2, seam.bead_mm2.value),
                        compose.range(ArgKind::fine_mm, seam.throat_mm.low, seam.throat_mm.high),
                        compose.quantity(ArgKind::heat_J_mm, seam.heat_J_mm.value),
                        compose.quantity(ArgKind::mass_g, seam.wire_g.value), cleaned(seam.settings)});
  // Seams with the same symbol share a line.
  std::vector<std::pair<std::string, std::vector<std::string>>> symbols;
  for (const PlannedSeam& seam : box.seams) {
    const std::string said = symbol(compose, seam);
    auto found =
        std::find_if(symbols.begin(), symbols.end(), [&](const auto& each) { return each.first == said; });
    if (found == symbols.end()) found = symbols.insert(symbols.end(), {said, {}});
    found->second.push_back(seam.id);
  }
  for (const auto& [said, seams] : symbols)
    out.below.push_back(compose.line("seams.symbol", {words("seams", seams), word("symbol", said)}));
  out.below.push_back(compose.word("seams.below"));
  out.below.push_back(compose.word("seams.level"));
  return out;
}

// "rim-top" is "rim, top".
std::string place(const Composer& compose, const std::string& where) {
  std::vector<std::string> parts;
  for (std::size_t from = 0; from <= where.size();) {
    const std::size_t end = std::min(where.find('-', from), where.size());
    parts.push_back(compose.term("place.", where.substr(from, end - from)));
    from = end + 1;
  }
  return comma_joined(parts);
}

// Sizes are told apart by their id: "height-3" is one of the heights.
std::string measure_name(const Composer& compose, const PlannedMeasure& measure) {
  return compose.term("measure.",
                      measure.kind == "width" ? measure.id.substr(0, measure.id.find('-')) : measure.kind);
}

DocumentTable measure_table(const Composer& compose, const BoxPlan& box, SourceList& sources) {
  DocumentTable out;
  out.title = compose.word("measures.title");
  for (const char* key : {"measures.what", "measures.gauge", "measures.limits", "measures.expected",
                          "measures.band", "measures.chance", "measures.sources"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, false, true, true, true, true, false};
  std::vector<std::string> kinds; // as rows
  for (const PlannedMeasure& measure : box.measures) {
    const std::string kind = measure_name(compose, measure), none = compose.word("figure.none");
    const bool expects = measure.has_expected;
    std::string references = sources.refer(measure.limit_source);
    if (expects) references.append(" ").append(sources.refer(measure.source));
    const std::vector<std::string> cells = {
        compose.term("gauge.", measure.gauge),
        compose.limits(measure.nominal_mm - measure.under_mm, measure.nominal_mm + measure.over_mm,
                       measure.gauge),
        expects ? compose.quantity(ArgKind::fine_mm, measure.expected_mm.value) : none,
        expects ? band_text(compose, ArgKind::fine_mm, measure.expected_mm, measure.bound_only) : none,
        expects && measure.chance_kept >= 0.0 ? compose.quantity(ArgKind::chance, measure.chance_kept) : none,
        references};
    const std::string where = place(compose, measure.where);
    // Places with the same figures share a row.
    std::size_t same = 0;
    while (same < kinds.size() &&
           !(kinds[same] == kind && std::equal(cells.begin(), cells.end(), out.rows[same].begin() + 1)))
      ++same;
    if (same < kinds.size()) {
      out.rows[same].front().append("; ").append(where);
      continue;
    }
    kinds.push_back(kind);
    out.rows.push_back({compose.line("measures.at", {word("kind", kind), word("where", where)})});
    out.rows.back().insert(out.rows.back().end(), cells.begin(), cells.end());
  }
  out.below = {compose.word("measures.below")};
  return out;
}

DocumentTable figure_table(const Composer& compose, const BoxPlan& box, SourceList& sources) {
  DocumentTable out;
  out.title = compose.word("figures.title");
  for (const char* key : {"figures.what", "figures.value", "figures.band", "figures.source"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, true, true, false};
  for (const Figure& figure : box.figures) {
    std::string what = compose.text(figure.what);
    for (const std::string& note : compose.texts(figure.notes)) {
      const auto same = std::find_if(out.below.begin(), out.below.end(), [&](const std::string& line) {
        return line.size() > note.size() && line.compare(line.size() - note.size(), note.size(), note) == 0;
      });
      const auto number = same - out.below.begin() + 1;
      if (same == out.below.end()) out.below.push_back(fmt::format("{}) {}", number, note));
      what += fmt::format(" {})", number);
    }
    out.rows.push_back({what, compose.quantity(figure.kind, figure.value.value),
                        figure.has_band ? band_text(compose, figure.kind, figure.value, figure.bound_only)
                                        : compose.word("figure.exact"),
                        sources.refer(figure.source)});
  }
  return out;
}

DocumentTable order_table(const Composer& compose, const BoxPlan& box) {
  DocumentTable out;
  out.title = compose.word("orders.title");
  for (const char* key :
       {"orders.order", "orders.turns", "orders.worst", "orders.mean", "orders.hottest", "orders.turning"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, true, true, true, true, true};
  for (const OrderCompared& order : box.orders) {
    const std::string name = compose.term("order.", order.key);
    out.rows.push_back({name, std::to_string(order.turns),
                        compose.quantity(ArgKind::chance, order.heat_moment),
                        compose.quantity(ArgKind::chance, order.mean_moment),
                        compose.quantity(ArgKind::difference_K, order.worst_warmth_K),
                        compose.quantity(ArgKind::time_s, order.turning_s)});
    std::vector<std::string> runs;
    for (const std::string& run : order.runs)
      runs.push_back(cleaned(run));
    out.below.push_back(compose.line("orders.runs", {word("order", name), word("runs", comma_joined(runs))}));
  }
  out.below.push_back(compose.word(box.order_proven_best ? "orders.proven" : "orders.searched"));
  out.below.push_back(compose.word("orders.says"));
  return out;
}

DocumentTable heat_table(const Composer& compose, const BoxPlan& box) {
  DocumentTable out;
  out.title = compose.word("heat.title");
  for (const char* key : {"heat.order", "heat.run", "heat.from-to", "heat.position", "heat.down", "heat.arc",
                          "heat.heat", "heat.warmth"})
    out.head.push_back(compose.word(key));
  out.numeric = {true, false, true, false, false, true, true, true};
  for (std::size_t i = 0; i < box.runs.size(); ++i) {
    const PlannedRun& run = box.runs[i];
    const std::string from = compose.bare(ArgKind::length_mm, run.from_mm);
    out.rows.push_back({std::to_string(i + 1), cleaned(run.id),
                        from + compose.word("range.to") + compose.quantity(ArgKind::length_mm, run.to_mm),
                        compose.term("heat.pos.", run.position), face_of(compose, box, run.down),
                        compose.quantity(ArgKind::time_s, run.arc_s), fixed(run.heat_J / 1000.0, 1) + " kJ",
                        compose.quantity(ArgKind::difference_K, run.warmth_K)});
  }
  return out;
}

DocumentTable time_table(const Composer& compose, const BoxPlan& box) {
  DocumentTable out;
  out.title = compose.word("lanes.title");
  for (const char* key : {"lanes.step", "lanes.who", "lanes.start", "lanes.end", "lanes.takes"})
    out.head.push_back(compose.word(key));
  out.numeric = {true, false, true, true, true};
  for (const Step& step : box.steps)
    out.rows.push_back(
        {std::to_string(step.number), compose.who(step.who), compose.quantity(ArgKind::time_s, step.start_s),
         compose.quantity(ArgKind::time_s, step.end_s), compose.quantity(ArgKind::time_s, step.seconds)});
  return out;
}

std::vector<DocumentBlock> notes(const Composer& compose, const BoxPlan& box) {
  std::vector<DocumentBlock> out;
  DocumentBlock cautions{compose.word("foreman.cautions"), {}};
  for (const Caution& caution : box.cautions)
    if (!caution.red) cautions.lines.push_back(compose.text(caution.what));
  DocumentBlock settings{compose.word("foreman.settings"), {}};
  for (const SettingsBlock& block : box.settings) {
    if (block.starting_point)
      settings.lines.push_back(compose.line("foreman.prove", {word("settings", block.id)}));
    for (const std::string& odd : compose.texts(block.oddities))
      settings.lines.push_back(compose.line("foreman.odd", {word("settings", block.id), word("text", odd)}));
  }
  for (DocumentBlock* block : {&cautions, &settings})
    if (!block->lines.empty()) out.push_back(*block);
  return out;
}

} // namespace

void compose_foreman(const Composer& compose, const BoxPlan& box, DocumentBox& out) {
  out.notes = notes(compose, box);
  SourceList sources;
  if (!box.orders.empty()) out.foreman.push_back(order_table(compose, box));
  if (!box.runs.empty()) {
    out.foreman_drawings = draw_warmth(compose, box);
    out.foreman.push_back(heat_table(compose, box));
  }
  if (!box.measures.empty()) out.foreman.push_back(measure_table(compose, box, sources));
  if (!box.figures.empty()) out.foreman.push_back(figure_table(compose, box, sources));
  out.foreman.push_back(seam_table(compose, box));
  if (!box.steps.empty()) {
    out.foreman_drawings.push_back(draw_lanes(compose, box));
    out.foreman.push_back(time_table(compose, box));
  }
  DocumentTable all = sources.table(compose);
  if (!all.rows.empty()) out.foreman.push_back(std::move(all));
}

} // namespace tacksquare
