// Parts as they came and the first box of the batch, on the foreman's pages.
#include "sheet/compose.h"
#include "sheet/plain_text.h"

#include <algorithm>

namespace tacksquare {

namespace {

const char* verdict_key(PartVerdict verdict) {
  switch (verdict) {
  case PartVerdict::use:
    return "verdict.use";
  case PartVerdict::dress:
    return "verdict.dress";
  case PartVerdict::back_to_brake:
    return "verdict.back-to-brake";
  case PartVerdict::reject:
    break;
  }
  return "verdict.reject";
}

const char* release_key(Release release) {
  switch (release) {
  case Release::release:
    return "release.release";
  case Release::correct:
    return "release.correct";
  case Release::hold:
    break;
  }
  return "release.hold";
}

std::string fine(const Composer& compose, double mm) {
  return compose.quantity(ArgKind::fine_mm, mm);
}

// "0.66 mm (0.60 to 0.72)"
std::string band(const Composer& compose, ArgKind kind, const std::optional<Band>& band) {
  if (!band) return compose.word("figure.none");
  const std::string value = compose.quantity(kind, band->value), low = compose.bare(kind, band->low),
                    high = compose.bare(kind, band->high);
  if (low == high) return value;
  return compose.line("chance.range", {word("value", value), word("low", low), word("high", high)});
}

DocumentTable readings_table(const Composer& compose, const BoxPlan& box) {
  DocumentTable out;
  out.title = compose.word("readings.title");
  for (const char* key : {"readings.box", "readings.what", "readings.read", "readings.verdict",
                          "readings.force", "readings.springs", "readings.size"})
    out.head.push_back(compose.word(key));
  out.numeric = {true, false, true, false, true, true, true};
  for (const PartReading& each : box.part_readings) {
    // A panel is dressed at its edge, a wall over a block.
    const bool edge = each.verdict == PartVerdict::dress && (each.why == "trim" || each.kind == "stack");
    const std::string verdict = compose.word(edge ? "verdict.trim" : verdict_key(each.verdict)),
                      why = compose.term("verdict.why.", each.why);
    out.rows.push_back(
        {std::to_string(each.copy),
         compose.line("readings.at",
                      {word("kind", compose.term("incoming.", each.kind)), word("where", each.where)}),
         fine(compose, each.reading_mm),
         each.verdict == PartVerdict::use && each.why == "within"
             ? verdict
             : compose.line("readings.why", {word("verdict", verdict), word("why", why)}),
         band(compose, ArgKind::force_N, each.force_N), band(compose, ArgKind::fine_mm, each.springs_mm),
         band(compose, ArgKind::fine_mm, each.size_mm)});
  }
  out.below = {compose.word("readings.below")};
  return out;
}

DocumentTable receiving_table(const Composer& compose, const BoxPlan& box) {
  DocumentTable out;
  out.title = compose.word("receiving.title");
  for (const char* key : {"receiving.what", "receiving.go", "receiving.dress", "receiving.beyond",
                          "receiving.force", "receiving.belly"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, true, true, false, true, true};
  // Places with the same limits share a row.
  std::vector<std::vector<std::string>> wheres;
  std::vector<std::string> kinds;
  for (const ReceivingLimit& each : box.receiving) {
    std::vector<std::string> cells = {{},
                                      fine(compose, each.go_mm),
                                      each.dress_mm > each.go_mm ? fine(compose, each.dress_mm)
                                                                 : compose.word("figure.none"),
                                      compose.word(verdict_key(each.beyond)),
                                      band(compose, ArgKind::force_N, each.force_N),
                                      band(compose, ArgKind::fine_mm, each.belly_mm)};
    std::size_t row = 0;
    const auto same = [&] {
      return kinds[row] == each.kind && std::equal(cells.begin() + 1, cells.end(), out.rows[row].begin() + 1);
    };
    while (row < out.rows.size() && !same())
      ++row;
    if (row == out.rows.size()) {
      out.rows.push_back(std::move(cells));
      kinds.push_back(each.kind);
      wheres.emplace_back();
    }
    wheres[row].push_back(each.where);
  }
  for (std::size_t i = 0; i < out.rows.size(); ++i)
    out.rows[i][0] =
        compose.line("readings.at", {word("kind", compose.term("incoming.", kinds[i])),
                                     word("where", compose.line("seams", {words("seams", wheres[i])}))});
  return out;
}

std::string size_name(const Composer& compose, char axis) {
  return compose.word(axis == 'x' ? "measure.width" : axis == 'y' ? "measure.depth" : "measure.height");
}

DocumentTable first_off_table(const Composer& compose, const FirstOff& first) {
  DocumentTable out;
  out.title = compose.line("first.table", {count("copy", first.copy)});
  for (const char* key : {"first.cause", "first.before", "first.found", "first.common"})
    out.head.push_back(compose.word(key));
  out.numeric = {false, true, true, true};
  const std::string none = compose.word("figure.none");
  for (const SizeFound& size : first.sizes) {
    out.sums.push_back(out.rows.size());
    out.rows.push_back({compose.line("first.size", {word("size", size_name(compose, size.axis))}),
                        compose.line("first.aimed", {word("mm", fine(compose, size.aimed_mm))}),
                        band(compose, ArgKind::fine_mm, size.measured_mm),
                        band(compose, ArgKind::fine_mm, size.rest_mm)});
    for (const CauseFound& cause : size.causes)
      out.rows.push_back({compose.term("cause.", cause.key), band(compose, ArgKind::fine_mm, cause.before_mm),
                          band(compose, ArgKind::fine_mm, cause.after_mm),
                          band(compose, ArgKind::fine_mm, cause.common_mm)});
  }
  out.below = {compose.word("first.below")};
  return out;
}

DocumentBlock first_off_block(const Composer& compose, const FirstOff& first, bool in_row) {
  DocumentBlock out{compose.line("first.title", {count("copy", first.copy)}), {}, false};
  std::vector<Arg> args;
  if (first.why.starts_with("contradicts-")) args.push_back(word("size", size_name(compose, first.axis)));
  out.lines.push_back(
      compose.line("first.verdict", {term("release", release_key(first.release)),
                                     word("why", compose.line("first.why." + first.why, args))}));
  for (const SizeFound& size : first.sizes)
    if (size.correction_mm != 0.0)
      out.lines.push_back(compose.line(size.correction_mm < 0.0 ? "first.smaller" : "first.larger",
                                       {word("to", fine(compose, size.aimed_mm + size.correction_mm)),
                                        word("size", size_name(compose, size.axis)),
                                        word("by", fine(compose, std::abs(size.correction_mm)))}));
  std::vector<Arg> chances{word("as-is", compose.in_hundred(first.uncorrected))};
  if (first.release != Release::release)
    chances.push_back(word("corrected", compose.in_hundred(first.corrected)));
  const std::string key = chances.size() == 1 ? "first.chance" : "first.chances";
  out.lines.push_back(compose.line(in_row ? key : key + "-box", std::move(chances)));
  return out;
}

} // namespace

void compose_fit(const Composer& compose, const Plan& plan, const BoxPlan& box, DocumentBox& out) {
  if (box.first_off) {
    out.notes.insert(out.notes.begin(), first_off_block(compose, *box.first_off, plan.row.has_value()));
    out.foreman.push_back(first_off_table(compose, *box.first_off));
  }
  if (!box.part_readings.empty()) out.foreman.push_back(readings_table(compose, box));
  if (!box.receiving.empty()) out.foreman.push_back(receiving_table(compose, box));
}

} // namespace tacksquare
