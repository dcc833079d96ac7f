// Labels typed as they stand on the pack, and water said as solids in a total.
#include "catch.hpp"
#include "gelwright/evaluate.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;
using gelwright::test::refusal_of;

namespace {

std::string with_label(const std::string& label, const std::string& more = "") {
  return R"("define": {"mix": {"kind": "mix", "label": {)" + label + "}" + more +
         R"(}}, "solids": [{"ingredient": "mix", "mass_g": 50}], "water": {"mass_g": 40})";
}

Recipe labelled(const std::string& label, const std::string& more = "") {
  return recipe_with(with_label(label, more));
}

Composition per_g_of(const std::string& label, const std::string& more = "") {
  return labelled(label, more).ingredients.front().per_g;
}

std::string refused(const std::string& label) {
  return refusal_of([&] { labelled(label); });
}

}  // namespace

TEST_CASE("figures per 100 g, per portion and per pack of one powder are the same powder") {
  // A pack of 18 portions of 40 g: 36 g, 90 g and 648 g of carbohydrate are 0.9 g in 1 g.
  for (const char* label :
       {R"("per": "100 g", "carbohydrate_g": 90, "sodium_mg": 500)",
        R"("per_g": 40, "carbohydrate_g": 36, "sodium_mg": 200)",
        R"("per": "portion", "portion_g": 40, "carbohydrate_g": 36, "sodium_mg": 200)",
        R"("per": "portion", "pack_g": 720, "portions_in_pack": 18, "carbohydrate_g": 36,
           "sodium_mg": 200)",
        R"("per": "pack", "pack_g": 720, "carbohydrate_g": 648, "sodium_mg": 3600)",
        R"("per": "pack", "portion_g": 40, "portions_in_pack": 18, "carbohydrate_g": 648,
           "sodium_mg": 3600)"}) {
    INFO(label);
    const Composition per_g = per_g_of(label);
    CHECK_THAT(per_g.carbohydrate_g, near(0.9, 1e-12));
    CHECK_THAT(sodium_mg(per_g), near(5, 1e-9));
  }
}

TEST_CASE("a portion or a pack needs its mass, and the three figures agree") {
  CHECK(refused(R"("per": "portion", "carbohydrate_g": 36)") ==
        "/define/mix/label/per: nothing says how heavy a portion is; add \"portion_g\", or "
        "\"pack_g\" and \"portions_in_pack\"\n");
  CHECK(refused(R"("per": "pack", "portion_g": 40, "carbohydrate_g": 36)") ==
        "/define/mix/label/per: nothing says how heavy a pack is; add \"pack_g\", or "
        "\"portion_g\" and \"portions_in_pack\"\n");
  CHECK(refused(R"("per": "pack", "portion_g": 40, "portions_in_pack": 10, "pack_g": 720,
                   "carbohydrate_g": 600)") ==
        "/define/mix/label/pack_g: 10 portions of 40 g are 400 g; check the three figures against "
        "the pack\n");
  CHECK(refused(R"("carbohydrate_g": 36)") ==
        "/define/mix/label: nothing says what mass the figures are for; keep exactly one of "
        "\"per_g\" or \"per\"\n");
}

