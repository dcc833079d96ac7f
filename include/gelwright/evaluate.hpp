// The one pipeline: inputs in, everything there is to know about them out.
//
// Pure: the same inputs give the same evaluation, nothing is printed, read or remembered. Studies
// (ladder, spread, dose, fit) and the sheet all stand on it.
#pragma once

#include <vector>

#include "gelwright/flag.hpp"
#include "gelwright/inputs.hpp"
#include "gelwright/serving.hpp"

namespace gelwright {

/// How much of the pipeline to run: studies leave out what only a sheet shows.
struct EvaluateParts {
  bool batch = true;  ///< the weighing plan, the pH in balance with air, shares of protons
  bool flags = true;
  GelOptions gel = {};
};

struct Evaluation : Serving {
  std::vector<Flag> flags;  ///< in the order of FlagId
};

/// Evaluates one recipe state. Throws NotConverged, or InputError for amounts no water phase can
/// hold (see equilibrium.hpp) and for a serving without any water.
Evaluation evaluate(const Inputs& inputs, EvaluateParts parts = {});

/// The inputs with the recipe's measured pH, if there is one, put before the gel model, and unnamed
/// sodium taken as the salt whose pH comes nearest to it. For looking at the batch that was
/// measured; studies of other doses leave it out.
Inputs as_measured(Inputs inputs);

/// The inputs with acid and calcium salt in the stock solutions the weighing plan asks for, where a
/// neat dose cannot be weighed: its low-mineral water then counts in the chemistry too.
Inputs as_weighed(Inputs inputs);

}  // namespace gelwright
