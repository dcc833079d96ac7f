// What a batch costs, what has to be bought for it, and what the same carbohydrate costs ready
// made.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "gelwright/formula.hpp"

namespace gelwright {

/// One priced ingredient. Money in the recipe's currency, never rounded here.
struct CostLine {
  std::size_t ingredient = 0;
  double used_g = 0;  ///< in the whole batch, losses included
  double used_cost = 0;
  double packs_to_buy = 0;  ///< whole packs that cover `used_g`
  double buy_cost = 0;
};

/// Cost of a batch. Water is free; a pre-dosed product is not counted.
struct Cost {
  std::vector<CostLine> lines;
  std::vector<std::size_t> unpriced;  ///< ingredients in use without a price; then no totals
  double batch = 0;                   ///< of what is used, losses included
  double per_serving = 0;
  double per_g_carbohydrate = 0;  ///< of the carbohydrate that reaches the mouth
  double buy = 0;                 ///< of whole packs
  std::optional<double> alternative_per_g_carbohydrate;
  std::optional<double> ratio;  ///< own cost over the alternative's, per g carbohydrate

  bool complete() const { return unpriced.empty(); }
};

/// `batch_factor` is servings made ready over the share that is not lost: servings / (1 - loss).
/// Nothing if the recipe gives no prices.
std::optional<Cost> cost_of(const Formula& formula, const Inputs& inputs, double batch_factor);

}  // namespace gelwright
