#include "physics/elastic/grown.h"

#include "base/diagnostic.h"
#include "physics/shell/dense.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double kLost = 1e-14; // of a compliance: rounding alone is a hundredth of it

// Rows are added at the end of matrices that are kept taller than they are used.
void make_room(MatrixXd& m, Index rows, Index cols) {
  if (m.rows() < rows || m.cols() != cols) m.conservativeResize(2 * rows, cols);
}

} // namespace

Grown::Grown(const Structure& s, const Indices& watched, const Indices& to_come, MatrixXd free)
    : s_(s), told_(static_cast<Index>(watched.size())), kept_(watched),
      place_(static_cast<std::size_t>(s.readings()), -1), free_(std::move(free)),
      loads_(MatrixXd::Zero(s.readings(), free_.cols())),
      stretch_(MatrixXd::Zero(s.motions.cols(), s.motions.cols())),
      motions_(MatrixXd::Zero(s.motions.cols(), free_.cols())),
      stale_(static_cast<std::size_t>(free_.cols()), 0) {
  told_half_ = MatrixXd::Zero(told_, free_.cols());
  told_motions_ = MatrixXd::Zero(told_, s.motions.cols());
  motions_half_ = MatrixXd::Zero(s.motions.cols(), free_.cols());
  motions_motions_ = stretch_;
  split_ = split_motions(stretch_);
  kept_.insert(kept_.end(), to_come.begin(), to_come.end());
  for (std::size_t i = 0; i < kept_.size(); ++i)
    place_[static_cast<std::size_t>(kept_[i])] = static_cast<Index>(i);
}

MatrixXd Grown::answered() const {
  const Index n = springs();
  MatrixXd a = half_.topRows(n);
  if (motions_.rows() > 0) a.noalias() += half_motions_.topRows(n) * motions_;
  return sign_.head(n).asDiagonal() * a;
}

MatrixXd Grown::answered(const Indices& columns) const {
  const Index n = springs();
  MatrixXd a = half_.topRows(n)(Eigen::all, columns);
  if (motions_.rows() > 0) a.noalias() += half_motions_.topRows(n) * motions_(Eigen::all, columns);
  return sign_.head(n).asDiagonal() * a;
}

MatrixXd Grown::watched() const {
  const Indices watched(kept_.begin(), kept_.begin() + told_);
  MatrixXd q = free_(watched, Eigen::all) - told_half_;
  if (motions_.rows() > 0) q.noalias() += (s_.motions(watched, Eigen::all) - told_motions_) * motions_;
  return q;
}

MatrixXd Grown::gives(Index first) const {
  const Indices readings(kept_.begin() + first, kept_.begin() + told_);
  const auto count = static_cast<Index>(readings.size());
  MatrixXd between = s_.compliance(readings, readings);
  if (const Index n = springs(); n > 0) {
    const MatrixXd halves = half_kept_.block(0, first, n, count);
    between -= (halves.transpose() * sign_.head(n).asDiagonal() * halves).eval();
  }
  if (split_.held.cols() == 0) return between;
  MatrixXd pushed = split_.held.transpose() *
                    (s_.motions(readings, Eigen::all) - told_motions_.bottomRows(count)).transpose();
  shell::solve_lower(stiff_, pushed);
  return between + pushed.transpose() * pushed;
}

MatrixXd Grown::halves(const Indices& readings) const {
  Indices places;
  for (const Index r : readings)
    if (const Index at = place_[static_cast<std::size_t>(r)]; at >= 0) places.push_back(at);
  if (springs() > 0 && places.size() == readings.size())
    return half_kept_.topRows(springs())(Eigen::all, places);
  MatrixXd beside = s_.compliance(readings_, readings);
  if (springs() > 0) shell::solve_lower(factor_.topLeftCorner(springs(), springs()), beside);
  return beside;
}

MatrixXd Grown::at(const Indices& readings) const {
  MatrixXd q = free_(readings, Eigen::all);
  if (springs() > 0) q.noalias() -= halves(readings).transpose() * answered();
  if (motions_.rows() > 0) q.noalias() += s_.motions(readings, Eigen::all) * motions_;
  return q;
}

MatrixXd Grown::at(const Indices& readings, const Indices& columns) const {
  MatrixXd q = free_(readings, columns);
  if (springs() > 0) q.noalias() -= halves(readings).transpose() * answered(columns);
  if (motions_.rows() > 0) q.noalias() += s_.motions(readings, Eigen::all) * motions_(Eigen::all, columns);
  return q;
}

MatrixXd Grown::forces() const {
  MatrixXd f = answered();
  shell::solve_lower_transposed(factor_.topLeftCorner(springs(), springs()), f);
  return f;
}

MatrixXd Grown::latest_forces(Index count) const {
  MatrixXd f = answered().bottomRows(count);
  const Index first = springs() - count;
  shell::solve_lower_transposed(factor_.block(first, first, count, count), f);
  return f;
}

