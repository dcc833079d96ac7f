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

/// Bought mixes hold a few mg of caffeine in each gram (a judgement); more would make a slip of a
/// kitchen scale a dangerous dose.
constexpr double most_caffeine_mg_per_g = 20;

constexpr double sodium_g_per_mol = molar_mass_g_per_mol("Na");
constexpr double potassium_g_per_mol = molar_mass_g_per_mol("K");
constexpr double calcium_g_per_mol = molar_mass_g_per_mol("Ca");
constexpr double magnesium_g_per_mol = molar_mass_g_per_mol("Mg");

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

namespace {

/// Raises the carbohydrate of 1 g to what the label says, polyols not counted. Sugars are of the
/// kind that is named, or fructose and dextrose in the ratio that is stated, else sucrose; the rest
/// is the starch that is named, else a maltodextrin. Returns the sugars of no name.
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
  if (fructose_g > more_sugars_g * (1 + label_rounding) + label_rounding / 10)
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

/// The mass the figures of a label are for, g: stated as it is, or as a portion or a pack. Infinite
/// where nothing usable says so, so that no figure counts.
double label_mass_g(ObjectReader& label) {
  const std::optional<double> stated = label.number("per_g");
  const std::optional<LabelPer> per = label.word<LabelPer>("per");
  if (per) return named_mass_g(label, *per);
  for (const std::string_view key : {"portion_g", "pack_g", "portions_in_pack"}) label.number(key);
  return stated.value_or(std::numeric_limits<double>::infinity());
}

/// Adds to 1 g the polyols, protein and fat that it does not hold yet. A label counts polyols as
/// carbohydrate, the composition does not.
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

/// Refuses figures that cannot stand in one column: more than the mass they are for, or of another
/// energy than the label's own.
void refuse_mixed_columns(ObjectReader& label, double mass_g, const Composition& per_g) {
  const std::optional<double> kj = label.number("energy_kj");
  const std::optional<double> kcal = label.number("energy_kcal");
  if (!std::isfinite(mass_g)) return;
  const double sum_g = per_g.carbohydrate_g + per_g.polyol_g + per_g.protein_g + per_g.fat_g +
                       per_g.fibre_g + sodium_mg(per_g) / 1000;
  if (sum_g > 1 + label_rounding)
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

/// Raises a cation to what the label says, by the salt that is named; the anion nobody declared is
/// counted as chloride, which leaves the pH alone. What is of no named salt, mol.
double raise_to_label(Composition& per_g, Component ion, double mol, double charge,
                      const NamedParts& named) {
  const double more = std::max(0.0, mol - per_g.dissolved(ion) - per_g.acid_only(ion));
  if (const Ingredient* salt = named.salt_of(ion)) {
    per_g += salt->per_g * (more / (salt->per_g.dissolved(ion) + salt->per_g.acid_only(ion)));
    return 0;
  }
  per_g.dissolved(ion) += more;
  per_g.dissolved(Component::chloride) += charge * more;
  return more;
}

}  // namespace

bool read_label(ObjectReader& label, Composition& per_g, const std::string& name, bool broken_down,
                const NamedParts& named) {
  const double per = label_mass_g(label);
  add_polyols_protein_fat(label, per, named, per_g);
  // A label's carbohydrate holds the polyols.
  const double carbohydrate_g =
      std::max(0.0, label.number("carbohydrate_g").value_or(0) / per - per_g.polyol_g);
  const std::optional<double> sugars_g = label.number("sugars_g");
  if (sugars_g && label.has("carbohydrate_g") && *sugars_g / per > carbohydrate_g * (1 + 1e-9))
    label.refuse("sugars_g",
                 per_g.polyol_g > 0 ? "more sugars and polyols than carbohydrate"
                                    : "more sugars than carbohydrate",
                 "sugars are part of the carbohydrate; check the label");
  const bool ratio = label.has("glucose_to_fructose");
  per_g.unnamed_sugars_g +=
      add_carbohydrate(label, carbohydrate_g,
                       sugars_g ? std::optional(*sugars_g / per) : std::nullopt, named, per_g);
  if (!broken_down && (named.starch() == nullptr || (named.sugar() == nullptr && !ratio)))
    label.assume(
        "carbohydrate_g", fmt::format("carbohydrate of {}", name),
        fmt::format("sugars {}, the rest counts as {}",
                    ratio                      ? "count as fructose and dextrose"
                    : named.sugar() != nullptr ? "count as " + named.sugar()->name
                                               : "may be anything from sucrose to fructose",
                    named.starch() != nullptr
                        ? named.starch()->name
                        : fmt::format("maltodextrin DE {:g}", unlabelled_dextrose_equivalent)),
        "the label does not name it");
  if (!sugars_g && !ratio)
    label.assume("sugars_g", fmt::format("sugars of {}", name), "only those of what it contains",
                 "the label gives none, so they may be low");
  if (const auto fibre = label.number("fibre_g")) per_g.fibre_g = *fibre / per;
  if (const auto caffeine_mg = label.number("caffeine_mg")) {
    per_g.caffeine_mg = *caffeine_mg / per;
    if (per_g.caffeine_mg > most_caffeine_mg_per_g)
      label.refuse("caffeine_mg",
                   fmt::format("{:.0f} mg in each gram is concentrated caffeine, which is never "
                               "weighed at home",
                               per_g.caffeine_mg),
                   "use a pre-dosed product and list it under \"pre_dosed\"");
  }

  std::optional<double> sodium_mg = label.number("sodium_mg");
  const std::optional<double> salt_g = label.number("salt_g");
  if (!sodium_mg && salt_g) sodium_mg = 1000 * *salt_g / salt_equivalent_g(1000);
  if (sodium_mg) {
    const double label_mol = *sodium_mg / (1000 * per * sodium_g_per_mol);
    const double unnamed_mol = raise_to_label(per_g, Component::sodium, label_mol, 1, named);
    if (!broken_down && unnamed_mol > label_rounding * label_mol)
      per_g.unnamed_sodium_mol += unnamed_mol;
  }
  if (const auto potassium_mg = label.number("potassium_mg"))
    raise_to_label(per_g, Component::potassium, *potassium_mg / (1000 * per * potassium_g_per_mol),
                   1, named);
  if (const auto calcium_mg = label.number("calcium_mg"))
    raise_to_label(per_g, Component::calcium, *calcium_mg / (1000 * per * calcium_g_per_mol), 2,
                   named);
  if (const auto magnesium_mg = label.number("magnesium_mg"))
    raise_to_label(per_g, Component::magnesium, *magnesium_mg / (1000 * per * magnesium_g_per_mol),
                   2, named);
  refuse_mixed_columns(label, per, per_g);
  return sodium_mg.has_value();
}

}  // namespace gelwright::detail
