// What the mesh changes: boxes of the tests and whole plans of jobs, on nets of 50, 25 and 12.5 mm
// (docs/theory.md). Printed, never judged: bench_mesh [JOB.xml ...]
#include "elastic/stated_box.h"
#include "job/file/read_job.h"
#include "physics/elastic/expect.h"
#include "planning/planner/case_of.h"
#include "planning/planner/elastic_case.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <functional>
#include <iterator>
#include <string>
#include <utility>
#include <vector>

using namespace tacksquare;

namespace {

constexpr std::array<double, 3> kNets_mm = {50.0, 25.0, 12.5};
using Row = std::array<double, kNets_mm.size()>;

void print(const std::string& what, const Row& mm, double of) {
  const double moved = std::abs(mm[2] - mm[1]);
  std::printf("  %-44s %9.4f %9.4f %9.4f   %8.4f mm %6.1f %%", what.c_str(), mm[0], mm[1], mm[2], moved,
              100.0 * moved / std::abs(mm[2]));
  if (of > 0.0) std::printf("  %6.2f %% of %.4f", 100.0 * moved / of, of);
  std::printf("\n");
}

// On every net; nothing where one has no figures.
template <class Make> std::vector<elastic::Expectation> nets(Make make) {
  std::vector<elastic::Expectation> all;
  for (const double mesh_mm : kNets_mm) {
    auto e = make(mesh_mm);
    if (!e) return {};
    all.push_back(std::move(*e));
    all.back().model.reset();
  }
  return all;
}

// Under the loads of nodes that CalculiX has, too, on nets of one size: the sum of all steps.
void loaded(const test::StatedBox& box) {
  if (box.steps.size() < 2) return;
  std::printf("%s, diagonals under loads of nodes; in parts of the most that one step moves them, too\n",
              box.name.c_str());
  std::vector<Row> sums(box.figures.size());
  std::vector<double> most(box.figures.size());
  for (std::size_t n = 0; n < kNets_mm.size(); ++n) {
    elastic::ModelOptions options = test::joined_options(kNets_mm[n]);
    options.beside_tacks = true;
    for (const Eigen::VectorXd& step : test::solved_steps(box, options))
      for (std::size_t i = 0; i < sums.size(); ++i) {
        const double moved = step(static_cast<Eigen::Index>(i));
        sums[i][n] += moved;
        most[i] = std::max(most[i], std::abs(moved));
      }
  }
  for (std::size_t i = 0; i < sums.size(); ++i)
    if (box.figures[i].kind == elastic::FigureKind::diagonals) print(box.figures[i].id, sums[i], most[i]);
}

// Each seam shrinks as a sheet of 2 mm does; no misfit comes in. Diagonals at the end: what a plan would
// tell, and the two ends of the model by themselves, sums of steps that nearly cancel.
void stated(const test::StatedBox& box) {
  if (box.steps.size() < 2) return;
  std::printf("%s, diagonals at the end; sums in parts of the most that one tack or weld moves them, too\n",
              box.name.c_str());
  elastic::Making making;
  making.tacks = box.tacks;
  for (std::size_t i = 0; i < box.tacks.size(); ++i)
    making.events.push_back({elastic::Event::Kind::tack, i});
  for (const test::StatedStep& s : box.steps) {
    making.events.push_back({elastic::Event::Kind::weld, making.welds.size()});
    making.welds.push_back({s.seam, s.from_mm, s.to_mm});
  }
  making.seams.assign(box.box.seams.size(),
                      {{0.2, 0.14, 0.28}, {30000.0, 21000.0, 42000.0}, {0.005, 0.003, 0.007}});
  making.seam_scatter = 0.15;
  std::vector<std::string> names;
  for (const elastic::Figure& f : box.figures) {
    if (f.kind != elastic::FigureKind::diagonals) continue;
    making.watched.push_back({f, true});
    names.push_back(f.id);
  }
  const auto all = nets([&](double mesh_mm) {
    elastic::ModelOptions options;
    options.mesh_mm = mesh_mm;
    Diagnostics out;
    return elastic::expect(box.job, box.box, box.geometry, making, options, 1, out);
  });
  if (all.empty()) return void(std::printf("  no figures\n"));
  for (std::size_t i = 0; i < names.size(); ++i) {
    using At = elastic::ExpectedMoment;
    // of: what of a moment; sum: against the most that one tack or weld moves it on the finest net.
    const auto put = [&](const std::string& what, bool sum, const std::function<double(const At&)>& of) {
      Row row{};
      for (std::size_t n = 0; n < row.size(); ++n)
        row[n] = of(all[n].moments.back());
      double most = 0.0, before = 0.0;
      for (const At& at : all.back().moments)
        most = std::max(most, std::abs(of(at) - std::exchange(before, of(at))));
      print(what, row, sum ? most : 0.0);
    };
    put(names[i] + " median", false, [&](const At& at) { return at.mm[i].value; });
    put("    high", false, [&](const At& at) { return at.mm[i].high; });
    put("    tacks kept", true, [&](const At& at) { return at.tacks_kept[i]; });
    put("    tacks melted", true, [&](const At& at) { return at.tacks_remelted[i]; });
  }
}

void planned(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  const std::string xml{std::istreambuf_iterator<char>(file), {}};
  JobReading reading = read_job(xml);
  Diagnostics faults;
  if (!reading.job) return void(std::printf("%s cannot be read\n", path.c_str()));
  const auto box = case_of(*reading.job, 0, std::nullopt, faults);
  if (!box) return void(std::printf("%s cannot be planned\n", path.c_str()));
  ElasticCase made = elastic_case(*box);
  std::printf("%s (plans use %g mm)\n", path.c_str(), made.options.mesh_mm);
  const auto all = nets([&](double mesh_mm) {
    made.options.mesh_mm = mesh_mm;
    return elastic::expect(box->job, box->box, box->geometry, made.making, made.options, 1, faults);
  });
  if (all.empty()) return void(std::printf("  no figures\n"));
  const auto row = [&](auto of) {
    Row r{};
    for (std::size_t n = 0; n < r.size(); ++n)
      r[n] = of(all[n].moments.back());
    return r;
  };
  for (std::size_t i = 0; i < made.measure.size(); ++i) {
    const Measure& m = box->work.measures[made.measure[i]];
    if (m.kind == MeasureKind::wall_lean) continue;
    const double wide =
        std::max(std::abs(all[2].moments.back().mm[i].low), std::abs(all[2].moments.back().mm[i].high));
    print(m.id + " median", row([&](const auto& at) { return at.mm[i].value; }), wide);
    print("    low", row([&](const auto& at) { return at.mm[i].low; }), wide);
    print("    high", row([&](const auto& at) { return at.mm[i].high; }), wide);
    print("    tacks kept", row([&](const auto& at) { return at.tacks_kept[i]; }), wide);
    print("    tacks melted", row([&](const auto& at) { return at.tacks_remelted[i]; }), wide);
  }
}

} // namespace

int main(int argc, char** argv) {
  if (argc == 1)
    for (const test::StatedBox& box : test::stated_boxes()) {
      loaded(box);
      stated(box);
    }
  for (int i = 1; i < argc; ++i)
    planned(argv[i]);
  return 0;
}
