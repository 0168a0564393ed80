// The box in space: an oblique view, so that the front keeps its shape. What is behind metal is found by
// looking from many points of each edge towards the eye: slow beside other ways, but right for any polygons
// with any holes.
#include "sheet/draw.h"
#include "sheet/plain_text.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tacksquare {

namespace {

constexpr double kPaperWidth_mm = 88.0, kPaperHeight_mm = 76.0, kLeastHeight_mm = 60.0, kMargin_mm = 13.0;
const Vec3 kToEye =
    unit(Vec3{kDepthRight, -1.0, kDepthUp}); // all points on a line along it fall together on paper

// Even-odd rule; a point within slack of an edge counts as outside, so that a face does not hide its own
// edges.
bool inside(const std::vector<Vec2>& polygon, Vec2 p, double slack) {
  bool in = false;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const Vec2 a = polygon[j], b = polygon[i];
    if (const double squared = dot(b - a, b - a); squared > 0.0) {
      const Vec2 off = p - (a + (b - a) * std::clamp(dot(p - a, b - a) / squared, 0.0, 1.0));
      if (dot(off, off) < slack * slack) return false;
    }
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) in = !in;
  }
  return in;
}

// A face that may stand between a point and the eye.
class Cover {
 public:
  explicit Cover(const FaceOutline& face)
      : face_(&face), normal_(face.placement.normal()), towards_(dot(normal_, kToEye)) {
    for (const Vec2 p : face.outline) {
      low_ = {std::min(low_.x, p.x), std::min(low_.y, p.y)};
      high_ = {std::max(high_.x, p.x), std::max(high_.y, p.y)};
    }
  }

  bool hides(Vec3 p, double slack) const {
    if (std::abs(towards_) < 1e-9) return false;
    const double distance = dot(normal_, face_->placement.origin - p) / towards_;
    if (distance < slack) return false;
    const Vec2 at = face_->placement.local(p + kToEye * distance);
    if (at.x < low_.x || at.x > high_.x || at.y < low_.y || at.y > high_.y) return false;
    if (!inside(face_->outline, at, slack)) return false;
    return std::none_of(face_->cutouts.begin(), face_->cutouts.end(),
                        [&](const std::vector<Vec2>& hole) { return inside(hole, at, slack); });
  }

 private:
  static constexpr double kFar = std::numeric_limits<double>::max();
  const FaceOutline* face_;
  Vec3 normal_;
  double towards_;
  Vec2 low_{kFar, kFar}, high_{-kFar, -kFar};
};

struct Edge {
  Vec3 a, b;
  int faces = 1;
  bool seam = false;
  bool hole = false;
};

// a-b lies on c-d or the other way round.
bool along_same_line(Vec3 a, Vec3 b, Vec3 c, Vec3 d, double slack) {
  const double length = norm(d - c);
  if (length <= 0.0) return false;
  const Vec3 direction = (d - c) * (1.0 / length);
  for (const Vec3 p : {a, b}) {
    const double at = dot(p - c, direction);
    if (at < -slack || at > length + slack || norm(p - (c + direction * at)) > slack) return false;
  }
  return true;
}

class BoxDrawer {
 public:
  BoxDrawer(const Composer& compose, const BoxPlan& box)
      : compose_(compose), box_(box), placer_(drawing_), covers_(box.faces.begin(), box.faces.end()) {}

  Drawing draw() {
    fit();
    collect_edges();
    for (const Edge& edge : edges_)
      draw_edge(edge.a, edge.b, Stroke::outline, Stroke::hidden);
    for (const PlannedSeam& seam : box_.seams)
      draw_edge(seam.start, seam.end, Stroke::seam, Stroke::seam_hidden);
    draw_sizes();
    label();
    drawing_.title = compose_.word("draw.box");
    std::vector<std::string> seams, faces;
    for (const PlannedSeam& seam : box_.seams)
      seams.push_back(seam.id);
    for (const FaceOutline& face : box_.faces)
      faces.push_back(face.id);
    drawing_.told = compose_.line("draw.box.told", {words("seams", seams), words("faces", faces)});
    crop(drawing_);
    return std::move(drawing_);
  }

