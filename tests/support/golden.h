// Golden files: tests/data/golden/<name> holds what an output was when it was last read by a person and found
// right. `sh tests/accept.sh` takes the present outputs over.
#pragma once

#include "support/catch.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

namespace tacksquare::test {

// Fails, with the first line that differs, unless actual is the golden file byte for byte.
inline void check_golden(const std::string& name, const std::string& actual) {
  const std::filesystem::path path = std::filesystem::path(TACKSQUARE_TEST_DATA) / "golden" / name;
  if (std::getenv("TACKSQUARE_ACCEPT") != nullptr) {
    std::filesystem::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << actual;
    WARN("accepted " << name);
  }
  std::ifstream in(path, std::ios::binary);
  if (!in) FAIL("no golden file " << name << "; sh tests/accept.sh makes it");
  const std::string golden{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  if (golden == actual) {
    SUCCEED(name);
    return;
  }
  const auto [in_golden, in_actual] =
      std::mismatch(golden.begin(), golden.end(), actual.begin(), actual.end());
  const auto line_around = [](const std::string& text, std::size_t at) {
    const auto before = at == 0 ? std::string::npos : text.rfind('\n', at - 1);
    const auto from = before == std::string::npos ? 0 : before + 1;
    return text.substr(from, std::min(text.find('\n', at), text.size()) - from);
  };
  const auto at = static_cast<std::size_t>(in_golden - golden.begin());
  FAIL(name << ":" << 1 + std::count(golden.begin(), in_golden, '\n')
            << " differs from the golden file\n  golden: " << line_around(golden, at)
            << "\n  now:    " << line_around(actual, static_cast<std::size_t>(in_actual - actual.begin())));
}

} // namespace tacksquare::test
