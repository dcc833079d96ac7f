// What a careful friend would say of the plan. Private.
#pragma once

#include "gelwright/carry.hpp"

namespace gelwright::detail {

/// In the order they are shown. `piece_too_big`: a whole piece is more than twice of what is asked.
std::vector<CarryFinding> findings_of(const CarryPlan& plan, bool piece_too_big);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
