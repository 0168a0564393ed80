// The table from above: the box as it lies, 0 in its corner below on the left, and every piece by a shape of
// its kind, with the places that are measured from 0 along both sides.
#include "sheet/draw.h"
#include "sheet/flat_sizes.h"
#include "sheet/plain_text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare {

namespace {

constexpr double kWide_mm = 112.0, kHigh_mm = 110.0; // of the box on paper, at most
constexpr double kLeft_mm = 34.0, kUnder_mm = 34.0, kBeside_mm = 16.0;
constexpr double kBase_mm = 10.0; // from the box to the line that places are ticked on
constexpr double kPlaceSize_mm = 3.2, kIdSize_mm = 3.8;

class PlanDrawer {
 public:
  PlanDrawer(const Composer& compose, const BoxPlan& box)
      : compose_(compose), box_(box), fixture_(*box.fixture), placer_(drawing_) {}

  Drawing draw() {
    const Vec3 size = fixture_.size_mm;
    scale_ = std::min(kWide_mm / std::max(size.x, 1.0), kHigh_mm / std::max(size.y, 1.0));
    drawing_.width_mm = kLeft_mm + size.x * scale_ + kBeside_mm;
    drawing_.height_mm = kBeside_mm + size.y * scale_ + kUnder_mm;
    drawing_.title = compose_.line("draw.fixture", {word("unit", compose_.unit(ArgKind::length_mm))});
    box_as_it_lies();
    for (const PlannedPiece& piece : fixture_.pieces)
      shape(piece);
    places(true);
    places(false);
    zero();
    faces();
    for (const auto& [label, of] : ids_)
      placer_.place_for(label, of);
    placer_.place({paper(Vec2{0.5 * size.x, 0.0}) + Vec2{0.0, kUnder_mm - 4.0},
                   compose_.word("draw.fixture.stand"), Anchor::middle, 3.4, true},
                  false);
    tell();
    crop(drawing_);
    return std::move(drawing_);
  }

 private:
  Vec2 paper(Vec2 p) const {
    return {kLeft_mm + p.x * scale_, kBeside_mm + (fixture_.size_mm.y - p.y) * scale_};
  }
  Vec2 paper(Vec3 p) const { return paper(Vec2{p.x, p.y}); }
  static Vec2 on_paper(Vec3 direction) { return {direction.x, -direction.y}; }

  void line(std::vector<Vec2> points, Stroke stroke, bool closed = false, bool arrow = false) {
    for (std::size_t i = 1; i < points.size(); ++i)
      placer_.avoid(points[i - 1], points[i]);
    if (closed) placer_.avoid(points.back(), points.front());
    drawing_.lines.push_back({std::move(points), stroke, closed, arrow});
  }
  // Nothing is written on it either.
  void solid(const std::vector<Vec2>& points, Stroke stroke) {
    for (std::size_t i = 2; i < points.size(); ++i)
      placer_.avoid(points[0], points[i]);
    line(points, stroke, true);
  }
  void round(Vec2 at, double radius, Stroke stroke) { solid(circle({at.x, at.y, 2.0 * radius}), stroke); }
  // From `from` to `to` along a direction, so wide on each side of it.
  void bar(Vec2 at, Vec2 along, double from, double to, double half, Stroke stroke) {
    const Vec2 across = Vec2{-along.y, along.x} * half;
    solid({at + along * from - across, at + along * to - across, at + along * to + across,
           at + along * from + across},
          stroke);
  }
  void id(const PlannedPiece& piece, Vec2 at, Vec2 of) {
    ids_.push_back({{at, cleaned(piece.id), Anchor::middle, kIdSize_mm, true}, of});
  }

  static double id_width(const PlannedPiece& piece) {
    return text_width_mm({{}, cleaned(piece.id), Anchor::middle, kIdSize_mm, true});
  }

  void box_as_it_lies() {
    for (const FaceOutline& face : box_.faces) {
      std::vector<Vec2> ring;
      for (const Vec2 corner : face.outline)
        ring.push_back(paper(on_table(fixture_, face.placement.at(corner))));
      if (ring.size() > 2) line(std::move(ring), Stroke::outline, true);
      if (face.id != fixture_.down) continue;
      for (const auto& hole : face.cutouts) {
        std::vector<Vec2> edge;
        for (const Vec2 corner : hole)
          edge.push_back(paper(on_table(fixture_, face.placement.at(corner))));
        if (edge.size() > 2) line(std::move(edge), Stroke::hidden, true);
      }
    }
  }

