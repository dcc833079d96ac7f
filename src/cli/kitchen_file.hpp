// The kitchen of a recipe: which file it is, and reading it.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "gelwright/read.hpp"

namespace gelwright::cli {

/// Adds --kitchen.
void bind_kitchen(CLI::App& command, std::optional<std::string>& file);

/// The kitchen asked for on the command line, else the one the recipe names, else none. Where the
/// recipe names it, it lies in the recipe's own folder or below: whoever wrote the recipe cannot
/// make the program read anything else. It is never looked for. Throws InputError.
std::optional<KitchenDocument> kitchen_of(const std::string& recipe_file, const std::string& text,
                                          const std::optional<std::string>& asked);

}  // namespace gelwright::cli
