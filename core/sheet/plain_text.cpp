#include "sheet/plain_text.h"

#include <algorithm>
#include <cstddef>

namespace tacksquare {

namespace {

constexpr char32_t kReplacement = 0xFFFD;

struct Sign {
  char32_t code = kReplacement;
  std::size_t bytes = 1; // 1 for a byte that is no UTF-8
  bool valid = false;
};

Sign sign_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(at);
  if (first < 0x80) return {first, 1, true};
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || at + length > text.size()) return {};
  char32_t code = first & (0xFFu >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(at + i) & 0xC0) != 0x80) return {};
    code = (code << 6) | (byte(at + i) & 0x3Fu);
  }
  const bool too_long = (length == 3 && code < 0x800) || (length == 4 && code < 0x10000);
  if (too_long || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF)) return {};
  return {code, length, true};
}

// Control characters, and marks that turn the direction of what follows.
bool harmful(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029 || (c >= 0x202A && c <= 0x202E) ||
         (c >= 0x2066 && c <= 0x2069) || c == 0xFEFF || (c & 0xFFFE) == 0xFFFE;
}

struct Range {
  char32_t first, last;
};

// Marks that stand on the sign before (the blocks in use, after Unicode 15 categories Mn, Me and Cf).
constexpr Range kNoWidth[] = {{0x0300, 0x036F}, {0x0483, 0x0489}, {0x0591, 0x05BD}, {0x05BF, 0x05BF},
                              {0x05C1, 0x05C5}, {0x0610, 0x061A}, {0x064B, 0x065F}, {0x0670, 0x0670},
                              {0x06D6, 0x06DC}, {0x06DF, 0x06E4}, {0x093C, 0x093C}, {0x0941, 0x0948},
                              {0x094D, 0x094D}, {0x0E31, 0x0E31}, {0x0E34, 0x0E3A}, {0x0E47, 0x0E4E},
                              {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF}, {0x200B, 0x200F}, {0x2060, 0x2064},
                              {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}, {0xE0100, 0xE01EF}};
// East Asian wide and full-width signs and emoji (Unicode 15, EastAsianWidth W and F, whole blocks).
constexpr Range kWide[] = {{0x1100, 0x115F},   {0x2E80, 0x303E},   {0x3041, 0x33FF},   {0x3400, 0x4DBF},
                           {0x4E00, 0x9FFF},   {0xA000, 0xA4CF},   {0xA960, 0xA97F},   {0xAC00, 0xD7A3},
                           {0xF900, 0xFAFF},   {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},   {0xFFE0, 0xFFE6},
                           {0x1F300, 0x1F64F}, {0x1F680, 0x1F6FF}, {0x1F900, 0x1FAFF}, {0x20000, 0x3FFFD}};

bool is_ascii(char c) {
  return static_cast<unsigned char>(c) < 0x80;
}

int columns_of_sign(char32_t c) {
  for (const Range& range : kNoWidth)
    if (c >= range.first && c <= range.last) return 0;
  for (const Range& range : kWide)
    if (c >= range.first && c <= range.last) return 2;
  return 1;
}

// The longest beginning that fits; at least one sign.
std::size_t fitting(std::string_view word, int columns) {
  std::size_t end = 0;
  int used = 0;
  while (end < word.size()) {
    const Sign sign = sign_at(word, end);
    used += columns_of_sign(sign.code);
    if (used > columns && end > 0) break;
    end += sign.bytes;
  }
  return end;
}

} // namespace

std::string cleaned(std::string_view text) {
  const auto printable = [](char c) { return c >= ' ' && c <= '~'; };
  if (std::all_of(text.begin(), text.end(), printable)) return std::string(text);
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const Sign sign = sign_at(text, i);
    if (sign.code == '\t' || sign.code == '\n' || sign.code == '\r')
      out += ' ';
    else if (!sign.valid || harmful(sign.code))
      out += "\xEF\xBF\xBD";
    else
      out += text.substr(i, sign.bytes);
    i += sign.bytes;
  }
  return out;
}

int columns_of(std::string_view text) {
  if (std::all_of(text.begin(), text.end(), is_ascii)) return static_cast<int>(text.size());
  int columns = 0;
  for (std::size_t i = 0; i < text.size();) {
    const Sign sign = sign_at(text, i);
    columns += columns_of_sign(sign.code);
    i += sign.bytes;
  }
  return columns;
}

std::vector<std::string> wrapped(std::string_view text, int columns) {
  std::vector<std::string> lines(1);
  int used = 0;
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] == ' ') {
      ++i;
      continue;
    }
    const std::size_t end = std::min(text.find(' ', i), text.size());
    std::string_view word = text.substr(i, end - i);
    i = end;
    int width = columns_of(word);
    if (used > 0 && used + 1 + width <= columns) {
      lines.back() += ' ';
      ++used;
    } else if (used > 0) {
      lines.emplace_back();
      used = 0;
    }
    for (; width > columns - used; width = columns_of(word)) {
      const std::size_t part = fitting(word, columns - used);
      lines.back() += word.substr(0, part);
      word.remove_prefix(part);
      lines.emplace_back();
    }
    lines.back() += word;
    used += width;
  }
  return lines;
}

std::string padded(std::string text, int columns) {
  const int used = columns_of(text);
  if (used < columns) text.append(static_cast<std::size_t>(columns - used), ' ');
  return text;
}

} // namespace tacksquare
