#include "cli/run.h"

#include "base/suggest.h"
#include "cli/commands.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <ostream>

namespace tacksquare {
namespace {

constexpr const char* kAbout = "Plans the tacks, the welds and the grinding of sheet-metal boxes that must\n"
                               "close up square and to size. Reads a job file (XML) and writes a numbered\n"
                               "sheet for the one who welds and the one who grinds.\n";

constexpr const char* kExamples =
    "Examples:\n"
    "  tacksquare start --width \"400 mm\" --height \"600 mm\" locker.xml\n"
    "  tacksquare inspect locker.xml\n"
    "  tacksquare plan locker.xml -o out   sheet and files in the folder out\n"
    "  tacksquare check locker.xml out/plan.xml   what a plan breaks\n"
    "  tacksquare plan - --units inch-fractions < locker.xml | less\n"
    "\n"
    "Exit codes: 0 done; 1 a bug of ours; 2 bad input or usage; 3 planned, but a\n"
    "limit is more likely missed than kept, or a red caution stands; or a plan that\n"
    "was checked breaks a rule. Figures are starting points for a trial coupon:\n"
    "local codes, a qualified procedure and licensed practice come first.";

const std::map<std::string, UnitSystem> kUnits = {{"metric", UnitSystem::metric},
                                                  {"inch", UnitSystem::inch_decimal},
                                                  {"inch-fractions", UnitSystem::inch_fractions}};
const std::map<std::string, std::string> kLanguages = {{"en-GB", "en-GB"}, {"en-US", "en-US"}};
const std::map<std::string, std::string> kForms = {{"text", "text"}, {"html", "html"}, {"xml", "xml"}};

struct Options {
  PlanOptions plan;
  CheckOptions check;
  InspectOptions inspect;
  StartOptions start;
  std::vector<std::string> faults; // of the command line, all that there are
};

std::string did_you_mean(const std::string& word, const std::vector<std::string>& among) {
  const auto near = closest(word, among);
  return near ? fmt::format("; did you mean {}?", *near) : "";
}

// One word of a few.
template <class Value>
void add_choice(CLI::App& command, const std::string& name, const std::string& help,
                const std::map<std::string, Value>& choices, Value& chosen,
                std::vector<std::string>& faults) {
  const auto choose = [&choices, &chosen, &faults, name](const std::string& word) {
    const auto found = choices.find(word);
    if (found != choices.end()) {
      chosen = found->second;
      return;
    }
    std::vector<std::string> words;
    for (const auto& choice : choices)
      words.push_back(choice.first);
    faults.push_back(fmt::format("{} {}: it is one of {}{}", name, word, fmt::join(words, ", "),
                                 did_you_mean(word, words)));
  };
  command.add_option_function<std::string>(name, choose, help)->type_name("WORD");
}

void add_sheet_options(CLI::App& command, SheetOptions& sheet, std::vector<std::string>& faults) {
  add_choice(command, "--units", "metric, inch (decimals) or inch-fractions", kUnits, sheet.units, faults);
  add_choice(command, "--words", "shop words: en-GB or en-US", kLanguages, sheet.language, faults);
}

CLI::App* add_plan(CLI::App& app, Options& options) {
  CLI::App* command = app.add_subcommand("plan", "plan the job and write its sheet");
  command->add_option("JOB", options.plan.job, "job file, or - for standard input")
      ->required()
      ->type_name("");
  command->add_option("-o,--into", options.plan.folder, "folder for sheet, plan and blanks; else see --form")
      ->type_name("DIR")
      ->each([&faults = options.faults](const std::string& folder) {
        if (folder.empty()) faults.push_back("-o names no folder");
      });
  add_choice(*command, "--form", "on standard output: text, html or xml", kForms, options.plan.form,
             options.faults);
  command->add_option("--order", options.plan.orders, "of the seams, as the shop welds: \"S1 S3 S2 S4\"")
      ->type_name("SEAMS")
      ->type_size(1)
      ->allow_extra_args(false); // else what follows it would be taken for another one
  command->add_flag("--quick", options.plan.quick, "closed forms alone: no figures step by step");
  command->add_flag("--shapes", options.plan.shapes, "with -o: the welded boxes as shape-*.vtu");
  add_sheet_options(*command, options.plan.sheet, options.faults);
  return command;
}

CLI::App* add_check(CLI::App& app, CheckOptions& check) {
  CLI::App* command = app.add_subcommand("check", "tell which of its rules a plan breaks");
  command->add_option("JOB", check.job, "job file, or - for standard input")->required()->type_name("");
  command->add_option("PLAN", check.plan, "plan.xml, as plan wrote it or as it stands now")
      ->required()
      ->type_name("");
  return command;
}

CLI::App* add_inspect(CLI::App& app, Options& options) {
  CLI::App* command = app.add_subcommand("inspect", "show what was read, short forms written out");
  command->add_option("JOB", options.inspect.job, "job file, or - for standard input")
      ->required()
      ->type_name("");
  command->add_flag("--long", options.inspect.long_form, "as a job file with every face and seam");
  add_sheet_options(*command, options.inspect.sheet, options.faults);
  return command;
}

CLI::App* add_start(CLI::App& app, StartOptions& options) {
  CLI::App* command = app.add_subcommand("start", "write a starter job to change with an editor");
  StarterOptions& starter = options.starter;
  const auto add = [command](const char* name, std::string& value, const char* help, const char* type) {
    command->add_option(name, value, help)->type_name(type);
  };
  add("FILE", options.file, "where it goes; without it standard output", "");
  add("--name", starter.name, "name of the box", "NAME");
  add("--box", starter.form, "open or closed", "WORD");
  add("--width", starter.width, "outside, left to right: \"400 mm\"", "LENGTH");
  add("--height", starter.height, "outside, under to top", "LENGTH");
  add("--depth", starter.depth, "outside, front to back", "LENGTH");
  add("--metal", starter.metal, "mild-steel, galvanized, 304, 5052 or 6061", "METAL");
  add("--thickness", starter.thickness, "of the sheet: \"2 mm\"", "LENGTH");
  add("--count", options.count, "how many of them", "N");
  add("--opening-width", starter.opening_width, "of the hard opening that they go into side by side",
      "LENGTH");
  command->add_flag("--replace", options.replace, "write over an existing file");
  return command;
}

// Arguments that nothing takes. What follows an unknown word may belong to it and is not told.
void judge_extras(const CLI::App& app, std::vector<std::string>& faults) {
  const std::vector<std::string> extras = app.remaining(true);
  const auto is_option = [](const std::string& word) { return word.size() > 1 && word[0] == '-'; };
  const auto commands = app.get_subcommands();
  if (commands.empty() && !extras.empty() && !is_option(extras.front())) {
    faults.push_back(fmt::format("{} is no command{}", extras.front(),
                                 did_you_mean(extras.front(), {"plan", "check", "inspect", "start"})));
    return;
  }
  const CLI::App& command = commands.empty() ? app : *commands.front();
  std::vector<std::string> known;
  for (const CLI::Option* option : command.get_options())
    for (const std::string& name : option->get_lnames())
      known.push_back("--" + name);
  const bool unknown = std::any_of(extras.begin(), extras.end(), is_option);
  for (const std::string& word : extras) {
    if (is_option(word))
      faults.push_back(
          fmt::format("{} is no option of {}{}", word, command.get_name(), did_you_mean(word, known)));
    else if (!unknown)
      faults.push_back(fmt::format("{} is one argument too many", word));
  }
}

int tell_usage(const Options& options, const CLI::App& app, Console& console) {
  for (std::size_t i = 0; i < options.faults.size(); ++i) {
    const auto commands = app.get_subcommands();
    const bool last = i + 1 == options.faults.size();
    tell_error(options.faults[i],
               last ? fmt::format("tacksquare{} --help shows what there is",
                                  commands.empty() ? "" : " " + commands.front()->get_name())
                    : "",
               console);
  }
  return static_cast<int>(Exit::bad_input);
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
  const CLI::App* plan = add_plan(app, options);
  const CLI::App* check = add_check(app, options.check);
  const CLI::App* inspect = add_inspect(app, options);
  const CLI::App* start = add_start(app, options.start);
  try {
    std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
    app.parse(reversed);
  } catch (const CLI::Success& help) {
    return app.exit(help, console.out, console.err);
  } catch (const CLI::ExtrasError&) {
    judge_extras(app, options.faults);
  } catch (const CLI::ParseError& error) {
    judge_extras(app, options.faults);
    options.faults.emplace_back(error.what());
  }
  if (plan->count("--form") > 0 && !options.plan.folder.empty() && options.plan.folder != "-")
    options.faults.push_back(
        fmt::format("--form {0} is for standard output, and -o {1} writes all three forms: "
                    "leave out one of the two",
                    options.plan.form, options.plan.folder));
  if (options.plan.shapes && (options.plan.folder.empty() || options.plan.folder == "-"))
    options.faults.emplace_back("--shapes writes files: say with -o into which folder");
  if (options.plan.shapes && options.plan.quick)
    options.faults.emplace_back("--quick computes no shapes: leave out --quick or --shapes");
  if (!options.faults.empty()) return tell_usage(options, app, console);
  if (plan->parsed()) return static_cast<int>(plan_command(options.plan, console));
  if (check->parsed()) return static_cast<int>(check_command(options.check, console));
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
