// The row in its opening, from the front. What decides whether it goes in, gaps and coats of paint, is far
// smaller than a line on paper: it is drawn with sizes of its own, and the caption says so.
#include "sheet/draw.h"
#include "sheet/plain_text.h"
#include "sheet/row_names.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace {

constexpr double kPaper_mm = 186.0, kSide_mm = 31.0, kWall_mm = 5.0, kTop_mm = 9.0, kHigh_mm = 46.0;
constexpr double kGap_mm = 3.5, kCoat_mm = 1.1, kPacker_mm = 6.0, kOver_mm = 2.5;

class RowDrawer {
 public:
  RowDrawer(const Composer& compose, const Plan& plan)
      : compose_(compose), plan_(plan), row_(*plan.row), placer_(drawing_) {}

  Drawing draw() {
    drawing_.title = compose_.word("draw.row");
    drawing_.told = compose_.word("draw.row.told");
    drawing_.width_mm = kPaper_mm;
    drawing_.height_mm = floor_mm_ + 24.0;
    for (const StandFit& stand : row_.stands)
      highest_mm_ = std::max(highest_mm_, height_of(stand));
    if (row_.clear.height) highest_mm_ = std::max(highest_mm_, row_.clear.height->mm);
    draw_opening();
    draw_stands();
    draw_narrowest();
    for (const DrawnLabel& label : first_)
      placer_.place(label, false);
    for (const auto& [label, spots] : later_)
      placer_.place_if_free(label, spots);
    crop(drawing_);
    return std::move(drawing_);
  }

 private:
  double height_of(const StandFit& stand) const {
    for (const BoxPlan& box : plan_.boxes)
      if (box.id == stand.box) return box.high.z - box.low.z;
    return 0.0;
  }
  // A height above the floor, on paper.
  double level(double mm) const {
    return floor_mm_ - (highest_mm_ > 0.0 ? mm / highest_mm_ : 1.0) * kHigh_mm;
  }

