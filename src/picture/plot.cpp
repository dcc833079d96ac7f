#include "picture/plot.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/rounding.hpp"
#include "picture/regions.hpp"
#include "picture/ticks.hpp"

namespace gelwright::detail {

namespace {

constexpr double plot_height = 200;
constexpr double right_margin = 16;
constexpr double strip_height = 18;
constexpr double line_step = 13.5;

class Plot {
 public:
  Plot(Canvas& canvas, const Picture& picture, double top)
      : canvas_(canvas), picture_(picture), x_(picture.x), y_(picture.y) {
    constexpr int most_ticks = 6;
    x_ticks_ = round_ticks(x_.low, x_.high, most_ticks);
    y_ticks_ = round_ticks(y_.low, y_.high, most_ticks);
    double widest = 0;
    for (const double tick : y_ticks_.at)
      widest = std::max(widest, text_width(fixed(tick, y_ticks_.decimals)));
    // The topmost tick's number stands beside the corner of the frame, below the axis' name.
    const double frame_top = top + line_step + 6;
    canvas_.text(picture_margin, frame_top - 10, named(y_));
    frame_ = {picture_margin + widest + 6, frame_top, picture_width - right_margin,
              frame_top + plot_height};
  }

  double draw() {
    if (picture_.regions) draw_regions(canvas_, *picture_.regions, frame_);
    if (!picture_.regions) draw_grid();
    for (const Window& window : picture_.windows) draw_window(window);
    for (const Band& band : picture_.bands) draw_band(band);
    for (std::size_t i = 0; i < picture_.curves.size(); ++i) draw_curve(picture_.curves[i], i);
    canvas_.rect(frame_.x0, frame_.y0, frame_.x1, frame_.y1, "frame");
    double y = draw_axes();
    draw_points();
    name_points();
    for (std::size_t i = 0; i < picture_.curves.size(); ++i) name_curve(picture_.curves[i], i);
    for (const Window& window : picture_.windows) name_window(window);
    for (const Band& band : picture_.bands)
      canvas_.explain({Canvas::KeyItem::Sample::band, 0, band.label});
    if (picture_.regions) {
      name_regions(canvas_, *picture_.regions, frame_);
      canvas_.explain({Canvas::KeyItem::Sample::text, 0,
                       picture_.regions->label + ": the stronger the colour, the surer"});
    }
    if (picture_.strip) y = draw_strip(*picture_.strip, y);
    return canvas_.print_key(y + line_step + 2);
  }

 private:
  double x_at(double value) const {
    return frame_.x0 + (value - x_.low) / (x_.high - x_.low) * (frame_.x1 - frame_.x0);
  }
  double y_at(double value) const {
    return frame_.y1 - (value - y_.low) / (y_.high - y_.low) * (frame_.y1 - frame_.y0);
  }
  bool inside(double x, double y) const {
    return x >= x_.low && x <= x_.high && y >= y_.low && y <= y_.high;
  }
  std::string point(double x, double y) const {
    return coordinate(x_at(x)) + ' ' + coordinate(y_at(y));
  }

  void draw_grid() {
    for (const double tick : y_ticks_.at)
      canvas_.line(frame_.x0, y_at(tick), frame_.x1, y_at(tick), "grid");
  }

  double draw_axes() {
    for (const double tick : y_ticks_.at) {
      canvas_.line(frame_.x0 - 3, y_at(tick), frame_.x0, y_at(tick), "tick");
      canvas_.text(frame_.x0 - 5, y_at(tick) + 3.5, fixed(tick, y_ticks_.decimals), Anchor::end,
                   "y-tick");
    }
    const double y = frame_.y1 + 4 + line_step - 3;
    for (const double tick : x_ticks_.at) {
      canvas_.line(x_at(tick), frame_.y1, x_at(tick), frame_.y1 + 3, "tick");
      canvas_.text(x_at(tick), y, fixed(tick, x_ticks_.decimals), Anchor::middle, "x-tick");
    }
    canvas_.text(frame_.x1, y + line_step, named(x_), Anchor::end);
    return y + line_step;
  }

