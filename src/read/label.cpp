#include "read/label.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "gelwright/elements.hpp"
#include "gelwright/properties.hpp"
#include "read/keys.hpp"

namespace gelwright::detail {

namespace {

/// What the rounding of a label may add up to, of its mass.
constexpr double rounding = 0.01;
/// Portions are rounded to whole grams, and packs are filled a little over.
constexpr double portions_within = 0.05;
/// How far a label's energy may be off what its figures make (a judgement): acids and rounding make
/// less, per 100 g for per portion mostly more.
constexpr double energy_within = 0.25;

/// The mass of what the label calls a portion or a pack, each stated or from the two others.
double named_mass_g(ObjectReader& label, LabelPer per) {
  constexpr double unknown = std::numeric_limits<double>::infinity();
  const std::optional<double> portion_g = label.number("portion_g");
  const std::optional<double> pack_g = label.number("pack_g");
  const std::optional<double> portions = label.number("portions_in_pack");
  if (portion_g && pack_g && portions &&
      std::abs(*portion_g * *portions - *pack_g) > portions_within * *pack_g)
    label.refuse("pack_g",
                 fmt::format("{:g} portions of {:g} g are {:g} g", *portions, *portion_g,
                             *portions * *portion_g),
                 "check the three figures against the pack");
  switch (per) {
    case LabelPer::hundred_g:
      return 100;
    case LabelPer::portion:
      if (portion_g) return *portion_g;
      if (pack_g && portions) return *pack_g / *portions;
      label.refuse("per", "nothing says how heavy a portion is",
                   "add \"portion_g\", or \"pack_g\" and \"portions_in_pack\"");
      return unknown;
    case LabelPer::pack:
      if (pack_g) return *pack_g;
      if (portion_g && portions) return *portion_g * *portions;
      label.refuse("per", "nothing says how heavy a pack is",
                   "add \"pack_g\", or \"portion_g\" and \"portions_in_pack\"");
      return unknown;
  }
  return unknown;
}

}  // namespace

namespace {

template <class Is>
const Ingredient* only(const std::vector<const Ingredient*>& parts, Is is) {
  const Ingredient* found = nullptr;
  for (const Ingredient* part : parts) {
    if (!is(*part)) continue;
    if (found != nullptr) return nullptr;
    found = part;
  }
  return found;
}

/// As much of it as holds 1 g of carbohydrate.
Composition per_g_carbohydrate(const Ingredient& ingredient) {
  return ingredient.per_g * (1 / ingredient.per_g.carbohydrate_g);
}

}  // namespace

const Ingredient* NamedParts::sugar() const {
  return only(parts_, [](const Ingredient& part) {
    return part.per_g.sugars_g > 0 && part.per_g.maltodextrin_g <= 0;
  });
}

const Ingredient* NamedParts::starch() const {
  return only(parts_, [](const Ingredient& part) {
    return part.per_g.maltodextrin_g > 0 && part.per_g.sugars_g <= 0;
  });
}

const Ingredient* NamedParts::polyol() const {
  return only(parts_, [](const Ingredient& part) { return part.per_g.polyol_g > 0; });
}

const Ingredient* NamedParts::salt_of(Component ion) const {
  return only(parts_, [ion](const Ingredient& part) {
    const bool salt = part.kind == Kind::salt || part.kind == Kind::calcium_salt;
    return salt && part.per_g.dissolved(ion) + part.per_g.acid_only(ion) > 0;
  });
}

double add_carbohydrate(ObjectReader& label, double carbohydrate_g, std::optional<double> sugars_g,
                        const NamedParts& named, Composition& per_g) {
  const std::optional<double> ratio = label.ratio("glucose_to_fructose");
  const double fructose_g =
      ratio ? std::max(0.0, carbohydrate_g / (1 + *ratio) - per_g.fructose_g) : 0;
  // Without a figure for the sugars, those are in it that the ratio or the parts call for.
  const double all_sugars_g =
      std::min(carbohydrate_g, sugars_g.value_or(per_g.sugars_g + fructose_g));
  const double more_sugars_g = std::max(0.0, all_sugars_g - per_g.sugars_g);
  const double more_starch_g = std::max(0.0, carbohydrate_g - per_g.carbohydrate_g - more_sugars_g);
  if (fructose_g > more_sugars_g * (1 + rounding) + rounding / 10)
    label.refuse("glucose_to_fructose",
                 fmt::format("makes {:.3g} g of fructose in 1 g, more than its sugars", fructose_g),
                 "check the ratio against the sugars: the larger number is mostly the glucose");
  double unnamed_g = 0;
  if (ratio) {
    const double free_g = std::min(fructose_g, more_sugars_g);
    per_g += find_ingredient("fructose")->per_g * free_g;
    per_g += find_ingredient("dextrose anhydrous")->per_g * (more_sugars_g - free_g);
  } else if (named.sugar() != nullptr) {
    per_g += per_g_carbohydrate(*named.sugar()) * more_sugars_g;
  } else {
    per_g += per_g_carbohydrate(*find_ingredient("sucrose")) * more_sugars_g;
    unnamed_g = more_sugars_g;
  }
  Composition starch = named.starch() != nullptr
                           ? per_g_carbohydrate(*named.starch())
                           : per_g_carbohydrate(maltodextrin(unlabelled_dextrose_equivalent));
  starch.water_g = 0;  // the moisture of a whole powder is nobody's to know
  per_g += starch * more_starch_g;
  per_g.carbohydrate_g = carbohydrate_g;
  per_g.sugars_g = all_sugars_g;
  return unnamed_g;
}

double label_mass_g(ObjectReader& label) {
  const std::optional<double> stated = label.number("per_g");
  const std::optional<LabelPer> per = label.word<LabelPer>("per");
  if (per) return named_mass_g(label, *per);
  for (const std::string_view key : {"portion_g", "pack_g", "portions_in_pack"}) label.number(key);
  return stated.value_or(std::numeric_limits<double>::infinity());
}

void add_polyols_protein_fat(ObjectReader& label, double mass_g, const NamedParts& named,
                             Composition& per_g) {
  if (const auto polyols_g = label.number("polyols_g")) {
    const double more_g = std::max(0.0, *polyols_g / mass_g - per_g.polyol_g);
    const Composition polyol =
        named.polyol() != nullptr ? named.polyol()->per_g : find_ingredient("sorbitol")->per_g;
    per_g += polyol * (more_g / polyol.polyol_g);
    if (more_g > 0 && named.polyol() == nullptr)
      label.assume("polyols_g", "which polyols", "counted as sorbitol",
                   "the label does not name them");
  }
  const auto add = [&](std::string_view key, double Composition::*amount, std::string what) {
    const std::optional<double> labelled_g = label.number(key);
    if (!labelled_g) return;
    const double more_g = std::max(0.0, *labelled_g / mass_g - per_g.*amount);
    per_g.*amount += more_g;
    if (more_g > 0)
      label.assume(key, std::move(what), "counts for energy only",
                   "how it meets acid and gum is not modelled");
    if (key == "protein_g") per_g.soluble_solids_g += more_g;
  };
  add("protein_g", &Composition::protein_g, "protein on the label");
  add("fat_g", &Composition::fat_g, "fat on the label");
}

void refuse_mixed_columns(ObjectReader& label, double mass_g, const Composition& per_g) {
  const std::optional<double> kj = label.number("energy_kj");
  const std::optional<double> kcal = label.number("energy_kcal");
  if (!std::isfinite(mass_g)) return;
  const double sum_g = per_g.carbohydrate_g + per_g.polyol_g + per_g.protein_g + per_g.fat_g +
                       per_g.fibre_g + sodium_mg(per_g) / 1000;
  if (sum_g > 1 + rounding)
    label.refuse("",
                 fmt::format("its figures add up to {:.4g} g in {:g} g", sum_g * mass_g, mass_g),
                 "copy them all from one column, with the mass that column is for");
  if (!label.has("carbohydrate_g")) return;
  const EnergyMasses least{.carbohydrate_g = mass_g * per_g.carbohydrate_g,
                           .fibre_g = mass_g * per_g.fibre_g,
                           .protein_g = mass_g * per_g.protein_g,
                           .fat_g = mass_g * per_g.fat_g};
  EnergyMasses most = least;
  most.polyol_g = mass_g * per_g.polyol_g;
  most.organic_acid_g = mass_g * std::max(per_g.organic_acid_g, 1 - sum_g - per_g.water_g);
  const auto refuse = [&](std::string_view key, const std::optional<double>& stated, double low,
                          double high, std::string_view unit) {
    if (!stated) return;
    if (*stated >= (1 - energy_within) * low && *stated <= (1 + energy_within) * high) return;
    label.refuse(key,
                 fmt::format("{:g} {} is not the energy of the figures beside it, which make about "
                             "{:.0f}",
                             *stated, unit, low),
                 "copy them all from one column, with the mass that column is for");
  };
  refuse("energy_kj", kj, energy_kj(least), energy_kj(most), "kJ");
  refuse("energy_kcal", kcal, energy_kcal(least), energy_kcal(most), "kcal");
}

}  // namespace gelwright::detail
