// The keys of an ingredient a document defines.
#include "read/keys.hpp"

namespace gelwright::detail {

namespace {

constexpr Word kinds[] = {
    word("mix", Kind::mix),
    word("syrup", Kind::syrup),
    word("sugar", Kind::sugar),
    word("gum", Kind::gum),
    word("salt", Kind::salt),
    word("acid", Kind::acid),
    word("calcium_salt", Kind::calcium_salt),
};
constexpr Kind gum_kinds[] = {Kind::gum};
constexpr Bounds undeclared_bounds{0, 0.2, false};

}  // namespace

const ObjectType& ingredient_keys() {
  static const ObjectType type{
      .id = "ingredient",
      .what =
          "An ingredient the document describes itself. What is not known is left out and "
          "never invented.",
      .keys =
          {
              {.name = "kind",
               .shape = Shape::word,
               .what = "what it is",
               .more = "decides its place in the working order and where it may be used",
               .needed = true,
               .example = R"("mix")",
               .words = kinds},
              {.name = "note",
               .shape = Shape::text,
               .what = "where the figures come from",
               .example = R"("off its label")"},
              {.name = "contains",
               .shape = Shape::objects,
               .what = "what is known of its make-up",
               .left_out = "nothing",
               .object = part_keys},
              {.name = "water_fraction",
               .what = "water, besides the moisture of what it contains",
               .unit = "g in 1 g",
               .bounds = {0, 1, false},
               .otherwise = 0.0,
               .example = "0.2"},
              {.name = "label",
               .shape = Shape::object,
               .what = "the nutrition label, as printed",
               .object = label_keys},
              {.name = "guluronate_share",
               .what = "guluronate share of the alginate it contains, as on a seller's sheet",
               .unit = "1",
               .bounds = {0, 1, true},
               .left_out = "the built-in middle value",
               .example = "0.62"},
              {.name = "degree_of_esterification",
               .what = "degree of esterification of the HM pectin it contains",
               .unit = "1",
               .bounds = {0, 0.99, true},
               .left_out = "the built-in middle value",
               .example = "0.72"},
              {.name = "buffer",
               .shape = Shape::object,
               .what = "what it takes up in acid, as the `fit` command finds it",
               .object = buffer_keys},
              {.name = "undeclared_gum",
               .shape = Shape::object,
               .what = "a gum the pack names without saying how much",
               .object = undeclared_gum_keys},
              {.name = "allergens",
               .shape = Shape::texts,
               .what = "allergens, as printed on the pack",
               .example = R"(["sulphites"])"},
          },
      .rules = {{RuleKind::at_least_one,
                 {"label", "contains", "water_fraction"},
                 "nothing says what this ingredient is made of",
                 {}}},
  };
  return type;
}

const ObjectType& part_keys() {
  static const ObjectType type{
      .id = "part",
      .what = "One part of an ingredient.",
      .keys = {{.name = "ingredient",
                .shape = Shape::ingredient,
                .what = "what it is: built in, or from `define`",
                .needed = true,
                .example = R"("sucrose")"},
               {.name = "fraction",
                .what = "how much of it is in the whole",
                .more = "all parts and the water together at most 1",
                .unit = "g in 1 g",
                .bounds = {0, 1, true},
                .needed = true,
                .example = "0.6"}},
  };
  return type;
}

const ObjectType& label_keys() {
  static const ObjectType type{
      .id = "label",
      .what = "The nutrition label, its figures as printed.",
      .keys =
          {
              {.name = "per_g",
               .what = "mass the figures are for: a portion, or 100",
               .unit = "g",
               .bounds = {0.1, 1e6, false},
               .needed = true,
               .example = "72"},
              {.name = "carbohydrate_g",
               .what = "carbohydrate without fibre",
               .unit = "g",
               .needed = true,
               .example = "68",
               .most_of = "per_g"},
              {.name = "sugars_g",
               .what = "of which sugars",
               .more = "at most the carbohydrate",
               .unit = "g",
               .example = "31",
               .most_of = "per_g"},
              {.name = "fibre_g",
               .what = "fibre",
               .unit = "g",
               .example = "0.8",
               .most_of = "per_g"},
              {.name = "sodium_mg",
               .what = "sodium",
               .more = "this or `salt_g`",
               .unit = "mg",
               .example = "250",
               .most_of = "per_g",
               .most_times = 400},
              {.name = "salt_g",
               .what = "salt as printed, 2.5 × sodium",
               .more = "this or `sodium_mg`",
               .unit = "g",
               .example = "0.6",
               .most_of = "per_g"},
              {.name = "potassium_mg",
               .what = "potassium",
               .unit = "mg",
               .example = "40",
               .most_of = "per_g",
               .most_times = 500},
              {.name = "calcium_mg",
               .what = "calcium",
               .unit = "mg",
               .example = "10",
               .most_of = "per_g",
               .most_times = 400},
              {.name = "caffeine_mg",
               .what = "caffeine",
               .more = "at most 20 mg in each gram",
               .unit = "mg",
               .example = "75",
               .most_of = "per_g",
               .most_times = 1000},
          },
      .rules = {{RuleKind::at_most_one, {"sodium_mg", "salt_g"}, {}, "sodium is given twice"}},
  };
  return type;
}

const ObjectType& buffer_keys() {
  static const ObjectType type{
      .id = "buffer",
      .what = "What an ingredient takes up in acid, found at the bench by the `fit` command.",
      .keys = {{.name = "carboxylate_mmol_per_g",
                .shape = Shape::measured,
                .what = "sites that take up acid",
                .unit = "mmol in 1 g",
                .bounds = {0, 10, false},
                .needed = true,
                .example = R"({"value": 0.11, "sd": 0.02})"},
               {.name = "pka",
                .what = "their pKa",
                .more = "all buffers of one recipe must agree",
                .unit = "1",
                .bounds = {1, 12, false},
                .needed = true,
                .example = "4.2"},
               {.name = "neutralised_fraction",
                .what = "part of them that is sold as a salt",
                .unit = "1",
                .bounds = {0, 1, false},
                .aloud = true,
                .otherwise = 1.0,
                .example = "1"}},
  };
  return type;
}

const ObjectType& undeclared_gum_keys() {
  static const ObjectType type{
      .id = "undeclared_gum",
      .what =
          "A gum the pack names without saying how much: the plausible band. The sheet shows "
          "the outlook at its middle and both ends.",
      .keys = {{.name = "ingredient",
                .shape = Shape::ingredient,
                .what = "the gum, built in or defined with `\"kind\": \"gum\"`",
                .needed = true,
                .example = R"("sodium alginate")",
                .kinds = gum_kinds},
               {.name = "fraction_at_least",
                .what = "lower end of the band",
                .unit = "g in 1 g",
                .bounds = undeclared_bounds,
                .needed = true,
                .example = "0.006"},
               {.name = "fraction_at_most",
                .what = "upper end of the band",
                .unit = "g in 1 g",
                .bounds = {0, undeclared_bounds.at_most, true},
                .needed = true,
                .example = "0.014"}},
  };
  return type;
}

}  // namespace gelwright::detail
