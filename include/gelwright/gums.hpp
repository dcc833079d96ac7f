// The figures of each gum: how much carboxylate it has, how it is sold, what magnesium is worth to
// it.
#pragma once

#include <optional>
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

/// The part of a gum's carboxylate that is sold neutralised, 0 to 1: only that part is a base. Of
/// pectins, by kind, from the pH of trade solutions; one lot may lie anywhere in 0.1 to 0.4 (HM),
/// 0.85 to 0.95 (LM), 0.75 to 0.95 (amidated).
double neutralised_fraction(Gum gum);

/// pKa of alginate's carboxylate by its guluronate share (0 to 1), 3.38 to 3.65. This and the other
/// pKa here are concentration constants measured in about 0.1 M salt: no activity correction goes
/// on them. Haug 1964.
double alginate_pka(double guluronate_share);

/// pKa of pectin's carboxylate by the share of galacturonate that carries no charge, esterified or
/// amidated (0 to 1): 4.10 at 0, 3.55 at 0.65, straight between and beyond. Plaschina et al. 1978.
double pectin_pka(double uncharged_share);

/// One pKa for all gum carboxylate in a composition, the mean weighted by carboxylate; absent where
/// there is none. Against a pKa for each gum the pH moves by at most 0.02 (alginate with LM
/// pectin, half of each): far less than the 0.3 by which any of these pKa is in doubt.
std::optional<double> gum_pka_of(const Composition& delivered);

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
