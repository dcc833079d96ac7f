#include "gelwright/cost.hpp"

#include <algorithm>
#include <cmath>

namespace gelwright {

namespace {

/// A need that exceeds whole packs by less than this share of a pack is binary noise.
constexpr double pack_noise = 1e-9;

}  // namespace

std::optional<Cost> cost_of(const Formula& formula, const Inputs& inputs, double batch_factor) {
  const Recipe& recipe = *inputs.recipe;
  if (recipe.packs.empty()) return std::nullopt;

  Cost cost;
  const auto add = [&](const InputLine& line) {
    const auto pack =
        std::find_if(recipe.packs.begin(), recipe.packs.end(),
                     [&line](const Pack& each) { return each.ingredient == line.ingredient; });
    if (pack == recipe.packs.end()) {
      if (line.mass_g > 0) cost.unpriced.push_back(line.ingredient);
      return;
    }
    const double used_g = line.mass_g * batch_factor;
    const double packs = std::ceil(used_g / pack->pack_g - pack_noise);
    cost.lines.push_back(
        {line.ingredient, used_g, used_g / pack->pack_g * pack->price, packs, packs * pack->price});
  };
  for (const InputLine& line : inputs.solids) add(line);
  if (inputs.acid) add(inputs.acid->line);
  if (inputs.calcium) add(inputs.calcium->line);

  for (const CostLine& line : cost.lines) {
    cost.batch += line.used_cost;
    cost.buy += line.buy_cost;
  }
  cost.per_serving = cost.batch / inputs.servings;
  const double carbohydrate_g = formula.delivered.carbohydrate_g;
  if (carbohydrate_g > 0) cost.per_g_carbohydrate = cost.per_serving / carbohydrate_g;
  if (recipe.compare_with) {
    cost.alternative_per_g_carbohydrate =
        recipe.compare_with->price / recipe.compare_with->carbohydrate_g;
    if (cost.complete())
      cost.ratio = cost.per_g_carbohydrate / *cost.alternative_per_g_carbohydrate;
  }
  return cost;
}

}  // namespace gelwright
