// The keys of a recipe: what one serving is made of, what it costs, what is taken beside it.
#include "gelwright/recipe.hpp"
#include "read/keys.hpp"
#include "read/recipe_1.hpp"

namespace gelwright::detail {

namespace {

constexpr Word formats[] = {word("gelwright/recipe-1", DocumentFormat::recipe_1, "as it was"),
                            word("gelwright/recipe-2", DocumentFormat::recipe_2, "with steps")};
constexpr Word forms[] = {
    word("pouch", Form::pouch, "must set before it is eaten"),
    word("drink", Form::drink, "must pour, and set only in the stomach's acid"),
};
constexpr Word calcium_deliveries[] = {
    word("fast", CalciumDelivery::fast, "a soluble salt all at once"),
    word("slow", CalciumDelivery::slow, "dropwise, or sparingly soluble"),
    word("insoluble_until_acid", CalciumDelivery::insoluble_until_acid,
         "carbonate, citrate or phosphate, dissolved by the acid"),
};
constexpr Word target_gums[] = {
    word("alginate", Gum::alginate),
    word("HM pectin", Gum::hm_pectin),
    word("LM pectin", Gum::lm_pectin),
    word("amidated pectin", Gum::amidated_pectin),
    word("low-acyl gellan", Gum::gellan_low_acyl),
};

constexpr Word texture_words[] = {
    word("pours", gel::Texture::pours, "runs like juice or cream"),
    word("thick", gel::Texture::thick, "syrup, honey"),
    word("smooth flowing gel", gel::Texture::flowing, "like stirred yoghurt"),
    word("soft set", gel::Texture::soft, "keeps a spoon groove"),
    word("firm set", gel::Texture::firm, "stands when turned out"),
    word("hard set", gel::Texture::hard, "resists the spoon"),
};

constexpr Kind solid_kinds[] = {Kind::sugar, Kind::syrup, Kind::gum, Kind::salt};
constexpr Kind acid_kinds[] = {Kind::acid};
constexpr Kind calcium_salt_kinds[] = {Kind::calcium_salt};

constexpr Bounds stock_bounds{0, 60, true};
constexpr Bounds price_bounds{0, 1e9, false};
constexpr Bounds ph_bounds{0, 14, false};

std::vector<std::string> built_in_names() {
  std::vector<std::string> names;
  for (const Ingredient& each : builtin_ingredients()) names.push_back(each.name);
  return names;
}

std::vector<std::string> built_in_waters() {
  return {std::string(demineralised_name)};
}

}  // namespace

const ObjectType& recipe_keys() {
  constexpr std::string_view in_batch = "how many are made, and with what, stands under \"batch\"";
  constexpr std::string_view one_of_solids = "what is weighed stands in one list";
  constexpr std::string_view from_solids = "the carbohydrate follows from what is weighed";
  const std::string in_solids = "state the \"solids\" with their \"mass_g\"";
  static const ObjectType type{
      .id = "recipe",
      .what =
          "One serving of a home-made carbohydrate gel or gelling drink, and how to make many. "
          "Every quantity carries its unit in its key. docs/recipe.md explains each key with "
          "an example.",
      .keys =
          {
              {.name = "$schema",
               .shape = Shape::text,
               .what = "where an editor finds the schema",
               .more = "not used otherwise",
               .example = R"("../docs/recipe.schema.json")"},
              {.name = "format",
               .shape = Shape::word,
               .what = "which kind of document this is",
               .needed = true,
               .example = R"("gelwright/recipe-2")",
               .words = formats},
              {.name = "name",
               .shape = Shape::text,
               .what = "what the recipe is called",
               .more = "stands on top of the sheet; one line, at most 1000 characters, as every "
                       "text",
               .needed = true,
               .example = R"("Tarn Loop thick pouch")"},
              {.name = "note",
               .shape = Shape::text,
               .what = "anything worth remembering",
               .more = "printed under the name",
               .example = R"("Club batch for the long loop.")"},
              {.name = "kitchen",
               .shape = Shape::text,
               .what = "the file with what recipes share: waters, mixes, scales, vessels, prices",
               .more = "in this recipe's own folder or below it; see docs/kitchen.md",
               .example = R"("kitchen.json")"},
              {.name = "form",
               .shape = Shape::word,
               .what = "what the batch has to do",
               .needed = true,
               .example = R"("pouch")",
               .words = forms},
              {.name = "define",
               .shape = Shape::named,
               .what = "ingredients that are not built in, by a name of your own",
               .object = ingredient_keys,
               .taken = built_in_names},
              {.name = "solids",
               .shape = Shape::objects,
               .what = "what one serving is made of, apart from water, acid and calcium salt",
               .more = "masses as weighed",
               .needed = true,
               .example = R"([{"ingredient": "fructose", "mass_g": 40}])",
               .object = solid_keys,
               .never_empty = true},
              {.name = "water",
               .shape = Shape::object,
               .what = "how much water goes into one serving",
               .needed = true,
               .example = R"({"fraction_of_total": 0.333})",
               .object = water_amount_keys},
              {.name = "acid",
               .shape = Shape::object,
               .what = "the food acid of one serving",
               .object = acid_keys},
              {.name = "calcium",
               .shape = Shape::object,
               .what = "the calcium salt of one serving, if one is added",
               .object = calcium_keys},
              {.name = "tap",
               .shape = Shape::water,
               .what = "the water used: a report, a blend, or the name of one of `waters`, here "
                       "or in the kitchen",
               .left_out = "demineralised water"},
              {.name = "waters",
               .shape = Shape::named,
               .what = "waters by name, for `tap` and for blends",
               .more = "`\"demineralised water\"` is always there",
               .taken = built_in_waters},
              {.name = "target_texture",
               .shape = Shape::word,
               .what = "the texture that is wanted, for the commands that look for a dose",
               .example = R"("soft set")",
               .words = texture_words},
              {.name = "limits",
               .shape = Shape::object,
               .what = "what a packet text or your own bench allows",
               .more = "a broken limit becomes a flag",
               .object = limits_keys},
              {.name = "process",
               .shape = Shape::objects,
               .what = "what is done, step by step, in the order you do it",
               .left_out = "the usual steps of the form, which are then printed",
               .object = step_keys,
               .never_empty = true,
               .only = DocumentFormat::recipe_2},
              {.name = "process",
               .shape = Shape::object,
               .what = "what is done, as far as the outcome depends on it",
               .object = process_keys,
               .only = DocumentFormat::recipe_1},
              {.name = "eaten_at_c",
               .what = "how warm it is where it is eaten",
               .unit = "°C",
               .bounds = {0, 60, false},
               .left_out = "15, which is then printed",
               .example = "10",
               .only = DocumentFormat::recipe_2},
              {.name = "measured",
               .shape = Shape::object,
               .what = "what was measured on the finished batch",
               .object = reading_keys,
               .only = DocumentFormat::recipe_2},
              {.name = "batch",
               .shape = Shape::object,
               .what = "how many servings, and what they are weighed on",
               .object = batch_keys},
              {.name = "prices",
               .shape = Shape::object,
               .what = "what the packs cost",
               .object = prices_keys},
              {.name = "compare_with",
               .shape = Shape::object,
               .what = "what would be bought instead",
               .more = "needs `prices`",
               .object = compare_with_keys},
              {.name = "pre_dosed",
               .shape = Shape::objects,
               .what = "what is taken with a serving and counted in pieces, never weighed",
               .more = "the only way to add caffeine",
               .object = pre_dosed_keys},
              {.name = "avoid",
               .shape = Shape::texts,
               .what = "allergens or intolerances of the eater",
               .more = "in the words of the packs' `allergens`",
               .example = R"(["gluten"])"},
          },
      .rules = {{RuleKind::needs,
                 {"compare_with", "prices", "kitchen"},
                 "a comparison needs the recipe's own prices",
                 {},
                 "add \"prices\" with a \"currency\" and \"packs\""}},
      .slips = {{"servings", in_batch, R"(write "batch": {"servings": 10})"},
                {"loss_percent", in_batch, R"(write "batch": {"loss_percent": 2})"},
                {"vessel_ml", in_batch, R"(write "batch": {"vessel_ml": 2000})"},
                {"scales", in_batch, R"(write "batch": {"scales": [...]})"},
                {"ingredients", "what one serving is made of has another name", "write \"solids\"",
                 "solids"},
                {"title", "what the recipe is called has another name", "write \"name\"", "name"},
                {"notes", "one text, not several", "write \"note\""},
                {"carbs_g", from_solids, in_solids},
                {"carbohydrate_g", from_solids, in_solids},
                {"gum", one_of_solids, "put it into \"solids\""},
                {"sugar", one_of_solids, "put it into \"solids\""},
                {"salt", one_of_solids, "put it into \"solids\""},
                {"water_g", "how much water has a place of its own",
                 R"(write "water": {"mass_g": 48})", "water"},
                {"acid_g", "the acid has a place of its own",
                 R"(write "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.36})"},
                {"caffeine_mg", "caffeine is never weighed", "list it under \"pre_dosed\""}},
  };
  return type;
}

