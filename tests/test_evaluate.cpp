#include <cmath>

#include "catch.hpp"
#include "gelwright/elements.hpp"
#include "gelwright/error.hpp"
#include "gelwright/evaluate.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

/// `recipe` may be a temporary: an evaluation holds nothing of it.
Evaluation evaluated(const Recipe& recipe) {
  return evaluate(resolve(recipe));
}

}  // namespace

TEST_CASE("a serving without any water is refused in one sentence, not solved") {
  const Recipe recipe = test::recipe_with(
      R"("solids": [{"ingredient": "sucrose", "mass_g": 60}], "water": {"per_g_solids": 0.6})");
  Inputs inputs = inputs_of(recipe);
  inputs.solids[0].mass_g = 0;
  try {
    evaluate(inputs);
    FAIL("was evaluated");
  } catch (const InputError& error) {
    REQUIRE(error.problems().size() == 1);
    CHECK(error.problems()[0].what == "there is no water in this serving at all");
  }
}

TEST_CASE("no number of a shipped recipe is not a number") {
  for (const char* name : test::shipped_names) {
    INFO(name);
    const Recipe recipe = test::shipped(name);
    const Evaluation found = evaluated(recipe);
    CHECK(std::isfinite(found.water_phase.ph));
    CHECK(found.water_phase.ph > 1.5);
    CHECK(found.water_phase.ph < 9);
    CHECK(std::isfinite(found.properties.osmolality_mosm_per_kg));
    CHECK(found.properties.water_activity > 0.7);
    CHECK(found.properties.water_activity < 1);
    CHECK(found.properties.density_g_per_ml > 1);
    CHECK(found.batch.total_g > 0);
  }
}

TEST_CASE("1 % alginate with 15 mM calcium and slow acid sets firm (Draget 1990, from memory)") {
  const Evaluation found = evaluated(recipe_with(
      R"("define": {"high-G alginate": {"kind": "gum", "guluronate_share": 0.65,
      "contains": [{"ingredient": "sodium alginate", "fraction": 1}]}},
      "solids": [{"ingredient": "high-G alginate", "mass_g": 10}], "water": {"mass_g": 1000},
      "acid": {"ingredient": "glucono delta-lactone", "mass_g": 5.3442},
      "calcium": {"ingredient": "calcium carbonate", "mass_g": 1.5013, "when": "insoluble_until_acid"},
      "tap": "demineralised water", "process": {"rest_hours": 24})"));
  // As the paper has it: a firm, clear gel.
  CHECK(found.gel.chance_set() > 0.95);
  CHECK(found.gel.chance(gel::Texture::firm) >= 0.45);
}

TEST_CASE(
    "0.2 % alginate and HM pectin at 14 % carbohydrate pours, weak in the stomach (Marciani "
    "2019)") {
  const Evaluation found = evaluated(recipe_with(
      R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 85}, {"ingredient": "fructose", "mass_g": 59},
      {"ingredient": "sodium alginate", "mass_g": 1.2}, {"ingredient": "HM pectin", "mass_g": 0.8},
      {"ingredient": "sodium chloride", "mass_g": 1}], "water": {"mass_g": 853},
      "tap": "demineralised water")",
      "drink"));
  CHECK_THAT(100 * found.nutrition.carbohydrate_g / found.formula.total_g, near(14, 0.1));
  CHECK(found.gel.likeliest() == gel::Texture::pours);
  CHECK(found.gel.all.stomach.pieces > 0.5);
  CHECK(found.gel.all.stomach.one_gel < 0.5);
}

TEST_CASE("HM pectin at 65 % solids and pH 3.1, boiled: a jam gel; at 50 % none (Thakur 1997)") {
  const auto jam = [](const std::string& water_g) {
    return evaluated(recipe_with(
        R"("solids": [{"ingredient": "sucrose", "mass_g": 64}, {"ingredient": "HM pectin", "mass_g": 0.5},
        {"ingredient": "trisodium citrate dihydrate", "mass_g": 0.1}],
        "water": {"mass_g": )" +
        water_g + R"(}, "acid": {"ingredient": "citric acid anhydrous", "target_ph": 3.1},
        "tap": "demineralised water", "process": {"heated_to_c": 100})"));
  };
  CHECK_THAT(jam("34.5").formula.soluble_solids_percent(), near(65, 0.3));
  CHECK(jam("34.5").gel.chance_set() > 0.9);
  CHECK(jam("64").gel.chance_set() < 0.2);
}

