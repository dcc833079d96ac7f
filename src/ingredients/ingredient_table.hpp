// The rows behind the built-in ingredients. Private: `builtin_ingredients()` is the way in.
#pragma once

#include <span>
#include <string_view>

#include "gelwright/ingredient.hpp"

namespace gelwright {

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
std::span<const GumRow> gum_rows();

}  // namespace gelwright
