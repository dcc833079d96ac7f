// The keys that say how the batch is made: what is done, how many servings, and the scales.
#include "gelwright/recipe.hpp"
#include "read/keys.hpp"

namespace gelwright::detail {

namespace {

constexpr Word dispersals[] = {
    word("with_sugar", Dispersal::with_sugar, "blended with 5 to 10 times its mass of sugar"),
    word("dry", Dispersal::dry, "straight into the water"),
    word("in_mix", Dispersal::in_mix, "already in a bought mix"),
};
constexpr Word acid_deliveries[] = {
    word("poured", gel::Acid::poured, "poured at once"),
    word("under_blade", gel::Acid::blade, "in a thin stream while the blade runs"),
    word("slow", gel::Acid::slow, "released over hours"),
};
constexpr Word ph_methods[] = {word("meter", PhMethod::meter), word("strips", PhMethod::strips)};

}  // namespace

const ObjectType& process_keys() {
  static const ObjectType type{
      .id = "process",
      .what = "What is done, as far as the outcome depends on it.",
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
               .bounds = {0, 130, false},
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
               .bounds = {0, 240, false},
               .left_out = "0; with glucono delta-lactone 12, which is then printed",
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
               .shape = Shape::objects,
               .what = "the scales at hand, each with its own name",
               .left_out = "exact masses",
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
