// What is done when, a lane for each thing. Private.
#pragma once

#include "picture/canvas.hpp"

namespace gelwright::detail {

/// Draws from `y` down. Gives where it ends.
double draw_lanes(Canvas& canvas, const Lanes& lanes, const Axis& axis, double y);

}  // namespace gelwright::detail
