// Gums as a pack or a seller's sheet describes them, and packs that do not.
#include <algorithm>
#include <cmath>
#include <tuple>

#include "catch.hpp"
#include "gelwright/evaluate.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;
using gelwright::test::refusal_of;

namespace {

gel::State state_of(const Recipe& recipe) {
  const Inputs inputs = inputs_of(recipe);
  const Formula formula = formulate(inputs);
  return gel_state_of(formula, water_phase_of(formula, inputs, false), inputs);
}

/// A pouch of 1 g of a gum defined by these members.
Recipe with_gum(const std::string& members) {
  return recipe_with(R"("define": {"my gum": {"kind": "gum", )" + members +
                     R"(}}, "solids": [{"ingredient": "my gum", "mass_g": 1}],
                        "water": {"mass_g": 100}, "tap": "demineralised water")");
}

Recipe alginate(const std::string& members) {
  return with_gum(R"("contains": [{"ingredient": "sodium alginate", "fraction": 1}])" + members);
}

/// A pouch of a mix with this undeclared gum.
Recipe with_mix(const std::string& undeclared) {
  return recipe_with(
      R"("define": {"fell mix": {"kind": "mix", "contains": [{"ingredient": "maltodextrin DE 15", "fraction": 0.6},
           {"ingredient": "fructose", "fraction": 0.38}], )" +
      undeclared +
      R"(}}, "solids": [{"ingredient": "fell mix", "mass_g": 80}], "water": {"mass_g": 50},
         "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.4},
         "process": {"gum_dispersed": "in_mix", "acid_added": "under_blade"},
         "tap": {"calcium_mg_per_l": 20, "alkalinity_mg_caco3_per_l": 50})");
}

const std::string alone =
    R"([{"ingredient": "sodium alginate", "fraction_at_least": 0.006, "fraction_at_most": 0.014}])";
const std::string both =
    R"([{"ingredient": "sodium alginate", "fraction_at_least": 0.003, "fraction_at_most": 0.007},
        {"ingredient": "HM pectin", "fraction_at_least": 0.002, "fraction_at_most": 0.004}])";

}  // namespace

TEST_CASE("a viscosity grade reaches the gel, by word or by figure") {
  CHECK(state_of(alginate("")).grade == ViscosityGrade::unknown);
  CHECK(state_of(alginate(R"(, "viscosity_grade": "very low")")).grade == ViscosityGrade::very_low);
  CHECK(state_of(alginate(R"(, "viscosity_1_percent_mpa_s": 330)")).grade ==
        ViscosityGrade::medium);
  CHECK(refusal_of(
            [] { alginate(R"(, "viscosity_grade": "low", "viscosity_1_percent_mpa_s": 30)"); }) ==
        "/define/my gum/viscosity_1_percent_mpa_s: the viscosity is given twice; keep either "
        "\"viscosity_grade\" or \"viscosity_1_percent_mpa_s\"\n");
  CHECK(
      refusal_of([] {
        with_gum(
            R"("contains": [{"ingredient": "xanthan", "fraction": 1}], "viscosity_grade": "low")");
      }) ==
      "/define/my gum/viscosity_grade: there is no alginate in it; name the gum under "
      "\"contains\"\n");
  // A thicker alginate makes a thicker liquid; how thick is the model's own affair.
  const auto thickness = [](const char* grade) {
    const Recipe recipe = alginate(R"(, "viscosity_grade": ")" + std::string(grade) + '"');
    return evaluate(inputs_of(recipe)).gel.all.lg_viscosity.mean;
  };
  CHECK(thickness("very low") < thickness("low"));
  CHECK(thickness("low") < thickness("medium"));
  CHECK(thickness("medium") < thickness("high"));
}

