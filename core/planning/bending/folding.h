// A part as flat faces joined by bends, and where each face stands when some of the bends are made.
#pragma once

#include "geometry/flat_pattern.h"
#include "planning/bending/section.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace tacksquare {

using BendSet = std::uint32_t; // bit i: bend i is made

// A convex piece of the sheet, thick, as the tooling of a bend sees it. Section: x away from the bend, from
// where its bent zone ends; y towards the inside of the bend, from the middle of the sheet.
struct Body {
  Convex section;
  Stretch along;          // along the bend, from its middle
  bool in_plane = false;  // with the sheet at the bend: rests on the die
  bool out_of_it = false; // bent zone that begins in that plane and leaves it
};

// Bends that one stroke makes: one bend, or several on one line of one face that are alike.
struct StrokeLine {
  std::vector<std::size_t> members; // along the line; of several the first by index gives the directions
  BendSet bends = 0;
  std::size_t leader = 0;     // the member with the smallest index
  Vec2 middle, along, across; // in the flat, unit: along the line, and from the leader's face_a to its face_b
  double length_mm = 0.0;     // over all of its members
  std::vector<Stretch> parts; // the members, from the middle of the line
};

// A side of a bend where the sheet ends, or turns, square to the sheet's way in: what can lie against stops.
struct GaugeEdge {
  std::size_t face = 0;
  double away_mm = 0.0; // from the end of the bent zone
  Stretch along;
};

class Folding {
 public:
  // InternalError unless the bends join all faces to a tree.
  explicit Folding(const FlatPattern& pattern);

  const FlatPattern& pattern() const { return *pattern_; }
  std::size_t faces() const { return pattern_->faces.size(); }
  std::size_t bends() const { return pattern_->bends.size(); }

  // Each bend by itself, by its index, then all runs of neighbours that one stroke can make.
  const std::vector<StrokeLine>& lines() const { return lines_; }

  // Seen from a line: whether a face hangs on its leader's face_b, or that side of it, and the bends between
  // it and the face, from the line on out.
  bool beyond(std::size_t line, std::size_t face) const { return way(line, face).beyond; }
  const std::vector<std::size_t>& path(std::size_t line, std::size_t face) const {
    return way(line, face).path;
  }
  const FlatBend& leader(std::size_t line) const { return pattern_->bends[lines_[line].leader]; }

  // The face with the bent zone by which it hangs on the rest.
  std::vector<Body> bodies(std::size_t line, std::size_t face, BendSet done) const;
  // Cut edges of a face in the plane of the sheet that look straight away from the line.
  std::vector<GaugeEdge> cut_edges(std::size_t line, std::size_t face) const;
  // The outer side of the face where its last bend before it is made, square, and begins in the plane of the
  // sheet.
  std::optional<GaugeEdge> bent_edge(std::size_t line, std::size_t face) const;

 private:
  struct Joint {
    std::size_t face_a = 0, face_b = 0;
    Vec2 middle, across;
    double length_mm = 0.0;
    double middle_radius_mm = 0.0; // of the middle of the sheet
  };
  struct Way {
    bool beyond = false;
    std::vector<std::size_t> path;
  };
  // Flat pattern and height over it, on the side that looks out of the box, to another place.
  struct Pose {
    Vec3 origin, x, y, up;
    Vec3 at(Vec2 p, double height) const { return origin + x * p.x + y * p.y + up * height; }
  };
  const Way& way(std::size_t line, std::size_t face) const { return ways_[line * faces() + face]; }
  Vec2 away_from(std::size_t line, std::size_t face) const; // direction in the flat
  void find_lines();
  void find_ways(std::size_t line);
  Pose start(std::size_t line, std::size_t face) const;
  Pose folded(const Pose& before, std::size_t bend, Vec2 away) const;
  void add_zone(std::vector<Body>& bodies, const Pose& pose, std::size_t bend, Vec2 away, bool made,
                bool in_plane) const;
  Body body(const std::vector<Vec3>& corners) const;

  const FlatPattern* pattern_;
  std::vector<Joint> joints_;                          // as bends
  std::vector<StrokeLine> lines_;                      // each bend, then runs of several
  std::vector<Way> ways_;                              // [line][face]
  std::vector<std::vector<std::vector<Vec2>>> pieces_; // [face]: convex
};

} // namespace tacksquare
