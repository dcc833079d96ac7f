#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>
#include <string>

#include "catch.hpp"
#include "gelwright/advise.hpp"
#include "gelwright/batch.hpp"
#include "gelwright/read.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

bool has_flag(const Evaluation& evaluation, FlagId id) {
  return std::any_of(evaluation.flags.begin(), evaluation.flags.end(),
                     [id](const Flag& flag) { return flag.id == id; });
}

std::set<FlagId> at_least(const Evaluation& evaluation, Level level) {
  std::set<FlagId> ids;
  for (const Flag& flag : evaluation.flags)
    if (flag.level >= level) ids.insert(flag.id);
  return ids;
}

/// What a remedy promises: its flag is gone at the very amount, nothing new stops, and every new
/// care is named.
int check_remedies(const Inputs& inputs) {
  const Evaluation before = evaluate(inputs);
  const Advice advice = advise(inputs, before);
  REQUIRE(advice.clears.size() == before.flags.size());
  int remedies = 0;
  for (std::size_t i = 0; i < advice.clears.size(); ++i) {
    if (!advice.clears[i]) continue;
    const Remedy& remedy = *advice.clears[i];
    const Flag& flag = before.flags[i];
    INFO(name_of(flag.id) << " " << to_text(remedy.change));
    const Evaluation after = evaluate(turned(inputs, remedy.change));
    CHECK_FALSE(has_flag(after, flag.id));
    for (const FlagId id : at_least(after, Level::stop))
      CHECK(at_least(before, Level::stop).count(id) == 1);
    for (const FlagId id : at_least(after, Level::care)) {
      if (at_least(before, Level::care).count(id) == 1) continue;
      INFO("raises " << name_of(id));
      CHECK(std::count(remedy.raises.begin(), remedy.raises.end(), id) == 1);
    }
    // No smaller than the finest scale of the batch shows.
    if (info_of(remedy.change.knob).unit == "g" && !inputs.recipe->batch.scales.empty()) {
      double finest_g = 1e9;
      for (const Scale& scale : inputs.recipe->batch.scales)
        finest_g = std::min(finest_g, scale.readability_g);
      CHECK(std::abs(remedy.change.amount) * batch_factor(inputs) > finest_g * (1 - 1e-9));
    }
    // Acid is advised only where a pH meter (0.1) sees the change.
    if (remedy.change.knob == Knob::acid_g)
      CHECK(std::abs(after.water_phase.ph - before.water_phase.ph) > 0.1 - 1e-9);
    if (remedy.same_as) {
      CHECK(*remedy.same_as != i);
      CHECK(advice.clears[*remedy.same_as]->change.amount == remedy.change.amount);
    }
    ++remedies;
  }
  return remedies;
}

/// Invented recipes, drawn: pouches and drinks with all sorts of defects.
std::string drawn_recipe(std::mt19937_64& random) {
  const auto draw = [&random](double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 11) * 0x1.0p-53;
  };
  const auto pick = [&](std::initializer_list<const char*> names) {
    return *(names.begin() + static_cast<std::ptrdiff_t>(random() % names.size()));
  };
  const bool drink = random() % 2 == 0;
  const char* gum = pick({"sodium alginate", "LM pectin", "amidated pectin", "low-acyl gellan"});
  std::string text = fmt::format(
      R"({{"format": "gelwright/recipe-1", "name": "drawn", "form": "{}",
      "solids": [{{"ingredient": "{}", "mass_g": {:.2f}}}, {{"ingredient": "{}", "mass_g": {:.3f}}}],
      "water": {{"mass_g": {:.1f}}},
      "tap": {{"calcium_mg_per_l": {:.1f}, "magnesium_mg_per_l": 4, "alkalinity_meq_per_l": {:.2f}}},
      "limits": {{"ph": {{"at_least": 3.3, "at_most": 4.3}},
                  "calcium_mg_per_l": {{"{}": {:.0f}}}}},
      "process": {{"heated_to_c": 88, "acid_added": "{}"}},
      "batch": {{"servings": {}, "scales": [
        {{"name": "kitchen", "readability_g": 1, "capacity_g": 5000}},
        {{"name": "pocket", "readability_g": 0.01, "capacity_g": 200}}]}})",
      drink ? "drink" : "pouch", pick({"maltodextrin DE 18", "sucrose", "dextrose monohydrate"}),
      draw(25, 70), gum, draw(0.15, 1.2), drink ? draw(350, 600) : draw(35, 90), draw(2, 150),
      draw(0.2, 5), pick({"at_least", "at_most"}), draw(20, 90), pick({"poured", "under_blade"}),
      1 + random() % 12);
  if (random() % 4 != 0)
    text += fmt::format(R"(, "acid": {{"ingredient": "citric acid anhydrous", "mass_g": {:.3f}}})",
                        draw(0.02, 1.2));
  if (random() % 2 == 0)
    text += fmt::format(
        R"(, "calcium": {{"ingredient": "calcium lactate pentahydrate", "mass_g": {:.3f},
        "when": "{}"}})",
        draw(0.02, 0.8), pick({"slow", "fast"}));
  return text + "}";
}

}  // namespace

