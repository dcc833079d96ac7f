#include <cmath>
#include <limits>
#include <string>

#include "catch.hpp"
#include "gelwright/error.hpp"
#include "gelwright/properties.hpp"

using namespace gelwright;
using gelwright::test::near;

TEST_CASE("water density") {
  // IAPWS-95 at 1 atm (CRC Handbook, "Standard density of water"), kg/m3.
  CHECK_THAT(water_density_kg_per_m3(4.0), near(999.975, 0.01));
  CHECK_THAT(water_density_kg_per_m3(20.0), near(998.207, 0.01));
  CHECK_THAT(water_density_kg_per_m3(25.0), near(997.048, 0.01));
  CHECK_THAT(water_density_kg_per_m3(37.0), near(993.33, 0.01));
  CHECK_THAT(water_density_kg_per_m3(80.0), near(971.79, 0.02));
  CHECK_THAT(water_density_kg_per_m3(100.0), near(958.36, 0.03));
}

TEST_CASE("sucrose solutions at 20 degC, CRC Handbook, concentrative properties") {
  struct Row {
    double mass_fraction, g_per_cm3;
  };
  for (const Row& row : {Row{.05, 1.0178}, Row{.10, 1.0381}, Row{.20, 1.0810}, Row{.40, 1.1765},
                         Row{.60, 1.2864}, Row{.70, 1.3472}}) {
    CAPTURE(row.mass_fraction);
    CHECK_THAT(sugar_solution_density_kg_per_m3(row.mass_fraction, 20.0),
               near(1000.0 * row.g_per_cm3, 0.3));
  }
  CHECK(sugar_solution_density_kg_per_m3(0.0, 33.0) == water_density_kg_per_m3(33.0));
}

TEST_CASE("glucose solutions at 20 degC stay within 0.6 % of the sucrose curve") {
  // CRC Handbook, concentrative properties of aqueous solutions, D-glucose.
  CHECK_THAT(sugar_solution_density_kg_per_m3(.20, 20.0), near(1079.7, 0.004 * 1079.7));
  CHECK_THAT(sugar_solution_density_kg_per_m3(.40, 20.0), near(1172.4, 0.004 * 1172.4));
  CHECK_THAT(sugar_solution_density_kg_per_m3(.60, 20.0), near(1279.3, 0.006 * 1279.3));
}

TEST_CASE("sugar density away from 20 degC, Brix hydrometer corrections of NBS Circular 440") {
  // Percent to add to a glass hydrometer's reading at another temperature. The table's values to
  // 0.01, read off a published polynomial fit of it (second hand). Glass expands 25e-6 per K.
  struct Row {
    double temp_c, mass_fraction, add_percent;
  };
  for (const Row& row : {Row{10, .10, -.41}, Row{10, .20, -.52}, Row{10, .30, -.62},
                         Row{30, .10, .63}, Row{30, .20, .68}, Row{30, .30, .73},
                         Row{40, .10, 1.47}, Row{40, .20, 1.56}, Row{40, .30, 1.65}}) {
    CAPTURE(row.temp_c, row.mass_fraction);
    const double reading = row.mass_fraction - row.add_percent / 100.0;
    const double buoyant = sugar_solution_density_kg_per_m3(row.mass_fraction, row.temp_c) *
                           (1.0 + 25e-6 * (row.temp_c - 20.0));
    // 0.05 % of sugar is about 0.2 kg/m3.
    CHECK_THAT(buoyant, near(sugar_solution_density_kg_per_m3(reading, 20.0), 0.2));
  }
}

TEST_CASE("a hot syrup expands less the more sugar it holds") {
  // A property, no source: sugar takes the place of water, which expands faster when hot.
  for (double temp_c : {60.0, 80.0, 95.0}) {
    double less_sugar = 1.0;
    for (double w : {0.0, .2, .4, .6, .7, .8, .85}) {
      const double expansion_per_k = std::log(sugar_solution_density_kg_per_m3(w, temp_c - 2.0) /
                                              sugar_solution_density_kg_per_m3(w, temp_c + 2.0)) /
                                     4.0;
      CAPTURE(temp_c, w);
      CHECK(expansion_per_k < less_sugar);
      CHECK(expansion_per_k > 3e-4);
      CHECK(expansion_per_k < 8e-4);
      less_sugar = expansion_per_k;
    }
  }
}

TEST_CASE("density rises with sugar and falls with temperature above 10 degC") {
  for (double temp_c : {10.0, 20.0, 40.0, 60.0, 90.0})
    for (double w = 0.0; w < 0.84; w += 0.01) {
      CAPTURE(temp_c, w);
      const double here = sugar_solution_density_kg_per_m3(w, temp_c);
      CHECK(sugar_solution_density_kg_per_m3(w + 0.01, temp_c) > here);
      CHECK(sugar_solution_density_kg_per_m3(w, temp_c + 1.0) < here);
    }
}

