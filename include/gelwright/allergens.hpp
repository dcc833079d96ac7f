// The fourteen groups of Regulation (EU) No 1169/2011, Annex II, and the words people and packs use
// for them.
//
// What a person avoids and what a pack says rarely use one word: "gluten" here, "wheat" there. Both
// are mapped to groups, and groups are compared. A match errs on the side of warning: "nuts" is
// read as tree nuts and peanuts, "shellfish" as crustaceans and molluscs, and an exempted product
// (wheat dextrose) is still named, with the exemption beside it.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace gelwright {

/// In the order of Annex II.
enum class AllergenGroup {
  gluten,
  crustaceans,
  eggs,
  fish,
  peanuts,
  soybeans,
  milk,
  nuts,
  celery,
  mustard,
  sesame,
  sulphites,
  lupin,
  molluscs,
};
inline constexpr std::size_t allergen_group_count = 14;

/// "cereals containing gluten", "milk (including lactose)", ...
std::string_view to_text(AllergenGroup group);

/// The words that name a group, in lower case: "gluten", "wheat", "rye", ...
std::vector<std::string_view> words_of(AllergenGroup group);

/// The groups a word or a line of a label names, in the order of Annex II; empty where it names
/// none
/// ("pollen", "gluten-free oats" names gluten). Case does not matter; the word may stand inside a
/// text ("whey powder (milk)"). Plurals in s are read. Never throws.
std::vector<AllergenGroup> allergen_groups(std::string_view word);

/// True where the two name a group in common.
bool same_allergen(std::string_view one, std::string_view other);

/// A built-in ingredient of which it is not told here what it was made from.
struct UnstatedAllergen {
  AllergenGroup group;
  /// Annex II exempts it, so a European pack need not name the source: "1(b)"; empty if a pack
  /// must.
  std::string_view exempted_by;
  std::string_view why;  ///< a whole sentence
};

/// What may have gone into a built-in ingredient without its name saying so. Empty for a name that
/// is not built in: there the pack speaks.
std::vector<UnstatedAllergen> unstated_allergens(std::string_view ingredient);

}  // namespace gelwright