  void shape(const PlannedPiece& piece) {
    if (piece.kind == "backing-bar") return backing_bar(piece);
    if (piece.kind == "former") return former(piece);
    if (piece.table.empty()) return;
    const Vec2 at = paper(piece.table.front());
    if (piece.kind == "stop") {
      const Vec2 away = on_paper(piece.towards) * -1.0;
      bar(at, away, 0.4, 4.4, 2.6, Stroke::bar);
      const double beside = 3.35 + (std::abs(away.y) > 0.5 ? 0.5 * id_width(piece) : 0.5 * kIdSize_mm);
      const Vec2 side{std::abs(away.y), std::abs(away.x)};
      id(piece, at + away * (std::abs(away.y) > 0.5 ? 2.9 : 3.4) + side * beside, at + away * 2.4);
    } else if (piece.kind == "support") {
      bar(at, {1, 0}, -2.2, 2.2, 2.2, Stroke::bar_open);
      id(piece, at + Vec2{3.4 + 0.5 * id_width(piece), -0.6}, at);
    } else if (piece.kind == "hold-down") {
      round(at, 2.4, Stroke::bar_open);
      round(at, 1.0, Stroke::bar);
      // On the right: lines to the places go left and down.
      id(piece, at + Vec2{3.4 + 0.5 * id_width(piece), -0.6}, at);
    } else if (piece.kind == "bar-clamp" || piece.kind == "spreader") {
      between(piece);
    } else {
      corner(piece);
    }
  }

  // A bar with jaws outside, or one that pushes from within.
  void between(const PlannedPiece& piece) {
    const Vec2 a = paper(piece.table.front()), b = paper(piece.table.back());
    const double length = norm(b - a);
    if (length < 1.0) { // stands on end here
      round(a, 2.4, Stroke::bar);
      return id(piece, a + Vec2{0, -5.5}, a);
    }
    const Vec2 along = (b - a) * (1.0 / length);
    if (piece.kind == "spreader") {
      const Vec2 middle = (a + b) * 0.5;
      line({middle, a + along}, Stroke::run, false, true);
      line({middle, b - along}, Stroke::run, false, true);
    } else {
      bar(a, along * -1.0, 0.4, 3.2, 2.4, Stroke::bar);
      bar(b, along, 0.4, 3.2, 2.4, Stroke::bar);
      bar(a, along, 0.0, length, 0.7, Stroke::bar_open);
    }
    // Beside its line, nearer to the far end than the middle, where former and face letters are.
    const Vec2 on_bar = a + (b - a) * 0.72;
    id(piece, on_bar + Vec2{along.y, -along.x} * 3.4, on_bar);
  }

  // Both sides of the corner that is nearest, seen from it.
  void corner(const PlannedPiece& piece) {
    const Vec3 p = piece.table.front();
    const Vec2 at = paper(p);
    const Vec2 u{p.x < 0.5 * fixture_.size_mm.x ? -1.0 : 1.0, 0.0},
        v{0.0, p.y < 0.5 * fixture_.size_mm.y ? 1.0 : -1.0};
    const double arm = std::clamp(std::max(piece.foot_mm, 0.5 * piece.size_mm) * scale_, 5.0, 12.0);
    constexpr double kThick_mm = 1.8, kOff_mm = 0.4;
    if (piece.kind == "square") {
      const Vec2 c = at - (u + v) * 1.0;
      solid({c, c - u * arm, c - v * arm}, Stroke::bar_open);
      return id(piece, c - (u + v) * (0.5 * arm + 3.0), c - (u + v) * (0.3 * arm));
    }
    const Vec2 c = at + (u + v) * kOff_mm;
    solid({c, c - u * arm, c - u * arm + v * kThick_mm, c + (u + v) * kThick_mm, c - v * arm + u * kThick_mm,
           c - v * arm},
          Stroke::bar_open);
    id(piece, c + u * 5.5 + v * 4.5, c);
  }