TEST_CASE("sucrose water activity, Robinson and Stokes 1959, 25 degC (from memory)") {
  struct Row {
    double molality, activity;
  };
  for (const Row& row : {Row{1, .98059}, Row{2, .95806}, Row{4, .90567}, Row{6, .84931}}) {
    CAPTURE(row.molality);
    CHECK_THAT(water_activity({.sucrose_mol_per_kg = row.molality}, 0.0),
               near(row.activity, 0.001));
    // An ideal solute must miss, else the check says nothing about the interaction term.
    if (row.molality >= 2)
      CHECK(std::abs(water_activity({.oligomer_mol_per_kg = row.molality}, 0.0) - row.activity) >
            0.005);
  }
}

TEST_CASE("glycerol water activity") {
  // Scatchard, Hamer and Wood 1938 isopiestic data, 25 degC: osmotic coefficient 1.021 at
  // 1 mol/kg (from memory).
  CHECK_THAT(water_activity({.glycerol_mol_per_kg = 1.0}, 0.0),
             near(std::exp(-0.0180153 * 1.021), 0.001));
}

TEST_CASE("isotonic saline") {
  // 0.9 % sodium chloride, 0.1547 mol/kg, osmotic coefficient 0.926 (Pitzer): 286.5 mOsm/kg.
  const double saline = salt_osmolal(2 * 0.1547);
  CHECK_THAT(osmolality_mosm_per_kg(water_activity({}, saline)), near(286.5, 0.1));
}

TEST_CASE("the salt's osmotic coefficient is Pitzer's for sodium chloride") {
  // Pitzer and Mayorga 1973: beta0 0.0765, beta1 0.2664, C 0.00127; A 0.3915 at 25 degC.
  for (double m : {0.1, 0.1547, 0.3, 0.5, 1.0}) {
    const double root = std::sqrt(m);
    const double phi = 1.0 - 0.3915 * root / (1.0 + 1.2 * root) +
                       m * (0.0765 + 0.2664 * std::exp(-2.0 * root)) + m * m * 0.00127;
    CAPTURE(m);
    CHECK_THAT(salt_osmolal(1.0), near(phi, m == 0.1547 ? 0.0005 : 0.011));
  }
}

TEST_CASE("osmolality against freezing points, CRC Handbook") {
  // Depressions of 0.55 and 0.63 K over 1.858 K kg/mol. The last digit, 0.005 K, is 2.7 mOsm/kg;
  // the rest of the 1.5 % is 25 degC against 0.
  const double glucose = 50.0 / 180.156 / 0.95;
  const double sucrose = 100.0 / 342.297 / 0.90;
  CHECK_THAT(osmolality_mosm_per_kg(water_activity({.glucose_mol_per_kg = glucose}, 0.0)),
             near(296.0, 0.015 * 296.0));
  CHECK_THAT(osmolality_mosm_per_kg(water_activity({.sucrose_mol_per_kg = sucrose}, 0.0)),
             near(339.0, 0.015 * 339.0));
}

TEST_CASE("osmolality of fructose against sucrose by freezing points, CRC Handbook (from memory)") {
  // Of 10 % by mass: depressions of 1.16 and 0.63 K; the last digit is 2.7 mOsm/kg.
  const double fructose = 100.0 / 180.156 / 0.90;
  const double sucrose = 100.0 / 342.297 / 0.90;
  const double as_fructose =
      osmolality_mosm_per_kg(water_activity({.fructose_mol_per_kg = fructose}, 0.0));
  const double as_sucrose =
      osmolality_mosm_per_kg(water_activity({.sucrose_mol_per_kg = sucrose}, 0.0));
  CHECK_THAT(as_fructose, near(1160.0 / 1.858, 0.02 * 1160.0 / 1.858));
  // The same sugars on a label, read one way or the other: nearly twice as much.
  CHECK_THAT(as_fructose / as_sucrose, near(1.16 / 0.63, 0.03));
}

TEST_CASE("osmolality of sugars and salts add") {
  const Saccharides sugars{.glucose_mol_per_kg = 0.4, .fructose_mol_per_kg = 0.5};
  const double together = osmolality_mosm_per_kg(water_activity(sugars, 0.2));
  const double apart = osmolality_mosm_per_kg(water_activity(sugars, 0.0)) + 200.0;
  CHECK_THAT(together, near(apart, 1e-9));
  CHECK(osmolality_mosm_per_kg(water_activity({}, 0.0)) == 0.0);
  CHECK_FALSE(std::signbit(osmolality_mosm_per_kg(1.0)));
}

