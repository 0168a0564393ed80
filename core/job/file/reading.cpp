#include "job/file/reading.h"

#include "base/numbers.h"
#include "base/suggest.h"
#include "job/file/scan.h"

#include <algorithm>
#include <cstdint>
#include <iterator>

namespace tacksquare {

namespace {

constexpr std::size_t kLongestId = 40;
constexpr std::size_t kLongestList = 4096; // of words
constexpr std::size_t kMostAttributes = 64;
constexpr std::size_t kLongestShown = 60;

bool control(char c) {
  return static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
}

bool digit(char c) {
  return c >= '0' && c <= '9';
}

// Code point of the valid UTF-8 sequence that text is.
std::uint32_t code_point(std::string_view text) {
  if (text.size() == 1) return static_cast<unsigned char>(text[0]);
  std::uint32_t code = static_cast<unsigned char>(text[0]) & (0xFFu >> (text.size() + 1));
  for (const char c : text.substr(1))
    code = code << 6 | (static_cast<unsigned char>(c) & 0x3Fu);
  return code;
}

// Spaces, joiners, direction and variation marks, fillers (Unicode: separators, format characters and
// default-ignorable ones).
bool shows_nothing(std::uint32_t code) {
  constexpr std::pair<std::uint32_t, std::uint32_t> blank[] = {
      {0x00, 0x20},     {0x7F, 0xA0},     {0xAD, 0xAD},     {0x34F, 0x34F},    {0x61C, 0x61C},
      {0x115F, 0x1160}, {0x1680, 0x1680}, {0x17B4, 0x17B5}, {0x180B, 0x180F},  {0x2000, 0x200F},
      {0x2028, 0x202F}, {0x205F, 0x206F}, {0x2800, 0x2800}, {0x3000, 0x3000},  {0x3164, 0x3164},
      {0xFE00, 0xFE0F}, {0xFEFF, 0xFEFF}, {0xFFA0, 0xFFA0}, {0xE0000, 0xE0FFF}};
  return std::any_of(std::begin(blank), std::end(blank),
                     [&](const auto& range) { return code >= range.first && code <= range.second; });
}

bool id_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' ||
         c == '.';
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ')
    text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ')
    text.remove_suffix(1);
  return text;
}

} // namespace

std::string quoted(std::string_view text) {
  std::string shown = "\"";
  for (std::size_t i = 0; i < text.size();) {
    if (shown.size() > kLongestShown) {
      shown += "...";
      break;
    }
    const std::size_t length = utf8_length(text.substr(i));
    if (length == 0 || control(text[i])) {
      shown += '?';
      ++i;
    } else {
      shown += text.substr(i, length);
      i += length;
    }
  }
  return shown + "\"";
}

std::string suggestion(std::string_view word, const std::vector<std::string>& known) {
  if (known.empty()) return {};
  if (const auto near = closest(word, known)) return "did you mean \"" + *near + "\"?";
  std::string all = "known here:";
  for (std::size_t i = 0; i < known.size(); ++i) {
    if (i == 20) return all + " and " + std::to_string(known.size() - i) + " more";
    all += (i == 0 ? " " : ", ") + known[i];
  }
  return all;
}

std::size_t Reading::errors() {
  for (const auto& all = out_.items(); counted_ < all.size(); ++counted_)
    if (all[counted_].severity == Severity::error) ++errors_;
  return errors_;
}

std::string Element::tag() const {
  std::string shown(1, '<');
  return shown.append(node_.name()).append(1, '>');
}

Origin Element::where() const {
  Origin origin = reading_->at(node_.name());
  --origin.offset; // the "<"
  return origin;
}

pugi::xml_attribute Element::find(std::string_view name) const {
  return node_.attribute(std::string(name).c_str());
}

Origin Element::where(std::string_view name) const {
  const auto attribute = find(name);
  return attribute ? reading_->at(attribute.value()) : where();
}

void Element::ask(std::string_view name) {
  if (std::find(asked_.begin(), asked_.end(), name) == asked_.end()) asked_.emplace_back(name);
}

bool Element::has(std::string_view name) {
  ask(name);
  return !find(name).empty();
}

