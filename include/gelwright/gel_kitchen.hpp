// What can be seen and measured in a kitchen, and what it says of thickness and yield.
//
// Syringe: 10 mL, slip tip, 61.5 mm from 0 to 10 mL, filled and left to run for 10 s; what is left
// is read (method: flow test of the dysphagia diet framework; a drain model fitted to four
// thickener levels). A plain 60 % syrup leaves about 9 mL: 9 mL alone does not tell of a gel.
// Nothing here is a test of safe swallowing.
#pragma once

#include <compare>
#include <optional>
#include <span>
#include <string_view>

#include "gelwright/gel_chances.hpp"

namespace gelwright::gel {

/// mL left of 10 that a liquid of this thickness leaves; straight in log10 between the table's
/// rows, held at its ends.
double syringe_ml_left(double lg_thickness_mpa_s);

/// log10 mPa.s that leaves this much; between .5 and 9.75 mL, held at those ends.
double lg_thickness_of_syringe(double ml_left);

/// Yield stress, Pa, from which a gel stays in a cup turned over, `cup_width_cm` wide inside.
double cup_holds_from_pa(double cup_width_cm, double density_g_per_ml = 1.1);

/// Yield stress, Pa, from which a groove 2 mm deep drawn with a spoon stands.
double groove_stands_from_pa();

/// Where the numbers of this header and of learning from cups come from.
std::span<const Datum> gel_kitchen_data();

/// What one texture is, in a noun phrase, and how to tell it from its softer neighbour.
struct Words {
  Texture texture;
  std::string_view what;
  std::string_view test;
};
std::span<const Words> words();  ///< in the order of Texture

/// What was read off one cup. Leave out what was not tried.
struct CupReading {
  std::optional<double> syringe_ml_left;
  std::optional<bool> holds_when_turned;  ///< in a cup `cup_width_cm` wide
  double cup_width_cm = 4;
  double density_g_per_ml = 1.1;
  std::optional<bool> groove_stands;
  std::optional<bool> lumps_lifted_out;
  std::optional<bool> ring_of_liquid;

  auto operator<=>(const CupReading&) const = default;  ///< for sorting alike to alike
};

/// What the model expects of one cup.
struct Expected {
  double lg_thickness_mpa_s = 0;
  double lg_yield_pa = 0;
  double lumps = 0;  ///< chance
  double weeps = 0;  ///< chance
};

/// Chance of each reading apart, given what the model expects; 1 for what was not read. `extra_sd`
/// widens each log10 reading: how far one cup differs from the next, and what its pH is unsure by.
struct Likelihood {
  double syringe = 1;
  double cup = 1;
  double groove = 1;
  double lumps = 1;
  double ring = 1;
  std::size_t readings = 0;

  double all() const { return syringe * cup * groove * lumps * ring; }
};
struct ExtraSd {
  double thickness = 0;
  double yield = 0;
};
Likelihood likelihood(const CupReading& reading, const Expected& expected, ExtraSd extra_sd = {});

}  // namespace gelwright::gel
