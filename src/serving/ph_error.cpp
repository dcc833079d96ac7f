#include "serving/ph_error.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gelwright::detail {

namespace {

constexpr Datum data[] = {
    {"ph-error.dilute", 0.1, "pH", 0, "95 %, dilute acid and salt solutions", "judgement",
     Standing::judgement},
    {"ph-error.at-60-percent", 0.3, "pH", 0, "95 %, 60 % soluble solids", "judgement",
     Standing::judgement},
    {"ph-error.gum-pka", 0.3, "pH", 0, "95 %, one effective pKa for a polyuronate", "haug-1964",
     Standing::judgement},
    {"ph-error.unknown-buffer", 0.5, "pH", 0, "95 %, bought mix with undeclared acids and salts",
     "judgement", Standing::judgement},
    {"ph-error.stray-acid", 0.0003, "mol/kg", 0, "95 %, acid or base nobody declares", "judgement",
     Standing::judgement},
    {"ph-error.most", 2.0, "pH", 0, "no estimate is printed as worse than this", "judgement",
     Standing::judgement},
    {"ph-error.strips", 0.3, "pH", 0, "95 %, colour strips", "judgement", Standing::judgement},
    {"ph-error.meter", 0.1, "pH", 0, "95 %, meter calibrated at 4 and 7", "judgement",
     Standing::judgement},
};

constexpr double dilute = value_of(data, "ph-error.dilute");
constexpr double thick = value_of(data, "ph-error.at-60-percent");
constexpr double thick_percent = 60;
/// Less buffer than this is none: the width would be without bounds.
constexpr double least_buffer_mol_per_kg_per_ph = 1e-7;

}  // namespace

double PhErrorParts::together() const {
  return std::min(value_of(data, "ph-error.most"),
                  std::sqrt(activity * activity + gum_pka * gum_pka + stray_acid * stray_acid +
                            pairs * pairs + undeclared * undeclared));
}

PhErrorParts ph_error_parts(const PhErrorInput& input) {
  const double thickness = std::min(1.0, input.soluble_solids_percent / thick_percent);
  const double buffer =
      std::max(input.buffer_capacity_mol_per_kg_per_ph, least_buffer_mol_per_kg_per_ph);
  const double bound = input.carboxylate_protonated;
  const double gum_buffer = std::numbers::ln10 * input.carboxylate_mol_per_kg * bound * (1 - bound);
  return {.activity = dilute + (thick - dilute) * thickness,
          .gum_pka = gum_buffer * value_of(data, "ph-error.gum-pka") / buffer,
          .stray_acid = value_of(data, "ph-error.stray-acid") / buffer,
          .pairs = input.pairs_ph,
          .undeclared = input.buffer_unknown ? value_of(data, "ph-error.unknown-buffer") : 0};
}

double reading_error_ph(PhMethod method) {
  return method == PhMethod::strips ? value_of(data, "ph-error.strips")
                                    : value_of(data, "ph-error.meter");
}

std::optional<MeasuredPh> usable_reading(const Recipe& recipe) {
  const bool in_a_gel = recipe.form == Form::pouch;
  if (recipe.measured && recipe.measured->with == PhMethod::strips && in_a_gel) return std::nullopt;
  return recipe.measured;
}

JudgedPh judged_ph(const WaterPhase& phase, const std::optional<MeasuredPh>& measured) {
  if (measured) return {measured->ph, reading_error_ph(measured->with), true};
  return {phase.ph, phase.ph_uncertainty, false};
}

std::span<const Datum> ph_error_data() {
  return data;
}

}  // namespace gelwright::detail
