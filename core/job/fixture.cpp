#include "job/fixture.h"

namespace tacksquare {

const std::string& item_word(ItemKind kind) {
  static const std::array<std::string, kItemKinds.size()> words = {
      "stop",   "support", "hold-down", "bar-clamp",  "corner-clamp",
      "square", "former",  "spreader",  "backing-bar"};
  return words[static_cast<std::size_t>(kind)];
}

} // namespace tacksquare
