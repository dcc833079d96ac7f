// Figures of a water report typed with their unit, and blends in parts, in a recipe.
#include "catch.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;
using gelwright::test::refusal_of;

namespace {

std::string members(const std::string& tap) {
  return R"("solids": [{"ingredient": "fructose", "mass_g": 50}], "water": {"mass_g": 40},
            "tap": )" +
         tap;
}

Water tap_of(const std::string& tap) {
  return recipe_with(members(tap)).tap.value().water;
}

std::string refused(const std::string& tap) {
  return refusal_of([&] { recipe_with(members(tap)); });
}

}  // namespace

TEST_CASE("a report's figures may carry their unit as text") {
  const Water water = tap_of(
      R"({"hardness": "8 grains per gallon", "alkalinity": "105 ppm as CaCO3", "sodium": "9mg/l"})");
  // 8 grains of 64.79891 mg in 3.785411784 L of CaCO3, 100.086 g/mol; 105 mg/L are 2.0982 meq/L.
  CHECK_THAT(water.hardness_mmol_per_l.value(), near(8 * 64.79891 / 3.785411784 / 100.086, 1e-6));
  CHECK_THAT(water.alkalinity_meq_per_l.value(), near(2 * 105 / 100.086, 1e-6));
  CHECK_THAT(water.mg_per_l[Ion::sodium].value(), near(9, 1e-12));
}

TEST_CASE("what is typed has a unit, a known one, and is typed once") {
  CHECK(refused(R"({"hardness": 7})") ==
        "/tap/hardness: its unit is missing; write it in quotes with its unit, as \"8 grains per "
        "gallon\"\n");
  CHECK(refused(R"({"alkalinity": "2 mmol/L"})").find("mmol/L is ambiguous for alkalinity") !=
        std::string::npos);
  CHECK(
      refused(R"({"calcium": "23 mg/L", "calcium_mmol_per_l": 0.5})") ==
      "/tap/calcium: calcium is given twice; keep either \"calcium_mmol_per_l\" or \"calcium\"\n");
  CHECK(refused(R"({"calcium": "23"})") ==
        "/tap/calcium: \"23\" has no unit, write it like 23 mg/L; \n");
}

TEST_CASE("a blend in parts is the blend in shares") {
  const auto calcium = [](const std::string& amounts, const std::string& rest) {
    return tap_of(R"({"blend": [{"water": {"calcium": "60 mg/L"}, )" + amounts +
                  R"(}, {"water": "demineralised water", )" + rest + "}]}")
        .mg_per_l[Ion::calcium]
        .value();
  };
  CHECK_THAT(calcium(R"("share": 0.4)", R"("share": 0.6)"), near(24, 1e-9));
  CHECK_THAT(calcium(R"("parts": 40)", R"("parts": 60)"), near(24, 1e-9));
  CHECK_THAT(calcium(R"("parts": 2)", R"("parts": 3)"), near(24, 1e-9));
  CHECK(refused(R"({"blend": [{"water": "demineralised water", "parts": 1},
                              {"water": "demineralised water", "share": 0.5}]})") ==
        "/tap/blend: some waters have a share and some have parts; give all the same\n");
}
