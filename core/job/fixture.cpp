#include "job/fixture.h"

namespace tacksquare {

const std::string& item_word(ItemKind kind) {
  static const std::array<std::string, kItemKinds.size()> words = {
      "stop",   "support", "hold-down", "bar-clamp",  "corner-clamp",
      "square", "former",  "spreader",  "backing-bar"};
  return words[static_cast<std::size_t>(kind)];
}

bool holds_from_within(ItemKind kind) {
  return kind == ItemKind::former || kind == ItemKind::square || kind == ItemKind::spreader;
}

} // namespace tacksquare
