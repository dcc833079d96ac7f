// Recipes for tests: the shipped files, and small ones made in place.
#pragma once

#include <string>

#include "gelwright/error.hpp"
#include "gelwright/read.hpp"
#include "gelwright/recipe.hpp"
#include "gelwright/resolve.hpp"
#include "paths.hpp"

namespace gelwright::test {

/// What the shipped recipes share.
inline KitchenDocument shipped_kitchen() {
  return {read_text(source_path("recipes/kitchen.json")), "kitchen.json"};
}

inline Recipe shipped(const std::string& name) {
  return read_recipe(read_text(source_path("recipes/" + name)), name, shipped_kitchen());
}

/// The text of the same recipe in the older format, before there was a kitchen.
inline std::string ancestor_of(const std::string& name) {
  return read_text(source_path("tests/data/recipe-1/" + name));
}

inline constexpr const char* shipped_names[] = {
    "alginate-slow-acid.json",    "calcium-set-pouch.json",
    "gellan-xanthan-pouch.json",  "mistake-hard-water-drink.json",
    "mistake-kitchen-scale.json", "pouch-from-scratch.json",
    "syrup-pouch.json",           "tarn-thick-pouch.json",
    "tarn-thin-drink.json",
};

/// A recipe with these members besides format, name and form.
inline Recipe recipe_with(const std::string& members, const std::string& form = "pouch") {
  return read_recipe(R"({"format": "gelwright/recipe-1", "name": "test", "form": ")" + form +
                         "\", " + members + "}",
                     "test.json");
}

/// Every problem that `call` reports, one a line; "accepted" where it reports none.
template <class Call>
std::string refusal_of(Call call) {
  try {
    call();
  } catch (const InputError& error) {
    std::string all;
    for (const Problem& problem : error.problems())
      all += problem.where + ": " + problem.what + "; " + problem.remedy + "\n";
    return all;
  }
  return "accepted";
}

}  // namespace gelwright::test
