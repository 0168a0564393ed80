#include "cli/commands.h"

#include "base/quantity.h"
#include "job/file/read_job.h"
#include "planning/planner/make_plan.h"
#include "tables/metals.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <istream>
#include <ostream>
#include <set>

namespace tacksquare {
namespace {

// What is wrong with an answer; empty when it will do.
using Judge = std::function<std::string(const std::string&)>;

std::string judge_length(const std::string& answer) {
  const auto parsed = parse_length(answer);
  if (const auto* fault = std::get_if<ParseFault>(&parsed)) return fault->message + "; " + fault->remedy;
  return in_mm(std::get<Length>(parsed)) > 0.0 ? "" : "it must be more than nothing";
}

std::string judge_metal(const std::string& answer) {
  if (find_metal(answer)) return "";
  return fmt::format("the metals built in are {}", fmt::join(built_in_metal_ids(), ", "));
}

std::string judge_form(const std::string& answer) {
  return answer == "open" || answer == "closed" ? "" : "open or closed";
}

std::string judge_count(const std::string& answer) {
  const auto parsed = parse_count(answer);
  if (const auto* fault = std::get_if<ParseFault>(&parsed)) return fault->message;
  return std::get<int>(parsed) >= 1 ? "" : "at least one";
}

std::string judge_opening(const std::string& answer) {
  return answer == "none" ? "" : judge_length(answer);
}

std::string any(const std::string&) {
  return "";
}

// Asks until the answer will do; an empty one keeps what stands there. False at the end of input: who ends it
// there wants no file.
bool ask(Console& console, const std::string& question, std::string& value, const Judge& judge) {
  for (;;) {
    console.err << question << " [" << value << "]: " << std::flush;
    std::string answer;
    if (!std::getline(console.in, answer)) {
      console.err << "\n";
      return false;
    }
    answer.erase(answer.find_last_not_of(" \t\r") + 1);
    answer.erase(0, std::min(answer.find_first_not_of(" \t"), answer.size()));
    if (answer.empty()) return true;
    const std::string wrong = judge(answer);
    if (wrong.empty()) {
      value = answer;
      return true;
    }
    console.err << "  " << wrong << "\n";
  }
}

bool ask_all(StartOptions& options, Console& console) {
  StarterOptions& starter = options.starter;
  options.file = "box.xml";
  return ask(console, "Name of the box", starter.name, any) &&
         ask(console, "Open or closed", starter.form, judge_form) &&
         ask(console, "Width, outside, left to right", starter.width, judge_length) &&
         ask(console, "Height, under to top", starter.height, judge_length) &&
         ask(console, "Depth, front to back", starter.depth, judge_length) &&
         ask(console, "Metal", starter.metal, judge_metal) &&
         ask(console, "Thickness of the sheet", starter.thickness, judge_length) &&
         ask(console, "How many", options.count, judge_count) &&
         ask(console, "Width of the hard opening that they go into", starter.opening_width, judge_opening) &&
         ask(console, "File", options.file, any);
}

// Every fault of the options in one go.
bool options_will_do(const StartOptions& options, Console& console) {
  const StarterOptions& starter = options.starter;
  const std::vector<std::pair<std::string, std::string>> faults = {
      {"--box " + starter.form, judge_form(starter.form)},
      {"--width " + starter.width, judge_length(starter.width)},
      {"--height " + starter.height, judge_length(starter.height)},
      {"--depth " + starter.depth, judge_length(starter.depth)},
      {"--thickness " + starter.thickness, judge_length(starter.thickness)},
      {"--metal " + starter.metal, judge_metal(starter.metal)},
      {"--count " + options.count, judge_count(options.count)},
      {"--opening-width " + starter.opening_width, judge_opening(starter.opening_width)}};
  bool good = true;
  for (const auto& [option, fault] : faults) {
    if (fault.empty()) continue;
    tell_error(option + ": " + fault, "", console);
    good = false;
  }
  return good;
}

// A starter that cannot be planned is no start: each size may do and still not go with the others.
bool can_be_planned(const std::string& text, Console& console) {
  JobReading reading = read_job(text);
  if (reading.job) make_plan(*reading.job, reading.diagnostics, true);
  std::set<std::string> told; // the name stands in the job twice
  for (const Diagnostic& fault : reading.diagnostics.items())
    if (fault.severity == Severity::error && told.insert(fault.message).second)
      tell_error(fault.message, fault.remedy, console);
  return told.empty();
}

} // namespace

Exit start_command(const StartOptions& said, Console& console) {
  StartOptions options = said;
  if (options.ask && !ask_all(options, console)) {
    tell_error("the questions were not answered to the end, so nothing was written", "", console);
    return Exit::bad_input;
  }
  if (!options_will_do(options, console)) return Exit::bad_input;
  options.starter.count = std::get<int>(parse_count(options.count));
  const std::string text = starter_job(options.starter);
  if (!can_be_planned(text, console)) return Exit::bad_input;
  if (options.file.empty() || options.file == "-") {
    console.out << text;
    return Exit::done;
  }
  if (!options.replace && console.files.exists(options.file)) {
    tell_error(options.file + " exists and was left as it is",
               "give another name, or --replace to write over it", console);
    return Exit::bad_input;
  }
  if (const auto fault = console.files.write_all({{options.file, text}})) {
    tell(*fault, console);
    return Exit::bad_input;
  }
  console.out << fmt::format(
      "{0} written. Look at it, then:\n  tacksquare inspect {0}\n  tacksquare plan {0} -o out\n",
      options.file);
  return Exit::done;
}

} // namespace tacksquare
