#include "physics/elastic/expect.h"

#include "base/random.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

// The ends of what the model leaves open, moment by moment: measures x cases.
struct Variant {
  std::vector<MatrixXd> measures;
  std::vector<VectorXd> closing_N;
};

struct Variants {
  Variant kept, remelted;
  Cases cases;
  std::shared_ptr<const BoxModel> model;
};

// Runs cut midway between tacks, in the order in which the arc gets there: a bead melts one tack after the
// other, and what lies behind it holds already.
struct Pieces {
  std::vector<WeldLength> welds;
  std::vector<std::size_t> last_of; // of each run: its last piece
};

Pieces pieces_of(const Making& m) {
  Pieces made;
  for (const WeldLength& run : m.welds) {
    std::vector<double> cuts, under;
    for (const TackPlace& t : m.tacks)
      if (t.seam == run.seam && t.at_mm > run.from_mm && t.at_mm < run.to_mm) under.push_back(t.at_mm);
    std::sort(under.begin(), under.end());
    cuts.push_back(run.from_mm);
    for (std::size_t i = 0; i + 1 < under.size(); ++i)
      cuts.push_back(0.5 * (under[i] + under[i + 1]));
    cuts.push_back(run.to_mm);
    std::vector<WeldLength> pieces;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i)
      pieces.push_back({run.seam, cuts[i], cuts[i + 1], run.backward});
    if (run.backward) std::reverse(pieces.begin(), pieces.end());
    made.welds.insert(made.welds.end(), pieces.begin(), pieces.end());
    made.last_of.push_back(made.welds.size() - 1);
  }
  return made;
}

std::vector<Event> events_of(std::size_t tacks, std::size_t welds) {
  std::vector<Event> events;
  for (std::size_t i = 0; i < tacks; ++i)
    events.push_back({Event::Kind::tack, i});
  for (std::size_t i = 0; i < welds; ++i)
    events.push_back({Event::Kind::weld, i});
  return events;
}

// Moments after each tack and each run.
Variant variant_of(std::vector<Moment> moments, std::size_t tacks, const Pieces& pieces) {
  Variant made;
  const auto take = [&](Moment& moment) {
    made.measures.push_back(std::move(moment.measures));
    made.closing_N.push_back(std::move(moment.closing_N));
  };
  for (std::size_t i = 0; i < tacks; ++i)
    take(moments[i]);
  for (const std::size_t last : pieces.last_of)
    take(moments[tacks + last]);
  return made;
}

std::optional<Variants> variants_of(const Job& job, const Box& box, const BoxGeometry& geometry,
                                    const Making& m, const ModelOptions& options, Diagnostics& out) {
  std::vector<Figure> figures;
  for (const Watched& w : m.watched)
    figures.push_back(w.figure);
  std::vector<Misfit> misfits;
  for (const MisfitSpread& s : m.misfits)
    misfits.push_back(s.misfit);
  const Pieces pieces = pieces_of(m);
  const auto model_of = [&](double taper_mm) {
    ModelOptions tapered = options;
    tapered.jump_taper_mm = taper_mm;
    return make_box_model(job, box, geometry, m.tacks, pieces.welds, figures, misfits, tapered, out);
  };
  auto first = model_of(m.short_taper_mm);
  if (!first) return std::nullopt;
  const auto model = std::make_shared<const BoxModel>(std::move(*first));
  const auto other = model_of(m.long_taper_mm);
  if (!other) return std::nullopt;
  Variants made;
  made.cases = cases_of(*model, box.seams.size());
  made.cases.second_taper = true;
  made.model = model;
  const MatrixXd each = MatrixXd::Identity(made.cases.count(), made.cases.count());
  BothEnds ends = make_both_ends(*model, *other, events_of(m.tacks.size(), 0),
                                 events_of(0, pieces.welds.size()), made.cases, each);
  made.kept = variant_of(std::move(ends.kept), m.tacks.size(), pieces);
  made.remelted = variant_of(std::move(ends.remelted), m.tacks.size(), pieces);
  return made;
}

