// The batch sheet: what is shown of one evaluation.
#pragma once

#include "gelwright/advise.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// The whole sheet of a recipe: amounts, weigh-out, water phase, outlook, cost, flags, method.
Report sheet_report(const Inputs& inputs, const Evaluation& evaluation, const Advice& advice);

/// Flags only.
Report check_report(const Inputs& inputs, const Evaluation& evaluation, const Advice& advice);

/// The inputs with the batch's water (tap and stock together) rounded to a multiple of `step_g`,
/// everything else as it was. Losses count: it is the water put into the bowl that is round.
Inputs with_rounded_water(const Inputs& inputs, double step_g);

/// What rounding the water did, to stand near the top of a sheet.
Section rounding_section(const Evaluation& exact, const Evaluation& rounded);

/// How to make it, step by step, from the recipe's process.
std::vector<std::string> method_steps(const Inputs& inputs, const Evaluation& evaluation);

/// Cautions that stand on every sheet.
std::vector<std::string> standing_cautions();

}  // namespace gelwright
