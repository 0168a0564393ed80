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

void SeamFaults::add(const Seam& seam, Diagnostic fault) {
  for (Fault& f : faults_) {
    if (f.what.code != fault.code || f.what.message != fault.message || f.what.remedy != fault.remedy)
      continue;
    f.seams.push_back(seam.id);
    return;
  }
  faults_.push_back({std::move(fault), {seam.id}});
}

std::vector<Diagnostic> SeamFaults::told() const {
  std::vector<Diagnostic> all;
  for (const Fault& f : faults_) {
    all.push_back(f.what);
    all.back().message = (f.seams.size() == 1 ? "seam " : "seams ") + list_words(f.seams) + f.what.message;
  }
  return all;
}

std::string list_words(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " and " : ", ";
    text += words[i];
  }
  return text;
}

bool id_before(const std::string& a, const std::string& b) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  std::size_t i = 0, j = 0;
  while (i < a.size() && j < b.size()) {
    if (!digit(a[i]) || !digit(b[j])) {
      if (a[i] != b[j]) return a[i] < b[j];
      ++i;
      ++j;
      continue;
    }
    const auto number = [&](const std::string& s, std::size_t& at) {
      while (at + 1 < s.size() && s[at] == '0' && digit(s[at + 1]))
        ++at;
      const std::size_t from = at;
      while (at < s.size() && digit(s[at]))
        ++at;
      return s.substr(from, at - from);
    };
    const std::string x = number(a, i), y = number(b, j);
    if (x.size() != y.size()) return x.size() < y.size();
    if (x != y) return x < y;
  }
  if (a.size() - i != b.size() - j) return a.size() - i < b.size() - j;
  return a < b; // "S01" and "S1"
}

double thinnest_mm(const Making& m) {
  double thinnest = 0.0;
  for (std::size_t f = 0; f < m.box.faces.size(); ++f)
    if (m.welded(f) && (thinnest == 0.0 || m.thickness_mm(f) < thinnest)) thinnest = m.thickness_mm(f);
  return thinnest;
}

double thickest_mm(const Making& m) {
  double thickest = 0.0;
  for (std::size_t f = 0; f < m.box.faces.size(); ++f)
    if (m.welded(f)) thickest = std::max(thickest, m.thickness_mm(f));
  return thickest;
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
