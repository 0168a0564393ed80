// The text of one file, from its bytes to its root element.
#pragma once

#include "job/file/reading.h"
#include "job/file/scan.h"

#include <cstddef>
#include <optional>
#include <pugixml.hpp>
#include <string>
#include <string_view>

namespace tacksquare {

// Elements of it live as long as it does.
class FileText {
 public:
  // file: as in Origin.
  FileText(std::string_view text, std::size_t file, Diagnostics& out) : text_(text), file_(file), out_(out) {}

  // Nothing where the file is too long or no XML, or where another element holds all; reported.
  std::optional<Element> root(const FileKind& kind);

 private:
  bool parse(const FileKind& kind, Diagnostics& found);

  std::string_view text_;
  std::size_t file_;
  Diagnostics& out_;
  std::string buffer_; // parsed in place: the place of every name and value is its offset
  pugi::xml_document doc_;
  std::optional<Reading> reading_;
};

} // namespace tacksquare
