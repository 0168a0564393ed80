#include "support/catch.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <string>
#include <vector>

namespace {

std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  REQUIRE(file);
  return {std::istreambuf_iterator<char>(file), {}};
}

} // namespace

TEST_CASE("docs/theory.md names every function that a formulas header declares") {
  const std::filesystem::path root = TACKSQUARE_SOURCE;
  const std::string theory = text_of(root / "docs/theory.md");
  const std::regex declaration(R"((?:^|\n)(?:constexpr )?(?:const )?[A-Z]?\w+&? (\w+)\()");
  std::vector<std::filesystem::path> headers;
  for (const auto& entry : std::filesystem::directory_iterator(root / "core/formulas"))
    if (entry.path().extension() == ".h" && entry.path().filename() != "ranged.h")
      headers.push_back(entry.path());
  std::sort(headers.begin(), headers.end());
  REQUIRE(headers.size() >= 9);
  std::size_t functions = 0;
  for (const auto& header : headers) {
    const std::string text = text_of(header);
    for (std::sregex_iterator at(text.begin(), text.end(), declaration), end; at != end; ++at) {
      std::string named(1, '`');
      named += (*at)[1].str();
      named += '`';
      INFO(header.filename().string() << ": " << named);
      CHECK(theory.find(named) != std::string::npos);
      ++functions;
    }
  }
  CHECK(functions > 80);
}
