// What is wanted of a serving, before there is a recipe, and the recipes that come nearest to it.
//
// Water, gum, acid and salt are found together, by a search over `evaluate`: for each way to set
// that the kitchen allows its best amounts, within the limits asked for and never into what the
// flags call a stop. The same seed gives the same recipes.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "gelwright/error.hpp"
#include "gelwright/gel_chances.hpp"
#include "gelwright/limit.hpp"
#include "gelwright/read.hpp"
#include "gelwright/recipe.hpp"

namespace gelwright {

/// What feeds: a sugar, a syrup or a bought mix, and its part of all of them by carbohydrate.
struct GoalSugar {
  std::string ingredient;
  double part = 1;
};

struct Goal {
  std::string document;  ///< what errors call it
  std::string name = "Found recipe";
  std::string note = {};
  Form form = Form::pouch;
  double carbohydrate_g = 0;             ///< in one serving
  std::optional<double> serving_g = {};  ///< mass of one serving; at most one of the two
  std::optional<double> soluble_solids_percent = {};
  std::vector<GoalSugar> sugars = {};        ///< empty: maltodextrin DE 18 and fructose, 1 to 0.8
  std::optional<gel::Texture> texture = {};  ///< absent: a pouch sets softly, a drink pours
  Limit ph = {};
  Limit sodium_mg = {};                      ///< in one serving
  double caffeine_mg = 0;                    ///< in one serving, as tablets taken with it
  double tablet_mg = 50;                     ///< caffeine in one tablet; halves can be taken
  std::optional<double> price_at_most = {};  ///< of one serving, in the kitchen's currency
  double rest_hours = 12;                    ///< until it is eaten, at 5 degC
  double servings = 4;
  /// What there is, by name: gums, acids, salts. Empty: what the kitchen describes or prices; with
  /// no kitchen what is usual.
  std::vector<std::string> have = {};
  std::string tap = {};  ///< as JSON, as a recipe's `tap` takes it; empty: not known
};

/// A limit that could not be kept, or that keeps the chance down.
struct GoalLimit {
  std::string what;  ///< "pH", "sodium", "price", "gum"
  std::string unit;  ///< of both numbers; empty for a plain one
  double limit = 0;
  bool at_most = true;
  double reached = 0;  ///< of a broken one: where the nearest recipe is
  /// Of one that is kept and binds: the chance of the texture without it.
  std::optional<double> chance_without = {};
};

/// The best recipe of one way to set.
struct GoalAnswer {
  std::string kind;     ///< "alginate, set by acid stirred in under the blade"
  std::string text;     ///< a whole recipe document, in need of no kitchen
  double chance = 0;    ///< of the wanted texture where it is eaten
  double flawless = 0;  ///< that, and free of lumps, specks, weeping, cracks and grit; of a drink,
                        ///< that, and pieces in the stomach: what is searched for
  double worth = 0;     ///< `flawless`, or below 0 how far limits and flags are from being kept
  double pieces = 0;    ///< that it forms pieces or skins in the stomach
  bool likeliest = false;               ///< the wanted texture is the likeliest
  std::vector<GoalLimit> broken = {};   ///< empty: every limit is kept
  std::vector<std::string> stops = {};  ///< why it must not be made, in words; empty if it may be
  bool good() const { return broken.empty() && stops.empty(); }
};

struct GoalFound {
  std::vector<GoalAnswer> answers;     ///< best first, no two of a kind; never empty
  std::vector<GoalLimit> binding;      ///< what keeps the first of them from a better chance
  std::vector<std::string> not_tried;  ///< ways to set that lack something, and what
  std::vector<std::string> lacking;    ///< all that is lacking, each once
  std::uint64_t seed = 0;
};

/// Reads a goal document, format "gelwright/goal-1". Throws InputError with every problem.
Goal read_goal(std::string_view json_text, const std::string& document);

/// Everything that makes a goal of no use, with what it contradicts: empty where it can be tried.
std::vector<Problem> problems_of(const Goal& goal);

/// At most `most` recipes. Throws InputError where the goal contradicts itself, names what is not
/// known, or nothing in the kitchen can be tried.
GoalFound recipes_for(const Goal& goal, const std::optional<KitchenDocument>& kitchen,
                      std::uint64_t seed = 1, std::size_t most = 3);

/// The texture a goal stands for where it names none.
gel::Texture texture_of(const Goal& goal);

/// Bounds and habits of the search.
std::span<const Datum> goal_data();

}  // namespace gelwright
