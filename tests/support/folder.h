// A folder of its own that goes away with the test.
#pragma once

#include "support/catch.h"

#include <cstdlib>
#include <filesystem>
#include <string>
#include <system_error>

namespace tacksquare::test {

class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "tacksquare-XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

} // namespace tacksquare::test
