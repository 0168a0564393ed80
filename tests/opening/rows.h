// Rows of the pilot station's boxes in an opening, built in code.
#pragma once

#include "opening/row_fit.h"
#include "work/boxes.h"

#include <initializer_list>
#include <string>
#include <vector>

namespace tacksquare::test {

inline std::vector<Length> lengths(std::initializer_list<double> all_mm) {
  std::vector<Length> all;
  for (const double l : all_mm)
    all.push_back(mm(l));
  return all;
}

// An alcove with nothing said but its width.
inline HardOpening alcove(double width_mm) {
  HardOpening opening;
  opening.name = "ALCOVE 2";
  opening.widths[1] = lengths({width_mm});
  return opening;
}

struct Row {
  Case one;
  Prediction prediction;
  std::optional<WeldEffect> elastic;
  Diagnostics out;

  explicit Row(Case c, double width_mm, int count) : one(std::move(c)) {
    one.box().count = count;
    one.make();
    prediction = one.predicted();
    one.job.opening = alcove(width_mm);
  }
  HardOpening& opening() { return *one.job.opening; }
  BoxKnown known() const {
    return {&one.job.boxes[0], &one.geometry, &one.work, &prediction, elastic ? &*elastic : nullptr};
  }
  RowFit fit() {
    RowFit fit = fit_row(one.job, {known()}, out);
    tell_chances(opening(), fit, out);
    return fit;
  }
  std::vector<std::string> told(Severity severity) const {
    std::vector<std::string> codes;
    for (const Diagnostic& d : out.items())
      if (d.severity == severity) codes.push_back(d.code);
    return codes;
  }
  MeasuredBox& measured(int copy) {
    for (MeasuredBox& m : one.job.measured)
      if (m.copy == copy) return m;
    one.job.measured.emplace_back();
    one.job.measured.back().copy = copy;
    return one.job.measured.back();
  }
};

inline const SizeCause* cause_of(const SizeBudget& budget, const std::string& key) {
  for (const SizeCause& c : budget.causes)
    if (c.key == key) return &c;
  return nullptr;
}
inline int count_of(const SizeBudget& budget, const std::string& key) {
  int count = 0;
  for (const SizeCause& c : budget.causes)
    count += c.key == key;
  return count;
}

} // namespace tacksquare::test
