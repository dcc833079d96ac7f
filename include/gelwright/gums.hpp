// The figures of each gum: how much carboxylate it has, how it is sold, what magnesium is worth to
// it.
#pragma once

#include <optional>
#include <span>
#include <string_view>

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

/// How thick an alginate makes water, as its pack says.
enum class ViscosityGrade { unknown, very_low, low, medium, high };

/// "very low", ..., "unknown".
std::string_view to_text(ViscosityGrade grade);

/// The grade that usual sheets would print for this viscosity of a 1 % solution, mPa s at 20 degC
/// (above 0): very low to 15, low to 100, medium to 550, high above. Common practice, no source:
/// makers draw the lines where they like.
ViscosityGrade viscosity_grade_of(double one_percent_mpa_s);

/// What a pack or a seller's sheet states about a gum; absent is unknown, and then the middle
/// values of gum_defaults() stand in. Shares 0 to 1.
struct GumFacts {
  ViscosityGrade alginate_grade = ViscosityGrade::unknown;
  std::optional<double> guluronate_share;         ///< F_G of alginate
  std::optional<double> esterification;           ///< of HM pectin, methoxyl
  std::optional<double> lm_esterification;        ///< of LM pectin
  std::optional<double> amidated_esterification;  ///< of amidated pectin
  std::optional<double> amidation;                ///< of amidated pectin
};

/// R2 = 2[Ca]/[COO-]; both in the same unit of amount. 0 where there is no carboxylate.
constexpr double saturation_ratio_r2(double ca_mol, double coo_mol) {
  return coo_mol > 0 ? 2.0 * ca_mol / coo_mol : 0.0;
}

/// R_G = [Ca]/[guluronate] = R2 / (2 F_G). F_G above 0, at most 1; throws InputError outside.
double guluronate_ratio_from_r2(double r2, double guluronate_share);

/// What is taken where the pack does not say.
struct GumDefaults {
  double guluronate_share;       ///< F_G of alginate
  double guluronate_share_low;   ///< of usual food grades
  double guluronate_share_high;  ///< of usual food grades
  double hm_pectin_esterification;
  double lm_pectin_esterification;
  double amidated_pectin_esterification;
  double amidated_pectin_amidation;
  double pectin_galacturonic_share;  ///< g per g
};
const GumDefaults& gum_defaults();

/// Equivalent weights and default compositions.
std::span<const Datum> gum_data();

}  // namespace gelwright
