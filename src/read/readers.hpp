// The parts of a recipe document, one reader each. Private.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/named_values.hpp"
#include "read/json_reader.hpp"
#include "read/recipe_1.hpp"

namespace gelwright::detail {

/// What a recipe may have meant by a name: all that its kitchen holds.
struct KitchenNames {
  bool there = false;  ///< whether there is a kitchen at all
  std::vector<std::string> define = {};
  std::vector<std::string> waters = {};
  std::vector<std::string> scales = {};
  std::vector<std::string> vessels = {};
};

/// Reads a whole recipe that is an object; what is wrong with it goes to `findings`.
Recipe read_document(const nlohmann::json& parsed, const KitchenNames& kitchen, Findings& findings);

/// The ingredients a document can name: the built-in ones and those under `define`.
class Pantry {
 public:
  /// `also` are names that an unknown one may be a misspelling of.
  Pantry(const nlohmann::json* define, std::string define_pointer, std::vector<std::string> also,
         Findings& findings);

  /// The ingredient called `name`, an everyday word that means one thing among them; what was
  /// understood is noted as assumed. Reports at `where` a name that is unknown or means several
  /// things, and returns null. The pointer stays valid as long as the pantry does.
  const Ingredient* find(const std::string& name, const std::string& where);

  /// True if the document defines `name` as a bought mix.
  bool defines_mix(const std::string& name) const;

 private:
  Ingredient defined(const std::string& name, const nlohmann::json& value);
  const Ingredient* built_in(const std::string& name, const std::string& where);
  void refuse_unknown(const std::string& name, const std::string& where);

  const nlohmann::json* define_;
  std::string define_pointer_;
  std::vector<std::string> also_;
  Findings& findings_;
  NamedValues<Ingredient> values_;
};

/// What is stated of a gum in `part`, `share` g of which goes into `whole`, which does not hold it
/// yet. Of two amounts of a gum a figure is known where it is for both.
void inherit_gum_facts(const Ingredient& part, double share, Ingredient& whole);

/// Reads what a seller's sheet says of the gum in it, in place of the table's middle values.
void read_gum_composition(ObjectReader& body, Ingredient& made);

/// Reads the gums its pack does not declare, and the viscosity of the alginate.
void read_undeclared_gums(ObjectReader& body, Pantry& pantry, Ingredient& made);

/// Reads the body of one `define` entry; `pantry` resolves what it contains.
Ingredient read_defined(ObjectReader& body, const std::string& name, Pantry& pantry);

/// Reads what test cups taught of an ingredient whose gums are read already.
void read_learned(ObjectReader& ingredient, Ingredient& made);

/// Reads `tap`: a report, a blend, or the name of one of `waters`.
std::optional<Tap> read_tap(ObjectReader& recipe, const KitchenNames& kitchen, Findings& findings);
/// Reads `waters` alone.
void check_waters(ObjectReader& kitchen, Findings& findings);

/// Reads `process`, `eaten_at_c` and `measured`. `recipe` already knows all its ingredients.
void read_steps(ObjectReader& document, Recipe& recipe);

/// Reads the `process` of recipe-1; `when` is what it says of the calcium salt.
void read_process(ObjectReader& document, std::optional<CalciumDelivery> when, Recipe& recipe);

/// Notes what is taken for how warm it is where it is eaten, if that matters.
void assume_eaten_at(ObjectReader& document, const Recipe& recipe);

/// Takes the usual steps of the form and notes each choice as assumed.
void take_usual_steps(ObjectReader& document, Recipe& recipe);

/// "poured in at once", as a sheet says it.
std::string_view in_words(How how);

/// Read `limits`, `batch` and `pre_dosed` of a recipe.
void read_limits(ObjectReader& document, Limits& limits);
void read_batch(ObjectReader& document, BatchSpec& batch, const KitchenNames& kitchen);
/// Adds a scale, with a name of its own, to those read before.
void read_scale(ObjectReader& scale, std::vector<Scale>& scales);
std::optional<Alternative> read_compare_with(ObjectReader& document);
void read_pre_dosed(ObjectReader& document, Recipe& recipe);

}  // namespace gelwright::detail
