// How well stops and supports fix the box, from the places and directions of the six alone: a point r that
// may not move along n holds n . t + (r x n) . w = 0 for each small movement t and turn w of the box.
#include "plan/verify/checking.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare::verify {
namespace {

using Row = std::array<double, 6>;
using Square = std::array<Row, 6>;

struct Place {
  Vec3 at, along;
};

struct Located {
  int rank = 0;
  double determinant_mm3 = 0.0, worst_mm = 0.0;
};

// Lengths in parts of scale_mm, so that turns weigh as movements do.
Square rows_of(const std::array<Place, 6>& six, double scale_mm) {
  Square rows;
  for (std::size_t i = 0; i < 6; ++i) {
    const Vec3 n = six[i].along, turn = cross(six[i].at, n) * (1.0 / scale_mm);
    rows[i] = {n.x, n.y, n.z, turn.x, turn.y, turn.z};
  }
  return rows;
}

struct Solved {
  int rank = 0;
  double determinant = 1.0;
  Square inverse{}; // where the rank is 6
};

// Gauss and Jordan with a full pivot: the rank shows in the pivots that are left.
Solved solved(Square a) {
  constexpr double kNothing = 1e-9;
  Solved out;
  Square b{};
  for (std::size_t i = 0; i < 6; ++i)
    b[i][i] = 1.0;
  std::array<std::size_t, 6> column{0, 1, 2, 3, 4, 5};
  for (std::size_t k = 0; k < 6; ++k) {
    std::size_t row = k, col = k;
    for (std::size_t i = k; i < 6; ++i)
      for (std::size_t j = k; j < 6; ++j)
        if (std::abs(a[i][j]) > std::abs(a[row][col])) row = i, col = j;
    if (std::abs(a[row][col]) < kNothing) {
      out.determinant = 0.0;
      return out;
    }
    std::swap(a[k], a[row]);
    std::swap(b[k], b[row]);
    for (Row& each : a)
      std::swap(each[k], each[col]);
    std::swap(column[k], column[col]);
    const double pivot = a[k][k];
    out.determinant *= std::abs(pivot);
    ++out.rank;
    for (std::size_t j = 0; j < 6; ++j) {
      a[k][j] /= pivot;
      b[k][j] /= pivot;
    }
    for (std::size_t i = 0; i < 6; ++i) {
      if (i == k) continue;
      const double share = a[i][k];
      for (std::size_t j = 0; j < 6; ++j) {
        a[i][j] -= share * a[k][j];
        b[i][j] -= share * b[k][j];
      }
    }
  }
  for (std::size_t k = 0; k < 6; ++k)
    out.inverse[column[k]] = b[k];
  return out;
}

// The furthest that a corner goes when each place is off by so much, one way or the other.
double worst_mm(const Square& inverse, double scale_mm, Vec3 size, double error_mm) {
  double worst = 0.0;
  for (int corner = 0; corner < 8; ++corner) {
    const Vec3 p{(corner & 1) ? size.x : 0.0, (corner & 2) ? size.y : 0.0, (corner & 4) ? size.z : 0.0};
    for (int signs = 0; signs < 32; ++signs) { // the other 32 are these, turned round
      std::array<double, 6> moved{};
      for (std::size_t i = 0; i < 6; ++i)
        for (std::size_t j = 0; j < 6; ++j)
          moved[i] += inverse[i][j] * (((signs >> j) & 1) ? -error_mm : error_mm);
      const Vec3 turn = Vec3{moved[3], moved[4], moved[5]} * (1.0 / scale_mm);
      worst = std::max(worst, norm(Vec3{moved[0], moved[1], moved[2]} + cross(turn, p)));
    }
  }
  return worst;
}

Located located(const std::array<Place, 6>& six, Vec3 size, double error_mm) {
  const double scale_mm = std::max(norm(size), 1.0);
  const Solved s = solved(rows_of(six, scale_mm));
  Located out{s.rank, s.determinant * scale_mm * scale_mm * scale_mm, 0.0};
  if (s.rank == 6) out.worst_mm = worst_mm(s.inverse, scale_mm, size, error_mm);
  return out;
}

bool agree(double told, double low, double high) {
  constexpr double kShare = 1e-6;
  const double slack = kShare * std::max(1.0, std::abs(high));
  return low - slack <= told && told <= high + slack;
}

// Three supports, two stops that push along y, one that pushes along x. On the table itself the three corners
// of the metal that lies on it carry the box that are furthest apart.
struct Six {
  std::vector<Place> under, along_y, along_x;
  bool table = false;
};
Six six_of(const FixturePlan& fixture) {
  constexpr double kSameWay = 1e-6;
  Six out;
  for (const std::string& id : fixture.locating.six) {
    const auto piece = std::find_if(fixture.pieces.begin(), fixture.pieces.end(),
                                    [&](const PlannedPiece& each) { return each.id == id; });
    if (id == "table")
      out.table = true;
    else if (piece != fixture.pieces.end() && piece->table.size() == 1) {
      const Place place{piece->table.front(), piece->towards};
      const auto pushes = [&](Vec3 axis) { return norm(place.along - axis) < kSameWay; };
      if (piece->kind == "support" && pushes({0, 0, 1})) out.under.push_back(place);
      if (piece->kind == "stop" && pushes({0, 1, 0})) out.along_y.push_back(place);
      if (piece->kind == "stop" && pushes({1, 0, 0})) out.along_x.push_back(place);
    }
  }
  return out;
}

// Corners of all metal that lies on the table, many of them more than once.
std::vector<Vec3> lying(const Checking& c, const FixturePlan& fixture) {
  constexpr double kLies_mm = 0.5;
  std::vector<Vec3> corners;
  for (std::size_t f = 0; f < c.box.faces.size(); ++f) {
    const Placement& place = c.box.faces[f].placement;
    if (c.box.parts[c.box.faces[f].part].loose) continue;
    for (const Vec2 p : c.geometry.faces[f].cut_outline)
      for (const double side : {-0.5, 0.5}) {
        const Vec3 off = place.at(p) + place.normal() * (side * c.thickness_mm(f)) - fixture.origin;
        if (dot(off, fixture.z) < kLies_mm)
          corners.push_back({dot(off, fixture.x), dot(off, fixture.y), 0.0});
      }
  }
  return corners;
}

// Those of all triangles of them that are as large as the largest.
std::vector<std::array<Vec3, 3>> widest(const std::vector<Vec3>& corners) {
  constexpr double kSame = 1e-6;
  std::vector<std::pair<double, std::array<Vec3, 3>>> all;
  double largest = 0.0;
  for (std::size_t i = 0; i < corners.size(); ++i)
    for (std::size_t j = i + 1; j < corners.size(); ++j)
      for (std::size_t k = j + 1; k < corners.size(); ++k) {
        const double area = norm(cross(corners[j] - corners[i], corners[k] - corners[i]));
        largest = std::max(largest, area);
        if (area > largest * (1.0 - kSame)) all.push_back({area, {corners[i], corners[j], corners[k]}});
      }
  std::vector<std::array<Vec3, 3>> out;
  for (const auto& [area, three] : all)
    if (area > largest * (1.0 - kSame)) out.push_back(three);
  return out;
}

std::vector<std::array<Place, 6>> ways(const Checking& c, const FixturePlan& fixture, const Six& six) {
  std::vector<std::array<Place, 6>> out;
  const auto add = [&](const Place& one, const Place& two, const Place& three) {
    out.push_back({one, two, three, six.along_y[0], six.along_y[1], six.along_x[0]});
  };
  if (!six.table) {
    add(six.under[0], six.under[1], six.under[2]);
    return out;
  }
  constexpr Vec3 kUp{0, 0, 1};
  for (const std::array<Vec3, 3>& three : widest(lying(c, fixture)))
    add({three[0], kUp}, {three[1], kUp}, {three[2], kUp});
  return out;
}

} // namespace

