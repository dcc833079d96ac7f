#include "gelwright/composition.hpp"

#include "gelwright/elements.hpp"

namespace gelwright {

namespace {

constexpr double sodium_mg_per_mol = 1000.0 * molar_mass_g_per_mol("Na");

template <std::size_t N>
void add(std::array<double, N>& to, const std::array<double, N>& from) {
  for (std::size_t i = 0; i < N; ++i) to[i] += from[i];
}

template <std::size_t N>
void scale(std::array<double, N>& values, double factor) {
  for (double& value : values) value *= factor;
}

}  // namespace

std::string_view to_text(Gum gum) {
  switch (gum) {
    case Gum::alginate:
      return "alginate";
    case Gum::hm_pectin:
      return "HM pectin";
    case Gum::lm_pectin:
      return "LM pectin";
    case Gum::amidated_pectin:
      return "amidated pectin";
    case Gum::gellan_low_acyl:
      return "low-acyl gellan";
    case Gum::gellan_high_acyl:
      return "high-acyl gellan";
    case Gum::xanthan:
      return "xanthan";
  }
  return "";
}

Composition& Composition::operator+=(const Composition& other) {
  water_g += other.water_g;
  soluble_solids_g += other.soluble_solids_g;
  carbohydrate_g += other.carbohydrate_g;
  sugars_g += other.sugars_g;
  maltodextrin_g += other.maltodextrin_g;
  glucose_g += other.glucose_g;
  fructose_g += other.fructose_g;
  polyol_g += other.polyol_g;
  erythritol_g += other.erythritol_g;
  fibre_g += other.fibre_g;
  organic_acid_g += other.organic_acid_g;
  caffeine_mg += other.caffeine_mg;
  add(saccharide_mol, other.saccharide_mol);
  add(gum_g, other.gum_g);
  add(carboxylate_mol, other.carboxylate_mol);
  lactone_mol += other.lactone_mol;
  guluronate_mol += other.guluronate_mol;
  hm_pectin_de_g += other.hm_pectin_de_g;
  add(dissolved_mol, other.dissolved_mol);
  add(acid_only_mol, other.acid_only_mol);
  return *this;
}

Composition& Composition::operator*=(double factor) {
  water_g *= factor;
  soluble_solids_g *= factor;
  carbohydrate_g *= factor;
  sugars_g *= factor;
  maltodextrin_g *= factor;
  glucose_g *= factor;
  fructose_g *= factor;
  polyol_g *= factor;
  erythritol_g *= factor;
  fibre_g *= factor;
  organic_acid_g *= factor;
  caffeine_mg *= factor;
  scale(saccharide_mol, factor);
  scale(gum_g, factor);
  scale(carboxylate_mol, factor);
  lactone_mol *= factor;
  guluronate_mol *= factor;
  hm_pectin_de_g *= factor;
  scale(dissolved_mol, factor);
  scale(acid_only_mol, factor);
  return *this;
}

double sodium_mg(const Composition& composition) {
  return sodium_mg_per_mol *
         (composition.dissolved(Component::sodium) + composition.acid_only(Component::sodium));
}

}  // namespace gelwright
