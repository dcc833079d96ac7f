#include "catch.hpp"
#include "gelwright/nutrition.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

Nutrition label_of(const Recipe& recipe) {
  const Inputs inputs = inputs_of(recipe);
  return nutrition_of(formulate(inputs), inputs);
}

}  // namespace

TEST_CASE(
    "energy by Regulation (EU) 1169/2011 Annex XIV: 17 and 4, acids 13 and 3, fibre 8 and 2") {
  const Recipe recipe = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 50},
      {"ingredient": "xanthan", "mass_g": 10}], "water": {"mass_g": 50},
      "acid": {"ingredient": "citric acid monohydrate", "mass_g": 2.10138})");
  const Nutrition label = label_of(recipe);
  // 2.10138 g of the monohydrate hold 1.92123 g of acid; xanthan holds 10 % moisture.
  CHECK_THAT(label.energy_kj, near(50 * 17 + 1.92123 * 13 + 9 * 8, 1e-3));
  CHECK_THAT(label.energy_kcal, near(50 * 4 + 1.92123 * 3 + 9 * 2, 1e-3));
}

TEST_CASE("salt is sodium times 2.5, Regulation (EU) 1169/2011 Annex I") {
  const Nutrition label = label_of(recipe_with(
      R"("solids": [{"ingredient": "sodium chloride", "mass_g": 1}], "water": {"mass_g": 100})"));
  CHECK_THAT(label.sodium_mg, near(393.4, 0.1));
  CHECK_THAT(label.salt_g, near(0.9835, 0.0003));
}

TEST_CASE("sucrose and isomaltulose count half glucose, half fructose") {
  const Nutrition label = label_of(recipe_with(R"("solids": [
      {"ingredient": "maltodextrin DE 12", "mass_g": 100}, {"ingredient": "sucrose", "mass_g": 20},
      {"ingredient": "isomaltulose", "mass_g": 20}], "water": {"mass_g": 100})"));
  // 95 g from maltodextrin, 20 g from sucrose, 19.0 g from isomaltulose monohydrate.
  CHECK_THAT(label.carbohydrate_g, near(95 + 20 + 19.0, 0.01));
  CHECK_THAT(label.fructose_g, near(10 + 9.5, 0.005));
  CHECK_THAT(label.glucose_to_fructose.value(), near((95 + 19.5) / 19.5, 0.01));
}

TEST_CASE("a label stays as labelled: an undeclared gum share adds no sodium and no mass") {
  const Recipe recipe = test::shipped("tarn-thick-pouch.json");
  const Nutrition label = label_of(recipe);
  CHECK_THAT(label.carbohydrate_g, near(68, 1e-12));
  // 250 mg on the label and 9 mg/L in 43.2 g of tap water of 0.9982 g/mL.
  CHECK_THAT(label.sodium_mg, near(250 + 9 * 0.0432 / 0.9982, 1e-5));
}

TEST_CASE(
    "a water report without sodium adds none to the label, though the chemistry balances it") {
  const Recipe recipe = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 10}],
      "water": {"mass_g": 1000}, "tap": {"alkalinity_meq_per_l": 2, "calcium_mg_per_l": 10})");
  CHECK_THAT(label_of(recipe).sodium_mg, near(0, 1e-12));
  CHECK(inputs_of(recipe).tap.mol_per_kg[Ion::sodium] > 1e-3);
}

TEST_CASE("caffeine comes from pre-dosed pieces and labelled mixes only") {
  const Nutrition label =
      label_of(recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 10}],
      "water": {"mass_g": 10}, "pre_dosed": [{"name": "tablet", "per_serving": 0.5,
      "caffeine_mg": 50, "sodium_mg": 4}])"));
  CHECK_THAT(label.caffeine_mg, near(25, 1e-12));
  CHECK_THAT(label.sodium_mg, near(2, 1e-12));
}
