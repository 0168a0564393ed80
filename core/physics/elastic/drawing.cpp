#include "physics/elastic/drawing.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

double drawn(const Band& band, double z) {
  return std::max(0.0,
                  band.value + z * (z < 0.0 ? band.value - band.low : band.high - band.value) / kNinetyFive);
}

} // namespace

MatrixXd amounts_of(const Making& m, const Cases& cases, Index draws, Random& random) {
  MatrixXd x(cases.count(), draws + 1);
  for (Index d = 0; d <= draws; ++d) {
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
      if (!cases.second_taper) continue;
      x(cases.second_across(s), d) = x(cases.across(s), d);
      x(cases.second_angle(s), d) = x(cases.angle(s), d);
      x(cases.second_tack(s), d) = x(cases.tack(s), d);
    }
    for (std::size_t i = 0; i < m.pieces.size(); ++i)
      x(cases.piece(i), d) = m.pieces[i].deviation_mm * normal();
  }
  return x;
}

Band band_of(std::vector<double>& values) {
  const auto at = [&](double q) {
    const auto place = values.begin() + std::lround(q * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), place, values.end());
    return *place;
  };
  return {at(0.5), at(0.05), at(0.95)};
}

// A draw has so much of each taper.
Draws::Draws(const Making& m, const Cases& cases, Random& random)
    : amounts(amounts_of(m, cases, kExpectDraws, random)) {
  for (Index d = 0; d < amounts.cols(); ++d) {
    remelted.push_back(d == 0 ? 0.5 : std::clamp(2.0 * random.uniform01() - 0.5, 0.0, 1.0));
    const double lengthy = d == 0 ? 0.5 : random.uniform01();
    if (!cases.second_taper) continue;
    for (std::size_t s = 0; s < m.seams.size(); ++s) {
      for (const Index c : {cases.across(s), cases.angle(s), cases.tack(s)})
        amounts(c, d) *= 1.0 - lengthy;
      for (const Index c : {cases.second_across(s), cases.second_angle(s), cases.second_tack(s)})
        amounts(c, d) *= lengthy;
    }
  }
}

Drawing::Drawing(const Making& m, const Variants& v, std::uint64_t seed)
    : m_(m), v_(v), seed_(seed), random_(seed), draws_(m, v.cases, random_) {
  put_back();
}

EndState Drawing::end_in_the_middle() const {
  Cases cases = v_.cases;
  cases.second_taper = false;
  VectorXd middle = VectorXd::Zero(cases.count());
  for (std::size_t s = 0; s < m_.seams.size(); ++s) {
    middle(cases.across(s)) = m_.seams[s].across_mm.value;
    middle(cases.along(s)) = m_.seams[s].force_N.value;
    middle(cases.angle(s)) = m_.seams[s].angle_rad.value;
    middle(cases.tack(s)) = m_.tack_share.value * m_.seams[s].across_mm.value;
  }
  return end_of_history(*v_.model, v_.course.events, v_.holding.holds, cases, middle);
}

MatrixXd Drawing::values(std::size_t moment, Index draws) const {
  const auto x = draws_.amounts.leftCols(draws + 1);
  const MatrixXd larger = larger_.replicate(1, draws + 1);
  MatrixXd sum = v_.kept.measures[moment] * x;
  if (!welded(moment)) return larger + sum; // before any bead both are alike
  mix(v_.remelted.measures[moment] * x, sum);
  return larger + sum;
}

ExpectedMoment Drawing::moment(const Event& event, std::size_t which) const {
  ExpectedMoment made;
  made.event = event;
  const bool end = which + 1 == m_.events.size() || (!welded(which) && welded(which + 1));
  const MatrixXd all = values(which, end ? kExpectDraws : kStepDraws);
  for (std::size_t f = 0; f < m_.watched.size(); ++f)
    made.mm.push_back(band(all, f, m_.watched[f].without_sign));
  const VectorXd middle = draws_.amounts.col(0);
  const VectorXd kept = larger_ + v_.kept.measures[which] * middle;
  const VectorXd remelted = larger_ + v_.remelted.measures[which] * middle;
  made.tacks_kept.assign(kept.data(), kept.data() + kept.size());
  made.tacks_remelted.assign(remelted.data(), remelted.data() + remelted.size());
  if (event.kind == Event::Kind::tack) {
    std::vector<double> open = drawn(v_.kept.gap_mm[which]), pressed = drawn(v_.kept.closing_N[which]);
    for (double& force : pressed)
      force = std::abs(force);
    made.gap_mm = band_of(open);
    made.closing_N = band_of(pressed);
  }
  made.holding_N = holding(which);
  return made;
}

