// The plan of a run, laid out.
#pragma once

#include <optional>

#include "gelwright/calendar.hpp"
#include "gelwright/carry.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// `start`: when the run begins; what has to be made is then dated.
Report carry_report(const CarryPlan& plan, std::optional<LocalTime> start = std::nullopt);

}  // namespace gelwright
