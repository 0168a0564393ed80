#include "cli/console.h"

#include "sheet/plain_text.h"

#include <algorithm>
#include <ostream>

namespace tacksquare {

int Console::text_columns() const {
  return std::clamp(columns, 80, 160);
}

void tell_error(const std::string& message, const std::string& remedy, Console& console) {
  console.err << "tacksquare: error: " << cleaned(message) << "\n";
  if (!remedy.empty()) console.err << "  " << cleaned(remedy) << "\n";
}

void tell(const FileFault& fault, Console& console) {
  tell_error(fault.message, fault.remedy, console);
}

} // namespace tacksquare