double drawn(const Band& band, double z) {
  return std::max(0.0,
                  band.value + z * (z < 0.0 ? band.value - band.low : band.high - band.value) / kNinetyFive);
}

// Amounts of all cases, draw by draw; first of all what they are in the middle. Both tapers have their cases
// in full.
MatrixXd amounts_of(const Making& m, const Cases& cases, Random& random) {
  MatrixXd x(cases.count(), kExpectDraws + 1);
  for (int d = 0; d <= kExpectDraws; ++d) {
    const bool middle = d == 0;
    const auto normal = [&] { return middle ? 0.0 : random.normal(); };
    const double across = normal(), force = normal(), angle = normal();
    for (std::size_t i = 0; i < m.misfits.size(); ++i)
      x(cases.misfit(i), d) = m.misfits[i].middle + m.misfits[i].deviation * normal();
    for (std::size_t s = 0; s < m.seams.size(); ++s) {
      const double own = std::max(0.0, 1.0 + m.seam_scatter / kNinetyFive * normal());
      const double share = middle ? m.tack_share.value : random.uniform(m.tack_share.low, m.tack_share.high);
      x(cases.across(s), d) = own * drawn(m.seams[s].across_mm, across);
      x(cases.along(s), d) = own * drawn(m.seams[s].force_N, force);
      x(cases.angle(s), d) = own * drawn(m.seams[s].angle_rad, angle);
      x(cases.tack(s), d) = share * x(cases.across(s), d);
      x(cases.second_across(s), d) = x(cases.across(s), d);
      x(cases.second_angle(s), d) = x(cases.angle(s), d);
      x(cases.second_tack(s), d) = x(cases.tack(s), d);
    }
  }
  return x;
}

// How much of each variant a draw has.
struct Mix {
  double remelted = 0.0, lengthy = 0.0;
};

Band band_of(std::vector<double>& values) {
  const auto at = [&](double q) {
    const auto place = values.begin() + static_cast<long>(q * static_cast<double>(values.size() - 1) + 0.5);
    std::nth_element(values.begin(), place, values.end());
    return *place;
  };
  return {at(0.5), at(0.05), at(0.95)};
}

class Drawing {
 public:
  Drawing(const Making& m, const Variants& v, std::uint64_t seed) : m_(m), v_(v), random_(seed) {
    x_ = amounts_of(m, v.cases, random_);
    mixes_.push_back({0.5, 0.5});
    for (int d = 0; d < kExpectDraws; ++d) {
      const double remelted = random_.uniform01();
      mixes_.push_back({remelted, random_.uniform01()});
    }
    share_tapers();
    put_back();
  }

  const std::vector<double>& put_back_mm() const { return put_back_mm_; }

  // figures x draws at a moment; column 0 is the middle.
  MatrixXd values(std::size_t moment, Index draws) const {
    const auto x = x_.leftCols(draws + 1);
    const MatrixXd larger = larger_.replicate(1, draws + 1);
    MatrixXd sum = v_.kept.measures[moment] * x;
    if (moment < m_.tacks.size()) return larger + sum; // before any bead both are alike
    const MatrixXd remelted = v_.remelted.measures[moment] * x;
    for (Index d = 0; d < sum.cols(); ++d) {
      const double share = mixes_[static_cast<std::size_t>(d)].remelted;
      sum.col(d) = (1.0 - share) * sum.col(d) + share * remelted.col(d);
    }
    return larger + sum;
  }

  ExpectedMoment moment(const Event& event, std::size_t which) const {
    ExpectedMoment made;
    made.event = event;
    const bool end = which + 1 == m_.tacks.size() || which + 1 == m_.tacks.size() + m_.welds.size();
    const MatrixXd all = values(which, end ? kExpectDraws : kStepDraws);
    for (std::size_t f = 0; f < m_.watched.size(); ++f)
      made.mm.push_back(band(all, f, m_.watched[f].without_sign));
    const VectorXd middle = x_.col(0);
    const VectorXd kept = larger_ + v_.kept.measures[which] * middle;
    const VectorXd remelted = larger_ + v_.remelted.measures[which] * middle;
    made.tacks_kept.assign(kept.data(), kept.data() + kept.size());
    made.tacks_remelted.assign(remelted.data(), remelted.data() + remelted.size());
    if (event.kind == Event::Kind::tack) made.closing_N = closing(which);
    return made;
  }

