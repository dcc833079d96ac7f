// Carboxylate of each gum, from the table of gums. Private: gums.hpp is the way in.
#pragma once

#include "gelwright/composition.hpp"
#include "ingredients/gum_table.hpp"

namespace gelwright::detail {

/// mmol per g of a pectin: what is neither esterified nor amidated, shares 0 to 1.
constexpr double free_acid_mmol_per_g(double galacturonic_share, double esterified,
                                      double amidated) {
  return 1000.0 * galacturonic_share / value_of(gum_table, "pectin.galacturonic_acid") *
         (1.0 - esterified - amidated);
}

/// mmol per g of active gum as weighed, of the composition taken where the pack says nothing.
constexpr double carboxylate_of(Gum gum) {
  constexpr double share = value_of(gum_table, "pectin.galacturonic_share");
  switch (gum) {
    case Gum::alginate:
      return 1000.0 / value_of(gum_table, "alginate.equivalent_weight");
    case Gum::hm_pectin:
      return free_acid_mmol_per_g(share, value_of(gum_table, "pectin.hm.esterification"), 0.0);
    case Gum::lm_pectin:
      return free_acid_mmol_per_g(share, value_of(gum_table, "pectin.lm.esterification"), 0.0);
    case Gum::amidated_pectin:
      return free_acid_mmol_per_g(share, value_of(gum_table, "pectin.amidated.esterification"),
                                  value_of(gum_table, "pectin.amidated.amidation"));
    case Gum::gellan_low_acyl:
      return value_of(gum_table, "gellan.low_acyl.carboxylate");
    case Gum::gellan_high_acyl:
      return value_of(gum_table, "gellan.high_acyl.carboxylate");
    case Gum::xanthan:
      return value_of(gum_table, "xanthan.carboxylate");
  }
  return 0.0;
}

}  // namespace gelwright::detail
