#include "physics/elastic/course.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;

Cut cut_of(const Making& m) {
  Cut made;
  for (const WeldLength& run : m.welds) {
    std::vector<double> cuts, under;
    for (const TackPlace& t : m.tacks)
      if (t.seam == run.seam && t.at_mm > run.from_mm && t.at_mm < run.to_mm) under.push_back(t.at_mm);
    std::sort(under.begin(), under.end());
    cuts.push_back(run.from_mm);
    for (std::size_t i = 0; i + 1 < under.size(); ++i)
      cuts.push_back(0.5 * (under[i] + under[i + 1]));
    cuts.push_back(run.to_mm);
    std::vector<WeldLength> parts;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i)
      parts.push_back({run.seam, cuts[i], cuts[i + 1], run.backward});
    if (run.backward) std::reverse(parts.begin(), parts.end());
    made.welds.insert(made.welds.end(), parts.begin(), parts.end());
    made.last_of.push_back(made.welds.size() - 1);
  }
  return made;
}

Variant variant_of(std::vector<Moment> moments, const Course& course, Index watched, Index beside) {
  Variant made;
  for (const std::size_t over : course.over) {
    if (over == 0) throw InternalError("a piece that holds nothing");
    Moment& moment = moments[over - 1];
    made.measures.push_back(moment.measures.topRows(watched));
    made.gap_mm.push_back(std::move(moment.gap_mm));
    if (beside > 0) made.beside.push_back(moment.measures.bottomRows(beside));
    made.gives.push_back(std::move(moment.gives));
    made.closing_N.push_back(std::move(moment.closing_N));
    made.reactions.push_back(std::move(moment.reactions));
  }
  return made;
}

Holding holding_of(const Making& m) {
  Holding made;
  for (std::size_t p = 0; p < m.pieces.size(); ++p) {
    const Piece& piece = m.pieces[p];
    made.first.push_back(made.holds.size());
    MatrixXd shapes = holds_of(piece);
    for (Index h = 0; h < shapes.cols(); ++h) {
      Figure figure{"hold", FigureKind::pushes, piece.at, {}, 0};
      double off = 0.0;
      for (std::size_t i = 0; i < piece.at.size(); ++i) {
        const double push = shapes(static_cast<Index>(i), h);
        figure.pushes.push_back(piece.out[i] * push);
        off += push * piece.off_mm[i];
      }
      Hold hold{static_cast<Index>(m.watched.size() + made.figures.size()), piece.stiffness_N_mm, false, 0.0};
      hold.piece = p;
      hold.off = off;
      made.holds.push_back(hold);
      made.figures.push_back(std::move(figure));
    }
    made.shapes.push_back(std::move(shapes));
  }
  made.first.push_back(made.holds.size());
  return made;
}

// Along two directions of the wall each.
void add_slides(const Making& m, std::vector<Figure>& figures) {
  for (const Pressed& pressed : m.pressed) {
    const Piece& piece = m.pieces[pressed.piece];
    const Vec3 out = piece.out[pressed.place];
    const Vec3 first = unit(cross(out, std::abs(out.z) < 0.7 ? Vec3{0, 0, 1} : Vec3{1, 0, 0}));
    for (const Vec3 along : {first, cross(out, first)})
      figures.push_back(
          {"slide", FigureKind::pushes, piece.at, {}, 0, past_piece(piece, pressed.place, along)});
  }
}

} // namespace

std::optional<Prepared> prepared_of(const Job& job, const Box& box, const BoxGeometry& geometry,
                                    const Making& m, const ModelOptions& options, Diagnostics& out) {
  std::vector<Figure> figures;
  for (const Watched& w : m.watched)
    figures.push_back(w.figure);
  Prepared made;
  made.holding = holding_of(m);
  figures.insert(figures.end(), made.holding.figures.begin(), made.holding.figures.end());
  add_slides(m, figures);
  for (const Standing& standing : m.standing) {
    made.footings.push_back(footing_of(standing));
    for (Figure& figure : figures_of(standing, made.footings.back()))
      figures.push_back(std::move(figure));
  }
  std::vector<Misfit> misfits;
  for (const MisfitSpread& s : m.misfits)
    misfits.push_back(s.misfit);
  made.runs = cut_of(m);
  ModelOptions tapered = options;
  tapered.jump_taper_mm = m.short_taper_mm;
  const bool two_tapers = m.long_taper_mm > m.short_taper_mm;
  if (two_tapers) tapered.second_taper_mm = m.long_taper_mm;
  auto both = make_box_model(job, box, geometry, m.tacks, made.runs.welds, figures, misfits, tapered, out);
  if (!both) return std::nullopt;
  made.model = std::make_shared<const BoxModel>(std::move(*both));
  for (Hold& hold : made.holding.holds)
    hold.reading = made.model->measures[static_cast<std::size_t>(hold.reading)];
  made.cases = cases_of(*made.model, box.seams.size());
  made.cases.second_taper = two_tapers;
  made.cases.pieces = m.pieces.size();
  return made;
}

Course course_of(const std::vector<Event>& events, const Prepared& prepared) {
  const Cut& runs = prepared.runs;
  const std::vector<std::size_t>& first_hold = prepared.holding.first;
  Course made;
  bool welded = false;
  for (const Event& e : events) {
    const auto all = [&](std::size_t from, std::size_t to) {
      for (std::size_t i = from; i < to; ++i)
        made.events.push_back({e.kind, i});
    };
    switch (e.kind) {
    case Event::Kind::tack:
      all(e.which, e.which + 1);
      break;
    case Event::Kind::weld:
      if (!welded) made.before_welds = made.events.size();
      welded = true;
      all(e.which == 0 ? 0 : runs.last_of[e.which - 1] + 1, runs.last_of[e.which] + 1);
      break;
    case Event::Kind::hold:
    case Event::Kind::let_go:
      all(first_hold[e.which], first_hold[e.which + 1]);
      break;
    }
    made.over.push_back(made.events.size());
  }
  if (!welded) made.before_welds = made.events.size();
  return made;
}

Variants variants_of(const Prepared& prepared, const Making& m) {
  Variants made;
  made.cases = prepared.cases;
  made.model = prepared.model;
  made.holding = prepared.holding;
  made.footings = prepared.footings;
  made.course = course_of(m.events, prepared);
  const MatrixXd each = MatrixXd::Identity(made.cases.count(), made.cases.count());
  const auto split = made.course.events.begin() + static_cast<long>(made.course.before_welds);
  const auto watched = static_cast<Index>(m.watched.size()),
             all = static_cast<Index>(made.model->measures.size());
  const Index first_beside = watched + static_cast<Index>(made.holding.figures.size()),
              beside = all - first_beside;
  BothEnds ends =
      make_both_ends(*made.model, {made.course.events.begin(), split}, {split, made.course.events.end()},
                     made.holding.holds, made.cases, each, beside > 0 ? first_beside : -1);
  made.kept = variant_of(std::move(ends.kept), made.course, watched, beside);
  made.remelted = variant_of(std::move(ends.remelted), made.course, watched, beside);
  return made;
}

} // namespace tacksquare::elastic