  // The last moment, with what is ground; fills bands and chances.
  void finish(std::size_t last, Expectation& to) {
    MatrixXd all = values(last, kExpectDraws);
    for (std::size_t f = 0; f < m_.watched.size(); ++f) {
      const Watched& w = m_.watched[f];
      const auto row = static_cast<Index>(f);
      int within = 0;
      for (Index d = 1; d < all.cols(); ++d) {
        for (int end = 0; end < w.ground_ends; ++end)
          all(row, d) += random_.uniform(0.0, std::max(w.proud_mm, 1e-12));
        const double read = w.without_sign ? std::abs(all(row, d)) : all(row, d);
        within += read >= w.low && read <= w.high ? 1 : 0;
      }
      to.ground_mm.push_back(band(all, f, w.without_sign));
      to.chance_kept.push_back(static_cast<double>(within) / kExpectDraws);
    }
  }

 private:
  // A draw has so much of each taper.
  void share_tapers() {
    for (Index d = 0; d < x_.cols(); ++d) {
      const double lengthy = mixes_[static_cast<std::size_t>(d)].lengthy;
      for (std::size_t s = 0; s < m_.seams.size(); ++s) {
        for (const Index c : {v_.cases.across(s), v_.cases.angle(s), v_.cases.tack(s)})
          x_(c, d) *= 1.0 - lengthy;
        for (const Index c : {v_.cases.second_across(s), v_.cases.second_angle(s), v_.cases.second_tack(s)})
          x_(c, d) *= lengthy;
      }
    }
  }

  void put_back() {
    larger_ = VectorXd::Zero(static_cast<Index>(m_.watched.size()));
    const std::size_t moments = m_.tacks.size() + m_.welds.size();
    const VectorXd end = moments == 0 ? larger_ : VectorXd(values(moments - 1, 0).col(0));
    for (const PutBack& axis : m_.put_back) {
      double loss = 0.0;
      for (const std::size_t w : axis.corners)
        loss -= end(static_cast<Index>(w)) / static_cast<double>(axis.corners.size());
      for (const std::size_t w : axis.sizes)
        larger_(static_cast<Index>(w)) = loss;
      put_back_mm_.push_back(loss);
    }
  }

  Band band(const MatrixXd& all, std::size_t f, bool without_sign) const {
    std::vector<double> drawn;
    for (Index d = 1; d < all.cols(); ++d) {
      const double value = all(static_cast<Index>(f), d);
      drawn.push_back(without_sign ? std::abs(value) : value);
    }
    return band_of(drawn);
  }

  Band closing(std::size_t which) const {
    const VectorXd& each = v_.kept.closing_N[which];
    std::vector<double> forces;
    for (Index d = 1; d < x_.cols(); ++d)
      forces.push_back(std::abs(each.dot(x_.col(d))));
    return band_of(forces);
  }

  const Making& m_;
  const Variants& v_;
  Random random_;
  MatrixXd x_;
  std::vector<Mix> mixes_;
  VectorXd larger_; // of each watched: what is put back into the blanks
  std::vector<double> put_back_mm_;
};

} // namespace

std::optional<Expectation> expect(const Job& job, const Box& box, const BoxGeometry& geometry,
                                  const Making& making, const ModelOptions& options, std::uint64_t seed,
                                  Diagnostics& out) {
  const std::optional<Variants> variants = variants_of(job, box, geometry, making, options, out);
  if (!variants) return std::nullopt;
  Drawing drawing(making, *variants, seed);
  Expectation made;
  made.model = variants->model;
  made.put_back_mm = drawing.put_back_mm();
  const std::vector<Event> events = events_of(making.tacks.size(), making.welds.size());
  for (std::size_t i = 0; i < events.size(); ++i)
    made.moments.push_back(drawing.moment(events[i], i));
  if (!events.empty()) drawing.finish(events.size() - 1, made);
  return made;
}

} // namespace tacksquare::elastic
