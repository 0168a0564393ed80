#include "work/making.h"

#include "base/numbers.h"
#include "tables/practice.h"
#include "tables/tolerances.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare::work {

namespace {

const Source kStated{"job file", Mark::stated};
const Source kPractice{"common practice of the trade", Mark::common_practice};
constexpr double kSizeDefault = 1.0; // above and below an outside size
constexpr double kWitness = 20.0;    // outside diagonals: marks this far in from the corners
constexpr double kFlat = 10.0;       // not worth a rule: that is the sheet
constexpr double kDrawnAlike = 0.5;  // stated and drawn sizes that differ by less
constexpr double kSmallFace = 100.0; // narrower faces (lips) are not looked at for belly

double part(Vec3 v, int axis) {
  return axis == 0 ? v.x : axis == 1 ? v.y : v.z;
}
Vec3 point_at(const std::array<double, 3>& c) {
  return {c[0], c[1], c[2]};
}

// Six sides of the box: axis 0..2, end 0 low, 1 high.
struct Sides {
  std::array<std::array<std::vector<std::size_t>, 2>, 3> faces;
  Vec3 low, high;
  std::optional<std::pair<int, int>> open; // the side that is open

  const std::vector<std::size_t>& at(int axis, int end) const {
    return faces[static_cast<std::size_t>(axis)][static_cast<std::size_t>(end)];
  }
  double size(int axis) const { return part(high, axis) - part(low, axis); }
};

Sides sides_of(const Making& m) {
  Sides s;
  s.low = m.geometry.low;
  s.high = m.geometry.high;
  if (m.box.width && m.box.depth && m.box.height) {
    s.low = {0, 0, 0};
    s.high = {in_mm(*m.box.width), in_mm(*m.box.depth), in_mm(*m.box.height)};
  }
  for (std::size_t f = 0; f < m.box.faces.size(); ++f) {
    if (!m.welded(f)) continue;
    const Vec3 n = m.box.faces[f].placement.normal();
    for (int axis = 0; axis < 3; ++axis) {
      if (std::abs(part(n, axis)) < 0.99) continue;
      const int end = part(n, axis) > 0.0 ? 1 : 0;
      const double wall = part(end == 1 ? s.high : s.low, axis);
      if (std::abs(part(m.box.faces[f].placement.origin, axis) - wall) > m.thickness_mm(f)) continue;
      s.faces[static_cast<std::size_t>(axis)][static_cast<std::size_t>(end)].push_back(f);
    }
  }
  if (m.box.open_side == "F") s.open = std::make_pair(1, 0);
  if (m.box.open_side == "T") s.open = std::make_pair(2, 1);
  if (s.open || m.geometry.closed) return s;
  std::vector<std::pair<int, int>> missing;
  for (int axis = 0; axis < 3; ++axis)
    for (const int end : {0, 1})
      if (s.at(axis, end).empty()) missing.emplace_back(axis, end);
  if (missing.size() == 1) s.open = missing.front();
  return s;
}

struct Maker {
  const Making& m;
  const WorkRules& rules;
  const Sides sides;
  std::vector<Measure> all{};

  bool box_like() const {
    int missing = 0;
    for (int axis = 0; axis < 3; ++axis)
      for (const int end : {0, 1})
        missing += sides.at(axis, end).empty() && sides.open != std::make_pair(axis, end);
    return missing == 0 && (sides.open || m.geometry.closed);
  }

  // Word for a place along an axis: 0 low end, 1 middle, 2 high end.
  std::string word(int axis, int place) const {
    static const std::array<std::array<const char*, 3>, 3> kWords = {
        {{"left", "middle", "right"}, {"front", "middle", "back"}, {"bottom", "middle", "top"}}};
    if (sides.open && sides.open->first == axis && place == 2 * sides.open->second) return "rim";
    return kWords[static_cast<std::size_t>(axis)][static_cast<std::size_t>(place)];
  }
  double coordinate(int axis, int place) const {
    return part(sides.low, axis) + 0.5 * place * sides.size(axis);
  }

  static std::string gauge(BenchGauge g) { return bench_gauge(g).id; }
  static std::string size_gauge(double size_mm) {
    return gauge(size_mm <= 600.0 ? BenchGauge::steel_rule : BenchGauge::tape);
  }

