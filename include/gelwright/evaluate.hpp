// The one pipeline: inputs in, everything there is to know about them out.
//
// Pure: the same inputs give the same evaluation, nothing is printed, read or remembered. Studies
// (ladder, spread, dose, fit) and the sheet all stand on it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gelwright/batch.hpp"
#include "gelwright/chemistry.hpp"
#include "gelwright/cost.hpp"
#include "gelwright/flag.hpp"
#include "gelwright/formula.hpp"
#include "gelwright/inputs.hpp"
#include "gelwright/nutrition.hpp"
#include "gelwright/setting.hpp"

namespace gelwright {

/// Physical properties of the serving.
struct Properties {
  double density_g_per_ml = 1;  ///< at 20 degC, one sucrose curve for all; 0.6 % at 60 % solids
  double water_activity = 1;    ///< 25 degC
  double osmolality_mosm_per_kg = 0;  ///< +-10 % sugars, +-20 % maltodextrin
};

/// What sets, before it is eaten and in the stomach. A bought mix with an undeclared gum share has
/// a range: the main outlooks are for the middle of the band, `low` and `high` for its ends.
struct Setting {
  SetInput input;
  Outlook pouch;
  Outlook stomach;
  std::optional<Outlook> pouch_low, pouch_high;
  std::optional<Outlook> stomach_low, stomach_high;
};

/// How much of the pipeline to run. Studies that plot chemistry only need not plan a batch.
struct EvaluateParts {
  bool batch = true;
  bool flags = true;
};

struct Evaluation {
  Formula formula;
  Chemistry chemistry;
  Properties properties;
  Setting setting;
  Nutrition nutrition;
  Batch batch;
  std::optional<Cost> cost;
  std::vector<Flag> flags;  ///< in the order of FlagId
};

/// Evaluates one recipe state. Throws NotConverged, or InputError for amounts no water phase can
/// hold (see equilibrium.hpp) and for a serving without any water.
Evaluation evaluate(const Inputs& inputs, EvaluateParts parts = {});

/// The inputs with the recipe's measured pH, if there is one, put before the set rules. For looking at
/// the batch that was measured; studies of other doses leave it out.
Inputs as_measured(Inputs inputs);

/// What the set rules see of a serving.
SetInput set_input_of(const Formula& formula, const Chemistry& chemistry, const Inputs& inputs);

}  // namespace gelwright
