// Sizes over the faces that span an axis: docs/theory.md, "Where the millimetres of a size come from".
#include "opening/budgeting.h"

#include "formulas/wall.h"
#include "tables/practice.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::opening {

namespace {

constexpr double kAcross = 0.3; // cosine: lies across an axis
const Source kPlate{"plate on a turned bend, its ends held square", Mark::derived};
const Source kElasticBelly{"elastic box: by its welds alone", Mark::derived};
const Source kBelly{"bounds between a free edge and a fully tacked one", Mark::derived};

// One end of a span on the axis: how the face that spans it meets the wall there.
struct Attached {
  enum class How { free, bend, seam };
  How how = How::free;
  std::size_t index = 0; // of the seam
  std::size_t wall = 0;  // face
};
struct Over {
  std::size_t face = 0;
  std::array<Attached, 2> ends{};
};

Attached attached(const Budgeting& b, std::size_t face, const std::vector<std::size_t>& walls) {
  const Box& box = b.box();
  for (const std::size_t wall : walls) {
    for (const Bend& bend : box.parts[box.faces[face].part].bends)
      if (std::minmax(bend.face_a, bend.face_b) == std::minmax(face, wall))
        return {Attached::How::bend, 0, wall};
    for (std::size_t s = 0; s < box.seams.size(); ++s)
      if (std::minmax(box.seams[s].face_a, box.seams[s].face_b) == std::minmax(face, wall) &&
          b.geometry().seams[s].leads)
        return {Attached::How::seam, s, wall};
  }
  return {};
}

// The face ends where the box does and is joined to what stands there. A divider on a wall follows it.
bool joined(const Budgeting& b, const Over& over, const std::array<std::vector<std::size_t>, 2>& walls) {
  for (const std::size_t end : {std::size_t{0}, std::size_t{1}}) {
    const Attached& at = over.ends[end];
    if (at.how == Attached::How::free && !walls[end].empty()) return false;
    if (at.how != Attached::How::seam) continue;
    const Seam& seam = b.box().seams[at.index];
    if (seam.joint == JointKind::tee && seam.face_a == over.face) return false;
  }
  return true;
}

std::vector<Over> faces_over(const Budgeting& b) {
  std::vector<Over> found;
  const std::array<std::vector<std::size_t>, 2> walls = {b.walls_at(0), b.walls_at(1)};
  for (std::size_t f = 0; f < b.box().faces.size(); ++f) {
    if (!b.welded(f) || std::abs(b.along(b.box().faces[f].placement.normal())) > kAcross) continue;
    double low = 1e300, high = -1e300;
    for (const Vec3 p : b.geometry().faces[f].ring) {
      low = std::min(low, b.along(p));
      high = std::max(high, b.along(p));
    }
    const double near = 2.0 * b.thickness_mm(f);
    if (low > b.end(0) + near || high < b.end(1) - near) continue;
    const Over over{f, {attached(b, f, walls[0]), attached(b, f, walls[1])}};
    if (joined(b, over, walls)) found.push_back(over);
  }
  return found;
}

SizeCause fixed(const std::string& key, double mm) {
  return {key, Spread::normal, mm, 0.0, 0.0, 0.0, "", kReading};
}

// Plus or minus, 90 %: stated, else as usual.
SizeCause incoming(const std::string& key, const std::optional<Length>& stated, Length usual, double middle,
                   double common, const std::string& order) {
  const double reach = in_mm(stated.value_or(usual));
  return {key,   Spread::normal, middle, reach,
          reach, common,         order,  stated ? kJobFile : incoming_misfit().source};
}

SizeCause usual_blank(const Budgeting& b, double middle, const std::string& order) {
  return incoming("blank", b.job.incoming.blank, incoming_misfit().blank, middle, common_shares().blank,
                  order);
}

// What a sheet that is thicker than reckoned with adds: all of it where the wall covers the edge, half where
// it is half covered or bent, nothing where the edge covers the wall.
double thickness_off(const Budgeting& b, const Over& over) {
  double sum = 0.0;
  for (const Attached& end : over.ends) {
    if (!b.measured || end.how == Attached::How::free) continue;
    const std::size_t sheet = b.box().parts[b.box().faces[end.wall].part].sheet;
    for (const ThicknessReading& read : b.measured->thicknesses) {
      if (read.sheet != sheet) continue;
      double share = 0.5;
      if (end.how == Attached::How::seam) {
        const Seam& seam = b.box().seams[end.index];
        if (seam.over == end.wall) share = 1.0;
        if (seam.over == over.face && seam.corner == CornerStyle::lapped) share = 0.0;
      }
      sum += share * (in_mm(read.is) - in_mm(b.job.sheets[sheet].thickness));
    }
  }
  return sum;
}

// Cut edge to cut edge; of a folded part the face between two bends gets what its whole blank is off, since
// flanges are gauged from their edges.
SizeCause blank_of(const Budgeting& b, const Over& over, double thicker) {
  const std::size_t part = b.box().faces[over.face].part;
  if (b.measured)
    for (const BlankReading& read : b.measured->blanks) {
      if (read.part != part) continue;
      const bool lengthwise = std::abs(b.along(b.box().faces[over.face].placement.u)) > kAlong;
      const std::optional<Length>& off = lengthwise ? read.length_off : read.width_off;
      const double go = in_mm(b.job.incoming.blank.value_or(incoming_misfit().blank));
      if (off && in_mm(*off) <= go + 1e-9) // larger ones are trimmed
        return fixed("blank", in_mm(*off) + thicker);
    }
  return usual_blank(b, thicker, b.order_of(over.face));
}

double largest(const std::vector<Length>& all) {
  return in_mm(*std::max_element(all.begin(), all.end()));
}

// Which way a misfit of the corner goes: as a gap where the wall covers the edge and is held off it, as a
// step where the edge covers the wall. An open corner can give both ways, each by the root of a half.
void add_fit(const Budgeting& b, const Attached& end, std::vector<SizeCause>& causes) {
  const Seam& seam = b.box().seams[end.index];
  const bool open = !seam.over && seam.joint == JointKind::corner;
  const bool gapped = open || seam.over == end.wall;
  const double share = open ? std::sqrt(0.5) : 1.0, common = common_shares().fit;
  const FitReading* read = nullptr;
  if (b.measured)
    for (const FitReading& r : b.measured->fits)
      if (r.seam == end.index) read = &r;
  const Filled<double>& go = b.work().rules.gap_go_mm;
  const Filled<double>& step = b.work().rules.step_mm;
  // What is over the limits is put right before it is welded, and read again.
  const bool gap_read =
      read && !read->gaps.empty() && largest(read->gaps) <= b.work().rules.gap_colder_mm.value;
  if (gapped && gap_read)
    causes.push_back(fixed("fit-gap", share * largest(read->gaps)));
  else if (gapped)
    causes.push_back(even_cause("fit-gap", 0.0, share * go.value, common, "fit", go.source));
  if (gapped && !open) return;
  // The reading of a step does not say which of the two faces stands out.
  const bool known = read && !read->steps.empty() && std::abs(largest(read->steps)) <= step.value;
  const double reach = share * (known ? std::abs(largest(read->steps)) : step.value);
  causes.push_back(
      {"fit-step", Spread::triangular, 0.0, reach, reach, common, "fit", known ? kReading : step.source});
}

// Height of a wall from its bend to its free rim; nothing where the rim is not free or its ends are not held.
std::optional<double> held_wall_height(const Budgeting& b, std::size_t wall, const BendLine& line, Vec3 d) {
  int held = 0;
  for (std::size_t s = 0; s < b.box().seams.size(); ++s) {
    const SeamLine& seam = b.geometry().seams[s];
    const bool on = b.box().seams[s].face_a == wall || b.box().seams[s].face_b == wall;
    held += on && std::abs(dot(unit(seam.end - seam.start), d)) < kAcross;
  }
  if (held < 2) return std::nullopt;
  std::optional<double> height;
  for (std::size_t r = 0; r < b.geometry().rim.size(); ++r) {
    const auto& [from, to] = b.geometry().rim[r];
    if (b.geometry().rim_face[r] != wall || std::abs(dot(unit(to - from), d)) < kAlong) continue;
    const Vec3 away = from - line.start;
    height = std::max(height.value_or(0.0), norm(away - d * dot(away, d)));
  }
  return height;
}

// A wall that comes off square from the brake, is pulled in at its ends, and stands out or in between them.
// Only what stands out makes the box larger.
void add_lean(const Budgeting& b, std::size_t wall, std::vector<SizeCause>& causes) {
  for (const BendLine& line : b.geometry().bends) {
    const Bend& bend = b.box().parts[line.part].bends[line.bend];
    if (bend.face_a != wall && bend.face_b != wall) continue;
    const Vec3 d = unit(line.end - line.start);
    const std::optional<double> height = held_wall_height(b, wall, line, d);
    if (!height) continue;
    const Metal& metal = b.sheet_of(wall).metal;
    const auto out_by = [&](double lean_rad) {
      const formulas::WallHeld held =
          formulas::held_wall(*height, norm(line.end - line.start), lean_rad, b.thickness_mm(wall),
                              metal.youngs_MPa, metal.poisson);
      return std::max(0.0, held.largest_mm.value);
    };
    if (b.measured)
      for (const WallLeanReading& read : b.measured->leans) {
        const double leans = std::atan2(0.5 * (in_mm(read.one) + in_mm(read.other)), *height);
        // What is dressed or goes back to the brake is read again.
        if (read.face != wall || std::abs(leans) > in_rad(incoming_lean().go) + 1e-9) continue;
        causes.push_back(fixed("bend-lean", out_by(leans)));
        return;
      }
    const double lean = in_rad(b.job.incoming.bend.value_or(incoming_misfit().bend));
    causes.push_back({"bend-lean", Spread::normal, 0.0, 0.0, out_by(lean), common_shares().bend_lean,
                      b.order_of(wall), kPlate});
    return;
  }
}

std::vector<SizeCause> causes_over(const Budgeting& b, const Over& over) {
  std::vector<SizeCause> causes;
  const double thicker = thickness_off(b, over);
  int bends = 0;
  for (const Attached& end : over.ends)
    bends += end.how == Attached::How::bend;
  const bool whole_blank = bends == 2 || b.box().parts[b.box().faces[over.face].part].bends.empty();
  if (bends == 0 && !whole_blank)
    causes.push_back(
        usual_blank(b, thicker, b.order_of(over.face))); // a wall of a folded part: its own edges
  else if (whole_blank)
    causes.push_back(blank_of(b, over, thicker));
  else if (thicker != 0.0)
    causes.push_back(fixed("blank", thicker));
  for (int i = 0; i < bends; ++i)
    causes.push_back(incoming("bend-place", b.job.incoming.bend_place, incoming_misfit().bend_place, 0.0,
                              common_shares().bend_place, b.order_of(over.face)));
  for (const Attached& end : over.ends) {
    if (end.how != Attached::How::seam) continue;
    add_fit(b, end, causes);
    add_lean(b, end.wall, causes);
    if (!b.allowed()) add_belly(b, end.wall, causes);
  }
  return causes;
}

} // namespace

