#include "sheet/compose.h"

#include "base/diagnostic.h"
#include "base/numbers.h"
#include "sheet/plain_text.h"
#include "sheet/quantities.h"

namespace tacksquare {

std::string Composer::word(const std::string& key) const {
  return words_.word(key);
}

std::string Composer::term(const std::string& prefix, const std::string& id) const {
  return words_.has(prefix + id) ? words_.word(prefix + id) : cleaned(id);
}

std::string Composer::text(const Text& text) const {
  return cleaned(render(text, words_, units_));
}

std::vector<std::string> Composer::texts(const std::vector<Text>& texts) const {
  std::vector<std::string> out;
  for (const Text& each : texts)
    if (!each.empty()) out.push_back(text(each));
  return out;
}

std::string Composer::line(const std::string& key, std::vector<Arg> args) const {
  return text(Text{key, std::move(args)});
}

std::string Composer::argument(const Arg& arg) const {
  return cleaned(render(arg, words_, units_));
}

std::string Composer::quantity(ArgKind kind, double value, const std::string& gauge,
                               Rounding rounding) const {
  return quantity_text(kind, value, gauge, units_, rounding);
}

std::string Composer::in_hundred(double chance, int decimals) const {
  const double least = decimals > 0 ? 0.001 : 0.01; // nothing computed here is certain
  const auto said = [&](double part) { return tacksquare::word("count", fixed(part * 100.0, decimals)); };
  if (chance < least) return line("chance.fewer", {said(least)});
  if (chance > 1.0 - least) return line("chance.more", {said(1.0 - least)});
  return fixed(chance * 100.0, decimals);
}

std::string Composer::in_hundred(const Chance& chance) const {
  constexpr double kSharp = 0.02;
  const int decimals = chance.high - chance.low < kSharp ? 1 : 0;
  const std::string value = in_hundred(chance.value, decimals), low = in_hundred(chance.low, decimals),
                    high = in_hundred(chance.high, decimals);
  if (low == high) return value;
  return line("chance.range", {tacksquare::word("value", value), tacksquare::word("low", low),
                               tacksquare::word("high", high)});
}

std::string Composer::bare(ArgKind kind, double value) const {
  const std::string all = quantity(kind, value);
  return all.substr(0, all.size() - unit_of(all).size());
}

std::string Composer::place(double mm) const {
  const std::string all = place_text(mm, units_);
  return all.substr(0, all.size() - unit_of(all).size());
}

std::string Composer::unit(ArgKind kind, const std::string& gauge) const {
  const std::string with_space = unit_of(quantity(kind, 1.0, gauge));
  return with_space.empty() ? with_space : with_space.substr(1);
}

std::string Composer::range(ArgKind kind, double low, double high, const std::string& gauge) const {
  return range_text(quantity(kind, low, gauge), quantity(kind, high, gauge), word("range.to"));
}

ReadingStep Composer::step(double low_mm, double high_mm, std::optional<double> expected_mm,
                           const std::string& gauge) const {
  const BenchGaugeInfo* info = find_gauge(gauge);
  if (!info) throw InternalError("a check without a gauge");
  return step_of_limits(low_mm, high_mm, expected_mm, *info, units_);
}

std::string Composer::limits(double low_mm, double high_mm, const ReadingStep& step) const {
  const std::string high = reading(high_mm, step, Rounding::down);
  if (low_mm == 0.0) return line("limit.over", {tacksquare::word("high", high)});
  if (low_mm == -high_mm) return line("limit.either-way", {tacksquare::word("high", high)});
  return range_text(reading(low_mm, step, Rounding::up), high, word("range.to"));
}

std::string Composer::who(Who who) const {
  switch (who) {
  case Who::welder:
    return word("who.welder");
  case Who::grinder:
    return word("who.grinder");
  case Who::foreman:
    return word("who.foreman");
  case Who::both:
    break;
  }
  return word("who.both");
}

std::string comma_joined(const std::vector<std::string>& parts) {
  std::string out;
  for (const std::string& part : parts) {
    if (part.empty()) continue;
    if (!out.empty()) out += ", ";
    out += part;
  }
  return out;
}

} // namespace tacksquare
