// Where the values of a JSON document stand in its text. Private: for editing a document in place.
#pragma once

#include <cstddef>
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

/// The places of all values of `text`, a document that `parse_json` accepts.
Place places_of(std::string_view text);

}  // namespace gelwright::detail
