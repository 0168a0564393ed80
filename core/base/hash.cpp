#include "base/hash.h"

namespace tacksquare {

std::uint64_t stable_hash(std::string_view bytes, std::uint64_t start) {
  std::uint64_t hash = start;
  for (const char c : bytes) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3u;
  }
  return hash;
}

std::string signature_text(std::uint64_t hash) {
  constexpr std::string_view signs = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  const std::uint64_t folded = (hash ^ (hash >> 60)) & 0x0fffffffffffffffu;
  std::string text;
  for (int group = 0; group < 12; ++group) {
    if (group == 4 || group == 8) text += '-';
    text += signs[(folded >> (5 * (11 - group))) & 31u];
  }
  return text;
}

} // namespace tacksquare
