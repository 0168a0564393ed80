#include "tables/fixture_practice.h"

namespace tacksquare {

namespace {

const Source practice{"common practice of the trade", Mark::common_practice};

} // namespace

const ToolPractice& tool_practice() {
  static const ToolPractice rule{mm(20.0), deg(15.0), mm(120.0), mm(115.0), mm(90.0), practice};
  return rule;
}

const LocatorPractice& locator_practice() {
  static const LocatorPractice rule{mm(50.0), mm(20.0), mm(1.0), mm(0.2), practice};
  return rule;
}

const ClampPractice& clamp_practice() {
  static const ClampPractice rule{{mm(50.0), mm(150.0)}, mm(60.0),       mm(40.0),       mm(60.0), mm(5.0),
                                  newton(1000.0),        newton(2000.0), newton(1000.0), practice};
  return rule;
}

const FrictionPractice& friction_practice() {
  static const FrictionPractice rule{
      0.2,
      {"handbooks of mechanical engineering: steel on steel, dry, 0.15 to 0.2 and more", Mark::from_memory}};
  return rule;
}

const HandPractice& hand_practice() {
  static const HandPractice rule{newton(50.0), practice};
  return rule;
}

const FormerPractice& former_practice() {
  static const FormerPractice rule{{mm(0.5), mm(1.0)}, mm(20.0), mm(25.0), practice};
  return rule;
}

} // namespace tacksquare