// With forces f of the springs and motions a: (C + 1/k) f = C_p + R a and R' f = R_p'.
Grown::Pushed Grown::pushed(const Indices& pushes, const Indices& readings) const {
  const Index n = springs();
  Pushed made{s_.compliance(readings, pushes),
              MatrixXd::Zero(s_.motions.cols(), static_cast<Index>(pushes.size()))};
  if (n == 0) return made;
  const MatrixXd by = sign_.head(n).asDiagonal() * halves(pushes), seen = halves(readings);
  made.readings.noalias() -= seen.transpose() * by;
  const MatrixXd& held = split_.held;
  if (held.cols() == 0) return made;
  const MatrixXd half = half_motions_.topRows(n) * held;
  MatrixXd moves = s_.motions(pushes, Eigen::all) * held - by.transpose() * half;
  moves.transposeInPlace();
  shell::solve_lower(stiff_, moves);
  shell::solve_lower_transposed(stiff_, moves);
  made.motions = held * moves;
  made.readings.noalias() += s_.motions(readings, Eigen::all) * made.motions;
  made.readings.noalias() -= seen.transpose() * (sign_.head(n).asDiagonal() * (half * moves));
  return made;
}

void Grown::add(const Indices& readings, const VectorXd& stiffness, const MatrixXd& rest) {
  if (!readings.empty()) put(readings, stiffness, rest, halves(readings));
  settle();
}

void Grown::put(const Indices& readings, const VectorXd& stiffness, const MatrixXd& rest,
                const MatrixXd& beside) {
  refresh();
  const Index n = springs(), k = static_cast<Index>(readings.size());
  const bool gone = stiffness(0) < 0.0;
  MatrixXd own = s_.compliance(readings, readings);
  own.diagonal() += stiffness.cwiseInverse();
  own.noalias() -= beside.transpose() * sign_.head(n).asDiagonal() * beside;
  const MatrixXd lower = shell::cholesky(gone ? MatrixXd(-own) : own, "springs of a joint");
  // What a spring leaves of its reading's compliance goes with 1/stiffness squared.
  for (Index i = 0; gone && i < k; ++i)
    if (const double free =
            s_.compliance(readings[static_cast<std::size_t>(i)], readings[static_cast<std::size_t>(i)]);
        lower(i, i) * lower(i, i) < kLost * free)
      throw NumericalFailure("a spring too stiff to be taken off again");

  const Index all = n + k;
  if (factor_.rows() < all) factor_.conservativeResize(2 * all, 2 * all);
  make_room(half_, all, columns());
  make_room(half_motions_, all, s_.motions.cols());
  const auto kept = static_cast<Index>(kept_.size()); // what was forgotten leaves columns behind
  make_room(half_kept_, all, std::max(half_kept_.cols(), kept));
  make_room(rest_, all, columns());
  sign_.conservativeResize(all);
  stiffness_.conservativeResize(all);
  sign_.tail(k).setConstant(gone ? -1.0 : 1.0);
  stiffness_.tail(k) = stiffness;

  // M = L D L', D the signs: new rows (D L^-1 c)' and l with l l' = +-(own), own = M_new - c' M^-1 c.
  const MatrixXd signed_beside = sign_.head(n).asDiagonal() * beside;
  factor_.block(n, 0, k, n) = signed_beside.transpose();
  factor_.block(n, n, k, k) = lower;
  const auto halve = [&](const shell::DenseRef& before, const MatrixXd& whole) {
    MatrixXd rest_of = whole;
    if (n > 0) rest_of.noalias() -= signed_beside.transpose() * before.topRows(n);
    shell::solve_lower(lower, rest_of);
    return rest_of;
  };
  const MatrixXd off = free_(readings, Eigen::all) - rest;
  const MatrixXd seen = s_.motions(readings, Eigen::all);
  half_.block(n, 0, k, columns()) = halve(half_, off);
  half_motions_.block(n, 0, k, seen.cols()) = halve(half_motions_, seen);
  half_kept_.block(n, 0, k, kept) = halve(half_kept_.leftCols(kept), s_.compliance(readings, kept_));
  rest_.block(n, 0, k, columns()) = rest;
  const double sign = gone ? -1.0 : 1.0;
  const MatrixXd told = half_kept_.block(n, 0, k, told_) * sign,
                 moved = half_motions_.block(n, 0, k, seen.cols()) * sign;
  told_half_.noalias() += told.transpose() * half_.block(n, 0, k, columns());
  told_motions_.noalias() += told.transpose() * half_motions_.block(n, 0, k, seen.cols());
  motions_half_.noalias() += moved.transpose() * half_.block(n, 0, k, columns());
  motions_motions_.noalias() += moved.transpose() * half_motions_.block(n, 0, k, seen.cols());
  readings_.insert(readings_.end(), readings.begin(), readings.end());
  // Motions that one of these springs reads; those of a spring that went are no longer held by it.
  stretch_ += sign * seen.transpose() * seen;
}

