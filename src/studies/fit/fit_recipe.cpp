// Where a fitted buffer belongs, and putting it there.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "gelwright/error.hpp"
#include "studies/fit/fit_detail.hpp"

namespace gelwright {

namespace {

bool is_solid(const Recipe& recipe, std::size_t ingredient) {
  return std::any_of(recipe.solids.begin(), recipe.solids.end(),
                     [&](const RecipeLine& line) { return line.ingredient == ingredient; });
}

std::vector<std::string> solid_names(const Recipe& recipe) {
  std::vector<std::string> names;
  for (const RecipeLine& line : recipe.solids)
    names.push_back(recipe.ingredients[line.ingredient].name);
  return names;
}

std::vector<std::size_t> named_carrier(const Recipe& recipe, const std::string& name) {
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i)
    if (recipe.ingredients[i].name == name && is_solid(recipe, i)) return {i};
  const std::vector<std::string> names = solid_names(recipe);
  std::string remedy = did_you_mean(name, names);
  if (remedy.empty()) remedy = "name one of " + quoted_list(names);
  throw InputError("",
                   {{"ingredient", fmt::format("the recipe has no solid \"{}\"", name), remedy}});
}

}  // namespace

std::vector<std::size_t> carriers_of(const Recipe& recipe, const std::string& ingredient) {
  std::vector<std::size_t> carriers;
  if (!ingredient.empty()) {
    carriers = named_carrier(recipe, ingredient);
  } else {
    for (const RecipeLine& line : recipe.solids)
      if (recipe.ingredients[line.ingredient].kind == Kind::mix)
        carriers.push_back(line.ingredient);
    if (carriers.size() > 1) {
      std::vector<std::string> names;
      for (const std::size_t i : carriers) names.push_back(recipe.ingredients[i].name);
      throw InputError(recipe.document,
                       {{"ingredient", "more than one bought mix: whose buffer is sought?",
                         "name one of " + quoted_list(names)}});
    }
    if (carriers.empty())
      for (const RecipeLine& line : recipe.solids) carriers.push_back(line.ingredient);
  }
  // The water phase knows one buffer with one pKa.
  for (const RecipeLine& line : recipe.solids) {
    const Ingredient& other = recipe.ingredients[line.ingredient];
    const bool carries =
        std::find(carriers.begin(), carriers.end(), line.ingredient) != carriers.end();
    if (!carries && other.buffer_pka)
      throw InputError(recipe.document,
                       {{"/define/" + escape_pointer(other.name) + "/buffer",
                         "another ingredient already has a fitted buffer, and there can be one",
                         "take it out, or fit that ingredient again"}});
  }
  return carriers;
}

Recipe without_buffer(const Recipe& recipe, const std::vector<std::size_t>& carriers) {
  Recipe bare = recipe;
  for (const std::size_t i : carriers) {
    Ingredient& ingredient = bare.ingredients[i];
    if (ingredient.unbuffered_per_g) ingredient.per_g = *ingredient.unbuffered_per_g;
    ingredient.unbuffered_per_g.reset();
    ingredient.buffer_pka.reset();
    ingredient.buffer_mmol_per_g_sd = 0;
  }
  return bare;
}

Recipe with_buffer(const Recipe& bare, const std::vector<std::size_t>& carriers,
                   const Buffer& buffer) {
  Recipe made = bare;
  for (const std::size_t i : carriers) {
    Ingredient& ingredient = made.ingredients[i];
    ingredient.unbuffered_per_g = ingredient.per_g;
    add_buffer(ingredient.per_g, buffer.carboxylate_mmol_per_g / 1000, buffer.neutralised_fraction);
    ingredient.buffer_pka = buffer.pka;
  }
  return made;
}

Recipe calibrated(const Recipe& recipe, const BenchFit& fit) {
  const std::vector<std::size_t> carriers = carriers_of(recipe, fit.ingredient);
  Recipe made = with_buffer(without_buffer(recipe, carriers), carriers,
                            {fit.buffer.carboxylate_mmol_per_g.value, fit.buffer.pka.value,
                             fit.buffer.neutralised_fraction.value});
  const double sd = fit.sd_for_spread_mmol_per_g;
  for (const std::size_t i : carriers)
    made.ingredients[i].buffer_mmol_per_g_sd = std::isfinite(sd) ? sd : 0;
  for (Ingredient& each : made.ingredients) {
    // What earlier cups taught was read with another buffer.
    if (each.name == fit.ingredient) each.learned.reset();
    if (fit.lesson && !fit.lesson->learned.mix.empty() && each.name == fit.lesson->learned.mix)
      each.learned = fit.lesson->learned;
  }
  return made;
}

}  // namespace gelwright
