#include "gelwright/limit.hpp"

#include "base/dust.hpp"

namespace gelwright {

LimitVerdict judge(std::optional<double> amount, const Limit& limit) {
  if (!limit.any()) return LimitVerdict::kept;
  if (!amount) return LimitVerdict::unknown;
  if (limit.at_least && is_under(*amount, *limit.at_least)) return LimitVerdict::below;
  if (limit.at_most && is_over(*amount, *limit.at_most)) return LimitVerdict::above;
  return LimitVerdict::kept;
}

std::optional<double> calcium_mg_per_l(const Water& water) {
  if (water.mg_per_l[Ion::calcium]) return water.mg_per_l[Ion::calcium];
  const std::optional<CalciumMagnesium> both = calcium_and_magnesium(water, nullptr);
  if (!both) return std::nullopt;
  return both->calcium_mg_per_l();
}

}  // namespace gelwright
