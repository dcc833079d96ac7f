// What a spread came to, laid out to be read.
#pragma once

#include "gelwright/report.hpp"
#include "gelwright/spread.hpp"

namespace gelwright {

Report spread_report(const Inputs& inputs, const SpreadResult& result);

}  // namespace gelwright
