#include "planning/tacks/tack_plan.h"

#include "base/ids.h"
#include "base/numbers.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>

namespace tacksquare {
namespace {

constexpr double kTape_mm = 5.0; // halvings lie on whole steps of this

enum class Turn { walls, rim, middle, corner, halving };

// Walls are tacked and squared before what stands inside them; the last face shuts the box.
enum class Stage { shell, inside, last_face };

// Passes in the order in which they are made.
struct Pass {
  Stage stage = Stage::shell;
  int round = 0;
  int order = 0; // within the round
  auto operator<=>(const Pass&) const = default;
};

struct Place {
  std::size_t seam = 0;
  double at_mm = 0.0, length_mm = 0.0;
  Vec3 point;
};

class Tacker {
 public:
  Tacker(const Box& box, const BoxGeometry& geometry, const Work& work)
      : box_(box), geometry_(geometry), work_(work), length_mm_(work.rules.tack_length_mm.value),
        pitch_mm_(work.rules.tack_pitch_mm.value), first_mm_(work.rules.first_tack_mm.value) {}

  std::vector<Tack> plan() {
    for (std::size_t seam = 0; seam < work_.seams.size(); ++seam)
      if (line(seam).leads) place_on(seam); // its tacks hold the other side of the line, too
    std::vector<Tack> tacks;
    std::optional<Vec3> last;
    std::pair<Stage, int> round_made{Stage::shell, -1};
    int round = -1;
    for (auto& [pass, places] : passes_) {
      const std::pair<Stage, int> now{pass.stage, pass.round};
      if (now != round_made) ++round;
      round_made = now;
      const bool from_other_side = pass.stage == Stage::shell && pass.round == 1 && last;
      for (const Place& place : crosswise(places, from_other_side ? last : std::nullopt)) {
        tacks.push_back(tack_at(place, round));
        last = place.point;
      }
    }
    return tacks;
  }

 private:
  const SeamLine& line(std::size_t seam) const { return geometry_.seams[work_.seams[seam].seam]; }
  const Seam& stated(std::size_t seam) const { return box_.seams[work_.seams[seam].seam]; }

  bool of_last_face(std::size_t box_seam) const {
    const Seam& seam = box_.seams[box_seam];
    return work_.last_face &&
           (box_.faces[seam.face_a].id == *work_.last_face || box_.faces[seam.face_b].id == *work_.last_face);
  }
  // The rim of the moment: a free edge, where the last face will close the box, or where a lip's butt seam
  // goes on to the free edge.
  bool rim_end(std::size_t seam, bool at_start) const {
    const SeamLine& l = line(seam);
    const auto& meeting = at_start ? l.at_start : l.at_end;
    return (at_start ? l.start_at_rim : l.end_at_rim) ||
           std::any_of(meeting.begin(), meeting.end(), [&](std::size_t other) {
             return of_last_face(other) || (is_butt(other) && at_rim(geometry_.seams[other]));
           });
  }
  bool is_butt(std::size_t box_seam) const { return box_.seams[box_seam].joint == JointKind::butt; }
  static bool at_rim(const SeamLine& l) { return l.start_at_rim || l.end_at_rim; }
  // A butt seam between lips follows the corner that it goes on from.
  bool follows_a_corner(std::size_t seam) const {
    const SeamLine& l = line(seam);
    if (!is_butt(work_.seams[seam].seam)) return false;
    const auto corner = [&](std::size_t other) { return box_.seams[other].joint == JointKind::corner; };
    return std::any_of(l.at_start.begin(), l.at_start.end(), corner) ||
           std::any_of(l.at_end.begin(), l.at_end.end(), corner);
  }
  Stage stage_of(std::size_t seam) const {
    if (of_last_face(work_.seams[seam].seam)) return Stage::last_face;
    return stated(seam).joint == JointKind::tee ? Stage::inside : Stage::shell;
  }

  // Middles of the stitches, from start to end; none for a continuous seam.
  std::vector<double> stitch_middles(std::size_t seam) const {
    std::vector<double> middles;
    for (const Run& run : work_.runs)
      if (stated(seam).stitch && run.seam == seam && !run.dab)
        middles.push_back(0.5 * (run.from_mm + run.to_mm));
    std::sort(middles.begin(), middles.end());
    return middles;
  }

