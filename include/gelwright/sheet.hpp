// The batch sheet: what is shown of one evaluation.
#pragma once

#include "gelwright/advise.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// The whole sheet of a recipe: amounts, weigh-out, water phase, outlook, cost, flags, method.
/// `exact` is the same recipe before its water was rounded, where it was.
Report sheet_report(const Inputs& inputs, const Evaluation& evaluation, const Advice& advice,
                    const Evaluation* exact = nullptr);

/// Flags only.
Report check_report(const Inputs& inputs, const Evaluation& evaluation, const Advice& advice);

/// How to make it, step by step, from the recipe's process.
std::vector<std::string> method_steps(const Inputs& inputs, const Evaluation& evaluation);

/// Cautions that stand on every sheet.
std::vector<std::string> standing_cautions();

}  // namespace gelwright
