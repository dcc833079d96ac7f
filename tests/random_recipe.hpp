// Recipes nobody would write, yet valid: made from numbers that the dice of a test or the bytes of
// a fuzzer give.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iterator>
#include <string>
#include <vector>

namespace gelwright::test {

template <class Numbers>
struct Dice {
  Numbers& numbers;

  double between(double low, double high) { return numbers.between(low, high); }
  std::size_t below(std::size_t count) {
    const double at = between(0, static_cast<double>(count));
    return std::min(static_cast<std::size_t>(at), count - 1);
  }
  bool chance(double probability) { return between(0, 1) < probability; }
  template <class List>
  std::string one_of(const List& list) {
    return std::data(list)[below(std::size(list))];
  }
};

inline constexpr const char* sugars[] = {
    "sucrose",     "fructose", "dextrose anhydrous", "maltodextrin DE 12", "maltodextrin DE 18",
    "isomaltulose"};
inline constexpr const char* gums[] = {"sodium alginate", "HM pectin",       "LM pectin",
                                       "amidated pectin", "low-acyl gellan", "high-acyl gellan",
                                       "xanthan"};
inline constexpr const char* acids[] = {"citric acid anhydrous", "malic acid",
                                        "glucono delta-lactone"};
inline constexpr const char* salts[] = {"calcium lactate pentahydrate", "calcium carbonate",
                                        "calcium chloride dihydrate"};

/// A step that adds `name`, said in one of the ways that fit.
inline std::string add(const std::string& what, const std::string& how) {
  return fmt::format(R"({{"do": "add", "what": [{}]{}}})", what,
                     how.empty() ? "" : R"(, "how": ")" + how + '"');
}

inline std::string quoted(const std::string& name) {
  return '"' + name + '"';
}

inline std::string part(const std::string& name, double share) {
  return fmt::format(R"({{"ingredient": "{}", "share": {:.6f}}})", name, share);
}

/// A valid recipe named for `index`. `Numbers` says `between(low, high)`.
template <class Numbers>
std::string random_recipe(Numbers& numbers, std::uint64_t index) {
  Dice<Numbers> dice{numbers};
  const std::string gum = dice.one_of(gums);
  const std::string second_gum = dice.one_of(gums);
  const std::string sugar = dice.one_of(sugars);
  const bool two_gums = second_gum != gum && dice.chance(0.4);
  const bool acid = dice.chance(0.7);
  const bool calcium = dice.chance(0.4);
  const double solids_g = dice.between(1, 90);
  std::string solids = fmt::format(
      R"({{"ingredient": "{}", "mass_g": {:.4f}}}, {{"ingredient": "{}", "mass_g": {:.4f}}})",
      sugar, solids_g, gum, dice.between(0.02, 1.2));
  if (two_gums)
    solids += fmt::format(R"(, {{"ingredient": "{}", "mass_g": {:.4f}}})", second_gum,
                          dice.between(0.02, 0.8));

  std::vector<std::string> steps;
  constexpr const char* gum_ways[] = {"", "stirred", "shaken", "under_blade", "preblended", "dry"};
  constexpr const char* sugar_ways[] = {"", "stirred", "shaken", "under_blade"};
  constexpr const char* dose_ways[] = {"", "poured", "slow", "under_blade", "stirred"};
  if (dice.chance(0.3)) {
    const double early = std::round(dice.between(0.1, 0.9) * 100) / 100;
    steps.push_back(add(quoted(gum) + ", " + part(sugar, early), "preblended"));
    steps.push_back(add(part(sugar, 1 - early), dice.one_of(sugar_ways)));
  } else {
    steps.push_back(add(quoted(gum), dice.one_of(gum_ways)));
    steps.push_back(add(quoted(sugar), dice.one_of(sugar_ways)));
  }
  if (two_gums) steps.push_back(add(quoted(second_gum), dice.one_of(gum_ways)));
  if (acid) steps.push_back(add(R"("acid")", dice.one_of(dose_ways)));
  if (calcium) steps.push_back(add(R"("calcium")", dice.one_of(dose_ways)));
  if (dice.chance(0.2)) steps.push_back(add(R"("water")", ""));
  for (std::size_t i = steps.size() - 1; i > 0; --i) std::swap(steps[i], steps[dice.below(i + 1)]);
  if (dice.chance(0.4)) {
    const double to_c = dice.between(30, 100);
    const std::size_t at = dice.below(steps.size() + 1);
    steps.insert(steps.begin() + static_cast<std::ptrdiff_t>(at),
                 fmt::format(R"({{"do": "heat", "to_c": {:.1f}}})", to_c));
    if (dice.chance(0.5))
      steps.push_back(R"({"do": "cool", "to_c": 25, "how": ")" +
                      std::string(dice.chance(0.5) ? "still" : "stirred") + R"("})");
  }
  if (dice.chance(0.8))
    steps.push_back(fmt::format(R"({{"do": "rest", "hours": {:.2f}}})", dice.between(0, 30)));
  steps.push_back(R"({"do": "fill"})");

  std::string text = fmt::format(
      R"({{"format": "gelwright/recipe-2", "name": "random {}", "form": "{}", "solids": [{}],
          "water": {{"mass_g": {:.3f}}}, "tap": {{"calcium_mg_per_l": {:.1f}, "alkalinity_meq_per_l": {:.2f}}})",
      index, dice.chance(0.5) ? "pouch" : "drink", solids, dice.between(25, 500),
      dice.between(0, 200), dice.between(0.1, 6));
  if (acid)
    text += fmt::format(R"(, "acid": {{"ingredient": "{}", "mass_g": {:.4f}}})", dice.one_of(acids),
                        dice.between(0.02, 2));
  if (calcium)
    text += fmt::format(R"(, "calcium": {{"ingredient": "{}", "mass_g": {:.4f}}})",
                        dice.one_of(salts), dice.between(0.01, 0.4));
  if (dice.chance(0.9)) {
    text += R"(, "process": [)";
    for (std::size_t i = 0; i < steps.size(); ++i) text += (i == 0 ? "" : ", ") + steps[i];
    text += "]";
  }
  if (dice.chance(0.5)) text += fmt::format(R"(, "eaten_at_c": {:.0f})", dice.between(0, 40));
  return text + "}";
}

}  // namespace gelwright::test
