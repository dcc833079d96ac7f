// The figures of each gum: how much carboxylate it has, how it is sold, what magnesium is worth to
// it.
#pragma once

#include <span>

#include "gelwright/composition.hpp"
#include "gelwright/source.hpp"

namespace gelwright {

/// Carboxylate, mmol per g of active gum as weighed, for the composition taken by default.
double carboxylate_mmol_per_g(Gum gum);

/// Pectin of another composition: galacturonic acid in g per g (0 to 1), degrees of esterification
/// and amidation 0 to 1, together at most 1. Throws InputError outside.
double pectin_carboxylate_mmol_per_g(double galacturonic_share, double esterification,
                                     double amidation);

/// The part of a gum's carboxylate that is sold neutralised, 0 to 1: only that part is a base.
double neutralised_fraction(Gum gum);

/// Calcium plus the part of the magnesium that counts for this gum, in the unit of the arguments.
double divalent_for_gum(Gum gum, double ca_mol, double mg_mol);

/// What is taken where the pack does not say.
struct GumDefaults {
  double guluronate_share;       ///< F_G of alginate
  double guluronate_share_low;   ///< of usual food grades
  double guluronate_share_high;  ///< of usual food grades
  double hm_pectin_esterification;
};
const GumDefaults& gum_defaults();

/// Equivalent weights and default compositions.
std::span<const Datum> gum_data();

}  // namespace gelwright
