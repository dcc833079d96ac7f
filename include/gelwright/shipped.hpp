// The recipes that come with the program: to start from, wherever it is installed.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace gelwright {

/// Their names, sorted: "alginate-slow-acid", ...
std::vector<std::string> shipped_recipe_names();

/// The document of one, with all it takes from its kitchen in it, so that it stands alone.
/// Throws InputError for a name there is none of.
std::string shipped_recipe(std::string_view name);

}  // namespace gelwright