  void place_on(std::size_t seam) {
    const double length = work_.seams[seam].length_mm;
    const std::vector<double> stitches = stitch_middles(seam);
    const auto near_end = [&](bool free) {
      return std::round(free ? first_mm_ : first_mm_ + 0.5 * length_mm_);
    };
    const SeamLine& l = line(seam);
    const double from = stitches.empty() ? near_end(l.start_at_rim) : stitches.front();
    const double to = stitches.empty() ? std::round(length - near_end(l.end_at_rim)) : stitches.back();
    const Stage stage = stage_of(seam);
    const bool lid = stage == Stage::last_face, later = lid || follows_a_corner(seam);
    const bool start_rim = !later && rim_end(seam, true), end_rim = !later && rim_end(seam, false);
    // Without a rim end to hold them, the walls stand by the middle tack.
    const Turn middle = later || start_rim || end_rim ? Turn::middle : Turn::walls;

    const bool room = length >= 2.0 * first_mm_ && to - from >= 2.0 * length_mm_;
    if (!room) {
      const double at = stitches.empty() ? std::round(0.5 * length) : nearest_allowed(stitches, 0.5 * length);
      add(seam, at,
          start_rim || end_rim     ? Turn::rim
          : follows_a_corner(seam) ? Turn::corner
                                   : middle,
          0, stage);
      return;
    }
    add(seam, from, start_rim ? Turn::rim : Turn::corner, 0, stage);
    add(seam, to, end_rim ? Turn::rim : Turn::corner, 1, stage);
    std::vector<double> made = {from, to};
    for (int level = 0;; ++level) {
      std::vector<double> added;
      for (std::size_t i = 0; i + 1 < made.size(); ++i) {
        if (made[i + 1] - made[i] <= pitch_mm_) continue;
        const double wanted = 0.5 * (level == 0 ? length : made[i] + made[i + 1]);
        const double at = nearest_allowed(stitches, wanted);
        if (at > made[i] && at < made[i + 1]) added.push_back(at);
      }
      if (added.empty()) return;
      for (std::size_t i = 0; i < added.size(); ++i)
        add(seam, added[i], level == 0 ? middle : Turn::halving,
            level == 0 ? 0 : level * 1000 + static_cast<int>(i), stage);
      made.insert(made.end(), added.begin(), added.end());
      std::sort(made.begin(), made.end());
    }
  }

  static double nearest_allowed(const std::vector<double>& stitches, double wanted) {
    if (stitches.empty()) return round_to(wanted, kTape_mm);
    return *std::min_element(stitches.begin(), stitches.end(),
                             [&](double a, double b) { return std::abs(a - wanted) < std::abs(b - wanted); });
  }

  Vec3 point(std::size_t seam, double at_mm) const {
    const SeamLine& l = line(seam);
    return l.start + (l.end - l.start) * (at_mm / work_.seams[seam].length_mm);
  }
  bool over_vent(std::size_t seam, Vec3 p) const {
    return std::any_of(box_.vents.begin(), box_.vents.end(), [&](const Vent& vent) {
      if (vent.face != stated(seam).face_a && vent.face != stated(seam).face_b) return false;
      const Vec3 centre = box_.faces[vent.face].placement.at(vent.at);
      return norm(p - centre) < 0.5 * in_mm(vent.diameter) + first_mm_;
    });
  }

  void add(std::size_t seam, double at_mm, Turn turn, int order, Stage stage) {
    const double length = work_.seams[seam].length_mm;
    double tack = std::min(length_mm_, 0.5 * length);
    if (stated(seam).stitch) tack = std::min(tack, 0.5 * in_mm(stated(seam).stitch->length));
    for (double aside = 0.0; over_vent(seam, point(seam, at_mm)); aside += kTape_mm) {
      // Under a stitch or at an end of a short seam there may be no room beside the vent: no tack then.
      if (stated(seam).stitch || aside > 0.5 * length) return;
      for (const double tried : {at_mm + aside, at_mm - aside})
        if (tried >= tack && tried <= length - tack && !over_vent(seam, point(seam, tried))) {
          at_mm = tried;
          break;
        }
    }
    Pass pass{stage, 0, order};
    const bool lid = stage == Stage::last_face;
    switch (turn) {
    case Turn::walls:
      pass.order = -1;
      break;
    case Turn::rim:
      break;
    case Turn::middle:
      pass.round = lid ? 2 : 1; // the last face starts at its corners
      break;
    case Turn::corner:
      pass.round = lid ? 1 : 2;
      break;
    case Turn::halving:
      pass.round = 3 + order / 1000;
      break;
    }
    passes_[pass].push_back({seam, at_mm, tack, point(seam, at_mm)});
  }

  // Farthest from the tack before, ties by id.
  std::vector<Place> crosswise(std::vector<Place> left, std::optional<Vec3> last) const {
    std::sort(left.begin(), left.end(), [&](const Place& a, const Place& b) {
      return id_before(work_.seams[a.seam].id, work_.seams[b.seam].id);
    });
    constexpr double kAsFar_mm = 5.0; // nobody sees that one of two is farther by less: the first by id
    std::vector<Place> order;
    while (!left.empty()) {
      std::size_t chosen = 0;
      long long farthest = -1;
      for (std::size_t i = 0; i < left.size() && last; ++i) {
        const long long away = std::llround(norm(left[i].point - *last) / kAsFar_mm);
        if (away > farthest) {
          farthest = away;
          chosen = i;
        }
      }
      order.push_back(left[chosen]);
      last = left[chosen].point;
      left.erase(left.begin() + static_cast<std::ptrdiff_t>(chosen));
    }
    return order;
  }

  Tack tack_at(const Place& place, int round) const {
    Tack tack;
    tack.id = work_.seams[place.seam].id + "@" + fixed(place.at_mm, 0);
    tack.seam = place.seam;
    tack.at_mm = place.at_mm;
    tack.length_mm = place.length_mm;
    tack.round = round;
    tack.flat_after = stated(place.seam).side == WeldSide::outside; // no disc gets into an inside corner
    return tack;
  }

  const Box& box_;
  const BoxGeometry& geometry_;
  const Work& work_;
  double length_mm_, pitch_mm_, first_mm_;
  std::map<Pass, std::vector<Place>> passes_;
};

} // namespace

std::vector<Tack> plan_tacks(const Box& box, const BoxGeometry& geometry, const Work& work) {
  return Tacker(box, geometry, work).plan();
}

} // namespace tacksquare
