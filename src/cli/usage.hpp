// What was meant by a command line the parser does not take.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace gelwright::cli {

/// The arguments with the command in front: options may stand before it too. `arguments` begins
/// with the program's name.
std::vector<char*> command_first(const CLI::App& app, std::vector<char*> arguments);

/// What is wrong with the arguments, in a sentence without full stop: a command or an option nobody
/// knows, with the name that was likely meant; else what the parser says.
std::string usage_problem(const CLI::App& app, const std::vector<char*>& arguments,
                          const CLI::ParseError& error);

}  // namespace gelwright::cli
