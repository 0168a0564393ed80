// Turns the plan's keys and numbers into the strings of the Document. Used by the files that make one, not
// outside.
#pragma once

#include "sheet/catalogue.h"
#include "sheet/document.h"
#include "sheet/readings.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

class Composer {
 public:
  explicit Composer(const SheetOptions& options) : words_(options.language), units_(options.units) {}

  bool inch() const { return units_ != UnitSystem::metric; }
  std::string word(const std::string& key) const;
  // The word for prefix + id, or the id itself where the catalogue has none.
  std::string term(const std::string& prefix, const std::string& id) const;
  std::string text(const Text& text) const;
  std::vector<std::string> texts(const std::vector<Text>& texts) const;
  std::string line(const std::string& key, std::vector<Arg> args) const;
  std::string argument(const Arg& arg) const;

  std::string quantity(ArgKind kind, double value, const std::string& gauge = {},
                       Rounding rounding = Rounding::nearest) const;
  std::string bare(ArgKind kind, double value) const; // without its unit
  // "17", "fewer than 1": how many of a hundred.
  std::string in_hundred(double chance, int decimals = 0) const;
  // "96.2 (96.1 to 96.3)": with its confidence, and a decimal where it is known so sharply.
  std::string in_hundred(const Chance& chance) const;
  std::string place(double mm) const;                                  // on a seam, without its unit
  std::string unit(ArgKind kind, const std::string& gauge = {}) const; // "mm"
  // "399.5 to 399.9 mm"
  std::string range(ArgKind kind, double low, double high, const std::string& gauge = {}) const;
  // The step in which limits, and what is expected between them, are told. expected_mm: see step_of_limits.
  ReadingStep step(double low_mm, double high_mm, std::optional<double> expected_mm,
                   const std::string& gauge) const;
  // What passes, rounded to the strict side: "398.8 to 400.0 mm", "not over 1.0 mm", "within 0.5 mm either
  // way".
  std::string limits(double low_mm, double high_mm, const ReadingStep& step) const;
  std::string who(Who who) const; // "W"

 private:
  Catalogue words_;
  UnitSystem units_;
};

// "front, top": joined by commas, empty ones left out.
std::string comma_joined(const std::vector<std::string>& parts);

// Job and date, for the head of a page.
std::vector<std::string> page_head(const Composer& compose, const Plan& plan);
// The row in its opening; precondition: the plan has one.
DocumentPage compose_row(const Composer& compose, const Plan& plan);
DocumentSection compose_row_check(const Composer& compose, const RowFit& row); // its last section

// For whoever stands at the brake; precondition: the box has bend orders.
DocumentPage compose_bends(const Composer& compose, const Plan& plan, const BoxPlan& box);
// For whoever sets the table up; precondition: the box has a fixture.
DocumentPage compose_fixture(const Composer& compose, const Plan& plan, const BoxPlan& box);
// Blanks and their dimensions; precondition: the box has patterns.
DocumentPage compose_cut_list(const Composer& compose, const Plan& plan, const BoxPlan& box);

// The parts of a box's pages.
void compose_bench(const Composer& compose, const Plan& plan, const BoxPlan& box, DocumentBox& out);
void compose_foreman(const Composer& compose, const Plan& plan, const BoxPlan& box, DocumentBox& out);
// Parts as they came and the first-off: before the foreman's other tables and notes.
void compose_fit(const Composer& compose, const Plan& plan, const BoxPlan& box, DocumentBox& out);
// Blanks for a check's readings, each with its place where named.
std::vector<DocumentBlanks> blanks(const Composer& compose, const BoxPlan& box, const Check& check,
                                   bool named);
// What will be measured, every figure, and where they come from.
std::vector<DocumentTable> figure_tables(const Composer& compose, const BoxPlan& box);

// The foreman's: how well the box is fixed, what presses on it, what that takes. None without a fixture.
std::vector<DocumentTable> fixture_tables(const Composer& compose, const BoxPlan& box);
std::vector<DocumentTable> order_tables(const Composer& compose, const BoxPlan& box);
// A line of the bill: "2 x sash cramp, opens 600 mm".
std::string bill_text(const Composer& compose, const BillLine& line, int count);

} // namespace tacksquare
