// Boxes of the pilot station for the tests of work and shrinkage, built from the short forms.
#pragma once

#include "geometry/box_geometry.h"
#include "job/forms.h"
#include "physics/shrinkage/expected.h"
#include "support/catch.h"
#include "work/work.h"

#include <algorithm>
#include <string>

namespace tacksquare::test {

inline Sheet sheet_of(const std::string& metal, double thickness_mm) {
  return {"sheet", *find_metal(metal), mm(thickness_mm), "", {}};
}

inline Seam outside_flush() {
  return Seam{};
} // square, outside, flush: the defaults of the values

// A job of one box; resolves and predicts on demand. `scale` multiplies every length but the thickness.
struct Case {
  Job job;
  Diagnostics out;
  BoxGeometry geometry;
  Work work;

  Box& box() { return job.boxes[0]; }
  Case& make() {
    geometry = resolve_geometry(job, box(), out);
    REQUIRE_FALSE(out.has_errors());
    work = make_work(job, box(), geometry, out);
    return *this;
  }
  Prediction predicted() const { return predict(job.boxes[0], job, geometry, work); }
  std::vector<std::string> errors() const {
    std::vector<std::string> texts;
    for (const Diagnostic& d : out.items())
      if (d.severity == Severity::error) texts.push_back(d.code + ": " + d.message + " | " + d.remedy);
    return texts;
  }
  const Measure& measure(const std::string& id) const {
    const auto found = std::find_if(work.measures.begin(), work.measures.end(),
                                    [&](const Measure& m) { return m.id == id; });
    if (found == work.measures.end()) FAIL("no measure " << id);
    return *found;
  }
  const Expected& expected(const Prediction& p, const std::string& id) const {
    const auto index = static_cast<std::size_t>(&measure(id) - work.measures.data());
    const auto found = std::find_if(p.measures.begin(), p.measures.end(),
                                    [&](const Expected& e) { return e.measure == index; });
    if (found == p.measures.end()) FAIL("nothing expected for " << id);
    return *found;
  }
};

// The gear locker: 400 x 300 x 600 outside, one folded blank, four corner seams of 300.
inline Case locker(double thickness_mm = 2.0, CornerStyle corner = CornerStyle::half_open,
                   const Seam& seam = outside_flush(), const std::string& metal = "mild-steel",
                   double scale = 1.0) {
  Case c;
  c.job.sheets.push_back(sheet_of(metal, thickness_mm));
  c.job.boxes.emplace_back();
  c.box().id = "locker";
  OpenBoxForm form;
  form.width = mm(400 * scale);
  form.depth = mm(300 * scale);
  form.height = mm(600 * scale);
  form.inside_radius = mm(thickness_mm);
  form.corner = corner;
  form.seam = seam;
  expand(form, c.job.sheets, c.box(), c.out);
  return c;
}

// The ballast float: closed, 600 x 400 x 300, 3 mm, twelve seams, a vent.
inline Case ballast_float(const Seam& seam = outside_flush()) {
  Case c;
  c.job.sheets.push_back(sheet_of("mild-steel", 3.0));
  c.job.boxes.emplace_back();
  c.box().id = "float";
  ClosedBoxForm form;
  form.width = mm(600);
  form.depth = mm(400);
  form.height = mm(300);
  form.seam = seam;
  expand(form, c.job.sheets, c.box(), c.out);
  for (std::size_t f = 0; f < c.box().faces.size(); ++f)
    if (c.box().faces[f].id == "B") c.box().vents.push_back({f, {60, 60}, mm(8), true, {}});
  return c;
}

} // namespace tacksquare::test
