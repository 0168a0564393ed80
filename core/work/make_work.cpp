#include "work/making.h"

#include <algorithm>

namespace tacksquare {

namespace work {

double Making::thinner_mm(const Seam& seam) const {
  return std::min(thickness_mm(seam.face_a), thickness_mm(seam.face_b));
}

void Making::error_once(std::string code, Origin where, std::string message, std::string remedy) const {
  for (const Diagnostic& d : out.items())
    if (d.code == code && d.where == where && d.message == message) return;
  out.error(std::move(code), where, std::move(message), std::move(remedy));
}

double thinnest_mm(const Making& m) {
  double thinnest = 0.0;
  for (std::size_t f = 0; f < m.box.faces.size(); ++f)
    if (m.welded(f) && (thinnest == 0.0 || m.thickness_mm(f) < thinnest)) thinnest = m.thickness_mm(f);
  return thinnest;
}

std::optional<MetalFamily> common_family(const Making& m, const Seam& seam) {
  const MetalFamily a = m.sheet_of(seam.face_a).metal.family, b = m.sheet_of(seam.face_b).metal.family;
  if (a == b) return a;
  const auto steel = [](MetalFamily f) {
    return f == MetalFamily::mild_steel || f == MetalFamily::galvanized;
  };
  if (steel(a) && steel(b)) return MetalFamily::galvanized;
  return std::nullopt;
}

} // namespace work

Work make_work(const Job& job, const Box& box, const BoxGeometry& geometry, Diagnostics& out) {
  const work::Making m{job, box, geometry, out};
  Work w;
  const auto errors = [&] {
    return std::count_if(out.items().begin(), out.items().end(),
                         [](const Diagnostic& d) { return d.severity == Severity::error; });
  };
  const auto before = errors();
  w.rules = work::make_rules(m);
  w.crew = work::make_crew(m);
  w.ambient_C = in_celsius(job.ambient);
  work::check_grinding(m, w.rules);
  w.seams = work::make_seams(m, w.rules, w.settings);
  work::set_precedence(m, w);
  if (errors() != before) return w; // nothing below can be trusted
  w.runs = work::make_runs(m, w);
  w.measures = work::make_measures(m, w.rules);
  return w;
}

} // namespace tacksquare
