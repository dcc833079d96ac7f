// The files of recipes/, compiled in. Private; made at build time by shipped.cmake.
#pragma once

#include <string_view>
#include <vector>

namespace gelwright::detail {

struct ShippedText {
  std::string_view file;  ///< "kitchen.json"
  std::string_view text;
};

const std::vector<ShippedText>& shipped_texts();

}  // namespace gelwright::detail
