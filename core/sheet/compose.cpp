#include "sheet/compose.h"

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

std::string Composer::quantity(ArgKind kind, double value, const std::string& gauge) const {
  return quantity_text(kind, value, gauge, units_);
}

std::string Composer::bare(ArgKind kind, double value) const {
  const std::string all = quantity(kind, value);
  return all.substr(0, all.size() - unit_of(all).size());
}

std::string Composer::unit(ArgKind kind, const std::string& gauge) const {
  const std::string with_space = unit_of(quantity(kind, 1.0, gauge));
  return with_space.empty() ? with_space : with_space.substr(1);
}

std::string Composer::range(ArgKind kind, double low, double high, const std::string& gauge) const {
  return range_text(quantity(kind, low, gauge), quantity(kind, high, gauge), word("range.to"));
}

std::string Composer::most(double high_mm, const std::string& gauge) const {
  return quantity_text(ArgKind::length_mm, high_mm, gauge, units_, Rounding::down);
}

std::string Composer::limits(double low_mm, double high_mm, const std::string& gauge) const {
  const std::string high = most(high_mm, gauge);
  if (low_mm == 0.0) return line("limit.over", {tacksquare::word("high", high)});
  if (low_mm == -high_mm) return line("limit.either-way", {tacksquare::word("high", high)});
  const std::string low = quantity_text(ArgKind::length_mm, low_mm, gauge, units_, Rounding::up);
  return range_text(low, high, word("range.to"));
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
