#include "physics/elastic/whole_box.h"

#include "base/diagnostic.h"

#include <Eigen/OrderingMethods>
#include <Eigen/SparseCholesky>

#include <algorithm>
#include <cmath>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;
using Sparse = Eigen::SparseMatrix<double>;
using Entries = std::vector<Eigen::Triplet<double>>;

constexpr double kLoose = 1e-13; // a pivot that falls to this part of its diagonal holds nothing

Sparse sparse(Index rows, Index cols, const Entries& entries) {
  Sparse made(rows, cols);
  made.setFromTriplets(entries.begin(), entries.end());
  return made;
}

} // namespace

std::vector<Spring> springs_of(const std::vector<Joint>& joints) {
  std::vector<Spring> springs;
  for (const Joint& j : joints)
    for (std::size_t i = 0; i < j.readings.size(); ++i)
      springs.push_back({j.readings[i], j.stiffness(static_cast<Index>(i))});
  return springs;
}

WholeBox::WholeBox(const BoxModel& model, const std::vector<Spring>& springs) : model_(model) {
  std::vector<Spring> all = springs_of(model.bends);
  all.insert(all.end(), springs.begin(), springs.end());
  assemble(all);
  hold();
  factor();
}

void WholeBox::assemble(const std::vector<Spring>& springs) {
  const Plates& plates = *model_.plates;
  Index size = 0;
  for (std::size_t f = 0; f < plates.faces(); ++f) {
    first_.push_back(size);
    if (plates.has(f)) size += static_cast<Index>(plates.plate(f).freedoms());
  }
  Entries entries;
  for (std::size_t i = 0; i < model_.readings.size(); ++i)
    for (const auto& [face, reading] : model_.readings[i])
      for (const shell::Reading::Term& t : reading.terms)
        entries.emplace_back(static_cast<int>(first_[face]) + static_cast<int>(t.freedom),
                             static_cast<int>(i), t.factor);
  readings_ = sparse(size, static_cast<Index>(model_.readings.size()), entries);

  entries.clear();
  for (std::size_t f = 0; f < plates.faces(); ++f) {
    if (!plates.has(f)) continue;
    const Sparse& k = plates.plate(f).stiffness();
    const int first = static_cast<int>(first_[f]);
    for (Index c = 0; c < k.outerSize(); ++c)
      for (Sparse::InnerIterator it(k, c); it; ++it)
        entries.emplace_back(first + static_cast<int>(it.row()), first + static_cast<int>(c), it.value());
  }
  stiffness_ = sparse(size, size, entries);

  entries.clear(); // rows of sqrt(k) r, so that the springs' matrix is symmetric to the last digit
  for (std::size_t s = 0; s < springs.size(); ++s)
    for (Sparse::InnerIterator it(readings_, springs[s].reading); it; ++it)
      entries.emplace_back(static_cast<int>(it.row()), static_cast<int>(s),
                           std::sqrt(springs[s].stiffness) * it.value());
  const Sparse pull = sparse(size, static_cast<Index>(springs.size()), entries);
  stiffness_ += Sparse(pull * pull.transpose());
}

// At nodes of the face that has most of them.
void WholeBox::hold() {
  const Plates& plates = *model_.plates;
  std::size_t face = plates.faces();
  for (std::size_t f = 0; f < plates.faces(); ++f)
    if (plates.has(f) &&
        (face == plates.faces() || plates.plate(f).freedoms() > plates.plate(face).freedoms()))
      face = f;
  if (face == plates.faces()) throw InternalError("a box without welded faces");
  std::vector<bool> held(static_cast<std::size_t>(freedoms()), false);
  for (const std::size_t f : shell::determinate_holds(plates.plate(face).mesh()))
    held[static_cast<std::size_t>(first_[face]) + f] = true;
  for (std::size_t i = 0; i < held.size(); ++i)
    if (!held[i]) free_.push_back(static_cast<Index>(i));
}

void WholeBox::factor() {
  std::vector<Index> place(static_cast<std::size_t>(freedoms()), -1);
  const auto number = [&] {
    for (std::size_t i = 0; i < free_.size(); ++i)
      place[static_cast<std::size_t>(free_[i])] = static_cast<Index>(i);
  };
  const auto held = [&] {
    Entries entries;
    entries.reserve(static_cast<std::size_t>(stiffness_.nonZeros()));
    for (Index c = 0; c < stiffness_.outerSize(); ++c)
      for (Sparse::InnerIterator it(stiffness_, c); it; ++it) {
        const Index i = place[static_cast<std::size_t>(it.row())], j = place[static_cast<std::size_t>(c)];
        if (i >= 0 && j >= 0) entries.emplace_back(static_cast<int>(i), static_cast<int>(j), it.value());
      }
    return sparse(free_freedoms(), free_freedoms(), entries);
  };
  number();
  Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> least;
  Eigen::AMDOrdering<int>()(held(), least);
  std::vector<Index> ordered(free_.size());
  for (std::size_t i = 0; i < free_.size(); ++i)
    ordered[i] = free_[static_cast<std::size_t>(least.indices()(static_cast<Index>(i)))];
  free_ = std::move(ordered);
  number();

  const Sparse k = held();
  const Eigen::SimplicialLLT<Sparse, Eigen::Lower, Eigen::NaturalOrdering<int>> llt(k);
  bool sound = llt.info() == Eigen::Success;
  if (sound) {
    lower_ = llt.matrixL();
    const VectorXd whole = k.diagonal(), pivots = lower_.diagonal();
    for (Index i = 0; sound && i < pivots.size(); ++i)
      sound = pivots(i) * pivots(i) > kLoose * whole(i);
  }
  if (!sound)
    throw NumericalFailure("the stiffness of a box of " + std::to_string(model_.elements) +
                           " elements could not be factored: parts of it may still move");
}

MatrixXd WholeBox::first_half(const MatrixXd& forces) const {
  MatrixXd x = forces(free_, Eigen::all);
  lower_.triangularView<Eigen::Lower>().solveInPlace(x);
  return x;
}

MatrixXd WholeBox::second_half(const MatrixXd& halved) const {
  MatrixXd x = halved;
  lower_.transpose().triangularView<Eigen::Upper>().solveInPlace(x);
  MatrixXd u = MatrixXd::Zero(freedoms(), x.cols());
  u(free_, Eigen::all) = x;
  return u;
}

MatrixXd WholeBox::displacements(const MatrixXd& loads) const {
  const MatrixXd u = second_half(first_half(readings_ * loads));
  if (!u.allFinite()) throw NumericalFailure("the shape of a box has no finite figures");
  return u;
}

Shape WholeBox::shape(const VectorXd& displacements) const {
  Shape made;
  for (std::size_t f = 0; f < model_.plates->faces(); ++f)
    made.push_back(model_.plates->has(f)
                       ? VectorXd(displacements.segment(
                             first_[f], static_cast<Index>(model_.plates->plate(f).freedoms())))
                       : VectorXd());
  return made;
}

} // namespace tacksquare::elastic
