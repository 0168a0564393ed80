// Elements and attributes of a job file, each taken once, each fault with its place.
#pragma once

#include "base/diagnostic.h"
#include "base/quantity.h"
#include "job/file/word.h"

#include <map>
#include <optional>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace tacksquare {

// Words of the file and what they mean; the reader and the writer share them.
template <class E> using Words = std::vector<std::pair<std::string, E>>;

template <class E> const std::string& word_of(const Words<E>& words, E value) {
  for (const auto& [word, meaning] : words)
    if (meaning == value) return word;
  throw InternalError("a value without a word");
}

// Allowed from low to high, both included.
template <class Q> struct Range { Q low, high; };

// Where the parsed text lies, and where faults go.
class Reading {
 public:
  // file: as in Origin.
  Reading(const char* text, std::size_t file, Diagnostics& out) : text_(text), file_(file), out_(out) {}
  Origin at(const char* place) const { return {static_cast<std::size_t>(place - text_), file_}; }
  Diagnostics& out() { return out_; }
  std::size_t errors(); // so far

 private:
  const char* text_;
  std::size_t file_;
  Diagnostics& out_;
  std::size_t counted_ = 0; // diagnostics
  std::size_t errors_ = 0;  // among them
};

// One value of a list with its place.
template <class Q> struct Said {
  Q value;
  Origin where;
};

// Attributes are known by being asked for; finish() reports the others.
class Element {
 public:
  static constexpr std::size_t kLongestText = 200;

  Element(pugi::xml_node node, Reading& reading) : node_(node), reading_(&reading) {}

  Reading& reading() const { return *reading_; }
  Diagnostics& out() const { return reading_->out(); }
  std::string tag() const; // as a message names it: "<seam>"
  bool is(std::string_view name) const { return name == node_.name(); }
  Origin where() const;                      // of the element
  Origin where(std::string_view name) const; // of the attribute's value, else of the element
  bool has(std::string_view name);
  std::string_view raw(std::string_view name) const {
    return find(name).value();
  } // "" when absent, not judged

  // Nothing when it is absent, or wrong and reported. longest: in bytes.
  std::optional<std::string> text(std::string_view name, std::size_t longest = kLongestText);
  // The text of "name"; a caution where it shows nothing.
  std::optional<std::string> seen_name();
  std::vector<Word> words(std::string_view name); // separated by spaces; a list may be longer than a text
  std::optional<bool> yes_or_no(std::string_view name);
  std::optional<int> count(std::string_view name, Range<int> range);

  template <class Q>
  std::optional<Q> quantity(std::string_view name, Parsed<Q> (*parse)(std::string_view), Range<Q> range) {
    const auto said = text(name);
    if (!said) return {};
    return judge(name, *said, where(name), parse, range);
  }
  // Comma-separated quantities, as many as are wanted: those of them that are well. whole: all are.
  template <class Q>
  std::vector<Said<Q>> readings(std::string_view name, Range<std::size_t> wanted,
                                Parsed<Q> (*parse)(std::string_view), Range<Q> range, bool* whole = nullptr) {
    const auto pieces = split(name);
    std::vector<bool> bare; // without a unit
    for (const Word& piece : pieces) {
      const Parsed<Q> parsed = parse(piece.text);
      const auto* fault = std::get_if<ParseFault>(&parsed);
      bare.push_back(fault && fault->code == "unit-missing");
    }
    std::vector<Said<Q>> all;
    if (decimal_comma(name, pieces, bare) || !as_many(name, pieces.size(), wanted)) return all;
    for (const Word& piece : pieces)
      if (const auto q = judge(name, piece.text, piece.where, parse, range)) all.push_back({*q, piece.where});
    if (whole) *whole = !pieces.empty() && all.size() == pieces.size();
    return all;
  }
  // Just so many, or nothing.
  template <class Q>
  std::optional<std::vector<Q>> list(std::string_view name, std::size_t wanted,
                                     Parsed<Q> (*parse)(std::string_view), Range<Q> range) {
    bool whole = false;
    std::vector<Q> all;
    for (const Said<Q>& item : readings(name, {wanted, wanted}, parse, range, &whole))
      all.push_back(item.value);
    if (!whole) return {};
    return all;
  }
  template <class E> std::optional<E> choice(std::string_view name, const Words<E>& words) {
    const auto said = text(name);
    if (!said) return {};
    std::vector<std::string> known;
    for (const auto& [word, meaning] : words) {
      if (word == *said) return meaning;
      known.push_back(word);
    }
    unknown_word(name, *said, known);
    return {};
  }

