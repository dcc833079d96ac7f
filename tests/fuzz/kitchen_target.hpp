// A recipe and its kitchen in one text, parted by a line of three hyphens.
#pragma once

#include <string>
#include <string_view>

#include "fuzz/recipe_target.hpp"
#include "gelwright/recipe_edit.hpp"

namespace gelwright::fuzz {

/// Reads both together. What can be worked out has a flattened form that comes to the same.
inline Fate try_kitchen(std::string_view text) {
  constexpr std::string_view parting = "\n---\n";
  const std::size_t at = text.find(parting);
  if (at == std::string_view::npos) return try_recipe(text);
  const std::string_view recipe_text = text.substr(0, at);
  const KitchenDocument kitchen{std::string(text.substr(at + parting.size())), "kitchen"};
  double ph = 0;
  const Fate together = fate_of([&] {
    const Recipe recipe = read_recipe(recipe_text, "fuzz", kitchen);
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    ph = evaluation.water_phase.ph;
    return is_sane(evaluation);
  });
  if (together != Fate::evaluated) return together;
  const Fate flat = fate_of([&] {
    const Recipe recipe = read_recipe(flattened_recipe(recipe_text, "fuzz", kitchen), "flat");
    const Inputs inputs = resolve(recipe);
    return evaluate(inputs).water_phase.ph == ph;
  });
  return flat == Fate::evaluated ? flat : Fate::nonsense;
}

}  // namespace gelwright::fuzz