const ObjectType& solid_keys() {
  constexpr std::string_view in_grams = "masses are in grams";
  constexpr std::string_view weighed = "what it delivers follows from what it is";
  static const ObjectType type{
      .id = "solid",
      .what = "One solid.",
      .keys = {{.name = "ingredient",
                .shape = Shape::ingredient,
                .what = "what it is: a built-in name, or one from `define`",
                .more = "the `ingredients` command lists them; `\"maltodextrin DE N\"` exists for "
                        "any N from 3 to 20, `\"glucose syrup DE N\"` from 20 to 98. Food acids "
                        "and calcium salts have their own places",
                .needed = true,
                .example = R"("fructose")",
                .kinds = solid_kinds},
               {.name = "mass_g",
                .shape = Shape::measured,
                .what = "mass in one serving, as weighed",
                .unit = "g",
                .bounds = mass_bounds,
                .needed = true,
                .example = "19"}},
      .slips = {{"mass_mg", in_grams, "write \"mass_g\" and divide by 1000", "mass_g"},
                {"mass_kg", in_grams, "write \"mass_g\" and multiply by 1000", "mass_g"},
                {"mass", in_grams, "write \"mass_g\"", "mass_g"},
                {"grams", in_grams, "write \"mass_g\"", "mass_g"},
                {"g", in_grams, "write \"mass_g\"", "mass_g"},
                {"name", "what it is has another name", "write \"ingredient\"", "ingredient"},
                {"carbs_g", weighed, "write \"mass_g\": the mass as weighed", "mass_g"},
                {"carbohydrate_g", weighed, "write \"mass_g\": the mass as weighed", "mass_g"}},
  };
  return type;
}

