// What is the same of several seams, parts or places is said once, with all of them named.
#pragma once

#include "sheet/compose.h"

#include <string>
#include <vector>

namespace tacksquare {

// Texts that differ in nothing but the seam or the part that they are about.
struct SharedText {
  Text text;                    // the first of them
  std::string by;               // "seam" or "part"; empty while there is only one
  std::vector<std::string> ids; // their seams or parts, in the order in which they came
};

// Takes another text in when it says the same, as the reader sees it; false leaves shared as it was.
bool take_in(const Composer& compose, SharedText& shared, const Text& other);

// The text of all that were taken in.
std::string shared_text(const Composer& compose, const BoxPlan& box, const SharedText& shared);

// "S1 to S4, S7 and S9": three or more that follow each other among the seams of the box as a range.
std::string names(const Composer& compose, const BoxPlan& box, const std::vector<std::string>& ids);

// "rim-top" is at the rim, on top; the dash of a seam's or a face's own id parts nothing.
struct PlaceName {
  std::string head, tail; // tail: may be empty
};
PlaceName place_name(const BoxPlan& box, const std::string& where);

// Where measures are taken: "rim and middle, each at top and bottom". Each where is "rim", "rim-top", "S1" or
// "S1-rim".
std::string places(const Composer& compose, const BoxPlan& box, const std::vector<std::string>& wheres);

} // namespace tacksquare
