// What a document may hold: one row for each key. The reader takes its bounds, choices, defaults
// and suggestions from these rows; the JSON Schema and the tables of docs/recipe.md are made of
// them.
//
// To add a key, add a row and read it. To add a kind of object, add an ObjectType and name it in
// the row of the key that holds it.
#pragma once

#include <cstddef>
#include <limits>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "gelwright/ingredient.hpp"

namespace gelwright::detail {

/// The formats of a recipe. Where a document states none it knows, what fits it best.
enum class DocumentFormat { any, recipe_1, recipe_2 };

/// "gelwright/recipe-1".
std::string_view to_text(DocumentFormat format);

/// What stands behind the colon.
enum class Shape {
  number,
  measured,    ///< a number, or {"value": ..., "sd": ...} with its standard uncertainty
  ratio,       ///< a number, or a text like "2:1"
  boolean,     ///< true or false
  text,        ///< one line
  amount,      ///< a number with its unit, as text: "8 grains per gallon"
  word,        ///< one of `Key::words`
  numbers,     ///< list of numbers, each within the bounds
  texts,       ///< list of texts
  ingredient,  ///< name of an ingredient: built in, or one the document defines
  object,      ///< a `Key::object`
  objects,     ///< list of them
  additions,   ///< list whose entries are texts or objects
  named,       ///< an object whose keys are names and whose values are `Key::object`
  water,       ///< the name of a water, a report or a blend
};

/// The numbers a key accepts. Both ends are included unless `above`.
struct Bounds {
  double at_least = 0;
  double at_most = std::numeric_limits<double>::infinity();
  bool above = false;  ///< `at_least` itself is refused
};

/// One of the words a key accepts, and what it stands for.
struct Word {
  std::string_view text;
  int value;                 ///< the enumerator
  std::string_view meaning;  ///< "poured at once"; empty where the word says it
};

template <class T>
constexpr Word word(std::string_view text, T value, std::string_view meaning = {}) {
  return {text, static_cast<int>(value), meaning};
}

/// What is taken where the key is left out; a text is one of the words.
using Otherwise = std::variant<std::monostate, double, bool, std::string_view>;

/// What the figures of a label are for, where it is not a mass.
enum class LabelPer { hundred_g, portion, pack };

struct ObjectType;

struct Key {
  std::string_view name;
  Shape shape = Shape::number;
  std::string_view what;       ///< a noun phrase; with `code` in backticks
  std::string_view more = {};  ///< what else there is to know, in a phrase; may be empty
  std::string_view unit = {};
  Bounds bounds = {};
  bool whole = false;   ///< a whole number
  bool needed = false;  ///< the object is of no use without it
  bool aloud = false;   ///< where `otherwise` is taken, the sheet says so
  Otherwise otherwise = {};
  std::string_view left_out = {};  ///< what follows where it is left out and `otherwise` is empty
  std::string_view example = {};   ///< as JSON; empty for objects
  std::span<const Word> words = {};
  /// The built-in ingredients an `ingredient` may name; empty: any.
  std::span<const Kind> kinds = {};
  const ObjectType& (*object)() = nullptr;
  /// Names a `named` may not define anew; null: none.
  std::vector<std::string> (*taken)() = nullptr;
  /// Besides `bounds`, at most `most_times` the number under the key `most_of` of the same object.
  std::string_view most_of = {};
  double most_times = 1;
  bool never_empty = false;                   ///< a list with at least one entry
  DocumentFormat only = DocumentFormat::any;  ///< the one format that has this key
};

/// What keys of one object have to do with each other.
enum class RuleKind {
  exactly_one,   ///< of the keys
  at_most_one,   ///< of the keys
  at_least_one,  ///< of the keys
  needs,         ///< the first key needs one of the others
};

struct Rule {
  RuleKind kind;
  std::vector<std::string_view> keys;
  std::string_view none;         ///< what is wrong where none is there; for `needs`: of the others
  std::string_view several;      ///< what is wrong where there is more than one
  std::string_view remedy = {};  ///< for `needs`; the other kinds list the keys
};

/// A key that is often written by mistake, refused with its own reason.
struct Slip {
  std::string name;
  std::string_view what;
  std::string remedy;
  std::string_view meant = {};  ///< the key that then need not be reported as missing
};

/// What one word of an object's first key calls for; the others of its keys then have no place.
struct Variant {
  std::string_view word;
  std::vector<std::string_view> needs;
  std::vector<std::string_view> may = {};

  bool has(std::string_view key) const;
};

struct ObjectType {
  std::string_view id;    ///< "water_report"
  std::string_view what;  ///< what it describes: a sentence
  std::vector<Key> keys;
  std::vector<Rule> rules = {};
  std::vector<Slip> slips = {};
  std::vector<Variant> variants = {};  ///< of the words of the first key

  /// The row of a key as this format has it, or null; `any` finds those of every format.
  const Key* find(std::string_view name, DocumentFormat format = DocumentFormat::any) const;
};

// The objects of a recipe document, and below it.
const ObjectType& recipe_keys();
const ObjectType& solid_keys();
const ObjectType& water_amount_keys();
const ObjectType& acid_keys();
const ObjectType& calcium_keys();
const ObjectType& prices_keys();
const ObjectType& pack_keys();
const ObjectType& compare_with_keys();
const ObjectType& pre_dosed_keys();
const ObjectType& limits_keys();
const ObjectType& calcium_limit_keys();
const ObjectType& ph_limit_keys();
const ObjectType& process_keys();  // of recipe-1
const ObjectType& step_keys();
const ObjectType& addition_keys();
const ObjectType& reading_keys();
const ObjectType& batch_keys();
const ObjectType& scale_keys();
const ObjectType& ingredient_keys();
const ObjectType& part_keys();
const ObjectType& label_keys();
const ObjectType& buffer_keys();
const ObjectType& undeclared_gum_keys();
const ObjectType& gum_choice_keys();
const ObjectType& learned_keys();
const ObjectType& learned_gum_keys();
const ObjectType& water_report_keys();
const ObjectType& blend_keys();
const ObjectType& blend_part_keys();
/// What a measured number is written as, if not as a plain number.
const ObjectType& measured_keys();

// The objects of a kitchen document that a recipe does not have.
const ObjectType& kitchen_keys();
const ObjectType& vessel_keys();

// The objects of a goal that a recipe does not have.
const ObjectType& goal_keys();
const ObjectType& goal_sugar_keys();
const ObjectType& goal_sodium_keys();

/// A whole document, and all it holds, each before those it holds itself.
std::vector<const ObjectType*> object_types(const ObjectType& document);

/// Masses anybody weighs: below a microgram there is nothing to weigh, above a tonne no kitchen.
inline constexpr Bounds mass_bounds{1e-6, 1e6, false};
/// What a water report may say of an ion, in any unit.
inline constexpr Bounds ion_bounds{0, 1e5, false};

/// The name every document may use for water without minerals.
inline constexpr std::string_view demineralised_name = "demineralised water";

}  // namespace gelwright::detail