  void draw_window(const Window& window) {
    const double low = std::clamp(window.low.value_or(y_.low), y_.low, y_.high);
    const double high = std::clamp(window.high.value_or(y_.high), y_.low, y_.high);
    canvas_.rect(frame_.x0, y_at(high), frame_.x1, y_at(low), "window", window.key);
    for (const auto& limit : {window.low, window.high})
      if (limit && *limit >= y_.low && *limit <= y_.high)
        canvas_.line(frame_.x0, y_at(*limit), frame_.x1, y_at(*limit), "limit");
  }

  void name_window(const Window& window) {
    const double edge = window.high ? *window.high : window.low.value_or(y_.high);
    const double y = y_at(std::clamp(edge, y_.low, y_.high)) + 11;
    for (const auto& [x, anchor] :
         {std::pair{frame_.x1 - 4, Anchor::end}, std::pair{frame_.x0 + 4, Anchor::start},
          std::pair{(frame_.x0 + frame_.x1) / 2, Anchor::middle}})
      if (canvas_.is_free(Canvas::box_of(x, y, window.label, anchor), frame_)) {
        canvas_.text(x, y, window.label, anchor, "halo");
        return;
      }
    canvas_.explain({Canvas::KeyItem::Sample::window, 0, window.label});
  }

  void draw_band(const Band& band) {
    std::string d;
    for (std::size_t i = 0; i < band.x.size(); ++i)
      d += (i == 0 ? 'M' : 'L') + point(band.x[i], band.low[i]);
    for (std::size_t i = band.x.size(); i-- > 0;) d += 'L' + point(band.x[i], band.high[i]);
    canvas_.path(d + 'z', "band", band.key);
  }

  void draw_curve(const Curve& curve, std::size_t number) {
    std::string d;
    for (std::size_t i = 0; i < curve.x.size(); ++i) {
      d += (i == 0 ? 'M' : 'L') + point(curve.x[i], curve.y[i]);
      if (i == 0) continue;
      // Texts keep off the line between the points too.
      constexpr int steps = 8;
      for (int s = 0; s <= steps; ++s) {
        const double part = static_cast<double>(s) / steps;
        canvas_.pass(x_at(std::lerp(curve.x[i - 1], curve.x[i], part)),
                     y_at(std::lerp(curve.y[i - 1], curve.y[i], part)));
      }
    }
    canvas_.path(d, fmt::format("curve curve{}", number), curve.key);
  }

  void name_curve(const Curve& curve, std::size_t number) {
    if (curve.label.empty()) return;
    for (const double part : {0.8, 0.6, 0.4, 0.2, 0.9, 0.1})
      for (const double below : {-7.0, 15.0, -16.0, 24.0}) {
        const auto i = static_cast<std::size_t>(part * static_cast<double>(curve.x.size() - 1));
        const double x = x_at(curve.x[i]);
        const double y = y_at(curve.y[i]) + below;
        for (const Anchor anchor : {Anchor::middle, Anchor::start, Anchor::end})
          if (canvas_.is_free(Canvas::box_of(x, y, curve.label, anchor), frame_)) {
            canvas_.text(x, y, curve.label, anchor, "halo");
            if (picture_.curves.size() == 1) return;
            canvas_.explain({Canvas::KeyItem::Sample::curve, number, curve.label});
            return;
          }
      }
    canvas_.explain({Canvas::KeyItem::Sample::curve, number, curve.label});
  }

