// Dangers to the eater and to the batch, on both sides of the line each is drawn at: a figure just
// under it is silent, one just over it is told.
#include <fmt/format.h>

#include <optional>
#include <string>

#include "catch.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/keeping.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::recipe_with;

namespace {

std::optional<Level> level(std::string_view name, const std::string& members,
                           const std::string& form = "drink") {
  const Recipe recipe = recipe_with(members, form);
  for (const Flag& flag : evaluate(resolve(recipe)).flags)
    if (name_of(flag.id) == name) return flag.level;
  return std::nullopt;
}

const std::string soft = R"("tap": "demineralised water")";
const std::string some_sugar = R"("solids": [{"ingredient": "sucrose", "mass_g": 30}],
    "water": {"mass_g": 400}, )" +
                               soft;

}  // namespace

// EFSA Journal 2015;13(5):4102: single doses up to 200 mg, 400 mg a day, for adults.
TEST_CASE("caffeine: over 200 mg at once stops, over 400 mg in the batch is a care") {
  const auto tablets = [](std::string_view name, double mg, int servings) {
    return level(name, some_sugar + fmt::format(R"(, "batch": {{"servings": {}}},
        "pre_dosed": [{{"name": "tablet", "per_serving": 2, "caffeine_mg": {}}}])",
                                                servings, mg));
  };
  CHECK_FALSE(tablets("caffeine-single", 100, 1).has_value());
  CHECK(tablets("caffeine-single", 100.5, 1) == Level::stop);
  CHECK_FALSE(tablets("caffeine-day", 50, 4).has_value());
  CHECK(tablets("caffeine-day", 50.5, 4) == Level::care);
}

// VKM 2017: 3 g a day of added potassium for adults; 1 g the limit of a supplement until then. EFSA
// Journal 2005;193: single doses of 5 to 7 g. Potassium chloride is 52.4 % potassium (IUPAC 2021).
TEST_CASE("potassium of a batch: a note over 1 g, a care over 3 g, if one person eats it") {
  const auto batch = [](double chloride_g, int servings) {
    return level("potassium-day",
                 fmt::format(R"("solids": [{{"ingredient": "sucrose", "mass_g": 30}},
        {{"ingredient": "potassium chloride", "mass_g": {}}}], "water": {{"mass_g": 400}},
        "batch": {{"servings": {}}}, )",
                             chloride_g, servings) +
                     soft);
  };
  CHECK_FALSE(batch(0.94, 2).has_value());
  CHECK(batch(0.97, 2) == Level::note);
  CHECK(batch(0.94, 6) == Level::note);
  CHECK(batch(0.97, 6) == Level::care);
}

TEST_CASE("sodium, fructose alone, sour enough to hurt, teeth: both sides") {
  const auto with = [](std::string_view name, const std::string& solids,
                       const std::string& more = "") {
    return level(name,
                 R"("solids": [)" + solids + R"(], "water": {"mass_g": 400}, )" + soft + more);
  };
  // Sodium chloride is 39.34 % sodium: 1 g of sodium is 2.542 g.
  const auto salt = [&](double g) {
    return with("sodium-load", fmt::format(R"({{"ingredient": "sucrose", "mass_g": 30}},
        {{"ingredient": "sodium chloride", "mass_g": {}}})",
                                           g));
  };
  CHECK_FALSE(salt(2.53).has_value());
  CHECK(salt(2.56) == Level::care);
  const auto fructose = [&](double g, double maltodextrin_g) {
    return with("fructose", fmt::format(R"({{"ingredient": "fructose", "mass_g": {}}},
        {{"ingredient": "maltodextrin DE 18", "mass_g": {}}})",
                                        g, maltodextrin_g));
  };
  CHECK_FALSE(fructose(24.5, 1).has_value());
  CHECK(fructose(25.5, 1) == Level::care);
  CHECK_FALSE(fructose(30, 33).has_value());  // 31.4 g of glucose beside it
  CHECK(fructose(30, 30) == Level::care);     // 28.5 g
  const auto read = [&](std::string_view name, double ph) {
    return with(name, R"({"ingredient": "sucrose", "mass_g": 30})",
                fmt::format(R"(, "process": {{"measured_ph": {}}})", ph));
  };
  CHECK_FALSE(read("teeth", 4.01).has_value());
  CHECK(read("teeth", 3.99) == Level::note);
  CHECK_FALSE(read("too-sour", 2.51).has_value());
  CHECK(read("too-sour", 2.49) == Level::care);
  CHECK_FALSE(read("too-alkaline", 9.49).has_value());
  CHECK(read("too-alkaline", 9.51) == Level::care);
  CHECK(read("too-alkaline", 11.49) == Level::care);
  CHECK(read("too-alkaline", 11.51) == Level::stop);
}

// R2 = 2 [Ca] / [COO-]: 1 g of alginate is 4.50 mmol of carboxylate (222 g/mol, E 401); 18.04 mg/L
// of calcium in a litre is 0.45 mmol, R2 0.2, and twice that is 0.4.
TEST_CASE("a drink's hard water: care over R2 0.2, stop over 0.4") {
  const auto drink = [](double calcium_mg_per_l) {
    return level("hard-water",
                 fmt::format(R"("solids": [{{"ingredient": "sodium alginate", "mass_g": 1}},
        {{"ingredient": "sucrose", "mass_g": 40}}], "water": {{"mass_g": 998.2}},
        "tap": {{"calcium_mg_per_l": {}, "magnesium_mg_per_l": 0, "alkalinity_meq_per_l": 1}})",
                             calcium_mg_per_l));
  };
  CHECK_FALSE(drink(17.7).has_value());
  CHECK(drink(18.4) == Level::care);
  CHECK(drink(35.5) == Level::care);
  CHECK(drink(36.7) == Level::stop);
}

