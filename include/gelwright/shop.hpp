// One shopping list for several batches: whole packs, what they cost, what is left over.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "gelwright/inputs.hpp"

namespace gelwright {

/// One thing to buy.
struct ShopLine {
  std::string ingredient;
  double needed_g = 0;           ///< in all batches, losses included
  std::optional<double> pack_g;  ///< absent where no recipe prices it
  double packs = 0;              ///< whole ones that cover it
  double cost = 0;               ///< of them
  double left_g = 0;
};

struct ShoppingList {
  std::string currency;
  std::vector<ShopLine> lines;  ///< in the order the recipes first need them; water is not bought
  double cost = 0;              ///< of what has a price
  std::vector<std::string> unpriced;
  double low_mineral_water_g = 0;  ///< for solutions, as much as they are made in
};

/// The list for these batches, each of `Inputs::servings`. An ingredient is one thing by its name;
/// the first recipe that prices it sets the pack. Throws InputError where two recipes price in two
/// currencies, or the same ingredient in packs that do not agree.
ShoppingList shopping_list(std::span<const Inputs> batches);

}  // namespace gelwright
