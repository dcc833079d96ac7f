#include "base/text.hpp"
#include "catch.hpp"
#include "gelwright/elements.hpp"
#include "gelwright/ingredient.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;

TEST_CASE("every ingredient is used up: water, soluble solids and nothing negative in 1 g") {
  for (const Ingredient& each : builtin_ingredients()) {
    INFO(each.name);
    CHECK_THAT(each.per_g.water_g + each.per_g.soluble_solids_g, near(1, 1e-12));
    CHECK(each.per_g.carbohydrate_g + each.per_g.fibre_g + each.per_g.organic_acid_g <= 1 + 1e-12);
    for (const double mol : each.per_g.dissolved_mol) CHECK(mol >= 0);
    CHECK_THAT(each.per_g.glucose_g + each.per_g.fructose_g,
               near(each.per_g.carbohydrate_g, 1e-12));
    CHECK(find_source(each.source) != nullptr);
  }
}

TEST_CASE("carbohydrate as is: molar masses recomputed from IUPAC 2021 atomic weights") {
  CHECK_THAT(find_ingredient("dextrose monohydrate")->per_g.carbohydrate_g, near(0.9091, 5e-5));
  CHECK_THAT(find_ingredient("isomaltulose")->per_g.carbohydrate_g, near(0.950, 5e-4));
  CHECK_THAT(find_ingredient("sucrose")->per_g.carbohydrate_g, near(1, 1e-12));
}

TEST_CASE("calcium and sodium per gram by hydrate, recomputed from IUPAC 2021 atomic weights") {
  const auto calcium = [](const char* name) {
    const Composition per_g = find_ingredient(name)->per_g;
    return molar_mass_g_per_mol("Ca") *
           (per_g.dissolved(Component::calcium) + per_g.acid_only(Component::calcium));
  };
  CHECK_THAT(calcium("calcium chloride dihydrate"), near(.27262, 5e-6));
  CHECK_THAT(calcium("calcium chloride anhydrous"), near(.36113, 5e-6));
  CHECK_THAT(calcium("calcium lactate pentahydrate"), near(.13000, 5e-6));
  CHECK_THAT(calcium("calcium gluconate monohydrate"), near(.08938, 5e-6));
  CHECK_THAT(calcium("tricalcium citrate tetrahydrate"), near(.21075, 5e-6));
  CHECK_THAT(calcium("calcium carbonate"), near(.40044, 5e-6));
  CHECK_THAT(sodium_mg(find_ingredient("sodium chloride")->per_g), near(393.39, 0.05));
  CHECK_THAT(sodium_mg(find_ingredient("trisodium citrate dihydrate")->per_g), near(234.51, 0.05));
}

TEST_CASE(
    "sodium alginate: sodium and carboxylate on the same basis, 222 g/mol (EU 231/2012, E 401)") {
  const Composition per_g = find_ingredient("sodium alginate")->per_g;
  CHECK_THAT(sodium_mg(per_g), near(1000 * 22.990 / 222, 0.01));
  CHECK_THAT(per_g.dissolved(Component::sodium) - per_g.dissolved(Component::uronate),
             near(0, 1e-15));
}

TEST_CASE("salts and acids are electrically neutral once protons are counted") {
  for (const Ingredient& each : builtin_ingredients()) {
    if (each.kind != Kind::salt && each.kind != Kind::calcium_salt) continue;
    INFO(each.name);
    double positive = 0;
    double negative = 0;
    for (std::size_t c = 0; c < component_count; ++c) {
      const int charge = charge_of(static_cast<Component>(c));
      const double mol = each.per_g.dissolved_mol[c] + each.per_g.acid_only_mol[c];
      (charge > 0 ? positive : negative) += charge * mol;
    }
    CHECK(positive > 0);
    // Hydrogen salts (bicarbonate, hydrogen phosphate) hold protons; all others balance.
    const bool hydrogen = each.name.find("bicarbonate") != std::string::npos ||
                          each.name.find("dicalcium phosphate") != std::string::npos;
    if (!hydrogen) CHECK_THAT(positive + negative, near(0, 1e-12));
  }
}

TEST_CASE("maltodextrin is made for any DE from 3 to 20, particles by 18016 / DE") {
  const Ingredient found = find_ingredient("maltodextrin DE 12").value();
  CHECK_THAT(found.per_g.saccharide_mol[index_of(Saccharide::oligomer)],
             near(0.95 / (18016.0 / 12), 5e-8));
  CHECK(find_ingredient("maltodextrin DE 7.5").has_value());
  CHECK_FALSE(find_ingredient("maltodextrin DE 2").has_value());
  CHECK_FALSE(find_ingredient("maltodextrin DE 25").has_value());
  CHECK_FALSE(find_ingredient("maltodextrin DE 12x").has_value());
  CHECK_FALSE(find_ingredient("maltodextrin DE ").has_value());
}

TEST_CASE("misspelt names find their neighbours, best first") {
  const std::vector<std::string> names = {"fructose", "sucrose", "xanthan"};
  CHECK(similar_names("fructos", names) == std::vector<std::string>{"fructose"});
  CHECK(similar_names("sucrse", names).front() == "sucrose");
  CHECK(similar_names("zzz", names).empty());
}

TEST_CASE("a blend inherits its parts' allergens, buffer and solubility") {
  const Recipe recipe = test::recipe_with(R"("define": {
      "inner mix": {"kind": "mix", "label": {"per_g": 100, "carbohydrate_g": 90},
        "allergens": ["milk"], "buffer": {"carboxylate_mmol_per_g": 0.1, "pka": 3.6}},
      "outer mix": {"kind": "mix", "contains": [{"ingredient": "inner mix", "fraction": 0.5},
        {"ingredient": "sucrose", "fraction": 0.5}], "allergens": ["soy"]}},
      "solids": [{"ingredient": "outer mix", "mass_g": 50}], "water": {"mass_g": 50})");
  const Ingredient& outer = recipe.ingredients.front();
  CHECK(outer.allergens == std::vector<std::string>{"milk", "soy"});
  CHECK(outer.buffer_pka == 3.6);
  CHECK_THAT(outer.per_g.dissolved(Component::buffer), near(0.05e-3, 1e-12));
}
