// The plan of a run, laid out.
#pragma once

#include <optional>

#include "gelwright/calendar.hpp"
#include "gelwright/carry.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

/// `start`: when the run begins; what has to be made is then dated.
Report carry_report(const CarryPlan& plan, std::optional<LocalTime> start = std::nullopt);

/// Adds the run along its hours: when each piece is taken, and how long it is out of the cold; or
/// why there is no such picture.
void add_carry_picture(Report& report, const CarryPlan& plan);

}  // namespace gelwright
