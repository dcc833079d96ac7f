#include "gelwright/gums.hpp"

#include "gelwright/error.hpp"
#include "ingredients/carboxylate.hpp"

namespace gelwright {

namespace {

constexpr GumDefaults defaults = {
    .guluronate_share = value_of(gum_table, "alginate.guluronate_share"),
    .guluronate_share_low = value_of(gum_table, "alginate.guluronate_share_low"),
    .guluronate_share_high = value_of(gum_table, "alginate.guluronate_share_high"),
    .hm_pectin_esterification = value_of(gum_table, "pectin.hm.esterification"),
    .lm_pectin_esterification = value_of(gum_table, "pectin.lm.esterification"),
    .amidated_pectin_esterification = value_of(gum_table, "pectin.amidated.esterification"),
    .amidated_pectin_amidation = value_of(gum_table, "pectin.amidated.amidation"),
    .pectin_galacturonic_share = value_of(gum_table, "pectin.galacturonic_share"),
};
constexpr double lm_esterification = value_of(gum_table, "pectin.lm.esterification");
constexpr double amidated_esterification = value_of(gum_table, "pectin.amidated.esterification");
constexpr double amidation = value_of(gum_table, "pectin.amidated.amidation");

double magnesium_weight(Gum gum) {
  switch (gum) {
    case Gum::gellan_low_acyl:
    case Gum::gellan_high_acyl:
      return value_of(gum_table, "gellan.magnesium_weight");
    case Gum::hm_pectin:
    case Gum::lm_pectin:
    case Gum::amidated_pectin:
      return value_of(gum_table, "pectin.magnesium_weight");
    case Gum::alginate:
      return value_of(gum_table, "alginate.magnesium_weight");
    case Gum::xanthan:
      return 0.0;  // no calcium ratio of its own
  }
  return 0.0;
}

/// pKa of one gum as this composition holds it; `delivered` has some of its carboxylate.
double pka_in(const Composition& delivered, Gum gum) {
  switch (gum) {
    case Gum::alginate:
      return alginate_pka(delivered.guluronate_mol / delivered.carboxylate(gum));
    case Gum::hm_pectin:
      return pectin_pka(delivered.gum(gum) > 0
                            ? delivered.hm_pectin_esterified_g / delivered.gum(gum)
                            : defaults.hm_pectin_esterification);
    case Gum::lm_pectin:
      return pectin_pka(lm_esterification);
    case Gum::amidated_pectin:
      return pectin_pka(amidated_esterification + amidation);
    case Gum::gellan_low_acyl:
    case Gum::gellan_high_acyl:
      return value_of(gum_table, "gellan.pka");
    case Gum::xanthan:
      return value_of(gum_table, "xanthan.pka");
  }
  return 0.0;
}

}  // namespace

double carboxylate_mmol_per_g(Gum gum) {
  return carboxylate_of(gum);
}

double pectin_carboxylate_mmol_per_g(double share, double esterified, double amidated) {
  if (!(share >= 0 && share <= 1 && esterified >= 0 && amidated >= 0 && esterified + amidated <= 1))
    throw InputError("", {{"pectin",
                           "galacturonic acid must be between 0 and 1 g per g, and esterification "
                           "and amidation 0 or more, together at most 1",
                           "give 65 % as 0.65"}});
  return free_acid_mmol_per_g(share, esterified, amidated);
}

double neutralised_fraction(Gum gum) {
  switch (gum) {
    case Gum::alginate:
      return value_of(gum_table, "alginate.neutralised_fraction");
    case Gum::hm_pectin:
      return value_of(gum_table, "pectin.hm.neutralised_fraction");
    case Gum::lm_pectin:
      return value_of(gum_table, "pectin.lm.neutralised_fraction");
    case Gum::amidated_pectin:
      return value_of(gum_table, "pectin.amidated.neutralised_fraction");
    case Gum::gellan_low_acyl:
    case Gum::gellan_high_acyl:
      return value_of(gum_table, "gellan.neutralised_fraction");
    case Gum::xanthan:
      return value_of(gum_table, "xanthan.neutralised_fraction");
  }
  return 0.0;
}

std::string_view to_text(ViscosityGrade grade) {
  switch (grade) {
    case ViscosityGrade::unknown:
      return "unknown";
    case ViscosityGrade::very_low:
      return "very low";
    case ViscosityGrade::low:
      return "low";
    case ViscosityGrade::medium:
      return "medium";
    case ViscosityGrade::high:
      return "high";
  }
  return "";
}

ViscosityGrade viscosity_grade_of(double one_percent_mpa_s) {
  if (!(one_percent_mpa_s > 0)) return ViscosityGrade::unknown;
  if (one_percent_mpa_s < value_of(gum_table, "alginate.grade.very_low_below"))
    return ViscosityGrade::very_low;
  if (one_percent_mpa_s < value_of(gum_table, "alginate.grade.low_below"))
    return ViscosityGrade::low;
  if (one_percent_mpa_s < value_of(gum_table, "alginate.grade.medium_below"))
    return ViscosityGrade::medium;
  return ViscosityGrade::high;
}

double alginate_pka(double guluronate_share) {
  constexpr double mannuronate = value_of(gum_table, "alginate.pka.mannuronate");
  constexpr double guluronate = value_of(gum_table, "alginate.pka.guluronate");
  return mannuronate + (guluronate - mannuronate) * guluronate_share;
}

double pectin_pka(double uncharged_share) {
  constexpr double bare = value_of(gum_table, "pectin.pka.not_esterified");
  constexpr double slope = (value_of(gum_table, "pectin.pka.esterified") - bare) /
                           value_of(gum_table, "pectin.pka.esterification");
  return bare + slope * uncharged_share;
}

std::optional<double> gum_pka_of(const Composition& delivered) {
  double carboxylate_mol = 0;
  double weighted = 0;
  for (std::size_t g = 0; g < gum_count; ++g) {
    const auto gum = static_cast<Gum>(g);
    const double mol = delivered.carboxylate(gum);
    if (!(mol > 0)) continue;
    carboxylate_mol += mol;
    weighted += mol * pka_in(delivered, gum);
  }
  if (!(carboxylate_mol > 0)) return std::nullopt;
  return weighted / carboxylate_mol;
}

double divalent_for_gum(Gum gum, double ca_mol, double mg_mol) {
  return ca_mol + magnesium_weight(gum) * mg_mol;
}

double guluronate_ratio_from_r2(double r2, double guluronate_share) {
  if (!(guluronate_share > 0 && guluronate_share <= 1))
    throw InputError("", {{"guluronate_share", "must be above 0 and at most 1", ""}});
  return r2 / (2.0 * guluronate_share);
}

const GumDefaults& gum_defaults() {
  return defaults;
}

std::span<const Datum> gum_data() {
  return gum_table;
}

}  // namespace gelwright
