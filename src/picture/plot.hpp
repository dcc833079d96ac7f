// Series over two axes. Private.
#pragma once

#include "picture/canvas.hpp"

namespace gelwright::detail {

/// Draws from `y` down. Gives where it ends.
double draw_plot(Canvas& canvas, const Picture& picture, double y);

}  // namespace gelwright::detail
