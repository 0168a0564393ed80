#include "job/file/read_job.h"
#include "job/file/scan.h"

#include <algorithm>

namespace tacksquare {

namespace {

constexpr std::size_t kMostPrinted = 500;
constexpr std::size_t kWidest = 90;      // code points of a line that are shown
constexpr std::size_t kBeforeCaret = 60; // of them before the caret, where the line is longer
constexpr std::size_t kNumberWidth = 5;
constexpr std::string_view kReplacement = "\xEF\xBF\xBD";

bool starts_sign(char c) {
  return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u;
}

std::size_t count_signs(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), starts_sign));
}

// As it can be printed: one column a code point, tabs as one space.
std::string printable(std::string_view text) {
  std::string shown;
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    const char c = text[0];
    if (length == 0) {
      if (starts_sign(c)) shown += kReplacement;
    } else if (c == '\t') {
      shown += ' ';
    } else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) {
      shown += '?';
    } else {
      shown += text.substr(0, length);
    }
    text.remove_prefix(std::max<std::size_t>(length, 1));
  }
  return shown;
}

struct Place {
  std::size_t line = 0, column = 0; // from 1; the column counts code points
  std::string_view before, after;   // of the line: up to the place, and from it on
};

class Lines {
 public:
  explicit Lines(std::string_view text) : text_(text) {
    starts_.push_back(text.substr(0, 3) == "\xEF\xBB\xBF" ? 3 : 0);
    for (std::size_t i = text.find('\n'); i != std::string_view::npos; i = text.find('\n', i + 1))
      starts_.push_back(i + 1);
  }

  Place find(std::size_t offset) const {
    offset = std::clamp(offset, starts_.front(), std::max(text_.size(), starts_.front()));
    const auto next = std::upper_bound(starts_.begin(), starts_.end(), offset);
    const std::size_t start = *(next - 1);
    std::size_t end = next == starts_.end() ? text_.size() : *next - 1;
    if (end > start && text_[end - 1] == '\r') --end;
    offset = std::min(offset, end);
    Place place;
    place.line = static_cast<std::size_t>(next - starts_.begin());
    place.before = text_.substr(start, offset - start);
    place.after = text_.substr(offset, end - offset);
    place.column = count_signs(place.before) + 1;
    return place;
  }

 private:
  std::string_view text_;
  std::vector<std::size_t> starts_;
};

// The last signs of a text, and the first.
std::string_view last_signs(std::string_view text, std::size_t count) {
  std::size_t i = text.size();
  while (i > 0 && count > 0)
    if (starts_sign(text[--i])) --count;
  return text.substr(i);
}
std::string_view first_signs(std::string_view text, std::size_t count) {
  std::size_t i = 0;
  while (i < text.size() && (count > 0 || !starts_sign(text[i])))
    if (starts_sign(text[i++])) --count;
  return text.substr(0, i);
}

class Printer {
 public:
  explicit Printer(bool colour) : colour_(colour) {}

  // In the order of Origin::file.
  void add(std::string_view name, std::string_view text) { files_.push_back({name, Lines(text)}); }

  void print(const Diagnostic& d) {
    const bool error = d.severity == Severity::error;
    entry(d.where, error ? "error:" : "caution:", error ? "31;1" : "33;1", d.message);
    if (!d.remedy.empty())
      out_ += std::string(kNumberWidth + 1, ' ') + painted("32", "do: ") + printable(d.remedy) + '\n';
    if (d.also) entry(d.also->where, "see:", "36;1", d.also->text);
  }
  void more(std::size_t count) { out_ += "... and " + std::to_string(count) + " more\n"; }
  std::string take() { return std::move(out_); }

 private:
  std::string painted(std::string_view code, std::string_view what) const {
    std::string all;
    if (colour_) all.append("\x1b[").append(code).append("m");
    all += what;
    if (colour_) all += "\x1b[0m";
    return all;
  }

  void entry(Origin where, std::string_view kind, std::string_view code, const std::string& message) {
    if (where.file >= files_.size()) throw InternalError("a place in a file that was not read");
    const File& file = files_[where.file];
    out_ += printable(file.name);
    if (!where.known()) {
      out_ += ": " + painted(code, kind) + ' ' + printable(message) + '\n';
      return;
    }
    const Place place = file.lines.find(where.offset);
    out_ += ':' + std::to_string(place.line) + ':' + std::to_string(place.column) + ": " +
            painted(code, kind) + ' ' + printable(message) + '\n';
    excerpt(place);
  }

  void excerpt(const Place& place) {
    std::string_view before = place.before, after = place.after;
    std::string shown;
    if (count_signs(before) > kBeforeCaret && count_signs(before) + count_signs(after) > kWidest) {
      before = last_signs(before, kBeforeCaret);
      shown = "...";
    }
    after = first_signs(after, kWidest - std::min(kWidest, count_signs(before)));
    shown += printable(before);
    const std::size_t caret = count_signs(shown);
    shown += printable(after);
    if (after.size() < place.after.size()) shown += "...";

    const std::string number = std::to_string(place.line);
    const std::size_t width = std::max(kNumberWidth, number.size());
    out_ += std::string(width - number.size(), ' ') + number + " | " + shown + '\n';
    out_ += std::string(width, ' ') + " | " + std::string(caret, ' ') + painted("31;1", "^") + '\n';
  }

  struct File {
    std::string_view name;
    Lines lines;
  };
  std::vector<File> files_;
  bool colour_;
  std::string out_;
};

} // namespace

std::string print_diagnostics(const Diagnostics& diagnostics, std::string_view file_name,
                              std::string_view text, bool colour, const std::vector<FileRead>& further) {
  std::vector<const Diagnostic*> items;
  for (const Diagnostic& d : diagnostics.items())
    items.push_back(&d);
  std::stable_sort(items.begin(), items.end(),
                   [](const Diagnostic* a, const Diagnostic* b) { return a->where.before(b->where); });
  Printer printer(colour);
  printer.add(file_name, text);
  for (const FileRead& file : further)
    printer.add(file.name, file.text);
  const std::size_t printed = std::min(items.size(), kMostPrinted);
  for (std::size_t i = 0; i < printed; ++i)
    printer.print(*items[i]);
  if (printed < items.size()) printer.more(items.size() - printed);
  return printer.take();
}

} // namespace tacksquare
