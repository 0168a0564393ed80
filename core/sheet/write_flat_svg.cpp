#include "base/escape.h"
#include "base/numbers.h"
#include "sheet/flat_files.h"
#include "sheet/flat_sizes.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tacksquare {
namespace {

constexpr double kTitleWide = 34.0;                               // of the line of words over it, in heights
constexpr double kSmallestText_mm = 4.0, kTextShare = 1.0 / 75.0; // of the pattern's longer side
constexpr const char* kStyle = "text{font-family:sans-serif;stroke:none}"
                               "#CUT{fill:none;stroke:#000;stroke-width:.5}"
                               "#BEND{fill:none;stroke:#05a;stroke-width:.5;stroke-dasharray:6 3}"
                               "#ETCH{fill:none;stroke:#b30;stroke-width:.5}#ETCH text{fill:#b30}"
                               "#SIZES{fill:none;stroke:#666;stroke-width:.3}#SIZES text{fill:#333}";

// Without zeros at its end.
std::string brief(double value, int decimals) {
  std::string text = fixed(value, decimals);
  while (text.back() == '0')
    text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

class SvgWriter {
 public:
  explicit SvgWriter(const FlatPattern& pattern)
      : pattern_(pattern),
        text_mm_(std::max(kSmallestText_mm, kTextShare * std::max(pattern.length_mm, pattern.width_mm))) {}

  std::string write() {
    const double left = 7.0 * text_mm_, right = 5.0 * text_mm_, top = 3.0 * text_mm_, under = 4.5 * text_mm_;
    origin_ = {left, top + pattern_.width_mm};
    const std::string wide = fixed(left + std::max(pattern_.length_mm, kTitleWide * text_mm_) + right, 2),
                      high = fixed(top + pattern_.width_mm + under, 2);
    out_ = fmt::format("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                       "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" "
                       "viewBox=\"0 0 {0} {1}\">\n<title>{2}</title>\n<style>{3}</style>\n",
                       wide, high, escaped(pattern_.part), kStyle);
    open("CUT");
    ring(pattern_.outline);
    for (const auto& hole : pattern_.holes) {
      if (const auto circle = circle_of(hole)) {
        out_ += fmt::format("<circle {} r=\"{}\"/>\n", place("cx", "cy", circle->first),
                            fixed(0.5 * circle->second, 4));
      } else {
        ring(hole);
      }
    }
    close();
    open("BEND");
    for (const FlatBend& bend : pattern_.bends)
      line(bend.start, bend.end);
    close();
    open("ETCH");
    for (const FlatMark& mark : pattern_.marks) {
      if (mark.height_mm > 0.0) {
        text(mark.from, mark.to - mark.from, mark.text, mark.height_mm, "middle");
      } else {
        line(mark.from, mark.to);
      }
    }
    close();
    open("SIZES");
    sizes();
    close();
    return std::move(out_) + "</svg>\n";
  }

 private:
  void open(const char* id) { out_.append("<g id=\"").append(id).append("\">\n"); }
  void close() { out_ += "</g>\n"; }
  Vec2 paper(Vec2 p) const { return {origin_.x + p.x, origin_.y - p.y}; }
  std::string place(const char* x, const char* y, Vec2 p) const {
    const Vec2 on = paper(p);
    return fmt::format("{}=\"{}\" {}=\"{}\"", x, fixed(on.x, 4), y, fixed(on.y, 4));
  }

  void ring(const std::vector<Vec2>& points) {
    out_ += "<polygon points=\"";
    for (std::size_t i = 0; i < points.size(); ++i) {
      const Vec2 p = paper(points[i]);
      out_.append(i == 0 ? "" : " ").append(fixed(p.x, 4)).append(",").append(fixed(p.y, 4));
    }
    out_ += "\"/>\n";
  }
  void line(Vec2 from, Vec2 to) {
    out_ += fmt::format("<line {} {}/>\n", place("x1", "y1", from), place("x2", "y2", to));
  }
  // height_mm: of a capital letter, 0.72 of the type. At the middle of it, read along d.
  void text(Vec2 at, Vec2 d, const std::string& words, double height_mm, const char* anchor) {
    const Vec2 along = norm(d) > 0.0 ? d * (1.0 / norm(d)) : Vec2{1.0, 0.0}, down{along.y, -along.x};
    const Vec2 foot = at + down * (0.5 * height_mm);
    out_ += fmt::format("<text {} font-size=\"{}\" text-anchor=\"{}\"", place("x", "y", foot),
                        fixed(height_mm / 0.72, 2), anchor);
    const std::string turned = fixed(-std::atan2(along.y, along.x) * 180.0 / kPi, 2);
    if (turned != "0.00") {
      const Vec2 on = paper(foot);
      out_ += fmt::format(" transform=\"rotate({} {} {})\"", turned, fixed(on.x, 4), fixed(on.y, 4));
    }
    out_.append(">").append(escaped(words)).append("</text>\n");
  }

  void sizes() {
    const double letter_mm = 0.72 * text_mm_;
    const Vec2 right{1.0, 0.0};
    text({0.0, pattern_.width_mm + 1.5 * text_mm_}, right,
         fmt::format("{} \u00b7 {} {} mm \u00b7 {} x {} mm \u00b1{} \u00b7 {} kg \u00b7 outside up",
                     pattern_.part, pattern_.sheet, shortest(pattern_.thickness_mm),
                     fixed(pattern_.length_mm, 2), fixed(pattern_.width_mm, 2),
                     shortest(pattern_.tolerance_mm), fixed(pattern_.mass_kg, 2)),
         letter_mm, "start");
    for (const SizePlace& size : flat_sizes(pattern_, text_mm_, [](double mm) { return fixed(mm, 2); })) {
      line(size.at, size.knee);
      const Vec2 foot =
          size.below ? size.label + Vec2{0.0, 0.8 * text_mm_} : size.label + Vec2{0.2 * text_mm_, 0.0};
      line(size.knee, foot);
      text(size.label, right, size.text, letter_mm, size.below ? "middle" : "end");
    }
    for (const FlatBend& bend : pattern_.bends)
      bend_name(bend);
  }

  // Along the bend's line, a quarter of the way on: clear of what is marked on the middles of the faces. The
  // outside is up, so walls are bent down.
  void bend_name(const FlatBend& bend) {
    Vec2 d = bend.end - bend.start;
    const double length = norm(d);
    if (length <= 0.0) return;
    Vec2 at = bend.start + d * 0.25;
    if (d.x < -1e-6 * length || (std::abs(d.x) <= 1e-6 * length && d.y < 0.0)) {
      d = d * -1.0; // read from below or from the right
      at = bend.end + d * 0.25;
    }
    const Vec2 above{-d.y / length, d.x / length};
    const double letter_mm = 0.72 * text_mm_;
    text(at + above * (0.9 * letter_mm), d,
         fmt::format("{}-{}, {}\u00b0 {}, r {}", bend.face_a, bend.face_b,
                     brief(std::abs(bend.angle_rad) * 180.0 / kPi, 1), bend.angle_rad < 0.0 ? "up" : "down",
                     brief(bend.radius_mm, 2)),
         letter_mm, "middle");
  }

  const FlatPattern& pattern_;
  double text_mm_;
  Vec2 origin_;
  std::string out_;
};

} // namespace

std::string write_flat_svg(const FlatPattern& pattern) {
  return SvgWriter(pattern).write();
}

} // namespace tacksquare
