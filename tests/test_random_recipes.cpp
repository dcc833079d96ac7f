// Ten thousand recipes nobody would write: whatever is valid evaluates.
#include <fmt/format.h>

#include <cmath>
#include <iterator>

#include "catch.hpp"
#include "gelwright/evaluate.hpp"
#include "recipes.hpp"
#include "statistics/random.hpp"

using namespace gelwright;

namespace {

/// Numbers of one recipe, the same on every platform.
class Dice {
 public:
  explicit Dice(std::uint64_t recipe) : recipe_(recipe) {}

  double between(double low, double high) {
    return detail::rectangular({20261125, next_++, recipe_}, low, high);
  }
  std::size_t below(std::size_t count) {
    return static_cast<std::size_t>(between(0, static_cast<double>(count)));
  }
  bool chance(double probability) { return between(0, 1) < probability; }
  template <class List>
  std::string one_of(const List& list) {
    return std::data(list)[below(std::size(list))];
  }

 private:
  std::uint64_t recipe_;
  std::uint64_t next_ = 0;
};

constexpr const char* sugars[] = {
    "sucrose",     "fructose", "dextrose anhydrous", "maltodextrin DE 12", "maltodextrin DE 18",
    "isomaltulose"};
constexpr const char* gums[] = {"sodium alginate", "HM pectin",       "LM pectin",
                                "amidated pectin", "low-acyl gellan", "high-acyl gellan",
                                "xanthan"};
constexpr const char* acids[] = {"citric acid anhydrous", "malic acid", "glucono delta-lactone"};
constexpr const char* salts[] = {"calcium lactate pentahydrate", "calcium carbonate",
                                 "calcium chloride dihydrate"};

/// A step that adds `name`, said in one of the ways that fit.
std::string add(const std::string& what, const std::string& how) {
  return fmt::format(R"({{"do": "add", "what": [{}]{}}})", what,
                     how.empty() ? "" : R"(, "how": ")" + how + '"');
}

std::string quoted(const std::string& name) {
  return '"' + name + '"';
}

std::string part(const std::string& name, double share) {
  return fmt::format(R"({{"ingredient": "{}", "share": {:.6f}}})", name, share);
}

std::string random_recipe(std::uint64_t index) {
  Dice dice(index);
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

}  // namespace

TEST_CASE("ten thousand random valid recipes are read and evaluate") {
  constexpr std::uint64_t recipes = 10000;
  std::size_t foretold = 0;
  for (std::uint64_t i = 0; i < recipes; ++i) {
    const std::string text = random_recipe(i);
    INFO(text);
    const Recipe recipe = read_recipe(text, "random.json");
    const Inputs inputs = inputs_of(recipe);
    // Chances in full for some, the centre for all: the doubt costs fifty times as much.
    const bool in_full = i % 50 == 0;
    EvaluateParts parts;
    parts.gel.detail = in_full ? GelDetail::chances : GelDetail::centre;
    const Evaluation evaluation = evaluate(inputs, parts);
    REQUIRE(std::isfinite(evaluation.water_phase.ph));
    if (!evaluation.gel.made) continue;
    ++foretold;
    double sum = 0;
    for (const double each : evaluation.gel.all.chances.chance) sum += each;
    REQUIRE_THAT(sum, test::near(1, 1e-9));
  }
  // Outside the model's range nothing is foretold; that is the exception.
  CHECK(foretold > recipes * 8 / 10);
}
