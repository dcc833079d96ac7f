// The keys that say how the batch is made: what is done, how many servings, and the scales.
#include "gelwright/recipe.hpp"
#include "read/keys.hpp"
#include "read/recipe_1.hpp"

namespace gelwright::detail {

namespace {

constexpr Word dispersals[] = {
    word("with_sugar", Dispersal::with_sugar, "blended with 5 to 10 times its mass of sugar"),
    word("dry", Dispersal::dry, "straight into the water"),
    word("in_mix", Dispersal::in_mix, "already in a bought mix"),
};
constexpr Word acid_deliveries[] = {
    word("poured", How::poured, "poured at once"),
    word("under_blade", How::under_blade, "in a thin stream while the blade runs"),
    word("slow", How::slow, "released over hours"),
};
constexpr Word ph_methods[] = {word("meter", PhMethod::meter), word("strips", PhMethod::strips)};
constexpr Word acts[] = {
    word("add", Act::add, "something goes in"),
    word("heat", Act::heat),
    word("cool", Act::cool),
    word("rest", Act::rest, "it stands"),
    word("fill", Act::fill, "into pouches or bottles"),
};
constexpr Word hows[] = {
    word("under_blade", How::under_blade, "into a running blender; acid in a thin stream"),
    word("stirred", How::stirred, "by hand; also of cooling"),
    word("shaken", How::shaken, "in a closed bottle"),
    word("preblended", How::preblended, "a gum, dry-mixed with 5 to 10 times its mass of sugar"),
    word("dry", How::dry, "a gum alone, strewn onto the liquid"),
    word("poured", How::poured, "acid or calcium salt, at once"),
    word("slow", How::slow, "acid or calcium salt, drop by drop or released over hours"),
    word("still", How::still, "left alone, only of cooling"),
};
constexpr Bounds kitchen_c{0, 130, false};
constexpr Bounds rest_hours_bounds{0, 240, false};

}  // namespace

const ObjectType& process_keys() {
  static const ObjectType type{
      .id = "process",
      .what = "What is done, as recipe-1 says it.",
      .keys =
          {
              {.name = "gum_dispersed",
               .shape = Shape::word,
               .what = "how the gum meets the water",
               .aloud = true,
               .otherwise = "with_sugar",
               .example = R"("in_mix")",
               .words = dispersals},
              {.name = "gum_before_sugar",
               .shape = Shape::boolean,
               .what = "whether the gum swells in the water before the bulk of the sugar goes in",
               .aloud = true,
               .otherwise = true,
               .example = "false"},
              {.name = "heated_to_c",
               .what = "hottest the gum gets",
               .unit = "°C",
               .bounds = kitchen_c,
               .left_out = "not heated",
               .example = "85"},
              {.name = "acid_added",
               .shape = Shape::word,
               .what = "how the acid goes in",
               .aloud = true,
               .otherwise = "poured",
               .example = R"("under_blade")",
               .words = acid_deliveries},
              {.name = "rest_hours",
               .what = "time between mixing and filling or eating",
               .unit = "h",
               .bounds = rest_hours_bounds,
               .left_out = "12 where there is gum or glucono delta-lactone, which is then printed",
               .example = "12"},
              {.name = "measured_ph",
               .what = "a pH reading on the finished batch",
               .unit = "pH",
               .bounds = {0, 14, false},
               .example = "3.6"},
              {.name = "measured_with",
               .shape = Shape::word,
               .what = "how that pH was read",
               .otherwise = "meter",
               .example = R"("strips")",
               .words = ph_methods},
          },
  };
  return type;
}

const ObjectType& step_keys() {
  static const ObjectType type{
      .id = "step",
      .what = "One step of the work.",
      .keys =
          {
              {.name = "do",
               .shape = Shape::word,
               .what = "what is done",
               .needed = true,
               .example = R"("add")",
               .words = acts},
              {.name = "what",
               .shape = Shape::additions,
               .what = "what goes in: names of `solids`, `\"acid\"`, `\"calcium\"`, `\"water\"`",
               .more = "water that no step adds is there from the start",
               .left_out = "needed to `add`",
               .example = R"(["fructose"])",
               .object = addition_keys,
               .never_empty = true},
              {.name = "into",
               .shape = Shape::text,
               .what = "what it goes into: `\"water\"` for plain water, or the name of something "
                       "that went in before",
               .more = "refused where that is not so at this step",
               .left_out = "whatever is there by then",
               .example = R"("water")"},
              {.name = "how",
               .shape = Shape::word,
               .what = "how it goes in, or how it cools",
               .left_out = "what is usual for the form, which is then printed; cooling `\"still\"`",
               .example = R"("under_blade")",
               .words = hows},
              {.name = "minutes",
               .what = "how long that takes",
               .more = "for the procedure; what counts for the gel is the hours of rest",
               .unit = "min",
               .bounds = {0, 1440, true},
               .example = "3"},
              {.name = "to_c",
               .what = "temperature to reach",
               .unit = "°C",
               .bounds = kitchen_c,
               .left_out = "needed to `heat` and to `cool`",
               .example = "85"},
              {.name = "hours",
               .what = "how long it rests",
               .unit = "h",
               .bounds = rest_hours_bounds,
               .left_out = "needed to `rest`",
               .example = "12"},
              {.name = "at_c",
               .what = "temperature of the place where it rests",
               .more = "5 is a fridge",
               .unit = "°C",
               .bounds = {0, 100, false},
               .otherwise = 5.0,
               .example = "20"},
              {.name = "open",
               .shape = Shape::boolean,
               .what = "whether it stands open until nothing fizzes any more",
               .more = "after acid and bicarbonate are in and before it is filled: then no gas is "
                       "left to burst a pouch",
               .left_out = "no",
               .example = "true"},
          },
      .variants = {{"add", {"what"}, {"into", "how", "minutes"}},
                   {"heat", {"to_c"}, {"minutes"}},
                   {"cool", {"to_c"}, {"how", "minutes"}},
                   {"rest", {"hours"}, {"at_c", "open"}},
                   {"fill", {}}},
  };
  return type;
}

const ObjectType& addition_keys() {
  static const ObjectType type{
      .id = "addition",
      .what = "A part of one ingredient that goes in; the rest of it goes in at another step.",
      .keys = {{.name = "ingredient",
                .shape = Shape::text,
                .what = "one of the `solids`, or `\"water\"`",
                .needed = true,
                .example = R"("fructose")"},
               {.name = "share",
                .what = "how much of it",
                .more = "all shares of one ingredient together are 1",
                .unit = "1",
                .bounds = {0, 1, true},
                .otherwise = 1.0,
                .example = "0.25"}},
  };
  return type;
}

const ObjectType& reading_keys() {
  static const ObjectType type{
      .id = "reading",
      .what = "What was measured on the finished batch.",
      .keys = {{.name = "ph",
                .what = "the pH",
                .unit = "pH",
                .bounds = {0, 14, false},
                .needed = true,
                .example = "3.6"},
               {.name = "with",
                .shape = Shape::word,
                .what = "what it was read with",
                .otherwise = "meter",
                .example = R"("strips")",
                .words = ph_methods}},
  };
  return type;
}

const ObjectType& batch_keys() {
  static const ObjectType type{
      .id = "batch",
      .what = "How many servings, and what they are weighed on.",
      .keys =
          {
              {.name = "servings",
               .what = "servings to make",
               .bounds = {1, 100000, false},
               .whole = true,
               .otherwise = 1.0,
               .example = "10"},
              {.name = "loss_percent",
               .what = "what stays on bowl and blade",
               .more = "that much more is made",
               .unit = "%",
               .bounds = {0, 90, false},
               .otherwise = 0.0,
               .example = "2"},
              {.name = "bowl_g",
               .what = "mass of the empty bowl or jug on the scale",
               .more = "it uses up capacity, so it is below the largest one",
               .unit = "g",
               .bounds = {0, mass_bounds.at_most, false},
               .otherwise = 0.0,
               .example = "480"},
              {.name = "headroom_percent",
               .what = "room for foam in the vessel",
               .unit = "%",
               .bounds = {0, 90, false},
               .otherwise = 20.0,
               .example = "25"},
              {.name = "vessel",
               .shape = Shape::text,
               .what = "the name of a vessel of the kitchen",
               .more = "in place of `bowl_g` and `vessel_ml`",
               .example = R"("blender jug")"},
              {.name = "vessel_ml",
               .what = "volume of the vessel",
               .unit = "mL",
               .bounds = {0, 1e9, true},
               .left_out = "not checked",
               .example = "1200"},
              {.name = "dose_tolerance_percent",
               .what = "largest weighing error a line may carry",
               .unit = "%",
               .bounds = {0, 50, true},
               .otherwise = 5.0,
               .example = "2"},
              {.name = "round_water_to_g",
               .what = "what the batch's water is rounded to a multiple of",
               .more = "the sheet prints what that does",
               .unit = "g",
               .bounds = mass_bounds,
               .left_out = "exact",
               .example = "10"},
              {.name = "scales",
               .shape = Shape::additions,
               .what = "the scales at hand, each with its own name",
               .more = "one of the kitchen by its name alone",
               .left_out = "those of the kitchen; without one exact masses",
               .example = R"([{"name": "pocket", "readability_g": 0.01, "capacity_g": 200}])",
               .object = scale_keys},
          },
  };
  return type;
}

const ObjectType& scale_keys() {
  static const ObjectType type{
      .id = "scale",
      .what = "One scale.",
      .keys = {{.name = "name",
                .shape = Shape::text,
                .what = "what you call it",
                .more = "no two alike",
                .needed = true,
                .example = R"("pocket")"},
               {.name = "readability_g",
                .what = "smallest step of the display",
                .unit = "g",
                .bounds = {1e-6, 1000, false},
                .needed = true,
                .example = "0.01"},
               {.name = "capacity_g",
                .what = "the most it can weigh",
                .more = "above the readability",
                .unit = "g",
                .bounds = mass_bounds,
                .needed = true,
                .example = "200"},
               {.name = "repeatability_g",
                .what = "standard deviation of repeated readings, if measured",
                .unit = "g",
                .bounds = {0, 1000, false},
                .left_out = "one step of the display",
                .example = "0.01"}},
  };
  return type;
}

}  // namespace gelwright::detail
