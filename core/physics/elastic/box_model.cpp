#include "physics/elastic/box_model.h"

#include "physics/elastic/joint_maker.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace tacksquare::elastic {

namespace {

using Eigen::VectorXd;

constexpr double kBendStiffer = 10.0; // a bend's springs against a weld's: as good as one sheet

void check_tacks(const JointMaker& m, const std::vector<TackPlace>& tacks,
                 const std::vector<WeldLength>& welds, Diagnostics& out) {
  std::vector<bool> tacked(m.box.seams.size(), false);
  for (const TackPlace& t : tacks)
    tacked[t.seam] = true;
  for (std::size_t s = 0; s < m.box.seams.size(); ++s) {
    const auto other = m.geometry.seams[s].other_side;
    const bool welded =
        std::any_of(welds.begin(), welds.end(), [&](const WeldLength& w) { return w.seam == s; });
    if (welded && !tacked[s] && !(other && tacked[*other]))
      out.error("seam-untacked", m.box.seams[s].where,
                "seam " + m.box.seams[s].id + " of box " + m.box.id + " has no tack when it is welded",
                "let it have tacks (tack-pitch, first-tack), or make it longer");
  }
}

// Every face must be tied to the first by bends and tacks; a part of which one is not is told, with the seams
// that could tie it.
void check_tied(const JointMaker& m, const std::vector<TackPlace>& tacks, Diagnostics& out) {
  std::vector<std::size_t> group(m.box.faces.size());
  std::iota(group.begin(), group.end(), std::size_t{0});
  const auto tie = [&](std::size_t face_a, std::size_t face_b) {
    const std::size_t a = group[face_a], b = group[face_b];
    for (std::size_t& g : group)
      if (g == std::max(a, b)) g = std::min(a, b);
  };
  for (const BendLine& line : m.geometry.bends) {
    const Bend& bend = m.box.parts[line.part].bends[line.bend];
    tie(bend.face_a, bend.face_b);
  }
  for (const TackPlace& t : tacks)
    tie(m.box.seams[t.seam].face_a, m.box.seams[t.seam].face_b);
  bool first = true;
  for (std::size_t f = 0; f < group.size(); ++f) {
    const Part& part = m.box.parts[m.box.faces[f].part];
    if (group[f] != f || part.loose) continue;
    if (std::exchange(first, false)) continue;
    std::string seams;
    for (const Seam& s : m.box.seams)
      if ((group[s.face_a] == f) != (group[s.face_b] == f)) seams += " " + s.id;
    out.error("part-untied", part.where,
              "part " + part.id + " of box " + m.box.id + " is tied to the rest by no tack",
              seams.empty() ? "state a seam that holds it" : "let one of these seams have tacks:" + seams);
  }
}

// From a tack to the next of its seam.
double gap_beside(const TackPlace& tack, const std::vector<TackPlace>& all) {
  double least = 1e9;
  for (const TackPlace& t : all)
    if (t.seam == tack.seam && &t != &tack)
      least = std::min(least, std::abs(t.at_mm - tack.at_mm) - 0.5 * (t.length_mm + tack.length_mm));
  return std::max(0.0, least);
}

// Small elements at the ends of seams, and where a stitch is no longer than one: two on it.
Fineness fineness_of(const BoxGeometry& geometry, std::vector<WeldLength> welds,
                     const ModelOptions& options) {
  Fineness made(geometry, options.mesh_mm, options.end_mm);
  if (options.end_mm <= 0.0) return made;
  std::sort(welds.begin(), welds.end(), [](const WeldLength& a, const WeldLength& b) {
    return std::pair(a.seam, a.from_mm) < std::pair(b.seam, b.from_mm);
  });
  for (std::size_t i = 0; i < welds.size();) {
    const SeamLine& line = geometry.seams[welds[i].seam];
    const std::size_t seam = welds[i].seam;
    const double from = welds[i].from_mm;
    double to = welds[i].to_mm;
    for (++i; i < welds.size() && welds[i].seam == seam && welds[i].from_mm < to + 1e-6; ++i)
      to = std::max(to, welds[i].to_mm);
    made.put(line.start + unit(line.end - line.start) * (0.5 * (from + to)), 0.5 * (to - from));
  }
  return made;
}

} // namespace