TEST_CASE("the grade of two alginates is known where it is the same") {
  const auto grade = [](const char* second) {
    return state_of(recipe_with(
                        R"("define": {
             "a": {"kind": "gum", "contains": [{"ingredient": "sodium alginate", "fraction": 1}], "viscosity_grade": "low"},
             "b": {"kind": "gum", "contains": [{"ingredient": "sodium alginate", "fraction": 1}], "viscosity_grade": ")" +
                        std::string(second) + R"("},
             "c": {"kind": "gum", "contains": [{"ingredient": "a", "fraction": 0.5}, {"ingredient": "b", "fraction": 0.5}]}},
           "solids": [{"ingredient": "c", "mass_g": 1}], "water": {"mass_g": 100}, "tap": "demineralised water")"))
        .grade;
  };
  CHECK(grade("low") == ViscosityGrade::low);
  CHECK(grade("high") == ViscosityGrade::unknown);
}

TEST_CASE("esterification and amidation set a pectin's carboxylate (hand calculation)") {
  // 0.65 g of galacturonic acid at 194.14 g/mol in 1 g of gum, what is neither ester nor amide
  // free.
  const auto mmol = [](const char* gum, const std::string& members, Gum which) {
    const Recipe recipe = with_gum(R"("contains": [{"ingredient": ")" + std::string(gum) +
                                   R"(", "fraction": 1}])" + members);
    const Composition& per_g = recipe.ingredients[0].per_g;
    return 1000 * per_g.carboxylate(which) / per_g.gum(which);
  };
  const double all = 650 / 194.14;
  CHECK_THAT(mmol("LM pectin", "", Gum::lm_pectin), near(all * 0.65, 1e-6));
  CHECK_THAT(mmol("LM pectin", R"(, "degree_of_esterification": 0.42)", Gum::lm_pectin),
             near(all * 0.58, 1e-6));
  CHECK_THAT(mmol("HM pectin", R"(, "degree_of_esterification": 0.62)", Gum::hm_pectin),
             near(all * 0.38, 1e-6));
  CHECK_THAT(mmol("amidated pectin", R"(, "degree_of_amidation": 0.15)", Gum::amidated_pectin),
             near(all * 0.55, 1e-6));
  CHECK_THAT(
      mmol("amidated pectin", R"(, "degree_of_esterification": 0.35, "degree_of_amidation": 0.15)",
           Gum::amidated_pectin),
      near(all * 0.50, 1e-6));
}

TEST_CASE("figures that fit no pectin in it are refused") {
  const auto refusal = [](const char* gum, const std::string& members) {
    return refusal_of([&] {
      with_gum(R"("contains": [{"ingredient": ")" + std::string(gum) + R"(", "fraction": 1}], )" +
               members);
    });
  };
  CHECK(refusal("LM pectin", R"("degree_of_esterification": 0.7)") ==
        "/define/my gum/degree_of_esterification: a pectin of 0.7 is an HM pectin; name \"HM "
        "pectin\" "
        "under \"contains\", or check the figure: 0.35 is 35 %\n");
  CHECK(refusal("LM pectin", R"("degree_of_amidation": 0.2)") ==
        "/define/my gum/degree_of_amidation: there is no amidated pectin in it; name \"amidated "
        "pectin\" under \"contains\"\n");
  CHECK(refusal("xanthan", R"("degree_of_esterification": 0.3)") ==
        "/define/my gum/degree_of_esterification: there is no pectin in it, or more than one; name "
        "one pectin under \"contains\"\n");
}

