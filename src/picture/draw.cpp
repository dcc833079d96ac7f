// Which way a picture is drawn, and bars.
#include <algorithm>

#include "base/text.hpp"
#include "picture/canvas.hpp"
#include "picture/lanes.hpp"
#include "picture/plot.hpp"

namespace gelwright {

namespace {

using namespace detail;

constexpr double label_step = 13.5;
constexpr double bar_height = 11;

/// Each bar under its label, the value behind it: long names have the whole width.
double draw_bars(Canvas& canvas, const Bars& bars, double y) {
  double most = 0;
  double widest = 0;
  for (const Bars::Row& row : bars.rows) {
    most = std::max(most, row.value);
    widest = std::max(widest, text_width(row.words));
  }
  const double left = picture_margin;
  const double room = picture_width - 2 * picture_margin - widest - 6;
  for (const Bars::Row& row : bars.rows) {
    for (const std::string& line : wrap(row.label, 50)) {
      y += label_step;
      canvas.text(left, y, line);
    }
    const double length = most > 0 ? room * row.value / most : 0;
    canvas.rect(left, y + 4, left + length, y + 4 + bar_height, "bar", bars.key);
    canvas.text(left + length + 5, y + 4 + bar_height - 1.5, row.words);
    y += 4 + bar_height + 4;
  }
  return y;
}

}  // namespace

int picture_strength(double chance) {
  constexpr double strong = 0.8;
  constexpr double middling = 0.5;
  if (chance >= strong) return 2;
  return chance >= middling ? 1 : 0;
}

std::string draw(const Picture& picture, bool alone) {
  Canvas canvas(picture.key);
  double y = canvas.print_title(picture.title);
  if (picture.bars)
    y = draw_bars(canvas, *picture.bars, y);
  else if (picture.lanes)
    y = draw_lanes(canvas, *picture.lanes, picture.x, y);
  else
    y = draw_plot(canvas, picture, y);
  return canvas.finish(picture, y + picture_margin, alone);
}

}  // namespace gelwright
