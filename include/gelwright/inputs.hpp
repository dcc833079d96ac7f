// What the pipeline works on: a recipe reduced to plain masses and compositions.
//
// Studies copy and change these; the recipe they came from stays as it was read.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "gelwright/composition.hpp"
#include "gelwright/making.hpp"
#include "gelwright/recipe.hpp"

namespace gelwright {

/// One thing that goes into a serving.
struct InputLine {
  std::size_t ingredient = 0;  ///< in Recipe::ingredients
  Composition per_g;           ///< a copy: a study may change it
  double mass_g = 0;           ///< in one serving
};

/// Acid or calcium salt: neat, or in a stock solution made with low-mineral water.
struct InputDose {
  InputLine line;
  double stock_fraction = 0;   ///< g in 1 g of stock solution; 0 = neat
  bool planned_stock = false;  ///< the weighing plan asks for the stock, not the recipe
};

/// Everything `evaluate` reads. `recipe` must outlive it and gives what no study changes: form,
/// limits, process, scales, prices.
struct Inputs {
  const Recipe* recipe = nullptr;
  std::vector<InputLine> solids;
  std::optional<InputDose> acid;
  std::optional<InputDose> calcium;
  WaterSpec water;
  WaterIons tap;  ///< mol per kg of tap water
  double servings = 1;
  Making making;                  ///< what goes in after what, and how
  std::optional<double> gum_pka;  ///< effective pKa of gum carboxylate; absent = the table's
  /// Measured less computed pH: the gel model follows a reading, the chemistry does not.
  double reading_offset_ph = 0;
  double ph_bias = 0;  ///< added to every computed pH, for studies of the model error
  /// Added to log10 of the free and the available calcium, for studies of citrate's complexes.
  double calcium_lg_bias = 0;
};

/// The inputs a recipe states. A `target_ph` or `target_ratio` counts as a dose of zero here:
/// `dose` resolves targets first (see resolve.hpp). Throws InputError if a stock solution would
/// bring more water than the recipe has.
Inputs inputs_of(const Recipe& recipe);
Inputs inputs_of(const Recipe&& recipe) = delete;  // the inputs would outlive the recipe

/// Throws InputError if the serving has no water or a stock solution brings more than there is.
void require_water(const Inputs& inputs);

/// Water mass in g for one serving, by the recipe's own basis.
/// `others_g` is acid plus calcium salt, neat.
double water_mass_g(const WaterSpec& water, double solids_g, double others_g);

}  // namespace gelwright
