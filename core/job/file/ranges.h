// What is taken for a number that somebody can have meant. docs/job-file.md lists them.
#pragma once

#include "base/units.h"
#include "job/file/reading.h"

namespace tacksquare::ranges {

inline constexpr Range<Length> thickness{mm(0.5), mm(12)};
inline constexpr Range<Length> size{mm(20), mm(6000)};       // of a box
inline constexpr Range<Length> place{mm(-20000), mm(20000)}; // a coordinate
inline constexpr Range<Length> point{mm(-30000), mm(30000)}; // a corner: of a hole at the last place too
inline constexpr Range<Length> outside{mm(20), mm(6100)};    // of a box stated by its inside too
inline constexpr Range<Length> setback{mm(-50), mm(50)};
inline constexpr Range<Length> radius{mm(0.1), mm(200)}; // inside, of a bend
inline constexpr Range<Length> edge_radius{mm(0), mm(20)};
inline constexpr Range<Length> leg{mm(0.5), mm(20)};
inline constexpr Range<Length> run{mm(1), mm(2000)};  // tacks, stitches, runs, pitches
inline constexpr Range<Length> hole{mm(1), mm(2000)}; // diameter
inline constexpr Range<Length> lip{mm(3), mm(500)};
inline constexpr Range<Length> tack_throat{mm(0.1), mm(20)};
inline constexpr Range<Length> limit{mm(0), mm(50)}; // what may be off
inline constexpr Range<Length> wire{mm(0.4), mm(6)};
inline constexpr Range<Length> shrinkage{mm(-5), mm(20)};
inline constexpr Range<Length> disc{mm(100), mm(1000000)}; // metres ground with one disc
inline constexpr Range<Length> opening{mm(20), mm(20000)}; // its widths, heights, depths
inline constexpr Range<Length> diagonal{mm(28), mm(28300)};
inline constexpr Range<Length> plumb{mm(-500), mm(500)};
inline constexpr Range<Length> gap{mm(0), mm(500)}; // left free in an opening on purpose
inline constexpr Range<Length> proud{mm(0.05), mm(2000)};
inline constexpr Range<Length> along_side{mm(0), mm(20000)};
inline constexpr Range<Length> coating{mm(0), mm(2)};
inline constexpr Range<Length> misfit{mm(0), mm(5)};
inline constexpr Range<Length> reading{mm(-50), mm(50)}; // off to either side
inline constexpr Range<Length> tooling{mm(1), mm(2000)};
inline constexpr Range<Length> tooling_or_none{mm(0), mm(2000)};
inline constexpr Range<Length> gauge_reach{mm(0), mm(10000)};
inline constexpr Range<Length> deduction{mm(0.01), mm(200)};
inline constexpr Range<Length> table{mm(100), mm(20000)};
inline constexpr Range<Length> tool{mm(1), mm(1000)};  // torch and grinder
inline constexpr Range<Length> piece{mm(1), mm(6000)}; // of a fixture: its sizes
inline constexpr Range<Length> clip{mm(0), mm(500)};
inline constexpr Range<Angle> groove{deg(10), deg(120)};
inline constexpr Range<Angle> angle{deg(-10), deg(20)}; // shrinkage
inline constexpr Range<Angle> bend_misfit{deg(0), deg(10)};
inline constexpr Range<Angle> tip{deg(1), deg(89)};
inline constexpr Range<Angle> punch{deg(10), deg(150)};
inline constexpr Range<Angle> bend{deg(1), deg(170)}; // turned through
inline constexpr Range<Angle> lean{deg(0), deg(80)};  // of a torch
inline constexpr Range<Force> force{newton(0), newton(1e6)};
inline constexpr Range<Force> press{newton(1), newton(1e5)}; // of a clamp
inline constexpr Range<Duration> task{seconds(0.1), minutes(240)};
inline constexpr Range<Duration> takt{minutes(1), minutes(6000)};
inline constexpr Range<Temperature> ambient{celsius(-30), celsius(50)};
inline constexpr Range<Temperature> temperature{celsius(20), celsius(400)};
inline constexpr Range<Speed> wire_feed{m_per_min(0.5), m_per_min(25)};
inline constexpr Range<Speed> travel{cm_per_min(2), cm_per_min(300)};
inline constexpr Range<Voltage> volts{volt(5), volt(60)};
inline constexpr Range<Current> amps{ampere(5), ampere(600)};
inline constexpr Range<FlowRate> flow{l_per_min(1), l_per_min(40)};
inline constexpr Range<MinutesPerMetre> pace{MinutesPerMetre(0.2), MinutesPerMetre(60)};
inline constexpr Range<double> fraction{0.0, 1.0};
inline constexpr Range<double> efficiency{0.2, 1.0};
inline constexpr Range<double> direction{-1.0e6, 1.0e6};
inline constexpr Range<double> bend_ratio{0.0, 20.0};
inline constexpr Range<double> poisson{0.1, 0.45};
inline constexpr Range<double> chance{0.5, 0.9999};
inline constexpr Range<int> count{1, 1000};
inline constexpr Range<int> owned{0, 1000};
inline constexpr Range<int> grit{16, 1000};
inline constexpr Range<int> gauge{1, 40};
inline constexpr Range<Density> density{Density(1000), Density(20000)};
inline constexpr Range<Stress> youngs{megapascal(10e3), megapascal(400e3)};
inline constexpr Range<Stress> strength{megapascal(20), megapascal(2000)};
inline constexpr Range<Expansion> expansion{Expansion(1), Expansion(50)};
inline constexpr Range<Conductivity> conductivity{Conductivity(1), Conductivity(500)};
inline constexpr Range<SpecificHeat> specific_heat{SpecificHeat(100), SpecificHeat(2000)};
inline constexpr Range<Temperature> melting{celsius(300), celsius(2000)};

} // namespace tacksquare::ranges
