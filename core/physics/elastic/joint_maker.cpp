#include "physics/elastic/joint_maker.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tacksquare::elastic {

namespace {

using Eigen::VectorXd;

constexpr double kSharp = 0.2; // of the force's taper: over this a force that starts inside a seam is spread
constexpr int kSteps = 8;      // of the force where it grows

// From nothing at a seam's ends to the whole; ends that are not tapered start with the whole.
struct Profile {
  double length = 0.0, start_taper = 0.0, end_taper = 0.0;
  double at(double s) const {
    double value = 1.0;
    if (start_taper > 0.0) value = std::min(value, s / start_taper);
    if (end_taper > 0.0) value = std::min(value, (length - s) / end_taper);
    return std::clamp(value, 0.0, 1.0);
  }
  double mean(double from, double to) const {
    constexpr int kParts = 16;
    double sum = 0.0;
    for (int i = 0; i < kParts; ++i)
      sum += at(from + (to - from) * (i + 0.5) / kParts);
    return sum / kParts;
  }
};

} // namespace

double JointMaker::thickness(std::size_t face) const {
  return in_mm(sheet(face).thickness);
}

Index JointMaker::put(BoxReading reading) {
  readings.push_back(std::move(reading));
  return static_cast<Index>(readings.size()) - 1;
}

void JointMaker::find_lines() {
  for (const BendLine& b : geometry.bends) {
    const Bend& bend = box.parts[b.part].bends[b.bend];
    const Vec3 along = unit(b.end - b.start);
    const Vec3 into = cross(along, box.faces[bend.face_a].placement.normal());
    bend_lines.push_back(
        joint_line(box, bend.face_a, bend.face_b, b.start, b.end, into, slack(bend.face_a, bend.face_b)));
  }
  for (std::size_t s = 0; s < box.seams.size(); ++s) {
    const Seam& seam = box.seams[s];
    const SeamLine& line = geometry.seams[s];
    seam_lines.push_back(joint_line(box, seam.face_a, seam.face_b, line.start, line.end, line.into_a,
                                    slack(seam.face_a, seam.face_b)));
  }
}
std::vector<JointLine> JointMaker::all_lines() const {
  std::vector<JointLine> all = bend_lines;
  all.insert(all.end(), seam_lines.begin(), seam_lines.end());
  return all;
}

void JointMaker::read_on(const Plates& plates) {
  for (const JointLine& l : bend_lines)
    bend_readers.emplace_back(plates, l);
  for (const JointLine& l : seam_lines)
    seam_readers.emplace_back(plates, l);
}

LineSprings JointMaker::of_metal(const JointLine& line, double spring, double turn) const {
  const double e = std::min(sheet(line.a.face).metal.youngs_MPa, sheet(line.b.face).metal.youngs_MPa);
  const double t = std::min(thickness(line.a.face), thickness(line.b.face));
  return {spring * e, spring * e, spring * e, turn * e * t * t};
}

LineSprings JointMaker::tack_metal(std::size_t s) const {
  return options.of_seams.empty() ? of_metal(seam_lines[s], options.tack_spring, options.tack_turn)
                                  : options.of_seams[s].tack;
}

LineSprings JointMaker::weld_metal(std::size_t s) const {
  return options.of_seams.empty() ? of_metal(seam_lines[s], options.weld_spring, options.weld_turn)
                                  : options.of_seams[s].weld;
}

Joint JointMaker::tack_springs(const LineReader& reader, double from, double to, const LineSprings& metal,
                               double alone) {
  constexpr double kThicknesses = 5.0;
  const double cell_mm =
      kThicknesses * std::min(thickness(reader.line().a.face), thickness(reader.line().b.face));
  const auto cells = std::max(1, static_cast<int>(std::ceil((to - from) / cell_mm - 0.05)));
  std::vector<double> cuts;
  for (int c = 0; c < cells; ++c)
    cuts.push_back(from + (to - from) / cells * c);
  cuts.push_back(to);
  JointGive unseen = reader.unseen(from, to);
  for (double* give : {&unseen.along, &unseen.first, &unseen.second, &unseen.turn, &unseen.first_slope,
                       &unseen.second_slope})
    *give *= alone;
  return springs(reader, cuts, metal, unseen);
}

Joint JointMaker::springs(const LineReader& reader, const std::vector<double>& cuts, const LineSprings& metal,
                          const JointGive& unseen) {
  const JointLine& line = reader.line();
  const std::size_t cells = cuts.size() - 1;
  Joint joint;
  joint.from_mm = cuts.front();
  joint.to_mm = cuts.back();
  joint.cuts = cuts;
  std::vector<double> stiffness;
  const auto add = [&](BoxReading reading, double k) {
    joint.readings.push_back(put(std::move(reading)));
    stiffness.push_back(k);
  };
  const auto softened = [&](double k, double give) {
    return 1.0 / (1.0 / k + static_cast<double>(cells) * give);
  };
  for (std::size_t c = 0; c < cells; ++c) {
    const double a = cuts[c], b = cuts[c + 1], length = b - a;
    add(reader.jump(a, b, line.along), softened(metal.along * length, unseen.along));
    add(reader.jump(a, b, line.first), softened(metal.into_a * length, unseen.first));
    add(reader.jump(a, b, line.second), softened(metal.square_to_a * length, unseen.second));
    add(reader.turn(a, b), softened(metal.turn * length, unseen.turn));
    if (cells == 1) { // one alone must hold against turning across the line, too
      const double third = length * length * length / 12.0;
      add(reader.jump(a, b, line.first, shell::Weight::slope),
          softened(metal.into_a * third, unseen.first_slope));
      add(reader.jump(a, b, line.second, shell::Weight::slope),
          softened(metal.square_to_a * third, unseen.second_slope));
    }
  }
  joint.stiffness = Eigen::Map<const VectorXd>(stiffness.data(), static_cast<Index>(stiffness.size()));
  joint.apart = VectorXd::Zero(joint.stiffness.size());
  joint.shrunk.across = joint.shrunk.angle = joint.apart;
  return joint;
}

