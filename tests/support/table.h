// Tables of test data: tests/data/*.tsv. The first line that is no comment names the columns, tab-separated;
// "#" starts a comment line. A missing file, a missing column, a row of the wrong width or a cell that is no
// number fails the test.
#pragma once

#include "support/catch.h"

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace tacksquare::test {

class Table {
 public:
  class Row {
   public:
    Row(const Table& table, std::size_t index) : table_(&table), index_(index) {}

    const std::string& text(const std::string& column) const {
      return table_->cells_[index_][table_->column(column)];
    }
    bool empty(const std::string& column) const { return text(column).empty() || text(column) == "-"; }
    double number(const std::string& column) const {
      const std::string& cell = text(column);
      double value = 0.0;
      const auto [end, fault] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
      if (fault != std::errc{} || end != cell.data() + cell.size()) {
        FAIL(table_->name_ << ", row " << index_ + 1 << ", column " << column << ": no number: " << cell);
      }
      return value;
    }
    int integer(const std::string& column) const {
      const double value = number(column);
      const int whole = static_cast<int>(value);
      if (whole != value)
        FAIL(table_->name_ << ", row " << index_ + 1 << ", column " << column << ": not whole");
      return whole;
    }
    // For INFO: the row as it stands in the file.
    std::string shown() const {
      std::string all = table_->name_ + ":";
      for (std::size_t i = 0; i < table_->columns_.size(); ++i) {
        all += " " + table_->columns_[i] + "=" + table_->cells_[index_][i];
      }
      return all;
    }

   private:
    const Table* table_;
    std::size_t index_;
  };

  // Reads tests/data/<name>; all the named columns must be there.
  Table(const std::string& name, const std::vector<std::string>& needed) : name_(name) {
    std::ifstream file(std::filesystem::path(TACKSQUARE_TEST_DATA) / name, std::ios::binary);
    if (!file) FAIL("no test data " << name);
    std::string line;
    while (std::getline(file, line)) {
      if (!line.empty() && line.back() == '\r') line.pop_back();
      if (line.empty() || line[0] == '#') continue;
      std::vector<std::string> cells = split(line);
      if (columns_.empty()) {
        columns_ = std::move(cells);
        continue;
      }
      if (cells.size() != columns_.size()) FAIL(name << ": a row of the wrong width: " << line);
      cells_.push_back(std::move(cells));
    }
    if (cells_.empty()) FAIL(name << ": no rows");
    for (const std::string& n : needed)
      static_cast<void>(column(n));
  }
  Table(const Table&) = delete; // rows point here
  Table& operator=(const Table&) = delete;

  std::size_t size() const { return cells_.size(); }
  Row operator[](std::size_t index) const { return Row(*this, index); }
  std::vector<Row> rows() const {
    std::vector<Row> all;
    for (std::size_t i = 0; i < size(); ++i)
      all.emplace_back(*this, i);
    return all;
  }

 private:
  static std::vector<std::string> split(const std::string& line) {
    std::vector<std::string> cells(1);
    for (const char c : line) {
      if (c == '\t') {
        cells.emplace_back();
      } else {
        cells.back() += c;
      }
    }
    return cells;
  }
  std::size_t column(const std::string& name) const {
    const auto found = std::find(columns_.begin(), columns_.end(), name);
    if (found == columns_.end()) FAIL(name_ << ": no column " << name);
    return static_cast<std::size_t>(found - columns_.begin());
  }

  std::string name_;
  std::vector<std::string> columns_;
  std::vector<std::vector<std::string>> cells_;
};

} // namespace tacksquare::test
