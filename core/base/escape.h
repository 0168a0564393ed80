// Text as it may stand in XML and HTML.
#pragma once

#include <string>
#include <string_view>

namespace tacksquare {

// Escapes & < > " ' and turns control characters into spaces.
std::string escaped(std::string_view text);

} // namespace tacksquare
