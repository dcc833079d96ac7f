// How wide a text stands on paper, and where it may break. Private.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace gelwright {

/// Columns a UTF-8 text takes, counting one for each code point.
std::size_t display_width(std::string_view text);

/// The text in lines of at most `width` columns, broken at spaces; a longer word stands alone.
std::vector<std::string> wrap(std::string_view text, std::size_t width);

}  // namespace gelwright
