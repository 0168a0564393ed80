// A stable fingerprint of bytes and its printed form. Not for secrets.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace tacksquare {

inline constexpr std::uint64_t kHashStart = 0xcbf29ce484222325u;

// FNV-1a, 64 bit (Fowler, Noll, Vo; RFC 9923). Feed several pieces by passing the last result as start.
std::uint64_t stable_hash(std::string_view bytes, std::uint64_t start = kHashStart);

// Twelve signs in three groups, "7K3M-Q9TA-2F8D": digits and capitals without I, L, O, U. The top 4 bits are
// folded into the lowest.
std::string signature_text(std::uint64_t hash);

} // namespace tacksquare
