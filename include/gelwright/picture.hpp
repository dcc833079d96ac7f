// A picture as typed series, and the one way to draw it as SVG.
//
// What a picture shows stands in these series, in the units of its axes; a script gets the same
// series, so that the drawing and the numbers cannot disagree. Nothing in a drawing is told by
// colour alone: dashes, markers and hatching say it too.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace gelwright {

/// A straight scale from `low` to `high`, in the unit named.
struct Axis {
  std::string label = {};
  std::string unit = {};
  double low = 0;
  double high = 1;
};

/// A line through points, left to right.
struct Curve {
  std::string key = {};
  std::string label = {};
  std::vector<double> x = {}, y = {};
};

/// What lies between two lines.
struct Band {
  std::string key = {};
  std::string label = {};
  std::vector<double> x = {}, low = {}, high = {};
};

/// Single points, each with a name where it has one, and how far it may be off to either side.
struct Points {
  std::string key = {};
  std::string label = {};
  std::vector<double> x = {}, y = {};
  std::vector<std::string> names = {};  ///< as many as points, or none
  std::vector<double> x_half = {};      ///< half-widths along x, likewise
};

/// What is wanted of y: from `low`, up to `high`, or both.
struct Window {
  std::string key = {};
  std::string label = {};
  std::optional<double> low = {}, high = {};
};

/// One of the kinds a strip or a map is made of. The hatching goes by its number, 0 to 6.
using PictureKind = std::uint8_t;
inline constexpr PictureKind picture_kinds = 7;
inline constexpr PictureKind no_kind = 255;  ///< nothing is known there

/// How strong the colour of a kind is: 0, from a chance of 0.5 on 1, from 0.8 on 2.
int picture_strength(double chance);

/// What is likeliest from x to x.
struct Strip {
  struct Piece {
    double from = 0, to = 0;
    PictureKind kind = 0;
    double chance = 0;  ///< 0 to 1; the surer, the darker
  };
  std::string key = {};
  std::string label = {};
  std::vector<std::string> kinds = {};  ///< names, by number
  std::vector<Piece> pieces = {};
};

/// What is likeliest in each cell of a grid over both axes.
struct Regions {
  std::string key = {};
  std::string label = {};
  std::vector<std::string> kinds = {};  ///< names, by number
  std::size_t columns = 0, rows = 0;
  std::vector<PictureKind> kind = {};  ///< row by row, lowest y first
  std::vector<double> chance = {};     ///< of that kind, 0 to 1, likewise
};

/// Amounts side by side, each as a bar from 0. They have no axes.
struct Bars {
  struct Row {
    std::string label = {};
    double value = 0;
    std::string words = {};  ///< the value as it is printed
  };
  std::string key = {};
  std::vector<Row> rows = {};
};

/// What is done when: a lane for each thing along x, with a marker at each time. They have no y
/// axis.
struct Lanes {
  struct Row {
    std::string label = {};
    std::string words = {};            ///< behind the label
    std::vector<double> at = {};       ///< when, along x
    std::optional<double> from = {};   ///< of its bar, where it has one
    std::optional<double> to = {};     ///< likewise; there are both or none
    std::optional<double> limit = {};  ///< how far the bar may go; not drawn where off the axis
  };
  std::string key = {};
  std::string marker_label = {}, bar_label = {}, limit_label = {};  ///< what they stand for
  std::vector<Row> rows = {};
};

/// One picture: bars, lanes, or series over two axes, drawn in the order of the fields.
struct Picture {
  std::string key = {};       ///< in JSON
  std::string title = {};     ///< above it
  std::string sentence = {};  ///< what it shows, for who cannot see it
  Axis x = {}, y = {};
  std::optional<Regions> regions = {};
  std::vector<Window> windows = {};
  std::vector<Band> bands = {};
  std::vector<Curve> curves = {};
  std::vector<Points> points = {};
  std::optional<Strip> strip = {};
  std::optional<Bars> bars = {};
  std::optional<Lanes> lanes = {};
};

/// The picture as an SVG element that fits a page 360 px wide. `alone`: as a document of its own,
/// with its style in it.
std::string draw(const Picture& picture, bool alone);

}  // namespace gelwright
