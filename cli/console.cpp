#include "cli/console.h"

#include <ostream>

namespace tacksquare {

void tell(const FileFault& fault, Console& console) {
  console.err << "tacksquare: error: " << fault.message << "\n";
  if (!fault.remedy.empty()) console.err << "  " << fault.remedy << "\n";
}

} // namespace tacksquare
