// Flags about what an eater has to avoid.
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

/// True if the ingredient is, holds or is stated to carry what `word` (lower case) names.
bool holds(const Ingredient& ingredient, const std::string& word) {
  const auto names = [&word](const std::string& text) {
    return lower(text).find(word) != std::string::npos;
  };
  return names(ingredient.name) ||
         std::any_of(ingredient.allergens.begin(), ingredient.allergens.end(), names) ||
         std::any_of(ingredient.parts.begin(), ingredient.parts.end(), names) ||
         (word == "fructose" && ingredient.per_g.fructose_g > 0);
}

bool to_avoid(const Ingredient& ingredient, const Recipe& recipe) {
  return std::any_of(recipe.avoid.begin(), recipe.avoid.end(),
                     [&](const std::string& word) { return holds(ingredient, lower(word)); });
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
    if (each.source == "recipe" && each.allergens.empty() && !to_avoid(each, recipe))
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
  return fmt::format("{} states no allergens", name_in(flag, j));
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
     .when = "the recipe names something to avoid, and a bought ingredient states no allergens",
     .why = "This program knows only what the recipe copies from the pack.",
     .source = "common-practice",
     .grade = Grade::a,
     .check = check_allergen_unstated,
     .message = tell_allergen_unstated,
     .remedy = "read its pack, and list what it says under \"allergens\""},
    {.name = "allergen",
     .when = "an ingredient, a part of it or its stated allergens match what the recipe is to "
             "avoid",
     .why = "As printed on the pack; traces are not known to this program.",
     .source = "common-practice",
     .grade = Grade::a,
     .check = check_allergen,
     .message = tell_allergen,
     .remedy = "replace it"},
    {.name = "honey",
     .when = "an ingredient is or holds honey",
     .why = "Honey can carry spores of botulism, which the gut of a child under {flag.honey} "
            "months does not keep down. Heating in a kitchen does not kill them.",
     .source = "edis-aa142",
     .grade = Grade::a,
     .check = check_honey,
     .message = tell_honey,
     .remedy = "another syrup where a small child may get hold of it"},
};

}  // namespace

FlagSubject allergen_flags() {
  return {records, rows, borrowed};
}

}  // namespace gelwright::detail
