#include "physics/elastic/reduced.h"

#include "base/random.h"
#include "physics/shell/dense.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

using Order = std::vector<std::size_t>;

// Of each weld the squares of forces seen there, in the measure of the springs' energy, so that shapes come
// out orthogonal in it.
class Seen {
 public:
  explicit Seen(const TackedBox& box) : box_(box) {
    for (const Joint& w : box.welds)
      squares_.push_back(MatrixXd::Zero(w.stiffness.size(), w.stiffness.size()));
  }

  // Of the springs of these welds, one after the other. Columns count alike, whatever their unit, but those
  // that are smaller than this part of the largest.
  void add(const Order& welds, MatrixXd forces, double weight, double least) {
    const auto each = [&](auto work) {
      Index row = 0;
      for (std::size_t k = 0; k < welds.size() && row < forces.rows(); ++k) {
        auto own = forces.middleRows(row, box_.welds[welds[k]].stiffness.size());
        work(own, welds[k]);
        row += own.rows();
      }
    };
    each([&](auto& own, std::size_t w) { own.array().colwise() /= box_.welds[w].stiffness.array().sqrt(); });
    const VectorXd size = forces.colwise().norm().transpose();
    for (Index c = 0; c < forces.cols(); ++c)
      if (size(c) > 0.0) forces.col(c) /= std::max(size(c), least * size.maxCoeff());
    each([&](auto& own, std::size_t w) { shell::add_square(squares_[w], own.transpose(), weight); });
  }

  // Of each weld: orthonormal columns, the most important first; the sign of each such that its largest part
  // is positive. lost: singular values left out, as part of the weld's largest.
  std::vector<MatrixXd> shapes(double lost) const {
    std::vector<MatrixXd> all;
    for (const MatrixXd& squares : squares_) {
      const shell::SymmetricModes modes = shell::symmetric_modes(squares, "shapes of a weld's forces");
      const Index n = squares.rows();
      Index kept = 1;
      while (kept < n && modes.values(n - 1 - kept) > lost * lost * modes.values(n - 1))
        ++kept;
      MatrixXd shapes = modes.vectors.rightCols(kept).rowwise().reverse();
      for (Index c = 0; c < kept; ++c) {
        Index at = 0;
        shapes.col(c).cwiseAbs().maxCoeff(&at);
        if (shapes(at, c) < 0.0) shapes.col(c) *= -1.0;
      }
      all.push_back(std::move(shapes));
    }
    return all;
  }

 private:
  const TackedBox& box_;
  std::vector<MatrixXd> squares_;
};

TackedBox with_shapes(const TackedBox& box, const std::vector<MatrixXd>& shapes) {
  TackedBox made;
  std::vector<MatrixXd> bases;
  Index readings = 0;
  const auto number = [&](Index old) { return old < 0 ? old : readings++; };
  for (std::size_t w = 0; w < box.welds.size(); ++w) {
    const Joint& from = box.welds[w];
    MatrixXd basis = from.stiffness.cwiseSqrt().asDiagonal() * shapes[w];
    Joint to = from;
    to.readings.clear();
    for (Index i = 0; i < basis.cols(); ++i)
      to.readings.push_back(readings++);
    to.stiffness = VectorXd::Ones(basis.cols());
    to.shrunk.across = basis.transpose() * from.shrunk.across;
    to.shrunk.angle = basis.transpose() * from.shrunk.angle;
    to.apart = basis.transpose() * from.apart;
    to.along_load = number(from.along_load);
    to.shrunk.across_load = number(from.shrunk.across_load);
    made.welds.push_back(std::move(to));
    bases.push_back(std::move(basis));
  }
  for (const Index m : box.measures)
    made.measures.push_back(number(m));

  // First one side of the compliance, then the other.
  const MatrixXd& c = box.structure.compliance;
  MatrixXd half(readings, c.cols());
  made.structure.motions = MatrixXd::Zero(readings, box.structure.motions.cols());
  made.structure.free = MatrixXd::Zero(readings, box.structure.free.cols());
  const auto each = [&](auto shape, auto single) {
    for (std::size_t w = 0; w < box.welds.size(); ++w) {
      shape(made.welds[w].readings, bases[w], box.welds[w].readings);
      if (box.welds[w].along_load >= 0) single(made.welds[w].along_load, box.welds[w].along_load);
      if (box.welds[w].shrunk.across_load >= 0)
        single(made.welds[w].shrunk.across_load, box.welds[w].shrunk.across_load);
    }
    for (std::size_t m = 0; m < box.measures.size(); ++m)
      single(made.measures[m], box.measures[m]);
  };
  each(
      [&](const Indices& to, const MatrixXd& basis, const Indices& from) {
        half(to, Eigen::all) = basis.transpose() * c(from, Eigen::all);
        made.structure.free(to, Eigen::all) = basis.transpose() * box.structure.free(from, Eigen::all);
      },
      [&](Index to, Index from) {
        half.row(to) = c.row(from);
        made.structure.free.row(to) = box.structure.free.row(from);
      });
  made.structure.compliance.resize(readings, readings);
  each(
      [&](const Indices& to, const MatrixXd& basis, const Indices& from) {
        made.structure.compliance(Eigen::all, to) = half(Eigen::all, from) * basis;
      },
      [&](Index to, Index from) { made.structure.compliance.col(to) = half.col(from); });
  return made;
}