  Measure& add(std::string id, MeasureKind kind, std::string where, std::vector<Vec3> points,
               std::string gauge_id) {
    Measure made;
    made.id = std::move(id);
    made.kind = kind;
    made.where = std::move(where);
    made.points = std::move(points);
    made.gauge = std::move(gauge_id);
    all.push_back(std::move(made));
    return all.back();
  }
  // A deviation that is read without a sign.
  static void limit(Measure& to, double over_mm, const Source& source) {
    to.over_mm = over_mm;
    to.limit_source = source;
  }
  void limit(Measure& to, const std::optional<Length>& said, std::optional<Length> by_class,
             double usual_mm) const {
    if (said)
      limit(to, in_mm(*said), kStated);
    else if (by_class)
      limit(to, in_mm(*by_class), tolerance_source());
    else
      limit(to, usual_mm, kPractice);
  }
  std::optional<Length> flatness(double longer_mm) const {
    const auto c = m.job.limits.flatness_class;
    return c ? flatness_tolerance(*c, mm(longer_mm)) : std::nullopt;
  }

  void size(const std::string& name, int number, int axis, int p, int p_place, int q, int q_place) {
    std::array<double, 3> a{}, b{};
    a[static_cast<std::size_t>(axis)] = part(sides.low, axis);
    b[static_cast<std::size_t>(axis)] = part(sides.high, axis);
    for (const auto& [other, place] : {std::make_pair(p, p_place), std::make_pair(q, q_place)})
      a[static_cast<std::size_t>(other)] = b[static_cast<std::size_t>(other)] = coordinate(other, place);
    const double nominal = sides.size(axis);
    Measure& made =
        add(name + "-" + std::to_string(number), MeasureKind::width,
            word(p, p_place) + "-" + word(q, q_place), {point_at(a), point_at(b)}, size_gauge(nominal));
    limit_size(made, nominal);
  }
  void limit_size(Measure& made, double nominal) const {
    made.nominal_mm = nominal;
    const Limits& said = m.job.limits;
    const std::optional<Length> by_class =
        said.linear_class ? linear_tolerance(*said.linear_class, mm(nominal)) : std::nullopt;
    const double usual = by_class ? in_mm(*by_class) : kSizeDefault;
    made.over_mm = said.size_over ? in_mm(*said.size_over) : usual;
    made.under_mm = said.size_under ? in_mm(*said.size_under) : usual;
    made.limit_source = said.size_over || said.size_under ? kStated
                        : by_class                        ? tolerance_source()
                                                          : kPractice;
  }

  void sizes() {
    const int depth_axis = sides.open ? sides.open->first : 1;
    const int other_axis = depth_axis == 1 ? 2 : 1;
    const std::array<const char*, 3> names = {"width", "depth", "height"};
    int number = 0;
    for (const int p : order(depth_axis))
      for (const int q : order(other_axis))
        size(names[0], ++number, 0, depth_axis, p, other_axis, q);
    number = 0;
    const auto second = static_cast<std::size_t>(other_axis), third = static_cast<std::size_t>(depth_axis);
    for (const int p : {order(depth_axis)[0], order(depth_axis)[2]})
      for (const int q : {0, 1, 2})
        size(names[second], ++number, other_axis, depth_axis, p, 0, q);
    number = 0;
    size(names[third], ++number, depth_axis, 0, 0, other_axis, 1);
    size(names[third], ++number, depth_axis, 0, 2, other_axis, 1);
    size(names[third], ++number, depth_axis, 0, 1, other_axis, 2);
    size(names[third], ++number, depth_axis, 0, 1, other_axis, 0);
  }
  // What has not six sides: overall, between two blocks laid on it, as stated or else as drawn.
  void overall() {
    const std::array<const char*, 3> names = {"width", "depth", "height"};
    const std::array<std::optional<Length>, 3> stated = {m.box.width, m.box.depth, m.box.height};
    for (int axis = 0; axis < 3; ++axis) {
      const auto i = static_cast<std::size_t>(axis);
      const double drawn = part(m.geometry.high, axis) - part(m.geometry.low, axis);
      const double nominal = stated[i] ? in_mm(*stated[i]) : drawn;
      if (drawn < kFlat && !stated[i]) continue;
      if (std::abs(nominal - drawn) > kDrawnAlike)
        m.out.caution("size-drawn", m.box.where,
                      "box " + m.box.id + ": " + names[i] + " is stated as " + rounded(nominal, 0.1) +
                          " mm outside, its faces as drawn make " + rounded(drawn, 0.1) + " mm",
                      "faces lie on the middle of the sheet: half a thickness stands outside of them");
      Vec3 a = (m.geometry.low + m.geometry.high) * 0.5, b = a;
      const Vec3 half{axis == 0 ? 0.5 * nominal : 0.0, axis == 1 ? 0.5 * nominal : 0.0,
                      axis == 2 ? 0.5 * nominal : 0.0};
      a = a - half;
      b = b + half;
      limit_size(
          add(std::string(names[i]) + "-1", MeasureKind::width, "overall", {a, b}, size_gauge(nominal)),
          nominal);
    }
  }
  // Places along an axis as the pair goes: from the rim inward, else from the top down, from the left or
  // front.
  std::array<int, 3> order(int axis) const {
    const bool from_high = sides.open && sides.open->first == axis ? sides.open->second == 1 : axis == 2;
    return from_high ? std::array<int, 3>{2, 1, 0} : std::array<int, 3>{0, 1, 2};
  }