bool Budgeting::faces_out(std::size_t face, int which) const {
  constexpr double kSquare = 0.99;
  return welded(face) && along(box().faces[face].placement.normal()) * (which ? 1.0 : -1.0) >= kSquare;
}

double Budgeting::end(int which) const {
  const double out = which ? 1.0 : -1.0;
  double most = -1e300;
  for (std::size_t f = 0; f < box().faces.size(); ++f)
    if (faces_out(f, which))
      most = std::max(most, out * along(box().faces[f].placement.origin) + 0.5 * thickness_mm(f));
  return most > -1e300 ? out * most : along(which ? geometry().high : geometry().low);
}

std::vector<std::size_t> Budgeting::walls_at(int which) const {
  std::vector<std::size_t> found;
  const double side = end(which);
  for (std::size_t f = 0; f < box().faces.size(); ++f)
    if (faces_out(f, which) && std::abs(along(box().faces[f].placement.origin) - side) <= thickness_mm(f))
      found.push_back(f);
  return found;
}

SizeCause even_cause(const std::string& key, double low, double high, double common, const std::string& order,
                     const Source& source) {
  const double middle = 0.5 * (low + high);
  return {key, Spread::uniform, middle, middle - low, high - middle, common, order, source};
}

void add_belly(const Budgeting& b, std::size_t wall, std::vector<SizeCause>& causes) {
  if (b.known.elastic) {
    const auto found = b.known.elastic->belly_mm.find(b.box().faces[wall].id);
    if (found != b.known.elastic->belly_mm.end()) {
      // Where it is hollow the corners are the widest.
      const double middle = std::max(0.0, found->second.value), low = std::max(0.0, found->second.low),
                   high = std::max(0.0, found->second.high);
      if (high > 0.0)
        causes.push_back({"belly", Spread::normal, middle, middle - low, high - middle, common_shares().belly,
                          b.order_of(wall), kElasticBelly});
      return;
    }
  }
  for (const Expected& e : b.known.prediction->measures) {
    const Measure& m = b.work().measures[e.measure];
    if (m.kind != MeasureKind::belly || m.where != b.box().faces[wall].id) continue;
    const double most = std::min(e.mm.high, m.over_mm);
    if (most > 0.0) // tacked well most often
      causes.push_back(
          {"belly", Spread::triangular, 0.0, 0.0, most, common_shares().belly, b.order_of(wall), kBelly});
  }
}

std::vector<SizeCause> widest_place(const Budgeting& b) {
  std::vector<SizeCause> widest;
  double most = -1e300;
  for (const Over& over : faces_over(b)) {
    std::vector<SizeCause> here = causes_over(b, over);
    double mean = 0.0, variance = 0.0;
    for (const SizeCause& c : here) {
      mean += moments_of(c).mean_mm;
      variance += moments_of(c).variance_mm2;
    }
    const double reach = mean + kNinetyFive * std::sqrt(variance);
    if (reach <= most) continue;
    most = reach;
    widest = std::move(here);
  }
  if (most > -1e300) return widest;
  return {usual_blank(b, 0.0, b.order_of(0))}; // nothing spans it in one piece
}

} // namespace tacksquare::opening
