// Pieces of the HTML page. Used by write_html.
#pragma once

#include "base/escape.h"
#include "sheet/figure.h"

#include <string>

namespace tacksquare {

// The style sheet; page_word stands before the page number at the foot of a printed page.
std::string html_style(const std::string& page_word);

// A drawing as inline SVG; id is unique on the page.
std::string svg(const Drawing& drawing, const std::string& id);

} // namespace tacksquare
