// Orders of seams: a table of twelve, the proof, orders a second, against trying all orders and, where glpsol
// is there, against a mixed integer program; then a box of more seams than a table holds. Printed, never
// judged.
#include "base/random.h"
#include "elastic/stated_box.h"
#include "job/file/read_job.h"
#include "physics/elastic/reduced.h"
#include "physics/elastic/step_table.h"
#include "planning/planner/case_of.h"
#include "planning/planner/order_model.h"
#include "planning/search/set_search.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fmt/format.h>
#include <numeric>
#include <string>

using namespace tacksquare;
using namespace tacksquare::elastic;

namespace {

template <class Work> double milliseconds(Work work) {
  const auto from = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - from).count();
}

// The stated closed box, its twelve seams as one group; every figure has a limit of 0.5 mm.
SetProblem problem_of(const TackedBox& box, const StepTable& table, std::size_t scenarios) {
  constexpr double kLimit_mm = 0.5;
  Random random(7);
  SetProblem p;
  p.rows = box.measures.size();
  p.kinds = 3;
  p.scenarios = scenarios;
  p.start.assign(p.rows * scenarios, 0.0);
  SetGroup group;
  group.units = table.seams;
  group.after.resize(group.units);
  group.steps.assign(table.steps.size() * 3 * p.rows, 0.0);
  for (std::size_t i = 0; i < table.steps.size(); ++i)
    for (Index kind = 0; table.steps[i].size() > 0 && kind < 3; ++kind)
      for (std::size_t row = 0; row < p.rows; ++row)
        group.steps[(i * 3 + static_cast<std::size_t>(kind)) * p.rows + row] =
            table.steps[i](static_cast<Index>(row), kind) / kLimit_mm;
  group.amounts.resize(group.units * 3 * scenarios);
  const double usual[] = {0.2, 15000.0, 0.01};
  for (std::size_t s = 0; s < scenarios; ++s) {
    const double job = scenarios == 1 ? 1.0 : 1.0 + 0.2 * random.normal();
    for (std::size_t unit = 0; unit < group.units; ++unit) {
      const double own = scenarios == 1 ? 1.0 : 1.0 + 0.09 * random.normal();
      for (std::size_t kind = 0; kind < 3; ++kind)
        group.amounts[(unit * 3 + kind) * scenarios + s] = usual[kind] * job * own;
    }
  }
  p.groups = {std::move(group)};
  return p;
}

GroupOrders as_numbered(std::size_t units) {
  GroupOrders order(1, std::vector<std::size_t>(units));
  std::iota(order[0].begin(), order[0].end(), std::size_t{0});
  return order;
}

void twelve_seams(double mesh_mm) {
  const test::StatedBox b = test::stated_box("closed");
  std::vector<WeldLength> welds;
  for (std::size_t s = 0; s < b.box.seams.size(); ++s)
    welds.push_back({s, 0.0, b.geometry.seams[s].length_mm});
  ModelOptions options;
  options.mesh_mm = mesh_mm;
  options.end_mm = 0.0;
  TackedBox box, few;
  StepTable table;
  SetFound nominal, robust, worst;
  std::optional<SetSearch> middle, draws;
  Diagnostics out;
  const double set_up = milliseconds([&] {
    box = tacked(*make_box_model(b.job, b.box, b.geometry, b.tacks, welds, b.figures, {}, options, out));
  });
  const double find = milliseconds([&] { few = reduced(box, {3e-3}); });
  std::vector<RoundsOfSeam> seams;
  for (std::size_t w = 0; w < box.welds.size(); ++w)
    seams.push_back({{{w}}, {}});
  const double fill = milliseconds([&] { table = step_table(few, {}, seams); });
  const double prove = milliseconds([&] {
    middle.emplace(problem_of(few, table, 1));
    nominal = middle->least(as_numbered(table.seams), 0.0, 100'000'000);
  });
  const double prove_draws = milliseconds([&] {
    draws.emplace(problem_of(few, table, 32));
    robust = draws->least(nominal.order, 0.02, 10'000'000);
  });
  const double prove_worst = milliseconds([&] { worst = draws->most(nominal.order, 0.02, 10'000'000); });
  std::size_t readings = 0;
  for (const Joint& weld : few.welds)
    readings += weld.readings.size();
  fmt::print("{:5.1f} {:6} {:5} {:7.0f} {:6.0f} {:6.0f} {:8.1f} {:9} {:9.0f} {:9} {:7.0f}  {:.3f} {:.3f} "
             "{:.3f} {}\n",
             mesh_mm, table.steps.size() / 2, readings, set_up, find, fill, prove, nominal.steps, prove_draws,
             robust.steps, prove_worst, nominal.value, robust.value, worst.value,
             nominal.proven && robust.proven && worst.proven ? "proven" : "cut short");

  // From the table, one order after the other.
  Random random(3);
  std::vector<GroupOrders> orders(20000, as_numbered(table.seams));
  for (GroupOrders& order : orders)
    random.shuffle(order[0]);
  double sum = 0.0;
  const double evaluate = milliseconds([&] {
    for (const GroupOrders& order : orders)
      sum += middle->value(order);
  });
  fmt::print("      {:.2f} million orders a second from the table, mean {:.3f}\n",
             1e-3 * static_cast<double>(orders.size()) / evaluate, sum / static_cast<double>(orders.size()));
}

