#include "picture/lanes.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/rounding.hpp"
#include "base/text.hpp"
#include "picture/ticks.hpp"

namespace gelwright::detail {

namespace {

constexpr double line_step = 13.5;
constexpr double lane_height = 13;
/// The ends of the axis keep off the edges: a tick's number and a marker stand half outside.
constexpr double side = 14;
constexpr int most_ticks = 8;
constexpr std::size_t columns = 50;

/// Label and words in one line where they have room there, else in lines of their own.
std::vector<std::string> heading(const Lanes::Row& row) {
  const std::string one = row.label + ": " + row.words;
  if (display_width(one) <= columns) return {one};
  std::vector<std::string> lines = wrap(row.label, columns);
  for (std::string& line : wrap(row.words, columns)) lines.push_back(std::move(line));
  return lines;
}

class LaneDrawing {
 public:
  LaneDrawing(Canvas& canvas, const Axis& axis)
      : canvas_(canvas), axis_(axis), ticks_(round_ticks(axis.low, axis.high, most_ticks)) {}

  /// The label over its lane: long names have the whole width.
  double draw(const Lanes::Row& row, const std::string& key, double y) {
    for (const std::string& line : heading(row)) {
      y += line_step;
      canvas_.text(picture_margin, y, line);
    }
    const double top = y + 4;
    const double bottom = top + lane_height;
    for (const double tick : ticks_.at) canvas_.line(x_at(tick), top, x_at(tick), bottom, "grid");
    if (row.from && row.to)
      canvas_.rect(x_at(*row.from), top + 1, x_at(*row.to), bottom - 1, "band", key);
    canvas_.line(x_at(axis_.low), bottom, x_at(axis_.high), bottom, "tick");
    if (row.limit && inside(*row.limit))
      canvas_.path(fmt::format("M{} {}V{}", coordinate(x_at(*row.limit)), coordinate(top - 1),
                               coordinate(bottom + 1)),
                   "curve", key + "-limit");
    for (const double at : row.at)
      if (inside(at)) canvas_.marker(x_at(at), (top + bottom) / 2, 0);
    return bottom + 2;
  }

  double draw_axis(double y) {
    const double base = y + line_step;
    for (const double tick : ticks_.at) {
      canvas_.line(x_at(tick), y - 2, x_at(tick), y + 2, "tick");
      canvas_.text(x_at(tick), base, fixed(tick, ticks_.decimals), Anchor::middle, "x-tick");
    }
    canvas_.text(picture_width - picture_margin, base + line_step, named(axis_), Anchor::end);
    return base + line_step;
  }

 private:
  bool inside(double value) const { return value >= axis_.low && value <= axis_.high; }
  double x_at(double value) const {
    const double share =
        (std::clamp(value, axis_.low, axis_.high) - axis_.low) / (axis_.high - axis_.low);
    return side + share * (picture_width - 2 * side);
  }

  Canvas& canvas_;
  const Axis& axis_;
  Ticks ticks_;
};

}  // namespace

double draw_lanes(Canvas& canvas, const Lanes& lanes, const Axis& axis, double y) {
  LaneDrawing drawing(canvas, axis);
  bool bars = false;
  bool limits = false;
  for (const Lanes::Row& row : lanes.rows) {
    y = drawing.draw(row, lanes.key, y);
    bars = bars || row.from;
    limits = limits || (row.limit && *row.limit >= axis.low && *row.limit <= axis.high);
  }
  y = drawing.draw_axis(y);
  canvas.explain({Canvas::KeyItem::Sample::marker, 0, lanes.marker_label});
  if (bars) canvas.explain({Canvas::KeyItem::Sample::band, 0, lanes.bar_label});
  if (limits) canvas.explain({Canvas::KeyItem::Sample::limit, 0, lanes.limit_label});
  return canvas.print_key(y + line_step + 2);
}

}  // namespace gelwright::detail
