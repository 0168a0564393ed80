#include "cli/run.h"

#include <csignal>
#include <cstdlib>
#include <iostream>
#include <sys/ioctl.h>
#include <unistd.h>

namespace {

int columns_of_terminal() {
  winsize size{};
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return size.ws_col;
  return 80;
}

} // namespace

int main(int argc, char** argv) {
  using namespace tacksquare;
  std::ios::sync_with_stdio(false);
  // A reader that has gone, or a limit on the length of files, is told as a fault instead of an end on the
  // spot, which would leave half-written files.
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
  DiskFiles files;
  Console console{std::cin, std::cout, std::cerr, files};
  console.in_is_terminal = isatty(STDIN_FILENO) != 0;
  console.out_is_terminal = isatty(STDOUT_FILENO) != 0;
  console.err_is_terminal = isatty(STDERR_FILENO) != 0;
  const char* no_colour = std::getenv("NO_COLOR"); // any text that is not empty, no-color.org
  console.colour = console.err_is_terminal && (no_colour == nullptr || *no_colour == '\0');
  if (console.out_is_terminal) console.columns = columns_of_terminal();
  const int code = run(std::vector<std::string>(argv + 1, argv + argc), console);
  std::cout.flush();
  if (!std::cout) {
    std::cerr << "tacksquare: error: standard output could not be written\n"
                 "  free some space, or let what reads it read to the end\n";
    return static_cast<int>(Exit::bad_input);
  }
  return code;
}
