// One water laid out in every unit, judged against limits, and how to change its calcium.
#pragma once

#include <optional>

#include "gelwright/recipe.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// What is asked of a water besides its units. Calcium in mg/L.
struct WaterQuestion {
  Limit calcium_mg_per_l;
  std::optional<double> bring_calcium_to_mg_per_l;
  double low_mineral_calcium_mg_per_l = 0;  ///< of the water it would be thinned with
};

Report water_report(const Water& water, const WaterQuestion& question);

}  // namespace gelwright