TEST_CASE("every remedy of the shipped recipes does what it says") {
  int remedies = 0;
  for (const char* name : test::shipped_names) {
    INFO(name);
    const Recipe recipe = test::shipped(name);
    remedies += check_remedies(resolve(recipe));
  }
  CHECK(remedies >= 4);
}

TEST_CASE(
    "200 remedies of drawn recipes applied and run again: none leaves its flag or raises worse") {
  std::mt19937_64 random(20251);
  int remedies = 0;
  for (int drawn = 0; drawn < 400 && remedies < 200; ++drawn) {
    const std::string text = drawn_recipe(random);
    INFO(text);
    const Recipe recipe = read_recipe(text, "drawn.json");
    remedies += check_remedies(inputs_of(recipe));
  }
  CHECK(remedies >= 200);
}

TEST_CASE("a limit on the water's calcium can be kept by its own advice, on either side") {
  for (const char* limit : {R"({"at_least": 60})", R"({"at_most": 15})"}) {
    INFO(limit);
    const Recipe recipe = test::recipe_with(
        R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30},
           {"ingredient": "sodium alginate", "mass_g": 0.3}], "water": {"mass_g": 50},
           "tap": {"calcium_mg_per_l": 30, "magnesium_mg_per_l": 2, "alkalinity_meq_per_l": 1},
           "limits": {"calcium_mg_per_l": )" +
        std::string(limit) + "}");
    const Inputs inputs = inputs_of(recipe);
    const Evaluation before = evaluate(inputs);
    const Advice advice = advise(inputs, before);
    bool found = false;
    for (std::size_t i = 0; i < before.flags.size(); ++i)
      if (name_of(before.flags[i].id).starts_with("calcium-") &&
          name_of(before.flags[i].id).ends_with("-limit")) {
        found = true;
        REQUIRE(advice.clears[i].has_value());
        CHECK_FALSE(
            has_flag(evaluate(turned(inputs, advice.clears[i]->change)), before.flags[i].id));
      }
    CHECK(found);
  }
}

TEST_CASE("across an edge another texture or a defect is likely, short of it neither is") {
  std::size_t edges = 0;
  for (const char* name : test::shipped_names) {
    const Recipe recipe = test::shipped(name);
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    const gel::Texture now = evaluation.gel.likeliest();
    for (const Edge& edge : advise(inputs, evaluation).edges) {
      INFO(name << " " << to_text(edge.change) << " " << edge.then);
      const Evaluation beyond = evaluate(turned(inputs, edge.change));
      CHECK(edge.chance_after > edge.chance_before);
      const gel::Texture there = beyond.gel.likeliest();
      if (there != now) {
        CHECK(edge.then == gel::to_text(there));
        CHECK_THAT(edge.chance_after, near(beyond.gel.chance(there), 1e-12));
        CHECK_THAT(edge.chance_before, near(evaluation.gel.chance(there), 1e-12));
      } else {
        CHECK(edge.chance_after >= 0.5);
        CHECK(edge.chance_before < 0.5);
      }
      Change shorter = edge.change;
      shorter.amount *= 0.85;
      CHECK(evaluate(turned(inputs, shorter)).gel.likeliest() == now);
      ++edges;
    }
  }
  CHECK(edges >= 9);
}

TEST_CASE("turning a knob keeps the water's mass and never goes below nothing") {
  const Recipe recipe = test::shipped("pouch-from-scratch.json");
  const Inputs inputs = resolve(recipe);
  const double water_g = formulate(inputs).water_g;
  const Inputs sourer = turned(inputs, {Knob::acid_g, 0.5});
  CHECK_THAT(formulate(sourer).water_g, near(water_g, 1e-9));
  CHECK_THAT(formulate(turned(inputs, {Knob::acid_g, -99})).acid_g, near(0, 1e-15));
  CHECK_THAT(turned(inputs, {Knob::low_mineral_share, 1}).tap.mol_per_kg[Ion::calcium],
             near(0, 1e-15));
}