const ObjectType& water_amount_keys() {
  constexpr std::string_view ambiguous = "does not say a share of what";
  const std::string say_which =
      "write {\"mass_g\": 48} for grams in one serving, {\"fraction_of_total\": 0.333} for 33.3 g "
      "in 100 g of gel, or {\"per_g_solids\": 0.50} for 0.50 g to each g of solids";
  static const ObjectType type{
      .id = "water_amount",
      .what =
          "How much water in one serving, said in exactly one of four ways. A bare \"50 %\" "
          "is not accepted: 50 % of the solids is 33.3 % of the gel.",
      .keys = {{.name = "fraction_of_total",
                .what = "water in 1 g of solids, water, acid and calcium salt together",
                .more = "0.333 is 33.3 g in 100 g",
                .unit = "g per g",
                .bounds = {0, 0.999, true},
                .example = "0.375"},
               {.name = "per_g_solids",
                .what = "water for each gram of solids",
                .more = "0.60 is 43.2 g to 72 g of solids",
                .unit = "g per g",
                .bounds = {0, 1000, true},
                .example = "0.6"},
               {.name = "mass_g",
                .what = "water in one serving",
                .unit = "g",
                .bounds = mass_bounds,
                .example = "48"},
               {.name = "solids_g",
                .what = "solids, acid and calcium salt together in `total_g`; the rest is water",
                .more = "25 in 40 is a water fraction of 0.375",
                .unit = "g",
                .bounds = mass_bounds,
                .example = "25",
                .most_of = "total_g",
                .most_times = 0.9999},
               {.name = "total_g",
                .what = "what `solids_g` is part of: any amount, not only a serving",
                .unit = "g",
                .bounds = mass_bounds,
                .example = "40"}},
      .rules = {{RuleKind::exactly_one,
                 {"fraction_of_total", "per_g_solids", "mass_g", "solids_g"},
                 "nothing says how much water",
                 "the water is given more than one way"},
                {RuleKind::needs,
                 {"solids_g", "total_g"},
                 "does not say in how much",
                 {},
                 "add \"total_g\", as in 25 g solids in 40 g"},
                {RuleKind::needs,
                 {"total_g", "solids_g"},
                 "does not say how much of it is solids",
                 {},
                 "add \"solids_g\", as in 25 g solids in 40 g"}},
      .slips = {{"percent", ambiguous, say_which},
                {"fraction", ambiguous, say_which},
                {"ratio", ambiguous, say_which},
                {"water_percent", ambiguous, say_which}},
  };
  return type;
}

