// What the fuzzer and the replay test both do with a document.
#pragma once

#include <cmath>
#include <string_view>

#include "fuzz/outcome.hpp"
#include "gelwright/advise.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/read.hpp"
#include "gelwright/recipe.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/sheet.hpp"

namespace gelwright::fuzz {

inline bool is_sane(const Evaluation& evaluation) {
  const Formula& formula = evaluation.formula;
  const WaterPhase& phase = evaluation.water_phase;
  for (const double value :
       {formula.solids_g, formula.water_g, formula.tap_g, formula.total_g,
        formula.chemistry_water_g, phase.ph, phase.ph_uncertainty, phase.ionic_strength_mol_per_kg,
        phase.free_calcium_mmol_per_kg, phase.calcium_ratio_r2, phase.acid_demand_mmol,
        evaluation.properties.density_g_per_ml, evaluation.properties.water_activity,
        evaluation.properties.osmolality_mosm_per_kg, evaluation.batch.total_g,
        evaluation.batch.volume_ml})
    if (!std::isfinite(value)) return false;
  return formula.total_g > 0 && formula.chemistry_water_g > 0;
}

/// Reads, resolves, evaluates and prints a recipe.
inline Fate try_recipe(std::string_view document) {
  return fate_of([document] {
    const Recipe recipe = read_recipe(document, "fuzz");
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    return prints(sheet_report(inputs, evaluation, Advice{})) && is_sane(evaluation);
  });
}

}  // namespace gelwright::fuzz