  // Corners of a rectangle across an axis, in ring order, `inset` mm inside the outside of the box.
  std::vector<Vec3> ring(int axis, double level, double inset) const {
    const int p = axis == 0 ? 1 : 0, q = axis == 2 ? 1 : 2;
    std::vector<Vec3> corners;
    for (const auto& [pe, qe] :
         {std::make_pair(0, 0), std::make_pair(1, 0), std::make_pair(1, 1), std::make_pair(0, 1)}) {
      std::array<double, 3> c{};
      c[static_cast<std::size_t>(axis)] = level;
      c[static_cast<std::size_t>(p)] = pe ? part(sides.high, p) - inset : part(sides.low, p) + inset;
      c[static_cast<std::size_t>(q)] = qe ? part(sides.high, q) - inset : part(sides.low, q) + inset;
      corners.push_back(point_at(c));
    }
    return corners;
  }

  void diagonals(const std::string& where, const std::vector<Vec3>& ring) {
    Measure& made =
        add("diagonals-" + where, MeasureKind::diagonals, where, ring, gauge(BenchGauge::pinch_sticks));
    const double a = norm(ring[1] - ring[0]), b = norm(ring[2] - ring[1]), long_mm = norm(ring[2] - ring[0]);
    std::optional<Length> by_class;
    if (const auto c = m.job.limits.linear_class)
      by_class = mm(2.0 * a * b / long_mm * angular_tolerance_mm_per_m(*c, mm(std::min(a, b))) / 1000.0);
    limit(made, m.job.limits.diagonals, by_class, in_mm(diagonals_limit(mm(long_mm))));
  }

  void opening() {
    const auto [axis, end] = *sides.open;
    double wall = 0.0;
    for (int other = 0; other < 3; ++other)
      for (const int e : {0, 1})
        for (const std::size_t f : sides.at(other, e))
          if (other != axis) wall = std::max(wall, m.thickness_mm(f));
    const std::vector<Vec3> inside = ring(axis, part(end == 1 ? sides.high : sides.low, axis), wall);
    for (const std::size_t first : {std::size_t{0}, std::size_t{1}}) {
      const Vec3 a = inside[first], b = inside[first + 1], c = inside[(first + 3) % 4],
                 d = inside[(first + 2) % 4];
      Measure& made = add("opposite-rim-" + std::to_string(first + 1), MeasureKind::opposite_sides, "rim",
                          {a, b, c, d}, size_gauge(norm(b - a)));
      limit(made, m.job.limits.opposite_sides, flatness(norm(b - a)), in_mm(box_limits().opposite_sides));
    }
    diagonals("rim", inside);
  }

  void face_diagonals() {
    for (int axis = 0; axis < 3; ++axis)
      for (const int end : {0, 1}) {
        const std::vector<std::size_t>& faces = sides.at(axis, end);
        if (faces.empty()) continue;
        diagonals(m.box.faces[faces.front()].id,
                  ring(axis, part(end == 1 ? sides.high : sides.low, axis), kWitness));
      }
  }

  // The closed side across from the opening; of a closed box the under side. A stated attitude wins for the
  // rock.
  std::pair<int, int> base() const {
    return sides.open ? std::make_pair(sides.open->first, 1 - sides.open->second) : std::make_pair(2, 0);
  }

  void rock() {
    auto [axis, end] = base();
    for (int a = 0; a < 3; ++a)
      for (const int e : {0, 1})
        for (const std::size_t f : sides.at(a, e))
          if (m.box.attitude == m.box.faces[f].id) {
            axis = a;
            end = e;
          }
    const std::vector<std::size_t>& faces = sides.at(axis, end);
    const std::vector<Vec3> feet = ring(axis, part(end == 1 ? sides.high : sides.low, axis), 0.0);
    Measure& made = add("rock", MeasureKind::rock, faces.empty() ? "rim" : m.box.faces[faces.front()].id,
                        feet, gauge(BenchGauge::feeler));
    limit(made, m.job.limits.rock, flatness(std::max(norm(feet[1] - feet[0]), norm(feet[2] - feet[1]))),
          in_mm(box_limits().rock));
  }

