// The commands. Each writes whole files or none and tells all that is wrong in one run.
#pragma once

#include "cli/console.h"
#include "job/file/start.h"
#include "sheet/document.h"

#include <string>
#include <vector>

namespace tacksquare {

struct PlanOptions {
  std::string job;
  std::string folder;              // empty or "-": one form on standard output
  std::string form = "text";       // "text", "html" or "xml", for standard output
  bool quick = false;              // by closed forms alone
  bool shapes = false;             // the welded boxes for viewers, too
  std::vector<std::string> orders; // the shop's own of the seams, each as it was given
  SheetOptions sheet;
};
Exit plan_command(const PlanOptions& options, Console& console);

struct CheckOptions {
  std::string job;
  std::string plan; // as the plan command wrote it, or as it was changed since
};
Exit check_command(const CheckOptions& options, Console& console);

struct InspectOptions {
  std::string job;
  bool long_form = false; // the job as XML with every face, bend and seam written out
  SheetOptions sheet;
};
Exit inspect_command(const InspectOptions& options, Console& console);

struct StartOptions {
  StarterOptions starter;
  std::string count = "1"; // as given; goes into starter when it will do
  std::string file;        // empty or "-": standard output
  bool replace = false;    // an existing file
  bool ask = false;        // for what the options left open
};
Exit start_command(const StartOptions& options, Console& console);

} // namespace tacksquare
