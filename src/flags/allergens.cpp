// Flags about what an eater has to avoid.
#include "gelwright/allergens.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "flags/record.hpp"

namespace gelwright::detail {

namespace {

constexpr Datum rows[] = {
    {"flag.honey", 12, "months", 0, "youngest age for honey", "edis-aa142", Standing::confirmed},
};
constexpr std::array<std::string_view, 0> borrowed = {};
constexpr Threshold honey_months = place_of(rows, borrowed, "flag.honey");

/// True if the ingredient is, holds or is stated to carry what `word` names. What belongs to one of
/// the fourteen groups is found by any word of the group; anything else by the word itself.
bool holds(const Ingredient& ingredient, const std::string& word) {
  const bool of_a_group = !allergen_groups(word).empty();
  const std::string sought = lower(word);
  const auto names = [&](const std::string& text) {
    return of_a_group ? same_allergen(text, word) : lower(text).find(sought) != std::string::npos;
  };
  return names(ingredient.name) ||
         std::any_of(ingredient.allergens.begin(), ingredient.allergens.end(), names) ||
         std::any_of(ingredient.parts.begin(), ingredient.parts.end(), names) ||
         (sought == "fructose" &&
          (ingredient.per_g.fructose_g > 0 || ingredient.per_g.unnamed_sugars_g > 0));
}

bool to_avoid(const Ingredient& ingredient, const Recipe& recipe) {
  return std::any_of(recipe.avoid.begin(), recipe.avoid.end(),
                     [&](const std::string& word) { return holds(ingredient, word); });
}

/// Whether something built in may have been made from what the recipe is to avoid.
bool may_come_from(const std::string& name, const Recipe& recipe) {
  for (const UnstatedAllergen& each : unstated_allergens(name))
    for (const std::string& word : recipe.avoid) {
      const std::vector<AllergenGroup> groups = allergen_groups(word);
      if (std::find(groups.begin(), groups.end(), each.group) != groups.end()) return true;
    }
  return false;
}

bool source_unstated(const Ingredient& ingredient, const Recipe& recipe) {
  return may_come_from(ingredient.name, recipe) ||
         std::any_of(ingredient.parts.begin(), ingredient.parts.end(),
                     [&](const std::string& part) { return may_come_from(part, recipe); });
}

/// In the recipe's list.
struct Which {
  std::size_t ingredient;
};

void check_allergen_unstated(const Judged& j, Raise& raise) {
  const Recipe& recipe = j.recipe();
  if (recipe.avoid.empty()) return;
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
    const Ingredient& each = recipe.ingredients[i];
    if (to_avoid(each, recipe)) continue;
    if (source_unstated(each, recipe))
      raise(Level::care, Which{i});
    else if (each.source == "recipe" && each.allergens.empty())
      raise(Level::note, Which{i});
  }
}

void check_allergen(const Judged& j, Raise& raise) {
  const Recipe& recipe = j.recipe();
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i)
    if (to_avoid(recipe.ingredients[i], recipe)) raise(Level::stop, Which{i});
}

const std::string& name_in(const Flag& flag, const Judged& j) {
  return j.recipe().ingredients[flag.numbers.as<Which>().ingredient].name;
}

std::string tell_allergen_unstated(const Flag& flag, const Judged& j) {
  if (flag.level == Level::note) return fmt::format("{} states no allergens", name_in(flag, j));
  return fmt::format("{} may have been made from what this recipe is to avoid", name_in(flag, j));
}

std::string tell_allergen(const Flag& flag, const Judged& j) {
  return fmt::format("{} holds or carries what this recipe is to avoid", name_in(flag, j));
}

/// As `holds`, without building strings: a study asks it of every draw.
bool is_honey(const Ingredient& ingredient) {
  constexpr std::string_view honey = "honey";
  const auto named = [honey](const std::string& text) {
    return std::search(text.begin(), text.end(), honey.begin(), honey.end(),
                       [](char a, char b) { return lower(a) == b; }) != text.end();
  };
  return named(ingredient.name) ||
         std::any_of(ingredient.parts.begin(), ingredient.parts.end(), named);
}

void check_honey(const Judged& j, Raise& raise) {
  const std::vector<Ingredient>& all = j.recipe().ingredients;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (is_honey(all[i])) raise(Level::care, Which{i});
}

std::string tell_honey(const Flag& flag, const Judged& j) {
  return fmt::format("{}: never for a child under {} months", name_in(flag, j),
                     j.quoted(honey_months));
}

constexpr FlagRecord records[] = {
    {.name = "allergen-unstated",
     .called = "an allergen that may be in it",
     .when = "the recipe names something to avoid, and a bought ingredient states no allergens, or "
             "one that is built in may have been made from it (care)",
     .why =
         "This program knows only what the recipe copies from the pack. Maltodextrin and dextrose "
         "may come from wheat, lactic acid from whey; some of these a European pack need not "
         "name.",
     .source = "eu-1169-2011",
     .grade = Grade::a,
     .check = check_allergen_unstated,
     .message = tell_allergen_unstated,
     .remedy = "read its pack or ask its maker, and list what it says under \"allergens\"",
     .by_plan = true},
    {.name = "allergen",
     .called = "something to be avoided",
     .when = "an ingredient, a part of it or its stated allergens match what the recipe is to "
             "avoid",
     .why =
         "As printed on the pack, by the fourteen groups of Annex II: wheat is found for gluten, "
         "lactose for milk. Traces are not known to this program.",
     .source = "eu-1169-2011",
     .grade = Grade::a,
     .check = check_allergen,
     .message = tell_allergen,
     .remedy = "replace it",
     .by_plan = true},
    {.name = "honey",
     .called = "honey",
     .when = "an ingredient is or holds honey",
     .why = "Honey can carry spores of botulism, which the gut of a child under {flag.honey} "
            "months does not keep down. Heating in a kitchen does not kill them.",
     .source = "edis-aa142",
     .grade = Grade::a,
     .check = check_honey,
     .message = tell_honey,
     .remedy = "another syrup where a small child may get hold of it",
     .by_plan = true},
};

}  // namespace

FlagSubject allergen_flags() {
  return {records, rows, borrowed};
}

}  // namespace gelwright::detail