// Where side a is when the seam stands open.
Vec3 JointMaker::gap_direction(std::size_t s) const {
  const SeamLine& line = geometry.seams[s];
  const JointKind kind = box.seams[s].joint;
  return kind == JointKind::tee || kind == JointKind::lap ? line.into_a : unit(line.into_a - line.into_b);
}

// +1 when side a turns towards the welder by turning about the line's `along`.
double JointMaker::closing(std::size_t s) const {
  return dot(cross(seam_lines[s].along, seam_lines[s].first), geometry.seams[s].towards_welder) >= 0.0 ? 1.0
                                                                                                       : -1.0;
}

void JointMaker::shrinkage(Joint& joint, std::size_t s) {
  joint.seam = s;
  joint.shrunk = shrunk(joint, s, options.jump_taper_mm);
  if (options.second_taper_mm) joint.second = shrunk(joint, s, *options.second_taper_mm);
  const Vec3 apart = gap_direction(s);
  for (Index first = 0; first < 4 * cells_of(joint); first += 4) {
    joint.apart(first + 1) = dot(apart, seam_lines[s].first);
    joint.apart(first + 2) = dot(apart, seam_lines[s].second);
  }
}

Shrunk JointMaker::shrunk(const Joint& joint, std::size_t s, double taper_mm) {
  const Seam& seam = box.seams[s];
  const SeamLine& line = geometry.seams[s];
  const JointLine& joint_line = seam_lines[s];
  const double tip = std::min(taper_mm, line.length_mm / 3.0);
  // On a free rim nothing holds the end back.
  const bool start_free = line.start_at_rim && line.at_start.empty();
  const bool end_free = line.end_at_rim && line.at_end.empty();
  const Profile jump{line.length_mm, start_free ? 0.0 : tip, end_free ? 0.0 : tip};
  const bool base_only = seam.joint == JointKind::tee || seam.joint == JointKind::lap;
  // Each sheet is drawn in by half.
  const Vec3 drawn = (line.into_a - line.into_b) * -0.5;
  Shrunk made;
  made.across = made.angle = VectorXd::Zero(joint.stiffness.size());
  BoxReading base;
  for (Index first = 0; first < 4 * cells_of(joint); first += 4) {
    const auto cell = static_cast<std::size_t>(first / 4);
    const double a = joint.cuts[cell], b = joint.cuts[cell + 1];
    const double whole = jump.mean(a, b);
    if (base_only)
      add(base, seam_readers[s].strip(joint_line.b, a, b), whole);
    else {
      made.across(first + 1) = whole * dot(drawn, joint_line.first);
      made.across(first + 2) = whole * dot(drawn, joint_line.second);
    }
    made.angle(first + 3) = whole * closing(s);
  }
  if (base_only) made.across_load = put(std::move(base));
  return made;
}

// Unit shrinkage force over from..to: both sheets are pushed together along the seam, half the force on each,
// where the force grows from nothing and where it falls again. It does so smoothly: what pushes right at a
// free corner moves it by more than elements see.
BoxReading JointMaker::along_load(const Joint& joint) const {
  const double from = joint.from_mm, to = joint.to_mm, length = geometry.seams[joint.seam].length_mm;
  const double ramp = std::min(options.force_taper_mm, length / 3.0);
  const auto force = [&](double s) {
    if (ramp <= 0.0) return 1.0;
    const double x = std::clamp(std::min(s, length - s) / ramp, 0.0, 1.0);
    return x * x * (3.0 - 2.0 * x);
  };
  const LineReader& reader = seam_readers[joint.seam];
  BoxReading made;
  const auto push = [&](double a, double b, double amount) {
    if (b - a < 1e-6 || amount == 0.0) return;
    for (const LineSide* side : {&reader.line().a, &reader.line().b})
      add(made, reader.displacement(*side, a, b, reader.line().along), 0.5 * amount);
  };
  const double sharp = std::min(kSharp * options.force_taper_mm, 0.5 * (to - from));
  push(from, from + sharp, force(from));
  push(to - sharp, to, -force(to));
  const auto change = [&](double a, double b) {
    for (int i = 0; i < kSteps && a < b; ++i) {
      const double s = a + (b - a) / kSteps * i, next = a + (b - a) / kSteps * (i + 1);
      push(s, next, force(next) - force(s));
    }
  };
  change(from, std::min(to, ramp));
  change(std::max(from, length - ramp), to);
  return made;
}

} // namespace tacksquare::elastic
