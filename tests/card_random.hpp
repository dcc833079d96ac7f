// Batches nobody would plan: gums, sugars, acids and salts in any amounts, on any scales.
#pragma once

#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <iterator>
#include <string>

#include "statistics/random.hpp"

namespace gelwright::test {

/// The members of a recipe, the same on every platform.
inline std::string random_batch(std::uint64_t trial) {
  std::uint64_t draws = 0;
  const auto random = [&] { return detail::uniform({20261125, trial, draws++}); };
  const auto amount = [&](double low, double high) { return low * std::pow(high / low, random()); };
  const auto pick = [&](const auto& names) {
    return std::string(std::data(
        names)[static_cast<std::size_t>(random() * static_cast<double>(std::size(names)))]);
  };
  static constexpr const char* gums[] = {"sodium alginate", "low-acyl gellan", "HM pectin",
                                         "amidated pectin", "xanthan"};
  static constexpr const char* sugars[] = {"sucrose", "fructose", "maltodextrin DE 12",
                                           "isomaltulose"};
  static constexpr const char* acids[] = {"citric acid anhydrous", "malic acid",
                                          "glucono delta-lactone"};
  static constexpr const char* salts[] = {"calcium carbonate", "calcium lactate pentahydrate"};
  static constexpr const char* whens[] = {"slow", "fast"};
  const std::string first = pick(sugars);
  std::string second = pick(sugars);
  while (second == first) second = pick(sugars);
  const auto solid = [&](const std::string& name, double mass_g) {
    return fmt::format(R"({{"ingredient": "{}", "mass_g": {:.6f}}})", name, mass_g);
  };
  std::string solids = solid(pick(gums), amount(0.05, 5)) + ", " + solid(first, amount(1, 80)) +
                       ", " + solid(second, amount(0.1, 40));
  if (random() < 0.3) solids += ", " + solid("sodium chloride", amount(0.05, 1));
  std::string text =
      fmt::format(R"("solids": [{}], "water": {{"mass_g": {:.6f}}})", solids, amount(20, 500));
  if (random() < 0.7)
    text += fmt::format(R"(, "acid": {{"ingredient": "{}", "mass_g": {:.6f}}})", pick(acids),
                        amount(0.05, 3));
  if (random() < 0.5) {
    const std::string salt = pick(salts);
    text += fmt::format(R"(, "calcium": {{"when": "{}", "ingredient": "{}", "mass_g": {:.6f}}})",
                        salt == salts[0] ? "insoluble_until_acid" : pick(whens), salt,
                        amount(0.02, 0.5));
  }
  text += fmt::format(R"(, "batch": {{"servings": {})", 1 + trial % 20);
  if (random() < 0.5) text += R"(, "vessel_ml": 1500)";
  if (random() < 0.7)
    text += R"(, "bowl_g": 300, "scales": [
        {"name": "kitchen", "readability_g": 1, "capacity_g": 3000},
        {"name": "pocket", "readability_g": 0.01, "capacity_g": 200}])";
  return text + "}";
}

}  // namespace gelwright::test
