#include "physics/elastic/fineness.h"

#include "geometry/polygon.h"
#include "physics/elastic/lines.h"
#include "physics/shell/grading.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace tacksquare::elastic {

namespace {

constexpr double kParts = 8.0; // that a short seam has

// Noise of a box turned in space must not cut it in another way.
double rounded(double mm) {
  constexpr double kStep_mm = 1e-6;
  return std::round(mm / kStep_mm) * kStep_mm;
}

} // namespace

Fineness::Fineness(const BoxGeometry& geometry, double mesh_mm, double end_mm)
    : mesh_mm_(mesh_mm), least_mm_(mesh_mm) {
  if (end_mm <= 0.0) return;
  for (const SeamLine& line : geometry.seams) {
    const double size = std::min(line.length_mm / kParts, end_mm);
    put(line.start, size);
    put(line.end, size);
  }
}

void Fineness::put(Vec3 at, double size_mm) {
  if (size_mm >= mesh_mm_) return;
  least_mm_ = std::min(least_mm_, size_mm);
  for (Place& p : places_)
    if (norm(p.at - at) < 1e-6) {
      p.size_mm = std::min(p.size_mm, size_mm);
      return;
    }
  places_.push_back({at, size_mm});
}

double Fineness::size_at(Vec3 point) const {
  double size = mesh_mm_;
  for (const Place& p : places_)
    size = std::min(size, shell::grown_mm(p.size_mm, norm(point - p.at)));
  return size;
}

std::vector<double> Fineness::cut(Vec3 start, Vec3 end, double from_mm, double to_mm) const {
  constexpr double kLonger = 0.05; // of an element: so much longer a piece may be
  const Vec3 along = unit(end - start);
  const shell::SizeAlong size{[&](double at) { return size_at(start + along * at); }, least_mm_};
  const double pieces = std::ceil(shell::pieces_along(size, from_mm, to_mm) - kLonger);
  return shell::cuts_along(size, from_mm, to_mm, static_cast<std::size_t>(std::max(1.0, pieces)));
}

std::vector<shell::FinePlace> Fineness::on_face(const Face& face, const Placement& frame) const {
  std::vector<Vec2> ring;
  for (const Vec2 p : face.outline)
    ring.push_back(frame.local(face.placement.at(p)));
  std::vector<shell::FinePlace> fine;
  for (const Place& p : places_) {
    const double off = std::abs(dot(p.at - frame.origin, frame.normal()));
    if (shell::grown_mm(p.size_mm, off) >= mesh_mm_) continue;
    Vec2 at = frame.local(p.at);
    double beside = 0.0;
    if (distance_to({ring, {}}, at) > 0.0) {
      const Vec2 on = nearest_on(ring, at);
      beside = norm(on - at);
      at = on;
    }
    const double size = shell::grown_mm(p.size_mm, std::hypot(off, beside));
    if (size < mesh_mm_) fine.push_back({{rounded(at.x), rounded(at.y)}, rounded(size)});
  }
  std::sort(fine.begin(), fine.end(), [](const auto& a, const auto& b) {
    return std::tuple(a.at.x, a.at.y, a.size_mm) < std::tuple(b.at.x, b.at.y, b.size_mm);
  });
  return fine;
}

} // namespace tacksquare::elastic