 private:
  void fit() {
    double x0 = std::numeric_limits<double>::max(), y0 = x0, x1 = -x0, y1 = -x0;
    low_ = {x0, x0, x0};
    high_ = {x1, x1, x1};
    for (const FaceOutline& face : box_.faces) {
      for (const Vec2 corner : face.outline) {
        const Vec3 p = face.placement.at(corner);
        low_ = {std::min(low_.x, p.x), std::min(low_.y, p.y), std::min(low_.z, p.z)};
        high_ = {std::max(high_.x, p.x), std::max(high_.y, p.y), std::max(high_.z, p.z)};
        const Vec2 at = oblique(p);
        x0 = std::min(x0, at.x), x1 = std::max(x1, at.x), y0 = std::min(y0, at.y), y1 = std::max(y1, at.y);
      }
    }
    const double width = std::max(x1 - x0, 1.0), height = std::max(y1 - y0, 1.0);
    scale_ = std::min((kPaperWidth_mm - 2 * kMargin_mm) / width, (kPaperHeight_mm - 2 * kMargin_mm) / height);
    drawing_.width_mm = kPaperWidth_mm;
    drawing_.height_mm = std::max(height * scale_ + 2 * kMargin_mm, kLeastHeight_mm);
    shift_ = {(kPaperWidth_mm - width * scale_) / 2 - x0 * scale_,
              (drawing_.height_mm - height * scale_) / 2 - y0 * scale_};
    slack_ = 1e-4 * norm(high_ - low_) + 1e-9;
  }

  Vec2 paper(Vec3 p) const { return oblique(p) * scale_ + shift_; }

  void add_edge(Vec3 a, Vec3 b, bool hole) {
    for (Edge& edge : edges_) {
      const bool same = (norm(edge.a - a) < slack_ && norm(edge.b - b) < slack_) ||
                        (norm(edge.a - b) < slack_ && norm(edge.b - a) < slack_);
      if (!same) continue;
      ++edge.faces;
      return;
    }
    Edge edge{a, b};
    edge.hole = hole;
    edges_.push_back(edge);
  }

  void collect_edges() {
    const auto add_ring = [&](const FaceOutline& face, const std::vector<Vec2>& ring, bool hole) {
      for (std::size_t i = 0; i < ring.size(); ++i)
        add_edge(face.placement.at(ring[i]), face.placement.at(ring[(i + 1) % ring.size()]), hole);
    };
    for (const FaceOutline& face : box_.faces) {
      add_ring(face, face.outline, false);
      for (const auto& hole : face.cutouts)
        add_ring(face, hole, true);
      for (const Vec3 vent : face.vents)
        add_ring(face, circle(vent), true);
    }
    for (Edge& edge : edges_)
      for (const PlannedSeam& seam : box_.seams)
        edge.seam = edge.seam || along_same_line(edge.a, edge.b, seam.start, seam.end, slack_);
    edges_.erase(std::remove_if(edges_.begin(), edges_.end(), [](const Edge& edge) { return edge.seam; }),
                 edges_.end());
  }

  bool hidden(Vec3 p) const {
    return std::any_of(covers_.begin(), covers_.end(),
                       [&](const Cover& cover) { return cover.hides(p, slack_ * 10); });
  }

  void draw_edge(Vec3 a, Vec3 b, Stroke seen, Stroke behind) {
    placer_.avoid(paper(a), paper(b));
    constexpr int kParts = 160;
    const auto at = [&](int i) { return a + (b - a) * (static_cast<double>(i) / kParts); };
    const auto hidden_part = [&](int i) { return hidden((at(i) + at(i + 1)) * 0.5); };
    for (int from = 0; from < kParts;) {
      const bool behind_metal = hidden_part(from);
      int to = from + 1;
      while (to < kParts && hidden_part(to) == behind_metal)
        ++to;
      drawing_.lines.push_back(
          {{paper(at(from)), paper(at(to))}, behind_metal ? behind : seen, false, false});
      from = to;
    }
  }

