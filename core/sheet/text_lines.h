// Lines of text that never get longer than the page is wide. Used by write_text.
#pragma once

#include "sheet/document.h"

#include <string>
#include <utility>
#include <vector>

namespace tacksquare {

class TextLines {
 public:
  explicit TextLines(int columns) : columns_(columns) {}

  int columns() const { return columns_; }
  void blank() { out_ += '\n'; }
  void rule(char sign);
  // lead on the first line, as many spaces below it; tail at the right end of the first line.
  void paragraph(const std::string& lead, const std::string& text, const std::string& tail = {});
  // One after the other, two spaces between, none broken where it fits a line; the lead as many spaces below.
  void items(const std::string& lead, const std::vector<std::string>& items);
  void table(const DocumentTable& table);
  std::string take() { return std::move(out_); } // each line ends in a line break, none in a space

 private:
  void records(const DocumentTable& table);
  void row(const std::vector<std::string>& cells, const std::vector<int>& width,
           const std::vector<bool>& numeric);
  void pad(int columns); // spaces
  void end_line();

  int columns_;
  std::string out_;
};

} // namespace tacksquare
