#include "gelwright/label_readings.hpp"

#include <algorithm>

#include "gelwright/elements.hpp"

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"label-sodium.chloride", 0.6, "1", 0, "chance that a mix's sodium is table salt", "judgement",
     Standing::judgement},
    {"label-sodium.citrate", 0.3, "1", 0, "chance that it is trisodium citrate", "judgement",
     Standing::judgement},
    {"label-sodium.bicarbonate", 0.1, "1", 0, "chance that it is bicarbonate", "judgement",
     Standing::judgement},
    {"label-acid.least", 0.002, "g/g", 0, "an acid a pack names without an amount", "judgement",
     Standing::judgement},
    {"label-acid.most", 0.03, "g/g", 0, "an acid a pack names without an amount", "judgement",
     Standing::judgement},
};

constexpr double weights[] = {value_of(data, "label-sodium.chloride"),
                              value_of(data, "label-sodium.citrate"),
                              value_of(data, "label-sodium.bicarbonate")};

constexpr double sodium_in_citrate = 3;  // Na3C6H5O7

}  // namespace

std::string_view to_text(SodiumSalt salt) {
  switch (salt) {
    case SodiumSalt::chloride:
      return "chloride";
    case SodiumSalt::citrate:
      return "citrate";
    case SodiumSalt::bicarbonate:
      return "bicarbonate";
  }
  return "";
}

double weight_of(SodiumSalt salt) {
  return weights[static_cast<std::size_t>(salt)];
}

void name_sodium(Composition& composition, SodiumSalt salt) {
  const double sodium_mol = composition.unnamed_sodium_mol;
  composition.unnamed_sodium_mol = 0;
  if (salt == SodiumSalt::chloride) return;
  double& chloride_mol = composition.dissolved(Component::chloride);
  chloride_mol = std::max(0.0, chloride_mol - sodium_mol);
  if (salt == SodiumSalt::citrate)
    composition.dissolved(Component::citrate) += sodium_mol / sodium_in_citrate;
  else
    composition.dissolved(Component::carbonate) += sodium_mol;
}

void name_sugars_fructose(Composition& composition) {
  constexpr double sucrose_g_per_mol = molar_mass_g_per_mol("C12H22O11");
  constexpr double fructose_g_per_mol = molar_mass_g_per_mol("C6H12O6");
  const double sugars_g = composition.unnamed_sugars_g;
  composition.unnamed_sugars_g = 0;
  // What is left of a difference of equals is rounding, and may be below nothing.
  double& sucrose_mol = composition.saccharide_mol[index_of(Saccharide::sucrose)];
  sucrose_mol = std::max(0.0, sucrose_mol - sugars_g / sucrose_g_per_mol);
  composition.saccharide_mol[index_of(Saccharide::fructose)] += sugars_g / fructose_g_per_mol;
  // Sucrose counts as half glucose, half fructose.
  composition.glucose_g = std::max(0.0, composition.glucose_g - sugars_g / 2);
  composition.fructose_g += sugars_g / 2;
}

AcidBand named_acid_band() {
  return {value_of(data, "label-acid.least"), value_of(data, "label-acid.most")};
}

std::span<const Datum> label_reading_data() {
  return data;
}

}  // namespace gelwright
