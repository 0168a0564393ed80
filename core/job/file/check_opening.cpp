#include "job/file/check_opening.h"

#include "base/numbers.h"
#include "base/vec.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace {

constexpr double kSlip = 0.05;        // of a size: more is no scatter
constexpr double kPlumb_mm = 3.0;     // what a tape and a plumb line may differ by
constexpr double kDiagonal_mm = 10.0; // what six readings by tape can put a diagonal off by

std::string shown(double value_mm) {
  return shortest(round_to(value_mm, 0.1)) + " mm";
}

double mean_mm(const std::vector<Said<Length>>& readings) {
  double sum = 0.0;
  for (const Said<Length>& reading : readings)
    sum += in_mm(reading.value);
  return sum / static_cast<double>(readings.size());
}

double middle_mm(const std::vector<Said<Length>>& readings) {
  if (readings.size() == 2) return in_mm(readings[0].value); // either may be the slip: the first is taken
  std::vector<double> sorted;
  for (const Said<Length>& reading : readings)
    sorted.push_back(in_mm(reading.value));
  std::sort(sorted.begin(), sorted.end());
  const std::size_t n = sorted.size();
  return n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2.0;
}

std::vector<Said<Length>> all_of(const SaidLines& said) {
  std::vector<Said<Length>> all;
  for (const auto& line : said.lines)
    all.insert(all.end(), line.begin(), line.end());
  return all;
}

// The reading at the front of a line; of the line nearest to it that has one.
std::optional<double> front_mm(const SaidLines& said, std::size_t line) {
  for (const std::size_t i : {line, std::size_t{1}, 2 - line})
    if (!said.lines[i].empty()) return in_mm(said.lines[i].front().value);
  return {};
}

std::string against(double by_mm, const char* than, const char* as) {
  if (std::abs(by_mm) < 0.05) return std::string("the same") + as;
  return shown(std::abs(by_mm)) + (by_mm < 0.0 ? " less" : " more") + than;
}

void check_plumb(const HardOpening& o, const OpeningSaid& said, Diagnostics& out) {
  const auto &top = said.widths.lines[0], &under = said.widths.lines[2];
  if (!o.plumb_left || !o.plumb_right || top.empty() || under.empty()) return;
  const double taped = mean_mm(top) - mean_mm(under), plumbed = -in_mm(*o.plumb_left + *o.plumb_right);
  if (std::abs(taped - plumbed) <= kPlumb_mm) return;
  out.error("plumb-contradicts", top.front().where,
            "the width at the top is " + against(taped, " than under", " as under") +
                ", by the plumb line it would be " + against(plumbed, "", ""),
            "measure both again; a side whose top stands into the opening is positive",
            Note{"the plumb line", said.plumb});
}

// Corners of the front face: left foot, right foot, right top, left top.
using Corners = std::array<Vec2, 4>;

// From the under side, the two uprights, the top and the diagonal up to the right. Nothing where they do not
// close.
std::optional<Corners> by_diagonal(double under, double right, double top, double left, double up_right) {
  const double x = (up_right * up_right + under * under - right * right) / (2.0 * under);
  const double y2 = up_right * up_right - x * x;
  const double along = (up_right * up_right + left * left - top * top) / (2.0 * up_right);
  const double off2 = left * left - along * along;
  if (y2 <= 0.0 || off2 <= 0.0) return {};
  const Vec2 right_top{x, std::sqrt(y2)};
  const Vec2 e = right_top * (1.0 / up_right);
  const Vec2 left_top = e * along + Vec2{-e.y, e.x} * std::sqrt(off2);
  return Corners{Vec2{}, Vec2{under, 0.0}, right_top, left_top};
}

// From the plumb line of both sides and the rise of the floor.
std::optional<Corners> by_plumb(const HardOpening& o, double under, double right, double left) {
  if (!o.plumb_left || !o.plumb_right || !o.floor_rise) return {};
  const double rise = in_mm(*o.floor_rise), run2 = under * under - rise * rise;
  if (run2 <= 0.0) return {};
  const Vec2 right_foot{std::sqrt(run2), rise};
  const double in_left = in_mm(*o.plumb_left), in_right = in_mm(*o.plumb_right);
  const double up_left2 = left * left - in_left * in_left, up_right2 = right * right - in_right * in_right;
  if (up_left2 <= 0.0 || up_right2 <= 0.0) return {};
  return Corners{Vec2{}, right_foot, right_foot + Vec2{-in_right, std::sqrt(up_right2)},
                 Vec2{in_left, std::sqrt(up_left2)}};
}

