// What the fuzzer and the replay test both do with a document.
#pragma once

#include <cmath>
#include <string_view>

#include "gelwright/advise.hpp"
#include "gelwright/error.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/read.hpp"
#include "gelwright/recipe.hpp"
#include "gelwright/report.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/sheet.hpp"

namespace gelwright::fuzz {

enum class Fate {
  refused,        ///< InputError, with at least one problem that says something
  not_converged,  ///< NotConverged
  evaluated,      ///< finite and printable
  nonsense,       ///< accepted, and yet a number is not finite or an error says nothing
};

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

/// Reads, resolves, evaluates and prints a recipe. Anything but the two exceptions of the library
/// escapes to the caller.
inline Fate try_recipe(std::string_view document) {
  try {
    const Recipe recipe = read_recipe(document, "fuzz");
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    const Report sheet = sheet_report(inputs, evaluation, Advice{});
    for (const Format format :
         {Format::text, Format::markdown, Format::html, Format::json, Format::csv})
      if (render(sheet, format).empty()) return Fate::nonsense;
    return is_sane(evaluation) ? Fate::evaluated : Fate::nonsense;
  } catch (const InputError& error) {
    if (error.problems().empty()) return Fate::nonsense;
    for (const Problem& problem : error.problems())
      if (problem.what.empty()) return Fate::nonsense;
    return Fate::refused;
  } catch (const NotConverged&) {
    return Fate::not_converged;
  }
}

}  // namespace gelwright::fuzz
