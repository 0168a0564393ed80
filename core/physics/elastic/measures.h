// What is read of a deformed box: linear in the displacements, blind to rigid motion.
#pragma once

#include "physics/elastic/box_readings.h"
#include "work/work.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare::elastic {

enum class FigureKind {
  diagonals,    // four corners in ring order: how much 1-3 grows against 2-4
  twist,        // four corners: n . (u1 - u2 + u3 - u4), n out of the ring 1-2-3-4
  bow,          // first point against the mean of the others, along the face's normal out of the box
  edge_length,  // from 1 to 2
  edge_bow,     // middle against the mean of two ends: 1, middle, 2; along `direction`
  length_pair,  // from 1 to 2 against from 3 to 4
  lean,         // second point against the first, along `direction`
  pushes,       // what forces on the points, and spread over faces, do work on
  displacement, // of a point along `direction`: not blind to rigid motion; where a force acts
  rotation      // of `face` at a point, about `direction`: the same, where a moment acts
};

struct Figure {
  std::string id;
  FigureKind kind = FigureKind::edge_length;
  std::vector<Vec3> points;   // box frame; corners on the middle surfaces or within a few thicknesses
  Vec3 direction{};           // bow, edge_bow, lean, displacement, rotation: unit
  std::size_t face = 0;       // rotation: index in Box::faces
  std::vector<Vec3> pushes{}; // pushes: force at each point, N
  std::vector<double>
      spread{}; // pushes: as Box::faces, forces along `direction` spread over them, N; or none
};

// The figure of a measure of the work; nothing for gaps, steps and what is ground.
std::optional<Figure> figure_of(const Measure& measure, const Box& box);

// near_mm: faces that pass within this of a point share in it.
BoxReading reading_of(const Figure& figure, const Plates& plates, double near_mm);

} // namespace tacksquare::elastic
