// The program as the parser sees it: all commands, and what it says of itself.
#pragma once

#include "cli/command.hpp"

namespace gelwright::cli {

/// "gelwright 0.1.0" and, on a second line, the libraries it was built with.
std::string version_text();

/// Fills the parser.
void add_commands(Registry registry);

}  // namespace gelwright::cli
