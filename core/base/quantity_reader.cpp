#include "base/quantity_reader.h"

#include "base/suggest.h"

#include <charconv>

namespace tacksquare::reading {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_space(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

std::string without_spaces(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (!is_space(c)) out += c;
  }
  return out;
}

std::size_t digits_at(std::string_view text, std::size_t i) {
  std::size_t n = 0;
  while (i + n < text.size() && is_digit(text[i + n]))
    ++n;
  return n;
}

// Takes "5/8" off the front when it stands there.
std::optional<ParseFault> take_fraction(std::string_view& text, double& value, bool& found) {
  const std::size_t above = digits_at(text, 0);
  found = above > 0 && above < text.size() && text[above] == '/' && digits_at(text, above + 1) > 0;
  if (!found) return std::nullopt;
  const std::size_t below = digits_at(text, above + 1);
  double top = 0.0, bottom = 0.0;
  const char* const data = text.data();
  const bool held = std::from_chars(data, data + above, top).ec == std::errc{} &&
                    std::from_chars(data + above + 1, data + above + 1 + below, bottom).ec == std::errc{};
  if (!held || bottom == 0.0) return bad_number(text, "write a fraction such as 5/8");
  value = top / bottom;
  text.remove_prefix(above + 1 + below);
  return std::nullopt;
}

// Takes "23.625", "5/8", "23 5/8" or "23-5/8" off the front.
std::optional<ParseFault> take_amount(std::string_view& text, double& value, bool fractions) {
  bool found = false;
  if (fractions) {
    if (auto fault = take_fraction(text, value, found)) return fault;
    if (found) return std::nullopt;
  }
  bool whole = false;
  if (auto fault = take_number(text, value, &whole)) return fault;
  if (!fractions || !whole || text.empty() || !(is_space(text[0]) || text[0] == '-')) return std::nullopt;
  std::string_view rest = trimmed(text);
  if (!rest.empty() && rest[0] == '-') rest = trimmed(rest.substr(1));
  double part = 0.0;
  if (auto fault = take_fraction(rest, part, found)) return fault;
  if (found) {
    value += part;
    text = rest;
  }
  return std::nullopt;
}

// Takes a unit off the front: all of the text, or up to the next space, digit or dash for one term of
// several.
std::string take_unit(std::string_view& text, bool compound) {
  std::size_t n = 0;
  while (n < text.size() && !(compound && (is_space(text[n]) || is_digit(text[n]) || text[n] == '-')))
    ++n;
  const std::string unit = without_spaces(text.substr(0, n));
  text = trimmed(text.substr(n));
  return unit;
}

const UnitRow* find_unit(const QuantityKind& kind, std::string_view name) {
  for (const UnitRow& u : kind.units) {
    if (u.name == name) return &u;
  }
  return nullptr;
}

ParseFault missing_unit(const QuantityKind& kind, std::string_view text) {
  std::string remedy = "write " + std::string(text) + " " + std::string(kind.units[0].name);
  if (!kind.other.empty()) {
    remedy += ", or " + std::string(text) + " " + std::string(kind.other) + " if " +
              std::string(kind.other_word) + " are meant";
  }
  return {quoted(text) + " has no unit", text.size() > 40 ? "write a unit behind it" : remedy,
          "unit-missing"};
}

ParseFault unknown_unit(const QuantityKind& kind, const std::string& unit) {
  std::vector<std::string> names;
  std::string all;
  for (const UnitRow& u : kind.units) {
    names.emplace_back(u.name);
    all += (all.empty() ? "" : ", ") + std::string(u.name);
  }
  const auto near = closest(unit, names);
  return {quoted(unit) + " is no unit of " + std::string(kind.what),
          near ? "did you mean \"" + *near + "\"?" : "use one of " + all, "unit-unknown"};
}

} // namespace

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front()))
    text.remove_prefix(1);
  while (!text.empty() && is_space(text.back()))
    text.remove_suffix(1);
  return text;
}

std::string quoted(std::string_view text) {
  constexpr std::size_t most = 40;
  if (text.size() <= most) return '"' + std::string(text) + '"';
  std::size_t end = most;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xc0u) == 0x80u)
    --end;
  return '"' + std::string(text.substr(0, end)) + "...\"";
}

ParseFault bad_number(std::string_view text, std::string remedy) {
  return {quoted(text) + " is no number", std::move(remedy), "number-bad"};
}

ParseFault out_of_range(std::string_view text) {
  return {quoted(text) + " is too large or too small a number", "write a number of ordinary size",
          "number-range"};
}

std::optional<ParseFault> take_number(std::string_view& text, double& value, bool* whole) {
  const std::string_view from_here = text;
  if (text.empty() || !(is_digit(text[0]) || (text.size() > 1 && text[0] == '.' && is_digit(text[1])))) {
    return bad_number(from_here, "begin with digits, for example 12.5");
  }
  if (text.size() > 1 && text[0] == '0' && (text[1] == 'x' || text[1] == 'X')) {
    return bad_number(from_here, "write a decimal number");
  }
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  const std::string_view digits = text.substr(0, static_cast<std::size_t>(end - text.data()));
  if (error != std::errc{}) return out_of_range(digits);
  text.remove_prefix(digits.size());
  if (!text.empty() && text[0] == ',') {
    std::string with_point(digits);
    with_point += '.';
    for (std::size_t i = 1; i < text.size() && is_digit(text[i]); ++i)
      with_point += text[i];
    return ParseFault{"a comma in the number " + quoted(from_here),
                      "use a point for decimals and nothing for thousands: " + with_point, "number-bad"};
  }
  if (!text.empty() && text[0] == '.') return bad_number(from_here, "one decimal point is enough");
  if (whole != nullptr) *whole = digits.find_first_of(".eE") == std::string_view::npos;
  return std::nullopt;
}

std::variant<double, ParseFault> read_quantity(const QuantityKind& kind, std::string_view original) {
  const std::string_view all = trimmed(original);
  if (all.empty()) {
    return ParseFault{"no " + std::string(kind.what) + " is written",
                      "write a number and a unit, for example 10 " + std::string(kind.units[0].name),
                      "number-bad"};
  }
  std::string_view text = all;
  const bool negative = text[0] == '-';
  if (negative || text[0] == '+') text = trimmed(text.substr(1));
  double sum = 0.0;
  double last_size = HUGE_VAL;
  do {
    const std::string_view term = text;
    double number = 0.0;
    if (auto fault = take_amount(text, number, kind.fractions)) return *fault;
    const std::string_view shown = term.substr(0, term.size() - text.size());
    text = trimmed(text);
    const std::string unit_name = take_unit(text, kind.compound);
    if (unit_name.empty()) return missing_unit(kind, shown);
    const UnitRow* const unit = find_unit(kind, unit_name);
    if (unit == nullptr) return unknown_unit(kind, unit_name);
    const double size = unit->top / unit->bottom;
    if (size >= last_size) {
      return ParseFault{quoted(unit_name) + " cannot follow what stands before it",
                        "write the larger unit first, each once", "unit-unknown"};
    }
    last_size = size;
    sum += (negative ? -number : number) * unit->top / unit->bottom + unit->offset;
    if (text.size() > 1 && text[0] == '-') text = trimmed(text.substr(1)); // 2'-3"
  } while (!text.empty());
  if (!std::isfinite(sum)) return out_of_range(all);
  if (sum < kind.least) {
    return ParseFault{quoted(all) + " is below absolute zero", "check the sign and the unit", "number-range"};
  }
  return sum + 0.0; // no -0
}

} // namespace tacksquare::reading
