#include <fmt/format.h>

#include <algorithm>

#include "gelwright/elements.hpp"
#include "gelwright/error.hpp"
#include "gelwright/properties.hpp"
#include "ingredients/ingredient_table.hpp"

namespace gelwright {

namespace {

constexpr double glucose_g_per_mol = molar_mass_g_per_mol("C6H12O6");
constexpr double disaccharide_g_per_mol = molar_mass_g_per_mol("C12H22O11");

/// Glucose and maltose of a usual syrup, straight between the rows of the table.
SyrupRow usual_syrup(double dextrose_equivalent) {
  const std::span<const SyrupRow> rows = syrup_rows();
  std::size_t above = 1;
  while (above + 1 < rows.size() && rows[above].dextrose_equivalent < dextrose_equivalent) ++above;
  const SyrupRow& low = rows[above - 1];
  const SyrupRow& high = rows[above];
  const double share = (dextrose_equivalent - low.dextrose_equivalent) /
                       (high.dextrose_equivalent - low.dextrose_equivalent);
  return {dextrose_equivalent, low.glucose + share * (high.glucose - low.glucose),
          low.maltose + share * (high.maltose - low.maltose)};
}

}  // namespace

Composition detail::starch_hydrolysate(double moisture_g, double molar_mass_g_per_mol) {
  Composition per_g;
  per_g.water_g = moisture_g;
  per_g.soluble_solids_g = 1 - moisture_g;
  per_g.carbohydrate_g = 1 - moisture_g;
  per_g.maltodextrin_g = 1 - moisture_g;
  per_g.glucose_g = 1 - moisture_g;
  per_g.saccharide_mol[index_of(Saccharide::oligomer)] = (1 - moisture_g) / molar_mass_g_per_mol;
  return per_g;
}

Ingredient glucose_syrup(double dextrose_equivalent, double solids_fraction) {
  const double lowest = syrup_rows().front().dextrose_equivalent;
  constexpr double highest = 98;
  std::vector<Problem> problems;
  if (!(dextrose_equivalent >= lowest && dextrose_equivalent <= highest))
    problems.push_back({"dextrose_equivalent", "a glucose syrup has a DE of 20 to 98",
                        "below 20 it is maltodextrin, above 98 dextrose"});
  if (!(solids_fraction > 0 && solids_fraction <= 1))
    problems.push_back(
        {"solids_fraction", "solids are above 0 and at most 1 g in 1 g", "give 80 % as 0.80"});
  if (!problems.empty()) throw InputError("", std::move(problems));

  const SyrupRow usual = usual_syrup(dextrose_equivalent);
  const double glucose_mol = usual.glucose / glucose_g_per_mol;
  const double maltose_mol = usual.maltose / disaccharide_g_per_mol;
  // Every molecule has one reducing end: the DE counts them all, the table the small ones.
  const double all_mol = 1 / maltodextrin_molar_mass_g_per_mol(dextrose_equivalent);
  const double higher_g = 1 - usual.glucose - usual.maltose;
  Composition solids;
  solids.soluble_solids_g = 1;
  solids.carbohydrate_g = 1;
  solids.glucose_g = 1;
  solids.sugars_g = usual.glucose + usual.maltose;
  solids.maltodextrin_g = higher_g;
  solids.saccharide_mol[index_of(Saccharide::glucose)] = glucose_mol;
  solids.saccharide_mol[index_of(Saccharide::disaccharide)] = maltose_mol;
  solids.saccharide_mol[index_of(Saccharide::oligomer)] = all_mol - glucose_mol - maltose_mol;
  Composition per_g = solids * solids_fraction;
  per_g.water_g = 1 - solids_fraction;
  return {.name = fmt::format("glucose syrup DE {:g}", dextrose_equivalent),
          .kind = Kind::syrup,
          .per_g = per_g,
          .basis = fmt::format("{:.3g} % solids, {:.0f} % of them glucose and {:.0f} % maltose",
                               100 * solids_fraction, 100 * usual.glucose, 100 * usual.maltose),
          .source = "corn-refiners-2006"};
}

Ingredient detail::honey() {
  constexpr double water = value_of(ingredient_rows, "honey.water");
  constexpr double fructose = value_of(ingredient_rows, "honey.fructose");
  constexpr double glucose = value_of(ingredient_rows, "honey.glucose");
  constexpr double sucrose = value_of(ingredient_rows, "honey.sucrose");
  constexpr double maltose = value_of(ingredient_rows, "honey.maltose");
  constexpr double higher = value_of(ingredient_rows, "honey.higher-sugars");
  constexpr double free_acid_mol = value_of(ingredient_rows, "honey.free-acid") / 1000;
  constexpr double potassium_mol =
      value_of(ingredient_rows, "honey.potassium") / molar_mass_g_per_mol("K");
  constexpr double sodium_mol =
      value_of(ingredient_rows, "honey.sodium") / molar_mass_g_per_mol("Na");
  constexpr double calcium_mol =
      value_of(ingredient_rows, "honey.calcium") / molar_mass_g_per_mol("Ca");
  constexpr double magnesium_mol =
      value_of(ingredient_rows, "honey.magnesium") / molar_mass_g_per_mol("Mg");
  Composition per_g;
  per_g.water_g = water;
  per_g.soluble_solids_g = 1 - water;
  per_g.sugars_g = fructose + glucose + sucrose + maltose;
  per_g.carbohydrate_g = per_g.sugars_g + higher;
  per_g.fructose_g = fructose + sucrose / 2;
  per_g.glucose_g = per_g.carbohydrate_g - per_g.fructose_g;
  per_g.saccharide_mol[index_of(Saccharide::fructose)] = fructose / glucose_g_per_mol;
  per_g.saccharide_mol[index_of(Saccharide::glucose)] = glucose / glucose_g_per_mol;
  per_g.saccharide_mol[index_of(Saccharide::sucrose)] = sucrose / disaccharide_g_per_mol;
  per_g.saccharide_mol[index_of(Saccharide::disaccharide)] = maltose / disaccharide_g_per_mol;
  per_g.saccharide_mol[index_of(Saccharide::oligomer)] =
      higher / value_of(ingredient_rows, "honey.higher-sugars.molar-mass");
  // Gluconic acid is most of its acid, so its minerals are counted as gluconates.
  per_g.organic_acid_g = free_acid_mol * molar_mass_g_per_mol("C6H12O7");
  per_g.dissolved(Component::gluconate) =
      free_acid_mol + potassium_mol + sodium_mol + 2 * (calcium_mol + magnesium_mol);
  per_g.dissolved(Component::potassium) = potassium_mol;
  per_g.dissolved(Component::sodium) = sodium_mol;
  per_g.dissolved(Component::calcium) = calcium_mol;
  per_g.dissolved(Component::magnesium) = magnesium_mol;
  return {.name = "honey",
          .kind = Kind::syrup,
          .per_g = per_g,
          .basis = "the average of 490 honeys, 17 % water; single ones differ",
          .source = "white-1962"};
}

}  // namespace gelwright