  void former(const PlannedPiece& piece) {
    const Vec2 middle = paper(Vec2{0.5 * fixture_.size_mm.x, 0.5 * fixture_.size_mm.y});
    // Its width is the box's, which may run along y here.
    const bool turned = std::abs(fixture_.x.x) < 0.5;
    const Vec2 sides = turned ? Vec2{piece.height_mm, piece.width_mm} : Vec2{piece.width_mm, piece.height_mm};
    const auto frame = [&](double in) {
      const double x = 0.5 * sides.x * scale_ - in, y = 0.5 * sides.y * scale_ - in;
      const double cut = std::max(piece.clip_mm * scale_ - 0.6 * in, 0.0);
      std::vector<Vec2> ring;
      for (const Vec2 corner : {Vec2{1, 1}, {-1, 1}, {-1, -1}, {1, -1}}) {
        // The cut's ends in turn, so that the ring does not cross itself.
        const Vec2 along_x{corner.x * (x - cut), corner.y * y}, along_y{corner.x * x, corner.y * (y - cut)};
        const bool y_first = corner.x * corner.y > 0.0;
        ring.push_back(middle + (y_first ? along_y : along_x));
        if (cut > 0.0) ring.push_back(middle + (y_first ? along_x : along_y));
      }
      line(std::move(ring), Stroke::run, true);
    };
    constexpr double kInset_mm = 1.0, kBar_mm = 2.6;
    frame(kInset_mm);
    frame(kInset_mm + kBar_mm);
    // Close to its frame: what is nearer to it than to anything else is its name.
    const Vec2 on_frame =
        middle + Vec2{kInset_mm + kBar_mm - 0.5 * piece.width_mm * scale_, 0.12 * piece.height_mm * scale_};
    id(piece, on_frame + Vec2{1.0 + 0.5 * id_width(piece), 0.0}, on_frame);
  }

  void backing_bar(const PlannedPiece& piece) {
    const auto seam = std::find_if(box_.seams.begin(), box_.seams.end(),
                                   [&](const PlannedSeam& each) { return each.id == piece.seam; });
    if (seam == box_.seams.end() || !(seam->length_mm > 0.0)) return;
    const auto on_seam = [&](double mm) {
      return paper(on_table(fixture_, seam->start + (seam->end - seam->start) * (mm / seam->length_mm)));
    };
    const Vec2 middle = paper(Vec2{0.5 * fixture_.size_mm.x, 0.5 * fixture_.size_mm.y});
    const Vec2 from = on_seam(piece.from_mm), to = on_seam(piece.to_mm), centre = (from + to) * 0.5;
    // On the side of the box: the seam is at its outside.
    const Vec2 in{centre.x < middle.x ? 1.0 : -1.0, centre.y < middle.y ? 1.0 : -1.0};
    const double length = norm(to - from);
    if (length < 1.0) { // upright
      round(from + in * 2.6, 1.5, Stroke::bar);
      return id(piece, from + in * 8.0, from + in * 2.6);
    }
    const Vec2 along = (to - from) * (1.0 / length);
    Vec2 across{-along.y, along.x};
    if (dot(across, in) < 0.0) across = across * -1.0;
    bar(from + across * 2.4, along, 0.0, length, 1.0, Stroke::bar);
    id(piece, centre + across * 6.5, centre + across * 2.4);
  }

  // Where the place along x, or along y, is what somebody has to measure.
  static bool is_measured(const PlannedPiece& piece, bool along_x) {
    if (piece.table.empty()) return false;
    const Vec3 d = piece.table.back() - piece.table.front();
    if (piece.kind == "support" || piece.kind == "hold-down") return true;
    if (piece.kind == "stop") return (std::abs(piece.towards.x) > std::abs(piece.towards.y)) != along_x;
    if (piece.kind == "bar-clamp" || piece.kind == "spreader")
      return std::abs(along_x ? d.x : d.y) < 1.0 || (std::abs(d.x) >= 1.0 && std::abs(d.y) >= 1.0);
    return false;
  }

