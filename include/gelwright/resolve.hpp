// From a recipe to inputs with every target met.
#pragma once

#include <optional>
#include <string>

#include "gelwright/batch.hpp"
#include "gelwright/inputs.hpp"
#include "gelwright/water_phase.hpp"

namespace gelwright {

/// One unknown solved for.
struct Dosed {
  bool reached = false;
  double amount = 0;       ///< of the dose or water, g per serving; servings for `dose_readable`
  double value = 0;        ///< the target quantity at `amount`
  double nearest_low = 0;  ///< smallest and largest value within reach
  double nearest_high = 0;
  std::string reason;  ///< why it cannot be reached, in words; empty when reached
};

/// The acid that brings the water phase to `ph`. The water follows the recipe's own basis.
Dosed dose_acid_to_ph(const Inputs& inputs, double ph);

/// The acid at which the mean pH of all that a label's sodium may be, each with its weight, is
/// `ph`.
Dosed dose_acid_to_mean_ph(const Inputs& inputs, double ph);

/// The calcium salt that brings the available calcium to R2 = `ratio`, as the recipe's target gum
/// counts it (gellan counts magnesium in part).
Dosed dose_calcium_to_ratio(const Inputs& inputs, double ratio);

/// R2 as the recipe's target gum counts it.
double target_ratio_of(const WaterPhase& phase, const Inputs& inputs);

/// The water that brings it to this fraction of the total (0 to 1), or to this soluble solids (%).
Dosed dose_water_to_fraction(const Inputs& inputs, double fraction);
Dosed dose_water_to_soluble_solids(const Inputs& inputs, double percent);

/// The smallest whole number of servings whose every line the recipe's scales can weigh, with or
/// without dosing from stock. `amount` and `value` are servings.
Dosed dose_readable(const Inputs& inputs, StockChoice stock);

/// The inputs with the recipe's `target_ph` and `target_ratio` turned into masses.
/// Throws InputError, saying what is within reach, if one cannot be met.
Inputs resolve(const Recipe& recipe);
Inputs resolve(const Recipe&& recipe) = delete;  // the inputs would outlive the recipe

}  // namespace gelwright
