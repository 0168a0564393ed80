// The boxes of the samples, and plainer ones built by hand.
#pragma once

#include "geometry/box_geometry.h"
#include "job/file/read_job.h"
#include "support/catch.h"

#include <fmt/format.h>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace tacksquare::test {

struct Case {
  Job job;
  Box box;
};

inline Sheet sheet(const std::string& metal, double t_mm) {
  Sheet s;
  s.id = metal;
  s.metal = *find_metal(metal);
  s.thickness = mm(t_mm);
  return s;
}

// The box of a sample.
inline Case sample(const std::string& name) {
  std::ifstream file(TACKSQUARE_SOURCE "/samples/" + name + ".xml", std::ios::binary);
  REQUIRE(file);
  std::ostringstream text;
  text << file.rdbuf();
  const JobReading reading = read_job(text.str());
  REQUIRE(reading.job);
  REQUIRE(reading.job->boxes.size() == 1);
  return {*reading.job, reading.job->boxes[0]};
}
inline Case locker() {
  return sample("gear-locker");
}
inline Case ballast_float() {
  return sample("ballast-float");
}
inline Case battery_box() {
  return sample("battery-box");
}
inline Case tray() {
  return sample("divided-tray");
}

// A part of its own with one flat face, its outline stated in space, counter-clockwise seen from outside. The
// first edge gives the direction of the face's x.
inline std::size_t add_face(Case& c, const std::string& id, const std::vector<Vec3>& corners) {
  Face face;
  face.id = id;
  face.part = c.box.parts.size();
  Vec3 n;
  for (std::size_t i = 0; i < corners.size(); ++i)
    n = n + cross(corners[i], corners[(i + 1) % corners.size()]);
  n = unit(n);
  face.placement.origin = corners[0];
  face.placement.u = unit(corners[1] - corners[0]);
  face.placement.v = cross(n, face.placement.u);
  for (const Vec3 p : corners)
    face.outline.push_back(face.placement.local(p));
  face.setback_mm.assign(corners.size(), 0.0);
  c.box.parts.push_back({id, 0, false, {}, {}});
  c.box.faces.push_back(face);
  return c.box.faces.size() - 1;
}

inline void add_seam(Case& c, std::size_t a, std::size_t b, JointKind joint = JointKind::corner) {
  Seam seam;
  seam.id = fmt::format("S{}", c.box.seams.size() + 1);
  seam.face_a = a;
  seam.face_b = b;
  seam.joint = joint;
  c.box.seams.push_back(seam);
}

inline BoxGeometry resolved(const Case& c) {
  Diagnostics out;
  BoxGeometry g = resolve_geometry(c.job, c.box, out);
  for (const Diagnostic& d : out.items())
    UNSCOPED_INFO(d.code << ": " << d.message);
  REQUIRE(out.items().empty());
  return g;
}

inline std::size_t face_of(const Case& c, const std::string& id) {
  for (std::size_t f = 0; f < c.box.faces.size(); ++f)
    if (c.box.faces[f].id == id) return f;
  FAIL("no face " << id);
  return 0;
}

inline std::size_t seam_of(const Case& c, const std::string& a, const std::string& b) {
  const std::size_t fa = face_of(c, a), fb = face_of(c, b);
  for (std::size_t s = 0; s < c.box.seams.size(); ++s) {
    const Seam& seam = c.box.seams[s];
    if ((seam.face_a == fa && seam.face_b == fb) || (seam.face_a == fb && seam.face_b == fa)) return s;
  }
  FAIL("no seam " << a << "-" << b);
  return 0;
}

inline bool near(Vec3 a, Vec3 b, double slack_mm = 1e-6) {
  return norm(a - b) <= slack_mm;
}

} // namespace tacksquare::test
