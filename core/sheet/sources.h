// Each source of a page once, with a number to refer to.
#pragma once

#include "sheet/compose.h"

#include <string>
#include <vector>

namespace tacksquare {

class SourceList {
 public:
  std::string refer(const Source& source); // "[2]"
  DocumentTable table(const Composer& compose) const;

 private:
  std::vector<Source> sources_;
};

} // namespace tacksquare
