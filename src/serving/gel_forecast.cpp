// The ways to read a pack that does not declare its gum in full.
#include <algorithm>

#include "gelwright/gel_forecast.hpp"

namespace gelwright {

namespace {

double share_of(const Ingredient& mix, int band) {
  if (band < 0) return mix.gum_share_low;
  return band > 0 ? mix.gum_share_high : (mix.gum_share_low + mix.gum_share_high) / 2;
}

}  // namespace

std::vector<GumReading> gum_readings(const Recipe& recipe) {
  std::size_t identities = 0;
  for (const Ingredient& each : recipe.ingredients)
    if (each.undeclared_gum) identities = std::max(identities, undeclared_identities(each));
  if (identities == 0) return {GumReading{}};
  std::vector<GumReading> readings;
  for (std::size_t identity = 0; identity < identities; ++identity)
    for (const int band : {-1, 0, 1})
      readings.push_back(
          {gel::band_weights[static_cast<std::size_t>(band + 1)] / static_cast<double>(identities),
           identity, band});
  return readings;
}

Inputs read_as(const Inputs& inputs, const GumReading& reading) {
  Inputs read = inputs;
  for (InputLine& line : read.solids) {
    const Ingredient& ingredient = inputs.recipe->ingredients[line.ingredient];
    if (!ingredient.undeclared_gum) continue;
    const std::size_t identity = std::min(reading.identity, undeclared_identities(ingredient) - 1);
    line.per_g = with_gum_share(ingredient, share_of(ingredient, reading.band), identity);
  }
  return read;
}

}  // namespace gelwright
