// The keys of a goal: what is wanted, before there is a recipe.
#include "read/keys.hpp"

namespace gelwright::detail {

namespace {

constexpr Word formats[] = {{"gelwright/goal-1", 0, {}}};

}  // namespace

const ObjectType& goal_sugar_keys() {
  static const ObjectType type{
      .id = "goal_sugar",
      .what = "One of the things that feed.",
      .keys = {{.name = "ingredient",
                .shape = Shape::text,
                .what = "name of a sugar, a syrup or a bought mix",
                .needed = true,
                .example = R"("maltodextrin DE 18")"},
               {.name = "part",
                .what = "its part of the carbohydrate of all of them",
                .more = "parts need not add up to 1",
                .bounds = {0, 1000, true},
                .otherwise = 1.0,
                .example = "0.8"}},
  };
  return type;
}

const ObjectType& goal_sodium_keys() {
  static const ObjectType type{
      .id = "goal_sodium",
      .what = "Sodium in one serving. Give one side or both.",
      .keys = {{.name = "at_least",
                .what = "smallest amount wanted",
                .more = "a salt brings it up to this",
                .unit = "mg",
                .bounds = {0, 10000, false},
                .example = "200"},
               {.name = "at_most",
                .what = "largest amount wanted",
                .unit = "mg",
                .bounds = {0, 10000, false},
                .example = "300"}},
      .rules = {{RuleKind::at_least_one, {"at_least", "at_most"}, "a limit needs a side", {}}},
  };
  return type;
}

const ObjectType& goal_keys() {
  const auto as_in_recipe = [](std::string_view name, bool needed = false) {
    Key key = *recipe_keys().find(name);
    key.needed = needed;
    return key;
  };
  const auto texture = [] {
    Key key = *recipe_keys().find("target_texture");
    key.name = "texture";
    key.what = "the texture that is wanted where it is eaten";
    key.more = {};
    key.left_out = "a pouch sets softly, a drink pours";
    return key;
  };
  static const ObjectType type{
      .id = "goal",
      .what = "What is wanted of a serving; the command `formulate` finds recipes for it.",
      .keys = {as_in_recipe("$schema"),
               {.name = "format",
                .shape = Shape::word,
                .what = "which kind of document this is",
                .needed = true,
                .example = R"("gelwright/goal-1")",
                .words = formats},
               as_in_recipe("name", true),
               as_in_recipe("note"),
               as_in_recipe("form", true),
               as_in_recipe("kitchen"),
               {.name = "carbohydrate_g",
                .what = "carbohydrate in one serving",
                .unit = "g",
                .bounds = {1, 500, false},
                .needed = true,
                .example = "40"},
               {.name = "serving_g",
                .what = "mass of one serving, water included",
                .unit = "g",
                .bounds = {2, 3000, false},
                .left_out = "the water is searched as well",
                .example = "72"},
               {.name = "soluble_solids_percent",
                .what = "soluble solids, as a refractometer shows them",
                .unit = "%",
                .bounds = {1, 78, false},
                .left_out = "the water is searched as well",
                .example = "55"},
               {.name = "sugars",
                .shape = Shape::objects,
                .what = "what feeds, each with its part of the carbohydrate",
                .left_out = "maltodextrin DE 18 and fructose, 1 to 0.8",
                .object = goal_sugar_keys,
                .never_empty = true},
               texture(),
               {.name = "ph",
                .shape = Shape::object,
                .what = "between which the pH has to be",
                .object = ph_limit_keys},
               {.name = "sodium_mg",
                .shape = Shape::object,
                .what = "between which the sodium of one serving has to be",
                .object = goal_sodium_keys},
               {.name = "caffeine_mg",
                .what = "caffeine with one serving, as tablets: it is never weighed",
                .unit = "mg",
                .bounds = {0, 1000, false},
                .otherwise = 0.0,
                .example = "50"},
               {.name = "tablet_mg",
                .what = "caffeine in one tablet; halves can be taken",
                .unit = "mg",
                .bounds = {1, 1000, false},
                .otherwise = 50.0,
                .example = "50"},
               {.name = "price_at_most",
                .what = "what one serving may cost, by the kitchen's prices and in their currency",
                .bounds = {0, 1e6, true},
                .left_out = "it may cost what it does",
                .example = "0.90"},
               {.name = "rest_hours",
                .what = "time from the last addition until it is eaten, in a fridge",
                .unit = "h",
                .bounds = {0, 240, false},
                .otherwise = 12.0,
                .example = "12"},
               {.name = "servings",
                .what = "servings in one batch",
                .bounds = {1, 1000, false},
                .whole = true,
                .otherwise = 4.0,
                .example = "10"},
               {.name = "have",
                .shape = Shape::texts,
                .what = "the gums, acids and salts there are, by name",
                .left_out = "what the kitchen describes or prices; without a kitchen what is usual",
                .example = R"(["sodium alginate", "citric acid anhydrous"])",
                .never_empty = true},
               as_in_recipe("tap")},
      .rules = {{RuleKind::at_most_one,
                 {"serving_g", "soluble_solids_percent"},
                 {},
                 "each of them says how much water there is"}},
  };
  return type;
}

}  // namespace gelwright::detail
