#include <cmath>
#include <string>

#include "catch.hpp"
#include "gelwright/ingredient.hpp"
#include "gelwright/solubility.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

double at(const char* name, double temp_c) {
  return solubility_g_per_100g_water(name, temp_c).value();
}

}  // namespace

TEST_CASE("solubilities against other sources than the table's own") {
  // Sucrose: 2 g in 1 g of water at room temperature (pharmacopoeias: 1 in 0.5, from memory).
  CHECK_THAT(at("sucrose", 20), near(200, 5));
  // Charles 1960: percent by mass 64.397 + 0.07251 t + 0.0020569 t2 - 9.035e-6 t3 (from memory).
  for (const double t : {5.0, 20.0, 25.0, 40.0}) {
    const double percent = 64.397 + 0.07251 * t + 0.0020569 * t * t - 9.035e-6 * t * t * t;
    CHECK_THAT(at("sucrose", t), near(100 * percent / (100 - percent), 0.1));
  }
  // Dextrose: 49.7 g of the hydrate in 100 g of solution at room temperature (Combs and Bele, in
  // Experimental Cookery): 45.2 g of dextrose in 54.8 g of water. And 1 g in 1.1 mL at 25 degC
  // (Merck Index, from memory).
  CHECK_THAT(at("dextrose monohydrate", 20), near(82.5, 0.12 * 82.5));
  CHECK_THAT(at("dextrose monohydrate", 25), near(91, 0.16 * 91));
  // Maltose at 21 degC 44.1 % by mass (Gillis, in Experimental Cookery).
  CHECK_THAT(at("maltose monohydrate", 21), near(100 * 0.441 / 0.559, 0.2));
  // Erythritol 37 % by mass at 20 degC (a supplier's page).
  CHECK_THAT(at("erythritol", 20), near(100 * 0.37 / 0.63, 2));
  // Sodium chloride 26.4 % by mass saturated (CRC Handbook, from memory).
  CHECK_THAT(at("sodium chloride", 20), near(100 * 0.2643 / 0.7357, 0.1));
  // Gypsum: 15.2 mmol/kg from its solubility product with ion pairs, 136.14 g/mol.
  CHECK_THAT(at("calcium sulfate dihydrate", 25), near(0.0152 * 136.14 / 10, 0.01));
}

TEST_CASE("calcium lactate and gluconate by their solubility products in 1 M sodium chloride") {
  // Vavrusova, Munk and Skibsted 2013 (abstract): Ksp = 5.8e-3 for the lactate, 7.1e-4 for the
  // gluconate, free ions only. What is bound to calcium comes on top: in water more than the cube
  // root of Ksp / 4, and with association constants near 10 L/mol not three times as much.
  const auto free_ions = [](double ksp, double molar_mass) {
    return std::cbrt(ksp / 4) * molar_mass / 10;
  };
  const double lactate = at("calcium lactate pentahydrate", 25) / free_ions(5.8e-3, 218.2);
  const double gluconate = at("calcium gluconate monohydrate", 25) / free_ions(7.1e-4, 430.4);
  CHECK(lactate > 1);
  CHECK(lactate < 3);
  CHECK(gluconate > 1);
  CHECK(gluconate < 3);
  CHECK(at("calcium lactate pentahydrate", 25) > at("calcium gluconate monohydrate", 25));
}

TEST_CASE("solubility is straight between the temperatures on record and held outside them") {
  CHECK_THAT(at("calcium lactate pentahydrate", 15), near((4.8 + 5.8) / 2, 1e-12));
  CHECK(at("calcium lactate pentahydrate", 5) == at("calcium lactate anhydrous", 10));
  CHECK(at("calcium lactate anhydrous", 60) == at("calcium lactate pentahydrate", 30));
  CHECK(at("isomaltulose", 5) == at("isomaltulose", 40));
  CHECK_FALSE(solubility_g_per_100g_water("glycerol", 20).has_value());
  CHECK_FALSE(solubility_g_per_100g_water("maltodextrin DE 12", 20).has_value());
  CHECK_FALSE(solubility_g_per_100g_water("", 20).has_value());
  CHECK(solubility_source("sucrose") == "charles-1960");
  CHECK(solubility_source("glycerol").empty());
}

TEST_CASE("everything on record is a built-in ingredient and dissolves better in the warmth") {
  std::size_t known = 0;
  for (const Ingredient& each : builtin_ingredients()) {
    const auto cold = solubility_g_per_100g_water(each.name, 5);
    if (!cold) continue;
    ++known;
    INFO(each.name);
    CHECK(*cold > 0);
    for (double t = 5; t < 40; t += 1)
      CHECK(at(each.name.c_str(), t + 1) >= at(each.name.c_str(), t));
    CHECK(find_source(solubility_source(each.name)) != nullptr);
  }
  CHECK(known == 32);
}
