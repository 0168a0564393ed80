// How quick the fixture of a box is: of each sample, with weighing which pieces it does without and in what
// order it is tacked; without these, growth with the seams of a tray of many dividers.
#include "fixture/set_up.h"
#include "job/file/read_job.h"
#include "planning/fixture/plan_fixture.h"
#include "planning/planner/case_of.h"
#include "planning/planner/fixing.h"
#include "planning/planner/steps.h"
#include "planning/planner/tack_order.h"
#include "planning/planner/weigh_fixture.h"

#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <sys/resource.h>

using namespace tacksquare;

namespace {

double cpu_ms() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  const auto in_ms = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) * 1e3 + static_cast<double>(t.tv_usec) / 1e3;
  };
  return in_ms(usage.ru_utime) + in_ms(usage.ru_stime);
}

// The least of some runs: what a busy machine adds is no property of the program.
template <class Work> double least_ms(int runs, Work work) {
  double least = 1e300;
  for (int i = 0; i < runs; ++i) {
    const double before = cpu_ms();
    work();
    least = std::min(least, cpu_ms() - before);
  }
  return least;
}

double wall_ms() {
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now().time_since_epoch())
      .count();
}

// Each divider has three seams, the tray four.
std::string tray(int dividers) {
  constexpr double kWide_mm = 6000.0, kFirst_mm = 20.0;
  std::string text = fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<tacksquare-job name=\"TRAY\">\n  <sheet id=\"s\" "
      "metal=\"mild-steel\" thickness=\"2 mm\"/>\n  <box id=\"tray\" name=\"TRAY\">\n    <open-box "
      "width=\"{} mm\" depth=\"400 mm\" height=\"150 mm\" open=\"top\" made=\"folded\" "
      "inside-radius=\"2 mm\" corner=\"half-open-corner\" weld=\"square\" side=\"outside\" "
      "finish=\"flush\"/>\n",
      kWide_mm);
  for (int i = 1; i <= dividers; ++i)
    text += fmt::format("    <divider id=\"D{}\" across=\"width\" at=\"{} mm\" height=\"100 mm\" "
                        "weld=\"fillet\" leg=\"2 mm\"/>\n",
                        i, kFirst_mm + (kWide_mm - 2.0 * kFirst_mm) / (dividers + 1) * i);
  return text + "  </box>\n</tacksquare-job>\n";
}

[[noreturn]] void stop(const Diagnostics& faults, const std::string& text) {
  std::fputs(print_diagnostics(faults, "job", text, false).c_str(), stderr);
  std::exit(1);
}

struct Times {
  std::size_t seams = 0, tacks = 0, pieces = 0;
  double plan_ms = 0.0, set_up_ms = 0.0;
  double all_ms() const { return plan_ms + set_up_ms; }
};

Times times_of(int dividers, int runs) {
  const std::string text = tray(dividers);
  JobReading reading = read_job(text);
  if (!reading.job) stop(reading.diagnostics, text);
  const std::optional<BoxCase> box = case_of(*reading.job, 0, std::nullopt, reading.diagnostics);
  if (!box) stop(reading.diagnostics, text);
  const BoxMetal metal = metal_of(box->job, box->box, box->geometry);
  const fixture::Held held{box->job, box->box, box->geometry, metal, box->work.last_face};
  fixture::Course course{box->work, box->tacks, {}};
  for (const OrderedRun& run : box->order.runs)
    course.runs.push_back({run.run, box->geometry.attitudes[run.attitude].down_direction});
  Fixture planned;
  Times t;
  t.plan_ms = least_ms(
      runs, [&] { planned = plan_fixture(held, course, tacking_attitude(*box).down, box->hold(), 0); });
  t.set_up_ms = least_ms(runs, [&] {
    Diagnostics faults;
    if (!fixture::set_up(held, planned, course, true, faults)) stop(faults, text);
  });
  t.seams = box->work.seams.size();
  t.tacks = box->tacks.size();
  t.pieces = planned.pieces.size();
  return t;
}

// Each box as it stands in no row.
void samples() {
  std::printf(
      "each box of the samples, CPU ms; all of it: ms by the clock\n%-15s %-10s %7s %10s %10s %10s %10s\n",
      "sample", "box", "pieces", "fixture", "weighed", "tacks", "all of it");
  for (const char* name : {"gear-locker", "ballast-float", "battery-box", "divided-tray"}) {
    std::ifstream in(std::string(TACKSQUARE_SOURCE) + "/samples/" + name + ".xml", std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    JobReading reading = read_job(text);
    if (!reading.job) stop(reading.diagnostics, text);
    for (std::size_t i = 0; i < reading.job->boxes.size(); ++i) {
      std::optional<BoxCase> box = case_of(*reading.job, i, std::nullopt, reading.diagnostics);
      if (!box) stop(reading.diagnostics, text);
      Diagnostics faults;
      const double planned = least_ms(5, [&] { fix(*box, faults); });
      const std::size_t pieces = box->fixed().fixture.pieces.size();
      const double began = wall_ms();
      const double weighed = least_ms(1, [&] {
        if (const std::optional<FewPieces> few = weigh_fixture(*box)) hold_by(*few, *box);
      });
      const double tacks = least_ms(1, [&] { order_tacks(*box); });
      std::printf("%-15s %-10s %7zu %10.2f %10.1f %10.1f %10.1f\n", name, box->box.id.c_str(), pieces,
                  planned, weighed, tacks, planned + wall_ms() - began);
    }
  }
  std::printf("\n");
}

} // namespace

int main() {
  samples();
  std::printf("a tray with dividers, CPU ms; growth: power of the seams since the line before\n"
              "%6s %7s %7s %10s %10s %8s\n",
              "seams", "tacks", "pieces", "plan ms", "set up ms", "growth");
  std::optional<Times> before;
  for (const int dividers : {1, 3, 10, 32, 100, 332}) {
    const Times t = times_of(dividers, dividers < 50 ? 5 : 2);
    std::printf("%6zu %7zu %7zu %10.2f %10.2f", t.seams, t.tacks, t.pieces, t.plan_ms, t.set_up_ms);
    if (before)
      std::printf(" %8.2f", std::log(t.all_ms() / before->all_ms()) /
                                std::log(static_cast<double>(t.seams) / static_cast<double>(before->seams)));
    std::printf("\n");
    std::fflush(stdout);
    before = t;
  }
}
