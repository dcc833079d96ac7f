// What was turned away from the recipe, said on every report. Private.
#pragma once

#include "gelwright/recipe.hpp"
#include "gelwright/report.hpp"

namespace gelwright::detail {

/// Adds the section where something was turned; a report of the recipe as written stays as it is.
void add_turned(Report& report, const Recipe& recipe);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