  void line(Vec2 a, Vec2 b, Stroke stroke, bool arrow = false) {
    drawing_.lines.push_back({{a, b}, stroke, false, arrow});
  }
  void both_ways(Vec2 a, Vec2 b) {
    line((a + b) * 0.5, a, Stroke::dimension, true);
    line((a + b) * 0.5, b, Stroke::dimension, true);
    placer_.avoid(a, b);
  }
  void box(double x0, double y0, double x1, double y1, Stroke stroke) {
    drawing_.lines.push_back({{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, stroke, true, false});
  }
  void hatch(double x0, double y0, double x1, double y1) {
    constexpr double kPitch_mm = 2.2;
    const double width = x1 - x0, height = y1 - y0;
    for (double c = kPitch_mm; c < width + height; c += kPitch_mm) {
      const Vec2 low{x0 + std::max(0.0, c - height), y0 + std::min(c, height)},
          high{x0 + std::min(c, width), y0 + std::max(0.0, c - width)};
      line(low, high, Stroke::dimension);
    }
  }

  void draw_opening() {
    const double top = row_.clear.height ? level(row_.clear.height->mm) : floor_mm_ - kHigh_mm - 4.0;
    const double high = std::min(top, floor_mm_ - kHigh_mm);
    hatch(left_ - kWall_mm, high, left_, floor_mm_ + kWall_mm);
    hatch(right_, high, right_ + kWall_mm, floor_mm_ + kWall_mm);
    hatch(left_, floor_mm_, right_, floor_mm_ + kWall_mm);
    drawing_.lines.push_back({{{left_, high}, {left_, floor_mm_}, {right_, floor_mm_}, {right_, high}},
                              Stroke::seam,
                              false,
                              false});
    if (row_.clear.height) {
      line({left_, top}, {right_, top}, Stroke::seam);
      const double x = right_ + kWall_mm + 3.0;
      both_ways({x, floor_mm_}, {x, top});
      first_.push_back({{x + 1.5, (floor_mm_ + top) / 2},
                        compose_.quantity(ArgKind::length_mm, row_.clear.height->mm),
                        Anchor::start,
                        2.8,
                        false});
    }
    const double y = floor_mm_ + 18.0;
    line({left_, y - 2.5}, {left_, y + 1.5}, Stroke::dimension);
    line({right_, y - 2.5}, {right_, y + 1.5}, Stroke::dimension);
    both_ways({left_, y}, {right_, y});
    first_.push_back({{(left_ + right_) / 2, y + 2.8},
                      compose_.line("draw.row.clear", {word("width", fine(row_.clear.width.mm))}),
                      Anchor::middle,
                      3.4,
                      true});
  }

  void draw_stands() {
    const auto count = static_cast<double>(row_.stands.size());
    const double coat = row_.coating_mm > 0.0 ? kCoat_mm : 0.0;
    const bool over = row_.packer_mm == 0.0 && row_.as_aimed.value < 0.5 && row_.drawn.left_mm < 0.0;
    double nominal = 0.0, lost = 2.0 * coat * count + (over                   ? -kOver_mm
                                                       : row_.packer_mm > 0.0 ? kPacker_mm
                                                                              : 0.0);
    for (const StandFit& stand : row_.stands) {
      nominal += stand.nominal_mm + stand.overhang_mm;
      if (stand.gap_mm > 0.0) lost += kGap_mm;
    }
    const double scale = nominal > 0.0 ? (right_ - left_ - lost) / nominal : 0.0;
    double x = left_;
    for (std::size_t i = 0; i < row_.stands.size(); ++i) {
      const StandFit& stand = row_.stands[i];
      if (stand.gap_mm > 0.0) {
        below(x + kGap_mm / 2, compose_.line("draw.row.gap", {word("gap", fine(stand.gap_mm))}));
        x += kGap_mm;
      }
      const double width = (stand.nominal_mm + stand.overhang_mm) * scale;
      draw_stand(stand, i + 1, x + coat, x + coat + width, coat, 0.5 * stand.overhang_mm * scale);
      x += width + 2.0 * coat;
    }
    if (coat > 0.0 && !row_.stands.empty())
      below(left_ + (row_.stands.front().gap_mm > 0.0 ? kGap_mm : 0.0) + coat / 2,
            compose_.line("draw.row.coating", {word("coating", fine(row_.coating_mm))}));
    if (over) {
      below(right_, compose_.line("draw.row.over", {word("over", fine(-row_.drawn.left_mm))}));
    } else if (row_.packer_mm > 0.0) {
      const double high = level(row_.stands.empty() ? highest_mm_ : height_of(row_.stands.back()));
      box(x, high, right_, floor_mm_, Stroke::bar_open);
      hatch(x, high, right_, floor_mm_);
      below((x + right_) / 2, compose_.line("draw.row.packer", {word("packer", fine(row_.packer_mm))}));
    }
  }

  // Lips and lids stand out by `over` on either side, at the top.
  void draw_stand(const StandFit& stand, std::size_t number, double x0, double x1, double coat, double over) {
    const double high = level(height_of(stand)), middle = (x0 + x1) / 2;
    if (over > 0.0) line({x0, high}, {x1, high}, Stroke::seam);
    x0 += over;
    x1 -= over;
    if (coat > 0.0) {
      box(x0 - coat, high, x0, floor_mm_, Stroke::bar);
      box(x1, high, x1 + coat, floor_mm_, Stroke::bar);
    }
    box(x0, high, x1, floor_mm_, Stroke::outline);
    placer_.avoid({x0, high}, {x0, floor_mm_});
    placer_.avoid({x1, high}, {x1, floor_mm_});
    const double tall = floor_mm_ - high;
    first_.push_back({{middle, high + tall * 0.26}, std::to_string(number), Anchor::middle, 9.0, true});
    const double y = high + tall * 0.66;
    both_ways({x0, y}, {x1, y});
    const DrawnLabel size{{middle, y - 3.2},
                          compose_.quantity(ArgKind::length_mm, stand.target_mm, "gap-gauge", Rounding::down),
                          Anchor::middle,
                          4.2,
                          true};
    const DrawnLabel name{
        {middle, y + 3.4},
        compose_.line("row.copy", {word("name", kind_name(plan_, stand.box)), count("copy", stand.copy)}),
        Anchor::middle,
        2.8,
        false};
    const DrawnLabel last{{middle, y + 8.0}, compose_.word("row.note.cut-last"), Anchor::middle, 3.0, true};
    for (const DrawnLabel& label : {size, name})
      fit(label, x1 - x0);
    if (stand.cut_last) fit(last, x1 - x0);
  }

  // Smaller where it would not fit between the sides; left out where it could not be read: the table has it.
  void fit(DrawnLabel label, double room) {
    constexpr double kLeast_mm = 1.9, kAir_mm = 2.0;
    const double width = text_width_mm(label);
    if (width > room - kAir_mm) label.size_mm *= (room - kAir_mm) / width;
    if (label.size_mm >= kLeast_mm) first_.push_back(label);
  }

  // What is too small to stand in its place: below the floor, with a line up to it.
  void below(double x, const std::string& text) {
    const bool first_row = below_ % 2 == 0;
    ++below_;
    const double y = floor_mm_ + kWall_mm + (first_row ? 3.2 : 7.6);
    DrawnLabel label{{x, y}, text, Anchor::middle, 2.8, false};
    const LabelArea area = label_area(label, label.at);
    if (area.x0 < 0.5) label.at.x += 0.5 - area.x0;
    if (area.x1 > kPaper_mm - 0.5) label.at.x -= area.x1 - kPaper_mm + 0.5;
    line({x, floor_mm_ - 2.0}, {x, y - 2.0}, Stroke::dimension);
    later_.push_back({label, {label.at, label.at + Vec2{0, first_row ? 4.4 : -4.4}}});
  }

  // Arrows at the walls where the opening is narrowest, and the place in words.
  void draw_narrowest() {
    const std::string& at = row_.clear.width.at;
    const double part = at.find("top") != std::string::npos     ? 0.92
                        : at.find("under") != std::string::npos ? 0.10
                                                                : 0.5;
    const double y = floor_mm_ - part * kHigh_mm;
    line({left_ - kWall_mm - 7.0, y}, {left_, y}, Stroke::run, true);
    line({right_ + kWall_mm, y}, {right_, y}, Stroke::run, true);
    const double x = left_ - kWall_mm - 1.5;
    const std::string lines[] = {compose_.word("draw.row.narrowest"), fine(row_.clear.width.narrowest_mm),
                                 place_in_opening(compose_, at)};
    double down = -9.4;
    for (const std::string& text : lines) {
      first_.push_back({{x, y + down}, text, Anchor::end, &text == lines ? 2.4 : 2.8, &text == lines});
      down += 3.6;
    }
  }

  std::string fine(double mm) const { return compose_.quantity(ArgKind::fine_mm, mm); }

  const Composer& compose_;
  const Plan& plan_;
  const RowFit& row_;
  Drawing drawing_;
  LabelPlacer placer_;
  std::vector<DrawnLabel> first_;
  std::vector<std::pair<DrawnLabel, std::vector<Vec2>>> later_; // where there is room
  double left_ = kSide_mm, right_ = kPaper_mm - kSide_mm, floor_mm_ = kTop_mm + kHigh_mm;
  double highest_mm_ = 0.0;
  int below_ = 0;
};

} // namespace

Drawing draw_row(const Composer& compose, const Plan& plan) {
  return RowDrawer(compose, plan).draw();
}

} // namespace tacksquare
