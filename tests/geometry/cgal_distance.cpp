#include "cgal_distance.h"

#include <CGAL/MP_Float.h>
#include <CGAL/Polytope_distance_d.h>
#include <CGAL/Polytope_distance_d_traits_3.h>
#include <CGAL/Simple_cartesian.h>
#include <cmath>

namespace tacksquare::test {

double apart_by_cgal(const std::vector<Vec3>& a, const std::vector<Vec3>& b) {
  using Kernel = CGAL::Simple_cartesian<double>;
  using Traits = CGAL::Polytope_distance_d_traits_3<Kernel, CGAL::MP_Float, double>;
  const auto points = [](const std::vector<Vec3>& from) {
    std::vector<Kernel::Point_3> list;
    for (const Vec3 p : from)
      list.emplace_back(p.x, p.y, p.z);
    return list;
  };
  const auto p = points(a), q = points(b);
  CGAL::Polytope_distance_d<Traits> distance(p.begin(), p.end(), q.begin(), q.end());
  return std::sqrt(CGAL::to_double(distance.squared_distance_numerator()) /
                   CGAL::to_double(distance.squared_distance_denominator()));
}

} // namespace tacksquare::test