void Grown::take_away(const Indices& springs) {
  Indices readings;
  VectorXd stiffness(static_cast<Index>(springs.size()));
  MatrixXd rest(static_cast<Index>(springs.size()), columns());
  for (std::size_t i = 0; i < springs.size(); ++i) {
    readings.push_back(readings_[static_cast<std::size_t>(springs[i])]);
    stiffness(static_cast<Index>(i)) = -stiffness_(springs[i]);
    rest.row(static_cast<Index>(i)) = rest_.row(springs[i]);
  }
  if (springs.empty()) return;
  add(readings, stiffness, rest);
}

void Grown::load(Index reading, const Eigen::RowVectorXd& amounts) {
  const Index n = springs(), place = place_[static_cast<std::size_t>(reading)];
  loads_.row(reading) += amounts;
  for (Index c = 0; c < columns(); ++c)
    if (amounts(c) != 0.0) {
      free_.col(c) += amounts(c) * s_.compliance.col(reading);
      if (n == 0) continue;
      char& stale = stale_[static_cast<std::size_t>(c)];
      stale = std::max(stale, char{1});
      if (place < 0)
        stale = 2;
      else
        half_.col(c).head(n) += amounts(c) * half_kept_.col(place).head(n);
    }
}

void Grown::forget(const Indices& readings) {
  for (const Index reading : readings) {
    const Index place = place_[static_cast<std::size_t>(reading)];
    if (place < told_) continue; // watched, or not kept at all
    const Index last = static_cast<Index>(kept_.size()) - 1;
    if (place != last) {
      half_kept_.col(place).head(springs()) = half_kept_.col(last).head(springs());
      kept_[static_cast<std::size_t>(place)] = kept_.back();
      place_[static_cast<std::size_t>(kept_.back())] = place;
    }
    place_[static_cast<std::size_t>(reading)] = -1;
    kept_.pop_back();
  }
}

void Grown::shift_rest(Index spring, const Eigen::RowVectorXd& by) {
  for (Index c = 0; c < columns(); ++c)
    if (by(c) != 0.0) {
      rest_(spring, c) += by(c);
      stale_[static_cast<std::size_t>(c)] = 2;
    }
}

VectorXd Grown::loads(Index c) const {
  VectorXd all = loads_.col(c);
  for (Index i = 0; i < springs(); ++i) // what went takes its part away again
    all(readings_[static_cast<std::size_t>(i)]) += stiffness_(i) * rest_(i, c);
  return all;
}

std::vector<Spring> Grown::springs_left() const {
  VectorXd on = VectorXd::Zero(s_.readings());
  for (Index i = 0; i < springs(); ++i)
    on(readings_[static_cast<std::size_t>(i)]) += stiffness_(i);
  std::vector<Spring> left;
  for (Index r = 0; r < on.size(); ++r)
    if (on(r) > 0.0) left.push_back({r, on(r)});
  return left;
}

void Grown::refresh() {
  const Index n = springs();
  Indices solve, sum;
  for (std::size_t c = 0; c < stale_.size(); ++c) {
    const char stale = std::exchange(stale_[c], char{0});
    if (stale > 0) sum.push_back(static_cast<Index>(c));
    if (stale > 1) solve.push_back(static_cast<Index>(c));
  }
  if (sum.empty() || n == 0) return;
  if (!solve.empty()) {
    MatrixXd off = free_(readings_, solve);
    for (std::size_t i = 0; i < solve.size(); ++i)
      off.col(static_cast<Index>(i)) -= rest_.col(solve[i]).head(n);
    shell::solve_lower(factor_.topLeftCorner(n, n), off);
    for (std::size_t i = 0; i < solve.size(); ++i)
      half_.col(solve[i]).head(n) = off.col(static_cast<Index>(i));
  }
  sum_up(sum);
}

void Grown::sum_up(const Indices& columns) {
  const Index n = springs();
  const MatrixXd signed_half = sign_.head(n).asDiagonal() * half_.topRows(n)(Eigen::all, columns);
  const MatrixXd told = half_kept_.topLeftCorner(n, told_).transpose() * signed_half,
                 moved = half_motions_.topRows(n).transpose() * signed_half;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    told_half_.col(columns[i]) = told.col(static_cast<Index>(i));
    motions_half_.col(columns[i]) = moved.col(static_cast<Index>(i));
  }
}

void Grown::settle() {
  refresh();
  const Index n = springs();
  if (s_.motions.cols() == 0) return;
  split_ = split_motions(stretch_);
  const MatrixXd& held = split_.held;
  motions_.setZero();
  if (held.cols() == 0) return;
  stiff_ =
      shell::cholesky(held.transpose() * motions_motions_ * held, "the stiffness of joints against motions");
  MatrixXd pull = -(held.transpose() * motions_half_);
  shell::solve_lower(stiff_, pull);
  shell::solve_lower_transposed(stiff_, pull);
  motions_ = held * pull;
  if (!motions_.allFinite() || !half_.topRows(n).allFinite())
    throw NumericalFailure("a state of the box gave no finite figures");
}

} // namespace tacksquare::elastic