const ObjectType& acid_keys() {
  static const ObjectType type{
      .id = "acid",
      .what = "The food acid of one serving, dosed in exactly one of three ways.",
      .keys = {{.name = "ingredient",
                .shape = Shape::ingredient,
                .what = "a food acid, built in or defined with `\"kind\": \"acid\"`",
                .needed = true,
                .example = R"("citric acid anhydrous")",
                .kinds = acid_kinds},
               {.name = "mass_g",
                .shape = Shape::measured,
                .what = "mass in one serving, as weighed",
                .unit = "g",
                .bounds = mass_bounds,
                .example = "0.36"},
               {.name = "additions_g",
                .shape = Shape::numbers,
                .what = "the pinches as made at the bench",
                .more = "their **sum** is the dose",
                .unit = "g",
                .bounds = mass_bounds,
                .example = "[0.18, 0.18]",
                .never_empty = true},
               {.name = "target_ph",
                .what = "the pH the water phase shall reach",
                .more = "the dose is computed",
                .unit = "pH",
                .bounds = {1.5, 9, false},
                .example = "3.7"},
               {.name = "stock_percent",
                .what = "acid in 100 g of stock solution, if dosed as one",
                .more = "its water is taken off the water to add",
                .unit = "g in 100 g",
                .bounds = stock_bounds,
                .left_out = "neat, or a stock the sheet chooses where the scales need it",
                .example = "10"}},
      .rules = {{RuleKind::exactly_one,
                 {"mass_g", "additions_g", "target_ph"},
                 "nothing says how much acid",
                 "the acid is given more than one way"}},
  };
  return type;
}

const ObjectType& calcium_keys() {
  static const ObjectType type{
      .id = "calcium",
      .what = "A calcium salt, if one is added.",
      .keys = {{.name = "ingredient",
                .shape = Shape::ingredient,
                .what = "a calcium salt, built in or defined with `\"kind\": \"calcium_salt\"`",
                .needed = true,
                .example = R"("calcium lactate pentahydrate")",
                .kinds = calcium_salt_kinds},
               {.name = "mass_g",
                .shape = Shape::measured,
                .what = "mass in one serving, as weighed",
                .unit = "g",
                .bounds = mass_bounds,
                .example = "0.2"},
               {.name = "target_ratio",
                .what = "R2 to reach: 2 × calcium ÷ carboxylate of the gums, by moles",
                .more = "the tap's calcium counted; the dose is computed",
                .unit = "1",
                .bounds = {0, 5, true},
                .example = "0.5"},
               {.name = "gum",
                .shape = Shape::word,
                .what = "the gum the ratio is meant for",
                .more = "it must be among the solids; only with `target_ratio`",
                .left_out = "low-acyl gellan where no other gum binds calcium, else alginate",
                .example = R"("LM pectin")",
                .words = target_gums},
               {.name = "when",
                .shape = Shape::word,
                .what = "how calcium meets the gum",
                .more = "recipe-2 says it in the step that adds it",
                .needed = true,
                .example = R"("slow")",
                .words = calcium_deliveries,
                .only = DocumentFormat::recipe_1},
               {.name = "stock_percent",
                .what = "salt in 100 g of stock solution, if dosed as one",
                .more = "its water is taken off the water to add",
                .unit = "g in 100 g",
                .bounds = stock_bounds,
                .left_out = "neat, or a stock the sheet chooses where the scales need it",
                .example = "4"}},
      .rules = {{RuleKind::exactly_one,
                 {"mass_g", "target_ratio"},
                 "nothing says how much of the calcium salt",
                 "the calcium salt is given more than one way"},
                {RuleKind::needs,
                 {"gum", "target_ratio"},
                 "belongs to a \"target_ratio\"",
                 {},
                 "remove it"}},
  };
  return type;
}

const ObjectType& prices_keys() {
  static const ObjectType type{
      .id = "prices",
      .what = "What the packs cost.",
      .keys = {{.name = "currency",
                .shape = Shape::text,
                .what = "name or sign of the currency",
                .more = "printed behind amounts",
                .needed = true,
                .example = R"("GBP")"},
               {.name = "packs",
                .shape = Shape::objects,
                .what = "the packs, one for each ingredient with a price",
                .object = pack_keys}},
  };
  return type;
}

