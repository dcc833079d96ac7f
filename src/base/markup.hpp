// HTML and SVG written element by element. Private.
//
// Text and attributes go in as they are and come out escaped: there is no way to write a tag with a
// text, so nothing a recipe says can become one.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace gelwright::detail {

struct Attribute {
  std::string_view name;
  std::string value;
};
using Attributes = std::initializer_list<Attribute>;

/// The text with the five characters of markup as entities.
std::string escaped_markup(std::string_view text);

class Markup {
 public:
  /// An element that what follows goes into, until it is closed.
  Markup& open(std::string_view name, Attributes attributes = {});
  Markup& close();
  /// An element without anything in it: `<br>` in HTML, `<path .../>` in SVG.
  Markup& empty(std::string_view name, Attributes attributes = {});
  /// An element that holds only this text.
  Markup& leaf(std::string_view name, std::string_view text, Attributes attributes = {});
  /// Text. Words of a script that runs from right to left are isolated, so that they turn nothing
  /// around them.
  Markup& text(std::string_view text);
  /// Text of an element that allows no elements in it, such as a title.
  Markup& plain(std::string_view text);
  /// What is markup already, such as a style sheet or a picture.
  Markup& raw(std::string_view markup);
  /// Starts a new line, for who reads the source.
  Markup& line();

  const std::string& str() const { return out_; }

 private:
  void begin(std::string_view name, Attributes attributes);

  std::string out_;
  std::vector<std::string> open_;
};

}  // namespace gelwright::detail
