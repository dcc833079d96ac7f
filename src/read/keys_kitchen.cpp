// The keys of a kitchen: what recipes share. Most of its objects are those of a recipe.
#include "read/keys.hpp"

namespace gelwright::detail {

namespace {

constexpr Word formats[] = {{"gelwright/kitchen-1", 0, {}}};

}  // namespace

const ObjectType& kitchen_keys() {
  const auto as_in_recipe = [](std::string_view name, std::string_view more) {
    Key key = *recipe_keys().find(name);
    key.more = more;
    return key;
  };
  static const ObjectType type{
      .id = "kitchen",
      .what =
          "What the recipes of one kitchen share: its waters, bought mixes, scales, vessels "
          "and prices. A recipe names it and says only what is its own. docs/kitchen.md "
          "explains each key with an example.",
      .keys =
          {
              as_in_recipe("$schema", "not used otherwise"),
              {.name = "format",
               .shape = Shape::word,
               .what = "which kind of document this is",
               .needed = true,
               .example = R"("gelwright/kitchen-1")",
               .words = formats},
              {.name = "note",
               .shape = Shape::text,
               .what = "anything worth remembering",
               .more = "not printed",
               .example = R"("Hut kitchen; tap report of last spring.")"},
              as_in_recipe("waters",
                           "a recipe's `tap` names one; `\"demineralised water\"` is "
                           "always there"),
              as_in_recipe("define", "bought mixes above all"),
              {.name = "scales",
               .shape = Shape::objects,
               .what = "the scales at hand, each with its own name",
               .more = "a recipe that says nothing of scales has all of them",
               .object = scale_keys},
              {.name = "vessels",
               .shape = Shape::objects,
               .what = "bowls, jugs and pans, each with its own name",
               .more = "the `vessel` of a recipe's `batch` names one",
               .object = vessel_keys},
              as_in_recipe("prices", "a recipe has those of what it uses"),
              as_in_recipe("compare_with", "needs `prices`"),
              as_in_recipe("avoid", "a recipe can add to it, not take away"),
          },
      .rules = {{RuleKind::needs,
                 {"compare_with", "prices"},
                 "a comparison needs prices",
                 {},
                 "add \"prices\" with a \"currency\" and \"packs\""}},
      .slips = {{"kitchen", "a kitchen leads to no other kitchen", "describe all in this one"},
                {"tap", "a kitchen has several waters, and the recipe says which is its tap",
                 "move it to \"waters\", under a name of its own"}},
  };
  return type;
}

const ObjectType& vessel_keys() {
  static const ObjectType type{
      .id = "vessel",
      .what = "One bowl, jug or pan.",
      .keys = {{.name = "name",
                .shape = Shape::text,
                .what = "what you call it",
                .more = "no two alike",
                .needed = true,
                .example = R"("blender jug")"},
               {.name = "volume_ml",
                .what = "its volume up to the brim",
                .unit = "mL",
                .bounds = {0, 1e9, true},
                .left_out = "not checked",
                .example = "2000"},
               {.name = "mass_g",
                .what = "its mass when empty, as it stands on the scale",
                .unit = "g",
                .bounds = {0, mass_bounds.at_most, false},
                .left_out = "not counted",
                .example = "620"}},
      .rules =
          {{RuleKind::at_least_one, {"volume_ml", "mass_g"}, "nothing is said of the vessel", {}}},
  };
  return type;
}

}  // namespace gelwright::detail