std::optional<std::string> Element::text(std::string_view name, std::size_t longest) {
  if (!has(name)) return {};
  const std::string_view value = trimmed(find(name).value());
  if (value.empty()) {
    out().error("value-empty", where(name), quoted(name) + " is empty",
                "state a value or delete the attribute");
    return {};
  }
  if (value.size() > longest) {
    out().error("value-long", where(name),
                quoted(name) + " is longer than " + std::to_string(longest) + " bytes", "shorten it");
    return {};
  }
  if (std::any_of(value.begin(), value.end(), control)) {
    out().error("value-control", where(name), quoted(name) + " holds a control character", "delete it");
    return {};
  }
  return std::string(value);
}

std::optional<std::string> Element::seen_name() {
  const auto said = text("name");
  if (!said) return {};
  std::size_t length = 0;
  for (std::size_t i = 0; i < said->size(); i += length) {
    length = utf8_length(std::string_view(*said).substr(i));
    if (length == 0) return said; // reported by the scan
    if (!shows_nothing(code_point(std::string_view(*said).substr(i, length)))) return said;
  }
  out().caution("name-unseen", where("name"), "this name holds no character that can be seen",
                "write it with letters or numbers, or delete the attribute");
  return said;
}

std::vector<Word> Element::words(std::string_view name) {
  std::vector<Word> all;
  const auto said = text(name, kLongestList);
  if (!said) return all;
  const char* c = find(name).value();
  while (*c != 0) {
    while (*c == ' ')
      ++c;
    const char* start = c;
    while (*c != 0 && *c != ' ')
      ++c;
    if (c != start) all.push_back({std::string(start, c), reading_->at(start)});
  }
  return all;
}

std::vector<Word> Element::split(std::string_view name) {
  std::vector<Word> all;
  const auto said = text(name);
  if (!said) return all;
  const char* start = find(name).value();
  for (const char* c = start;; ++c) {
    if (*c != ',' && *c != 0) continue;
    while (start != c && *start == ' ')
      ++start;
    all.push_back({std::string(trimmed({start, static_cast<std::size_t>(c - start)})), reading_->at(start)});
    if (*c == 0) return all;
    start = c + 1;
  }
}

bool Element::decimal_comma(std::string_view name, const std::vector<Word>& pieces,
                            const std::vector<bool>& bare) {
  bool found = false;
  for (std::size_t i = 0; i + 1 < pieces.size(); ++i) {
    const Word &whole = pieces[i], &part = pieces[i + 1];
    const bool joined = whole.where.offset + whole.text.size() + 1 == part.where.offset;
    if (!bare[i] || bare[i + 1] || !joined || !digit(part.text.empty() ? 'x' : part.text.front())) continue;
    found = true;
    out().error("decimal-comma", whole.where,
                std::string(name) + ": a comma in the number " + quoted(whole.text + "," + part.text),
                "use a point for decimals: " + whole.text + "." + part.text +
                    "; a comma stands between readings that each have a unit");
  }
  return found;
}

bool Element::as_many(std::string_view name, std::size_t stated, Range<std::size_t> wanted) {
  if (stated == 0) return false; // absent, or reported
  if (stated >= wanted.low && stated <= wanted.high) return true;
  const bool range = wanted.low != wanted.high;
  out().error("list-count", where(name),
              quoted(name) + " has " + std::to_string(stated) + (stated == 1 ? " part" : " parts") +
                  " between commas, not " + std::to_string(wanted.low) +
                  (range ? " to " + std::to_string(wanted.high) : ""),
              !range && wanted.low == 2 ? "for example \"20 mm, 35.5 mm\""
                                        : "for example \"0 mm, 20 mm, 35.5 mm\"");
  return false;
}

std::optional<bool> Element::yes_or_no(std::string_view name) {
  static const Words<bool> words = {{"yes", true}, {"no", false}};
  return choice(name, words);
}

std::optional<int> Element::count(std::string_view name, Range<int> range) {
  return quantity(name, parse_count, range);
}

std::string Element::shown(double value) {
  return shortest(value);
}

void Element::refused(std::string_view name, const std::string& said, Origin where,
                      const std::string& why) const {
  out().error("out-of-range", where, std::string(name) + ": " + quoted(said) + " is too " + why,
              "check the number and its unit");
}

