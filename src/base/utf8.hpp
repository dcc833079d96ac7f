// Taking UTF-8 apart, character by character. Private.
#pragma once

#include <cstddef>
#include <string_view>

namespace gelwright::detail {

struct Character {
  char32_t code = 0;
  std::size_t bytes = 1;  ///< it takes in the text; 1 where it is not valid
  bool valid = false;     ///< false: a byte that begins no well-formed character
};

/// The first character of a text that is not empty. Refuses overlong forms, surrogates and codes
/// above U+10FFFF (Unicode 15.0, table 3-7).
Character first_character(std::string_view text);

}  // namespace gelwright::detail
