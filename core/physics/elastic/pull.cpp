#include "physics/elastic/pull.h"

#include "physics/elastic/course.h"

#include <algorithm>

namespace tacksquare::elastic {

namespace {

using Kind = Event::Kind;

constexpr double kStiff_N_mm = 1e4;
constexpr std::size_t kPull = 0, kGround = 1, kGrounds = 6; // of the holds

// Where the box stands, no more than it takes: three points of a face, which read how it is pushed about. The
// diagonals read that, too, as little as their corners lie beside the metal.
void stand(const Face& face, std::vector<Figure>& figures) {
  const Placement& p = face.placement;
  const std::vector<Vec2>& outline = face.outline;
  const auto at = [&](std::size_t i) { return p.at(outline[i]); };
  // The corner across from the first: least in line with it and the second.
  std::size_t third = 2;
  const Vec3 along = unit(at(1) - at(0));
  const auto off = [&](std::size_t i) { return norm(cross(along, at(i) - at(0))); };
  for (std::size_t i = 3; i < outline.size(); ++i)
    if (off(i) > off(third) + 1e-6) third = i;
  const Vec3 normal = p.normal(), across = cross(normal, along);
  const auto add = [&](std::size_t corner, Vec3 direction) {
    figures.push_back({"ground", FigureKind::displacement, {at(corner)}, direction, 0});
  };
  for (const Vec3 direction : {along, across, normal})
    add(0, direction);
  add(1, normal);
  add(1, across);
  add(third, normal);
}

class Pulling {
 public:
  Pulling(BoxModel model, const Making& making, std::size_t seams)
      : model_(std::move(model)), cases_(cases_of(model_, seams)) {
    for (std::size_t i = 0; i < 1 + kGrounds; ++i)
      holds_.push_back({model_.measures[i], kStiff_N_mm, false, i == kPull ? 1.0 : 0.0});
    for (const Event& e : making.events) {
      if (e.kind == Kind::tack) tacks_.push_back(e);
      if (e.kind == Kind::weld) welds_.push_back(e);
    }
  }

  PullStays stays(std::size_t first) const {
    std::vector<Event> events;
    for (std::size_t i = 0; i < kGrounds; ++i)
      events.push_back({Kind::hold, kGround + i});
    const auto split = tacks_.begin() + static_cast<std::ptrdiff_t>(std::min(first, tacks_.size()));
    events.insert(events.end(), tacks_.begin(), split);
    events.push_back({Kind::hold, kPull});
    const std::size_t put_on = events.size() - 1;
    events.insert(events.end(), split, tacks_.end());
    const Event let_go{Kind::let_go, kPull};
    std::vector<Event> welded = welds_;
    welded.push_back(let_go);
    const Eigen::MatrixXd nothing = Eigen::MatrixXd::Zero(cases_.count(), 1);
    const BothEnds by_weld = make_both_ends(model_, events, welded, holds_, cases_, nothing);
    events.push_back(let_go);
    const auto tacked = [&](double stiffer) {
      BoxModel other = model_;
      for (Joint& tack : other.tacks)
        tack.stiffness *= stiffer;
      return make_history(other, events, holds_, cases_, nothing, {});
    };
    const std::vector<Moment> by_tack = tacked(1.0);
    const auto left = [](const std::vector<Moment>& moments) { return moments.back().measures(0, 0); };
    PullStays made;
    const double soft = left(tacked(1.0 / kTackStiffness)), stiff = left(tacked(kTackStiffness)),
                 kept = left(by_weld.kept), remelted = left(by_weld.remelted);
    made.until_tacked = {left(by_tack), std::min(soft, stiff), std::max(soft, stiff)};
    made.until_welded = {0.5 * (kept + remelted), std::min(kept, remelted), std::max(kept, remelted)};
    made.force_N = std::abs(by_tack[put_on].reactions(0, 0));
    return made;
  }

 private:
  BoxModel model_;
  Cases cases_;
  std::vector<Hold> holds_;
  std::vector<Event> tacks_, welds_;
};

} // namespace

std::vector<PullStays> pull_stays(const Job& job, const Box& box, const BoxGeometry& geometry,
                                  const Making& making, const ModelOptions& options, const Figure& diagonals,
                                  const std::vector<std::size_t>& first, Diagnostics& out) {
  std::vector<PullStays> made;
  const auto tacked = std::find_if(making.events.begin(), making.events.end(),
                                   [](const Event& e) { return e.kind == Kind::tack; });
  if (tacked == making.events.end()) return made;
  std::vector<Figure> figures{diagonals};
  stand(box.faces[box.seams[making.tacks[tacked->which].seam].face_a], figures);
  std::optional<BoxModel> model =
      make_box_model(job, box, geometry, making.tacks, making.welds, figures, {}, options, out);
  if (!model) return made;
  const Pulling pulling(std::move(*model), making, box.seams.size());
  for (const std::size_t tacks : first)
    made.push_back(pulling.stays(tacks));
  return made;
}

} // namespace tacksquare::elastic
