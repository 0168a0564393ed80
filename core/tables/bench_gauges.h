// What the pair measures with, and how finely each can be read. Common practice, no source, unless a row says
// otherwise.
#pragma once

#include "base/band.h"
#include "base/units.h"

#include <string>
#include <vector>

namespace tacksquare {

enum class BenchGauge {
  tape,         // lengths over 1 m
  steel_rule,   // lengths to 600 mm
  pinch_sticks, // differences of two diagonals, from corner to corner
  calliper,     // thickness, widths it spans
  feeler,       // gaps, rock under the fourth corner
  try_square,   // with a feeler: wall lean
  straightedge, // with a feeler: belly, proud, flatness of the table
  gap_gauge     // goes over or does not
};

struct BenchGaugeInfo {
  BenchGauge gauge = BenchGauge::tape;
  std::string id;           // "pinch-sticks"
  std::string name_key;     // key of the catalogue of texts: "gauge.pinch-sticks"
  Length resolution;        // how far a reading may be off
  Length step;              // what a figure for it is rounded to: at least the resolution, and 400 stays 400
  double inch_step = 0.001; // the same for who reads decimals of an inch: 0.02 on a rule of fiftieths
  int inch_parts = 0;       // the same for who reads fractions: 64 on a rule; 0 where nobody does (feelers)
  std::string reads;        // what it reads, in English
  Source source;
};

const std::vector<BenchGaugeInfo>& bench_gauges(); // in the order of the enum
const BenchGaugeInfo& bench_gauge(BenchGauge gauge);

// The length rounded to the gauge's step.
Length round_to_reading(BenchGauge gauge, Length length);
std::string
reading_text(BenchGauge gauge,
             Length length); // in mm without unit: "399.5", "0.35", at most two decimals, at least one

} // namespace tacksquare
