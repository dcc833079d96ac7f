#include <array>
#include <bit>
#include <map>

#include "base/text.hpp"
#include "catch.hpp"
#include "gelwright/elements.hpp"
#include "gelwright/error.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/ingredient.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;

TEST_CASE("sums and multiples of a composition take every number in it, once") {
  using Numbers = std::array<double, sizeof(Composition) / sizeof(double)>;
  Numbers numbers;
  for (std::size_t i = 0; i < numbers.size(); ++i) numbers[i] = static_cast<double>(i + 1);
  const auto one = std::bit_cast<Composition>(numbers);
  const auto sum = std::bit_cast<Numbers>(one + one * 3);
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    INFO(i);
    CHECK(sum[i] == 4 * numbers[i]);
  }
}

TEST_CASE("every ingredient is used up: water, soluble solids and nothing negative in 1 g") {
  for (const Ingredient& each : builtin_ingredients()) {
    INFO(each.name);
    CHECK_THAT(each.per_g.water_g + each.per_g.soluble_solids_g, near(1, 1e-12));
    CHECK(each.per_g.carbohydrate_g + each.per_g.polyol_g + each.per_g.fibre_g +
              each.per_g.organic_acid_g <=
          1 + 1e-12);
    for (const double mol : each.per_g.saccharide_mol) CHECK(mol >= 0);
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

TEST_CASE("salts and acids are neutral and weigh what their parts weigh, protons counted") {
  // The hydrogen atoms of each ligand that never leave as protons, from its structure.
  const auto kept_hydrogen = [](Component ligand) {
    switch (ligand) {
      case Component::citrate:
      case Component::lactate:
        return 5;
      case Component::malate:
      case Component::tartrate:
        return 4;
      case Component::acetate:
        return 3;
      case Component::gluconate:
        return 11;
      case Component::ascorbate:
        return 7;
      default:
        return 0;
    }
  };
  const std::map<Component, const char*> formulas = {
      {Component::citrate, "C6H5O7"},   {Component::malate, "C4H4O5"},
      {Component::tartrate, "C4H4O6"},  {Component::lactate, "C3H5O3"},
      {Component::acetate, "C2H3O2"},   {Component::gluconate, "C6H11O7"},
      {Component::ascorbate, "C6H7O6"}, {Component::phosphate, "PO4"},
      {Component::carbonate, "CO3"},    {Component::sulfate, "SO4"},
      {Component::calcium, "Ca"},       {Component::magnesium, "Mg"},
      {Component::sodium, "Na"},        {Component::potassium, "K"},
      {Component::chloride, "Cl"}};
  std::size_t seen = 0;
  for (const Ingredient& each : builtin_ingredients()) {
    const bool has_formula = each.source == "iupac-2021" && each.per_g.polyol_g == 0 &&
                             each.per_g.carbohydrate_g == 0 && each.per_g.lactone_mol == 0;
    if (!has_formula) continue;
    ++seen;
    INFO(each.name);
    const double formula_g = molar_mass_g_per_mol(each.basis);
    double charge = 0;
    double mass_g = each.per_g.water_g * formula_g;
    double protons = atom_count(each.basis, "H") -
                     2 * each.per_g.water_g * formula_g / molar_mass_g_per_mol("H2O");
    for (std::size_t c = 0; c < component_count; ++c) {
      const auto component = static_cast<Component>(c);
      const double mol = formula_g * (each.per_g.dissolved_mol[c] + each.per_g.acid_only_mol[c]);
      if (mol == 0) continue;
      charge += mol * charge_of(component);
      mass_g += mol * molar_mass_g_per_mol(formulas.at(component));
      protons -= mol * kept_hydrogen(component);
    }
    CHECK(protons > -1e-9);
    CHECK_THAT(charge + protons, near(0, 1e-9));
    CHECK_THAT(mass_g + protons * molar_mass_g_per_mol("H"), near(formula_g, 1e-9));
    if (each.kind == Kind::acid) CHECK(protons > 0.5);
  }
  CHECK(seen >= 50);
}

TEST_CASE("sodium, potassium and magnesium of the salts people have, by their formulas") {
  const auto grams = [](const char* name, Component ion, const char* symbol) {
    return molar_mass_g_per_mol(symbol) * find_ingredient(name)->per_g.dissolved(ion);
  };
  // By hand with IUPAC 2021 weights: 22.990/214.105, 3 x 39.098/324.410, 39.098/188.177, ...
  CHECK_THAT(grams("monosodium citrate anhydrous", Component::sodium, "Na"), near(.10738, 5e-6));
  CHECK_THAT(grams("disodium citrate sesquihydrate", Component::sodium, "Na"), near(.17476, 5e-5));
  CHECK_THAT(grams("trisodium citrate anhydrous", Component::sodium, "Na"), near(.26724, 5e-5));
  CHECK_THAT(grams("tripotassium citrate monohydrate", Component::potassium, "K"),
             near(.36156, 5e-5));
  CHECK_THAT(grams("potassium hydrogen tartrate", Component::potassium, "K"), near(.20777, 5e-5));
  CHECK_THAT(grams("sodium acetate anhydrous", Component::sodium, "Na"), near(.28026, 5e-5));
  // Magnesium as packs print it: 16.2 %, 12.0 % (dihydrate lactate 10.2 %), 12.0 %, 9.9 %.
  CHECK_THAT(grams("trimagnesium dicitrate anhydrous", Component::magnesium, "Mg"),
             near(.162, 1e-3));
  CHECK_THAT(grams("trimagnesium dicitrate nonahydrate", Component::magnesium, "Mg"),
             near(.119, 1e-3));
  CHECK_THAT(grams("magnesium lactate dihydrate", Component::magnesium, "Mg"), near(.102, 1e-3));
  CHECK_THAT(grams("magnesium chloride hexahydrate", Component::magnesium, "Mg"), near(.120, 1e-3));
  CHECK_THAT(grams("magnesium sulfate heptahydrate", Component::magnesium, "Mg"),
             near(.0986, 1e-4));
  // By hand: 22.990/142.086, 2 x 22.990/230.080, 4 x 39.098/470.54, 39.098/98.142, 3
  // x 39.098/212.266, 2 x 22.990/268.06, 3 x 22.990/380.12; magnesium 24.305/450.63
  // and 24.305/120.36.
  CHECK_THAT(grams("sodium diacetate", Component::sodium, "Na"), near(.16180, 5e-5));
  CHECK_THAT(grams("disodium tartrate dihydrate", Component::sodium, "Na"), near(.19984, 5e-5));
  CHECK_THAT(grams("dipotassium tartrate hemihydrate", Component::potassium, "K"),
             near(.33237, 5e-5));
  CHECK_THAT(grams("potassium acetate", Component::potassium, "K"), near(.39838, 5e-5));
  CHECK_THAT(grams("tripotassium phosphate", Component::potassium, "K"), near(.55258, 5e-5));
  CHECK_THAT(grams("disodium phosphate heptahydrate", Component::sodium, "Na"), near(.17153, 5e-5));
  CHECK_THAT(grams("trisodium phosphate dodecahydrate", Component::sodium, "Na"),
             near(.18144, 5e-5));
  CHECK_THAT(grams("magnesium gluconate dihydrate", Component::magnesium, "Mg"),
             near(.05394, 5e-5));
  CHECK_THAT(grams("magnesium sulfate anhydrous", Component::magnesium, "Mg"), near(.20193, 5e-5));
  // Potassium chloride 52.4 % potassium (labels and pharmacopoeias).
  CHECK_THAT(grams("potassium chloride", Component::potassium, "K"), near(.5244, 1e-4));
}

TEST_CASE("solutions hold their strength and the rest water") {
  const Composition acid = find_ingredient("lactic acid 80 %")->per_g;
  // 0.80 / 90.078.
  CHECK_THAT(acid.dissolved(Component::lactate), near(8.881e-3, 1e-6));
  CHECK_THAT(acid.water_g, near(0.2, 1e-12));
  // E 325 assay: 12.1 to 12.6 % sodium in the 60 % solution (a supplier's sheet).
  CHECK_THAT(sodium_mg(find_ingredient("sodium lactate 60 %")->per_g), near(123.5, 2.5));
}

TEST_CASE("honey: composition and acid of the average of 490 honeys, White et al. 1962") {
  const Composition honey = find_ingredient("honey")->per_g;
  CHECK_THAT(honey.water_g, near(0.172, 1e-12));
  // Fructose over glucose 1.23; glucose units of the maltose and the rest not counted there.
  CHECK_THAT(honey.saccharide_mol[index_of(Saccharide::fructose)] /
                 honey.saccharide_mol[index_of(Saccharide::glucose)],
             near(1.23, 0.02));
  // Crane 1980, weighted mean of 1063 honeys of four countries: fructose 38.6 %, glucose 32.8 %.
  CHECK_THAT(honey.fructose_g, near(0.386, 0.01));
  CHECK_THAT(honey.saccharide_mol[index_of(Saccharide::glucose)] * 180.156, near(0.328, 0.016));
  // Food tables give 80 to 82.5 g of carbohydrate in 100 g (from memory).
  CHECK_THAT(honey.carbohydrate_g, near(0.81, 0.016));
  // pH of 10 g in 75 mL: 3.91 on average, 3.42 to 6.10 in all (the same work). Other bases of honey
  // (amino acids, phosphate) are not counted, so the model reads low, within the range.
  const Recipe diluted = test::recipe_with(
      R"("solids": [{"ingredient": "honey", "mass_g": 10}], "water": {"mass_g": 75},
         "tap": "demineralised water")");
  const double ph = evaluate(inputs_of(diluted)).water_phase.ph;
  CHECK(ph > 3.42);
  CHECK(ph < 3.91);
}

TEST_CASE("polyols: energy and label of Regulation (EU) 1169/2011 Annex XIV, no carbohydrate") {
  const auto energy = [](const char* name) {
    const Recipe recipe = test::recipe_with(R"("solids": [{"ingredient": ")" + std::string(name) +
                                            R"(", "mass_g": 10}], "water": {"mass_g": 100})");
    const Nutrition label = evaluate(inputs_of(recipe)).nutrition;
    CHECK(label.carbohydrate_g == 0);
    return label.energy_kj;
  };
  // Polyols 10 kJ/g, erythritol 0, glycerol is a polyol (Annex I, point 8).
  CHECK_THAT(energy("sorbitol"), near(100, 1e-9));
  CHECK_THAT(energy("xylitol"), near(100, 1e-9));
  CHECK_THAT(energy("maltitol"), near(100, 1e-9));
  CHECK_THAT(energy("glycerol"), near(100, 1e-9));
  CHECK_THAT(energy("erythritol"), near(0, 1e-9));
}

