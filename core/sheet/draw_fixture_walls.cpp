// Walls of the box from outside, standing as they do on the table: how high each piece touches them.
#include "sheet/draw.h"
#include "sheet/flat_sizes.h"
#include "sheet/plain_text.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace tacksquare {

namespace {

constexpr double kWide_mm = 48.0, kHigh_mm = 40.0; // of the wall on paper, at most
constexpr double kLeft_mm = 22.0, kRight_mm = 12.0, kOver_mm = 10.0, kUnder_mm = 12.0;
constexpr double kPlaceSize_mm = 3.0, kIdSize_mm = 3.6;

// A place on the wall: to the right as seen from outside, and up from the table.
struct Touch {
  const PlannedPiece* piece;
  Vec2 at;
};

class WallDrawer {
 public:
  WallDrawer(const Composer& compose, const BoxPlan& box, const FaceOutline& face)
      : compose_(compose), face_(face), fixture_(*box.fixture), placer_(drawing_) {
    const Vec3 n = unit(face.placement.normal());
    out_ = {dot(n, fixture_.x), dot(n, fixture_.y), dot(n, fixture_.z)};
    right_ = cross(Vec3{0, 0, 1}, out_);
    for (const PlannedPiece& piece : fixture_.pieces)
      for (std::size_t i = 0; i < piece.table.size(); ++i)
        if (touches(piece, i)) touches_.push_back({&piece, flat(piece.table[i])});
  }

  bool stands() const {
    constexpr double kLying = 0.2;
    return std::abs(out_.z) < kLying && face_.outline.size() > 2;
  }
  const std::vector<Touch>& touching() const { return touches_; }

  Drawing draw() {
    std::vector<Vec2> ring;
    low_ = {std::numeric_limits<double>::max(), 0.0};
    high_ = {-low_.x, 1.0};
    for (const Vec2 corner : face_.outline) {
      const Vec2 p = flat(on_table(fixture_, face_.placement.at(corner)));
      low_.x = std::min(low_.x, p.x);
      high_ = {std::max(high_.x, p.x), std::max(high_.y, p.y)};
      ring.push_back(p);
    }
    scale_ = std::min(kWide_mm / std::max(high_.x - low_.x, 1.0), kHigh_mm / high_.y);
    drawing_.width_mm = kLeft_mm + (high_.x - low_.x) * scale_ + kRight_mm;
    drawing_.height_mm = kOver_mm + high_.y * scale_ + kUnder_mm;
    for (Vec2& p : ring)
      p = paper(p);
    line(std::move(ring), Stroke::outline, true);
    const double right_end = kLeft_mm + (high_.x - low_.x) * scale_ + 6.0;
    line({{kLeft_mm - 6.0, paper(low_).y + 0.5}, {right_end, paper(low_).y + 0.5}}, Stroke::tack);
    for (const Touch& touch : touches_)
      shape(touch);
    heights();
    zero();
    placer_.place({paper((low_ + high_) * 0.5), cleaned(face_.id), Anchor::middle,
                   face_.id.size() > 1 ? 4.0 : 6.0, true},
                  false);
    for (const auto& [label, of] : ids_)
      placer_.place_for(label, of);
    placer_.place(
        {{right_end, paper(low_).y + 3.6}, compose_.word("draw.fixture.table"), Anchor::end, 2.8, false},
        false);
    tell();
    crop(drawing_);
    return std::move(drawing_);
  }

 private:
  Vec2 flat(Vec3 on_the_table) const { return {dot(on_the_table, right_), on_the_table.z}; }
  Vec2 paper(Vec2 p) const {
    return {kLeft_mm + (p.x - low_.x) * scale_, kOver_mm + (high_.y - p.y) * scale_};
  }

  bool touches(const PlannedPiece& piece, std::size_t i) const {
    if (piece.kind == "backing-bar" || piece.kind == "support" || piece.kind == "former") return false;
    for (std::size_t f = 0; f < piece.faces.size(); ++f)
      if (piece.faces[f] == face_.id && (piece.kind != "bar-clamp" || f == i)) {
        // A spreader has two ends; the one near this wall counts.
        const Vec3 p = fixture_.origin + fixture_.x * piece.table[i].x + fixture_.y * piece.table[i].y +
                       fixture_.z * piece.table[i].z;
        constexpr double kAtWall_mm = 15.0;
        return piece.kind != "spreader" ||
               std::abs(dot(p - face_.placement.origin, unit(face_.placement.normal()))) < kAtWall_mm;
      }
    return false;
  }

  void line(std::vector<Vec2> points, Stroke stroke, bool closed = false) {
    for (std::size_t i = 1; i < points.size(); ++i)
      placer_.avoid(points[i - 1], points[i]);
    if (closed) placer_.avoid(points.back(), points.front());
    drawing_.lines.push_back({std::move(points), stroke, closed, false});
  }
  void box(Vec2 from, Vec2 to, Stroke stroke) {
    placer_.avoid(from, to);
    line({from, {to.x, from.y}, to, {from.x, to.y}}, stroke, true);
  }