  void draw_points() {
    // The first series comes on top of the others where they meet.
    for (std::size_t s = picture_.points.size(); s-- > 0;) {
      const Points& points = picture_.points[s];
      for (std::size_t i = 0; i < points.x.size(); ++i) {
        if (!inside(points.x[i], points.y[i])) continue;
        const double x = x_at(points.x[i]);
        const double y = y_at(points.y[i]);
        if (i < points.x_half.size()) {
          const double from = x_at(std::max(points.x[i] - points.x_half[i], x_.low));
          const double to = x_at(std::min(points.x[i] + points.x_half[i], x_.high));
          canvas_.line(from, y, to, y, "off");
          for (const double end : {from, to}) canvas_.line(end, y - 6, end, y + 6, "off");
        }
        canvas_.marker(x, y, s);
        canvas_.take({x - 6, y - 6, x + 6, y + 6});
      }
    }
    for (std::size_t s = 0; s < picture_.points.size(); ++s)
      canvas_.explain({Canvas::KeyItem::Sample::marker, s, picture_.points[s].label});
  }

  void name_points() {
    for (const Points& points : picture_.points)
      for (std::size_t i = 0; i < points.names.size(); ++i) {
        if (!inside(points.x[i], points.y[i]) || points.names[i].empty()) continue;
        const double x = x_at(points.x[i]);
        const double y = y_at(points.y[i]);
        struct Try {
          double dx, dy;
          Anchor anchor;
        };
        // Clear of the curves where that can be done, else over one: its halo keeps it legible.
        const auto put = [&](Canvas::Over over) {
          for (const Try& at : {Try{8, 3.5, Anchor::start}, Try{-8, 3.5, Anchor::end},
                                Try{0, -9, Anchor::middle}, Try{0, 17, Anchor::middle}}) {
            const Box box = Canvas::box_of(x + at.dx, y + at.dy, points.names[i], at.anchor);
            if (!canvas_.is_free(box, frame_, over)) continue;
            canvas_.text(x + at.dx, y + at.dy, points.names[i], at.anchor, "halo");
            return true;
          }
          return false;
        };
        if (!put(Canvas::Over::nothing)) put(Canvas::Over::curves);
      }
  }

  double draw_strip(const Strip& strip, double y) {
    y += line_step + 3;
    canvas_.text(frame_.x0, y, strip.label);
    const double top = y + 4;
    const double bottom = top + strip_height;
    bool seen[picture_kinds] = {};
    for (const Strip::Piece& piece : strip.pieces) {
      if (piece.kind == no_kind) continue;
      const double from = x_at(piece.from);
      const double to = x_at(piece.to);
      canvas_.kind(fmt::format("M{} {}H{}V{}H{}z", coordinate(from), coordinate(top),
                               coordinate(to), coordinate(bottom), coordinate(from)),
                   piece.kind, piece.chance, strip.key);
      seen[piece.kind] = true;
    }
    // The borders of a kind, over its steps of strength; its name where there is room.
    for (std::size_t i = 0; i < strip.pieces.size();) {
      std::size_t end = i;
      while (end < strip.pieces.size() && strip.pieces[end].kind == strip.pieces[i].kind) ++end;
      const PictureKind kind = strip.pieces[i].kind;
      const double from = x_at(strip.pieces[i].from);
      const double to = x_at(strip.pieces[end - 1].to);
      canvas_.rect(from, top, to, bottom, "edge");
      if (kind != no_kind && text_width(strip.kinds[kind]) + 6 <= to - from)
        canvas_.text((from + to) / 2, top + 12.5, strip.kinds[kind], Anchor::middle, "halo");
      i = end;
    }
    for (PictureKind k = 0; k < picture_kinds; ++k)
      if (seen[k]) canvas_.explain({Canvas::KeyItem::Sample::kind, k, strip.kinds[k]});
    return bottom;
  }

  Canvas& canvas_;
  const Picture& picture_;
  Axis x_;
  Axis y_;
  Ticks x_ticks_;
  Ticks y_ticks_;
  Box frame_;
};

}  // namespace

double draw_plot(Canvas& canvas, const Picture& picture, double y) {
  return Plot(canvas, picture, y).draw();
}

}  // namespace gelwright::detail
