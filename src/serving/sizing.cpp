#include "gelwright/sizing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gelwright/batch.hpp"
#include "gelwright/error.hpp"
#include "gelwright/formula.hpp"

namespace gelwright {

namespace {

/// The key of an option, see Problem::where.
const char* key_of(SizeBy by) {
  switch (by) {
    case SizeBy::servings:
      return "servings";
    case SizeBy::mass_g:
      return "batch_mass_g";
    case SizeBy::carbohydrate_g:
      return "carbohydrate_g";
  }
  return "";
}

/// What one serving holds of what the batch is sized by.
double per_serving(SizeBy by, const Inputs& inputs) {
  if (by == SizeBy::servings) return 1;
  const Formula formula = formulate(inputs);
  return by == SizeBy::mass_g ? formula.total_g : formula.delivered.carbohydrate_g;
}

}  // namespace

double servings_for(const BatchSize& size, const Inputs& inputs) {
  const auto refuse = [&](std::string what, std::string remedy) {
    throw InputError("", {{key_of(size.by), std::move(what), std::move(remedy)}});
  };
  if (!(size.amount > 0)) refuse("must be above 0", "");
  if (size.by == SizeBy::servings && size.amount != std::floor(size.amount))
    refuse("not a whole number of servings", "size the batch by its mass instead");
  const double one = per_serving(size.by, inputs);
  if (size.by == SizeBy::carbohydrate_g && one <= 0)
    refuse("this recipe has no carbohydrate", "size the batch by its servings or its mass");
  const double servings = size.amount / one;
  if (!(servings <= most_servings))
    refuse(
        fmt::format("that would be {:g} servings, and {:g} is the most", servings, most_servings),
        "check the masses in the recipe and the size asked for");
  return servings;
}

Inputs with_rounded_water(const Inputs& inputs, double step_g) {
  Inputs rounded = inputs;
  const double factor = batch_factor(inputs);
  const double batch_water_g = formulate(inputs).water_g * factor;
  const double round_g = std::max(step_g, std::round(batch_water_g / step_g) * step_g);
  rounded.water = {WaterBasis::mass_g, round_g / factor};
  return rounded;
}

}  // namespace gelwright