  void places(bool along_x) {
    constexpr double kSame_mm = 0.25;
    const double whole = along_x ? fixture_.size_mm.x : fixture_.size_mm.y;
    struct Tick {
      double at;
      Vec2 from; // on paper: what stands there
    };
    const auto edge = [&](double at) { return paper(along_x ? Vec2{at, 0.0} : Vec2{0.0, at}); };
    std::vector<Tick> ticks{{0.0, edge(0.0)}, {whole, edge(whole)}};
    for (const PlannedPiece& piece : fixture_.pieces)
      if (is_measured(piece, along_x)) {
        const Vec3 p = piece.table.front();
        ticks.push_back({along_x ? p.x : p.y, paper(p)});
      }
    std::stable_sort(ticks.begin(), ticks.end(), [](const Tick& a, const Tick& b) { return a.at < b.at; });
    std::vector<double> at, label;
    std::size_t widest = 0;
    const Vec2 base = along_x ? Vec2{0.0, kBase_mm} : Vec2{-kBase_mm, 0.0};
    for (const Tick& tick : ticks) {
      line({tick.from, edge(tick.at) + base}, Stroke::dimension);
      if (!at.empty() && tick.at - at.back() < kSame_mm) continue;
      at.push_back(tick.at);
      widest = std::max(widest, compose_.place(tick.at).size());
      const Vec2 on_base = edge(tick.at) + base;
      label.push_back(along_x ? on_base.x : -on_base.y);
    }
    const double wide = text_width_mm({{}, std::string(widest, '0'), Anchor::middle, kPlaceSize_mm, false});
    spread_apart(label, along_x ? wide + 2.0 : 1.4 * kPlaceSize_mm);
    const Vec2 axis = along_x ? Vec2{1, 0} : Vec2{0, -1};
    line({edge(0.0) + base, edge(whole) + base + axis * 9.0}, Stroke::dimension, false, true);
    placer_.place({edge(whole) + base + axis * 12.0, along_x ? "x" : "y", Anchor::middle, kIdSize_mm, true},
                  false);
    for (std::size_t i = 0; i < at.size(); ++i) {
      const Vec2 on_base = edge(at[i]) + base;
      const Vec2 foot = along_x ? Vec2{label[i], on_base.y + 3.2} : Vec2{on_base.x - 3.2, -label[i]};
      line({on_base, foot}, Stroke::dimension);
      placer_.place({along_x ? foot + Vec2{0.0, 0.8 * kPlaceSize_mm} : foot - Vec2{0.8, 0.0},
                     compose_.place(at[i]), along_x ? Anchor::middle : Anchor::end, kPlaceSize_mm, false},
                    false);
    }
  }

  void zero() {
    const Vec2 at = paper(Vec2{0.0, 0.0});
    round(at, 2.2, Stroke::bar);
    placer_.place({at + Vec2{-4.6, 4.6}, "0", Anchor::middle, 6.0, true}, false);
  }

  // Letters of the walls, inside along their edge; what lies on the table in the middle.
  void faces() {
    const Vec2 middle = paper(Vec2{0.5 * fixture_.size_mm.x, 0.5 * fixture_.size_mm.y});
    const std::string down = fixture_.down == "rim" ? compose_.word("draw.rim") : cleaned(fixture_.down);
    placer_.place(
        {middle, compose_.line("draw.fixture.down", {word("face", down)}), Anchor::middle, 4.4, true}, false);
    constexpr double kUpright = 0.5, kIn_mm = 8.0;
    for (const FaceOutline& face : box_.faces) {
      const Vec3 n = unit(face.placement.normal());
      const Vec2 out{dot(n, fixture_.x), -dot(n, fixture_.y)};
      if (face.id == fixture_.down || norm(out) < kUpright || face.outline.empty()) continue;
      Vec3 centre;
      for (const Vec2 corner : face.outline)
        centre = centre + face.placement.at(corner) * (1.0 / static_cast<double>(face.outline.size()));
      placer_.place({paper(on_table(fixture_, centre)) - out * (kIn_mm / norm(out)), cleaned(face.id),
                     Anchor::middle, face.id.size() > 1 ? 3.4 : 5.0, true},
                    false);
    }
  }

  void tell() {
    std::vector<Text> pieces;
    for (const PlannedPiece& piece : fixture_.pieces)
      pieces.push_back({"draw.fixture.piece",
                        {word("id", piece.id), word("what", compose_.term("fixture.kind.", piece.kind))}});
    drawing_.told = compose_.line("draw.fixture.told", {word("width", compose_.place(fixture_.size_mm.x)),
                                                        word("depth", compose_.place(fixture_.size_mm.y)),
                                                        list("pieces", std::move(pieces))});
  }

  const Composer& compose_;
  const BoxPlan& box_;
  const FixturePlan& fixture_;
  Drawing drawing_;
  LabelPlacer placer_;
  std::vector<std::pair<DrawnLabel, Vec2>> ids_; // and what they name
  double scale_ = 1.0;
};

} // namespace

Drawing draw_fixture(const Composer& compose, const BoxPlan& box) {
  return PlanDrawer(compose, box).draw();
}

} // namespace tacksquare
