// What the program talks to, so that tests can put memory in its place.
#pragma once

#include "base/files.h"

#include <iosfwd>
#include <string>

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

  // Of texts on out: what a narrower terminal has is not kept to, and longer lines are hard to read.
  int text_columns() const;
};

// "tacksquare: error: --units cm: ..." and, on a line of its own, what to do. Harmless where it is printed.
void tell_error(const std::string& message, const std::string& remedy, Console& console);

// "tacksquare: error: cannot write out/sheet.txt: ..." and what to do.
void tell(const FileFault& fault, Console& console);

// Exit codes, as the man page has them.
enum class Exit { done = 0, our_bug = 1, bad_input = 2, limit_likely_missed = 3 };

} // namespace tacksquare
