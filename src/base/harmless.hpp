// Text from a file, made harmless to the terminal it may be printed on. Private.
#pragma once

#include <string>
#include <string_view>

namespace gelwright::detail {

/// The text with everything that could steer a terminal or hide from the reader written out:
/// control characters of both sets (U+0000 to U+001F, U+007F to U+009F), line and paragraph
/// separators and the characters that turn the direction of writing become \u202e and the like, a
/// byte that is not UTF-8 becomes \xff. Everything else stays as it is.
std::string visible(std::string_view text);

/// As `visible`, for a whole document: line ends stay. A JSON document still says the same, since
/// \u202e in a JSON string is the character itself.
std::string visible_document(std::string_view text);

}  // namespace gelwright::detail
