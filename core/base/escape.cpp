#include "base/escape.h"

namespace tacksquare {

std::string escaped(std::string_view text) {
  std::string safe;
  safe.reserve(text.size() + text.size() / 8);
  for (const char c : text) {
    switch (c) {
    case '&':
      safe += "&amp;";
      break;
    case '<':
      safe += "&lt;";
      break;
    case '>':
      safe += "&gt;";
      break;
    case '"':
      safe += "&quot;";
      break;
    case '\'':
      safe += "&#39;";
      break;
    default:
      safe += static_cast<unsigned char>(c) < 0x20 || c == 0x7F ? ' ' : c;
    }
  }
  return safe;
}

} // namespace tacksquare
