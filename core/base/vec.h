// Points and directions in space, mm. +x right, +y away from the one who stands in front, +z up.
#pragma once

#include <cmath>

namespace tacksquare {

struct Vec2 {
  double x = 0.0, y = 0.0;
  constexpr bool operator==(const Vec2&) const = default;
  constexpr Vec2 operator+(Vec2 b) const { return {x + b.x, y + b.y}; }
  constexpr Vec2 operator-(Vec2 b) const { return {x - b.x, y - b.y}; }
  constexpr Vec2 operator*(double f) const { return {x * f, y * f}; }
};
constexpr double dot(Vec2 a, Vec2 b) {
  return a.x * b.x + a.y * b.y;
}
constexpr double cross(Vec2 a, Vec2 b) {
  return a.x * b.y - a.y * b.x;
}
inline double norm(Vec2 a) {
  return std::sqrt(dot(a, a));
}

struct Vec3 {
  double x = 0.0, y = 0.0, z = 0.0;
  constexpr bool operator==(const Vec3&) const = default;
  constexpr Vec3 operator+(Vec3 b) const { return {x + b.x, y + b.y, z + b.z}; }
  constexpr Vec3 operator-(Vec3 b) const { return {x - b.x, y - b.y, z - b.z}; }
  constexpr Vec3 operator-() const { return {-x, -y, -z}; }
  constexpr Vec3 operator*(double f) const { return {x * f, y * f, z * f}; }
};
constexpr double dot(Vec3 a, Vec3 b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
constexpr Vec3 cross(Vec3 a, Vec3 b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double norm(Vec3 a) {
  return std::sqrt(dot(a, a));
}
inline Vec3 unit(Vec3 a) {
  return a * (1.0 / norm(a));
}

// A plane's own frame: local (x, y) lie at origin + u x + v y; n = u x v is the outward normal.
struct Placement {
  Vec3 origin;
  Vec3 u{1, 0, 0};
  Vec3 v{0, 1, 0};
  Vec3 normal() const { return cross(u, v); }
  Vec3 at(Vec2 p) const { return origin + u * p.x + v * p.y; }
  Vec2 local(Vec3 p) const { return {dot(p - origin, u), dot(p - origin, v)}; }
  bool operator==(const Placement&) const = default;
};

} // namespace tacksquare
