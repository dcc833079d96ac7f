#include "picture/canvas.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/rounding.hpp"
#include "base/text.hpp"
#include "picture/look.hpp"

namespace gelwright::detail {

namespace {

/// Of one column of a text in any usual face, in sizes of the text: an upper bound for sentences.
constexpr double column_width = 0.64;
/// How far letters reach above and below their base line, likewise.
constexpr double above_line = 0.95;
constexpr double below_line = 0.25;

/// From one line of text to the next.
constexpr double line_step = 13.5;
constexpr double sample_width = 22;

std::size_t columns_in(double width, double size) {
  return static_cast<std::size_t>(std::max(1.0, std::floor(width / (column_width * size))));
}

}  // namespace

bool overlap(const Box& a, const Box& b) {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

std::string coordinate(double value) {
  std::string text = fixed(value, 2);
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

double text_width(std::string_view text) {
  return column_width * text_size * static_cast<double>(display_width(text));
}

std::string named(const Axis& axis) {
  return axis.unit.empty() ? axis.label : axis.label + ", " + axis.unit;
}

Box Canvas::box_of(double x, double y, std::string_view text, Anchor anchor) {
  const double width = text_width(text);
  const double x0 = anchor == Anchor::start ? x : anchor == Anchor::end ? x - width : x - width / 2;
  return {x0, y - above_line * text_size, x0 + width, y + below_line * text_size};
}

void Canvas::text(double x, double y, std::string_view text, Anchor anchor, std::string_view css) {
  take(box_of(x, y, text, anchor));
  constexpr const char* anchors[] = {"start", "middle", "end"};
  const std::string at = anchors[static_cast<std::size_t>(anchor)];
  body_.open("text", {{"x", coordinate(x)},
                      {"y", coordinate(y)},
                      {"text-anchor", at},
                      {"class", css.empty() ? "label" : std::string(css)}});
  body_.plain(text).close().line();
}

void Canvas::line(double x0, double y0, double x1, double y1, std::string_view css) {
  body_
      .empty("line", {{"x1", coordinate(x0)},
                      {"y1", coordinate(y0)},
                      {"x2", coordinate(x1)},
                      {"y2", coordinate(y1)},
                      {"class", std::string(css)}})
      .line();
}

void Canvas::rect(double x0, double y0, double x1, double y1, std::string_view css,
                  std::string_view key) {
  path(fmt::format("M{} {}H{}V{}H{}z", coordinate(x0), coordinate(y0), coordinate(x1),
                   coordinate(y1), coordinate(x0)),
       css, key);
}

void Canvas::path(const std::string& d, std::string_view css, std::string_view key) {
  if (key.empty())
    body_.empty("path", {{"d", d}, {"class", std::string(css)}}).line();
  else
    body_.empty("path", {{"d", d}, {"class", std::string(css)}, {"data-series", std::string(key)}})
        .line();
}

void Canvas::marker(double x, double y, std::size_t number) {
  constexpr double r = 3.6;
  const std::string css = fmt::format("mark mark{}", number);
  const auto at = [](double px, double py) { return coordinate(px) + ' ' + coordinate(py); };
  switch (number % 4) {
    case 0:
      body_
          .empty(
              "circle",
              {{"cx", coordinate(x)}, {"cy", coordinate(y)}, {"r", coordinate(r)}, {"class", css}})
          .line();
      return;
    case 1:
      rect(x - r, y - r, x + r, y + r, css);
      return;
    case 2:
      path(fmt::format("M{}L{}L{}L{}z", at(x, y - 1.4 * r), at(x + 1.4 * r, y), at(x, y + 1.4 * r),
                       at(x - 1.4 * r, y)),
           css);
      return;
    default:
      path(fmt::format("M{}L{}L{}z", at(x, y - 1.3 * r), at(x + 1.3 * r, y + r),
                       at(x - 1.3 * r, y + r)),
           css);
  }
}

std::string Canvas::hatch(std::size_t kind) const {
  return fmt::format("{}-hatch-{}", key_, kind);
}

void Canvas::kind(const std::string& d, PictureKind kind, double chance, std::string_view key) {
  if (kind >= picture_kinds) return;
  path(d, fmt::format("k{} s{}", kind, picture_strength(chance)), key);
  if (kind == 0) return;  // the softest is left without hatching
  body_.empty("path", {{"d", d}, {"fill", "url(#" + hatch(kind) + ")"}, {"class", "over"}}).line();
}

bool Canvas::is_free(const Box& box, const Box& bounds, Over over) const {
  if (box.x0 < bounds.x0 || box.x1 > bounds.x1 || box.y0 < bounds.y0 || box.y1 > bounds.y1)
    return false;
  const auto hit = [&box](const Box& other) { return overlap(box, other); };
  return std::none_of(taken_.begin(), taken_.end(), hit) &&
         (over == Over::curves || std::none_of(passed_.begin(), passed_.end(), hit));
}

double Canvas::print_title(const std::string& title) {
  double y = picture_margin;
  constexpr double bold = 1.08;
  for (const std::string& each :
       wrap(title, columns_in(picture_width - 2 * picture_margin, bold * title_size))) {
    y += title_size + 2;
    text(picture_margin, y, each, Anchor::start, "title");
  }
  return y + 4;
}

double Canvas::print_key(double y) {
  double x = picture_margin;
  for (const KeyItem& item : key_items_) {
    using Sample = KeyItem::Sample;
    const double lead = item.sample == Sample::text ? 0 : sample_width;
    const double room = picture_width - 2 * picture_margin - lead;
    const std::vector<std::string> lines = wrap(item.words, columns_in(room, text_size));
    const double width = lead + text_width(lines.front()) + 12;
    if (x > picture_margin && (x + width > picture_width || lines.size() > 1)) {
      x = picture_margin;
      y += line_step;
    }
    const double middle = y - 3.5;
    const double x1 = x + sample_width - 5;
    const std::string box = fmt::format("M{} {}H{}V{}H{}z", coordinate(x), coordinate(y - 9),
                                        coordinate(x1), coordinate(y + 1), coordinate(x));
    if (item.sample == Sample::curve)
      line(x, middle, x1, middle, fmt::format("curve curve{}", item.number));
    if (item.sample == Sample::band) path(box, "band");
    if (item.sample == Sample::window) {
      path(box, "window");
      line(x, y + 1, x1, y + 1, "limit");
    }
    if (item.sample == Sample::limit) line((x + x1) / 2, y - 9, (x + x1) / 2, y + 1, "curve");
    if (item.sample == Sample::marker) marker((x + x1) / 2, middle, item.number);
    if (item.sample == Sample::kind) {
      kind(box, static_cast<PictureKind>(item.number), 0.65);
      path(box, "edge");
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (i > 0) y += line_step;
      text(x + lead, y, lines[i]);
    }
    x += width;
    if (lines.size() > 1) {
      x = picture_margin;
      y += line_step;
    }
  }
  return y + 4;
}

std::string Canvas::finish(const Picture& picture, double height, bool alone) const {
  const std::string title_id = key_ + "-title";
  const std::string sentence_id = key_ + "-sentence";
  const std::string view = fmt::format("0 0 {} {}", coordinate(picture_width), coordinate(height));
  const std::string labels = title_id + ' ' + sentence_id;
  Markup svg;
  if (alone)
    svg.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"},
                     {"viewBox", view},
                     {"width", coordinate(2 * picture_width)},
                     {"height", coordinate(2 * height)},
                     {"style", "max-width:100%;height:auto"},
                     {"role", "img"},
                     {"aria-labelledby", labels},
                     {"class", "pic"}});
  else
    svg.open("svg",
             {{"viewBox", view}, {"role", "img"}, {"aria-labelledby", labels}, {"class", "pic"}});
  svg.line().open("title", {{"id", title_id}}).plain(picture.title).close().line();
  svg.open("desc", {{"id", sentence_id}}).plain(picture.sentence).close().line();
  if (alone) svg.open("style").raw(picture_style).close().line();
  // The hatchings, softest texture first; each is told from the others in grey.
  constexpr const char* strokes[picture_kinds] = {"",
                                                  "",
                                                  "M0 0L8 8M8 0L0 8",
                                                  "M-2 10L10 -2M-2 2L2 -2M6 10L10 6",
                                                  "M-2 -2L10 10M6 -2L10 2M-2 6L2 10",
                                                  "M0 2H8M0 6H8",
                                                  "M0 2H8M0 6H8M2 0V8M6 0V8"};
  if (picture.regions || picture.strip) {
    svg.open("defs").line();
    for (std::size_t k = 1; k < picture_kinds; ++k) {
      svg.open(
          "pattern",
          {{"id", hatch(k)}, {"width", "8"}, {"height", "8"}, {"patternUnits", "userSpaceOnUse"}});
      if (*strokes[k] == '\0')
        svg.empty("circle", {{"cx", "2"}, {"cy", "2"}, {"r", "1"}, {"class", "dot"}})
            .empty("circle", {{"cx", "6"}, {"cy", "6"}, {"r", "1"}, {"class", "dot"}});
      else
        svg.empty("path", {{"d", strokes[k]}, {"class", "hatch"}});
      svg.close().line();
    }
    svg.close().line();
  }
  svg.empty("rect", {{"width", coordinate(picture_width)},
                     {"height", coordinate(height)},
                     {"class", "ground"}})
      .line();
  svg.raw(body_.str()).close().line();
  return svg.str();
}

}  // namespace gelwright::detail
