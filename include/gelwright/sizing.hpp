// How many servings make the batch that is wanted, and how round its water is.
#pragma once

#include "gelwright/inputs.hpp"

namespace gelwright {

/// What a batch is sized by.
enum class SizeBy {
  servings,        ///< whole ones
  mass_g,          ///< of the batch as filled, losses taken
  carbohydrate_g,  ///< in the batch as filled
};
struct BatchSize {
  SizeBy by = SizeBy::servings;
  double amount = 1;  ///< above 0, in the unit `by` names
};

/// Servings that make this batch. Throws InputError where the amount is not above 0, where servings
/// are not whole, where the recipe has no carbohydrate to size by, and where they would be more
/// than `most_servings`.
double servings_for(const BatchSize& size, const Inputs& inputs);
inline constexpr double most_servings = 1e9;

/// The inputs with the batch's water (tap and stock together) rounded to a multiple of `step_g`,
/// everything else as it was. Losses count: it is the water put into the bowl that is round.
Inputs with_rounded_water(const Inputs& inputs, double step_g);

}  // namespace gelwright
