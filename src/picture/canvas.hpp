// What a picture is drawn on: elements from top to bottom, and where text already stands. Private.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/markup.hpp"
#include "gelwright/picture.hpp"

namespace gelwright::detail {

/// Width of every picture, in its own units.
inline constexpr double picture_width = 360;
inline constexpr double picture_margin = 6;

struct Box {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
};
bool overlap(const Box& a, const Box& b);

/// A coordinate as it is written: two decimals, and none that say nothing.
std::string coordinate(double value);

/// At most how wide a text is set.
double text_width(std::string_view text);

/// An axis' name with its unit.
std::string named(const Axis& axis);

enum class Anchor { start, middle, end };

class Canvas {
 public:
  explicit Canvas(std::string key) : key_(std::move(key)) {}

  /// The base line of a text and the box it takes; the box counts as taken.
  void text(double x, double y, std::string_view text, Anchor anchor = Anchor::start,
            std::string_view css = "");
  static Box box_of(double x, double y, std::string_view text, Anchor anchor);
  void line(double x0, double y0, double x1, double y1, std::string_view css);
  void rect(double x0, double y0, double x1, double y1, std::string_view css,
            std::string_view key = "");
  void path(const std::string& d, std::string_view css, std::string_view key = "");
  /// A marker of the n-th series: circle, square, diamond, triangle.
  void marker(double x, double y, std::size_t number);
  /// A rectangle or path filled as a kind is: colour by number, strength by chance, hatching.
  void kind(const std::string& d, PictureKind kind, double chance, std::string_view key = "");

  /// Whether a text may stand there: inside the bounds, clear of other texts and of what is drawn,
  /// but for what it may lie over.
  enum class Over { nothing, curves };
  bool is_free(const Box& box, const Box& bounds, Over over = Over::nothing) const;
  void take(const Box& box) { taken_.push_back(box); }
  /// What a curve passes: no text is put over it.
  void pass(double x, double y) { passed_.push_back({x - 1, y - 1, x + 1, y + 1}); }

  /// A sample and what it stands for, below the picture; wrapped into rows by `print_key`.
  struct KeyItem {
    enum class Sample { curve, band, window, limit, marker, kind, text } sample;
    std::size_t number = 0;
    std::string words;
  };
  void explain(KeyItem item) { key_items_.push_back(std::move(item)); }
  /// Title at the top, in as many lines as it takes. Gives where to go on.
  double print_title(const std::string& title);
  double print_key(double y);

  /// The whole element, `height` tall.
  std::string finish(const Picture& picture, double height, bool alone) const;

 private:
  std::string hatch(std::size_t kind) const;

  std::string key_;
  Markup body_;
  std::vector<Box> taken_;
  std::vector<Box> passed_;
  std::vector<KeyItem> key_items_;
};

}  // namespace gelwright::detail
