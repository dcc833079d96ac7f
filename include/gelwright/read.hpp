// The ways in: documents and tables to plain data. Nothing is guessed, every problem is reported.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "gelwright/bench.hpp"
#include "gelwright/error.hpp"
#include "gelwright/notebook.hpp"
#include "gelwright/recipe.hpp"

namespace gelwright {

/// The text of a kitchen document (format "gelwright/kitchen-1"), and what errors call it.
struct KitchenDocument {
  std::string text;
  std::string document;
};

/// Reads a recipe document, format "gelwright/recipe-2" or the older "gelwright/recipe-1", with the
/// kitchen that holds what it only names. Where both speak the recipe wins. `document` names the
/// recipe in errors. Throws InputError with every problem found: those of the kitchen, which is
/// read to its last line, and those of the recipe; where the kitchen has any, only those that do
/// not hang on it.
Recipe read_recipe(std::string_view json_text, std::string document,
                   const std::optional<KitchenDocument>& kitchen = std::nullopt);

/// What a recipe, or another document with a `kitchen` key, calls its kitchen: to be handed in
/// with it. Nothing where there is no usable name. Throws InputError where it is not JSON.
std::optional<std::string> kitchen_named(std::string_view json_text, const std::string& document);

/// What is wrong with a kitchen, and with it what is wrong with the recipe whatever its kitchen
/// says. `kitchen` is left out where it could not be had at all. Throws InputError where the recipe
/// is not JSON.
InputError with_faults_of_recipe(const InputError& of_kitchen, std::string_view json_text,
                                 const std::string& document,
                                 const std::optional<KitchenDocument>& kitchen = std::nullopt);

/// Reads one water report, or a blend, as the recipe's `tap` takes it, or the tap of a whole
/// recipe. Throws InputError.
Tap read_water_report(std::string_view json_text, std::string document,
                      const std::optional<KitchenDocument>& kitchen = std::nullopt);

/// A thing bought ready to eat, as one piece of it.
struct Bought {
  Ingredient ingredient;
  double piece_g = 0;
  std::optional<double> pieces;  ///< how many; absent: not said
  bool sugars_stated = true;     ///< false: a label that does not give them
  std::optional<double> price;   ///< of a piece
  std::string currency;          ///< of it; empty where it was typed without one
};

/// Reads "oat bar=2", a mix that the kitchen defines, or "oat bar,piece_g=45,carbohydrate_g=30",
/// any other by the figures of its label, with the keys a document has for them; `count` is how
/// many, `price` what a piece costs. A piece is what the label is for where nothing else is said.
/// Throws InputError.
Bought read_bought(std::string_view text, const std::optional<KitchenDocument>& kitchen,
                   std::string document);

/// Reads a notebook, one entry a line. What cannot be understood, a torn last line or the line of a
/// newer version, is listed and left as it is; nothing here throws for it.
Notebook read_notebook(std::string_view text, std::string document);

/// The entry of a recipe that was added last, or nothing; reads no more of the text than it has to.
std::optional<NotebookEntry> last_entry(std::string_view text, const std::string& recipe);

/// The line that stands for an entry, with its line end.
std::string notebook_line(const NotebookEntry& entry);

/// Hash of what of a recipe and its kitchen decides the gel: names, notes, prices, limits and how
/// many servings may change without changing it. Throws InputError as `flattened_recipe`.
std::string content_hash(std::string_view json_text, const std::string& document,
                         const std::optional<KitchenDocument>& kitchen);

/// Reads comma-separated text with a header line. Columns may stand in any order; reading columns
/// may be missing or blank. Cells may be quoted; a byte order mark and any line ending are
/// accepted. `document` names the file in errors. Throws InputError with every problem, each with
/// its line and column; nothing is guessed, decimal commas included.
Bench read_bench(std::string_view text, std::string document);

}  // namespace gelwright
