// The catalogue of texts: every word that the sheet prints stands in one of the words_*.cpp files under a
// key.
//
// Syntax of an entry: "{name}" is replaced by the argument of that name, "{=key}" by another entry (without
// arguments: a shop word that differs by language, with a capital where a sentence starts), "{{" is a brace.
// An argument may say how: "{name|round}" is a length that somebody chose and nobody measures, in inches a
// round one; "{name|place}" is where on a seam, as in the seam map; "{name|most}" is a limit, rounded down;
// "{name|seam/seams}" is the first word where the count is one, else the second; "{name|spelled}" is a word
// of ours, in the spelling of the language. An argument that the text does not use, a name that no argument
// has, and an unknown key are bugs of ours: InternalError.
#pragma once

#include "plan/text.h"
#include "sheet/document.h"

#include <functional>
#include <map>
#include <span>
#include <string>
#include <string_view>

namespace tacksquare {

struct Entry {
  std::string_view key, text;
};

std::span<const Entry> words_page_en();    // fixed words of the page, terms, units
std::span<const Entry> words_steps_en();   // what to do, look at and put right
std::span<const Entry> words_figures_en(); // figures, notes, cautions
std::span<const Entry> words_parts_en();   // parts as they come, the opening, the row
std::span<const Entry> words_row_en();     // the opening page
std::span<const Entry> words_cutting_en(); // cut list, bend card, parts as they came
std::span<const Entry> words_fixture_en(); // set-up card, fixture on the foreman's pages
std::span<const Entry> words_en_us();      // what a US shop says otherwise
std::span<const Entry> spelling_en_us();   // and spells otherwise: a part of a word, and what to write

class Catalogue {
 public:
  // "en-GB" or "en-US"; InternalError for another language and for a key that is stated twice.
  explicit Catalogue(std::string_view language);

  bool has(std::string_view key) const;
  std::string_view text(std::string_view key) const; // as written; InternalError when unknown
  std::string word(std::string_view key) const;      // without arguments, {=key} filled in
  std::string spelled(std::string text) const;       // in the spelling of the language
  const std::map<std::string, std::string, std::less<>>& entries() const { return entries_; }

 private:
  std::map<std::string, std::string, std::less<>> entries_;
  std::span<const Entry> spelling_;
};

// A text in words and in the reader's units. The empty text gives an empty string.
std::string render(const Text& text, const Catalogue& words, UnitSystem units);

// One quantity alone, unit included.
std::string render(const Arg& arg, const Catalogue& words, UnitSystem units);

} // namespace tacksquare
