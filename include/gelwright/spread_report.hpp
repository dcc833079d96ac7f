// What a spread came to, laid out to be read.
#pragma once

#include "gelwright/report.hpp"
#include "gelwright/spread.hpp"

namespace gelwright {

Report spread_report(const Inputs& inputs, const SpreadResult& result);

/// Adds bars of how far pH and stiffness may be off, and how far without each kind of doubt.
void add_spread_pictures(Report& report, const SpreadResult& result);

}  // namespace gelwright
