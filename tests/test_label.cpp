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

TEST_CASE("a sugar that is named is the sugar of the label") {
  const auto named = [](const std::string& parts) {
    return per_g_of(R"("per": "100 g", "carbohydrate_g": 95, "sugars_g": 40)",
                    R"(, "contains": [)" + parts + "]");
  };
  const Composition fructose = named(R"({"ingredient": "fructose"})");
  CHECK_THAT(fructose.fructose_g, near(0.40, 1e-12));
  CHECK_THAT(fructose.glucose_g, near(0.55, 1e-12));
  // Not named, or one of two: half of sucrose is fructose.
  CHECK_THAT(named("").fructose_g, near(0.20, 1e-12));
  CHECK_THAT(named(R"({"ingredient": "fructose"}, {"ingredient": "sucrose"})").fructose_g,
             near(0.20, 1e-12));
  // 0.55 g of maltodextrin in molecules of 18016 / 18 g/mol, by its dextrose equivalent.
  const Composition starch = named(R"({"ingredient": "maltodextrin DE 18"})");
  CHECK_THAT(starch.saccharide_mol[index_of(Saccharide::oligomer)], near(0.55 * 18 / 18016, 1e-7));
}

TEST_CASE("a salt that is named is the sodium of the label") {
  const Composition per_g =
      per_g_of(R"("per": "100 g", "carbohydrate_g": 90, "sodium_mg": 500, "potassium_mg": 39.098)",
               R"(, "contains": [{"ingredient": "trisodium citrate dihydrate"}])");
  // 5 mg / 22.990 g/mol of sodium with a third as much citrate; potassium of no name is a chloride.
  CHECK_THAT(per_g.dissolved(Component::sodium), near(2.1749e-4, 1e-8));
  CHECK_THAT(per_g.dissolved(Component::citrate), near(2.1749e-4 / 3, 1e-8));
  CHECK_THAT(per_g.dissolved(Component::chloride), near(1e-5, 1e-9));
}

TEST_CASE("what is named without an amount needs a label, and is no gum") {
  const auto refused_parts = [](const std::string& define) {
    return refusal_of([&] {
      recipe_with(R"("define": {"mix": )" + define +
                  R"(}, "solids": [{"ingredient": "mix", "mass_g": 50}], "water": {"mass_g": 40})");
    });
  };
  CHECK(
      refused_parts(R"({"kind": "mix", "contains": [{"ingredient": "fructose"}]})") ==
      "/define/mix/contains/0/ingredient: nothing says how much of it there is; add \"fraction\", "
      "or a \"label\" with its figures\n");
  CHECK(refused_parts(R"({"kind": "mix", "label": {"per_g": 100, "carbohydrate_g": 90},
                          "contains": [{"ingredient": "sodium alginate"}]})") ==
        "/define/mix/contains/0/ingredient: a label does not say how much gum there is; name it "
        "under \"undeclared_gum\" with the least and the most it may be\n");
  const Recipe recipe = labelled(R"("per_g": 100, "carbohydrate_g": 90)",
                                 R"(, "contains": [{"ingredient": "malic acid"}])");
  CHECK(recipe.assumed.front().what == "how much malic acid is in mix");
  CHECK(recipe.assumed.front().value == "1.6 %, the middle of its band");
  CHECK(recipe.assumed.front().range == "0.2 to 3 %");
}

TEST_CASE("sugars as a ratio: glucose to fructose as packs print it") {
  const auto with_ratio = [](const std::string& ratio, const std::string& sugars = "") {
    return R"("per": "100 g", "carbohydrate_g": 90, "glucose_to_fructose": )" + ratio + sugars;
  };
  // 90 g at 2 to 1 are 60 g of glucose and 30 g of fructose; at 1 to 0.8, 50 g and 40 g.
  CHECK_THAT(per_g_of(with_ratio(R"("2:1")")).fructose_g, near(0.3, 1e-12));
  CHECK_THAT(per_g_of(with_ratio("2")).fructose_g, near(0.3, 1e-12));
  CHECK_THAT(per_g_of(with_ratio(R"("1 : 0.8")")).fructose_g, near(0.4, 1e-12));
  CHECK_THAT(per_g_of(with_ratio(R"("60/30")")).glucose_g, near(0.6, 1e-12));
  // Of 45 g of sugars 15 g are then dextrose.
  const Composition sweet = per_g_of(with_ratio(R"("2:1")", R"(, "sugars_g": 45)"));
  CHECK_THAT(sweet.sugars_g, near(0.45, 1e-12));
  CHECK_THAT(sweet.fructose_g, near(0.3, 1e-12));
  // 0.15 g of dextrose, 180.156 g/mol.
  CHECK_THAT(sweet.saccharide_mol[index_of(Saccharide::glucose)], near(0.15 / 180.156, 1e-9));
  CHECK(refused(with_ratio(R"("1:2")", R"(, "sugars_g": 20)")).find("more than its sugars") !=
        std::string::npos);
  CHECK(refused(with_ratio(R"("two to one")")) ==
        "/define/mix/label/glucose_to_fructose: \"two to one\" is not a ratio; write it as "
        "\"2:1\"\n");
}
