// The liquid a gum meets: the water with all that is in before it. Private.
#pragma once

#include "gelwright/formula.hpp"

namespace gelwright::detail {

struct LiquidMet {
  double available_calcium_mmol_per_kg = 0;  ///< per kg of its own water, not hidden by a chelate
  double ph = 7;
  double solids_percent = 0;      ///< as the gum dissolves: what goes in with it counts half
  double calcium_held_share = 0;  ///< of its calcium, by citrate and the like, 0 to 1
};

/// What a gum that goes in at `place` meets. A second, small equilibrium. Where it would meet no
/// water at all (a syrup brings the water later), it meets the whole serving. Throws as
/// `water_phase_of`.
LiquidMet liquid_met_at(int place, const Formula& formula, const Inputs& inputs);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