std::optional<BoxModel> make_box_model(const Job& job, const Box& box, const BoxGeometry& geometry,
                                       const std::vector<TackPlace>& tacks,
                                       const std::vector<WeldLength>& welds,
                                       const std::vector<Figure>& figures, const std::vector<Misfit>& misfits,
                                       const ModelOptions& options, Diagnostics& out) {
  JointMaker m{job, box, geometry, options, fineness_of(geometry, welds, options)};
  double area = 0.0;
  for (std::size_t f = 0; f < box.faces.size(); ++f)
    if (!box.parts[box.faces[f].part].loose) area += geometry.faces[f].area_mm2;
  const double cells = area / (options.mesh_mm * options.mesh_mm);
  if (cells > static_cast<double>(options.most_cells)) {
    out.error("mesh-large", box.where,
              "box " + box.id + " needs about " + std::to_string(std::llround(cells)) +
                  " elements, more than " + std::to_string(options.most_cells),
              "let it be planned with a wider mesh");
    return std::nullopt;
  }
  check_tacks(m, tacks, welds, out);
  check_tied(m, tacks, out);
  if (out.has_errors()) return std::nullopt;

  m.find_lines();
  const auto made_plates = std::make_shared<const Plates>(job, box, m.all_lines(), m.fineness);
  const Plates& plates = *made_plates;
  m.read_on(plates);

  BoxModel model;
  model.plates = made_plates;
  for (const LineReader& r : m.bend_readers)
    model.bends.push_back(m.springs(
        r, 0.0, r.line().length_mm,
        m.of_metal(r.line(), kBendStiffer * options.weld_spring, kBendStiffer * options.weld_turn)));
  for (const TackPlace& t : tacks) {
    const double from = t.at_mm - 0.5 * t.length_mm, to = t.at_mm + 0.5 * t.length_mm;
    const LineReader& reader = m.seam_readers[t.seam];
    const double alone =
        options.beside_tacks ? std::min(1.0, gap_beside(t, tacks) / m.size_at(reader.line(), t.at_mm)) : 0.0;
    model.tacks.push_back(m.tack_springs(reader, from, to, m.tack_metal(t.seam), alone));
    m.shrinkage(model.tacks.back(), t.seam);
  }
  for (const WeldLength& w : welds) {
    model.welds.push_back(m.springs(m.seam_readers[w.seam], w.from_mm, w.to_mm, m.weld_metal(w.seam)));
    m.shrinkage(model.welds.back(), w.seam);
    model.welds.back().along_load = m.put(m.along_load(model.welds.back()));
  }
  double thickest = 0.0;
  for (std::size_t f = 0; f < box.faces.size(); ++f)
    thickest = std::max(thickest, m.thickness(f));
  for (const Figure& f : figures)
    model.measures.push_back(m.put(reading_of(f, plates, 1.5 * thickest + 0.5)));

  const Vec3 centre = (geometry.low + geometry.high) * 0.5;
  model.parts = plates.structure(m.readings, centre, 0.5 * norm(geometry.high - geometry.low));
  Closing bends = closing_of(model.bends, static_cast<Index>(misfits.size()));
  model.parts.free = m.misfit_cases(model, misfits, bends);
  if (!model.bends.empty()) model.parts = closed(model.parts, bends);
  model.readings = std::move(m.readings);
  for (std::size_t f = 0; f < box.faces.size(); ++f)
    if (plates.has(f)) model.elements += plates.plate(f).mesh().cells.size();

  return model;
}

Closing closing_of(const std::vector<Joint>& joints, Index cases) {
  Closing made;
  std::vector<double> stiffness;
  for (const Joint& j : joints) {
    made.readings.insert(made.readings.end(), j.readings.begin(), j.readings.end());
    stiffness.insert(stiffness.end(), j.stiffness.data(), j.stiffness.data() + j.stiffness.size());
  }
  made.stiffness = Eigen::Map<const VectorXd>(stiffness.data(), static_cast<Index>(stiffness.size()));
  made.rest = Eigen::MatrixXd::Zero(made.stiffness.size(), cases);
  return made;
}

int cells_of(const Joint& joint) {
  return joint.readings.size() == 6 ? 1 : static_cast<int>(joint.readings.size() / 4);
}

double covered(const Joint& tack, const Joint& weld) {
  if (tack.seam != weld.seam) return 0.0;
  const double from = std::max(tack.from_mm, weld.from_mm), to = std::min(tack.to_mm, weld.to_mm);
  return std::clamp((to - from) / (tack.to_mm - tack.from_mm), 0.0, 1.0);
}

TackedBox tacked(const BoxModel& model, const std::vector<Spring>& held) {
  const auto cases = static_cast<Index>(2 * model.welds.size());
  Closing closing = closing_of(model.tacks, cases);
  for (std::size_t w = 0; w < model.welds.size(); ++w) {
    Index row = 0;
    for (const Joint& tack : model.tacks) {
      const double share = covered(tack, model.welds[w]);
      const auto col = static_cast<Index>(2 * w);
      closing.rest.block(row, col, tack.shrunk.across.size(), 1) = share * tack.shrunk.across;
      closing.rest.block(row, col + 1, tack.shrunk.angle.size(), 1) = share * tack.shrunk.angle;
      row += tack.shrunk.across.size();
    }
  }
  for (const Spring& spring : held) {
    const Index n = closing.stiffness.size();
    closing.readings.push_back(spring.reading);
    closing.stiffness.conservativeResize(n + 1);
    closing.stiffness(n) = spring.stiffness;
    closing.rest.conservativeResize(n + 1, Eigen::NoChange);
    closing.rest.row(n).setZero();
  }
  TackedBox made;
  made.welds = model.welds;
  made.measures = model.measures;
  Indices kept;
  const auto keep = [&](Index& reading) {
    if (reading < 0) return;
    kept.push_back(reading);
    reading = static_cast<Index>(kept.size()) - 1;
  };
  for (Joint& w : made.welds) {
    for (Index& r : w.readings)
      keep(r);
    keep(w.along_load);
    keep(w.shrunk.across_load);
    w.second = {};
  }
  for (Index& r : made.measures)
    keep(r);
  // Bends' readings have done their work: only tacks and what is kept go through the sum.
  Indices used = closing.readings;
  used.insert(used.end(), kept.begin(), kept.end());
  Structure s = picked(model.parts, used);
  s.free = Eigen::MatrixXd::Zero(s.readings(), cases);
  std::iota(closing.readings.begin(), closing.readings.end(), Index{0});
  if (!closing.readings.empty()) s = closed(s, closing);
  Indices rest(kept.size());
  std::iota(rest.begin(), rest.end(), static_cast<Index>(closing.readings.size()));
  if (s.motions.cols() > 6) throw NumericalFailure("a box that still moves in itself when all tacks hold");
  made.structure = picked(s, rest);
  return made;
}

} // namespace tacksquare::elastic
