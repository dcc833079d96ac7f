// What a label leaves open: the salt its sodium is and the sugars its sugars are.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "catch.hpp"
#include "gelwright/elements.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/flag.hpp"
#include "gelwright/label_readings.hpp"
#include "gelwright/properties.hpp"
#include "gelwright/sodium_readings.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

/// A sour pouch of an invented mix with 350 mg of sodium in 100 g; `more` are members of the mix.
std::string mix_members(const std::string& more, const std::string& process = "") {
  return R"("define": {"ridge mix": {"kind": "mix", "label": {"per_g": 100, "carbohydrate_g": 94,
      "sugars_g": 40, "sodium_mg": 350})" +
         more + R"(}},
    "solids": [{"ingredient": "ridge mix", "mass_g": 70}, {"ingredient": "sodium alginate", "mass_g": 0.7}],
    "water": {"mass_g": 45}, "tap": "demineralised water",
    "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.5})" +
         process;
}

bool raised(const Evaluation& evaluation, std::string_view name) {
  return std::any_of(evaluation.flags.begin(), evaluation.flags.end(),
                     [name](const Flag& flag) { return name_of(flag.id) == name; });
}

double ph_as(const PhBand& band, SodiumSalt salt) {
  for (const SodiumPh& each : band.readings)
    if (each.reading.salt == salt) return each.ph;
  FAIL("no such reading");
  return 0;
}

Evaluation evaluated(const Recipe& recipe) {
  return evaluate(inputs_of(recipe));
}

}  // namespace

TEST_CASE("what sodium may be: the weights are chances") {
  double together = 0;
  for (const SodiumSalt salt : {SodiumSalt::chloride, SodiumSalt::citrate, SodiumSalt::bicarbonate})
    together += weight_of(salt);
  CHECK_THAT(together, near(1, 1e-12));
  for (const Datum& row : label_reading_data()) CHECK(row.standing == Standing::judgement);
}

// The reading must be the very pouch whose maker names the salt, at equal sodium and equal water.
TEST_CASE("sodium read as a salt is the pouch that declares this salt") {
  const Recipe labelled = test::recipe_with(mix_members(""));
  const PhBand band = evaluated(labelled).ph_band;
  REQUIRE(band.readings.size() == 3);
  struct Declared {
    SodiumSalt salt;
    const char* name;
    double sodium_g_per_g;
  };
  const Declared declared[] = {{SodiumSalt::chloride, "sodium chloride",
                                molar_mass_g_per_mol("Na") / molar_mass_g_per_mol("NaCl")},
                               {SodiumSalt::citrate, "trisodium citrate dihydrate",
                                3 * molar_mass_g_per_mol("Na") / molar_mass_g_per_mol("Na3C6H9O9")},
                               {SodiumSalt::bicarbonate, "sodium bicarbonate",
                                molar_mass_g_per_mol("Na") / molar_mass_g_per_mol("NaHCO3")}};
  for (const Declared& each : declared) {
    INFO(each.name);
    const double fraction = 0.0035 / each.sodium_g_per_g;
    const Recipe named = test::recipe_with(mix_members(fmt::format(
        R"(, "contains": [{{"ingredient": "{}", "fraction": {:.10f}}}])", each.name, fraction)));
    const Evaluation evaluation = evaluated(named);
    CHECK(evaluation.ph_band.readings.empty());
    // The hydrate water of the citrate, 0.16 g on 45 g, moves the pH by less than 0.002.
    CHECK_THAT(ph_as(band, each.salt), near(evaluation.water_phase.ph, 0.002));
  }
  CHECK(ph_as(band, SodiumSalt::citrate) > ph_as(band, SodiumSalt::chloride) + 0.5);
  CHECK(ph_as(band, SodiumSalt::bicarbonate) > ph_as(band, SodiumSalt::citrate));
}

