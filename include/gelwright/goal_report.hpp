// The recipes found for a goal, laid out to be compared.
#pragma once

#include "gelwright/goal.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// Each answer with its chance and what it holds, the amounts of the one that is taken, and what
/// keeps it from more. `taken` counts from 0, in `found.answers`.
Report goal_report(const Goal& goal, const GoalFound& found, std::size_t taken = 0);

}  // namespace gelwright
