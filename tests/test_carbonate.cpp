// The pH of a water report, and what it says of the carbonate.
#include <cmath>
#include <cstdio>

#include "catch.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/water.hpp"
#include "recipes.hpp"
#include "water/carbonate.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

constexpr double co2_mg_per_mmol = 44.009;  // IUPAC 2021

Water water_of(double alkalinity_meq_per_l, double ph) {
  Water water = demineralised_water();
  water.alkalinity_meq_per_l = alkalinity_meq_per_l;
  water.mg_per_l[Ion::sodium] = mg_per_l(Ion::sodium, alkalinity_meq_per_l);
  water.ph = ph;
  return water;
}

}  // namespace

TEST_CASE("free CO2 by the formula of Standard Methods 4500-CO2 D (from memory)") {
  // mg/L CO2 = 2.0 B 10^(6 - pH), B the bicarbonate alkalinity in mg/L CaCO3; meant for 6 to 8.
  for (const double ph : {6.5, 7.0, 7.5}) {
    const double alkalinity_mg_caco3_per_l = 100;
    const double beside = detail::carbonate_beside_alkalinity_mmol_per_l(
        alkalinity_meq_per_l(alkalinity_mg_caco3_per_l, AlkalinityUnit::mg_caco3_per_l), ph);
    const double by_formula = 2.0 * alkalinity_mg_caco3_per_l * std::pow(10.0, 6 - ph);
    INFO(ph);
    CHECK_THAT(co2_mg_per_mmol * beside, near(by_formula, 0.04 * by_formula));
  }
}

TEST_CASE("carbonate and pH are each other's inverse, and a water cannot be soda") {
  for (const double alkalinity : {0.0, 0.5, 2.0, 6.0})
    for (const double ph : {6.0, 7.0, 8.0, 8.6, 9.5}) {
      INFO(alkalinity << " meq/L, pH " << ph);
      if (alkalinity == 0 && ph > 6.9) continue;  // no carbonate left: nothing to tell the pH by
      CHECK_THAT(detail::ph_of_carbonate(
                     alkalinity, detail::carbonate_beside_alkalinity_mmol_per_l(alkalinity, ph)),
                 near(ph, 1e-6));
    }
  // Under 1 atm of CO2 at 25 degC water holds 1.45 g/L of it (CRC Handbook, from memory).
  CHECK_THAT(co2_mg_per_mmol * detail::carbonate_beside_alkalinity_mmol_per_l(10, 4.0),
             near(1450, 60));
}

TEST_CASE("a tap's own pH is used: where nothing else is sour, the batch has it") {
  const auto ph_of = [](const std::string& tap) {
    const Recipe recipe = recipe_with(
        R"("solids": [{"ingredient": "sucrose", "mass_g": 1}], "water": {"mass_g": 1000},
           "tap": {"alkalinity_meq_per_l": 2, "sodium_mmol_per_l": 2)" +
        tap + "}");
    return evaluate(inputs_of(recipe)).water_phase.ph;
  };
  for (const double ph : {6.6, 7.0, 7.6, 8.0}) {
    char stated[32];
    std::snprintf(stated, sizeof stated, ", \"ph\": %.1f", ph);
    INFO(stated);
    CHECK_THAT(ph_of(stated), near(ph, 0.1));
  }
  // Not reported: plain bicarbonate, pH 8.3 (the second end point of the titration).
  CHECK_THAT(ph_of(""), near(8.3, 0.1));
}

TEST_CASE("the gas of a carbonated water counts as gone, and what it was is said") {
  const auto read = [](const std::string& tap) {
    return recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 1}],
        "water": {"mass_g": 1000}, "tap": )" +
                       tap);
  };
  const auto ph_of = [&read](const std::string& tap) {
    const Recipe recipe = read(tap);
    return evaluate(inputs_of(recipe)).water_phase.ph;
  };
  const auto said_of = [&read](const std::string& tap) {
    for (const Assumption& each : read(tap).assumed)
      if (each.where == "/tap/carbonated") return each.range;
    return std::string("nothing");
  };
  const std::string tap = R"({"alkalinity_meq_per_l": 2, "sodium_mmol_per_l": 2)";
  const double still = ph_of(tap + "}");
  CHECK_THAT(ph_of(tap + R"(, "carbonated": true})"), near(still, 1e-12));
  CHECK_THAT(ph_of(tap + R"(, "ph": 5, "carbonated": true})"), near(still, 1e-12));
  CHECK(ph_of(tap + R"(, "ph": 5, "carbonated": false})") < 5.2);
  CHECK(said_of(tap + R"(, "carbonated": false})") == "nothing");
  // By hand: 6.35 + lg(2 / 34), 34 mmol/L being what water takes up under 1 atm of CO2.
  CHECK(said_of(tap + R"(, "carbonated": true})") ==
        "just poured 1.5 g/L, and pH 5.1 of the water alone");
  // Textbook: pure water under 1 atm of CO2 at 25 degC has pH 3.92.
  CHECK(said_of(R"({"alkalinity_meq_per_l": 0, "calcium_mg_per_l": 0, "carbonated": true})") ==
        "just poured 1.5 g/L, and pH 3.9 of the water alone");
  CHECK(test::refusal_of([&read] { read(R"("sparkling water")"); }).find("\"carbonated\": true") !=
        std::string::npos);
}

TEST_CASE("blended waters share their carbonate, and the pH follows (hand calculation)") {
  const std::pair<Water, double> halves[] = {{water_of(4, 7.0), 0.5}, {water_of(1, 8.0), 0.5}};
  // CO2: 4 * 10^(6.352-7) and 1 * 10^(6.352-8), carbonate of the second 1 * 10^(8-10.329):
  // (0.8996 + 0.0225 - 0.0047)/2 = 0.4587 mmol/L beside 2.5 meq/L: 6.352 + log10(2.5/0.4587).
  const Water mixed = blend(halves);
  REQUIRE(mixed.ph);
  CHECK_THAT(*mixed.ph, near(7.088, 0.01));
  // Distilled water brings neither alkalinity nor CO2.
  const std::pair<Water, double> thinned[] = {{water_of(4, 7.0), 0.5},
                                              {demineralised_water(), 0.5}};
  CHECK_THAT(blend(thinned).ph.value_or(0), near(7.0, 0.01));
  // One that may hold anything makes it unknown.
  Water unknown = water_of(1, 8.0);
  unknown.ph.reset();
  const std::pair<Water, double> with_unknown[] = {{water_of(4, 7.0), 0.5}, {unknown, 0.5}};
  CHECK_FALSE(blend(with_unknown).ph);
}
