// Manual pages for `man`, from what `--help` says.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <string_view>

namespace gelwright::cli {

/// The page of the program itself, gelwright(1).
std::string manual_of_program(const CLI::App& program, std::string_view version);

/// The page of one of its commands, as in gelwright-sheet(1).
std::string manual_of_command(const CLI::App& command, std::string_view version);

}  // namespace gelwright::cli
