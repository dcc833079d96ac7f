#include "studies/fit/fit_detail.hpp"

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"fit.sites-lowest", 0, "mmol/g", 0, "physical", "judgement", Standing::judgement},
    {"fit.sites-highest", 5, "mmol/g", 0, "per g as weighed; more than pure alginate has",
     "judgement", Standing::judgement},
    {"fit.pka-lowest", 2, "1", 0, "weaker acids only: a stronger one is no buffer here",
     "judgement", Standing::judgement},
    {"fit.pka-highest", 7, "1", 0, "above it nothing changes in an acid gel", "judgement",
     Standing::judgement},
    {"fit.pka-held", 3.5, "1", 0.5, "where the cups do not tell it: as gum carboxylate",
     "haug-1964", Standing::judgement},
    {"fit.fraction-held", 1, "1", 0, "unless the cups ask for less: sites sold as a salt",
     "judgement", Standing::judgement},
    {"fit.reading-sd.meter", 0.05, "pH", 0, "one reading, meter calibrated at 4 and 7", "judgement",
     Standing::judgement},
    {"fit.reading-sd.strips", 0.3, "pH", 0, "one reading, strips in half units", "judgement",
     Standing::judgement},
    {"fit.reading-sd.relative-uncertainty", 0.35, "1", 0,
     "of the stated sd: worth about four readings", "judgement", Standing::judgement},
    {"fit.pka-half-width-at-most", 0.7, "1", 0, "95 %; wider, and the pKa is held", "judgement",
     Standing::judgement},
    {"fit.extra-parameter-chance", 0.01, "1", 0,
     "that another parameter is taken though there is none", "judgement", Standing::judgement},
    {"fit.condition-at-most", 30, "1", 0, "above it the numbers are good only together",
     "belsley-1980", Standing::from_memory},
    {"fit.readings-for-pka", 4, "1", 0, "pH readings", "judgement", Standing::judgement},
    {"fit.readings-for-fraction", 6, "1", 0, "pH readings", "judgement", Standing::judgement},
    {"fit.readings-wanted", 6, "1", 0, "pH readings", "judgement", Standing::judgement},
    {"fit.outlier-chance", 0.05, "1", 0, "of a false alarm in a whole sheet", "judgement",
     Standing::judgement},
    {"fit.scatter-chance", 0.01, "1", 0, "of a false alarm in a whole sheet", "judgement",
     Standing::judgement},
    {"fit.sheet-tolerance", 0.03, "pH", 0, "the sheet prints two decimals", "judgement",
     Standing::judgement},
    {"fit.untold-over", 0.9, "1", 0, "sd of a shift after the cups over before", "judgement",
     Standing::judgement},
    {"fit.contradict-over", 0.34, "1", 0, "of the cups taken for slips: more are no accident",
     "judgement", Standing::judgement},
    {"sign.ring-weeps", 0.5, "mL", 0, "free liquid per 50 g after 12 h", "common-practice",
     Standing::common_practice},
};

constexpr double held_pka_sd() {
  for (const Datum& row : data)
    if (row.key == "fit.pka-held") return row.uncertainty;
  return 0;
}

constexpr FitConstants constants{
    .lowest_mmol_per_g = value_of(data, "fit.sites-lowest"),
    .highest_mmol_per_g = value_of(data, "fit.sites-highest"),
    .lowest_pka = value_of(data, "fit.pka-lowest"),
    .highest_pka = value_of(data, "fit.pka-highest"),
    .held_pka = value_of(data, "fit.pka-held"),
    .held_pka_sd = held_pka_sd(),
    .held_fraction = value_of(data, "fit.fraction-held"),
    .meter_sd = value_of(data, "fit.reading-sd.meter"),
    .strips_sd = value_of(data, "fit.reading-sd.strips"),
    .sd_relative_uncertainty = value_of(data, "fit.reading-sd.relative-uncertainty"),
    .pka_half_width_at_most = value_of(data, "fit.pka-half-width-at-most"),
    .extra_parameter_chance = value_of(data, "fit.extra-parameter-chance"),
    .condition_at_most = value_of(data, "fit.condition-at-most"),
    .readings_for_pka = value_of(data, "fit.readings-for-pka"),
    .readings_for_fraction = value_of(data, "fit.readings-for-fraction"),
    .readings_wanted = value_of(data, "fit.readings-wanted"),
    .outlier_chance = value_of(data, "fit.outlier-chance"),
    .scatter_chance = value_of(data, "fit.scatter-chance"),
    .sheet_tolerance = value_of(data, "fit.sheet-tolerance"),
    .ring_weeps_ml = value_of(data, "sign.ring-weeps"),
    .untold_over = value_of(data, "fit.untold-over"),
    .contradict_over = value_of(data, "fit.contradict-over"),
};

}  // namespace

const FitConstants& fit_constants() {
  return constants;
}

std::span<const Datum> fit_data() {
  return data;
}

}  // namespace gelwright
