// What is read of the elastic box at every step: the measures of the bench, and more than it can read.
#include "geometry/polygon.h"
#include "planning/planner/elastic_case.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

using elastic::FigureKind;

constexpr double kShortestBow_mm = 60.0; // an edge below this does not bow to speak of

void add_measures(const BoxCase& box, ElasticCase& made) {
  for (std::size_t i = 0; i < box.work.measures.size(); ++i) {
    const Measure& m = box.work.measures[i];
    const std::optional<elastic::Figure> figure = elastic::figure_of(m, box.box);
    if (!figure) continue;
    elastic::Watched watched;
    watched.figure = *figure;
    watched.without_sign = m.kind != MeasureKind::width && m.kind != MeasureKind::belly;
    watched.proud_mm = box.work.rules.proud_mm.value;
    for (const Expected& e : box.prediction.measures)
      if (e.measure == i && m.kind == MeasureKind::width && watched.proud_mm > 0.0)
        watched.ground_ends = e.ground_ends;
    made.readings.push_back({m.id, "measure", m.where, watched.without_sign});
    made.making.watched.push_back(std::move(watched));
    made.measure.push_back(i);
  }
}

void add(ElasticCase& made, ElasticReading reading, elastic::Figure figure) {
  elastic::Watched watched;
  figure.id = reading.id;
  watched.figure = std::move(figure);
  made.readings.push_back(std::move(reading));
  made.making.watched.push_back(std::move(watched));
}

void add_bow(const std::string& id, const std::string& where, Vec3 start, Vec3 end, Vec3 direction,
             ElasticCase& made) {
  if (norm(end - start) < kShortestBow_mm) return;
  add(made, {id, "edge-bow", where, false},
      {id, FigureKind::edge_bow, {start, (start + end) * 0.5, end}, direction, 0});
}

// Length and bow of each edge: seams, and free edges of the faces.
void add_edges(const BoxCase& box, ElasticCase& made) {
  for (std::size_t s = 0; s < box.box.seams.size(); ++s) {
    const Seam& seam = box.box.seams[s];
    const SeamLine& line = box.geometry.seams[s];
    if (!line.leads) continue;
    const std::string id = "length-" + seam.id;
    add(made, {id, "edge-length", seam.id, false},
        {id, FigureKind::edge_length, {line.start, line.end}, {}, 0});
    const Face &a = box.box.faces[seam.face_a], &b = box.box.faces[seam.face_b];
    const Vec3 out_a = a.placement.normal(), out_b = b.placement.normal();
    add_bow("bow-" + seam.id + "-" + a.id, seam.id, line.start, line.end, out_a, made);
    if (std::abs(dot(out_a, out_b)) < 0.95)
      add_bow("bow-" + seam.id + "-" + b.id, seam.id, line.start, line.end, out_b, made);
  }
  std::vector<int> edges(box.box.faces.size(), 0);
  for (std::size_t i = 0; i < box.geometry.rim.size(); ++i) {
    const std::size_t f = box.geometry.rim_face[i];
    const Face& face = box.box.faces[f];
    if (box.box.parts[face.part].loose) continue;
    add_bow("bow-rim-" + face.id + "-" + std::to_string(++edges[f]), face.id, box.geometry.rim[i].first,
            box.geometry.rim[i].second, face.placement.normal(), made);
  }
}

// The middle of each face against its corners.
void add_faces(const BoxCase& box, ElasticCase& made) {
  for (std::size_t f = 0; f < box.box.faces.size(); ++f) {
    const Face& face = box.box.faces[f];
    const Vec3 centre = box.geometry.faces[f].centroid;
    if (box.box.parts[face.part].loose ||
        distance_to({face.outline, face.cutouts}, face.placement.local(centre)) > 0.0)
      continue;
    elastic::Figure figure{"", FigureKind::bow, {centre}, face.placement.normal(), 0};
    const std::vector<Vec3>& ring = box.geometry.faces[f].ring;
    figure.points.insert(figure.points.end(), ring.begin(), ring.end());
    add(made, {"bow-" + face.id, "face-bow", face.id, false}, std::move(figure));
  }
}

// Sizes along each axis; those that the walls' bellies have no part in say what the corners lose.
void add_put_back(const BoxCase& box, ElasticCase& made) {
  for (const char* axis : {"width-", "depth-", "height-"}) {
    elastic::PutBack along;
    for (std::size_t w = 0; w < made.measure.size(); ++w) {
      const Measure& m = box.work.measures[made.measure[w]];
      if (m.kind != MeasureKind::width || !m.id.starts_with(axis)) continue;
      along.sizes.push_back(w);
      for (const Expected& e : box.prediction.measures)
        if (e.measure == made.measure[w] && !e.bound_only) along.corners.push_back(w);
    }
    made.making.put_back.push_back(std::move(along));
  }
}

} // namespace

void add_readings(const BoxCase& box, ElasticCase& made) {
  add_measures(box, made);
  add_put_back(box, made);
  add_edges(box, made);
  add_faces(box, made);
}

} // namespace tacksquare
