// Mass balance of one serving.
#pragma once

#include <string>

#include "gelwright/inputs.hpp"

namespace gelwright {

/// All in g for one serving.
///
/// Three waters: `water_g` is what is weighed as water (tap plus stock solution water);
/// `chemistry_water_g` adds the moisture of powders, hydrate water and the water of syrups, and is
/// what every molality counts on. Acid and calcium salt are neither solids nor water.
struct Formula {
  double solids_g = 0;
  double acid_g = 0;
  double calcium_salt_g = 0;
  double water_g = 0;
  double tap_g = 0;  ///< water to add from the tap: `water_g` less the stock's water
  double total_g = 0;
  double chemistry_water_g = 0;
  double soluble_solids_g = 0;
  Composition delivered;  ///< the serving's ingredients, without the tap's ions

  double water_fraction_of_total() const { return total_g > 0 ? water_g / total_g : 0; }
  double water_per_g_solids() const { return solids_g > 0 ? water_g / solids_g : 0; }
  double soluble_solids_percent() const {
    return total_g > 0 ? 100 * soluble_solids_g / total_g : 0;
  }
};

/// Exact: mass in equals mass out to rounding. Never throws; a stock that needs more water than
/// there is leaves `tap_g` negative, which is reported as a flag.
Formula formulate(const Inputs& inputs);

/// Throws InputError, naming `document`, if there is no water of any kind in the serving.
void require_water(const Formula& formula, const std::string& document);

}  // namespace gelwright
