// The keys of what test cups have taught about a mix.
#include "read/keys.hpp"

namespace gelwright::detail {

namespace {

/// Far beyond what any cup can teach; log10 and pH.
constexpr Bounds shift_bounds{-10, 10, false};
constexpr Bounds covariance_bounds{-100, 100, false};

}  // namespace

const ObjectType& learned_gum_keys() {
  static const ObjectType type{
      .id = "learned_gum",
      .what = "What the cups say if the mix holds one of the gums it may hold.",
      .keys = {{.name = "weight",
                .what = "chance of this gum after the cups",
                .unit = "1",
                .bounds = {0, 1, true},
                .otherwise = 1.0,
                .example = "0.55"},
               {.name = "shifts",
                .shape = Shape::numbers,
                .what = "strength (log10), pH it sets at, calcium (log10) and viscosity (log10)",
                .more = "four numbers",
                .bounds = shift_bounds,
                .needed = true,
                .example = "[0.54, 0.32, 0, -0.24]",
                .never_empty = true},
               {.name = "covariance",
                .shape = Shape::numbers,
                .what = "of the four shifts, row by row, each from its diagonal on",
                .more = "ten numbers",
                .bounds = covariance_bounds,
                .needed = true,
                .example = "[0.29, -0.1, 0, 0, 0.04, 0, 0, 0.06, 0, 0.04]",
                .never_empty = true}},
  };
  return type;
}

const ObjectType& learned_keys() {
  static const ObjectType type{
      .id = "learned",
      .what =
          "What test cups of the mix have taught the gel model, as the `fit` command writes it. "
          "Not meant to be written by hand.",
      .keys = {{.name = "mix",
                .shape = Shape::text,
                .what = "whose cups they were",
                .more = "counts only for a mix of that name",
                .needed = true,
                .example = R"("fell mix")"},
               {.name = "model",
                .shape = Shape::text,
                .what = "version of the gel model they were read with",
                .more = "of another version nothing is used, and the sheet says so",
                .needed = true,
                .example = R"("gel-1a2b3c4d")"},
               {.name = "bench",
                .shape = Shape::text,
                .what = "the sheet of readings",
                .example = R"("tarn-thick-pouch.bench.csv")"},
               {.name = "read_on",
                .shape = Shape::text,
                .what = "the day they were read",
                .example = R"("2026-11-25")"},
               {.name = "cups",
                .what = "how many there were",
                .unit = "1",
                .bounds = {1, 1e6, false},
                .whole = true,
                .needed = true,
                .example = "7"},
               {.name = "seen",
                .shape = Shape::texts,
                .what = "what was seen, a cup each",
                .example = R"(["0.3 g acid fell", "0.4 g acid held"])"},
               {.name = "gums",
                .shape = Shape::objects,
                .what = "what they taught, for each gum the mix may hold",
                .needed = true,
                .object = learned_gum_keys,
                .never_empty = true}},
  };
  return type;
}

}  // namespace gelwright::detail
