// A first recipe from a few answers: what it is for, what there is, how much of it.
//
// Gum and acid are chosen so that a pouch sets, by the same forecast every sheet shows.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gelwright/recipe.hpp"

namespace gelwright {

/// A sugar and its part of all sugars; parts need not add up to 1.
struct SugarPart {
  std::string ingredient;
  double part = 1;
};

/// What a bought mix says on its label, for 100 g.
struct MixLabel {
  double carbohydrate_g = 94;
  double sodium_mg = 0;
};

struct StartAnswers {
  std::string name = "First batch";
  Form form = Form::pouch;
  std::optional<MixLabel> mix;    ///< absent: blended from sugars and gum
  std::vector<SugarPart> sugars;  ///< from scratch
  double solids_g = 0;            ///< in one serving
  double total_g = 0;             ///< of one serving
  double servings = 4;
  std::optional<double> calcium_mg_per_l;  ///< of the tap; absent where not known
  std::optional<double> alkalinity_mg_caco3_per_l;
  bool pocket_scale = true;  ///< one of 0.01 g beside a kitchen scale
};

struct StartedRecipe {
  std::string text;                     ///< a recipe-2 document with notes
  double chance = 0;                    ///< pouch: that it sets; drink: that it pours; 0 to 1
  std::string doubt;                    ///< why the chance is not 0.7 or more; else empty
  std::vector<std::string> understood;  ///< sugars taken as the likeliest of several, in sentences
};

/// Writes the recipe. Throws InputError where the answers cannot be a recipe: no sugars, more
/// solids than the total leaves water for, an ingredient it does not know. A sugar that may be
/// several things is taken as the likeliest.
StartedRecipe start_recipe(const StartAnswers& answers);

/// What the choice of gum and acid goes by.
std::span<const Datum> start_data();

}  // namespace gelwright