TEST_CASE("every solute lowers water activity, none alike") {
  const double sucrose = water_activity({.sucrose_mol_per_kg = 2.0}, 0.0);
  const double maltose = water_activity({.disaccharide_mol_per_kg = 2.0}, 0.0);
  const double glucose = water_activity({.glucose_mol_per_kg = 2.0}, 0.0);
  const double fructose = water_activity({.fructose_mol_per_kg = 2.0}, 0.0);
  const double glycerol = water_activity({.glycerol_mol_per_kg = 2.0}, 0.0);
  const double oligomer = water_activity({.oligomer_mol_per_kg = 2.0}, 0.0);
  CHECK(sucrose < maltose);
  CHECK(maltose < glucose);
  CHECK(glucose < fructose);
  const double polyol = water_activity({.polyol_mol_per_kg = 2.0}, 0.0);
  CHECK(fructose < polyol);
  CHECK(polyol < glycerol);
  CHECK(glycerol < oligomer);
  // Raoult's law by hand: 55.508 / 57.508.
  CHECK_THAT(oligomer, near(55.508 / 57.508, 1e-5));
}

TEST_CASE("maltodextrin molar mass from dextrose equivalent") {
  // By the definition of DE: 18016 / DE.
  CHECK_THAT(maltodextrin_molar_mass_g_per_mol(10.0), near(1801.6, 0.1));
  CHECK_THAT(maltodextrin_molar_mass_g_per_mol(18.0), near(1000.9, 0.1));
  CHECK_THAT(maltodextrin_molar_mass_g_per_mol(100.0), near(180.156, 0.001));
}

TEST_CASE("label energy, Regulation (EU) 1169/2011 Annex XIV") {
  CHECK(energy_kj({.carbohydrate_g = 1}) == 17.0);
  CHECK(energy_kj({.polyol_g = 1}) == 10.0);
  CHECK(energy_kj({.organic_acid_g = 1}) == 13.0);
  CHECK(energy_kj({.fibre_g = 1}) == 8.0);
  CHECK(energy_kj({.protein_g = 1}) == 17.0);
  CHECK(energy_kj({.fat_g = 1}) == 37.0);
  CHECK(energy_kcal({.carbohydrate_g = 1}) == 4.0);
  CHECK(energy_kcal({.polyol_g = 1}) == 2.4);
  CHECK(energy_kcal({.organic_acid_g = 1}) == 3.0);
  CHECK(energy_kcal({.fibre_g = 1}) == 2.0);
  CHECK(energy_kcal({.protein_g = 1}) == 4.0);
  CHECK(energy_kcal({.fat_g = 1}) == 9.0);
  // By hand: 90 g carbohydrate, 2 g acid, 1 g fibre.
  CHECK_THAT(energy_kj({.carbohydrate_g = 90, .organic_acid_g = 2, .fibre_g = 1}),
             near(1564.0, 1e-9));
  CHECK_THAT(energy_kcal({.carbohydrate_g = 90, .organic_acid_g = 2, .fibre_g = 1}),
             near(368.0, 1e-9));
  // Annex I: salt = sodium x 2.5.
  CHECK_THAT(salt_equivalent_g(400.0), near(1.0, 1e-12));
}

TEST_CASE("values outside the range are refused") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (double bad : {-0.1, 100.1, nan}) CHECK_THROWS_AS(water_density_kg_per_m3(bad), InputError);
  for (double bad : {-0.01, 0.86, nan})
    CHECK_THROWS_AS(sugar_solution_density_kg_per_m3(bad, 20.0), InputError);
  for (double bad : {0.0, 101.0, nan})
    CHECK_THROWS_AS(maltodextrin_molar_mass_g_per_mol(bad), InputError);
  for (double bad : {0.0, 1.01, nan}) CHECK_THROWS_AS(osmolality_mosm_per_kg(bad), InputError);
  for (double bad : {-1.0, nan, std::numeric_limits<double>::infinity()}) {
    CHECK_THROWS_AS(salt_osmolal(bad), InputError);
    CHECK_THROWS_AS(water_activity({.fructose_mol_per_kg = bad}, 0.0), InputError);
    CHECK_THROWS_AS(water_activity({}, bad), InputError);
  }
  try {
    sugar_solution_density_kg_per_m3(0.9, 20.0);
    FAIL("accepted 0.9");
  } catch (const InputError& error) {
    REQUIRE(error.problems().size() == 1);
    CHECK(error.problems()[0].where == "mass_fraction");
    CHECK(error.problems()[0].what == "is 0.900000");
    CHECK(error.problems()[0].remedy == "must be 0 to 0.85 g of dissolved solids per g");
  }
}

TEST_CASE("property constants are complete and unique") {
  for (const Datum& row : properties_data()) {
    CAPTURE(row.key);
    CHECK_FALSE(row.unit.empty());
    CHECK_FALSE(row.source.empty());
    int seen = 0;
    for (const Datum& other : properties_data()) seen += other.key == row.key ? 1 : 0;
    CHECK(seen == 1);
  }
}