  void lean() {
    const auto [axis, end] = base();
    const double foot = part(end == 1 ? sides.high : sides.low, axis),
                 head = part(end == 1 ? sides.low : sides.high, axis);
    const double tall = std::abs(head - foot);
    for (int side_axis = 0; side_axis < 3; ++side_axis) {
      if (side_axis == axis) continue;
      const int along = 3 - axis - side_axis;
      for (const int side_end : {0, 1}) {
        const std::vector<std::size_t>& faces = sides.at(side_axis, side_end);
        if (faces.empty()) continue;
        const std::string& id = m.box.faces[faces.front()].id;
        for (const int e : {0, 1}) {
          std::array<double, 3> c{};
          c[static_cast<std::size_t>(side_axis)] = part(side_end ? sides.high : sides.low, side_axis);
          c[static_cast<std::size_t>(along)] = part(e ? sides.high : sides.low, along);
          c[static_cast<std::size_t>(axis)] = foot;
          const Vec3 a = point_at(c);
          c[static_cast<std::size_t>(axis)] = head;
          Measure& made = add("lean-" + id + "-" + std::to_string(e + 1), MeasureKind::wall_lean, id,
                              {a, point_at(c)}, gauge(BenchGauge::try_square));
          std::optional<Length> by_class;
          if (const auto c13920 = m.job.limits.linear_class)
            by_class = mm(tall * angular_tolerance_mm_per_m(*c13920, mm(std::min(tall, sides.size(along)))) /
                          1000.0);
          limit(made, m.job.limits.wall_lean, by_class, in_mm(wall_lean_limit(mm(tall))));
        }
      }
    }
  }

  void bellies() {
    for (std::size_t f = 0; f < m.box.faces.size(); ++f) {
      const Face& face = m.box.faces[f];
      if (!m.welded(f)) continue;
      Vec2 low = face.outline.front(), high = low;
      for (const Vec2 p : face.outline) {
        low = {std::min(low.x, p.x), std::min(low.y, p.y)};
        high = {std::max(high.x, p.x), std::max(high.y, p.y)};
      }
      const Vec2 size = high - low, mid = (low + high) * 0.5;
      if (std::min(size.x, size.y) < kSmallFace) continue;
      const bool wide = size.x >= size.y;
      const Vec3 lift = face.placement.normal() * (0.5 * m.thickness_mm(f));
      const Vec3 a = face.placement.at(wide ? Vec2{low.x, mid.y} : Vec2{mid.x, low.y}) + lift;
      const Vec3 b = face.placement.at(wide ? Vec2{high.x, mid.y} : Vec2{mid.x, high.y}) + lift;
      Measure& made = add("belly-" + face.id, MeasureKind::belly, face.id,
                          {a, face.placement.at(mid) + lift, b}, gauge(BenchGauge::straightedge));
      const double longer = std::max(size.x, size.y) + m.thickness_mm(f); // of the outside
      limit(made, m.job.limits.belly, flatness(longer), in_mm(belly_limit(mm(longer))));
      made.under_mm = made.over_mm; // hollow or out
    }
  }

  void seams() {
    for (std::size_t i = 0; i < m.box.seams.size(); ++i) {
      const Seam& seam = m.box.seams[i];
      const SeamLine& line = m.geometry.seams[i];
      const std::array<const char*, 3> places = {line.start_at_rim ? "rim" : "start", "middle",
                                                 line.start_at_rim ? "back" : "end"};
      for (std::size_t k = 0; line.leads && k < 3; ++k) {
        const Vec3 at = line.start + (line.end - line.start) * (0.5 * static_cast<double>(k));
        Measure& made = add("gap-" + seam.id + "-" + std::to_string(k + 1), MeasureKind::gap,
                            seam.id + "-" + places[k], {at}, gauge(BenchGauge::feeler));
        limit(made, rules.gap_go_mm.value, rules.gap_go_mm.source);
        if (seam.joint == JointKind::corner || seam.joint == JointKind::butt)
          limit(add("step-" + seam.id + "-" + std::to_string(k + 1), MeasureKind::step,
                    seam.id + "-" + places[k], {at}, gauge(BenchGauge::straightedge)),
                rules.step_mm.value, rules.step_mm.source);
      }
      const Vec3 middle = (line.start + line.end) * 0.5;
      if (seam.finish != Finish::flush) continue;
      Measure& made =
          add("proud-" + seam.id, MeasureKind::proud, seam.id, {middle}, gauge(BenchGauge::straightedge));
      limit(made, rules.proud_mm.value, rules.proud_mm.source);
      made.under_mm = rules.dig_mm.value;
    }
  }
};

} // namespace

std::vector<Measure> make_measures(const Making& m, const WorkRules& rules) {
  Maker maker{m, rules, sides_of(m)};
  if (maker.box_like()) {
    maker.sizes();
    if (maker.sides.open)
      maker.opening();
    else
      maker.face_diagonals();
    maker.rock();
    maker.lean();
  } else {
    maker.overall();
  }
  maker.bellies();
  maker.seams();
  return std::move(maker.all);
}

} // namespace tacksquare::work
