// The best order of units that are visited round by round, in the same order in every round. Knows no
// physics.
//
// Every step of a unit adds a load, an integer vector, to a running sum. A step costs the length of the sum
// after it; a unit straight after another one costs what the pair costs. Compared: the largest length, in
// whole widths rounded up; then the sum of all lengths and pair costs. All costs are integers; equal orders
// are decided by the smaller unit number at the first place where they differ.
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace tacksquare {

struct Load {
  long long x = 0, y = 0, z = 0;
  bool operator==(const Load&) const = default;
  Load operator+(const Load& b) const { return {x + b.x, y + b.y, z + b.z}; }
};

struct RoundProblem {
  std::size_t units = 0, rounds = 0;
  std::vector<char> joins;       // [round * units + unit]: the unit makes a step in that round
  std::vector<Load> load;        // the same index; zero where it makes none
  Load before;                   // the running sum before the first step
  long long load_per_point = 1;  // a length in cost points is |sum| / this, rounded to the nearest
  long long peak_width = 1;      // points; lengths that differ by less are equally large
  std::vector<long long> follow; // [last * units + next], points, >= 0
  std::vector<std::vector<std::size_t>> after; // per unit: those that must come before it
};

struct OrderCost {
  long long peak = 0; // largest length, widths rounded up
  long long sum = 0;  // points
  auto operator<=>(const OrderCost&) const = default;
};

struct FoundOrder {
  std::vector<std::size_t> order;
  OrderCost cost;
  bool proven = false; // none is better
};

inline constexpr std::size_t kExactUnits = 16;

// Precondition: order is a permutation of the units.
OrderCost cost_of(const RoundProblem& problem, const std::vector<std::size_t>& order);

// The wanted order, changed as little as precedence asks: always the first unit whose predecessors are done.
// Precondition: no cycle (InternalError).
std::vector<std::size_t> made_legal(const RoundProblem& problem, const std::vector<std::size_t>& wanted);

// Peaks up to peak_allowed count as equal: compares (max(peak, peak_allowed), sum).
// Up to 16 units by dynamic programming over sets (Held and Karp 1962): exact, because a length depends only
// on the set made and a pair cost only on the last unit; one pass finds the least peak, a second the least
// sum that keeps it.
FoundOrder exact_order(const RoundProblem& problem, long long peak_allowed);

// From the best of the starting orders (legal, at least one), by swaps, moves of one unit and of two or three
// together, with kicks when stuck; a fixed number of trials. Never worse than any start.
FoundOrder local_order(const RoundProblem& problem, long long peak_allowed,
                       const std::vector<std::vector<std::size_t>>& starts, std::uint64_t seed, int trials);

} // namespace tacksquare