TEST_CASE("several undeclared gums: their bands move together (hand calculation)") {
  const Recipe recipe = with_mix(R"("undeclared_gums": )" + both);
  const Ingredient& mix = recipe.ingredients[0];
  REQUIRE(mix.undeclared.size() == 1);
  CHECK_THAT(mix.gum_share_low, near(0.005, 1e-12));
  CHECK_THAT(mix.gum_share_high, near(0.011, 1e-12));
  // Active gum is what is not moisture, 12 % of alginate.
  const double alginate_per_g = find_ingredient("sodium alginate")->per_g.gum(Gum::alginate);
  const double pectin_per_g = find_ingredient("HM pectin")->per_g.gum(Gum::hm_pectin);
  for (const auto& [at, alginate_g, pectin_g] :
       {std::tuple(0.0, 0.003, 0.002), {0.5, 0.005, 0.003}, {1.0, 0.007, 0.004}}) {
    const Composition per_g = with_undeclared_gum(mix, at);
    CHECK_THAT(per_g.gum(Gum::alginate), near(alginate_g * alginate_per_g, 1e-12));
    CHECK_THAT(per_g.gum(Gum::hm_pectin), near(pectin_g * pectin_per_g, 1e-12));
  }
  const gel::State state = state_of(recipe);
  REQUIRE(state.portions == 2);
  const auto assumed = [&](const std::string& where) -> std::string {
    for (const Assumption& each : recipe.assumed)
      if (each.where == where) return each.what + ": " + each.value + " (" + each.range + ")";
    return "nothing";
  };
  CHECK(assumed("/define/fell mix/undeclared_gums/1") ==
        "HM pectin in fell mix: 0.3 %, the middle of its band (0.2 to 0.4 %)");
}

TEST_CASE("where the pack does not say which gum, the chances of each count alike") {
  const auto gel_of = [](const Recipe& recipe) { return evaluate(inputs_of(recipe)).gel; };
  const Recipe first = with_mix(R"("undeclared_gums": )" + alone);
  const Recipe second = with_mix(R"("undeclared_gums": )" + both);
  const Recipe either =
      with_mix(R"("undeclared_gums_any_of": [{"gums": )" + alone + R"(}, {"gums": )" + both + "}]");
  const GelForecast a = gel_of(first);
  const GelForecast b = gel_of(second);
  const GelForecast mixed = gel_of(either);
  for (std::size_t i = 0; i < gel::texture_count; ++i) {
    const auto texture = static_cast<gel::Texture>(i);
    CHECK_THAT(mixed.chance(texture), near((a.chance(texture) + b.chance(texture)) / 2, 1e-9));
  }
  REQUIRE(mixed.by_gum.size() == 2);
  CHECK(mixed.by_gum[0].gums == "sodium alginate");
  CHECK(mixed.by_gum[1].gums == "sodium alginate and HM pectin");
  CHECK_THAT(gel::chance_set(mixed.by_gum[1].all.chances), near(b.chance_set(), 1e-9));
  CHECK(a.by_gum.empty());
  const auto& assumed = either.assumed;
  CHECK(std::any_of(assumed.begin(), assumed.end(), [](const Assumption& each) {
    return each.where == "/define/fell mix/undeclared_gums_any_of" &&
           each.value ==
               "sodium alginate 0.6 to 1.4 %, or sodium alginate 0.3 to 0.7 % with HM pectin 0.2 "
               "to "
               "0.4 %; each as likely";
  }));
}

TEST_CASE("an undeclared gum is given in one way, and each gum once") {
  CHECK(
      refusal_of([] {
        with_mix(
            R"("undeclared_gum": {"ingredient": "xanthan", "fraction_at_least": 0, "fraction_at_most": 0.01},
                      "undeclared_gums": )" +
            both);
      }) ==
      "/define/fell mix/undeclared_gums: the undeclared gum is given more than one way; keep "
      "either \"undeclared_gum\" or \"undeclared_gums\"\n");
  CHECK(refusal_of([] {
          with_mix(R"("undeclared_gums": [
              {"ingredient": "xanthan", "fraction_at_least": 0, "fraction_at_most": 0.01},
              {"ingredient": "xanthan", "fraction_at_least": 0, "fraction_at_most": 0.02}])");
        }) ==
        "/define/fell mix/undeclared_gums/1/ingredient: \"xanthan\" is listed twice; give it one "
        "band\n");
}
