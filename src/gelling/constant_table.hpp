// Numbers of the shape of the gel model that are held, not varied: their doubt is inside the sds of
// the parameters they stand beside.
#pragma once

#include "gelwright/source.hpp"

namespace gelwright::gel::detail {

// clang-format off
inline constexpr Datum constant_table[] = {
    // liquid
    {"gel.liquid.less_dense", 0.372, "mL/g", 0.02, "liquid volume per g water is (1 - .372 w)/(1 - w)", "bubnik-1995", Standing::from_memory},

    // doubt
    {"gel.doubt.unnamed_grade", 0.17, "log10", 0, "sd of [eta] where the pack names no viscosity", "judgement", Standing::judgement},
    {"gel.doubt.cup_to_cup", 0.15, "log10", 0, "sd of one cup of a mix against the next, beyond what the shifts explain", "judgement", Standing::judgement},

    // what dissolves
    {"gel.hydration.sugar_slows", 0.010, "log10 per % solids", 0.005, "time to dissolve", "judgement", Standing::judgement},
    {"gel.hydration.acid_slows", 0.75, "log10 per pH", 0.4, "time to dissolve", "judgement", Standing::judgement},
    {"gel.hydration.acid_slows_below", 3.8, "pH", 0.3, "makers: above about pH 4 or with citrate", "gum-makers", Standing::from_memory},
    {"gel.hydration.heat_makes_time", 60, "degC", 10, "hot enough to dissolve at once", "judgement", Standing::judgement},
    {"gel.hydration.calcium_steepness", 3, "1", 1, "undissolved alginate against calcium met", "judgement", Standing::judgement},
    {"gel.hydration.gellan_c", 75, "degC", 5, "low-acyl, without sequestrant", "gum-makers", Standing::from_memory},
    {"gel.hydration.gellan_calcium", 4, "degC per mmol/kg", 2, "low-acyl", "judgement", Standing::judgement},
    {"gel.hydration.gellan_calcium_most", 5, "mmol/kg", 0, "no more beyond it", "judgement", Standing::judgement},
    {"gel.hydration.gellan_sugar", 0.25, "degC per % solids", 0.1, "low-acyl", "judgement", Standing::judgement},
    {"gel.hydration.gellan_sequestered", 60, "degC", 10, "cold in .3 % citrate and soft water", "gum-makers", Standing::from_memory},
    {"gel.hydration.high_acyl_c", 72, "degC", 5, "70 to 80", "gum-makers", Standing::from_memory},
    {"gel.hydration.gellan_width", 4, "degC", 0, "of the logistic", "judgement", Standing::judgement},
    {"gel.hydration.trace", 0.05, "1", 0, "share of a second gum up to which its effect on poured acid fades in", "judgement", Standing::judgement},

    // routes
    {"gel.route.c_power", 2, "1", 0.3, "modulus against gum well above onset", "draget-2003", Standing::from_memory},
    {"gel.route.onset_steepness", 4, "1", 1, "below onset", "judgement", Standing::judgement},
    {"gel.route.ionic_base", 15, "mmol/kg", 0, "ionic strength of the reference calcium", "khavari-2016", Standing::confirmed},
    {"gel.route.guluronate_calcium", 0.5, "1", 0, "reference F_G", "judgement", Standing::judgement},
    {"gel.route.guluronate_acid", 0.6, "1", 0, "reference F_G", "judgement", Standing::judgement},
    {"gel.route.blend_least", 0.001, "1", 0, "floor of 4x(1-x)", "judgement", Standing::judgement},
    {"gel.route.esterification", 70, "%", 0, "reference", "judgement", Standing::judgement},
    {"gel.route.amidated_grain", 0.1, "log10 R", 0.1, "amidated pectin turns grainy later", "judgement", Standing::judgement},
    {"gel.route.lm_sugar", 15, "% solids", 5, "gain of LM pectin by sugar, scale", "judgement", Standing::judgement},
    {"gel.route.hot_c", 78, "degC", 4, "pectin has been hot", "judgement", Standing::judgement},
    {"gel.route.hot_width", 4, "degC", 0, "of the logistic", "judgement", Standing::judgement},
    {"gel.route.room_c", 20, "degC", 0, "reference", "judgement", Standing::judgement},
    {"gel.route.cold_step", 15, "degC", 0, "unit of cold: 20 to 5 degC", "judgement", Standing::judgement},
    {"gel.jam.glucose", 2, "% solids", 2, "counts as more", "evageliou-2000", Standing::from_memory},
    {"gel.jam.fructose", -3, "% solids", 2, "counts as less", "evageliou-2000", Standing::from_memory},
    {"gel.jam.polyol", -8, "% solids", 3, "counts as less", "tsoga-2004", Standing::from_memory},
    {"gel.jam.cold_firms", 0.1, "log10 per 15 degC", 0.1, "", "judgement", Standing::judgement},
    {"gel.jam.solids", 65, "% solids", 0, "reference of the pH", "judgement", Standing::judgement},
    {"gel.gellan.potassium", 0.6, "1", 0.1, "sodium that does the work of one potassium is 1/.6", "tang-1996", Standing::from_memory},
    {"gel.gellan.pk", 3.5, "pH", 0.2, "of its carboxylate", "morris-2012", Standing::from_memory},
    {"gel.gellan.set_slope", 26, "degC per log10", 6, "setting temperature against ions", "handbook-hydrocolloids", Standing::from_memory},
    {"gel.gellan.set_monovalent", 15, "1", 5, "sodium or potassium for one calcium", "judgement", Standing::judgement},
    {"gel.gellan.set_width", 0.25, "log10 per degC", 0.1, "", "judgement", Standing::judgement},
    {"gel.gellan.sugar", 0.04, "log10 per % solids", 0.015, "beyond the bend", "whittaker-1997", Standing::judgement},
    {"gel.gellan.high_acyl_set_c", 60, "degC", 10, "50 to 80", "handbook-hydrocolloids", Standing::from_memory},
    {"gel.route.sudden_half", 0.3, "R", 0.1, "calcium salt at once that spoils half", "judgement", Standing::judgement},
    {"gel.route.sudden_steepness", 4, "1 per log10", 1, "", "judgement", Standing::judgement},

    // floors that keep logarithms finite
    {"gel.floor.route", -9, "log10 Pa", 0, "none at all", "judgement", Standing::judgement},
    {"gel.floor.sum", 1e-9, "Pa", 0, "modulus and yield", "judgement", Standing::judgement},
    {"gel.floor.calcium", 0.001, "mmol/kg", 0, "", "judgement", Standing::judgement},
    {"gel.floor.ionic", 0.01, "mmol/kg", 0, "ionic strength", "judgement", Standing::judgement},
    {"gel.floor.ions", 0.001, "Q", 0, "", "judgement", Standing::judgement},
    {"gel.floor.set", 0.001, "1", 0, "share of the setting that is over", "judgement", Standing::judgement},

    // viscosity
    {"gel.syrup.sucrose_a", 1.20, "1", 0.02, "lg eta = a w/(1 - b w)", "bubnik-1995", Standing::from_memory},
    {"gel.syrup.glucose_a", 1.06, "1", 0.05, "", "judgement", Standing::from_memory},
    {"gel.syrup.fructose_a", 1.02, "1", 0.05, "", "judgement", Standing::from_memory},
    {"gel.syrup.sugar_b", 0.98, "1", 0.02, "", "bubnik-1995", Standing::from_memory},
    {"gel.syrup.maltodextrin_a", 8.0, "1", 1, "at DE 1", "judgement", Standing::from_memory},
    {"gel.syrup.maltodextrin_de", -0.44, "1", 0.05, "power of DE", "judgement", Standing::from_memory},
    {"gel.syrup.maltodextrin_b", 0.80, "1", 0.05, "", "judgement", Standing::from_memory},
    {"gel.syrup.maltodextrin_doubt_w", 0.6, "1", 0, "solids fraction its doubt is quoted at", "judgement", Standing::judgement},
    {"gel.syrup.cold", 0.18, "log10 per 15 degC", 0.02, "water", "bubnik-1995", Standing::from_memory},
    {"gel.syrup.cold_thicker", 0.15, "1 per 15 degC", 0.03, "share of its lg eta a thick syrup adds", "bubnik-1995", Standing::from_memory},
    {"gel.eta.very_low", 3.4, "dL/g", 0.4, "8 mPa.s at 1 %", "gum-makers", Standing::from_memory},
    {"gel.eta.low", 6.1, "dL/g", 0.7, "30 mPa.s at 1 %", "gum-makers", Standing::from_memory},
    {"gel.eta.medium", 13.4, "dL/g", 1.5, "300 mPa.s at 1 %", "gum-makers", Standing::from_memory},
    {"gel.eta.high", 19.6, "dL/g", 2.3, "1000 mPa.s at 1 %", "gum-makers", Standing::from_memory},
    {"gel.eta.unknown", 10.3, "dL/g", 4, "retail alginate, about 150 mPa.s at 1 %", "judgement", Standing::judgement},
    {"gel.eta.hm_pectin", 5, "dL/g", 1.7, "", "judgement", Standing::judgement},
    {"gel.eta.lm_pectin", 4, "dL/g", 1.4, "amidated too", "judgement", Standing::judgement},
    {"gel.eta.gellan_low_acyl", 8, "dL/g", 2.8, "", "judgement", Standing::judgement},
    {"gel.eta.gellan_high_acyl", 15, "dL/g", 5, "", "judgement", Standing::judgement},
    {"gel.eta.overlap", 4, "1", 0, "x = c [eta]/4", "judgement", Standing::judgement},
    {"gel.eta.scale", 5, "1", 0, "specific viscosity at x = 1 is twice this", "judgement", Standing::judgement},
    {"gel.eta.dilute_power", 1.4, "1", 0.1, "", "judgement", Standing::judgement},
    {"gel.eta.entangled_power", 3.3, "1", 0.1, "3.4 published for alginate", "judgement", Standing::judgement},
    {"gel.xanthan.viscosity", 500, "mPa.s", 100, "at 1 g/100 mL, 50 per s", "thickeners-2018", Standing::from_memory},
    {"gel.xanthan.viscosity_power", 1.7, "1", 0.1, "", "thickeners-2018", Standing::from_memory},
    {"gel.xanthan.syrup_power", 0.5, "1", 0.2, "of the syrup's own viscosity", "judgement", Standing::judgement},
    {"gel.xanthan.yield", 11, "Pa", 4, "at 1 g/100 mL", "judgement", Standing::from_memory},
    {"gel.xanthan.yield_power", 2.4, "1", 0.2, "", "judgement", Standing::from_memory},
    {"gel.thickness.per_yield", 15, "mPa.s/Pa", 5, "what a yield stress adds to what drains", "judgement", Standing::judgement},

    // defects
    {"gel.seen.half", 0.05, "g/100 mL", 0.02, "half the people see bits of this much gum", "judgement", Standing::judgement},
    {"gel.seen.width", 0.2, "log10", 0, "", "judgement", Standing::judgement},
    {"gel.pieces.mix", 0.15, "1", 0.1, "share of the undissolved in visible pieces", "judgement", Standing::judgement},
    {"gel.pieces.sugar", 0.20, "1", 0.1, "", "judgement", Standing::judgement},
    {"gel.pieces.blender", 0.10, "1", 0.1, "", "judgement", Standing::judgement},
    {"gel.pieces.dry", 1.0, "1", 0.2, "", "judgement", Standing::judgement},
    {"gel.clumps.mix", 0.25, "1", 0.1, "chance of clumps in the best of water", "judgement", Standing::judgement},
    {"gel.clumps.sugar", 0.10, "1", 0.05, "", "judgement", Standing::judgement},
    {"gel.clumps.blender", 0.03, "1", 0.02, "", "judgement", Standing::judgement},
    {"gel.clumps.dry", 0.60, "1", 0.2, "", "judgement", Standing::judgement},
    {"gel.curds.above", 0.3, "pH", 0.2, "poured acid curdles from this far above the pH it sets at", "judgement", Standing::judgement},
    {"gel.curds.steepness", 4, "1 per pH", 1, "", "judgement", Standing::judgement},
    {"gel.set.half", 15, "Pa", 4, "G' at which half would call it set", "judgement", Standing::judgement},
    {"gel.set.width", 0.4, "log10", 0, "", "judgement", Standing::judgement},
    {"gel.weeps.per_lg_c", 0.3, "R per log10", 0.1, "", "judgement", Standing::judgement},
    {"gel.weeps.width", 0.15, "R", 0.05, "", "judgement", Standing::judgement},
    {"gel.weeps.acid_ph", 3, "pH", 0.2, "", "judgement", Standing::judgement},
    {"gel.weeps.acid_width", 0.2, "pH", 0, "", "judgement", Standing::judgement},
    {"gel.grain.steepness", 6, "1 per log10", 1, "microgel of LM pectin, brittle gellan", "judgement", Standing::judgement},
    {"gel.brittle.ions", 2, "Q", 0.5, "gellan", "judgement", Standing::judgement},
    {"gel.grit.plain", 0.1, "1", 0.1, "acid alginate", "judgement", Standing::judgement},
    {"gel.grit.heated", 0.5, "1", 0.2, "1.5 % aggregated after 85 degC", "agoub-2014", Standing::confirmed},
    {"gel.grit.heated_c", 80, "degC", 10, "counts as heated", "judgement", Standing::judgement},
    {"gel.grit.from_c", 1, "g/100 mL", 0.3, "", "agoub-2014", Standing::judgement},
    {"gel.grit.ph", 3.2, "pH", 0.2, "", "judgement", Standing::judgement},
    {"gel.grit.steepness", 4, "1 per pH", 1, "", "judgement", Standing::judgement},

    // class cuts
    {"gel.cut.thick", 80, "mPa.s", 0, "thickness: between two levels of thickened drinks", "thickeners-2018", Standing::judgement},
    {"gel.cut.thick_width", 0.25, "log10", 0, "", "judgement", Standing::judgement},
    {"gel.cut.soft", 15, "Pa", 0, "reports said 30 or 10: the middle", "judgement", Standing::judgement},
    {"gel.cut.soft_width", 0.25, "log10", 0, "", "judgement", Standing::judgement},
    {"gel.cut.firm", 500, "Pa", 0, "the standard jelly lies just under", "nielsen-2001", Standing::judgement},
    {"gel.cut.firm_width", 0.25, "log10", 0, "", "judgement", Standing::judgement},
    {"gel.cut.hard", 6300, "Pa", 0, "reports said 4000 or 10000", "judgement", Standing::judgement},
    {"gel.cut.hard_width", 0.30, "log10", 0, "", "judgement", Standing::judgement},
    {"gel.cut.flowing", 5, "Pa", 0, "broken gel", "judgement", Standing::judgement},
    {"gel.cut.flowing_width", 0.30, "log10", 0, "", "judgement", Standing::judgement},
    {"gel.cut.stands", 150, "Pa", 0, "broken gel that stands again", "judgement", Standing::judgement},
    {"gel.cut.stands_width", 0.30, "log10", 0, "", "judgement", Standing::judgement},

    // stomach
    {"gel.stomach.calcium", 0.075, "mmol/kg", 0, "in the mixture, brought by the fluid", "brodkorb-2019", Standing::from_memory},
    {"gel.stomach.sodium", 40, "mmol/kg", 10, "in the mixture", "brodkorb-2019", Standing::from_memory},
    {"gel.stomach.ionic", 60, "mmol/kg", 10, "in the mixture", "brodkorb-2019", Standing::from_memory},
    {"gel.stomach.c", 37, "degC", 0, "", "brodkorb-2019", Standing::from_memory},
    {"gel.stomach.hours", 1, "h", 0, "", "judgement", Standing::judgement},
    {"gel.stomach.ph", 3.0, "pH", 0, "", "brodkorb-2019", Standing::from_memory},
    {"gel.stomach.ph_sd", 0.3, "pH", 0, "", "judgement", Standing::judgement},
    {"gel.stomach.ph_per_demand", 0.1, "pH per mmol", 0.1, "acid demand beyond the first", "judgement", Standing::judgement},
    {"gel.stomach.demand_free", 3, "mmol", 1, "acid demand the stomach meets", "judgement", Standing::judgement},
    {"gel.stomach.still_dissolved_c", 95, "degC", 0, "what dissolved stays so: as if heated", "judgement", Standing::judgement},
    {"gel.stomach.one_gel", 15, "Pa", 0, "even", "judgement", Standing::judgement},
    {"gel.stomach.one_gel_width", 0.25, "log10", 0, "", "judgement", Standing::judgement},
    {"gel.stomach.pieces", 1, "Pa", 0, "of the undiluted gum: acid comes through a skin", "judgement", Standing::judgement},
    {"gel.stomach.pieces_width", 0.3, "log10", 0, "", "judgement", Standing::judgement},
};
// clang-format on

/// The row `key`, at compile time.
consteval double constant(std::string_view key) {
  return value_of(constant_table, key);
}

inline constexpr double unnamed_grade_sd = constant("gel.doubt.unnamed_grade");
inline constexpr double cup_to_cup_sd = constant("gel.doubt.cup_to_cup");

}  // namespace gelwright::gel::detail
