#include "gelwright/composition.hpp"

#include <tuple>

#include "gelwright/elements.hpp"

namespace gelwright {

namespace {

constexpr double sodium_mg_per_mol = 1000.0 * molar_mass_g_per_mol("Na");

/// Every member, once: sums and multiples walk this list.
constexpr std::tuple members{&Composition::water_g,          &Composition::soluble_solids_g,
                             &Composition::carbohydrate_g,   &Composition::sugars_g,
                             &Composition::maltodextrin_g,   &Composition::glucose_g,
                             &Composition::fructose_g,       &Composition::polyol_g,
                             &Composition::erythritol_g,     &Composition::fibre_g,
                             &Composition::organic_acid_g,   &Composition::caffeine_mg,
                             &Composition::protein_g,        &Composition::fat_g,
                             &Composition::unnamed_sugars_g, &Composition::unnamed_sodium_mol,
                             &Composition::saccharide_mol,   &Composition::gum_g,
                             &Composition::carboxylate_mol,  &Composition::lactone_mol,
                             &Composition::guluronate_mol,   &Composition::hm_pectin_esterified_g,
                             &Composition::dissolved_mol,    &Composition::acid_only_mol};

template <class Member>
constexpr std::size_t size_of(Member Composition::*) {
  return sizeof(Member);
}
static_assert(std::apply([](auto... member) { return (size_of(member) + ...); }, members) ==
                  sizeof(Composition),
              "a member of Composition is missing from the list above");

template <class Work>
void for_each_member(Work work) {
  std::apply([&](auto... member) { (work(member), ...); }, members);
}

void add(double& to, double from) {
  to += from;
}
template <std::size_t N>
void add(std::array<double, N>& to, const std::array<double, N>& from) {
  for (std::size_t i = 0; i < N; ++i) to[i] += from[i];
}

void scale(double& value, double factor) {
  value *= factor;
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
  for_each_member([&](auto member) { add(this->*member, other.*member); });
  return *this;
}

Composition& Composition::operator*=(double factor) {
  for_each_member([&](auto member) { scale(this->*member, factor); });
  return *this;
}

double sodium_mg(const Composition& composition) {
  return sodium_mg_per_mol *
         (composition.dissolved(Component::sodium) + composition.acid_only(Component::sodium));
}

}  // namespace gelwright
