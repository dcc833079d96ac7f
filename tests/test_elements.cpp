#include "catch.hpp"
#include "gelwright/elements.hpp"
#include "gelwright/error.hpp"

using gelwright::atom_count;
using gelwright::elements_data;
using gelwright::molar_mass_g_per_mol;
using gelwright::test::near;

static_assert(molar_mass_g_per_mol("H2O") > 18.0, "usable at compile time");

TEST_CASE("molar masses agree with the supplier and pharmacopoeia figures") {
  // Merck Index and USP monograph formula weights, printed to 0.01; the third decimals are sums of
  // the IUPAC abridged weights done by hand.
  CHECK_THAT(molar_mass_g_per_mol("H2O"), near(18.015, 0.0006));
  CHECK_THAT(molar_mass_g_per_mol("C6H8O7"), near(192.123, 0.0006));
  CHECK_THAT(molar_mass_g_per_mol("C6H8O7.H2O"), near(210.138, 0.0006));
  CHECK_THAT(molar_mass_g_per_mol("C4H6O5"), near(134.087, 0.0006));
  CHECK_THAT(molar_mass_g_per_mol("C4H6O6"), near(150.086, 0.0006));
  CHECK_THAT(molar_mass_g_per_mol("C3H6O3"), near(90.078, 0.0006));
  CHECK_THAT(molar_mass_g_per_mol("C6H10O6"), near(178.140, 0.0006));
  CHECK_THAT(molar_mass_g_per_mol("Na3C6H5O7.2H2O"), near(294.099, 0.0015));
  CHECK_THAT(molar_mass_g_per_mol("NaC6H7O7"), near(214.105, 0.0006));
  CHECK_THAT(molar_mass_g_per_mol("CaCl2.2H2O"), near(147.01, 0.01));
  CHECK_THAT(molar_mass_g_per_mol("C12H22O11"), near(342.30, 0.01));
}

namespace {

/// Mass of the element in 1 g of the substance, g/g.
double share(const char* formula, const char* symbol) {
  return atom_count(formula, symbol) * molar_mass_g_per_mol(symbol) / molar_mass_g_per_mol(formula);
}

}  // namespace

TEST_CASE("calcium share of the salts a kitchen can buy") {
  // Formula-weight arithmetic with the IUPAC abridged weights (CIAAW 2021), five figures.
  CHECK_THAT(share("CaCl2.2H2O", "Ca"), near(.27262, 6e-6));
  CHECK_THAT(share("CaCl2", "Ca"), near(.36113, 6e-6));
  CHECK_THAT(share("C6H10CaO6.5H2O", "Ca"), near(.13000, 6e-6));
  CHECK_THAT(share("C6H10CaO6", "Ca"), near(.18366, 6e-6));
  CHECK_THAT(share("Ca(C6H11O7)2.H2O", "Ca"), near(.08938, 6e-6));
  CHECK_THAT(share("Ca3(C6H5O7)2.4H2O", "Ca"), near(.21075, 6e-6));
  CHECK_THAT(share("CaSO4.2H2O", "Ca"), near(.23279, 6e-6));
  CHECK_THAT(share("CaCO3", "Ca"), near(.40044, 6e-6));
  CHECK_THAT(share("CaHPO4.2H2O", "Ca"), near(.23290, 6e-6));
}

TEST_CASE("sodium share of salts") {
  // Formula-weight arithmetic with the IUPAC abridged weights (CIAAW 2021), five figures.
  CHECK_THAT(share("NaCl", "Na"), near(.39339, 6e-6));
  CHECK_THAT(share("Na3C6H5O7.2H2O", "Na"), near(.23451, 6e-6));
  CHECK_THAT(share("NaHCO3", "Na"), near(.27367, 6e-6));
}

TEST_CASE("formula grammar") {
  CHECK(atom_count("Ca(HCO3)2", "O") == 6.0);
  CHECK(atom_count("Ca3(C6H5O7)2.4H2O", "H") == 18.0);
  CHECK(atom_count("CaCl2.2H2O", "Na") == 0.0);
  CHECK_THAT(molar_mass_g_per_mol("2H2O"), near(2.0 * molar_mass_g_per_mol("H2O"), 1e-12));
  CHECK_THAT(molar_mass_g_per_mol("((H2)O)"), near(molar_mass_g_per_mol("H2O"), 1e-12));
  for (const char* bad : {"", "Xx", "H2O)", "(H2O", "CaCl2..H2O", "CaCl2.", "h2o", "H0", "()",
                          "H2 O", "Na+", "H99999999", "(((((((((((H)))))))))))"}) {
    CAPTURE(bad);
    CHECK_THROWS_AS(molar_mass_g_per_mol(bad), gelwright::InputError);
  }
}

TEST_CASE("the refusal names the formula and how to mend it") {
  try {
    molar_mass_g_per_mol("NaXx");
    FAIL("a bad formula was accepted");
  } catch (const gelwright::InputError& error) {
    REQUIRE(error.problems().size() == 1);
    CHECK(error.problems()[0].where == "formula \"NaXx\"");
    CHECK(error.problems()[0].what == "unknown element");
    CHECK(error.problems()[0].remedy == "write it like CaCl2.2H2O or Ca(HCO3)2");
  }
}

TEST_CASE("each element is listed once, with its unit and source") {
  for (const auto& row : elements_data()) {
    CAPTURE(row.key);
    CHECK(row.value > 0.0);
    CHECK(row.uncertainty > 0.0);
    CHECK(row.unit == "g/mol");
    CHECK(row.source == "iupac-2021");
    int seen = 0;
    for (const auto& other : elements_data()) seen += other.key == row.key ? 1 : 0;
    CHECK(seen == 1);
  }
}
