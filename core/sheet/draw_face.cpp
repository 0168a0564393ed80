// One face flat, as seen from outside, with what is tacked and welded at its edges.
#include "sheet/draw.h"
#include "sheet/plain_text.h"
#include "sheet/quantities.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace tacksquare {

namespace {

constexpr double kLongest_mm = 38.0, kLongestBusy_mm = 64.0, kMarginX_mm = 13.0, kMarginY_mm = 10.5;
constexpr double kTick_mm = 1.6, kRunIn_mm = 3.6;

// Paper's axes in the face: up is up in space where the face stands, away from who looks where it lies.
struct Frame {
  Vec3 right, up;
};
Frame frame_of(const Placement& placement) {
  const Vec3 normal = unit(placement.normal());
  const Vec3 wish = std::abs(normal.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{0, 1, 0};
  const Vec3 up = unit(wish - normal * dot(wish, normal));
  return {cross(up, normal), up};
}

class FaceDrawer {
 public:
  FaceDrawer(const Composer& compose, const BoxPlan& box, const FaceOutline& face)
      : compose_(compose), box_(box), face_(face), frame_(frame_of(face.placement)), placer_(drawing_) {}

  Drawing draw() {
    fit();
    ring(face_.outline);
    for (const auto& hole : face_.cutouts)
      ring(hole);
    for (const Vec3 vent : face_.vents) {
      ring(circle(vent));
      const Vec2 edge = paper(face_.placement.at({vent.x, vent.y}));
      first_.push_back({edge + Vec2{0.0, 3.5}, compose_.word("draw.vent"), Anchor::middle, 2.6, false});
    }
    // All lines before all labels, so that a label moves out of the way of every line.
    for (const PlannedSeam& seam : box_.seams) {
      if (seam.face_a != face_.id && seam.face_b != face_.id) continue;
      draw_seam(seam);
    }
    for (const DrawnLabel& label : first_)
      placer_.place(label);
    for (const auto& [label, spots] : ticks_)
      placer_.place_if_free(label, spots);
    for (const DrawnLabel& label : later_)
      placer_.place(label);
    const Vec2 middle{drawing_.width_mm / 2, drawing_.height_mm / 2};
    placer_.place({middle, cleaned(face_.id), Anchor::middle, face_.id.size() > 1 ? 4.5 : 7.0, true}, false);
    const std::string name = compose_.text(face_.name);
    std::vector<Arg> title{word("id", face_.id), word("size", size())};
    if (name != cleaned(face_.id)) title.push_back(word("name", name));
    drawing_.title = compose_.line(title.size() > 2 ? "draw.face" : "draw.face.own", title);
    drawing_.told = compose_.line("draw.face.told", {word("id", face_.id)});
    crop(drawing_);
    return std::move(drawing_);
  }

 private:
  Vec2 flat(Vec3 p) const { return {dot(p, frame_.right), -dot(p, frame_.up)}; }
  Vec2 paper(Vec3 p) const { return flat(p) * scale_ + shift_; }

  void fit() {
    double x0 = std::numeric_limits<double>::max(), y0 = x0, x1 = -x0, y1 = -x0;
    for (const Vec2 corner : face_.outline) {
      const Vec2 at = flat(face_.placement.at(corner));
      x0 = std::min(x0, at.x), x1 = std::max(x1, at.x), y0 = std::min(y0, at.y), y1 = std::max(y1, at.y);
    }
    width_ = std::max(x1 - x0, 1e-6);
    height_ = std::max(y1 - y0, 1e-6);
    // Two seams leave room for three drawings side by side; more want a larger one.
    const auto seams = std::count_if(box_.seams.begin(), box_.seams.end(), [&](const PlannedSeam& seam) {
      return seam.face_a == face_.id || seam.face_b == face_.id;
    });
    scale_ = (seams > 2 ? kLongestBusy_mm : kLongest_mm) / std::max(width_, height_);
    drawing_.width_mm = width_ * scale_ + 2 * kMarginX_mm;
    drawing_.height_mm = height_ * scale_ + 2 * kMarginY_mm;
    shift_ = Vec2{kMarginX_mm, kMarginY_mm} - Vec2{x0, y0} * scale_;
  }

  void ring(const std::vector<Vec2>& points) {
    DrawnLine line{{}, Stroke::outline, true, false};
    for (const Vec2 point : points)
      line.points.push_back(paper(face_.placement.at(point)));
    for (std::size_t i = 0; i < line.points.size(); ++i)
      placer_.avoid(line.points[i], line.points[(i + 1) % line.points.size()]);
    drawing_.lines.push_back(std::move(line));
  }

  void draw_seam(const PlannedSeam& seam) {
    const Vec2 start = paper(seam.start), end = paper(seam.end);
    if (norm(end - start) < 0.5) return; // stands on end here
    const Vec2 along = (end - start) * (1.0 / norm(end - start));
    const Vec2 centre{drawing_.width_mm / 2, drawing_.height_mm / 2};
    Vec2 out{-along.y, along.x};
    if (dot(out, (start + end) * 0.5 - centre) < 0.0) out = out * -1.0;
    const auto at = [&](double mm) {
      return seam.length_mm > 0.0 ? start + (end - start) * (mm / seam.length_mm) : start;
    };
    drawing_.lines.push_back({{start, end}, Stroke::seam, false, false});
    placer_.avoid(start, end);
    const Anchor side = std::abs(out.x) < 0.5 ? Anchor::middle : out.x < 0 ? Anchor::end : Anchor::start;
    const double name_off = std::abs(out.x) < 0.5 ? 7.8 : 8.0;
    first_.push_back({(start + end) * 0.5 + out * name_off, cleaned(seam.id), side, 3.2, true});
    later_.push_back({start + out * 3.4 - along * 2.0, "0", side, 2.4, false});
    for (const PlannedTack& tack : box_.tacks) {
      if (tack.seam != seam.id) continue;
      const Vec2 middle = at(tack.at_mm);
      drawing_.lines.push_back(
          {{middle - out * kTick_mm, middle + out * kTick_mm}, Stroke::tack, false, false});
      const DrawnLabel label{middle + out * 3.2, compose_.place(tack.at_mm), side, 2.4, false};
      ticks_.push_back({label, {label.at, middle + out * 6.0}});
    }
    draw_runs(seam, at, out);
  }

  template <class At> void draw_runs(const PlannedSeam& seam, const At& at, Vec2 out) {
    const Vec2 in = out * -kRunIn_mm;
    for (std::size_t i = 0; i < box_.runs.size(); ++i) {
      const PlannedRun& run = box_.runs[i];
      if (run.seam != seam.id) continue;
      if (run.dab) {
        dab(at(run.to_mm));
        continue;
      }
      Vec2 from = at(run.from_mm) + in, to = at(run.to_mm) + in;
      const double length = norm(to - from);
      if (length > 4.0) { // a gap between one run and the next
        const Vec2 along = (to - from) * (1.0 / length);
        from = from + along * 0.8;
        to = to - along * 0.8;
      }
      drawing_.lines.push_back({{from, to}, Stroke::run, false, length > 2.0});
      placer_.avoid(from, to);
      const Anchor side = std::abs(out.x) < 0.5 ? Anchor::middle : out.x < 0 ? Anchor::start : Anchor::end;
      later_.push_back({(from + to) * 0.5 - out * 2.4, fmt::format("({})", i + 1), side, 2.6, true});
    }
  }

  // A dab is a spot: its number stands in the seam map.
  void dab(Vec2 p) {
    constexpr double kHalf_mm = 1.0;
    drawing_.lines.push_back(
        {{p + Vec2{0, -kHalf_mm}, p + Vec2{kHalf_mm, 0}, p + Vec2{0, kHalf_mm}, p + Vec2{-kHalf_mm, 0}},
         Stroke::bar,
         true,
         false});
  }

  std::string size() const {
    return range_text(compose_.quantity(ArgKind::length_mm, width_),
                      compose_.quantity(ArgKind::length_mm, height_), compose_.word("draw.by"));
  }

  const Composer& compose_;
  const BoxPlan& box_;
  const FaceOutline& face_;
  Frame frame_;
  Drawing drawing_;
  LabelPlacer placer_;
  std::vector<DrawnLabel> first_, later_;
  std::vector<std::pair<DrawnLabel, std::vector<Vec2>>>
      ticks_; // where there is room: the seam map has them all
  double width_ = 0.0, height_ = 0.0, scale_ = 1.0;
  Vec2 shift_;
};

} // namespace

Drawing draw_face(const Composer& compose, const BoxPlan& box, const FaceOutline& face) {
  return FaceDrawer(compose, box, face).draw();
}

} // namespace tacksquare