SetProblem random_problem(std::size_t units, Random& random) {
  SetProblem p;
  p.rows = 6;
  for (std::size_t i = 0; i < p.rows; ++i)
    p.start.push_back(random.uniform(-1.0, 1.0));
  SetGroup group;
  group.units = units;
  group.after.resize(units);
  for (std::size_t i = 0; i < (std::size_t{1} << units) * units * p.rows; ++i)
    group.steps.push_back(random.uniform(-1.0, 1.0));
  group.amounts.assign(units, 1.0);
  p.groups = {std::move(group)};
  return p;
}

// Every order in turn; of twelve by what one takes.
void against_every_order() {
  fmt::print("\nProof against every order, six readings, random steps\nunits  proof ms  steps  every order "
             "ms  times\n");
  for (const std::size_t units : {6u, 7u, 8u, 9u, 10u, 12u}) {
    Random random(units);
    const SetProblem p = random_problem(units, random);
    SetFound found;
    double search_ms =
        milliseconds([&] { found = SetSearch(p).least(as_numbered(units), 0.0, 1'000'000'000); });
    const SetSearch search(p);
    GroupOrders order = as_numbered(units);
    double least = 1e9, count = 0.0;
    const double every_ms = milliseconds([&] {
      do {
        least = std::min(least, search.value(order));
        count += 1.0;
      } while (count < 1e6 && std::next_permutation(order[0].begin(), order[0].end()));
    });
    double all = 1.0;
    for (std::size_t i = 2; i <= units; ++i)
      all *= static_cast<double>(i);
    const double whole_ms = every_ms * all / count;
    fmt::print("{:5} {:9.2f} {:6} {:15.0f} {:6.0f}{}\n", units, search_ms, found.steps, whole_ms,
               whole_ms / search_ms,
               count < all                            ? "  (by the first million)"
               : std::abs(least - found.value) < 1e-9 ? ""
                                                      : "  NOT EQUAL");
  }
}

// A tray with dividers whose ends are one group.
void beyond_the_table(int dividers) {
  std::string text;
  for (int i = 1; i <= dividers; ++i)
    text += fmt::format(
        "<divider id=\"D{}\" across=\"width\" at=\"{} mm\" height=\"100 mm\" sheet=\"s\" weld=\"fillet\" "
        "leg=\"2 mm\" side=\"inside\" finish=\"left\"/>",
        i, 1200.0 / (dividers + 1) * i);
  const JobReading reading = read_job(
      R"(<tacksquare-job name="RACK"><sheet id="s" metal="mild-steel" thickness="2 mm"/><box id="rack"><open-box
width="1200 mm" depth="300 mm" height="150 mm" open="top" made="folded" sheet="s" inside-radius="2 mm"
corner="half-open-corner" weld="square" side="outside" finish="flush"/>)" +
      text + "</box></tacksquare-job>");
  Diagnostics out;
  const std::optional<BoxCase> box = case_of(*reading.job, 0, std::nullopt, out);
  std::optional<OrderModel> model;
  double value = 0.0, bound = 0.0;
  const double set_up = milliseconds([&] { model = OrderModel::make(*box, 1e9); });
  const WholeSeams whole = model->whole_seams();
  const double order = milliseconds([&] { value = whole.value(model->flattened(box->order.seams)); });
  const double bounded = milliseconds([&] { bound = whole.bound(box->order.groups); });
  const double through = milliseconds([&] { model->ends(box->order.seams); });
  fmt::print("{:5} {:6.0f} {:8.0f} {:9.1f} {:9.0f} {:9.0f}  {:.3f} {:.3f}\n", box->work.seams.size(),
             model->springs(), set_up, order, bounded, through, value, bound);
}

} // namespace

int main() {
  fmt::print(
      "Twelve seams of a closed box as one group, ms by the clock, one thread\n mesh  steps shapes set-up   "
      "find  table  nominal     steps  32 draws     steps   worst  nominal robust worst\n");
  for (const double mesh_mm : {50.0, 25.0})
    twelve_seams(mesh_mm);
  against_every_order();
  fmt::print("\nMore seams than a table holds, ms\nseams springs  set-up  an order     bound  through  kept "
             "bound\n");
  for (const int dividers : {7, 9, 12})
    beyond_the_table(dividers);
  return 0;
}