TEST_CASE("the band holds every reading with its own error, and keeping goes by its upper end") {
  const Recipe recipe = test::recipe_with(mix_members(""));
  const Evaluation evaluation = evaluated(recipe);
  double low = 99, high = 0;
  for (const SodiumPh& each : evaluation.ph_band.readings) {
    low = std::min(low, each.ph - each.half_width);
    high = std::max(high, each.ph + each.half_width);
  }
  CHECK(evaluation.ph_band.low == low);
  CHECK(evaluation.ph_band.high == high);
  REQUIRE(evaluation.water_phase.ph + evaluation.water_phase.ph_uncertainty < 4.6);
  REQUIRE(high > 4.6);
  const Inputs inputs = inputs_of(recipe);
  for (const Flag& flag : evaluation.flags)
    if (name_of(flag.id) == "acidity-not-proven") {
      CHECK(flag.level == Level::care);
      CHECK(message_of(flag, evaluation, inputs).find("may be up to") != std::string::npos);
    }
}

TEST_CASE("the chances of the gel are those of the readings, each with its weight") {
  const Recipe recipe = test::recipe_with(mix_members(""));
  const Inputs inputs = inputs_of(recipe);
  const Evaluation mixed = evaluate(inputs);
  REQUIRE(mixed.gel.made);
  gel::Chances by_hand;
  for (const SodiumReading& each : sodium_readings(inputs)) {
    const Evaluation one = evaluate(read_sodium_as(inputs, each.salt));
    CHECK(one.ph_band.readings.empty());
    for (std::size_t t = 0; t < gel::texture_count; ++t)
      by_hand.chance[t] += each.weight * one.gel.all.chances.chance[t];
  }
  for (std::size_t t = 0; t < gel::texture_count; ++t)
    CHECK_THAT(mixed.gel.all.chances.chance[t], near(by_hand.chance[t], 1e-12));
}

TEST_CASE("whatever settles what the sodium is leaves one reading") {
  const auto band_of = [](const Recipe& recipe) {
    return evaluate(as_measured(inputs_of(recipe))).ph_band;
  };
  const PhBand open = band_of(test::recipe_with(mix_members("")));

  SECTION("it did not fizz: no bicarbonate") {
    const PhBand band = band_of(test::recipe_with(mix_members(R"(, "fizzed": false)")));
    REQUIRE(band.readings.size() == 2);
    CHECK_THAT(band.readings[0].reading.weight, near(2.0 / 3, 1e-12));
    CHECK_THAT(band.readings[1].reading.weight, near(1.0 / 3, 1e-12));
    CHECK(band.high < open.high);
  }
  SECTION("it fizzed: bicarbonate") {
    const Evaluation evaluation = evaluated(test::recipe_with(mix_members(R"(, "fizzed": true)")));
    CHECK(evaluation.ph_band.readings.empty());
    CHECK_THAT(evaluation.water_phase.ph, near(ph_as(open, SodiumSalt::bicarbonate), 1e-6));
  }
  SECTION("a pH that was read: the salt that comes nearest") {
    for (const SodiumSalt salt :
         {SodiumSalt::chloride, SodiumSalt::citrate, SodiumSalt::bicarbonate}) {
      const double read_ph = ph_as(open, salt) + 0.05;
      const Recipe recipe = test::recipe_with(
          mix_members("", fmt::format(R"(, "process": {{"measured_ph": {:.6f}}})", read_ph)));
      const Evaluation evaluation = evaluate(as_measured(inputs_of(recipe)));
      CHECK(evaluation.ph_band.readings.empty());
      CHECK_THAT(evaluation.water_phase.ph, near(ph_as(open, salt), 1e-6));
      CHECK_THAT(evaluation.gel.state.ph, near(read_ph, 1e-5));
    }
  }
  SECTION("a fitted buffer") {
    CHECK(band_of(test::recipe_with(
                      mix_members(R"(, "buffer": {"carboxylate_mmol_per_g": 0.05, "pka": 4.2})")))
              .readings.empty());
  }
  SECTION("a label without sodium: nothing to read") {
    CHECK(band_of(test::shipped("pouch-from-scratch.json")).readings.empty());
  }
}

