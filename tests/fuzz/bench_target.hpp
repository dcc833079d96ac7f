// Readings from the bench as comma-separated values, and the fit to them.
#pragma once

#include <cmath>
#include <string_view>

#include "fuzz/outcome.hpp"
#include "gelwright/fit.hpp"
#include "gelwright/fit_report.hpp"
#include "gelwright/read.hpp"

namespace gelwright::fuzz {

/// A mix with an unknown buffer, so that there is something to fit.
inline constexpr std::string_view bench_recipe = R"({
  "format": "gelwright/recipe-1", "name": "fuzz", "form": "pouch",
  "define": {"fell mix": {"kind": "mix",
    "label": {"per_g": 72, "carbohydrate_g": 68, "sodium_mg": 250},
    "undeclared_gum": {"ingredient": "sodium alginate", "fraction_at_least": 0.006,
                       "fraction_at_most": 0.014}}},
  "solids": [{"ingredient": "fell mix", "mass_g": 72}],
  "water": {"mass_g": 43.2},
  "tap": {"calcium_mg_per_l": 23, "alkalinity_meq_per_l": 1.1},
  "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.36}})";

inline Fate try_bench(std::string_view text) {
  static const Recipe recipe = read_recipe(bench_recipe, "recipe");
  return fate_of([text] {
    const Bench bench = read_bench(text, "fuzz");
    return prints(fit_report(recipe, bench, fit_bench(recipe, bench, FitOptions{})));
  });
}

}  // namespace gelwright::fuzz
