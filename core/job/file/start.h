// A first job file to change with an editor.
#pragma once

#include <string>

namespace tacksquare {

struct StarterOptions {
  std::string name = "GEAR LOCKER";
  std::string form = "open";    // "open": folded, open in front; "closed": six panels, with a vent
  std::string width = "400 mm"; // outside, with units
  std::string depth = "300 mm";
  std::string height = "600 mm";
  std::string metal = "mild-steel";
  std::string thickness = "2 mm";
  int count = 1;
  std::string opening_width = "none"; // of the hard opening that they go into side by side
};

// The text of a job file with comments that explain it. Values stand in it as they are given: read_job tells
// what is wrong with them; with possible ones it has nothing to say. Precondition: form is "open" or
// "closed".
std::string starter_job(const StarterOptions& options);

} // namespace tacksquare