void check_locating(const Checking& c, const FixturePlan& fixture) {
  const PlannedLocating& told = fixture.locating;
  const Six six = six_of(fixture);
  // A small form on which no stop finds a place is held from within alone.
  const bool no_stop = std::none_of(fixture.pieces.begin(), fixture.pieces.end(),
                                    [](const PlannedPiece& each) { return each.kind == "stop"; });
  if (no_stop && !fixture.stated && told.six.empty() && told.rank == 0) return;
  if (six.under.size() != (six.table ? 0U : 3U) || six.along_y.size() != 2 || six.along_x.size() != 1) {
    c.tell("the box is not located by three supports or the table, two stops and one");
    return;
  }
  Located low{6, 1e300, 1e300}, high;
  for (const std::array<Place, 6>& way : ways(c, fixture, six)) {
    const Located found = located(way, fixture.size_mm, told.error_mm);
    low = {std::min(low.rank, found.rank), std::min(low.determinant_mm3, found.determinant_mm3),
           std::min(low.worst_mm, found.worst_mm)};
    high = {std::max(high.rank, found.rank), std::max(high.determinant_mm3, found.determinant_mm3),
            std::max(high.worst_mm, found.worst_mm)};
  }
  if (low.rank != 6 || told.rank != 6) {
    c.tell("the box is located with rank {}, told as {}", low.rank, told.rank);
    return;
  }
  if (!agree(std::abs(told.determinant_mm3), low.determinant_mm3, high.determinant_mm3))
    c.tell("the determinant of the six places is {:.9g} mm3, not {:.9g}", high.determinant_mm3,
           told.determinant_mm3);
  if (!agree(told.worst_mm, low.worst_mm, high.worst_mm))
    c.tell("a corner moves by {:.9g} mm at worst, not {:.9g}", high.worst_mm, told.worst_mm);
  const double apart_mm = std::abs(six.along_y[1].at.x - six.along_y[0].at.x);
  const double turn_deg = std::atan2(2.0 * told.error_mm, apart_mm) * 180.0 / kPi;
  if (!agree(told.turn_deg, turn_deg, turn_deg))
    c.tell("the two stops turn the box by {:.9g} deg at worst, not {:.9g}", turn_deg, told.turn_deg);
}

} // namespace tacksquare::verify
