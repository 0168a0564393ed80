#include "base/numbers.h"
#include "sheet/html.h"

#include <cmath>

namespace tacksquare {

namespace {

const char* class_of(Stroke stroke) {
  switch (stroke) {
  case Stroke::outline:
    return "outline";
  case Stroke::hidden:
    return "hidden";
  case Stroke::seam:
    return "seam";
  case Stroke::seam_hidden:
    return "seam_hidden";
  case Stroke::tack:
    return "tack";
  case Stroke::run:
    return "run";
  case Stroke::bar:
    return "bar";
  case Stroke::bar_open:
    return "bar_open";
  case Stroke::dimension:
    break;
  }
  return "dimension";
}

const char* anchor_of(Anchor anchor) {
  return anchor == Anchor::start ? "start" : anchor == Anchor::end ? "end" : "middle";
}

std::string at(double mm) {
  return rounded(mm, 0.01);
}
std::string point(Vec2 p) {
  return at(p.x) + "," + at(p.y);
}

std::string arrow_head(Vec2 from, Vec2 to, Stroke stroke) {
  const double length = norm(to - from);
  if (length < 1e-6) return {};
  const Vec2 along = (to - from) * (1.0 / length);
  const Vec2 across{-along.y, along.x};
  const double size = std::min(stroke == Stroke::dimension ? 1.6 : 2.2, length);
  const Vec2 foot = to - along * size;
  return "<polygon class=\"head\" points=\"" + point(to) + " " + point(foot + across * (size * 0.35)) + " " +
         point(foot - across * (size * 0.35)) + "\"/>";
}

} // namespace

std::string svg(const Drawing& drawing, const std::string& id) {
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-labelledby=\"" + id + "t " +
                    id + "d\" width=\"" + at(drawing.width_mm) + "mm\" viewBox=\"0 0 " +
                    at(drawing.width_mm) + " " + at(drawing.height_mm) + "\"><title id=\"" + id + "t\">" +
                    escaped(drawing.title) + "</title><desc id=\"" + id + "d\">" + escaped(drawing.told) +
                    "</desc>\n";
  for (const DrawnLine& line : drawing.lines) {
    std::string points;
    for (const Vec2 p : line.points)
      points.append(points.empty() ? "" : " ").append(point(p));
    out += std::string("<") + (line.closed ? "polygon" : "polyline") + " class=\"" + class_of(line.stroke) +
           "\" points=\"" + points + "\"/>";
    if (line.arrow && line.points.size() > 1)
      out += arrow_head(line.points[line.points.size() - 2], line.points.back(), line.stroke);
    out += "\n";
  }
  for (const DrawnLabel& label : drawing.labels) {
    out += "<text x=\"" + at(label.at.x) + "\" y=\"" + at(label.at.y + 0.36 * label.size_mm) +
           "\" font-size=\"" + at(label.size_mm) + "\" text-anchor=\"" + anchor_of(label.anchor) + "\"" +
           (label.strong ? " font-weight=\"bold\"" : "") + ">" + escaped(label.text) + "</text>\n";
  }
  return out + "</svg>";
}

} // namespace tacksquare