// An order with every spring.
struct Exact {
  Order order;
  std::vector<Response> steps;
  std::vector<MatrixXd> forces;
};

// And the other way round: of every two welds each comes first once.
std::vector<Exact> both_ways(const TackedBox& box, Order order) {
  std::vector<Exact> both(2);
  for (Exact& e : both) {
    e.order = order;
    e.steps = weld_sequence(box, order, &e.forces);
    std::reverse(order.begin(), order.end());
  }
  return both;
}

// How far figures are off, as part of the largest, when all seams shrink alike in the worst of the three
// ways.
double off_by(const std::vector<Response>& steps, const std::vector<Response>& exact) {
  Response off = Response::Zero(exact[0].rows(), 3), all = off;
  Eigen::Array3d most_off = Eigen::Array3d::Zero(), largest = most_off;
  for (std::size_t k = 0; k < exact.size(); ++k) {
    off += steps[k] - exact[k];
    all += exact[k];
    most_off = most_off.max(off.cwiseAbs().colwise().maxCoeff().transpose().array());
    largest = largest.max(all.cwiseAbs().colwise().maxCoeff().transpose().array());
  }
  return (largest > 0.0).select(most_off / largest, 0.0).maxCoeff();
}

// Forces that unit loads on the measures call up in the finished box.
MatrixXd of_measures(const TackedBox& box) {
  const Closing all = closing_of(box.welds, 0);
  const Held held(box.structure, all.readings, all.stiffness);
  return held.answer(box.structure.compliance(all.readings, box.measures)).forces;
}

} // namespace

TackedBox reduced(const TackedBox& box, const Reduction& how) {
  if (box.welds.empty() || box.measures.empty()) return box;
  Order order(box.welds.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  Seen seen(box);
  const auto add = [&](std::vector<Exact> both) {
    for (Exact& e : both)
      for (MatrixXd& forces : e.forces)
        seen.add(e.order, std::move(forces), 1.0, 0.0);
  };
  // Measures count as much as the first four orders: a weld is in about half of an order's steps, with three
  // loads each.
  const double weight =
      4.0 * 1.5 * static_cast<double>(order.size()) / static_cast<double>(box.measures.size());
  seen.add(order, of_measures(box), weight, 0.01);
  Random random(how.seed);
  for (int pair = 0; pair < 2; ++pair) {
    random.shuffle(order);
    add(both_ways(box, order));
  }
  for (double lost = 5.0 * how.error; lost > 1e-8; lost *= 0.5) {
    TackedBox few = with_shapes(box, seen.shapes(lost));
    random.shuffle(order);
    std::vector<Exact> both = both_ways(box, order);
    double off = 0.0;
    for (const Exact& e : both)
      off = std::max(off, off_by(weld_sequence(few, e.order), e.steps));
    if (off <= 0.5 * how.error) return few;
    add(std::move(both));
  }
  return box;
}

} // namespace tacksquare::elastic
