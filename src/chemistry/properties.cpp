#include "gelwright/properties.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>

#include "gelwright/error.hpp"

namespace gelwright {
namespace {

using enum Standing;

constexpr Datum table[] = {
    // Water density, Kell 1975: numerator coefficients of t^0 to t^5, then the denominator's.
    {"water_density.a0", 999.83952, "kg/m3", 0, "0 to 100 degC, 1 atm", "kell-1975", confirmed},
    {"water_density.a1", 16.945176, "kg/m3/K", 0, "as a0", "kell-1975", confirmed},
    {"water_density.a2", -7.9870401e-3, "kg/m3/K2", 0, "as a0", "kell-1975", confirmed},
    {"water_density.a3", -46.170461e-6, "kg/m3/K3", 0, "as a0", "kell-1975", confirmed},
    {"water_density.a4", 105.56302e-9, "kg/m3/K4", 0, "as a0", "kell-1975", confirmed},
    {"water_density.a5", -280.54253e-12, "kg/m3/K5", 0, "as a0", "kell-1975", confirmed},
    {"water_density.b1", 16.879850e-3, "1/K", 0, "as a0", "kell-1975", confirmed},
    // Sucrose solutions, p. 164: the excess over water is sum_k T^k sum_i b[k][i] w^(i+1).
    {"sugar_density.b00", 385.1761, "kg/m3", 0, "w 0 to 0.85", "bubnik-1995", confirmed},
    {"sugar_density.b01", 135.3705, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b02", 40.9299, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b03", -3.9643, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b04", 13.4853, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b05", -17.2890, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b10", -46.2720, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b11", -7.1720, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b12", 1.1597, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b13", 5.1126, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b14", 17.5254, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b20", 59.7712, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b21", 7.2491, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b22", 12.3630, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b23", -35.4791, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b30", -47.2207, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b31", -21.6977, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b32", 27.6301, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b40", 18.3184, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.b41", 12.3081, "kg/m3", 0, "as b00", "bubnik-1995", confirmed},
    {"sugar_density.reference_temp", 20.0, "degC", 0, "", "bubnik-1995", confirmed},
    {"sugar_density.temp_scale", 100.0, "K", 0, "", "bubnik-1995", confirmed},
    {"sugar_density.max_mass_fraction", 0.85, "1", 0, "", "bubnik-1995", confirmed},
    // a_w = x_w exp(-(sum_i sqrt(K_i) x_i)^2)
    {"norrish.sucrose", 6.47, "1", 0.06, "25 degC", "chirife-1982", confirmed},
    {"norrish.glucose", 2.25, "1", 0.02, "25 degC", "chirife-1982", from_memory},
    {"norrish.fructose", 2.15, "1", 0.10, "25 degC", "chirife-1982", from_memory},
    {"norrish.maltose", 4.54, "1", 0.02, "25 degC", "chirife-1982", from_memory},
    {"norrish.polyol", 1.65, "1", 0.14, "25 degC, sorbitol; xylitol 1.66, erythritol 1.34",
     "makinen-2010", confirmed},
    {"norrish.glycerol", 1.16, "1", 0.01, "25 degC", "chirife-1982", confirmed},
    {"salt.osmotic_coefficient", 0.926, "1", 0.01, "NaCl 0.15 mol/kg, 25 degC", "pitzer-1973",
     confirmed},
    {"energy.carbohydrate_kj", 17.0, "kJ/g", 0, "labelling", "eu-1169-2011", confirmed},
    {"energy.polyol_kj", 10.0, "kJ/g", 0, "labelling", "eu-1169-2011", confirmed},
    {"energy.organic_acid_kj", 13.0, "kJ/g", 0, "labelling", "eu-1169-2011", confirmed},
    {"energy.fibre_kj", 8.0, "kJ/g", 0, "labelling", "eu-1169-2011", confirmed},
    {"energy.protein_kj", 17.0, "kJ/g", 0, "labelling", "eu-1169-2011", confirmed},
    {"energy.fat_kj", 37.0, "kJ/g", 0, "labelling", "eu-1169-2011", confirmed},
    {"energy.carbohydrate_kcal", 4.0, "kcal/g", 0, "labelling", "eu-1169-2011", confirmed},
    {"energy.polyol_kcal", 2.4, "kcal/g", 0, "labelling", "eu-1169-2011", confirmed},
    {"energy.organic_acid_kcal", 3.0, "kcal/g", 0, "labelling", "eu-1169-2011", confirmed},
    {"energy.fibre_kcal", 2.0, "kcal/g", 0, "labelling", "eu-1169-2011", confirmed},
    {"energy.protein_kcal", 4.0, "kcal/g", 0, "labelling", "eu-1169-2011", confirmed},
    {"energy.fat_kcal", 9.0, "kcal/g", 0, "labelling", "eu-1169-2011", confirmed},
    {"label.salt_per_sodium", 2.5, "g/g", 0, "labelling", "eu-1169-2011", confirmed},
};

consteval double constant(std::string_view key) {
  return value_of(table, key);
}

// Kept apart and noinline so that the message is built only when something is wrong.
[[noreturn, gnu::noinline]] void refuse(const char* where, double value, const char* range) {
  throw InputError("", {{where, "is " + std::to_string(value), range}});
}

// Written so that NaN is refused too.
void require_within(double value, double low, double high, const char* where, const char* range) {
  if (!(value >= low && value <= high)) refuse(where, value, range);
}

template <std::size_t N>
constexpr double polynomial(const std::array<double, N>& coefficients, double x) {
  double sum = 0.0;
  for (std::size_t i = N; i-- > 0;) sum = sum * x + coefficients[i];
  return sum;
}

constexpr double max_temp_c = 100.0;

double require_non_negative(double value, const char* where) {
  if (!(value >= 0.0) || std::isinf(value)) refuse(where, value, "must be zero or more");
  return value;
}

}  // namespace

std::span<const Datum> properties_data() {
  return table;
}

double water_density_kg_per_m3(double temp_c) {
  require_within(temp_c, 0.0, max_temp_c, "temp_c", "must be 0 to 100 degC");
  constexpr std::array a{constant("water_density.a0"), constant("water_density.a1"),
                         constant("water_density.a2"), constant("water_density.a3"),
                         constant("water_density.a4"), constant("water_density.a5")};
  return polynomial(a, temp_c) / (1.0 + constant("water_density.b1") * temp_c);
}

double sugar_solution_density_kg_per_m3(double mass_fraction, double temp_c) {
  require_within(mass_fraction, 0.0, constant("sugar_density.max_mass_fraction"), "mass_fraction",
                 "must be 0 to 0.85 g of dissolved solids per g");
  constexpr std::array b0{constant("sugar_density.b00"), constant("sugar_density.b01"),
                          constant("sugar_density.b02"), constant("sugar_density.b03"),
                          constant("sugar_density.b04"), constant("sugar_density.b05")};
  constexpr std::array b1{constant("sugar_density.b10"), constant("sugar_density.b11"),
                          constant("sugar_density.b12"), constant("sugar_density.b13"),
                          constant("sugar_density.b14")};
  constexpr std::array b2{constant("sugar_density.b20"), constant("sugar_density.b21"),
                          constant("sugar_density.b22"), constant("sugar_density.b23")};
  constexpr std::array b3{constant("sugar_density.b30"), constant("sugar_density.b31"),
                          constant("sugar_density.b32")};
  constexpr std::array b4{constant("sugar_density.b40"), constant("sugar_density.b41")};
  const double w = mass_fraction;
  const double scaled_temp =
      (temp_c - constant("sugar_density.reference_temp")) / constant("sugar_density.temp_scale");
  const std::array per_power{polynomial(b0, w), polynomial(b1, w), polynomial(b2, w),
                             polynomial(b3, w), polynomial(b4, w)};
  return water_density_kg_per_m3(temp_c) + w * polynomial(per_power, scaled_temp);
}

double maltodextrin_molar_mass_g_per_mol(double dextrose_equivalent) {
  require_within(dextrose_equivalent, 1.0, 100.0, "dextrose_equivalent", "must be 1 to 100");
  // DE is reducing power in percent of the same mass of glucose, one reducing end per chain.
  return 100.0 * molar_mass_g_per_mol("C6H12O6") / dextrose_equivalent;
}

double salt_osmolal(double particles_mol_per_kg) {
  return constant("salt.osmotic_coefficient") *
         require_non_negative(particles_mol_per_kg, "particles_mol_per_kg");
}

double water_activity(const Saccharides& solutes, double salt_osmolal_per_kg) {
  const double glucose = require_non_negative(solutes.glucose_mol_per_kg, "glucose_mol_per_kg");
  const double fructose = require_non_negative(solutes.fructose_mol_per_kg, "fructose_mol_per_kg");
  const double sucrose = require_non_negative(solutes.sucrose_mol_per_kg, "sucrose_mol_per_kg");
  const double disaccharide =
      require_non_negative(solutes.disaccharide_mol_per_kg, "disaccharide_mol_per_kg");
  const double polyol = require_non_negative(solutes.polyol_mol_per_kg, "polyol_mol_per_kg");
  const double glycerol = require_non_negative(solutes.glycerol_mol_per_kg, "glycerol_mol_per_kg");
  const double oligomer = require_non_negative(solutes.oligomer_mol_per_kg, "oligomer_mol_per_kg");
  require_non_negative(salt_osmolal_per_kg, "salt_osmolal_per_kg");

  const double total_mol =
      water_mol_per_kg + glucose + fructose + sucrose + disaccharide + polyol + glycerol + oligomer;
  static const double root_k_glucose = std::sqrt(constant("norrish.glucose"));
  static const double root_k_fructose = std::sqrt(constant("norrish.fructose"));
  static const double root_k_sucrose = std::sqrt(constant("norrish.sucrose"));
  static const double root_k_maltose = std::sqrt(constant("norrish.maltose"));
  static const double root_k_polyol = std::sqrt(constant("norrish.polyol"));
  static const double root_k_glycerol = std::sqrt(constant("norrish.glycerol"));
  const double interaction =
      (root_k_glucose * glucose + root_k_fructose * fructose + root_k_sucrose * sucrose +
       root_k_maltose * disaccharide + root_k_polyol * polyol + root_k_glycerol * glycerol) /
      total_mol;
  return water_mol_per_kg / total_mol *
         std::exp(-interaction * interaction - water_molar_mass_kg_per_mol * salt_osmolal_per_kg);
}

double osmolality_mosm_per_kg(double water_activity) {
  if (!(water_activity > 0.0 && water_activity <= 1.0))
    refuse("water_activity", water_activity, "must be above 0 and at most 1");
  // 0.0 - ... so that pure water gives 0, not -0.
  return 0.0 - 1000.0 * std::log(water_activity) / water_molar_mass_kg_per_mol;
}

double energy_kj(const EnergyMasses& masses) {
  return constant("energy.carbohydrate_kj") * masses.carbohydrate_g +
         constant("energy.polyol_kj") * masses.polyol_g +
         constant("energy.organic_acid_kj") * masses.organic_acid_g +
         constant("energy.fibre_kj") * masses.fibre_g +
         constant("energy.protein_kj") * masses.protein_g +
         constant("energy.fat_kj") * masses.fat_g;
}

double energy_kcal(const EnergyMasses& masses) {
  return constant("energy.carbohydrate_kcal") * masses.carbohydrate_g +
         constant("energy.polyol_kcal") * masses.polyol_g +
         constant("energy.organic_acid_kcal") * masses.organic_acid_g +
         constant("energy.fibre_kcal") * masses.fibre_g +
         constant("energy.protein_kcal") * masses.protein_g +
         constant("energy.fat_kcal") * masses.fat_g;
}

double salt_equivalent_g(double sodium_mg) {
  return constant("label.salt_per_sodium") * sodium_mg / 1000.0;
}

}  // namespace gelwright
