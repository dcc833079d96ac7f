// A recipe as its author wrote it: one serving, then how to make many.
//
// Plain data. `read_recipe` makes it from the JSON document docs/recipe.md describes; `inputs_of`
// (evaluate.hpp) turns it into the numbers the pipeline works on.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "gelwright/assumption.hpp"
#include "gelwright/gel_chances.hpp"
#include "gelwright/ingredient.hpp"
#include "gelwright/limit.hpp"
#include "gelwright/step.hpp"
#include "gelwright/water.hpp"
#include "gelwright/weighing.hpp"

namespace gelwright {

/// A number and its standard uncertainty, both in the unit its name states; sd 0 = not stated.
struct Measured {
  double value = 0;
  double sd = 0;
};

/// What the batch has to do.
enum class Form {
  pouch,  ///< must set before it is eaten
  drink,  ///< must pour, and set only in stomach acid
};

/// The three ways to say how much water, all for one serving.
enum class WaterBasis {
  fraction_of_total,  ///< g water in 1 g of solids + water + acid + calcium salt, 0 < x < 1
  per_g_solids,       ///< g water for 1 g of solids
  mass_g,             ///< g water
};
struct WaterSpec {
  WaterBasis basis = WaterBasis::mass_g;
  double amount = 0;
};

/// One solid: an entry of `Recipe::ingredients` and its mass in one serving.
struct RecipeLine {
  std::size_t ingredient = 0;
  Measured mass_g;
};

/// Food acid for one serving: a mass (the sum of the bench additions) or a pH to reach.
struct AcidSpec {
  std::size_t ingredient = 0;
  Measured mass_g;
  std::vector<double> additions_g;  ///< as made at the bench; their sum is `mass_g`
  std::optional<double> target_ph;
  std::optional<double> stock_percent;  ///< g acid in 100 g of stock solution
};

/// Calcium salt for one serving: a mass or a saturation ratio R2 of one gum.
struct CalciumSpec {
  std::size_t ingredient = 0;
  Measured mass_g;
  std::optional<double> target_ratio;
  std::optional<Gum>
      target_gum;  ///< absent: gellan where no other gum binds calcium, else alginate
  std::optional<double> stock_percent;
};

/// The tap water: as reported, with the standard uncertainty of each figure where stated.
struct Tap {
  Water water;
  Water sd;  ///< same units; absent where not stated
};

struct Limits {
  Limit calcium_mg_per_l;  ///< of the water as used: after blending, before any calcium salt
  Limit ph;                ///< of the water phase
};

/// How pH was measured, when it was.
enum class PhMethod { meter, strips };

/// A pH reading on the finished batch.
struct MeasuredPh {
  double ph = 7;
  PhMethod with = PhMethod::meter;
};

/// How many servings, and what they are weighed on.
struct BatchSpec {
  double servings = 1;           ///< whole in a recipe; any positive number by target
  double loss_percent = 0;       ///< left on bowl and blade
  double bowl_g = 0;             ///< stands on the scale and eats capacity
  double headroom_percent = 20;  ///< of the vessel, for foam
  std::optional<double> vessel_ml;
  double dose_tolerance_percent = 5;       ///< largest weighing error a line may carry
  std::optional<double> round_water_to_g;  ///< round the batch's water to a handy number
  std::vector<Scale> scales;
};

/// What a pack costs.
struct Pack {
  std::size_t ingredient = 0;
  double pack_g = 0;
  double price = 0;  ///< in `Recipe::currency`
};

/// What would be bought instead.
struct Alternative {
  std::string name;
  double price = 0;           ///< per unit, in `Recipe::currency`
  double carbohydrate_g = 0;  ///< per unit
};

/// Taken with a serving, counted in pieces, never weighed.
struct PreDosed {
  std::string name;
  double per_serving = 0;  ///< pieces
  double caffeine_mg = 0;  ///< per piece
  double sodium_mg = 0;    ///< per piece
};

/// What a kitchen can give a recipe.
enum class KitchenPart { ingredient, water, vessel, scale, currency, price, compare_with, avoid };

/// Something a recipe leaves to its kitchen.
struct FromKitchen {
  KitchenPart part = KitchenPart::ingredient;
  std::string name;           ///< "fell mix"
  std::string where;          ///< JSON pointer to where a recipe would say it: "/define/fell mix"
  std::string kitchen_where;  ///< JSON pointer to where the kitchen says it
};

/// The kitchen a recipe was read with, and all that was taken from it; the rest is the recipe's.
struct KitchenUse {
  std::string document;  ///< file it was read from
  std::vector<FromKitchen> gives;
};

/// A knob that was turned away from what the document says.
struct TurnedKnob {
  std::string name;  ///< as typed: "acid_g"
  std::string unit;  ///< of both amounts; empty for a plain share
  double amount = 0;
  std::optional<double> document_amount;  ///< absent where the document gives a target or nothing
};

/// A whole recipe document.
struct Recipe {
  std::string document;  ///< file it was read from
  std::string name;
  std::string note;
  Form form = Form::pouch;
  std::vector<Ingredient> ingredients;  ///< each one used, once
  std::vector<RecipeLine> solids;
  WaterSpec water;
  std::optional<AcidSpec> acid;
  std::optional<CalciumSpec> calcium;
  std::optional<Tap> tap;
  Limits limits;
  std::optional<gel::Texture> target_texture;  ///< wanted, for the studies that look for a dose
  std::vector<Step> steps;             ///< in order; empty: the usual order of work, see making.hpp
  std::optional<double> eaten_at_c;    ///< degC; absent: as `usual_work` says
  std::optional<MeasuredPh> measured;  ///< what was measured on the finished batch
  BatchSpec batch;
  std::string currency;
  std::vector<Pack> packs;
  std::optional<Alternative> compare_with;
  std::vector<PreDosed> pre_dosed;
  std::vector<std::string> avoid;  ///< allergens or intolerances the eater has
  std::optional<KitchenUse> kitchen;
  std::vector<Assumption> assumed;  ///< what the reader filled in; all else is stated
  std::vector<TurnedKnob> turned;   ///< none in a recipe as it was read
};

}  // namespace gelwright