TEST_CASE("polyols, protein and fat count for energy, Regulation (EU) 1169/2011 Annex XIV") {
  const Recipe recipe = labelled(
      R"("per": "100 g", "carbohydrate_g": 80, "sugars_g": 20, "polyols_g": 10, "protein_g": 6,
         "fat_g": 4, "fibre_g": 2)");
  const Composition& per_g = recipe.ingredients.front().per_g;
  CHECK_THAT(per_g.carbohydrate_g, near(0.7, 1e-12));
  CHECK_THAT(per_g.polyol_g, near(0.1, 1e-12));
  const Nutrition label = evaluate(inputs_of(recipe)).nutrition;
  // Of 50 g: half of 70 x 17 + 10 x 10 + 6 x 17 + 4 x 37 + 2 x 8 kJ.
  CHECK_THAT(label.energy_kj, near(0.5 * (1190 + 100 + 102 + 148 + 16), 1e-9));
  CHECK_THAT(label.energy_kcal, near(0.5 * (280 + 24 + 24 + 36 + 4), 1e-9));
  CHECK_THAT(label.protein_g, near(3, 1e-12));
  CHECK_THAT(label.fat_g, near(2, 1e-12));
  CHECK_THAT(label.polyols_g, near(5, 1e-12));
  std::size_t said = 0;
  for (const Assumption& each : recipe.assumed)
    said += each.what == "which polyols" || each.value == "counts for energy only" ? 1 : 0;
  CHECK(said == 3);
}

TEST_CASE("polyols named under contains are not counted twice") {
  const Composition per_g =
      per_g_of(R"("per": "100 g", "carbohydrate_g": 80, "polyols_g": 30)",
               R"(, "contains": [{"ingredient": "erythritol", "fraction": 0.3}])");
  CHECK_THAT(per_g.polyol_g, near(0.3, 1e-12));
  CHECK_THAT(per_g.erythritol_g, near(0.3, 1e-12));
  CHECK_THAT(per_g.carbohydrate_g, near(0.5, 1e-12));
}

TEST_CASE("magnesium of a label is magnesium of the powder") {
  const Composition per_g = per_g_of(R"("per_g": 100, "carbohydrate_g": 90, "magnesium_mg": 56)");
  // 56 mg / 24.305 g/mol.
  CHECK_THAT(per_g.dissolved(Component::magnesium), near(2.304e-5, 1e-8));
}

TEST_CASE("figures from two columns are found out") {
  // 40 g of 90 % carbohydrate make 144 kcal and 612 kJ; 360 and 1530 are those of 100 g.
  CHECK(refused(R"("per_g": 40, "carbohydrate_g": 36, "energy_kcal": 144, "energy_kj": 612)") ==
        "accepted");
  CHECK(refused(R"("per_g": 40, "carbohydrate_g": 36, "energy_kcal": 360)") ==
        "/define/mix/label/energy_kcal: 360 kcal is not the energy of the figures beside it, which "
        "make about 144; copy them all from one column, with the mass that column is for\n");
  CHECK(
      refused(R"("per_g": 40, "carbohydrate_g": 36, "energy_kj": 1530)").find("energy_kj: 1530") !=
      std::string::npos);
  CHECK(refused(R"("per": "portion", "portion_g": 40, "carbohydrate_g": 90)") ==
        "/define/mix/label: its figures add up to 90 g in 40 g; copy them all from one column, "
        "with the mass that column is for\n");
}

TEST_CASE("25 g solids in 40 g are 15 g of water to 25 g") {
  const auto water_g = [](const std::string& water) {
    const Recipe recipe =
        recipe_with(R"("solids": [{"ingredient": "fructose", "mass_g": 50}], "water": )" + water);
    return evaluate(inputs_of(recipe)).formula.water_g;
  };
  CHECK_THAT(water_g(R"({"solids_g": 25, "total_g": 40})"), near(30, 1e-9));
  CHECK_THAT(water_g(R"({"solids_g": 25, "total_g": 40})"),
             near(water_g(R"({"fraction_of_total": 0.375})"), 1e-9));
  const auto refused_water = [](const std::string& water) {
    return refusal_of([&] {
      recipe_with(R"("solids": [{"ingredient": "fructose", "mass_g": 50}], "water": )" + water);
    });
  };
  CHECK(refused_water(R"({"solids_g": 25})") ==
        "/water/solids_g: does not say in how much; add \"total_g\", as in 25 g solids in 40 g\n");
  CHECK(refused_water(R"({"solids_g": 40, "total_g": 25})").find("/water/solids_g: 40 is not") ==
        0);
}
