// The whole program: each sample as a cold process against a process that does nothing, growth of planning
// with the boxes of a job and with the seams of a box, and a hundred closed boxes in one job.
#include "job/file/read_job.h"
#include "plan/file/plan_file.h"
#include "planning/planner/make_plan.h"
#include "sheet/document.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <fstream>
#include <iterator>
#include <spawn.h>
#include <string>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

using namespace tacksquare;

namespace {

struct Cost {
  double wall_ms = 0.0;
  double cpu_ms = 0.0; // user and system
};

double in_ms(const timeval& t) {
  return static_cast<double>(t.tv_sec) * 1e3 + static_cast<double>(t.tv_usec) / 1e3;
}

double cpu_ms(int who) {
  rusage usage{};
  getrusage(who, &usage);
  return in_ms(usage.ru_utime) + in_ms(usage.ru_stime);
}

template <class Work> Cost cost_of(Work work, int who = RUSAGE_SELF) {
  const double before = cpu_ms(who);
  const auto from = std::chrono::steady_clock::now();
  work();
  return {std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - from).count(),
          cpu_ms(who) - before};
}

// The quickest of some runs: what a busy machine adds is no property of the program.
template <class Work> Cost least_of(int runs, Work work, int who = RUSAGE_SELF) {
  Cost least = cost_of(work, who);
  for (int i = 1; i < runs; ++i) {
    const Cost cost = cost_of(work, who);
    least = {std::min(least.wall_ms, cost.wall_ms), std::min(least.cpu_ms, cost.cpu_ms)};
  }
  return least;
}

void run_program(std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), TACKSQUARE_BINARY);
  std::vector<char*> pointers;
  for (std::string& argument : arguments)
    pointers.push_back(argument.data());
  pointers.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  int status = 0;
  if (posix_spawn(&child, TACKSQUARE_BINARY, &actions, nullptr, pointers.data(), environ) != 0 ||
      waitpid(child, &status, 0) != child || !WIFEXITED(status) ||
      (WEXITSTATUS(status) != 0 && WEXITSTATUS(status) != 3)) {
    std::fprintf(stderr, "the program could not be run\n");
    std::exit(1);
  }
  posix_spawn_file_actions_destroy(&actions);
}