  // Outside sizes along the front, its left and the right side's lower edge.
  void draw_sizes() {
    const Vec3 size = box_.high - box_.low;
    const auto one = [&](Vec3 a, Vec3 b, Vec2 away, double value) {
      const Vec2 from = paper(a) + away, to = paper(b) + away;
      drawing_.lines.push_back({{(from + to) * 0.5, from}, Stroke::dimension, false, true});
      drawing_.lines.push_back({{(from + to) * 0.5, to}, Stroke::dimension, false, true});
      placer_.avoid(from, to);
      DrawnLabel label;
      label.text = compose_.quantity(ArgKind::length_mm, value);
      label.anchor = away.x < 0 ? Anchor::end : away.x > 0 ? Anchor::start : Anchor::middle;
      label.at = (from + to) * 0.5 +
                 (away.x == 0 ? Vec2{0, 2.4} : Vec2{away.x < 0 ? -1.0 : 1.5, away.x < 0 ? 0.0 : 1.5});
      placer_.place(label, false);
    };
    const Vec3 lo = low_, hi = high_;
    one({lo.x, lo.y, lo.z}, {hi.x, lo.y, lo.z}, {0, 4}, size.x);
    one({lo.x, lo.y, lo.z}, {lo.x, lo.y, hi.z}, {-4, 0}, size.z);
    one({hi.x, lo.y, lo.z}, {hi.x, hi.y, lo.z}, {3.5, 2.5}, size.y);
  }

  void label() {
    const Vec2 centre = paper((low_ + high_) * 0.5);
    for (const PlannedSeam& seam : box_.seams) {
      const Vec2 middle = paper((seam.start + seam.end) * 0.5);
      const Vec2 out = middle - centre;
      const double far = norm(out);
      DrawnLabel label{middle + (far > 1e-6 ? out * (4.0 / far) : Vec2{0, -4}), cleaned(seam.id),
                       Anchor::middle, 3.6, true};
      placer_.place(label);
    }
    for (const FaceOutline& face : box_.faces) {
      Vec2 sum;
      for (const Vec2 corner : face.outline)
        sum = sum + paper(face.placement.at(corner));
      const Vec2 middle =
          face.outline.empty() ? centre : sum * (1.0 / static_cast<double>(face.outline.size()));
      placer_.place({middle, cleaned(face.id), Anchor::middle, face.id.size() > 1 ? 3.4 : 5.0, true});
    }
    label_rim();
    DrawnLabel front{{paper({(low_.x + high_.x) / 2, low_.y, low_.z}).x, drawing_.height_mm - 2.5},
                     compose_.word("draw.front"),
                     Anchor::middle,
                     2.8,
                     false};
    placer_.place(front, false);
    const Vec2 foot{6.0, drawing_.height_mm - 4.0};
    drawing_.lines.push_back({{foot, foot + Vec2{0, -10}}, Stroke::run, false, true});
    placer_.place({foot + Vec2{1.5, -5}, compose_.word("draw.up"), Anchor::start, 3.2, true}, false);
  }

  // The free edge in the front or on top that lies lowest on paper: the bottom of an open front, the front of
  // an open top.
  void label_rim() {
    const Edge* rim = nullptr;
    for (const Edge& edge : edges_) {
      if (edge.hole || edge.faces != 1) continue;
      const Vec3 middle = (edge.a + edge.b) * 0.5;
      const bool at_limit = std::abs(middle.y - low_.y) < slack_ || std::abs(middle.z - high_.z) < slack_;
      if (!at_limit || hidden(middle)) continue;
      if (!rim || paper(middle).y > paper((rim->a + rim->b) * 0.5).y + 1e-6) rim = &edge;
    }
    if (!rim) return;
    const Vec2 a = paper(rim->a), b = paper(rim->b);
    const Vec2 right = a.x > b.x ? a : b, left = a.x > b.x ? b : a;
    placer_.place({left + (right - left) * 0.75 + Vec2{0.0, -2.6}, compose_.word("draw.rim"), Anchor::middle,
                   3.0, true});
  }

  const Composer& compose_;
  const BoxPlan& box_;
  Drawing drawing_;
  LabelPlacer placer_;
  std::vector<Cover> covers_;
  std::vector<Edge> edges_;
  Vec3 low_, high_;
  double scale_ = 1.0, slack_ = 0.0;
  Vec2 shift_;
};

} // namespace

Drawing draw_box(const Composer& compose, const BoxPlan& box) {
  return BoxDrawer(compose, box).draw();
}

} // namespace tacksquare
