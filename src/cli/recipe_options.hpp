// The recipe a command works on, and the knobs turned before it does.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "gelwright/read.hpp"
#include "gelwright/recipe.hpp"

namespace gelwright::cli {

struct RecipeOptions {
  std::string file;                    ///< "-" for standard input
  std::optional<std::string> kitchen;  ///< likewise; in place of the one the recipe names
  std::vector<std::string> with;       ///< "acid_g=0.5"
};

/// A recipe and its kitchen as they stand in their files.
struct RecipeTexts {
  std::string text;
  std::string document;
  std::optional<KitchenDocument> kitchen;
};

/// "acid_g, calcium_salt_g, ...": for the help.
std::string knob_names();

/// Adds --with.
void bind_knobs(CLI::App& command, RecipeOptions& options);
/// Adds the recipe, required, and --kitchen.
void bind_recipe_alone(CLI::App& command, RecipeOptions& options);
/// Adds those and --with.
void bind_recipe(CLI::App& command, RecipeOptions& options);

/// Reads the files. Throws InputError.
RecipeTexts read_texts(const RecipeOptions& options);

/// The recipe as it is written. Throws InputError.
Recipe read_recipe(const RecipeTexts& texts);

/// Reads the recipe with its knobs turned, targets still unresolved. Throws InputError.
Recipe load_recipe(const RecipeOptions& options);

/// The recipe with the knobs turned. Throws InputError.
Recipe with_knobs(const Recipe& recipe, const RecipeOptions& options);

}  // namespace gelwright::cli
