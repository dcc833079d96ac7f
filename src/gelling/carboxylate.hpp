// Carboxylate of a gum: what its calcium is counted against.
#pragma once

#include "ingredients/carboxylate.hpp"

namespace gelwright::gel::detail {

/// Two decimals, as the parameters that stand beside it were chosen with.
constexpr double to_hundredths(double value) {
  return static_cast<double>(static_cast<long>(100 * value + 0.5)) / 100;
}

/// mmol per g of active gum; 0 where the model gives the gum no ions.
constexpr double coo_mmol_per_g(Gum gum) {
  constexpr auto rounded = [](Gum which) {
    return to_hundredths(gelwright::detail::carboxylate_of(which));
  };
  switch (gum) {
    case Gum::alginate: {
      constexpr double alginate = rounded(Gum::alginate);
      return alginate;
    }
    case Gum::hm_pectin: {
      constexpr double hm_pectin = rounded(Gum::hm_pectin);
      return hm_pectin;
    }
    case Gum::lm_pectin: {
      constexpr double lm_pectin = rounded(Gum::lm_pectin);
      return lm_pectin;
    }
    case Gum::amidated_pectin: {
      constexpr double amidated_pectin = rounded(Gum::amidated_pectin);
      return amidated_pectin;
    }
    case Gum::gellan_low_acyl: {
      constexpr double low_acyl = rounded(Gum::gellan_low_acyl);
      return low_acyl;
    }
    case Gum::gellan_high_acyl:
    case Gum::xanthan:
      break;
  }
  return 0;
}

/// mmol per kg of water.
constexpr double coo_mmol_per_kg(Gum gum, double g_per_100_g_water) {
  return 10 * g_per_100_g_water * coo_mmol_per_g(gum);
}

}  // namespace gelwright::gel::detail
