// What the program talks to, so that tests can put memory in its place.
#pragma once

#include "base/files.h"

#include <iosfwd>

namespace tacksquare {

struct Console {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  FileSystem& files;
  bool in_is_terminal = false;
  bool out_is_terminal = false;
  bool err_is_terminal = false;
  bool colour = false; // of messages on err
  int columns = 80;    // of out
};

// "tacksquare: error: cannot write out/sheet.txt: ..." and what to do.
void tell(const FileFault& fault, Console& console);

// Exit codes, as the man page has them.
enum class Exit { done = 0, our_bug = 1, bad_input = 2, limit_likely_missed = 3 };

} // namespace tacksquare
