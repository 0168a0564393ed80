// Whole boxes and weld sequences against CalculiX: shells of eight nodes on nets of 12.5 mm, solved by
// boxes_by_calculix.py apart from our code (tests/data/elastic_calculix.tsv).
#include "elastic/stated_box.h"
#include "support/catch.h"
#include "support/table.h"

#include <cmath>
#include <map>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

// box, case -> measure -> mm
using Results = std::map<std::pair<std::string, std::string>, std::map<std::string, double>>;

struct Reference {
  Results values;
  Results tolerances;
};

Reference reference(const std::string& mesh) {
  const Table table("elastic_calculix.tsv",
                    {"box", "case", "mesh_mm", "measure", "value", "tolerance", "source", "mark"});
  Reference made;
  for (const auto& row : table.rows()) {
    if (row.text("mesh_mm") != mesh) continue;
    const std::pair key{row.text("box"), row.text("case")};
    made.values[key][row.text("measure")] = row.number("value");
    made.tolerances[key][row.text("measure")] = row.number("tolerance");
  }
  return made;
}

Results solved(const StatedBox& b, double mesh_mm) {
  Results all;
  const auto put = [&](const std::string& name, const Eigen::VectorXd& values) {
    for (std::size_t i = 0; i < b.figures.size(); ++i)
      all[{b.name, name}][b.figures[i].id] = values(static_cast<elastic::Index>(i));
  };
  if (!b.steps.empty()) {
    Eigen::VectorXd sum = Eigen::VectorXd::Zero(static_cast<elastic::Index>(b.figures.size()));
    int number = 0;
    for (const Eigen::VectorXd& step : solved_steps(b, joined_options(mesh_mm))) {
      put(std::to_string(++number), step);
      sum += step;
    }
    put("sum", sum);
  }
  for (const auto& [name, unused] : b.cases)
    put(name, solved_case(b, name, mesh_mm));
  return all;
}

double largest(const std::map<std::string, double>& values) {
  double most = 0.0;
  for (const auto& [name, v] : values)
    most = std::max(most, std::abs(v));
  return most;
}

} // namespace

TEST_CASE("boxes answer to loads and weld sequences as CalculiX says") {
  const double mesh_mm = 25.0;
  const Reference outside = reference("12.5");
  std::size_t compared = 0;
  for (const StatedBox& b : stated_boxes()) {
    if (b.former) continue; // held_test.cpp
    const Results ours = solved(b, mesh_mm);
    for (const auto& [key, values] : ours) {
      INFO(key.first << ", case " << key.second);
      REQUIRE(outside.values.count(key) == 1);
      const auto& theirs = outside.values.at(key);
      const bool single = b.cases.count(key.second) == 1;
      const double scale = largest(single ? theirs : outside.values.at({b.name, "sum"}));
      for (const auto& [measure, value] : values) {
        const double wanted = theirs.at(measure), tolerance = outside.tolerances.at(key).at(measure);
        INFO(measure << ": ours " << value << ", theirs " << wanted << ", largest " << scale);
        CHECK(std::abs(value - wanted) <= tolerance * scale);
        ++compared;
      }
    }
  }
  CHECK(compared > 900);
}
