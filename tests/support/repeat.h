// How often a test repeats what it draws by chance.
#pragma once

namespace tacksquare::test {

// AddressSanitizer is in this build (g++ says so by a macro, clang by a feature).
#if defined(__SANITIZE_ADDRESS__)
inline constexpr bool kSanitized = true;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
inline constexpr bool kSanitized = true;
#else
inline constexpr bool kSanitized = false;
#endif
#else
inline constexpr bool kSanitized = false;
#endif

// Under the sanitizers, which slow a test down many times, it looks for wrong memory; rare numbers are found
// by the optimised build, which repeats everything as often as usual.
constexpr int times(int usual, int sanitized) {
  return kSanitized ? sanitized : usual;
}

} // namespace tacksquare::test
