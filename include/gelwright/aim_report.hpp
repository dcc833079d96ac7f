// The amount for a wanted texture, laid out to be read.
#pragma once

#include "gelwright/aim.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// What to weigh, the chance before and after, what keeps it from a better one, and the forecast.
Report aim_report(const Inputs& inputs, const AimFound& found);

}  // namespace gelwright
