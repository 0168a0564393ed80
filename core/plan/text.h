// Words to be: a key of the catalogue with typed arguments. The plan holds no prose and no rounded number;
// the sheet turns keys into a language and quantities into the units that the reader wants.
#pragma once

#include <string>
#include <vector>

namespace tacksquare {

enum class ArgKind {
  word,   // verbatim: an id, a name that the job gave
  term,   // a key of the catalogue
  list,   // texts, joined
  count,  // whole number
  ratio,  // plain number
  chance, // 0..1
  length_mm,
  fine_mm, // a length that is shown to 0.01 mm (foreman's pages)
  area_mm2,
  volume_mm3,
  angle_deg,
  time_s,
  temperature_C,
  difference_K,
  mass_kg,
  mass_g,
  wire_feed_mm_s,
  travel_mm_s,
  current_A,
  voltage_V,
  flow_l_min,
  gas_l,
  heat_J_mm,
  force_N,
  pressure_kPa,
  pace_min_m
};

struct Text;

struct Arg {
  std::string name;
  ArgKind kind = ArgKind::word;
  double number = 0.0; // all kinds but word, term and list
  std::string word;    // word, term; for length_mm: id of the gauge that reads it, or empty
  std::vector<Text> list;
  bool operator==(const Arg& b) const;
};

struct Text {
  std::string key; // empty: no text
  std::vector<Arg> args;
  bool empty() const { return key.empty(); }
  bool operator==(const Text& b) const;
};

inline bool Arg::operator==(const Arg& b) const {
  return name == b.name && kind == b.kind && number == b.number && word == b.word && list == b.list;
}
inline bool Text::operator==(const Text& b) const {
  return key == b.key && args == b.args;
}

inline Arg word(std::string name, std::string value) {
  return {std::move(name), ArgKind::word, 0.0, std::move(value), {}};
}
inline Arg term(std::string name, std::string key) {
  return {std::move(name), ArgKind::term, 0.0, std::move(key), {}};
}
inline Arg number(std::string name, ArgKind kind, double value) {
  return {std::move(name), kind, value, {}, {}};
}
inline Arg length(std::string name, double mm, std::string gauge = {}) {
  return {std::move(name), ArgKind::length_mm, mm, std::move(gauge), {}};
}
inline Arg count(std::string name, double n) {
  return {std::move(name), ArgKind::count, n, {}, {}};
}
inline Arg list(std::string name, std::vector<Text> texts) {
  return {std::move(name), ArgKind::list, 0.0, {}, std::move(texts)};
}
// Several ids as one argument, joined by the sheet.
inline Arg words(std::string name, const std::vector<std::string>& ids) {
  std::vector<Text> texts;
  for (const auto& id : ids)
    texts.push_back({"plain", {word("text", id)}});
  return list(std::move(name), std::move(texts));
}

} // namespace tacksquare
