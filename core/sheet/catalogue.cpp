#include "sheet/catalogue.h"

#include "base/diagnostic.h"
#include "sheet/quantities.h"

#include <algorithm>
#include <functional>

namespace tacksquare {

namespace {

// Not between braces: there stand names.
void spell(std::string& text, std::span<const Entry> spelling) {
  for (const Entry& entry : spelling)
    for (std::size_t at = text.find(entry.key); at != std::string::npos;
         at = text.find(entry.key, at + entry.text.size())) {
      const std::size_t brace = text.find_last_of("{}", at);
      if (brace == std::string::npos || text[brace] == '}') text.replace(at, entry.key.size(), entry.text);
    }
}

// A shop word, with a capital where a sentence starts.
std::string at_start(const std::string& before, std::string word) {
  const bool starts =
      before.empty() || (before.size() > 1 && before.compare(before.size() - 2, 2, ". ") == 0);
  if (starts && !word.empty() && word[0] >= 'a' && word[0] <= 'z')
    word[0] = static_cast<char>(word[0] - 'a' + 'A');
  return word;
}

// Fills in an entry; argument gives the words of a name, another gives those of a key.
std::string filled(std::string_view key, std::string_view text,
                   const std::function<std::string(std::string_view)>& argument,
                   const std::function<std::string(std::string_view)>& another) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '{') {
      out += text[i];
    } else if (text.substr(i, 2) == "{{") {
      out += '{';
      ++i;
    } else {
      const std::size_t end = text.find('}', i);
      if (end == std::string_view::npos) throw InternalError("text with an open brace: " + std::string(key));
      const std::string_view name = text.substr(i + 1, end - i - 1);
      out += name.substr(0, 1) == "=" ? at_start(out, another(name.substr(1))) : argument(name);
      i = end;
    }
  }
  return out;
}

// An argument as the text asks for it: how is empty or starts with a bar, see catalogue.h.
std::string argument(const Arg& arg, std::string_view how, const Catalogue& words, UnitSystem units) {
  if (how.empty()) return render(arg, words, units);
  if (how == "|spelled" && arg.kind == ArgKind::word) return words.spelled(arg.word);
  if (arg.kind == ArgKind::length_mm && how == "|round") return round_length_text(arg.number, units);
  if (arg.kind == ArgKind::length_mm && how == "|place") return place_text(arg.number, units);
  const bool quantity = arg.kind != ArgKind::word && arg.kind != ArgKind::term && arg.kind != ArgKind::list;
  if (quantity && how == "|most") return quantity_text(arg.kind, arg.number, arg.word, units, Rounding::down);
  const std::size_t slash = how.find('/');
  if (arg.kind == ArgKind::count && slash != std::string_view::npos)
    return std::string(arg.number == 1.0 ? how.substr(1, slash - 1) : how.substr(slash + 1));
  throw InternalError("argument " + arg.name + " cannot be shown so: " + std::string(how));
}

std::string joined(const std::vector<Text>& texts, const Catalogue& words, UnitSystem units) {
  std::vector<std::string> parts;
  for (const Text& text : texts)
    parts.push_back(render(text, words, units));
  if (parts.empty()) return {};
  // "12, 80 and 150 mm": the unit once, where all have the same.
  const std::string unit = unit_of(parts.back());
  bool same = !unit.empty();
  for (const std::string& part : parts)
    same = same && unit_of(part) == unit;
  // Items that are lists themselves are kept apart.
  const std::string_view comma = words.text("list.next");
  const bool nested = std::any_of(parts.begin(), parts.end(), [&](const std::string& part) {
    return part.find(comma) != std::string::npos;
  });
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0 && nested) out += words.text("list.nested");
    if (i > 0 && !nested) out += words.text(i + 1 == parts.size() ? "list.last" : "list.next");
    const bool last = i + 1 == parts.size();
    out += same && !last ? parts[i].substr(0, parts[i].size() - unit.size()) : parts[i];
  }
  return out;
}

} // namespace

Catalogue::Catalogue(std::string_view language) {
  if (language != "en-GB" && language != "en-US") throw InternalError("no texts in " + std::string(language));
  for (const auto entries : {words_page_en(), words_steps_en(), words_figures_en(), words_parts_en(),
                             words_row_en(), words_cutting_en(), words_fixture_en()})
    for (const Entry& entry : entries)
      if (!entries_.emplace(entry.key, entry.text).second)
        throw InternalError("text stated twice: " + std::string(entry.key));
  if (language != "en-US") return;
  for (const Entry& entry : words_en_us()) {
    const auto found = entries_.find(entry.key);
    if (found == entries_.end()) throw InternalError("a US word for no text: " + std::string(entry.key));
    found->second = entry.text;
  }
  spelling_ = spelling_en_us();
  for (auto& [key, text] : entries_)
    spell(text, spelling_);
}

bool Catalogue::has(std::string_view key) const {
  return entries_.find(key) != entries_.end();
}

std::string_view Catalogue::text(std::string_view key) const {
  const auto found = entries_.find(key);
  if (found == entries_.end()) throw InternalError("no text for " + std::string(key));
  return found->second;
}

std::string Catalogue::word(std::string_view key) const {
  return filled(
      key, text(key),
      [&](std::string_view name) -> std::string {
        throw InternalError("text " + std::string(key) + " wants " + std::string(name));
      },
      [&](std::string_view other) { return word(other); });
}

std::string Catalogue::spelled(std::string text) const {
  spell(text, spelling_);
  return text;
}

std::string render(const Text& text, const Catalogue& words, UnitSystem units) {
  if (text.empty()) return {};
  std::vector<bool> used(text.args.size(), false);
  std::string out = filled(
      text.key, words.text(text.key),
      [&](std::string_view said) -> std::string {
        const std::string_view name = said.substr(0, said.find('|'));
        for (std::size_t i = 0; i < text.args.size(); ++i) {
          if (text.args[i].name != name) continue;
          used[i] = true;
          return argument(text.args[i], said.substr(name.size()), words, units);
        }
        throw InternalError("text " + text.key + " lacks " + std::string(name));
      },
      [&](std::string_view key) { return words.word(key); });
  for (std::size_t i = 0; i < used.size(); ++i)
    if (!used[i]) throw InternalError("text " + text.key + " does not use " + text.args[i].name);
  return out;
}

std::string render(const Arg& arg, const Catalogue& words, UnitSystem units) {
  switch (arg.kind) {
  case ArgKind::word:
    return arg.word;
  case ArgKind::term:
    return words.word(arg.word);
  case ArgKind::list:
    return joined(arg.list, words, units);
  default:
    return quantity_text(arg.kind, arg.number, arg.word, units);
  }
}

} // namespace tacksquare
