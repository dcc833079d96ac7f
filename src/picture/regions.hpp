// A map of kinds over a grid. Private.
#pragma once

#include "picture/canvas.hpp"

namespace gelwright::detail {

/// Fills the frame, row by row in runs of one kind and strength, and draws the borders.
void draw_regions(Canvas& canvas, const Regions& regions, const Box& frame);

/// Names each kind where it has the most room; what has none is explained below.
void name_regions(Canvas& canvas, const Regions& regions, const Box& frame);

}  // namespace gelwright::detail
