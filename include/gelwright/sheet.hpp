// The batch sheet: what is shown of one evaluation.
#pragma once

#include <string>
#include <vector>

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

/// Flags only, of one of several recipes.
struct CheckedRecipe {
  std::string document;  ///< the file it was read from
  Report report;         ///< its `check_report`
};

/// The flags of several recipes, each under the name of its file.
Report checks_report(const std::vector<CheckedRecipe>& checked);

/// Cautions that stand on every sheet.
std::vector<std::string> standing_cautions();

}  // namespace gelwright
