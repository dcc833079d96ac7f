// The worked command lines that help and manual show.
#pragma once

#include <span>
#include <string_view>

namespace gelwright::cli {

struct Example {
  std::string_view command;  ///< "sheet"; empty for the program itself
  std::string_view line;     ///< as typed from the top of the source
  std::string_view does;
};

/// All of them, two or more for each command; a test runs every line.
std::span<const Example> examples();

}  // namespace gelwright::cli
