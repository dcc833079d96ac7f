// One serving with everything that was worked out about it, before anyone judges it.
#pragma once

#include <optional>

#include "gelwright/batch.hpp"
#include "gelwright/cost.hpp"
#include "gelwright/formula.hpp"
#include "gelwright/gel_forecast.hpp"
#include "gelwright/nutrition.hpp"
#include "gelwright/sodium_readings.hpp"
#include "gelwright/water_phase.hpp"

namespace gelwright {

/// Physical properties of the serving.
struct Properties {
  double density_g_per_ml = 1;  ///< at 20 degC, one sucrose curve for all; 0.6 % at 60 % solids
  double water_activity = 1;    ///< 25 degC
  double osmolality_mosm_per_kg = 0;  ///< +-10 % sugars, +-20 % maltodextrin
  /// With every unnamed sugar of a label as fructose; the same where there is none.
  double osmolality_most_mosm_per_kg = 0;
};

/// The parts of a serving. Flags judge them; `evaluate` fills them in.
struct Serving {
  Formula formula;
  WaterPhase water_phase;  ///< with unnamed sodium counted as chloride
  PhBand ph_band;          ///< over all that sodium may be
  Properties properties;
  GelForecast gel;
  Nutrition nutrition;
  Batch batch;
  std::optional<Cost> cost;
};

}  // namespace gelwright
