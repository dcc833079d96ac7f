// The thresholds of flags that are not set rules. Private.
#pragma once

#include <cstddef>

#include "gelwright/elements.hpp"
#include "gelwright/source.hpp"

namespace gelwright {

/// A flag about no ingredient in particular.
inline constexpr std::size_t no_subject = static_cast<std::size_t>(-1);

namespace thresholds {

inline constexpr Datum rows[] = {
    {"flag.calcium-too-low-r2", 0.2, "1", 0, "below it calcium alone sets nothing", "fang-2007",
     Standing::judgement},
    {"flag.alginate-too-high-r2", 1.1, "1", 0, "above it alginate gels weep", "draget-1990",
     Standing::judgement},
    {"flag.pectin-too-high-r2", 0.8, "1", 0, "80 to 90 % of free carboxyl: no even set",
     "lofgren-2007", Standing::confirmed},
    {"flag.fast-calcium-r2", 0.3, "1", 0, "a soluble salt all at once", "judgement",
     Standing::judgement},
    {"flag.gum-after-sugar", 30, "%", 0, "soluble solids in which gum no longer hydrates",
     "common-practice", Standing::common_practice},
    {"flag.gum-clumps", 1, "g per 100 g water", 0, "gum pre-blended with sugar", "common-practice",
     Standing::common_practice},
    {"flag.gum-most", 4, "g per 100 g water", 0, "kitchen blender", "judgement",
     Standing::judgement},
    {"flag.solids-most", 75, "%", 0, "soluble solids that still dissolve at room temperature",
     "judgement", Standing::judgement},
    {"flag.thins-below-ph", 4, "pH", 0, "acid slowly cuts alginate and pectin", "common-practice",
     Standing::common_practice},
    {"flag.maltodextrin-share", 0.4, "1", 0, "of the soluble solids", "judgement",
     Standing::judgement},
    {"flag.acid-most", 1, "mol/kg", 0, "food acid in the water phase", "judgement",
     Standing::judgement},
    {"flag.acidified-food-ph", 4.6, "pH", 0, "equilibrium pH of an acidified food", "cfr-21-114",
     Standing::confirmed},
    {"flag.safe-with-strips-ph", 4.0, "pH", 0, "above it a meter is required", "cfr-21-114",
     Standing::from_memory},
    {"flag.keep-acid", 120, "h", 0, "at most 5 degC, measured pH at most 4.0", "judgement",
     Standing::judgement},
    {"flag.keep", 48, "h", 0, "at most 5 degC", "judgement", Standing::judgement},
    {"flag.keep-low-acid", 12, "h", 0, "at most 5 degC, the same day", "judgement",
     Standing::judgement},
    {"flag.erosive-below-ph", 4, "pH", 0, "tooth enamel", "common-practice",
     Standing::common_practice},
    {"flag.too-sour-below-ph", 2.5, "pH", 0, "sourer than any drink sold", "judgement",
     Standing::judgement},
    {"flag.sodium-serving", 1000, "mg", 0, "half a day's 2 g of sodium in one serving",
     "who-sodium", Standing::from_memory},
    {"flag.hopeless-error", 50, "%", 0, "a dose this uncertain is no dose", "judgement",
     Standing::judgement},
    {"flag.strips-read-to", 0.3, "pH", 0, "95 %, colour strips", "judgement", Standing::judgement},
    {"flag.meter-reads-to", 0.1, "pH", 0, "95 %, meter calibrated at 4 and 7", "judgement",
     Standing::judgement},
    {"flag.caffeine-single", 200, "mg", 0, "healthy adults", "efsa-2015-caffeine",
     Standing::confirmed},
    {"flag.caffeine-day", 400, "mg", 0, "healthy adults, not in pregnancy", "efsa-2015-caffeine",
     Standing::confirmed},
    {"flag.fructose", 25, "g", 0, "fructose not matched by glucose", "judgement",
     Standing::from_memory},
    {"flag.gum-day", 15, "g", 0, "bulk in the gut", "judgement", Standing::judgement},
};

inline constexpr double calcium_too_low_r2 = value_of(rows, "flag.calcium-too-low-r2");
inline constexpr double alginate_too_high_r2 = value_of(rows, "flag.alginate-too-high-r2");
inline constexpr double pectin_too_high_r2 = value_of(rows, "flag.pectin-too-high-r2");
inline constexpr double fast_calcium_r2 = value_of(rows, "flag.fast-calcium-r2");
inline constexpr double gum_after_sugar_percent = value_of(rows, "flag.gum-after-sugar");
inline constexpr double gum_clumps_percent = value_of(rows, "flag.gum-clumps");
inline constexpr double gum_most_percent = value_of(rows, "flag.gum-most");
inline constexpr double solids_most_percent = value_of(rows, "flag.solids-most");
inline constexpr double thins_below_ph = value_of(rows, "flag.thins-below-ph");
inline constexpr double maltodextrin_share = value_of(rows, "flag.maltodextrin-share");
inline constexpr double acid_most_mol_per_kg = value_of(rows, "flag.acid-most");
/// Food acids differ in molar mass; citric acid stands for all in this one comparison.
inline constexpr double acid_g_per_mol = molar_mass_g_per_mol("C6H8O7");
inline constexpr double acidified_food_ph = value_of(rows, "flag.acidified-food-ph");
inline constexpr double safe_with_strips_ph = value_of(rows, "flag.safe-with-strips-ph");
inline constexpr double keep_acid_h = value_of(rows, "flag.keep-acid");
inline constexpr double keep_h = value_of(rows, "flag.keep");
inline constexpr double keep_low_acid_h = value_of(rows, "flag.keep-low-acid");
inline constexpr double erosive_below_ph = value_of(rows, "flag.erosive-below-ph");
inline constexpr double too_sour_below_ph = value_of(rows, "flag.too-sour-below-ph");
inline constexpr double sodium_serving_mg = value_of(rows, "flag.sodium-serving");
inline constexpr double hopeless_error_percent = value_of(rows, "flag.hopeless-error");
inline constexpr double strips_read_to_ph = value_of(rows, "flag.strips-read-to");
inline constexpr double meter_reads_to_ph = value_of(rows, "flag.meter-reads-to");
inline constexpr double caffeine_single_mg = value_of(rows, "flag.caffeine-single");
inline constexpr double caffeine_day_mg = value_of(rows, "flag.caffeine-day");
inline constexpr double fructose_g = value_of(rows, "flag.fructose");
inline constexpr double gum_day_g = value_of(rows, "flag.gum-day");

}  // namespace thresholds
}  // namespace gelwright
