#include "work/making.h"

#include "base/numbers.h"
#include "tables/practice.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace tacksquare::work {

namespace {

constexpr double kPointDab_s = 1.0; // a relief hole or corner is filled as fast as a tack is made

// Edges of n runs between a and b: equal parts of the seam, else of what is welded in runs, on whole tens of
// millimetres, else on whole ones, where that keeps every run within the longest.
std::vector<double> edges_of(double a, double b, double seam_mm, int n, double longest_mm) {
  const auto edges_at = [&](double from, double length, double step) {
    std::vector<double> edges{a};
    for (int i = 1; i < n; ++i) {
      const double at = from + length * i / n;
      edges.push_back(step > 0.0 ? round_to(at, step) : at);
    }
    edges.push_back(b);
    return edges;
  };
  for (const double step : {10.0, 1.0})
    for (const auto& edges : {edges_at(0.0, seam_mm, step), edges_at(a, b - a, step)}) {
      bool good = true;
      for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
        const double run = edges[i + 1] - edges[i];
        good = good && run > 0.0 && run <= longest_mm + 0.5;
      }
      if (good) return edges;
    }
  return edges_at(a, b - a, 0.0);
}

// In which order the runs 0..n-1 along the seam are made: the innermost first, every second one, then those
// between (a skip); back-step takes them one after the other from the innermost.
std::vector<int> order_of(int n, bool back_step) {
  std::vector<int> order;
  if (back_step) {
    for (int i = n - 1; i >= 0; --i)
      order.push_back(i);
    return order;
  }
  for (int i = n - 1; i >= 0; i -= 2)
    order.push_back(i);
  for (int i = n - 2; i >= 0; i -= 2)
    order.push_back(i);
  return order;
}

// "a" .. "z", "aa" ..
std::string letters(std::size_t index) {
  std::string text;
  for (std::size_t n = index + 1; n > 0; n = (n - 1) / 26)
    text.insert(text.begin(), static_cast<char>('a' + (n - 1) % 26));
  return text;
}

bool continuous_outside(const Seam& seam) {
  return !seam.stitch && seam.side == WeldSide::outside &&
         (seam.joint == JointKind::corner || seam.joint == JointKind::butt);
}

// Where a relief hole of a folded part or a corner of three seams is left to be filled: once a corner, by the
// last of the outside seams that end there.
bool owns_corner(const Making& m, std::size_t seam, bool at_end) {
  const SeamLine& line = m.geometry.seams[seam];
  if (at_end ? line.end_at_rim : line.start_at_rim) return false;
  const Vec3 here = at_end ? line.end : line.start;
  const double near_mm =
      5.0 * std::max(m.thickness_mm(m.box.seams[seam].face_a), m.thickness_mm(m.box.seams[seam].face_b));
  const auto close = [&](Vec3 p) { return norm(p - here) <= near_mm; };
  const bool relief = std::any_of(m.geometry.bends.begin(), m.geometry.bends.end(),
                                  [&](const BendLine& b) { return close(b.start) || close(b.end); });
  std::size_t meeting = 0;
  for (std::size_t other = 0; other < m.box.seams.size(); ++other) {
    if (!continuous_outside(m.box.seams[other]) || other == seam) continue;
    const SeamLine& o = m.geometry.seams[other];
    if (!(close(o.start) || close(o.end))) continue;
    ++meeting;
    if (id_before(m.box.seams[seam].id, m.box.seams[other].id)) return false;
  }
  return relief || meeting >= 2;
}

struct Maker {
  const Making& m;
  const Work& work;
  std::size_t index; // in Work::seams
  std::vector<Run> runs{};

  void add(double from, double to, bool dab, double tie_in = 0.0) {
    const WorkSeam& w = work.seams[index];
    const SeamLine& line = m.geometry.seams[w.seam];
    Run r;
    r.seam = index;
    r.from_mm = from;
    r.to_mm = to;
    r.tie_in_mm = tie_in;
    const double travel = in_mm_per_s(work.settings[w.settings].travel.value);
    r.arc_s = from == to ? kPointDab_s : r.length_mm() / travel;
    r.heat_J = w.heat_J_mm * r.arc_s * travel;
    const double share = line.length_mm > 0.0 ? 0.5 * (from + to) / line.length_mm : 0.0;
    r.middle = line.start + (line.end - line.start) * share;
    r.rank = static_cast<int>(runs.size());
    r.dab = dab;
    runs.push_back(std::move(r));
  }

  void continuous() {
    const WorkSeam& w = work.seams[index];
    const Seam& seam = m.box.seams[w.seam];
    const SeamLine& line = m.geometry.seams[w.seam];
    const double length = w.length_mm, first = work.rules.first_tack_mm.value;
    const double one_run = in_mm(run_practice().one_run_up_to);
    const double longest = work.rules.longest_run_mm.value;
    // A lip as short as a few tacks is one run from its free edge inward.
    const bool room = length > 4.0 * first;
    const double a = room && line.start_at_rim ? first : 0.0;
    const double b = room && line.end_at_rim ? length - first : length;
    const double welded = b - a;
    const int n = welded <= std::min(one_run, longest) ? 1 : run_count(mm(welded), mm(longest));
    const std::vector<double> edges = edges_of(a, b, length, n, longest);
    std::vector<bool> made(static_cast<std::size_t>(n), false);
    for (const int i : order_of(n, work.rules.back_step)) {
      const auto k = static_cast<std::size_t>(i);
      const bool meets = (k > 0 && made[k - 1]) || (k + 1 < made.size() && made[k + 1]);
      add(edges[k], edges[k + 1], false, meets ? work.rules.tie_in_mm.value : 0.0);
      made[k] = true;
    }
    if (a > 0.0) add(a, 0.0, true);
    if (b < length) add(b, length, true);
    if (!continuous_outside(seam)) return;
    if (owns_corner(m, w.seam, false)) add(0.0, 0.0, true);
    if (owns_corner(m, w.seam, true)) add(length, length, true);
  }

  void stitched(const Stitch& stitch) {
    const Stitches s = stitches_of(stitch, work.seams[index].length_mm);
    for (int i = 0; i < s.count; ++i) {
      const double from = s.first_mm + i * s.pitch_mm;
      add(from, from + s.length_mm, false);
    }
  }
};

} // namespace

std::vector<Run> make_runs(const Making& m, const Work& work) {
  std::vector<std::size_t> by_id(work.seams.size());
  for (std::size_t i = 0; i < by_id.size(); ++i)
    by_id[i] = i;
  std::sort(by_id.begin(), by_id.end(),
            [&](std::size_t a, std::size_t b) { return id_before(work.seams[a].id, work.seams[b].id); });
  std::vector<Run> all;
  for (const std::size_t i : by_id) {
    Maker maker{m, work, i};
    const std::optional<Stitch>& stitch = m.box.seams[work.seams[i].seam].stitch;
    if (stitch)
      maker.stitched(*stitch);
    else
      maker.continuous();
    for (std::size_t k = 0; k < maker.runs.size(); ++k) {
      maker.runs[k].id = work.seams[i].id + (maker.runs.size() == 1 ? std::string() : letters(k));
      all.push_back(std::move(maker.runs[k]));
    }
  }
  return all;
}

} // namespace tacksquare::work
