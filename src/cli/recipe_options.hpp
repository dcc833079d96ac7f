// The recipe a command works on, and the knobs turned before it does.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

#include "gelwright/recipe.hpp"

namespace gelwright::cli {

struct RecipeOptions {
  std::string file;               ///< "-" for standard input
  std::vector<std::string> with;  ///< "acid_g=0.5"
};

/// "acid_g, calcium_salt_g, ...": for the help.
std::string knob_names();

/// Adds --with.
void bind_knobs(CLI::App& command, RecipeOptions& options);
/// Adds the recipe, required, and --with.
void bind_recipe(CLI::App& command, RecipeOptions& options);

/// Reads the recipe with its knobs turned, targets still unresolved. Throws InputError.
Recipe load_recipe(const RecipeOptions& options);

/// The recipe with the knobs turned. Throws InputError.
Recipe with_knobs(const Recipe& recipe, const RecipeOptions& options);

}  // namespace gelwright::cli