void Element::unknown_word(std::string_view name, const std::string& said,
                           const std::vector<std::string>& known) const {
  out().error("word-unknown", where(name), quoted(said) + " is not known for " + quoted(name),
              suggestion(said, known));
}

void Element::require(std::string_view name, std::string_view example) {
  if (has(name)) return;
  out().error("attribute-missing", where(), tag() + " does not state " + quoted(name),
              "add " + std::string(name) + "=\"" + std::string(example) + "\"");
}

std::string Element::id() {
  require("id", "a1");
  const auto said = text("id");
  if (!said) return {};
  if (said->size() <= kLongestId && std::all_of(said->begin(), said->end(), id_letter)) return *said;
  out().error("id-bad", where("id"), quoted(*said) + " is not an id",
              "use up to 40 letters, digits, \"-\", \"_\" and \".\", without spaces");
  return {};
}

void Element::allow(const std::vector<std::string_view>& tags) {
  const std::vector<std::string> known(tags.begin(), tags.end());
  for (const auto child : node_.children()) {
    if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata) {
      out().error("text-stray", reading_->at(child.value()),
                  "text stands in " + tag() + " that nothing reads",
                  "delete it, or make it a comment: <!-- ... -->");
    } else if (child.type() == pugi::node_element &&
               std::find(tags.begin(), tags.end(), std::string_view(child.name())) == tags.end()) {
      out().error("element-unknown", Element(child, *reading_).where(),
                  "element " + quoted(child.name()) + " is not known in " + tag(),
                  known.empty() ? "nothing stands inside it" : suggestion(child.name(), known));
    }
  }
}

std::vector<Element> Element::children(std::string_view tag) const {
  std::vector<Element> all;
  for (const auto child : node_.children())
    if (child.type() == pugi::node_element && tag == child.name()) all.emplace_back(child, *reading_);
  return all;
}

std::optional<Element> Element::only_child(std::string_view tag) const {
  const auto all = children(tag);
  if (all.empty()) return {};
  for (std::size_t i = 1; i < all.size(); ++i) {
    out().error("element-twice", all[i].where(), "a second " + all[i].tag() + " stands in " + this->tag(),
                "delete one of them", Note{"the first one", all[0].where()});
  }
  return all[0];
}

void Element::finish() {
  std::size_t seen = 0;
  for (auto a = node_.first_attribute(); a; a = a.next_attribute()) {
    if (++seen > kMostAttributes) {
      out().error("attributes-many", where(),
                  tag() + " has more than " + std::to_string(kMostAttributes) + " attributes", "delete some");
      return;
    }
    const auto first = node_.attribute(a.name());
    if (first != a) {
      out().error("attribute-twice", reading_->at(a.name()),
                  quoted(a.name()) + " is stated twice in " + tag(), "delete one of them",
                  Note{"first stated here", reading_->at(first.name())});
      continue;
    }
    const std::string_view name = a.name();
    if (std::find(asked_.begin(), asked_.end(), name) != asked_.end()) continue;
    out().error("attribute-unknown", reading_->at(a.name()), quoted(name) + " is not known in " + tag(),
                asked_.empty() ? "it has no attributes" : suggestion(name, asked_));
  }
}

bool Ids::add(const std::string& id, std::size_t index, Origin where, Diagnostics& out) {
  const auto [found, added] = known_.try_emplace(id, index, where);
  if (!added) {
    out.error("id-twice", where, "a " + kind_ + " " + quoted(id) + " is there already", "choose another id",
              Note{"the first one", found->second.second});
  }
  return added;
}

std::optional<std::size_t> Ids::find(const std::string& id) const {
  const auto found = known_.find(id);
  if (found == known_.end()) return {};
  return found->second.first;
}

std::optional<std::size_t> Ids::find(const Word& reference, Diagnostics& out) const {
  const auto found = find(reference.text);
  if (!found) {
    out.error("reference", reference.where,
              "there is no " + kind_ + " " + quoted(reference.text) + (in_.empty() ? "" : " in " + in_),
              known_.empty()                    ? "none is stated"
              : suggested_++ < kMostSuggestions ? suggestion(reference.text, all())
                                                : "");
  }
  return found;
}

std::vector<std::string> Ids::all() const {
  std::vector<std::string> ids;
  for (const auto& [id, place] : known_)
    ids.push_back(id);
  return ids;
}

} // namespace tacksquare
