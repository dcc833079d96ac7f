// What a batch is weighed out in: portions, each with the vessel it goes into. Private.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "gelwright/batch.hpp"

namespace gelwright::detail {

/// A mass before it meets a scale.
struct Portion {
  LineRole role = LineRole::solid;
  std::size_t ingredient = 0;
  double exact_g = 0;
  double whole_g = 0;          ///< all there is of it: what its error counts against
  double stock_fraction = 0;   ///< 0 = neat
  double strongest_stock = 0;  ///< what it dissolves to, g/g; 0 where it does not
  std::size_t vessel = 0;
  bool decides = false;  ///< gum, acid, calcium: a little more or less is another gel

  double on_scale_g() const { return stock_fraction > 0 ? exact_g / stock_fraction : exact_g; }
};

/// Portions in the order of weighing, and the vessels they go into; only the main one has a name.
struct PortionPlan {
  std::vector<BatchVessel> vessels;
  std::vector<Portion> portions;
};

/// The doses of a round, neat or from stocks, before they have vessels.
struct Doses {
  std::optional<Portion> acid;
  std::optional<Portion> calcium;
};

/// Spreads a round's water, solids and doses over vessels by the recipe's steps. `factor` times a
/// serving is one round; `water_g` is its water without that of the stocks.
PortionPlan portions_of(const Inputs& inputs, double factor, double water_g, const Doses& doses);

/// Water to set aside to dissolve an acid in, or to dissolve or slur a calcium salt in, of all there
/// is; 0 where that is too little for a cup of its own. g.
double acid_water_g(double acid_g, double water_g);
double salt_water_g(double salt_g, double water_g);

/// The scale a mass goes on in a cup of its own: what decides the outcome on the finest that holds
/// it, all else on the biggest that weighs it well enough. Absent without scales.
std::optional<std::size_t> scale_for(double mass_g, bool decides, const BatchSpec& spec,
                                     const std::string& document);

/// Most gum that can be mixed smooth into the water it meets, g/g.
double most_gum_per_water();

/// How much water is set aside, and what gum is blended with.
std::span<const Datum> portion_data();

}  // namespace gelwright::detail
