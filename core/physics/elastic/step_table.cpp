#include "physics/elastic/step_table.h"

#include "base/diagnostic.h"
#include "physics/shell/dense.h"

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <utility>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

using Set = std::uint32_t;

// Springs of a round of a seam.
struct Springs {
  VectorXd flexibility;
  MatrixXd shrunk; // x 3: what their rest is shorter by
  Index count() const { return flexibility.size(); }
};

// How rows answer while some springs are there: to loads on each other (lower triangle), and to each load of
// a step (columns). Rows: the measures, then springs that are not there yet.
struct Stage {
  MatrixXd compliance, loaded;
  Indices first; // of each round of each seam: its springs' first row
};

// Springs about to come: their own compliance and flexibility, factored.
struct Coming {
  Index first = 0, count = 0;
  MatrixXd lower;

  Coming(const Stage& stage, Index first_row, const Springs& own) : first(first_row), count(own.count()) {
    MatrixXd m = stage.compliance.block(first, first, count, count);
    m.diagonal() += own.flexibility;
    lower = shell::cholesky(m, "a weld's springs");
  }
  // factor^-1 of what they share with these rows, none of which are theirs.
  MatrixXd half(const Stage& stage, Index from, Index rows) const {
    MatrixXd h = from < first ? MatrixXd(stage.compliance.block(first, from, count, rows))
                              : MatrixXd(stage.compliance.block(from, first, rows, count).transpose());
    shell::solve_lower(lower, h);
    return h;
  }
};

class Tabling {
 public:
  Tabling(const TackedBox& box, const std::vector<RoundsOfSeam>& seams)
      : box_(box), seams_(seams), rounds_(seams.front().rounds.size()),
        springs_(rounds_, std::vector<Springs>(seams.size())), needs_(seams.size(), 0) {
    table_.seams = seams.size();
    table_.steps.resize((std::size_t{1} << seams.size()) * seams.size());
    already_.resize(table_.steps.size());
    for (std::size_t s = 0; s < seams.size(); ++s)
      for (const std::size_t earlier : seams[s].after)
        needs_[s] |= Set{1} << earlier;
  }

  StepTable make(const std::vector<std::size_t>& before) {
    Stage stage = lay_rows(before);
    for (std::size_t round = 0; round < rounds_; ++round) {
      walk(round, 0, 0, stage);
      for (std::size_t s = 0; s < seams_.size(); ++s)
        stage = with(stage, round, s);
    }
    return std::move(table_);
  }

 private:
  // Rows: measures, then springs round by round. Those before are made at once.
  Stage lay_rows(const std::vector<std::size_t>& before) {
    Stage stage;
    Indices rows = box_.measures;
    for (std::size_t round = 0; round < rounds_; ++round)
      for (std::size_t s = 0; s < seams_.size(); ++s) {
        Springs& own = springs_[round][s];
        stage.first.push_back(static_cast<Index>(rows.size()));
        std::vector<double> flexibility;
        for (const std::size_t w : seams_[s].rounds[round]) {
          const Joint& joint = box_.welds[w];
          const Index n = joint.stiffness.size(), at = own.shrunk.rows();
          rows.insert(rows.end(), joint.readings.begin(), joint.readings.end());
          for (const double k : joint.stiffness)
            flexibility.push_back(1.0 / k);
          own.shrunk.conservativeResize(at + n, 3);
          own.shrunk.bottomRows(n).setZero();
          own.shrunk.col(0).tail(n) = joint.shrunk.across;
          own.shrunk.col(2).tail(n) = joint.shrunk.angle;
        }
        own.flexibility =
            Eigen::Map<const VectorXd>(flexibility.data(), static_cast<Index>(flexibility.size()));
      }
    stage.compliance = box_.structure.compliance(rows, rows);
    stage.loaded = MatrixXd::Zero(stage.compliance.rows(), static_cast<Index>(3 * rounds_ * seams_.size()));
    for (std::size_t round = 0; round < rounds_; ++round)
      for (std::size_t s = 0; s < seams_.size(); ++s)
        for (const std::size_t w : seams_[s].rounds[round])
          stage.loaded.middleCols(load(round, s), 3) += loaded(box_, w, rows);
    if (before.empty()) return stage;

    std::vector<Joint> made;
    for (const std::size_t w : before)
      made.push_back(box_.welds[w]);
    const Closing closing = closing_of(made, 0);
    MatrixXd m = box_.structure.compliance(closing.readings, closing.readings);
    m.diagonal() += closing.stiffness.cwiseInverse();
    const MatrixXd lower = shell::cholesky(m, "springs of earlier welds");
    MatrixXd half = box_.structure.compliance(closing.readings, rows);
    MatrixXd of_loads = MatrixXd::Zero(half.rows(), stage.loaded.cols());
    for (std::size_t round = 0; round < rounds_; ++round)
      for (std::size_t s = 0; s < seams_.size(); ++s)
        for (const std::size_t w : seams_[s].rounds[round])
          of_loads.middleCols(load(round, s), 3) += loaded(box_, w, closing.readings);
    shell::solve_lower(lower, half);
    shell::solve_lower(lower, of_loads);
    shell::add_square(stage.compliance, half, -1.0);
    stage.loaded.noalias() -= half.transpose() * of_loads;
    return stage;
  }