TEST_CASE(
    "LM pectin saturated over 0.8 turns grainy and weeps (Lofgren and Hermansson 2007, Padival "
    "1979)") {
  const Evaluation found = evaluated(recipe_with(
      R"("solids": [{"ingredient": "sucrose", "mass_g": 30}, {"ingredient": "LM pectin", "mass_g": 0.8}],
      "water": {"mass_g": 100}, "calcium": {"ingredient": "calcium lactate pentahydrate",
      "target_ratio": 0.95, "gum": "LM pectin", "when": "slow"},
      "tap": "demineralised water", "process": {"heated_to_c": 90})"));
  CHECK(found.gel.all.defects.weeps > 0.1);
}

TEST_CASE("2.5 g/L of gellan at 75 mg/L calcium stands at its optimum, R2 = 1 (Tang 1996)") {
  const Evaluation found = evaluated(recipe_with(
      R"("solids": [{"ingredient": "low-acyl gellan", "mass_g": 2.5}], "water": {"mass_g": 998.2},
      "tap": {"calcium_mg_per_l": 75, "magnesium_mg_per_l": 0, "alkalinity_meq_per_l": 0},
      "process": {"heated_to_c": 90})"));
  CHECK_THAT(found.water_phase.gellan_ratio_r2, near(1.0, 0.01));
  CHECK(found.gel.chance(gel::Texture::firm) + found.gel.chance(gel::Texture::hard) > 0.7);
  CHECK(found.gel.all.defects.lumps < 0.5);
}

TEST_CASE("more calcium in a drink's water: less gel in the stomach (common practice, no source)") {
  const auto drink = [](const std::string& calcium) {
    return evaluated(recipe_with(
        R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 72},
        {"ingredient": "sodium alginate", "mass_g": 0.6}, {"ingredient": "HM pectin", "mass_g": 0.6}],
        "water": {"mass_g": 430}, "tap": {"magnesium_mg_per_l": 2, "alkalinity_meq_per_l": 1, "calcium_mg_per_l": )" +
            calcium + "}",
        "drink"));
  };
  CHECK(drink("5").gel.all.stomach.one_gel > drink("120").gel.all.stomach.one_gel);
  CHECK(drink("5").gel.all.stomach.pieces > drink("120").gel.all.stomach.pieces);
}

TEST_CASE(
    "acid poured in lumps where gum sits together, shows nothing where calcium spread it thin") {
  // common practice, no source
  const auto with_acid = [](const std::string& gum_g, const std::string& calcium) {
    return evaluated(recipe_with(
        R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 20},
        {"ingredient": "sodium alginate", "mass_g": )" +
        gum_g + R"(}], "water": {"mass_g": 100},
        "acid": {"ingredient": "citric acid anhydrous", "target_ph": 3.5},
        "process": {"acid_added": "poured"},
        "tap": {"magnesium_mg_per_l": 0, "alkalinity_meq_per_l": 0.5, "calcium_mg_per_l": )" +
        calcium + "}"));
  };
  CHECK(with_acid("0.9", "2").gel.all.defects.lumps > 0.5);
  CHECK(with_acid("0.15", "60").gel.all.defects.lumps <
        with_acid("0.9", "2").gel.all.defects.lumps);
}

TEST_CASE("saline is not water: 9 g of salt a kilogram comes to 286.5 mOsm/kg (Pitzer 1973)") {
  // 0.1547 mol of NaCl per kg of water.
  const Evaluation found = evaluated(recipe_with(
      R"("solids": [{"ingredient": "sodium chloride", "mass_g": 9.0410}], "water": {"mass_g": 1000},
      "tap": "demineralised water")"));
  CHECK_THAT(found.properties.osmolality_mosm_per_kg, near(286.5, 0.3));
}

TEST_CASE("an undeclared gum share gives both ends of its band") {
  const Recipe recipe = test::shipped("tarn-thick-pouch.json");
  // What salt the label's sodium is would be mixed in as well.
  const Evaluation found = evaluate(read_sodium_as(resolve(recipe), SodiumSalt::chloride));
  REQUIRE(found.gel.band.has_value());
  CHECK(found.gel.band->low.lg_modulus.mean < found.gel.all.lg_modulus.mean);
  CHECK(found.gel.band->high.lg_modulus.mean > found.gel.all.lg_modulus.mean);
  // Thirds of the band weigh 1/6, 2/3, 1/6: the mixture lies between its ends.
  for (std::size_t t = 0; t < gel::texture_count; ++t) {
    const double middle = found.gel.outlook.chances.chance[t];
    const double mixed = (found.gel.band->low.chances.chance[t] + 4 * middle +
                          found.gel.band->high.chances.chance[t]) /
                         6;
    CHECK_THAT(found.gel.all.chances.chance[t], near(mixed, 1e-12));
  }
}

TEST_CASE("a single 40 mg/L packet limit: which side broken, and by how much") {
  const Recipe recipe = test::shipped("mistake-hard-water-drink.json");
  const Inputs inputs = resolve(recipe);
  const Evaluation found = evaluate(inputs);
  const Flag* broken = nullptr;
  for (const Flag& flag : found.flags)
    if (name_of(flag.id) == "calcium-above-limit") broken = &flag;
  REQUIRE(broken != nullptr);
  CHECK(broken->level == Level::stop);
  CHECK(message_of(*broken, found, inputs).find("is 104 mg/L, 64.0 mg/L over the limit of 40") !=
        std::string::npos);
}
