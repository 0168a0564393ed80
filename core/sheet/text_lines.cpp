#include "sheet/text_lines.h"

#include "sheet/plain_text.h"

#include <algorithm>
#include <numeric>
#include <string_view>

namespace tacksquare {

namespace {

constexpr int kGap = 2; // between columns of a table

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
  for (int all = std::accumulate(width.begin(), width.end(), 0); all > room; --all) {
    std::size_t widest = count;
    for (std::size_t i = 0; i < count; ++i)
      if (width[i] > least[i] && (widest == count || width[i] > width[widest])) widest = i;
    --width[widest];
  }
  return width;
}

} // namespace

void TextLines::pad(int columns) {
  out_.append(static_cast<std::size_t>(std::max(columns, 0)), ' ');
}

void TextLines::end_line() {
  while (!out_.empty() && out_.back() == ' ')
    out_.pop_back();
  out_ += '\n';
}

void TextLines::rule(char sign) {
  out_.append(static_cast<std::size_t>(columns_), sign);
  end_line();
}

void TextLines::paragraph(const std::string& lead, const std::string& text, const std::string& tail) {
  const int left = columns_of(lead);
  if (left > columns_ / 2) { // no room for a column of its own
    paragraph("  ", lead + text, tail);
    return;
  }
  const int right = columns_of(tail);
  const int room = std::max(columns_ - left - (right > 0 ? right + 1 : 0), 2);
  bool first = true;
  for (const std::string& line : wrapped(text, room)) {
    if (first)
      out_ += lead;
    else
      pad(left);
    out_ += line;
    if (first && right > 0) {
      pad(columns_ - left - columns_of(line) - right);
      out_ += tail;
    }
    end_line();
    first = false;
  }
}

void TextLines::items(const std::string& lead, const std::vector<std::string>& items) {
  const int left = columns_of(lead);
  int used = 0;
  for (const std::string& item : items) {
    const int width = columns_of(item);
    if (used > 0 && used + kGap + width > columns_) {
      end_line();
      used = 0;
    }
    if (left + width > columns_) {
      paragraph(lead, item);
      continue;
    }
    if (used == 0) out_ += lead;
    pad(used == 0 ? 0 : kGap);
    out_ += item;
    used += (used == 0 ? left : kGap) + width;
  }
  if (used > 0) end_line();
}

void TextLines::row(const std::vector<std::string>& cells, const std::vector<int>& width,
                    const std::vector<bool>& numeric) {
  std::vector<std::vector<std::string>> parts;
  std::size_t height = 1;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    parts.push_back(wrapped(cells[i], std::max(width[i], 2)));
    height = std::max(height, parts.back().size());
  }
  for (std::size_t k = 0; k < height; ++k) {
    for (std::size_t i = 0; i < parts.size(); ++i) {
      if (i > 0) pad(kGap);
      const bool has = k < parts[i].size();
      const int room = width[i] - (has ? columns_of(parts[i][k]) : 0);
      if (numeric[i]) pad(room);
      if (has) out_ += parts[i][k];
      if (!numeric[i]) pad(room);
    }
    end_line();
  }
}

void TextLines::table(const DocumentTable& table) {
  paragraph("", table.title);
  const std::vector<int> width = widths_of(table, columns_);
  if (width.empty()) {
    records(table);
  } else {
    std::vector<std::string> under;
    for (const int columns : width)
      under.emplace_back(static_cast<std::size_t>(columns), '-');
    row(table.head, width, table.numeric);
    row(under, width, table.numeric);
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
      if (std::find(table.sums.begin(), table.sums.end(), i) != table.sums.end())
        row(under, width, table.numeric);
      row(table.rows[i], width, table.numeric);
    }
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

} // namespace tacksquare