  void shape(const Touch& touch) {
    const PlannedPiece& piece = *touch.piece;
    const Vec2 at = paper(touch.at);
    constexpr double kHalf_mm = 1.9;
    Vec2 label = at + Vec2{0.0, -4.8};
    if (piece.kind == "stop") { // stands on the table, a little higher than it touches
      box(at + Vec2{-kHalf_mm, -1.2}, {at.x + kHalf_mm, paper({0.0, 0.0}).y}, Stroke::bar);
    } else if (piece.kind == "corner-clamp" || piece.kind == "square") {
      const double half = std::clamp(0.5 * piece.foot_mm * scale_, 2.0, 6.0);
      const double out = touch.at.x < 0.5 * (low_.x + high_.x) ? 1.0 : -1.0;
      box(at + Vec2{0.0, -half}, at + Vec2{out * 3.0, half},
          piece.kind == "square" ? Stroke::hidden : Stroke::bar_open);
      label = at + Vec2{out * 7.5, 3.6};
    } else if (piece.kind == "spreader") {
      const std::vector<Vec2> ring = circle({at.x, at.y, 2.0 * kHalf_mm});
      placer_.avoid(at, at + Vec2{0.1, 0.1});
      line(ring, Stroke::hidden, true);
    } else {
      box(at - Vec2{kHalf_mm, kHalf_mm}, at + Vec2{kHalf_mm, kHalf_mm}, Stroke::bar);
    }
    ids_.push_back({{label, cleaned(piece.id), Anchor::middle, kIdSize_mm, true}, at});
  }

  // Along the left edge: each height once.
  void heights() {
    constexpr double kSame_mm = 0.25;
    std::vector<double> all{0.0, fixture_.size_mm.z};
    for (const Touch& touch : touches_) {
      all.push_back(touch.at.y);
      line({paper(touch.at), {kLeft_mm - 4.0, paper(touch.at).y}}, Stroke::dimension);
    }
    for (const PlannedPiece& piece : fixture_.pieces)
      if (piece.kind == "former" && !piece.table.empty()) level(piece, all);
    std::sort(all.begin(), all.end());
    std::vector<double> at, label;
    for (const double z : all) {
      if (!at.empty() && z - at.back() < kSame_mm) continue;
      at.push_back(z);
      label.push_back(-paper({low_.x, z}).y);
    }
    spread_apart(label, 1.4 * kPlaceSize_mm);
    for (std::size_t i = 0; i < at.size(); ++i) {
      const Vec2 base{kLeft_mm - 4.0, paper({low_.x, at[i]}).y}, foot{kLeft_mm - 7.5, -label[i]};
      line({base + Vec2{2.0, 0.0}, base, foot}, Stroke::dimension);
      placer_.place({foot - Vec2{0.8, 0.0}, compose_.place(at[i]), Anchor::end, kPlaceSize_mm, false}, false);
    }
  }

  // The former behind the wall.
  void level(const PlannedPiece& former, std::vector<double>& all) {
    if (std::find(former.faces.begin(), former.faces.end(), face_.id) == former.faces.end()) return;
    const double z = former.table.front().z;
    line({paper({low_.x, z}), paper({high_.x, z})}, Stroke::hidden);
    const Vec2 on_line = paper({0.65 * low_.x + 0.35 * high_.x, z});
    ids_.push_back(
        {{on_line + Vec2{0.0, 3.2}, cleaned(former.id), Anchor::middle, kIdSize_mm, true}, on_line});
    all.push_back(z);
  }

  // Where this wall has the datum corner.
  void zero() {
    constexpr double kNear_mm = 10.0;
    const double off = std::abs(dot(on_table(fixture_, face_.placement.origin), out_));
    if (off > kNear_mm) return;
    const Vec2 at = paper({0.0, 0.0});
    std::vector<Vec2> dot_ring = circle({at.x, at.y, 3.6});
    placer_.avoid(at - Vec2{1.8, 0.0}, at + Vec2{1.8, 0.0});
    line(std::move(dot_ring), Stroke::bar, true);
    placer_.place({at + Vec2{0.0, 5.4}, "0", Anchor::middle, 4.6, true}, false);
  }

  void tell() {
    std::vector<std::string> ids;
    for (const Touch& touch : touches_)
      if (std::find(ids.begin(), ids.end(), touch.piece->id) == ids.end()) ids.push_back(touch.piece->id);
    drawing_.title = compose_.line("draw.fixture.wall",
                                   {word("face", face_.id), word("unit", compose_.unit(ArgKind::length_mm))});
    drawing_.told = compose_.line("draw.fixture.wall.told", {word("face", face_.id), words("pieces", ids)});
  }

  const Composer& compose_;
  const FaceOutline& face_;
  const FixturePlan& fixture_;
  Drawing drawing_;
  LabelPlacer placer_;
  std::vector<Touch> touches_;
  std::vector<std::pair<DrawnLabel, Vec2>> ids_; // and what they name
  Vec3 out_, right_;                             // fixture's frame
  Vec2 low_, high_;                              // of the wall, as Touch::at
  double scale_ = 1.0;
};

} // namespace

std::vector<Drawing> draw_fixture_walls(const Composer& compose, const BoxPlan& box) {
  std::vector<const FaceOutline*> order;
  for (const std::string& side : {box.fixture->long_side, box.fixture->short_side, std::string()})
    for (const FaceOutline& face : box.faces) {
      const bool told = std::find(order.begin(), order.end(), &face) != order.end();
      if (!told && (side.empty() || face.id == side)) order.push_back(&face);
    }
  std::vector<Drawing> out;
  std::set<const PlannedPiece*> shown;
  for (const FaceOutline* face : order) {
    WallDrawer wall(compose, box, *face);
    bool news = false;
    for (const Touch& touch : wall.touching())
      news = news || shown.count(touch.piece) == 0;
    if (!wall.stands() || !news) continue;
    for (const Touch& touch : wall.touching())
      shown.insert(touch.piece);
    out.push_back(wall.draw());
  }
  return out;
}

} // namespace tacksquare