TEST_CASE("glucose syrups: every reducing end the DE counts is in a molecule") {
  for (double de = 20; de <= 98; de += 0.5) {
    INFO(de);
    const Composition per_g = glucose_syrup(de, 0.8).per_g;
    double molecules = 0;
    for (const double mol : per_g.saccharide_mol) {
      CHECK(mol >= 0);
      molecules += mol;
    }
    // DE: reducing ends in percent of those of the same mass of glucose.
    CHECK_THAT(100 * 180.156 * molecules / per_g.carbohydrate_g, near(de, 1e-3));
    // What is left after glucose and maltose is longer than maltose.
    const double higher_mol = per_g.saccharide_mol[index_of(Saccharide::oligomer)];
    CHECK(per_g.maltodextrin_g / higher_mol > 342);
  }
  // Confectioner's syrup, DE 42 and 80 % solids: 19 % glucose, 14 % maltose of the solids
  // (handbooks, from memory).
  const Composition common = find_ingredient("glucose syrup DE 42")->per_g;
  CHECK_THAT(common.carbohydrate_g, near(0.80, 1e-12));
  CHECK_THAT(common.sugars_g / common.carbohydrate_g, near(0.33, 0.03));
  CHECK(find_ingredient("glucose syrup DE 38").has_value());
  CHECK_FALSE(find_ingredient("glucose syrup DE 19").has_value());
  CHECK_FALSE(find_ingredient("glucose syrup DE 99").has_value());
  CHECK_THROWS_AS(glucose_syrup(15, 0.8), InputError);
  CHECK_THROWS_AS(glucose_syrup(42, 0), InputError);
  CHECK_THROWS_AS(glucose_syrup(42, 80), InputError);
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

TEST_CASE("an alginate's viscosity grade from the figure on its sheet") {
  // Suppliers' sheets, 1 % solution: 4 to 30 mPa s sold as low and very low, 300 to 400 as medium.
  CHECK(viscosity_grade_of(8) == ViscosityGrade::very_low);
  CHECK(viscosity_grade_of(30) == ViscosityGrade::low);
  CHECK(viscosity_grade_of(330) == ViscosityGrade::medium);
  CHECK(viscosity_grade_of(1000) == ViscosityGrade::high);
  CHECK(viscosity_grade_of(0) == ViscosityGrade::unknown);
  CHECK(to_text(ViscosityGrade::very_low) == "very low");
}

TEST_CASE("a built-in gum states nothing: its grade and its composition are unknown") {
  for (const Ingredient& each : builtin_ingredients()) {
    CHECK(each.gum_facts.alginate_grade == ViscosityGrade::unknown);
    CHECK_FALSE(each.gum_facts.guluronate_share.has_value());
    CHECK_FALSE(each.gum_facts.esterification.has_value());
  }
}
