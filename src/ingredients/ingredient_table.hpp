// The rows behind the built-in ingredients. Private: `builtin_ingredients()` is the way in.
#pragma once

#include <span>
#include <string_view>

#include "gelwright/ingredient.hpp"

namespace gelwright::detail {

/// Moistures and sizes of what has no formula.
inline constexpr Datum ingredient_rows[] = {
    {"maltodextrin.moisture", 0.05, "g/g", 0.01, "as sold; the monograph's limit is 0.06",
     "usp-nf-maltodextrin", Standing::from_memory},
    {"cyclic-dextrin.moisture", 0.05, "g/g", 0.01, "as sold", "judgement", Standing::judgement},
    {"cyclic-dextrin.molar-mass", 160000, "g/mol", 80000, "number average", "takata-1996",
     Standing::from_memory},
    {"alginate.moisture", 0.12, "g/g", 0.03, "as sold; at most 0.15", "eu-231-2012",
     Standing::from_memory},
    {"pectin.moisture", 0.08, "g/g", 0.03, "as sold; at most 0.12", "eu-231-2012",
     Standing::from_memory},
    {"gellan.moisture", 0.10, "g/g", 0.03, "as sold; at most 0.15", "eu-231-2012",
     Standing::from_memory},
    {"xanthan.moisture", 0.10, "g/g", 0.03, "as sold; at most 0.15", "eu-231-2012",
     Standing::from_memory},
    {"stock.calcium-lactate", 0.05, "g/g", 0.01, "strongest that stays dissolved, 20 degC",
     "judgement", Standing::from_memory},
    {"stock.calcium-gluconate", 0.03, "g/g", 0.005, "strongest that stays dissolved, 20 degC",
     "judgement", Standing::from_memory},
    {"lactic-acid-solution.strength", 0.80, "g/g", 0.01, "as sold; esters with itself counted",
     "eu-231-2012", Standing::from_memory},
    {"lactate-solution.strength", 0.60, "g/g", 0.02, "as sold; 0.57 to 0.66 allowed", "eu-231-2012",
     Standing::confirmed},
    // Averages of 490 samples.
    {"honey.water", 0.172, "g/g", 0.015, "", "white-1962", Standing::confirmed},
    {"honey.fructose", 0.3819, "g/g", 0.021, "", "white-1962", Standing::confirmed},
    {"honey.glucose", 0.3128, "g/g", 0.030, "", "white-1962", Standing::confirmed},
    {"honey.sucrose", 0.0131, "g/g", 0.009, "", "white-1962", Standing::confirmed},
    {"honey.maltose", 0.0731, "g/g", 0.021, "reducing disaccharides as maltose", "white-1962",
     Standing::confirmed},
    {"honey.higher-sugars", 0.0150, "g/g", 0.010, "", "white-1962", Standing::confirmed},
    {"honey.higher-sugars.molar-mass", 504, "g/mol", 0, "trisaccharides", "judgement",
     Standing::judgement},
    {"honey.free-acid", 0.02203, "mmol/g", 0.008, "titrated, as gluconic acid", "white-1962",
     Standing::from_memory},
    {"honey.potassium", 0.00052, "g/g", 0.0003, "dark honey holds most", "usda-fdc",
     Standing::from_memory},
    {"honey.sodium", 0.00004, "g/g", 0.00002, "", "usda-fdc", Standing::from_memory},
    {"honey.calcium", 0.00006, "g/g", 0.00003, "", "usda-fdc", Standing::from_memory},
    {"honey.magnesium", 0.00002, "g/g", 0.00001, "", "usda-fdc", Standing::from_memory},
    {"glucose-syrup.solids", 0.80, "g/g", 0.02, "as sold", "common-practice",
     Standing::common_practice},
    {"maltodextrin.unlabelled-de", 15, "1", 4, "stand-in where a label does not say", "judgement",
     Standing::judgement},
};

/// A substance with a formula: an acid, a salt, a calcium salt.
struct SubstanceRow {
  std::string_view name;
  std::string_view formula;  ///< as weighed, hydrate water included
  double hydrate_water;      ///< water molecules in the formula
  Kind kind;
  std::string_view anhydrous_acid;  ///< formula counted as organic acid for energy; empty if none
  struct Delivered {
    Component component = Component::citrate;
    double mol = 0;  ///< per formula unit; 0 ends the list
  };
  Delivered delivers[4];
  bool acid_only = false;      ///< dissolves only as acid reaches it
  double strongest_stock = 1;  ///< g in 1 g of stock that stays dissolved and keeps; 0 = none
};

/// A sugar of known formula.
struct SugarRow {
  std::string_view name;
  std::string_view formula;  ///< as weighed
  double hydrate_water;
  Saccharide particle;    ///< which saccharide it is in solution
  double fructose_share;  ///< of its carbohydrate
};

/// A gum as sold. Carboxylate and its neutralised part come from the setting data.
struct GumRow {
  std::string_view name;
  Gum gum;
  double moisture_g;      ///< g per g
  Component counter_ion;  ///< of the neutralised part
};

std::span<const SubstanceRow> substance_rows();
std::span<const SugarRow> sugar_rows();
/// A polyol of known formula; glycerol is one.
struct PolyolRow {
  std::string_view name;
  std::string_view formula;
  Saccharide particle;  ///< which particle it counts as in solution
  Kind kind;
  bool without_energy;  ///< on a label
};

/// A substance sold dissolved in water.
struct SolutionRow {
  std::string_view name;
  std::string_view substance;  ///< a SubstanceRow's name
  double strength;             ///< g/g
  std::string_view basis;
};

/// Saccharides of a usual glucose syrup, part of its solids; straight between the rows.
struct SyrupRow {
  double dextrose_equivalent;
  double glucose;
  double maltose;
};

std::span<const PolyolRow> polyol_rows();
std::span<const SolutionRow> solution_rows();
std::span<const SyrupRow> syrup_rows();

/// What has no formula and is no mix of one's own. `starch_hydrolysate` gives carbohydrate of 1 g
/// with this moisture and number-average molar mass.
Composition starch_hydrolysate(double moisture_g, double molar_mass_g_per_mol);
Ingredient honey();

std::span<const GumRow> gum_rows();

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
