// The program: arguments in, files and text out, an exit code.
#pragma once

#include "cli/console.h"

#include <string>
#include <vector>

namespace tacksquare {

// arguments without the program's own name.
int run(const std::vector<std::string>& arguments, Console& console);

} // namespace tacksquare