  std::size_t place(std::size_t round, std::size_t seam) const { return round * seams_.size() + seam; }
  Index load(std::size_t round, std::size_t seam) const { return static_cast<Index>(3 * place(round, seam)); }

  // Steps of this round out of the set, and out of all larger ones by seams from `from` on.
  void walk(std::size_t round, Set set, std::size_t from, const Stage& stage) {
    if (is_whole(set))
      for (std::size_t next = 0; next < seams_.size(); ++next)
        if (!(set >> next & 1u) && (needs_[next] & ~set) == 0) step(round, set, next, stage);
    for (std::size_t next = from; next < seams_.size(); ++next) {
      const Set larger = set | Set{1} << next;
      if (next + 1 == seams_.size() && larger + 1 == Set{1} << seams_.size()) continue; // none is left
      walk(round, larger, next + 1, with(stage, round, next));
    }
  }

  bool is_whole(Set set) const {
    for (std::size_t s = 0; s < seams_.size(); ++s)
      if ((set >> s & 1u) && (needs_[s] & ~set) != 0) return false;
    return true;
  }

  void step(std::size_t round, Set set, std::size_t next, const Stage& stage) {
    const std::size_t at = std::size_t{set} * seams_.size() + next;
    const auto measures = static_cast<Index>(box_.measures.size());
    Response& sum = table_.steps[at];
    if (sum.size() == 0) sum = Response::Zero(measures, 3);
    const Springs& own = springs_[round][next];
    if (own.count() == 0) return;
    const Coming springs(stage, stage.first[place(round, next)], own);
    const auto by = stage.loaded.middleCols(load(round, next), 3);
    // What earlier rounds of the seam have done to these springs is not done again.
    MatrixXd off = by.middleRows(springs.first, springs.count) - own.shrunk;
    MatrixXd& already = already_[at]; // of its springs in later rounds, one round after the other
    if (already.rows() > 0) {
      off += already.topRows(springs.count);
      already = already.bottomRows(already.rows() - springs.count).eval();
    }
    shell::solve_lower(springs.lower, off);
    const auto moved = [&](Index first, Index count) -> MatrixXd {
      return by.middleRows(first, count) - springs.half(stage, first, count).transpose() * off;
    };
    sum += moved(0, measures);
    if (!sum.allFinite()) throw NumericalFailure("a weld's step gave no finite figures");
    MatrixXd later(0, 3);
    for (std::size_t r = round + 1; r < rounds_; ++r) {
      const Index n = springs_[r][next].count();
      if (n == 0) continue;
      later.conservativeResize(later.rows() + n, 3);
      later.bottomRows(n) = moved(stage.first[place(r, next)], n);
    }
    if (already.rows() == 0)
      already = std::move(later);
    else
      already += later;
  }

  // These springs are there, and no longer among the rows.
  Stage with(const Stage& stage, std::size_t round, std::size_t seam) const {
    const Springs& own = springs_[round][seam];
    if (own.count() == 0) return stage;
    const Coming springs(stage, stage.first[place(round, seam)], own);
    const Index n = stage.compliance.rows(), k = springs.count, ahead = springs.first, behind = n - ahead - k;
    MatrixXd half(k, n - k);
    half.leftCols(ahead) = springs.half(stage, 0, ahead);
    if (behind > 0) half.rightCols(behind) = springs.half(stage, ahead + k, behind);
    MatrixXd of_loads = stage.loaded.middleRows(ahead, k);
    shell::solve_lower(springs.lower, of_loads);
    Stage made;
    made.compliance.resize(n - k, n - k);
    made.compliance.topLeftCorner(ahead, ahead) = stage.compliance.topLeftCorner(ahead, ahead);
    made.compliance.bottomLeftCorner(behind, ahead) = stage.compliance.bottomLeftCorner(behind, ahead);
    made.compliance.bottomRightCorner(behind, behind) = stage.compliance.bottomRightCorner(behind, behind);
    shell::add_square_below(made.compliance, half, -1.0);
    made.loaded.resize(n - k, stage.loaded.cols());
    made.loaded.topRows(ahead) = stage.loaded.topRows(ahead);
    made.loaded.bottomRows(behind) = stage.loaded.bottomRows(behind);
    made.loaded.noalias() -= half.transpose() * of_loads;
    made.first = stage.first;
    for (Index& first : made.first)
      if (first > ahead) first -= k;
    return made;
  }

  const TackedBox& box_;
  const std::vector<RoundsOfSeam>& seams_;
  std::size_t rounds_;
  std::vector<std::vector<Springs>> springs_; // [round][seam]
  std::vector<Set> needs_;
  StepTable table_;
  std::vector<MatrixXd> already_;
};

} // namespace

StepTable step_table(const TackedBox& box, const std::vector<std::size_t>& before,
                     const std::vector<RoundsOfSeam>& seams) {
  if (seams.empty()) return {};
  if (seams.size() > kMostTabled) throw InternalError("a table of too many seams");
  return Tabling(box, seams).make(before);
}

} // namespace tacksquare::elastic
