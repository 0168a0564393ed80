// How quick an order of bends is found: growth with the bends of a tray, parts of twelve bends of several
// shapes.
#include "../bending/hand_patterns.h"
#include "planning/bending/find_bend_order.h"

#include <cstdio>
#include <ctime>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

template <class Work> double cpu_ms(Work work) {
  const std::clock_t from = std::clock();
  work();
  return 1000.0 * static_cast<double>(std::clock() - from) / CLOCKS_PER_SEC;
}

std::string name(int i) {
  return std::string(1, static_cast<char>('a' + i));
}

// Four walls, each with so many flanges on it: 4 to 12 bends.
FlatPattern tray(int flanges) {
  HandPattern part(2, 2, 600, 400);
  const Side sides[] = {Side::left, Side::right, Side::top, Side::bottom};
  for (int wall = 0; wall < 4; ++wall) {
    std::string on = "B";
    for (int i = 0; i <= flanges; ++i) {
      const std::string id = name(4 * i + wall);
      part.flange(on, sides[wall], id, i == 0 ? 130 : i == 1 ? 30 : 12, i == 0 ? 90 : -90);
      on = id;
    }
  }
  return part.pattern;
}

FlatPattern comb(int tabs) {
  HandPattern part(2, 2, 1200, 1200);
  for (int i = 0; i < tabs; ++i)
    part.flange("B", i % 2 != 0 ? Side::top : Side::bottom, name(i), 30, 90, 100.0 + 60 * i, 150.0 + 60 * i);
  return part.pattern;
}

FlatPattern steps() {
  HandPattern part(1, 1, 30, 100);
  std::string on = "B";
  for (int i = 0; i < 12; ++i) {
    part.flange(on, Side::right, name(i), 40 + i, i % 2 != 0 ? 90 : -90);
    on = name(i);
  }
  return part.pattern;
}

void show(const char* what, const Brake& brake, const FlatPattern& pattern) {
  BendOrder order;
  const double took = cpu_ms([&] { order = find_bend_order(brake, pattern); });
  std::printf("%-28s %6zu %9lld %8.0f   ", what, pattern.bends.size(), order.orders_seen, took);
  if (order.blocked)
    std::printf("blocked by %s, needs %.0f\n", order.blocked->by.c_str(), order.blocked->needed_mm);
  else
    std::printf("%d turns, %d changes\n", order.turns, order.changes);
}

} // namespace

int main() {
  Brake brake = plain_brake();
  brake.punch_height = mm(260);
  Brake low = plain_brake(), fine = brake;
  fine.die_opening = mm(8);
  fine.die_width = mm(20);
  std::printf("%-28s %6s %9s %8s\n", "part", "bends", "sets", "CPU ms");
  show("box of four walls", brake, tray(0));
  show("tray with a rim", brake, tray(1));
  show("tray with a hooked rim", brake, tray(2));
  show("the same, punch too low", low, tray(2));
  show("comb of twelve tabs", brake, comb(12));
  show("comb of as many as allowed", brake, comb(static_cast<int>(kMostBends)));
  show("stairs of twelve steps", fine, steps());
}