  // Reports that the attribute is missing unless it is there. example: "2 mm".
  void require(std::string_view name, std::string_view example);

  // An id: required, letters, digits, "-", "_" and ".". Empty when reported.
  std::string id();

  // Children: which are known, and visits in the order of the file.
  void allow(const std::vector<std::string_view>& tags);
  std::vector<Element> children(std::string_view tag) const;
  std::optional<Element> only_child(std::string_view tag) const; // a second one is an error

  // Reports attributes that nobody asked for and those that are stated twice. Call it last.
  void finish();

 private:
  template <class Q>
  std::optional<Q> judge(std::string_view name, const std::string& said, Origin where,
                         Parsed<Q> (*parse)(std::string_view), Range<Q> range) {
    const Parsed<Q> parsed = parse(said);
    if (const auto* fault = std::get_if<ParseFault>(&parsed)) {
      out().error(fault->code, where, std::string(name) + ": " + fault->message, fault->remedy);
      return {};
    }
    const Q value = std::get<Q>(parsed);
    if (value < range.low)
      return refused(name, said, where, "small: at least " + shown(range.low)), std::nullopt;
    if (value > range.high)
      return refused(name, said, where, "large: at most " + shown(range.high)), std::nullopt;
    return value;
  }
  static std::string shown(int value) { return std::to_string(value); }
  static std::string shown(double value);
  template <class Tag> static std::string shown(Quantity<Tag> value) { return written(value); }
  void refused(std::string_view name, const std::string& said, Origin where, const std::string& why) const;
  void unknown_word(std::string_view name, const std::string& said,
                    const std::vector<std::string>& known) const;
  std::vector<Word> split(std::string_view name);
  // True, and reported, where a list is torn by a comma that was meant as the point of a number.
  bool decimal_comma(std::string_view name, const std::vector<Word>& pieces, const std::vector<bool>& bare);
  bool as_many(std::string_view name, std::size_t stated, Range<std::size_t> wanted);
  pugi::xml_attribute find(std::string_view name) const;
  void ask(std::string_view name);

  pugi::xml_node node_;
  Reading* reading_;
  std::vector<std::string> asked_;
};

// Ids of one kind: the second of the same id is an error with both places.
class Ids {
 public:
  // in: what they belong to, where a message has to say it: "box "locker"".
  explicit Ids(std::string kind, std::string in = {}) : kind_(std::move(kind)), in_(std::move(in)) {}
  // False when the id is there already (reported).
  bool add(const std::string& id, std::size_t index, Origin where, Diagnostics& out);
  std::optional<std::size_t> find(const std::string& id) const;
  // Reports a reference to nothing.
  std::optional<std::size_t> find(const Word& reference, Diagnostics& out) const;
  std::vector<std::string> all() const;

 private:
  static constexpr int kMostSuggestions = 100; // each looks at all ids
  mutable int suggested_ = 0;
  std::string kind_; // "sheet"
  std::string in_;
  std::map<std::string, std::pair<std::size_t, Origin>> known_;
};

// Of items whose twins were reported before.
template <class T> Ids ids_of(std::string kind, const std::vector<T>& items, std::string in = {}) {
  Ids ids(std::move(kind), std::move(in));
  Diagnostics ignored;
  for (std::size_t i = 0; i < items.size(); ++i)
    ids.add(items[i].id, i, items[i].where, ignored);
  return ids;
}

} // namespace tacksquare