void Drawing::leave_misfit_out(std::size_t last, Expectation& to) {
  draws_.amounts.topRows(static_cast<Index>(m_.misfits.size())).setZero();
  MatrixXd all = values(last, kExpectDraws);
  for (std::size_t f = 0; f < m_.watched.size(); ++f)
    to.by_weld_mm.push_back(band(all, f, false));
  for (const PutBack& axis : m_.put_back) {
    MatrixXd most = MatrixXd::Constant(1, all.cols(), axis.corners.empty() ? 0.0 : -1e9);
    for (const std::size_t w : axis.corners)
      most = most.cwiseMax(all.row(static_cast<Index>(w)));
    to.corner_by_weld_mm.push_back(band(most, 0, false));
  }
}

// Of draws by kept tacks, in place, and the same by remelted ones: each has its share of either.
void Drawing::mix(const MatrixXd& remelted, MatrixXd& kept) const {
  for (Index d = 0; d < kept.cols(); ++d) {
    const double share = draws_.remelted[static_cast<std::size_t>(d)];
    kept.col(d) = (1.0 - share) * kept.col(d) + share * remelted.col(d);
  }
}

void Drawing::put_back() {
  larger_ = VectorXd::Zero(static_cast<Index>(m_.watched.size()));
  const std::size_t moments = m_.events.size();
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

Band Drawing::band(const MatrixXd& all, std::size_t f, bool without_sign) const {
  std::vector<double> drawn;
  for (Index d = 1; d < all.cols(); ++d) {
    const double value = all(static_cast<Index>(f), d);
    drawn.push_back(without_sign ? std::abs(value) : value);
  }
  return band_of(drawn);
}

std::vector<double> Drawing::drawn(const VectorXd& of_cases) const {
  std::vector<double> values;
  for (Index d = 1; d < draws_.amounts.cols(); ++d)
    values.push_back(of_cases.dot(draws_.amounts.col(d)));
  return values;
}

MatrixXd Drawing::ground(std::size_t last) {
  MatrixXd all = values(last, kExpectDraws);
  for (std::size_t f = 0; f < m_.watched.size(); ++f) {
    const Watched& w = m_.watched[f];
    const auto row = static_cast<Index>(f);
    for (Index d = 1; d < all.cols(); ++d) {
      for (int end = 0; end < w.ground_ends; ++end)
        all(row, d) += random_.uniform(0.0, std::max(w.proud_mm, 1e-12));
      if (w.without_sign) all(row, d) = std::abs(all(row, d));
    }
  }
  return all.rightCols(kExpectDraws);
}

// Of all holds, draw by draw.
MatrixXd Drawing::holds(std::size_t which) const {
  const auto x = draws_.amounts.leftCols(kStepDraws + 1);
  MatrixXd forces = v_.kept.reactions[which] * x;
  if (welded(which)) mix(v_.remelted.reactions[which] * x, forces);
  return forces;
}

Band Drawing::holding(std::size_t which) const {
  const MatrixXd forces = holds(which);
  std::vector<double> most(static_cast<std::size_t>(forces.cols() - 1), 0.0);
  Index from = 0;
  for (const MatrixXd& shapes : v_.holding.shapes) {
    const MatrixXd places = shapes * forces.middleRows(from, shapes.cols());
    for (Index d = 1; d < places.cols(); ++d) {
      double& so_far = most[static_cast<std::size_t>(d - 1)];
      so_far = std::max(so_far, places.col(d).cwiseAbs().maxCoeff());
    }
    from += shapes.cols();
  }
  return band_of(most);
}

std::vector<std::vector<PlaceForce>> Drawing::place_forces() const {
  std::vector<MatrixXd> pull, push; // places x draws: the most so far
  for (const MatrixXd& shapes : v_.holding.shapes) {
    pull.push_back(MatrixXd::Zero(shapes.rows(), kStepDraws + 1));
    push.push_back(pull.back());
  }
  for (std::size_t which = 0; which < m_.events.size(); ++which) {
    const MatrixXd forces = holds(which);
    Index from = 0;
    for (std::size_t p = 0; p < v_.holding.shapes.size(); ++p) {
      const MatrixXd& shapes = v_.holding.shapes[p];
      const MatrixXd places = shapes * forces.middleRows(from, shapes.cols());
      pull[p] = pull[p].cwiseMax(places);
      push[p] = push[p].cwiseMax(-places);
      from += shapes.cols();
    }
  }
  std::vector<std::vector<PlaceForce>> made(pull.size());
  for (std::size_t p = 0; p < pull.size(); ++p)
    for (Index place = 0; place < pull[p].rows(); ++place)
      made[p].push_back({band(pull[p], static_cast<std::size_t>(place), false),
                         band(push[p], static_cast<std::size_t>(place), false)});
  return made;
}

// Step by step: what a step lets slide is stopped against the box as it stands then, and frozen by what is
// made after it.
std::vector<Slide> Drawing::slides() const {
  const VectorXd middle = draws_.amounts.col(0);
  const auto at = [&](std::size_t moment, std::size_t pressed) -> Eigen::Vector2d {
    const auto row = static_cast<Index>(2 * pressed);
    const Eigen::Vector2d kept = v_.kept.beside[moment].middleRows(row, 2) * middle;
    if (!welded(moment)) return kept;
    const double share = draws_.remelted.front();
    return (1.0 - share) * kept + share * (v_.remelted.beside[moment].middleRows(row, 2) * middle);
  };
  std::vector<Slide> all;
  for (std::size_t p = 0; p < m_.pressed.size(); ++p) {
    const Pressed& pressed = m_.pressed[p];
    const double soft = 1.0 / m_.pieces[pressed.piece].stiffness_N_mm;
    const Eigen::Vector2d start = at(pressed.from, p);
    Eigen::Vector2d before = start, force = Eigen::Vector2d::Zero();
    Slide most;
    for (std::size_t moment = pressed.from + 1; moment < pressed.to; ++moment) {
      const Eigen::Vector2d now = at(moment, p);
      const Eigen::Array2d gives =
          v_.kept.gives[moment].diagonal().segment<2>(static_cast<Index>(2 * p)).array();
      force.array() += (now - before).array() / (soft + gives);
      before = now;
      most.mm = std::max(most.mm, (now - start).norm());
      most.N = std::max(most.N, force.norm());
    }
    all.push_back(most);
  }
  return all;
}

// The draws of a step: by their readings the box stands on some of its places.
std::vector<std::vector<Carried>> Drawing::carried() const {
  std::vector<std::vector<Carried>> all;
  Random random(seed_ + 1); // by itself: what else is drawn stays as it is
  auto row = static_cast<Index>(2 * m_.pressed.size());
  for (std::size_t s = 0; s < m_.standing.size(); ++s) {
    const Footing& footing = v_.footings[s];
    const std::size_t moment = m_.standing[s].moment;
    const Index sets = footing.balanced.cols(), places = footing.weight.size();
    const MatrixXd gives = v_.kept.gives[moment].block(row, row, sets, sets) +
                           MatrixXd::Identity(sets, sets) / m_.standing[s].stiffness_N_mm;
    const VectorXd by_weight = v_.kept.gives[moment].col(row + sets).segment(row, sets);
    const auto x = draws_.amounts.leftCols(kStepDraws + 1);
    MatrixXd reads = v_.kept.beside[moment].middleRows(row, sets) * x;
    if (welded(moment)) mix(v_.remelted.beside[moment].middleRows(row, sets) * x, reads);
    reads.colwise() += by_weight;
    row += sets + 1;
    std::vector<std::vector<double>> forces(static_cast<std::size_t>(places));
    VectorXd uneven = VectorXd::Zero(places);
    for (Index d = 1; d < reads.cols(); ++d) {
      for (double& off_mm : uneven)
        off_mm = m_.standing[s].uneven_mm * random.normal();
      reads.col(d) -= footing.balanced.transpose() * uneven;
      if (const auto carries = elastic::carried(footing, gives, reads.col(d)))
        for (Index p = 0; p < places; ++p)
          forces[static_cast<std::size_t>(p)].push_back((*carries)(p));
    }
    std::vector<Carried> made;
    for (std::vector<double>& N : forces) {
      if (N.empty()) continue;
      const auto none =
          static_cast<double>(std::count(N.begin(), N.end(), 0.0)) / static_cast<double>(N.size());
      made.push_back({band_of(N), none});
    }
    all.push_back(std::move(made));
  }
  return all;
}

std::vector<Band> Drawing::released(std::size_t first, std::size_t last) const {
  const MatrixXd before =
      first == 0 ? MatrixXd(larger_.replicate(1, kStepDraws + 1)) : values(first - 1, kStepDraws);
  const MatrixXd change = values(last, kStepDraws) - before;
  std::vector<Band> made;
  for (std::size_t f = 0; f < m_.watched.size(); ++f)
    made.push_back(band(change, f, false));
  return made;
}

} // namespace tacksquare::elastic
