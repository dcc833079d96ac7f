// Carboxylate of a gum: what its calcium is counted against.
#pragma once

#include "gelling/constant_table.hpp"
#include "gelwright/composition.hpp"

namespace gelwright::gel::detail {

/// mmol per g of active gum; 0 where the model gives the gum no ions.
constexpr double coo_mmol_per_g(Gum gum) {
  switch (gum) {
    case Gum::alginate:
      return constant("gel.coo.alginate");
    case Gum::hm_pectin:
      return constant("gel.coo.hm_pectin");
    case Gum::lm_pectin:
      return constant("gel.coo.lm_pectin");
    case Gum::amidated_pectin:
      return constant("gel.coo.amidated_pectin");
    case Gum::gellan_low_acyl:
      return constant("gel.coo.gellan_low_acyl");
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
