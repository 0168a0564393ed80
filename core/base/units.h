// Physical quantities as types, so that a length cannot pass for an angle and no bare number for either.
// Inside numerics use plain doubles with a unit in the name (span_mm, E_MPa); at function borders use these.
#pragma once

#include <compare>

namespace tacksquare {

// A quantity with the unit it is stored in. Built only by the named makers below.
template <class Tag> class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(double stored) : stored_(stored) {}
  constexpr double stored() const { return stored_; }
  constexpr auto operator<=>(const Quantity&) const = default;
  constexpr Quantity operator-() const { return Quantity(-stored_); }
  constexpr Quantity operator+(Quantity b) const { return Quantity(stored_ + b.stored_); }
  constexpr Quantity operator-(Quantity b) const { return Quantity(stored_ - b.stored_); }
  constexpr Quantity operator*(double f) const { return Quantity(stored_ * f); }
  constexpr Quantity operator/(double f) const { return Quantity(stored_ / f); }
  constexpr double operator/(Quantity b) const { return stored_ / b.stored_; }

 private:
  double stored_ = 0.0;
};

using Length = Quantity<struct LengthTag>;             // mm
using Area = Quantity<struct AreaTag>;                 // mm2
using Angle = Quantity<struct AngleTag>;               // rad
using Mass = Quantity<struct MassTag>;                 // kg
using Duration = Quantity<struct DurationTag>;         // s
using Temperature = Quantity<struct TemperatureTag>;   // deg C
using Speed = Quantity<struct SpeedTag>;               // mm/s
using Force = Quantity<struct ForceTag>;               // N
using HeatInput = Quantity<struct HeatInputTag>;       // J/mm, along the weld
using Current = Quantity<struct CurrentTag>;           // A
using Voltage = Quantity<struct VoltageTag>;           // V
using FlowRate = Quantity<struct FlowRateTag>;         // L/min
using Stress = Quantity<struct StressTag>;             // MPa
using Density = Quantity<struct DensityTag>;           // kg/m3
using Expansion = Quantity<struct ExpansionTag>;       // 1e-6/K
using Conductivity = Quantity<struct ConductivityTag>; // W/(m K)
using SpecificHeat = Quantity<struct SpecificHeatTag>; // J/(kg K)
using MinutesPerMetre = Quantity<struct PaceTag>;      // min/m, the pace of grinding

inline constexpr double kPi = 3.14159265358979323846;
inline constexpr double kMmPerInch = 25.4;
inline constexpr double kGravity_m_s2 = 9.81;

constexpr Length mm(double v) {
  return Length(v);
}
constexpr Length inch(double v) {
  return Length(v * kMmPerInch);
}
constexpr Angle rad(double v) {
  return Angle(v);
}
constexpr Angle deg(double v) {
  return Angle(v * kPi / 180.0);
}
constexpr Mass kg(double v) {
  return Mass(v);
}
constexpr Duration seconds(double v) {
  return Duration(v);
}
constexpr Duration minutes(double v) {
  return Duration(60.0 * v);
}
constexpr Temperature celsius(double v) {
  return Temperature(v);
}
constexpr Speed mm_per_s(double v) {
  return Speed(v);
}
constexpr Speed cm_per_min(double v) {
  return Speed(v / 6.0);
}
constexpr Speed m_per_min(double v) {
  return Speed(v * 1000.0 / 60.0);
}
constexpr Force newton(double v) {
  return Force(v);
}
constexpr HeatInput j_per_mm(double v) {
  return HeatInput(v);
}
constexpr Current ampere(double v) {
  return Current(v);
}
constexpr Voltage volt(double v) {
  return Voltage(v);
}
constexpr FlowRate l_per_min(double v) {
  return FlowRate(v);
}
constexpr Stress megapascal(double v) {
  return Stress(v);
}

constexpr double in_mm(Length v) {
  return v.stored();
}
constexpr double in_inch(Length v) {
  return v.stored() / kMmPerInch;
}
constexpr double in_rad(Angle v) {
  return v.stored();
}
constexpr double in_deg(Angle v) {
  return v.stored() * 180.0 / kPi;
}
constexpr double in_kg(Mass v) {
  return v.stored();
}
constexpr double in_s(Duration v) {
  return v.stored();
}
constexpr double in_min(Duration v) {
  return v.stored() / 60.0;
}
constexpr double in_celsius(Temperature v) {
  return v.stored();
}
constexpr double in_mm_per_s(Speed v) {
  return v.stored();
}
constexpr double in_m_per_min(Speed v) {
  return v.stored() * 60.0 / 1000.0;
}
constexpr double in_cm_per_min(Speed v) {
  return v.stored() * 6.0;
}
constexpr double in_n(Force v) {
  return v.stored();
}
constexpr double in_j_per_mm(HeatInput v) {
  return v.stored();
}
constexpr double in_a(Current v) {
  return v.stored();
}
constexpr double in_v(Voltage v) {
  return v.stored();
}
constexpr double in_l_per_min(FlowRate v) {
  return v.stored();
}
constexpr double in_mpa(Stress v) {
  return v.stored();
}

} // namespace tacksquare