void check_diagonals(const HardOpening& o, const OpeningSaid& said, Diagnostics& out) {
  const auto top = front_mm(said.widths, 0), under = front_mm(said.widths, 2);
  const auto left = front_mm(said.heights, 0), right = front_mm(said.heights, 2);
  if (!top || !under || !left || !right) return;
  const std::string remedy = "measure them again, corner to corner of the front face";
  // Seen from the other side, up-left is up-right.
  const auto closes = [&](std::optional<Length> up, bool mirrored) {
    if (!up) return true;
    const bool does = mirrored ? by_diagonal(*under, *left, *top, *right, in_mm(*up)).has_value()
                               : by_diagonal(*under, *right, *top, *left, in_mm(*up)).has_value();
    if (!does)
      out.error("diagonal-contradicts", said.diagonals,
                "no opening of these widths and heights has a diagonal of " + shown(in_mm(*up)), remedy);
    return does;
  };
  if (!closes(o.diagonal_up_right, false) || !closes(o.diagonal_up_left, true)) return;
  if (o.diagonal_up_right && o.diagonal_up_left) {
    const auto c = by_diagonal(*under, *right, *top, *left, in_mm(*o.diagonal_up_right));
    const double other = norm((*c)[3] - (*c)[1]);
    if (std::abs(other - in_mm(*o.diagonal_up_left)) > kDiagonal_mm) {
      out.error("diagonal-contradicts", said.diagonals,
                "no opening of these widths and heights has these two diagonals: with " +
                    shown(in_mm(*o.diagonal_up_right)) + " up to the right it has " + shown(other) +
                    " up to the left",
                remedy);
      return;
    }
  }
  const auto c = by_plumb(o, *under, *right, *left);
  if (!c) return;
  const double up_right = norm((*c)[2] - (*c)[0]), up_left = norm((*c)[3] - (*c)[1]);
  const auto far = [](std::optional<Length> stated, double found) {
    return stated && std::abs(in_mm(*stated) - found) > kDiagonal_mm;
  };
  if (far(o.diagonal_up_right, up_right) || far(o.diagonal_up_left, up_left))
    out.error(
        "diagonal-contradicts", said.diagonals,
        "by the plumb line and the floor the diagonals are " + shown(up_right) + " up to the right and " +
            shown(up_left) + " up to the left",
        "measure again; a side whose top stands into the opening is positive, a floor whose right end is "
        "higher too",
        Note{"the plumb line", said.plumb});
}

} // namespace

std::vector<Said<Length>> check_alike(const std::vector<Said<Length>>& readings, const std::string& what,
                                      Severity severity, Diagnostics& out) {
  std::vector<Said<Length>> slips;
  if (readings.size() < 2) return slips;
  const double middle = middle_mm(readings);
  for (const Said<Length>& reading : readings) {
    const double off = in_mm(reading.value) / middle - 1.0;
    if (std::abs(off) <= kSlip) continue;
    slips.push_back(reading);
    const std::string message = "this " + what + " is " + fixed(100.0 * std::abs(off), 1) + " % " +
                                (off < 0.0 ? "less" : "more") + " than the " +
                                (readings.size() == 2 ? "other one" : "others are") + ", " + shown(middle);
    if (severity == Severity::error)
      out.error("reading-far", reading.where, message, kMeasureAgain);
    else
      out.caution("reading-far", reading.where, message, kMeasureAgain);
  }
  return slips;
}

void check_opening(const HardOpening& opening, const OpeningSaid& said, Diagnostics& out) {
  OpeningSaid likely = said; // without slips, which would only be told again
  const auto drop_slips = [&](SaidLines& lines, const char* what, Severity severity) {
    for (const Said<Length>& slip : check_alike(all_of(lines), what, severity, out))
      for (auto& line : lines.lines)
        std::erase_if(line, [&](const Said<Length>& reading) { return reading.where == slip.where; });
  };
  drop_slips(likely.widths, "width", Severity::error);
  drop_slips(likely.heights, "height", Severity::caution);
  drop_slips(likely.depths, "depth", Severity::caution);
  check_plumb(opening, likely, out);
  check_diagonals(opening, likely, out);
}

} // namespace tacksquare
