// Numbers of the kitchen tests.
#pragma once

#include "gelwright/source.hpp"

namespace gelwright::gel::detail {

/// One row of the syringe table.
struct SyringeRow {
  double mpa_s;
  double ml_left;
};
inline constexpr SyringeRow syringe_table[] = {
    {5, 0.1},   {10, 1.8},  {20, 4.1},  {30, 5.5},  {50, 6.9},   {75, 7.8},   {100, 8.3},
    {150, 8.9}, {200, 9.1}, {300, 9.4}, {500, 9.6}, {1000, 9.8}, {2000, 9.9},
};

// clang-format off
inline constexpr Datum kitchen_table[] = {
    {"gel.kitchen.empty_ml", 0.5, "mL", 0, "the syringe counts as empty", "judgement", Standing::judgement},
    {"gel.kitchen.empty_mpa_s", 6, "mPa.s", 0, "then thinner than", "thickeners-2018", Standing::judgement},
    {"gel.kitchen.empty_sd", 0.15, "log10", 0, "", "judgement", Standing::judgement},
    {"gel.kitchen.stopped_ml", 9.7, "mL", 0, "the syringe counts as stopped", "judgement", Standing::judgement},
    {"gel.kitchen.stopped_mpa_s", 600, "mPa.s", 0, "then thicker than", "thickeners-2018", Standing::judgement},
    {"gel.kitchen.stopped_sd", 0.20, "log10", 0, "", "judgement", Standing::judgement},
    {"gel.kitchen.syringe_ml", 0.3, "mL", 0, "how finely it is read", "judgement", Standing::judgement},
    {"gel.kitchen.syringe_sd", 0.15, "log10", 0, "", "judgement", Standing::judgement},
    {"gel.kitchen.syringe_highest_ml", 9.75, "mL", 0, "no finer reading above", "judgement", Standing::judgement},
    {"gel.kitchen.yield_sd", 0.25, "log10", 0, "cup and groove", "judgement", Standing::judgement},
    {"gel.kitchen.groove_pa", 10, "Pa", 3, "a groove 2 mm deep stands", "judgement", Standing::judgement},
    {"gel.kitchen.gravity", 9.81, "m/s2", 0, "", "nist-hb44", Standing::from_memory},
    {"gel.cups.strength_sd", 0.70, "log10", 0, "prior of the strength shift", "judgement", Standing::judgement},
    {"gel.cups.ph_sd", 0.35, "pH", 0, "prior of the pH shift", "judgement", Standing::judgement},
    {"gel.cups.calcium_sd", 0.25, "log10", 0, "prior of the calcium shift", "judgement", Standing::judgement},
    {"gel.cups.viscosity_sd", 0.40, "log10", 0, "prior of the viscosity shift", "judgement", Standing::judgement},
    {"gel.cups.right", 0.95, "1", 0, "chance that a cup was made and read as written", "judgement", Standing::judgement},
    {"gel.cups.slip_reading", 1.0 / 3, "1", 0, "chance of any reading of a slip", "judgement", Standing::judgement},
    {"gel.cups.repeat_below", 0.5, "1", 0, "weight below which a cup should be made again", "judgement", Standing::judgement},
};
// clang-format on

consteval double kitchen(std::string_view key) {
  return value_of(kitchen_table, key);
}

}  // namespace gelwright::gel::detail
