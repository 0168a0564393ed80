// What is wrong with an input, where, and what to do: collected, never thrown, all of them in one run.
#pragma once

#include <cstddef>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace tacksquare {

// Where a stated thing stands: which file, and the byte offset in it. Only job/file turns it into line and
// column. An origin without a place belongs to something that no file states (a default, say).
struct Origin {
  static constexpr std::size_t nowhere = static_cast<std::size_t>(-1);
  std::size_t offset = nowhere;
  std::size_t file = 0; // 0: the job itself; from 1 on: files that it refers to, as they were opened, then
                        // options that state a part of it
  constexpr bool known() const { return offset != nowhere; }
  // In the order in which faults are told; what has no place stands behind all of the job's own text.
  constexpr bool before(const Origin& b) const { return file != b.file ? file < b.file : offset < b.offset; }
  constexpr bool operator==(const Origin&) const = default;
};

enum class Severity { error, caution };

// The second place of a diagnostic: "first stated here".
struct Note {
  std::string text;
  Origin where;
};

struct Diagnostic {
  Severity severity = Severity::error;
  std::string code;    // short and stable, e.g. "unit-missing"; one test pins each text
  std::string message; // what is wrong, one sentence without a full stop
  std::string remedy;  // what to do, may be empty
  Origin where;
  std::optional<Note> also;
};

class Diagnostics {
 public:
  void error(std::string code, Origin where, std::string message, std::string remedy = {},
             std::optional<Note> also = {}) {
    items_.push_back({Severity::error, std::move(code), std::move(message), std::move(remedy), where, also});
  }
  void caution(std::string code, Origin where, std::string message, std::string remedy = {},
               std::optional<Note> also = {}) {
    items_.push_back(
        {Severity::caution, std::move(code), std::move(message), std::move(remedy), where, also});
  }
  bool has_errors() const {
    for (const auto& d : items_)
      if (d.severity == Severity::error) return true;
    return false;
  }
  void append(const Diagnostics& more) {
    items_.insert(items_.end(), more.items_.begin(), more.items_.end());
  }
  void append(const std::vector<Diagnostic>& more) { items_.insert(items_.end(), more.begin(), more.end()); }
  const std::vector<Diagnostic>& items() const { return items_; }

 private:
  std::vector<Diagnostic> items_;
};

// A bug of ours: a promise inside the program that does not hold. Never for bad input.
struct InternalError : std::logic_error {
  using std::logic_error::logic_error;
};

// Numbers that cannot be trusted: a matrix without a factor, an iteration that does not end. Never printed as
// a number; the message says what was being solved.
struct NumericalFailure : std::runtime_error {
  using std::runtime_error::runtime_error;
};

} // namespace tacksquare
