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

// To a hundredth of a millimetre.
void put(std::string& out, double mm) {
  out += rounded(mm, 0.01);
}
void put(std::string& out, Vec2 p) {
  put(out, p.x);
  out += ',';
  put(out, p.y);
}

void put_arrow_head(std::string& out, Vec2 from, Vec2 to, Stroke stroke) {
  const double length = norm(to - from);
  if (length < 1e-6) return;
  const Vec2 along = (to - from) * (1.0 / length);
  const Vec2 across{-along.y, along.x};
  const double size = std::min(stroke == Stroke::dimension ? 1.6 : 2.2, length);
  const Vec2 foot = to - along * size;
  out += "<polygon class=\"head\" points=\"";
  put(out, to);
  for (const double side : {size * 0.35, -size * 0.35}) {
    out += ' ';
    put(out, foot + across * side);
  }
  out += "\"/>";
}

void put_line(std::string& out, const DrawnLine& line) {
  out.append(line.closed ? "<polygon" : "<polyline").append(" class=\"").append(class_of(line.stroke));
  out += "\" points=\"";
  for (const Vec2& p : line.points) {
    if (&p != line.points.data()) out += ' ';
    put(out, p);
  }
  out += "\"/>";
  if (line.arrow && line.points.size() > 1)
    put_arrow_head(out, line.points[line.points.size() - 2], line.points.back(), line.stroke);
  out += '\n';
}

void put_label(std::string& out, const DrawnLabel& label) {
  out += "<text x=\"";
  put(out, label.at.x);
  out += "\" y=\"";
  put(out, label.at.y + 0.36 * label.size_mm);
  out += "\" font-size=\"";
  put(out, label.size_mm);
  out.append("\" text-anchor=\"").append(anchor_of(label.anchor));
  out += label.strong ? "\" font-weight=\"bold\">" : "\">";
  out.append(escaped(label.text)).append("</text>\n");
}

} // namespace

std::string svg(const Drawing& drawing, const std::string& id) {
  const std::string width = rounded(drawing.width_mm, 0.01), height = rounded(drawing.height_mm, 0.01);
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-labelledby=\"" + id + "t " +
                    id + "d\" width=\"" + width + "mm\" viewBox=\"0 0 " + width + " " + height +
                    "\"><title id=\"" + id + "t\">" + escaped(drawing.title) + "</title><desc id=\"" + id +
                    "d\">" + escaped(drawing.told) + "</desc>\n";
  for (const DrawnLine& line : drawing.lines)
    put_line(out, line);
  for (const DrawnLabel& label : drawing.labels)
    put_label(out, label);
  return out + "</svg>";
}

} // namespace tacksquare
