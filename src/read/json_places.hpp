// Where the values of a JSON document stand in its text. Private: for editing a document in place,
// and for saying where a mistake is.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace gelwright::detail {

/// The bytes [begin, end) of a value. A member's key stands at [key, key_end); of an element and of
/// the whole document, both are `begin`.
struct Place {
  std::size_t key = 0;
  std::size_t key_end = 0;
  std::size_t begin = 0;
  std::size_t end = 0;
  std::vector<Place> kids;  ///< members or elements in the order of the text
};

/// The places of all values of `text`; nothing where it is no JSON.
std::optional<Place> found_places(std::string_view text);

/// Likewise of a document that `parse_json` accepts.
Place places_of(std::string_view text);

/// Lines and columns from 1, columns in characters.
struct LineColumn {
  std::size_t line = 1;
  std::size_t column = 1;
};

/// Where the byte stands in the text.
LineColumn line_and_column(std::string_view text, std::size_t byte);

/// Where the key or the element stands that a JSON pointer names, or what is nearest around it
/// where it is not there. Nothing where that is the whole document.
std::optional<LineColumn> place_of(std::string_view pointer, const Place& document,
                                   std::string_view text);

}  // namespace gelwright::detail
