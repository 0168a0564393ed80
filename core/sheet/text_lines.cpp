#include "sheet/text_lines.h"

#include "sheet/plain_text.h"

#include <algorithm>
#include <numeric>
#include <string_view>

namespace tacksquare {

namespace {

constexpr int kGap = 2; // between columns of a table

std::string spaces(int count) {
  return std::string(static_cast<std::size_t>(std::max(count, 0)), ' ');
}

int longest_word(const std::string& text) {
  int longest = 1;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t end = std::min(text.find(' ', i), text.size());
    longest = std::max(longest, columns_of(std::string_view(text).substr(i, end - i)));
    i = end + 1;
  }
  return longest;
}

// Widths that fit, the widest columns narrowed first; empty when not even the longest words fit.
std::vector<int> widths_of(const DocumentTable& table, int columns) {
  const std::size_t count = table.head.size();
  std::vector<int> width(count, 1), least(count, 1);
  const auto see = [&](const std::vector<std::string>& row) {
    for (std::size_t i = 0; i < count; ++i) {
      width[i] = std::max(width[i], columns_of(row[i]));
      least[i] = std::max(least[i], longest_word(row[i]));
    }
  };
  see(table.head);
  for (const auto& row : table.rows)
    see(row);
  const int room = columns - kGap * (static_cast<int>(count) - 1);
  if (std::accumulate(least.begin(), least.end(), 0) > room) return {};
  while (std::accumulate(width.begin(), width.end(), 0) > room) {
    std::size_t widest = count;
    for (std::size_t i = 0; i < count; ++i)
      if (width[i] > least[i] && (widest == count || width[i] > width[widest])) widest = i;
    --width[widest];
  }
  return width;
}

} // namespace

void TextLines::rule(char sign) {
  lines_.emplace_back(static_cast<std::size_t>(columns_), sign);
}

void TextLines::paragraph(const std::string& lead, const std::string& text, const std::string& tail) {
  const int left = columns_of(lead);
  if (left > columns_ / 2) { // no room for a column of its own
    paragraph("  ", lead + text, tail);
    return;
  }
  const int right = tail.empty() ? 0 : columns_of(tail) + 1;
  const int room = std::max(columns_ - left - right, 2);
  bool first = true;
  for (const std::string& line : wrapped(text, room)) {
    lines_.push_back((first ? padded(lead, left) : spaces(left)) + line);
    if (first && !tail.empty())
      lines_.back() = padded(std::move(lines_.back()), columns_ - columns_of(tail)) + tail;
    first = false;
  }
}

void TextLines::table(const DocumentTable& table) {
  paragraph("", table.title);
  const std::vector<int> width = widths_of(table, columns_);
  if (width.empty()) {
    records(table);
  } else {
    const auto add = [&](const std::vector<std::string>& row) {
      std::vector<std::vector<std::string>> cells;
      std::size_t height = 1;
      for (std::size_t i = 0; i < row.size(); ++i) {
        cells.push_back(wrapped(row[i], std::max(width[i], 2)));
        height = std::max(height, cells.back().size());
      }
      for (std::size_t k = 0; k < height; ++k) {
        std::string line;
        for (std::size_t i = 0; i < row.size(); ++i) {
          const std::string part = k < cells[i].size() ? cells[i][k] : std::string();
          if (i > 0) line += spaces(kGap);
          line += table.numeric[i] ? spaces(width[i] - columns_of(part)) + part : padded(part, width[i]);
        }
        lines_.push_back(std::move(line));
      }
    };
    add(table.head);
    std::vector<std::string> under;
    for (const int columns : width)
      under.emplace_back(static_cast<std::size_t>(columns), '-');
    add(under);
    for (const auto& row : table.rows)
      add(row);
  }
  for (const std::string& line : table.below)
    paragraph("  ", line);
}

void TextLines::records(const DocumentTable& table) {
  for (const auto& row : table.rows) {
    paragraph("* ", row.front());
    for (std::size_t i = 1; i < row.size(); ++i)
      paragraph("    " + table.head[i] + ": ", row[i]);
  }
}

std::string TextLines::take() const {
  std::string out;
  for (const std::string& line : lines_) {
    const std::size_t end = line.find_last_not_of(' ');
    if (end != std::string::npos) out += line.substr(0, end + 1);
    out += '\n';
  }
  return out;
}

} // namespace tacksquare
