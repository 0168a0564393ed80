#include "job/file/scan.h"

#include "base/numbers.h"
#include "job/file/reading.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <string>

namespace tacksquare {

namespace {

constexpr std::size_t kMostRepeats = 20; // of one kind of fault

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr std::string_view kWhitespace = " \t\r\n";

bool starts(std::string_view text, std::size_t at, std::string_view with) {
  return text.substr(at, with.size()) == with;
}

void find_bad_utf8(std::string_view text, Diagnostics& out) {
  std::size_t found = 0;
  for (std::size_t i = 0; i < text.size() && found < kMostRepeats;) {
    const std::size_t length = utf8_length(text.substr(i));
    if (length > 0) {
      i += length;
      continue;
    }
    constexpr std::string_view hex = "0123456789ABCDEF";
    const auto byte = static_cast<unsigned char>(text[i]);
    out.error("utf8-bad", {i},
              std::string("the byte 0x") + hex[byte >> 4] + hex[byte & 15] + " is not valid UTF-8",
              "save the file as UTF-8");
    ++found;
    while (i < text.size() && utf8_length(text.substr(i)) == 0)
      ++i;
  }
}

bool known_entity(std::string_view name) {
  for (const std::string_view known : {"lt", "gt", "amp", "quot", "apos"})
    if (name == known) return true;
  if (name.size() < 2 || name[0] != '#') return false;
  const bool hex = name[1] == 'x';
  const std::string_view digits = name.substr(hex ? 2 : 1);
  unsigned code = 0;
  const auto [end, fault] =
      std::from_chars(digits.data(), digits.data() + digits.size(), code, hex ? 16 : 10);
  if (fault != std::errc{} || end != digits.data() + digits.size()) return false;
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  const bool control = code < 0x20 && code != 0x9 && code != 0xA && code != 0xD;
  return !surrogate && !control && code <= 0x10FFFF && code != 0xFFFE && code != 0xFFFF;
}

// Walks over the markup. Whatever is malformed is left to the parser, which reports it.
class Markup {
 public:
  Markup(std::string_view text, const FileKind& kind, Diagnostics& out)
      : text_(text), kind_(kind), out_(out),
        start_(starts(text, 0, kByteOrderMark) ? kByteOrderMark.size() : 0) {}

  bool walk() {
    while (at_ < text_.size()) {
      if (text_[at_] != '<') {
        if (text_[at_] == '&') entity();
        if (depth_ == 0 && kWhitespace.find(text_[at_]) == std::string_view::npos && at_ >= start_) stray();
        ++at_;
      } else if (starts(text_, at_, "<!--")) {
        skip_past("-->");
      } else if (starts(text_, at_, "<![CDATA[")) {
        skip_past("]]>");
      } else if (starts(text_, at_, "<?")) {
        skip_past("?>");
      } else if (starts(text_, at_, "<!")) {
        out_.error("doctype", {at_}, "a DOCTYPE or another declaration is not taken",
                   "delete it: a " + what() +
                       " file needs none, and entities are limited to &lt; &gt; &amp; &quot; &apos;");
        return false;
      } else if (!tag()) {
        return false;
      }
    }
    return true;
  }

 private:
  std::string what() const { return std::string(kind_.what); }

  void skip_past(std::string_view end) {
    const std::size_t found = text_.find(end, at_);
    at_ = found == std::string_view::npos ? text_.size() : found + end.size();
  }

  bool tag() {
    const std::size_t start = at_++;
    const bool closing = at_ < text_.size() && text_[at_] == '/';
    char quote = 0;
    for (; at_ < text_.size(); ++at_) {
      const char c = text_[at_];
      if (c == '&') entity();
      if (quote != 0) {
        if (c == quote) quote = 0;
      } else if (c == '"' || c == '\'') {
        quote = c;
      } else if (c == '>') {
        break;
      }
    }
    const bool empty = at_ > 0 && at_ < text_.size() && text_[at_ - 1] == '/';
    ++at_;
    if (++tags_ > 2 * kMostElements) {
      out_.error("elements-many", {start},
                 "there are more than " + std::to_string(kMostElements) + " elements", "split the " + what());
      return false;
    }
    if (closing) {
      if (depth_ > 0) --depth_;
    } else if (!empty && ++depth_ > kDeepestNesting) {
      out_.error("nesting", {start}, "elements are nested deeper than " + std::to_string(kDeepestNesting),
                 "no element of a " + what() + " file stands deeper than six: look for a missing end tag");
      return false;
    }
    return true;
  }

  // The parser drops text outside of the root element without a word.
  void stray() {
    if (stray_ || text_.find('<') == std::string_view::npos) return;
    stray_ = true;
    out_.error("text-outside", {at_}, "text stands outside of the root element", "delete it");
  }

  void entity() {
    const std::size_t end = text_.find_first_of("; \t\r\n<&\"'", at_ + 1);
    const bool closed = end != std::string_view::npos && text_[end] == ';';
    const std::string_view name = text_.substr(at_ + 1, closed ? end - at_ - 1 : 0);
    if ((closed && known_entity(name)) || found_ >= kMostRepeats) return;
    ++found_;
    out_.error("entity", {at_},
               closed ? quoted(text_.substr(at_, name.size() + 2)) + " is not known"
                      : "a bare & is not allowed",
               "&lt; &gt; &amp; &quot; &apos; and &#number; are; write &amp; for the sign itself");
  }

  std::string_view text_;
  const FileKind& kind_;
  Diagnostics& out_;
  std::size_t start_; // after a byte order mark
  bool stray_ = false;
  std::size_t at_ = 0;
  std::size_t depth_ = 0;
  std::size_t tags_ = 0;
  std::size_t found_ = 0;
};

} // namespace

std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u; };
  const auto follows = [&](std::size_t i) { return (byte(i) & 0xC0u) == 0x80u; };
  const unsigned a = byte(0), b = byte(1);
  if (a < 0x80) return 1;
  if (a >= 0xC2 && a <= 0xDF) return follows(1) ? 2 : 0;
  if (a >= 0xE0 && a <= 0xEF) {
    if (!follows(1) || !follows(2)) return 0;
    if ((a == 0xE0 && b < 0xA0) || (a == 0xED && b > 0x9F)) return 0;
    return 3;
  }
  if (a >= 0xF0 && a <= 0xF4) {
    if (!follows(1) || !follows(2) || !follows(3)) return 0;
    if ((a == 0xF0 && b < 0x90) || (a == 0xF4 && b > 0x8F)) return 0;
    return 4;
  }
  return 0;
}

bool scan_text(std::string_view text, const FileKind& kind, Diagnostics& out) {
  if (starts(text, 0, "\xFF\xFE") || starts(text, 0, "\xFE\xFF") ||
      starts(text, 0, std::string_view("<\0", 2)) || starts(text, 0, std::string_view("\0<", 2))) {
    out.error("utf16", {0}, "the file is UTF-16, not UTF-8", "save the file as UTF-8");
    return false;
  }
  if (text.find_first_not_of(kWhitespace, starts(text, 0, kByteOrderMark) ? 3 : 0) ==
      std::string_view::npos) {
    out.error("file-empty", {0}, "the file is empty", std::string(kind.starter));
    return false;
  }
  const std::size_t nul = text.find('\0');
  if (nul != std::string_view::npos) {
    out.error("nul", {nul}, "a NUL byte stands in the file",
              "is this a " + std::string(kind.what) + " file? It is plain text");
    return false;
  }
  find_bad_utf8(text, out);
  return Markup(text, kind, out).walk();
}

} // namespace tacksquare
