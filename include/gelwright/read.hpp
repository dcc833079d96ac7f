// The ways in: documents and tables to plain data. Nothing is guessed, every problem is reported.
#pragma once

#include <string>
#include <string_view>

#include "gelwright/bench.hpp"
#include "gelwright/recipe.hpp"

namespace gelwright {

/// Reads a recipe document, format "gelwright/recipe-2" or the older "gelwright/recipe-1".
/// `document` names it in errors. Throws InputError with every problem found.
Recipe read_recipe(std::string_view json_text, std::string document);

/// Reads one water report, or a blend, as the recipe's `tap` takes it. Throws InputError.
Tap read_water_report(std::string_view json_text, std::string document);

/// Reads comma-separated text with a header line. Columns may stand in any order; reading columns
/// may be missing or blank. Cells may be quoted; a byte order mark and any line ending are
/// accepted. `document` names the file in errors. Throws InputError with every problem, each with
/// its line and column; nothing is guessed, decimal commas included.
Bench read_bench(std::string_view text, std::string document);

}  // namespace gelwright
