// Recipes, variants of one and bought things side by side: what differs, and which of the
// differences is the reason.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "gelwright/evaluate.hpp"

namespace gelwright {

/// One of the things compared. The inputs and the evaluation must outlive it.
struct CompareSide {
  std::string name;
  const Inputs* inputs = nullptr;          ///< null for what is bought
  const Evaluation* evaluation = nullptr;  ///< likewise
  std::optional<Ingredient> bought;
  double piece_g = 0;                   ///< of what is bought
  bool sugars_stated = true;            ///< on its label
  std::optional<double> cost_per_60_g;  ///< of what is bought, for 60 g of carbohydrate
  std::string currency;                 ///< of it
};

enum class ComparePart {
  amounts,  ///< what goes in
  water,
  outcome,  ///< what comes of it
  label,    ///< what it feeds
  cost,
};

/// One quantity of every side; absent where it has none or it is not known.
struct CompareRow {
  ComparePart part = ComparePart::amounts;
  std::string key;    ///< "ph", "carbohydrate_g"; of an ingredient its name
  std::string label;  ///< in words
  std::string unit;
  int decimals = 0;  ///< shown
  std::vector<std::optional<double>> values;
  bool differs = false;  ///< as shown: not alike to that many decimals
};

/// Something that is a word.
struct CompareWord {
  std::string key;
  std::string label;
  std::vector<std::string> values;  ///< empty where there is none
  bool differs = false;
};

/// A STOP or CARE of at least one side.
struct CompareDanger {
  std::string name;    ///< of the flag, for scripts
  std::string called;  ///< in everyday words
  std::vector<std::optional<Level>> levels;
  bool differs = false;
};

/// What the reason is about, the first that tells the sides apart.
enum class CompareOutcome {
  chance_set,  ///< chance of a set gel, 0 to 1
  firmness,    ///< log10 of the modulus, Pa, or of the thickness where it does not set
  ph,
};

enum class CompareCause {
  water,
  solid,
  acid,
  calcium_salt,
  tap,
  making,
  mix,  ///< what is known of a mix of the same name: label, fitted buffer, what its cups taught
};

/// One difference and what it does by itself: the mean of taking it over in either direction, where
/// that can be done.
struct CompareEffect {
  CompareCause cause = CompareCause::water;
  std::string ingredient;  ///< of solid, acid, calcium salt and mix
  double first = 0;        ///< per 100 g of all there is: g; mg/L of calcium in the tap water
  double second = 0;
  double change = 0;  ///< of the outcome, second less first
};

/// Why two sides come out differently.
struct CompareReason {
  std::size_t first = 0;  ///< of the sides
  std::size_t second = 0;
  CompareOutcome outcome = CompareOutcome::ph;
  double first_value = 0;
  double second_value = 0;
  std::vector<CompareEffect> effects;  ///< the one that explains most comes first
  bool same_gum = false;               ///< the same gums, as strong in the water
};

struct Comparison {
  std::vector<std::string> names;
  std::vector<std::string> currencies;  ///< of each side; empty where it has no cost
  std::vector<CompareRow> rows;
  std::vector<CompareWord> words;
  std::vector<CompareDanger> dangers;
  std::vector<CompareReason> reasons;  ///< the first side against each other that is a recipe
};

/// Two sides or more; throws InputError for fewer, and as `evaluate`.
Comparison compare(const std::vector<CompareSide>& sides);

/// When outcomes count as different.
std::span<const Datum> compare_data();

}  // namespace gelwright
