#include "elastic/walls.h"

namespace tacksquare::test {

namespace {

constexpr double kWide = 200.0; // of the base, mm

} // namespace

StatedBox wall(double tall, double deep, double t, double e, double nu, bool opposite) {
  StatedBox b;
  for (const double thick : {20.0 * t, t}) {
    Sheet sheet;
    sheet.thickness = mm(thick);
    sheet.metal.youngs_MPa = e;
    sheet.metal.poisson = nu;
    b.job.sheets.push_back(sheet);
  }
  b.box.id = "wall";
  const auto face = [&](const std::string& id, Placement placement, double across, std::size_t sheet) {
    Face f;
    f.id = id;
    f.part = b.box.parts.size();
    f.placement = placement;
    f.outline = {{0, 0}, {deep, 0}, {deep, across}, {0, across}};
    f.setback_mm.assign(4, 0.0);
    b.box.parts.push_back({id, sheet, false, {}, {}});
    b.box.faces.push_back(f);
    FaceGeometry g;
    g.area_mm2 = deep * across;
    for (const Vec2 p : f.outline)
      g.ring.push_back(f.placement.at(p));
    b.geometry.faces.push_back(g);
  };
  face("base", {{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}, kWide, 0);
  face("wall", {{0, 0, 0}, {1, 0, 0}, {0, 0, 1}}, tall, 1);
  b.box.parts[0].bends.push_back({0, 1, mm(1.0), {}});
  b.geometry.bends.push_back({0, 0, {0, 0, 0}, {deep, 0, 0}, 0.0});
  if (opposite) {
    face("opposite", {{deep, kWide, 0}, {-1, 0, 0}, {0, 0, 1}}, tall, 1);
    b.box.parts[0].bends.push_back({0, 2, mm(1.0), {}});
    b.geometry.bends.push_back({0, 1, {deep, kWide, 0}, {0, kWide, 0}, 0.0});
  }
  b.geometry.low = {0, 0, 0};
  b.geometry.high = {deep, kWide, tall};
  return b;
}

std::size_t point(StatedBox& b, Vec3 at, Vec3 direction) {
  b.figures.push_back({"p", elastic::FigureKind::displacement, {at}, direction, 0});
  return b.figures.size() - 1;
}

} // namespace tacksquare::test
