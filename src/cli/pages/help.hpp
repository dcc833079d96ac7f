// What `--help` prints.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace gelwright::cli {

/// Help on the command that was chosen, else on the program; at most 80 columns wide.
std::string help_text(const CLI::App& program);

}  // namespace gelwright::cli
