#include "base/numbers.h"
#include "sheet/flat_files.h"

#include <cmath>
#include <fmt/format.h>

namespace tacksquare {
namespace {

// Texts of R12 are ASCII of one line.
std::string plain(const std::string& text) {
  std::string out = text;
  for (char& c : out)
    if (c < ' ' || c > '~') c = '_';
  return out;
}

class DxfWriter {
 public:
  std::string write(const FlatPattern& pattern) {
    head(pattern);
    tables();
    open("SECTION");
    group(2, "ENTITIES");
    ring(pattern.outline);
    for (const auto& hole : pattern.holes) {
      if (const auto circle = circle_of(hole)) {
        entity("CIRCLE", "CUT");
        point(10, circle->first);
        length(40, 0.5 * circle->second);
      } else {
        ring(hole);
      }
    }
    for (const FlatBend& bend : pattern.bends)
      line("BEND", bend.start, bend.end);
    for (const FlatMark& mark : pattern.marks) {
      if (mark.height_mm > 0.0) {
        text(mark);
      } else {
        line("ETCH", mark.from, mark.to);
      }
    }
    open("ENDSEC");
    open("EOF");
    return std::move(out_);
  }

 private:
  void group(int code, const std::string& value) { out_ += fmt::format("{:3}\n{}\n", code, value); }
  void number(int code, int value) { group(code, std::to_string(value)); }
  void length(int code, double mm) { group(code, fixed(mm, 4)); }
  void open(const char* what) { group(0, what); }
  void point(int code, Vec2 p) {
    length(code, p.x);
    length(code + 10, p.y);
    length(code + 20, 0.0);
  }
  void entity(const char* what, const char* layer) {
    open(what);
    group(8, layer);
  }

  void head(const FlatPattern& pattern) {
    group(999, "part " + plain(pattern.part) + ", sheet " + plain(pattern.sheet) + ", " +
                   shortest(pattern.thickness_mm) + " mm thick");
    group(999, fixed(pattern.length_mm, 2) + " x " + fixed(pattern.width_mm, 2) + " mm, edge to edge +-" +
                   shortest(pattern.tolerance_mm) + " mm");
    group(999, "millimetres 1:1, the outside of the box is up");
    open("SECTION");
    group(2, "HEADER");
    group(9, "$ACADVER");
    group(1, "AC1009");
    group(9, "$EXTMIN");
    point(10, {});
    group(9, "$EXTMAX");
    point(10, {pattern.length_mm, pattern.width_mm});
    open("ENDSEC");
  }

  void tables() {
    open("SECTION");
    group(2, "TABLES");
    table("LTYPE", 2);
    line_type("CONTINUOUS", "Solid line", {});
    line_type("DASHED", "Dashed", {6.0, -3.0});
    open("ENDTAB");
    table("LAYER", 4);
    layer("0", 7, "CONTINUOUS");
    layer("CUT", 7, "CONTINUOUS");
    layer("BEND", 5, "DASHED");
    layer("ETCH", 1, "CONTINUOUS");
    open("ENDTAB");
    table("STYLE", 1);
    open("STYLE");
    group(2, "STANDARD");
    number(70, 0);
    length(40, 0.0);
    length(41, 1.0);
    length(50, 0.0);
    number(71, 0);
    length(42, 2.5);
    group(3, "txt");
    group(4, "");
    open("ENDTAB");
    open("ENDSEC");
  }
  void table(const char* name, int rows) {
    open("TABLE");
    group(2, name);
    number(70, rows);
  }
  void line_type(const char* name, const char* told, const std::vector<double>& dashes) {
    open("LTYPE");
    group(2, name);
    number(70, 0);
    group(3, told);
    number(72, 65);
    number(73, static_cast<int>(dashes.size()));
    double whole = 0.0;
    for (const double dash : dashes)
      whole += dash < 0.0 ? -dash : dash;
    length(40, whole);
    for (const double dash : dashes)
      length(49, dash);
  }
  void layer(const char* name, int colour, const char* line_type) {
    open("LAYER");
    group(2, name);
    number(70, 0);
    number(62, colour);
    group(6, line_type);
  }

  void ring(const std::vector<Vec2>& points) {
    entity("POLYLINE", "CUT");
    number(66, 1); // vertices follow
    point(10, {});
    number(70, 1); // closed
    for (const Vec2 p : points) {
      entity("VERTEX", "CUT");
      point(10, p);
    }
    entity("SEQEND", "CUT");
  }

  void line(const char* layer, Vec2 from, Vec2 to) {
    entity("LINE", layer);
    point(10, from);
    point(11, to);
  }

  void text(const FlatMark& mark) {
    entity("TEXT", "ETCH");
    point(10, mark.from);
    length(40, mark.height_mm);
    group(1, plain(mark.text));
    const Vec2 d = mark.to - mark.from;
    length(50, std::atan2(d.y, d.x) * 180.0 / kPi);
    number(72, 1); // its middle, across and up, at the second point
    point(11, mark.from);
    number(73, 2);
  }

  std::string out_;
};

} // namespace

std::string write_flat_dxf(const FlatPattern& pattern) {
  return DxfWriter().write(pattern);
}

} // namespace tacksquare