TEST_CASE("sugars nobody names: ratio, fructose and osmolality at both ends") {
  const std::string drink = R"("define": {"ridge mix": {"kind": "mix", "label": {"per_g": 100,
      "carbohydrate_g": 96, "sugars_g": 50, "sodium_mg": 0}%}},
    "solids": [{"ingredient": "ridge mix", "mass_g": 120}], "water": {"mass_g": 1200},
    "tap": "demineralised water")";
  const auto with = [&](const std::string& more) {
    std::string text = drink;
    text.replace(text.find('%'), 1, more);
    return evaluated(test::recipe_with(text, "drink"));
  };
  const Evaluation open = with("");
  // 60 g of sugars: as sucrose 30 g of fructose, as fructose 60 g and no glucose but the starch's.
  CHECK_THAT(open.nutrition.fructose_g, near(30, 1e-9));
  CHECK_THAT(open.nutrition.fructose_most_g, near(60, 1e-9));
  CHECK_THAT(open.nutrition.glucose_g - open.nutrition.glucose_least_g, near(30, 1e-9));
  CHECK(raised(open, "fructose-amount"));
  CHECK(raised(open, "fructose"));
  CHECK(open.properties.osmolality_most_mosm_per_kg > open.properties.osmolality_mosm_per_kg + 100);

  const Evaluation sucrose = with(R"(, "contains": [{"ingredient": "sucrose", "fraction": 0.5}])");
  CHECK_FALSE(raised(sucrose, "fructose-amount"));
  CHECK(sucrose.properties.osmolality_most_mosm_per_kg ==
        sucrose.properties.osmolality_mosm_per_kg);
  const Evaluation fructose =
      with(R"(, "contains": [{"ingredient": "fructose", "fraction": 0.5}])");
  CHECK(raised(fructose, "fructose-amount"));
  // Both ends are what the recipes that name their sugars give.
  CHECK_THAT(open.properties.osmolality_mosm_per_kg,
             near(sucrose.properties.osmolality_mosm_per_kg, 1e-6));
  CHECK_THAT(open.properties.osmolality_most_mosm_per_kg,
             near(fructose.properties.osmolality_mosm_per_kg, 1e-6));
  CHECK_THAT(open.nutrition.fructose_most_g, near(fructose.nutrition.fructose_g, 1e-9));
}

// CRC Handbook, concentrative properties of aqueous solutions: 5 % by mass of D-fructose lowers the
// freezing point by 0.54 K (from memory), 10 % of sucrose by 0.63 K; 1.858 K kg/mol. So 50 g of
// fructose weigh osmotically nearly as much as 100 g of sucrose.
TEST_CASE("freezing points of fructose against sucrose") {
  constexpr double kelvin_per_osm = 1.858;
  const double fructose = 50.0 / 0.95 / molar_mass_g_per_mol("C6H12O6");
  const double sucrose = 100.0 / 0.90 / molar_mass_g_per_mol("C12H22O11");
  CHECK_THAT(osmolality_mosm_per_kg(water_activity({.fructose_mol_per_kg = fructose}, 0)),
             near(1000 * 0.54 / kelvin_per_osm, 15));
  CHECK_THAT(osmolality_mosm_per_kg(water_activity({.sucrose_mol_per_kg = sucrose}, 0)),
             near(1000 * 0.63 / kelvin_per_osm, 15));
}

TEST_CASE("sodium that no label gives is at least what is known, never nothing") {
  const std::string members = R"("define": {"ridge mix": {"kind": "mix", "label": {"per_g": 100,
      "carbohydrate_g": 94}, "undeclared_gum": {"ingredient": "sodium alginate",
      "fraction_at_least": 0.006, "fraction_at_most": 0.014}}},
    "solids": [{"ingredient": "ridge mix", "mass_g": 70}%], "water": {"mass_g": 45})";
  const auto label = [&](const std::string& more) {
    std::string text = members;
    text.replace(text.find('%'), 1, more);
    return evaluated(test::recipe_with(text)).nutrition;
  };
  const Nutrition nothing_known = label("");
  CHECK(nothing_known.sodium_at_least);
  // The gum's band is a guess: its sodium is not printed as known.
  CHECK_THAT(nothing_known.sodium_mg, near(0, 1e-9));
  const Nutrition salted = label(R"(, {"ingredient": "sodium chloride", "mass_g": 1})");
  CHECK(salted.sodium_at_least);
  CHECK_THAT(salted.sodium_mg,
             near(1000 * molar_mass_g_per_mol("Na") / molar_mass_g_per_mol("NaCl"), 1));
  CHECK_FALSE(evaluated(test::shipped("pouch-from-scratch.json")).nutrition.sodium_at_least);
}