TEST_CASE("calcium for the gum: too little, too much, all at once, on both sides") {
  const auto pouch = [](std::string_view name, const std::string& gum, double ratio,
                        const char* when) {
    return level(name,
                 fmt::format(R"("solids": [{{"ingredient": "{0}", "mass_g": 0.5}},
        {{"ingredient": "sucrose", "mass_g": 20}}], "water": {{"mass_g": 60}}, {4},
        "process": {{"heated_to_c": 90}}, "calcium": {{"ingredient": "calcium chloride dihydrate",
        "target_ratio": {1}, "gum": "{3}", "when": "{2}"}})",
                             gum, ratio, when, gum == "sodium alginate" ? "alginate" : gum, soft),
                 "pouch");
  };
  CHECK(pouch("calcium-too-low", "LM pectin", 0.19, "slow") == Level::care);
  CHECK_FALSE(pouch("calcium-too-low", "LM pectin", 0.21, "slow").has_value());
  CHECK_FALSE(pouch("calcium-too-high", "LM pectin", 0.79, "slow").has_value());
  CHECK(pouch("calcium-too-high", "LM pectin", 0.81, "slow") == Level::care);
  CHECK_FALSE(pouch("calcium-too-high", "sodium alginate", 1.09, "slow").has_value());
  CHECK(pouch("calcium-too-high", "sodium alginate", 1.11, "slow") == Level::care);
  CHECK_FALSE(pouch("calcium-shock", "sodium alginate", 0.29, "fast").has_value());
  CHECK(pouch("calcium-shock", "sodium alginate", 0.31, "fast") == Level::care);
}

TEST_CASE("gum: hot enough, with water enough, firm enough to choke on") {
  const auto gellan = [](std::string_view name, double gum_g, double heated_c) {
    return level(name,
                 fmt::format(R"("solids": [{{"ingredient": "low-acyl gellan", "mass_g": {}}}],
        "water": {{"mass_g": 100}}, "process": {{"heated_to_c": {}}},
        "tap": {{"calcium_mg_per_l": 80, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 4}})",
                             gum_g, heated_c),
                 "pouch");
  };
  CHECK(gellan("under-heated", 0.3, 84.9) == Level::care);
  CHECK_FALSE(gellan("under-heated", 0.3, 85).has_value());
  CHECK_FALSE(gellan("choking", 0.05, 90).has_value());
  CHECK(gellan("choking", 0.5, 90) == Level::care);
  const auto alginate = [](std::string_view name, double gum_g) {
    return level(name,
                 fmt::format(R"("solids": [{{"ingredient": "sodium alginate", "mass_g": {}}},
        {{"ingredient": "sucrose", "mass_g": 20}}], "water": {{"mass_g": 100}}, )",
                             gum_g) +
                     soft,
                 "pouch");
  };
  CHECK_FALSE(alginate("too-little-water", 3.9).has_value());
  CHECK(alginate("too-little-water", 4.2) == Level::care);
  CHECK_FALSE(alginate("gum-clumps", 0.99).has_value());
  CHECK(alginate("gum-clumps", 1.03) == Level::note);
}

namespace {

/// A serving of fructose and water with this water activity, read with a meter at this pH.
Recipe sweet(double water_activity, double ph) {
  double less_g = 0;
  double more_g = 200;
  const auto recipe = [&](double fructose_g) {
    return recipe_with(fmt::format(R"("solids": [{{"ingredient": "fructose", "mass_g": {}}}],
        "water": {{"mass_g": 20}}, {}, "process": {{"measured_ph": {}}})",
                                   fructose_g + 1e-6, soft, ph));
  };
  for (int halving = 0; halving < 40; ++halving) {
    const double middle_g = (less_g + more_g) / 2;
    const Recipe tried = recipe(middle_g);
    (evaluate(inputs_of(tried)).properties.water_activity > water_activity ? less_g : more_g) =
        middle_g;
  }
  return recipe(less_g);
}

}  // namespace

// FDA Food Code 2013, 1-201.10, table B (food not heated in its pack): rows of water activity,
// columns of pH; true where a product assessment is required.
TEST_CASE("the Food Code's table B only ever shortens, and does so in every cell that asks") {
  constexpr double columns_ph[] = {4.0, 4.4, 4.8, 5.5};
  struct Line {
    double water_activity;
    bool asks[4];
  };
  constexpr Line table[] = {{0.87, {false, false, false, false}},
                            {0.89, {false, false, false, true}},
                            {0.91, {false, false, true, true}},
                            {0.95, {false, true, true, true}}};
  // What we take against ourselves: the reading's 0.1 and the computed activity's 0.03.
  for (const Line& line : table)
    for (std::size_t column = 0; column < 4; ++column) {
      INFO(line.water_activity << " at pH " << columns_ph[column]);
      const Recipe recipe = sweet(line.water_activity - 0.03, columns_ph[column] - 0.1);
      const Inputs inputs = inputs_of(recipe);
      const Keeping keeping = keeping_of(evaluate(inputs), inputs);
      CHECK(keeping.chilled_hours <= (line.asks[column] ? 24 : 120));
      // What the table lets pass keeps no longer than its pH alone would allow: 21 CFR 114.3.
      if (columns_ph[column] > 4.6) CHECK(keeping.chilled_hours == 24);
      if (columns_ph[column] == 4.4) CHECK(keeping.chilled_hours == (line.asks[column] ? 24 : 48));
      CHECK(keeping.chilled_c == 5);
    }
}
