#include "cli/commands.h"

#include "base/quantity.h"
#include "job/file/read_job.h"
#include "tables/metals.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <istream>
#include <ostream>

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

std::string any(const std::string&) {
  return "";
}

// Asks until the answer will do; an empty answer, or the end of input, keeps what stands in brackets.
std::string ask(Console& console, const std::string& question, const std::string& usual, const Judge& judge) {
  for (;;) {
    console.err << question << " [" << usual << "]: " << std::flush;
    std::string answer;
    if (!std::getline(console.in, answer)) {
      console.err << "\n";
      return usual;
    }
    answer.erase(answer.find_last_not_of(" \t\r") + 1);
    answer.erase(0, std::min(answer.find_first_not_of(" \t"), answer.size()));
    if (answer.empty()) return usual;
    const std::string wrong = judge(answer);
    if (wrong.empty()) return answer;
    console.err << "  " << wrong << "\n";
  }
}

void ask_all(StartOptions& options, Console& console) {
  StarterOptions& starter = options.starter;
  starter.name = ask(console, "Name of the box", starter.name, any);
  starter.form = ask(console, "Open or closed", starter.form, judge_form);
  starter.width = ask(console, "Width, outside, left to right", starter.width, judge_length);
  starter.height = ask(console, "Height, under to top", starter.height, judge_length);
  starter.depth = ask(console, "Depth, front to back", starter.depth, judge_length);
  starter.metal = ask(console, "Metal", starter.metal, judge_metal);
  starter.thickness = ask(console, "Thickness of the sheet", starter.thickness, judge_length);
  starter.count =
      std::get<int>(parse_count(ask(console, "How many", std::to_string(starter.count), judge_count)));
  options.file = ask(console, "File", "box.xml", any);
}

// Every fault of the options in one go.
bool options_will_do(const StarterOptions& starter, Console& console) {
  const std::vector<std::pair<std::string, std::string>> faults = {
      {"--width " + starter.width, judge_length(starter.width)},
      {"--height " + starter.height, judge_length(starter.height)},
      {"--depth " + starter.depth, judge_length(starter.depth)},
      {"--thickness " + starter.thickness, judge_length(starter.thickness)},
      {"--metal " + starter.metal, judge_metal(starter.metal)},
      {fmt::format("--count {}", starter.count), starter.count >= 1 ? "" : "at least one"}};
  bool good = true;
  for (const auto& [option, fault] : faults) {
    if (fault.empty()) continue;
    console.err << "tacksquare: error: " << option << ": " << fault << "\n";
    good = false;
  }
  return good;
}

} // namespace

Exit start_command(const StartOptions& said, Console& console) {
  StartOptions options = said;
  if (options.ask)
    ask_all(options, console);
  else if (!options_will_do(options.starter, console))
    return Exit::bad_input;
  const std::string text = starter_job(options.starter);
  if (options.file.empty() || options.file == "-") {
    console.out << text;
    return Exit::done;
  }
  const bool exists = std::holds_alternative<std::string>(console.files.read(options.file, kLargestJobFile));
  if (exists && !options.replace) {
    console.err << fmt::format("tacksquare: error: {} exists and was left as it is\n"
                               "  give another name, or --replace to write over it\n",
                               options.file);
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
