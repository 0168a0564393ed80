#include "cli/run.h"

#include "base/diagnostic.h"
#include "cli/commands.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <map>
#include <ostream>

namespace tacksquare {
namespace {

constexpr const char* kAbout =
    "Plans the tacks, the welds and the grinding of sheet-metal boxes that must close up square and to "
    "size.\n"
    "Reads a job file (XML) and writes a numbered sheet for the one who welds and the one who grinds.";

constexpr const char* kExamples =
    "Examples:\n"
    "  tacksquare start --box open --width \"400 mm\" --height \"600 mm\" --depth \"300 mm\" locker.xml\n"
    "  tacksquare inspect locker.xml\n"
    "  tacksquare plan locker.xml -o out          writes out/sheet.html, out/sheet.txt, out/plan.xml\n"
    "  tacksquare plan - --units inch-fractions < locker.xml | less\n"
    "\n"
    "Exit codes: 0 done; 1 a bug of ours; 2 bad input or usage; 3 planned, but a limit is more likely "
    "missed\n"
    "than kept. Figures are starting points for a trial coupon: local codes, a qualified procedure and "
    "licensed\n"
    "practice come first.";

const std::map<std::string, UnitSystem> kUnits = {{"metric", UnitSystem::metric},
                                                  {"inch", UnitSystem::inch_decimal},
                                                  {"inch-fractions", UnitSystem::inch_fractions}};

void add_sheet_options(CLI::App& command, SheetOptions& sheet) {
  command.add_option("--units", sheet.units, "metric, inch (decimals) or inch-fractions")
      ->transform(CLI::CheckedTransformer(kUnits).description(""))
      ->option_text("UNITS");
  command.add_option("--words", sheet.language, "shop words: en-GB or en-US")
      ->check(CLI::IsMember({"en-GB", "en-US"}).description(""))
      ->option_text("LANGUAGE");
}

struct Options {
  PlanOptions plan;
  InspectOptions inspect;
  StartOptions start;
};

CLI::App* add_plan(CLI::App& app, PlanOptions& options) {
  CLI::App* command = app.add_subcommand("plan", "plan the job and write its sheet");
  command->add_option("JOB", options.job, "job file, or - for standard input")->required();
  command
      ->add_option(
          "-o,--into", options.folder,
          "folder for sheet.html, sheet.txt and plan.xml; without it one form goes to standard output")
      ->option_text("DIR");
  command->add_option("--form", options.form, "form on standard output: text, html or xml")
      ->check(CLI::IsMember({"text", "html", "xml"}).description(""))
      ->option_text("FORM");
  add_sheet_options(*command, options.sheet);
  return command;
}

CLI::App* add_inspect(CLI::App& app, InspectOptions& options) {
  CLI::App* command =
      app.add_subcommand("inspect", "show what was read from the job, short forms written out");
  command->add_option("JOB", options.job, "job file, or - for standard input")->required();
  command->add_flag("--long", options.long_form, "as a job file that states every face, bend and seam");
  add_sheet_options(*command, options.sheet);
  return command;
}

CLI::App* add_start(CLI::App& app, StartOptions& options) {
  CLI::App* command = app.add_subcommand("start", "write a starter job to change with an editor");
  StarterOptions& starter = options.starter;
  command->add_option("FILE", options.file, "where it goes; - or nothing for standard output");
  command->add_option("--name", starter.name, "name of the box")->option_text("NAME");
  command->add_option("--box", starter.form, "open or closed")
      ->check(CLI::IsMember({"open", "closed"}).description(""))
      ->option_text("FORM");
  command->add_option("--width", starter.width, "outside, left to right, with its unit: \"400 mm\"")
      ->option_text("LENGTH");
  command->add_option("--height", starter.height, "outside, under to top")->option_text("LENGTH");
  command->add_option("--depth", starter.depth, "outside, front to back")->option_text("LENGTH");
  command->add_option("--metal", starter.metal, "mild-steel, galvanized, 304, 5052 or 6061")
      ->option_text("METAL");
  command->add_option("--thickness", starter.thickness, "of the sheet: \"2 mm\"")->option_text("LENGTH");
  command->add_option("--count", starter.count, "how many of them")->option_text("N");
  command->add_flag("--replace", options.replace, "write over an existing file");
  return command;
}

// Run bare: not one of its options or arguments was given.
bool said_nothing(const CLI::App& command) {
  const auto options = command.get_options();
  return std::all_of(options.begin(), options.end(),
                     [](const CLI::Option* option) { return option->count() == 0; });
}

int dispatch(const std::vector<std::string>& arguments, Console& console) {
  CLI::App app(kAbout, "tacksquare");
  app.footer(kExamples);
  app.require_subcommand(0, 1);
  app.set_version_flag("--version", "tacksquare " TACKSQUARE_VERSION);
  Options options;
  const CLI::App* plan = add_plan(app, options.plan);
  const CLI::App* inspect = add_inspect(app, options.inspect);
  const CLI::App* start = add_start(app, options.start);
  try {
    std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
    app.parse(reversed);
  } catch (const CLI::ParseError& error) {
    const int code = app.exit(error, console.out, console.err);
    return code == 0 ? 0 : static_cast<int>(Exit::bad_input);
  }
  if (plan->parsed()) return static_cast<int>(plan_command(options.plan, console));
  if (inspect->parsed()) return static_cast<int>(inspect_command(options.inspect, console));
  if (start->parsed()) {
    options.start.ask = console.in_is_terminal && console.out_is_terminal && said_nothing(*start);
    return static_cast<int>(start_command(options.start, console));
  }
  console.err << app.help();
  return static_cast<int>(Exit::bad_input);
}

} // namespace

int run(const std::vector<std::string>& arguments, Console& console) {
  try {
    return dispatch(arguments, console);
  } catch (const std::exception& bug) {
    console.err << "tacksquare: this is a bug of ours, not of your job: " << bug.what()
                << "\n  please keep the job file and tell us\n";
    return static_cast<int>(Exit::our_bug);
  }
}

} // namespace tacksquare
