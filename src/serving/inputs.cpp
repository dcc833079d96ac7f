#include "gelwright/inputs.hpp"

#include <fmt/format.h>

#include "gelwright/error.hpp"
#include "gelwright/formula.hpp"

namespace gelwright {

namespace {

InputLine line_of(const Recipe& recipe, std::size_t ingredient, double mass_g) {
  const Ingredient& what = recipe.ingredients[ingredient];
  // An undeclared gum counts as the one named first, at the middle of its plausible band.
  return {ingredient, with_undeclared_gum(what, 0.5), mass_g};
}

double stock_fraction_of(const std::optional<double>& stock_percent) {
  return stock_percent.value_or(0) / 100;
}

}  // namespace

Inputs inputs_of(const Recipe& recipe) {
  Inputs inputs;
  inputs.recipe = &recipe;
  for (const RecipeLine& line : recipe.solids)
    inputs.solids.push_back(line_of(recipe, line.ingredient, line.mass_g.value));
  if (recipe.acid)
    inputs.acid = {line_of(recipe, recipe.acid->ingredient, recipe.acid->mass_g.value),
                   stock_fraction_of(recipe.acid->stock_percent)};
  if (recipe.calcium)
    inputs.calcium = {line_of(recipe, recipe.calcium->ingredient, recipe.calcium->mass_g.value),
                      stock_fraction_of(recipe.calcium->stock_percent)};
  inputs.water = recipe.water;
  if (recipe.tap) inputs.tap = complete(recipe.tap->water, nullptr);
  inputs.servings = recipe.batch.servings;
  inputs.making = making_of(recipe);
  require_water(inputs);
  return inputs;
}

void require_water(const Inputs& inputs) {
  const std::string& document = inputs.recipe->document;
  const Formula formula = formulate(inputs);
  if (formula.tap_g < 0)
    throw InputError(
        document,
        {{"/acid/stock_percent",
          fmt::format("the stock solution brings {:.1f} g of water, the recipe has {:.1f} g",
                      formula.water_g - formula.tap_g, formula.water_g),
          "make the stock stronger, or weigh the dose neat"}});
  require_water(formula, document);
}

}  // namespace gelwright
