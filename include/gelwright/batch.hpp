// From one serving to a bowl: what to put on which scale, in working order, and how well it is
// known.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "gelwright/formula.hpp"

namespace gelwright {

enum class LineRole { water, solid, acid, calcium_salt };

/// Something that is weighed into, tared empty. Everything is weighed before anything is mixed: a
/// running blender cannot stand on a scale.
struct BatchVessel {
  enum class Use {
    main,       ///< where it all comes together; the water is weighed into it
    main_too,   ///< what the main one's scale cannot weigh or hold; poured into it first of all
    set_aside,  ///< water to dissolve or to slur a dose in
    dry,        ///< what one step brings
    apart,      ///< one small line on a finer scale
  };
  Use use = Use::main;
  std::string name;      ///< "blender jug", "bowl 1", "cup A"
  std::size_t step = 0;  ///< of Recipe::steps: when what it holds goes in; main: the first
};

/// One thing to weigh, in the order of weighing: water set aside, the water, then vessel by vessel
/// what goes in, in the recipe's own order.
/// A line too heavy for what is left of the scale's capacity is split into parts.
struct BatchLine {
  LineRole role = LineRole::solid;
  std::size_t ingredient = 0;        ///< in Recipe::ingredients; unused for water
  std::size_t vessel = 0;            ///< in Batch::vessels
  double exact_g = 0;                ///< of the ingredient itself, in this part, in one round
  double stock_fraction = 0;         ///< g per g of the stock it is dosed from; 0 = neat
  double exact_on_scale_g = 0;       ///< what goes on the scale: the stock, where there is one
  std::optional<std::size_t> scale;  ///< in BatchSpec::scales; absent without scales
  double weigh_g = 0;                ///< `exact_on_scale_g` at the scale's readability
  double running_total_g = 0;        ///< display to stop at; the vessel was tared empty
  int part = 1;
  int parts = 1;
  double error_percent = 0;  ///< of all there is of it: rounding and scale, about 95 %
  bool clears = true;        ///< the error stays within the recipe's tolerance
};

/// A line no scale of the user's can weigh well enough, and what would mend it.
struct UnweighableLine {
  LineRole role = LineRole::solid;
  std::size_t ingredient = 0;
  double exact_g = 0;
  double error_percent = 0;         ///< on the best scale there is
  double readability_needed_g = 0;  ///< largest readability that would do, repeatability 1 d
  double servings_needed = 0;       ///< smallest whole number of servings that clears
};

/// A stock solution the plan doses from. It has to be weighed too: `make_g` is a round amount, at
/// least what keeps the solute within tolerance on the user's best scale for it.
struct StockPlan {
  std::size_t ingredient = 0;
  double stock_fraction = 0;
  double use_g = 0;
  double make_g = 0;
  std::optional<std::size_t> scale;  ///< in BatchSpec::scales; absent without scales
  double solute_g = 0;               ///< to weigh, at the scale's readability
  double water_g = 0;                ///< low-mineral, to weigh
  bool chosen_by_plan = false;       ///< not in the recipe: the neat dose cannot be weighed
};

struct Batch {
  double factor = 1;            ///< batch line = serving line x factor
  double total_g = 0;           ///< before loss is taken
  double yield_g = 0;           ///< after it
  double volume_ml = 0;         ///< of `total_g`, free of foam
  double vessel_needed_ml = 0;  ///< with headroom
  std::optional<bool> fits_vessel;
  /// A batch that does not fit the vessel is made in this many equal rounds; the lines are for one.
  double rounds = 1;
  std::vector<BatchVessel> vessels;
  std::vector<BatchLine> lines;
  std::vector<UnweighableLine> unweighable;
  std::vector<StockPlan> stocks;
};

/// servings / (1 - loss).
double batch_factor(const Inputs& inputs);

/// Whether the plan may dose acid and calcium from a stock the recipe does not ask for.
enum class StockChoice { when_needed, never };

/// Plans the batch. `density_g_per_ml` > 0 is the serving's. Exact first, rounded last.
/// Throws InputError if one line would fill a scale more than a thousand times.
Batch plan_batch(const Formula& formula, const Inputs& inputs, double density_g_per_ml,
                 StockChoice stock = StockChoice::when_needed);

/// Strengths a stock solution is made at when the plan has to choose one, g per g, strongest first.
std::span<const Datum> batch_data();

}  // namespace gelwright
