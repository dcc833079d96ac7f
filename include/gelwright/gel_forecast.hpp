// What becomes of a serving: the gel model fed with a recipe's formula and its water phase.
//
// A bought mix whose gum is not fully declared is read in several ways, each with its weight; their
// chances are mixed. A forecast, not a finding: every grade says how far it can be trusted.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "gelwright/formula.hpp"
#include "gelwright/gel_mixture.hpp"
#include "gelwright/gel_state.hpp"
#include "gelwright/water_phase.hpp"

namespace gelwright {

/// What the gel model is told of a serving with the gum its inputs hold. Throws InputError for more
/// additions of gum than a State has room for, and as `water_phase_of`.
gel::State gel_state_of(const Formula& formula, const WaterPhase& phase, const Inputs& inputs);

/// One way to read a pack that does not declare its gum in full.
struct GumReading {
  double weight = 1;
  std::size_t identity = 0;  ///< which of the gums it may be
  int band = 0;              ///< -1 low end of the share, 0 middle, +1 high end
};

/// The readings of a recipe; a single one where every gum is declared.
std::vector<GumReading> gum_readings(const Recipe& recipe);

/// The serving with its undeclared gum read this way.
Inputs read_as(const Inputs& inputs, const GumReading& reading);

/// How gel states are made from a recipe: figures taken where a pack does not say.
std::span<const Datum> gel_serving_data();

}  // namespace gelwright