const ObjectType& pack_keys() {
  static const ObjectType type{
      .id = "pack",
      .what = "One pack.",
      .keys = {{.name = "ingredient",
                .shape = Shape::text,
                .what = "an ingredient, each once; in a recipe one it uses",
                .needed = true,
                .example = R"("fructose")"},
               {.name = "pack_g",
                .what = "mass of a pack",
                .unit = "g",
                .bounds = mass_bounds,
                .needed = true,
                .example = "1000"},
               {.name = "price",
                .what = "price of a pack",
                .unit = "currency",
                .bounds = price_bounds,
                .needed = true,
                .example = "8.2"}},
  };
  return type;
}

const ObjectType& compare_with_keys() {
  static const ObjectType type{
      .id = "compare_with",
      .what = "What would be bought instead; needs \"prices\".",
      .keys = {{.name = "name",
                .shape = Shape::text,
                .what = "what it is",
                .needed = true,
                .example = R"("ready-made pouches")"},
               {.name = "price",
                .what = "price of one",
                .unit = "currency",
                .bounds = {0, price_bounds.at_most, true},
                .needed = true,
                .example = "2.15"},
               {.name = "carbohydrate_g",
                .what = "carbohydrate in one",
                .unit = "g",
                .bounds = mass_bounds,
                .needed = true,
                .example = "40"}},
      .slips = {{"carbs_g", "what it holds has another name", "write \"carbohydrate_g\"",
                 "carbohydrate_g"}},
  };
  return type;
}

const ObjectType& pre_dosed_keys() {
  constexpr Bounds milligram_bounds{0, 1e5, false};
  static const ObjectType type{
      .id = "pre_dosed",
      .what = "One product that is counted in pieces, never weighed.",
      .keys = {{.name = "name",
                .shape = Shape::text,
                .what = "what it is",
                .needed = true,
                .example = R"("caffeine tablet 50 mg")"},
               {.name = "per_serving",
                .what = "pieces with one serving",
                .bounds = {0, 100, true},
                .needed = true,
                .example = "0.5"},
               {.name = "caffeine_mg",
                .what = "caffeine in one piece",
                .unit = "mg",
                .bounds = milligram_bounds,
                .otherwise = 0.0,
                .example = "50"},
               {.name = "sodium_mg",
                .what = "sodium in one piece",
                .unit = "mg",
                .bounds = milligram_bounds,
                .otherwise = 0.0,
                .example = "100"}},
  };
  return type;
}

namespace {

ObjectType limit(std::string_view id, std::string_view what, std::string_view unit, Bounds bounds,
                 std::string_view low, std::string_view high) {
  return {.id = id,
          .what = what,
          .keys = {{.name = "at_least",
                    .what = "smallest value allowed",
                    .unit = unit,
                    .bounds = bounds,
                    .example = low},
                   {.name = "at_most",
                    .what = "largest value allowed",
                    .unit = unit,
                    .bounds = bounds,
                    .example = high}},
          .rules = {{RuleKind::at_least_one, {"at_least", "at_most"}, "a limit needs a side", {}}}};
}

}  // namespace

const ObjectType& calcium_limit_keys() {
  static const ObjectType type =
      limit("calcium_limit", "Calcium of the water as used. Give one side or both.", "mg/L",
            {0, 2000, false}, "20", "120");
  return type;
}

const ObjectType& ph_limit_keys() {
  static const ObjectType type = limit("ph_limit", "pH of the water phase. Give one side or both.",
                                       "pH", ph_bounds, "3.5", "4.5");
  return type;
}

const ObjectType& limits_keys() {
  static const ObjectType type{
      .id = "limits",
      .what = "What a packet text or your own bench allows; a broken limit becomes a flag.",
      .keys = {{.name = "calcium_mg_per_l",
                .shape = Shape::object,
                .what = "calcium of the water as used: after blending, before any calcium salt",
                .unit = "mg/L",
                .object = calcium_limit_keys},
               {.name = "ph",
                .shape = Shape::object,
                .what = "pH of the water phase",
                .unit = "pH",
                .object = ph_limit_keys}},
  };
  return type;
}

}  // namespace gelwright::detail
