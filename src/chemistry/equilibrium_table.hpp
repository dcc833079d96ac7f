// Numbers of the solver's surroundings, read once at compile time.
#pragma once

#include "gelwright/source.hpp"

namespace gelwright::detail {

inline constexpr Datum equilibrium_table[] = {
    {"davies.linear_term", 0.3, "kg/mol", 0.0, "25 degC, water", "davies-1962",
     Standing::confirmed},
    {"davies.held_above", 0.5, "mol/kg", 0.0, "upper end of the form's use", "davies-1962",
     Standing::confirmed},
    {"davies.less_certain_above", 0.1, "mol/kg", 0.0, "", "judgement", Standing::judgement},
    {"air.co2_ppm", 420.0, "ppm by volume", 10.0, "open air, sea level, the early 2020s",
     "noaa-gml-co2", Standing::from_memory},
    {"gluconic.hydrolysis_rate", 1.1e-4, "1/s", 0.0, "25 degC, I = 0.1, pH near 5", "zhang-2007",
     Standing::confirmed},
    {"gluconic.log_lactonisation", -0.54, "1", 0.04, "25 degC, I = 0.1, of undissociated acid",
     "zhang-2007", Standing::confirmed},
    {"gluconic.pka_for_lactone", 3.30, "1", 0.02, "room temperature, I = 0.1", "zhang-2007",
     Standing::confirmed},
    {"solver.highest_amount", 100.0, "mol/kg", 0.0, "beyond any solubility here", "judgement",
     Standing::judgement},
    {"solver.lowest_pka", -2.0, "1", 0.0, "options only", "judgement", Standing::judgement},
    {"solver.highest_pka", 16.0, "1", 0.0, "options only", "judgement", Standing::judgement},
};

inline constexpr double davies_linear = value_of(equilibrium_table, "davies.linear_term");
inline constexpr double davies_held_above = value_of(equilibrium_table, "davies.held_above");
inline constexpr double default_co2_ppm = value_of(equilibrium_table, "air.co2_ppm");
inline constexpr double highest_mol_per_kg = value_of(equilibrium_table, "solver.highest_amount");
inline constexpr double lowest_pka = value_of(equilibrium_table, "solver.lowest_pka");
inline constexpr double highest_pka = value_of(equilibrium_table, "solver.highest_pka");

}  // namespace gelwright::detail
