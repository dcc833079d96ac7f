// Things side by side, laid out.
#pragma once

#include "gelwright/compare.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

Report compare_report(const Comparison& comparison);

}  // namespace gelwright