std::string sample(const std::string& name) {
  std::ifstream in(std::string(TACKSQUARE_SOURCE) + "/samples/" + name + ".xml", std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

// By closed forms alone.
Plan plan_of(const std::string& text) {
  JobReading reading = read_job(text);
  std::optional<Plan> plan;
  if (reading.job) plan = make_plan(*reading.job, reading.diagnostics, true);
  if (plan) return std::move(*plan);
  std::fputs(print_diagnostics(reading.diagnostics, "job", text, false).c_str(), stderr);
  std::exit(1);
}

void samples() {
  const Cost nothing = least_of(
      20, [] { run_program({"--version"}); }, RUSAGE_CHILDREN);
  std::printf("each sample as a process of its own, least of 20 runs by closed forms (target 100 ms), of 3 "
              "with the elastic box\n%-15s %8s %8s %22s %12s\n",
              "sample", "wall ms", "CPU ms", "times of --version CPU", "elastic CPU");
  for (const char* name : {"gear-locker", "ballast-float", "battery-box", "divided-tray"}) {
    const std::string path = std::string(TACKSQUARE_SOURCE) + "/samples/" + name + ".xml";
    const Cost cost = least_of(
        20,
        [&] {
          run_program({"plan", path, "--quick"});
        },
        RUSAGE_CHILDREN);
    const Cost elastic = least_of(
        3,
        [&] {
          run_program({"plan", path});
        },
        RUSAGE_CHILDREN);
    std::printf("%-15s %8.1f %8.1f %22.1f %12.1f\n", name, cost.wall_ms, cost.cpu_ms,
                cost.cpu_ms / nothing.cpu_ms, elastic.cpu_ms);
  }
}

void parts_of_a_run() {
  std::printf("\nwhere the time goes in one process, CPU ms, least of 10\n%-15s %8s %8s %8s %8s %8s\n",
              "sample", "read", "plan", "text", "html", "xml");
  for (const char* name : {"gear-locker", "ballast-float", "battery-box", "divided-tray"}) {
    const std::string text = sample(name);
    const JobReading reading = read_job(text);
    const Plan plan = plan_of(text);
    const Document document = make_document(plan, SheetOptions{});
    const auto cpu = [](auto work) { return least_of(10, work).cpu_ms; };
    std::printf("%-15s %8.2f %8.2f %8.2f %8.2f %8.2f\n", name, cpu([&] { read_job(text); }), cpu([&] {
                  Diagnostics faults;
                  make_plan(*reading.job, faults, true);
                }),
                cpu([&] { write_text(make_document(plan, SheetOptions{}), 80); }),
                cpu([&] { write_html(document); }), cpu([&] { write_plan(plan); }));
  }
}

// The sample's box again and again, under other ids.
std::string copies_of_float(int copies) {
  const std::string text = sample("ballast-float");
  const auto from = text.find("  <box ");
  const auto end = text.find("</box>\n", from) + 7;
  std::string boxes;
  for (int i = 0; i < copies; ++i) {
    std::string box = text.substr(from, end - from);
    box.insert(box.find("id=\"float") + 9, fmt::format("-{}", i));
    boxes += box;
  }
  return text.substr(0, from) + boxes + text.substr(end);
}

void boxes() {
  std::printf(
      "\ngrowth with the boxes of a job, closed boxes of twelve seams, read and planned; target 2000 ms for "
      "100\n%6s %10s %14s\n",
      "boxes", "CPU ms", "ms for each");
  for (const int copies : {1, 10, 25, 50, 100}) {
    const std::string text = copies_of_float(copies);
    const Cost cost = least_of(copies < 25 ? 5 : 2, [&] { plan_of(text); });
    std::printf("%6d %10.1f %14.2f\n", copies, cost.cpu_ms, cost.cpu_ms / copies);
  }
  const std::string text = copies_of_float(100);
  const Cost all = cost_of([&] {
    const Plan plan = plan_of(text);
    const Document document = make_document(plan, SheetOptions{});
    write_text(document, 80);
    write_html(document);
    write_plan(plan);
  });
  std::printf("100 boxes with all three outputs: %.0f ms CPU, %.0f ms wall\n", all.cpu_ms, all.wall_ms);
}

// A tray with as many dividers as the seams ask for: each has three.
void seams() {
  std::printf("\ngrowth with the seams of one box: a tray with dividers, read and planned\n%6s %10s %14s\n",
              "seams", "CPU ms", "ms for a seam");
  for (const int dividers : {1, 2, 4, 8, 12}) {
    std::string text =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<tacksquare-job name=\"TRAY\">\n  <sheet id=\"s\" "
        "metal=\"mild-steel\" thickness=\"2 mm\"/>\n  <box id=\"tray\" name=\"TRAY\">\n    <open-box "
        "width=\"1300 mm\" depth=\"400 mm\" height=\"150 mm\" open=\"top\" made=\"folded\" "
        "inside-radius=\"2 mm\" corner=\"half-open-corner\" weld=\"square\" side=\"outside\" "
        "finish=\"flush\"/>\n";
    for (int i = 0; i < dividers; ++i)
      text += fmt::format("    <divider id=\"D{}\" across=\"width\" at=\"{} mm\" height=\"100 mm\" "
                          "weld=\"fillet\" leg=\"2 mm\"/>\n",
                          i + 1, 100 * (i + 1));
    text += "  </box>\n</tacksquare-job>\n";
    std::size_t count = 0;
    const Cost cost = least_of(2, [&] { count = plan_of(text).boxes.front().seams.size(); });
    std::printf("%6zu %10.1f %14.2f\n", count, cost.cpu_ms, cost.cpu_ms / static_cast<double>(count));
  }
}

} // namespace

int main() {
  samples();
  parts_of_a_run();
  boxes();
  seams();
}