TEST_CASE("amounts are written the way a kitchen reads them") {
  CHECK(to_text(Change{Knob::acid_g, -0.0541}) == "0.054 g less acid");
  CHECK(to_text(Change{Knob::water_g, 107.3}) == "110 g more water");
  CHECK(to_text(Change{Knob::low_mineral_share, 0.714}) ==
        "75 % of the water as low-mineral water");
}

TEST_CASE("softer and harder water are advised by the share and the amount a hand finds") {
  // 30 mg/L of calcium: half low-mineral water for 15 at most; 29 more, rounded up, for 59 at
  // least.
  const auto advised = [](const std::string& limit) {
    const Recipe recipe = test::recipe_with(
        R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 30},
           {"ingredient": "sodium alginate", "mass_g": 0.3}], "water": {"mass_g": 50},
           "tap": {"calcium_mg_per_l": 30, "magnesium_mg_per_l": 2, "alkalinity_meq_per_l": 1},
           "limits": {"calcium_mg_per_l": )" +
        limit + "}");
    const Inputs inputs = inputs_of(recipe);
    const Evaluation before = evaluate(inputs);
    const Advice advice = advise(inputs, before, {.edges = false});
    CHECK(advice.edges.empty());
    for (std::size_t i = 0; i < before.flags.size(); ++i)
      if (name_of(before.flags[i].id).starts_with("calcium-") && advice.clears[i])
        return to_text(advice.clears[i]->change);
    return std::string("nothing");
  };
  CHECK(advised(R"({"at_most": 15.1})") == "50 % of the water as low-mineral water");
  CHECK(advised(R"({"at_least": 59})") == "30 mg/L more calcium in the water");
}

TEST_CASE("a remedy by acid is about the smallest that does it, and has the sign that does it") {
  // A pouch at pH 4.9 that should be at 4.0 or less, and one at 2.9 that should be at 3.4 or more.
  const auto acid_g = [](double mass_g, const std::string& limit) {
    const Recipe recipe =
        test::recipe_with(fmt::format(R"("solids": [{{"ingredient": "sucrose", "mass_g": 40}},
           {{"ingredient": "sodium alginate", "mass_g": 0.4}}], "water": {{"mass_g": 60}},
           "tap": {{"calcium_mg_per_l": 10, "alkalinity_meq_per_l": 1}},
           "acid": {{"ingredient": "citric acid anhydrous", "mass_g": {}}},
           "limits": {{"ph": {}}})",
                                      mass_g, limit));
    const Inputs inputs = inputs_of(recipe);
    const Evaluation before = evaluate(inputs);
    const Advice advice = advise(inputs, before);
    for (std::size_t i = 0; i < before.flags.size(); ++i) {
      if (!name_of(before.flags[i].id).starts_with("ph-") || !advice.clears[i]) continue;
      const Change change = advice.clears[i]->change;
      CHECK(change.knob == Knob::acid_g);
      CHECK_FALSE(has_flag(evaluate(turned(inputs, change)), before.flags[i].id));
      Change less = change;
      less.amount *= 0.9;
      CHECK(has_flag(evaluate(turned(inputs, less)), before.flags[i].id));
      return change.amount;
    }
    return 0.0;
  };
  CHECK(acid_g(0.05, R"({"at_most": 4.0})") > 0.01);
  CHECK(acid_g(0.8, R"({"at_least": 3.4})") < -0.1);
}

TEST_CASE("remedies for notes are left out where they are not asked for") {
  for (const char* name : test::shipped_names) {
    const Recipe recipe = test::shipped(name);
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    const Advice advice = advise(inputs, evaluation, {.edges = false, .notes = false});
    for (std::size_t i = 0; i < evaluation.flags.size(); ++i)
      if (evaluation.flags[i].level == Level::note) CHECK_FALSE(advice.clears[i]);
  }
}

TEST_CASE("a change to one of the solids is written with its name") {
  const Recipe recipe = test::shipped("pouch-from-scratch.json");
  const std::string name = recipe.ingredients[recipe.solids[0].ingredient].name;
  CHECK(to_text(Change{Knob::mass_g, 1.23, 0}, recipe) == "1.2 g more " + name);
  CHECK(to_text(Change{Knob::mass_g, -1.23, 0}, recipe) == "1.2 g less " + name);
  CHECK(to_text(Change{Knob::acid_g, -0.0541}, recipe) == "0.054 g less acid");
}
