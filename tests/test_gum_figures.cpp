#include "catch.hpp"
#include "gelling/carboxylate.hpp"
#include "gelwright/elements.hpp"
#include "gelwright/error.hpp"
#include "gelwright/gums.hpp"

using namespace gelwright;
using gelwright::test::near;

TEST_CASE("carboxylate of the gums") {
  // 222 g/mol: Regulation (EU) 231/2012, E 401. The rest is arithmetic on the stated composition.
  CHECK_THAT(carboxylate_mmol_per_g(Gum::alginate), near(4.50, 0.005));
  // 90 mg of calcium per g at full saturation; 40.078 g/mol.
  CHECK_THAT(carboxylate_mmol_per_g(Gum::alginate) / 2 * 40.078, near(90, 0.5));
  CHECK_THAT(carboxylate_mmol_per_g(Gum::lm_pectin), near(2.18, 0.005));
  CHECK_THAT(carboxylate_mmol_per_g(Gum::hm_pectin), near(1.00, 0.005));
  CHECK_THAT(carboxylate_mmol_per_g(Gum::amidated_pectin), near(1.67, 0.005));
  CHECK_THAT(pectin_carboxylate_mmol_per_g(0.65, 0.35, 0),
             near(carboxylate_mmol_per_g(Gum::lm_pectin), 1e-12));
  // Galacturonic acid C6H10O7, IUPAC 2021 weights.
  CHECK_THAT(pectin_carboxylate_mmol_per_g(1, 0, 0),
             near(1000 / molar_mass_g_per_mol("C6H10O7"), 1e-3));
  // Low-acyl gellan: two glucoses, a sodium glucuronate and a rhamnose less four waters.
  CHECK_THAT(carboxylate_mmol_per_g(Gum::gellan_low_acyl),
             near(1000 / molar_mass_g_per_mol("C24H35O20Na"), 0.01));
  // One glycerate, half an acetate more.
  CHECK_THAT(carboxylate_mmol_per_g(Gum::gellan_high_acyl),
             near(1000 / (molar_mass_g_per_mol("C24H35O20Na") + molar_mass_g_per_mol("C3H4O3") +
                          molar_mass_g_per_mol("C2H2O") / 2),
                  0.01));
  CHECK(neutralised_fraction(Gum::alginate) == 1);
  CHECK_THROWS_AS(pectin_carboxylate_mmol_per_g(0.65, 0.9, 0.2), InputError);
}

TEST_CASE("the gel model counts the carboxylate that the gums are declared with") {
  // To two decimals, as the reference grid of the model states it.
  const struct {
    Gum gum;
    double mmol_per_g;
  } rows[] = {{Gum::alginate, 4.50},
              {Gum::hm_pectin, 1.00},
              {Gum::lm_pectin, 2.18},
              {Gum::amidated_pectin, 1.67},
              {Gum::gellan_low_acyl, 1.50}};
  for (const auto& row : rows) {
    CHECK(gel::detail::coo_mmol_per_g(row.gum) == row.mmol_per_g);
    CHECK_THAT(gel::detail::coo_mmol_per_g(row.gum), near(carboxylate_mmol_per_g(row.gum), 0.005));
  }
}

TEST_CASE("the two calcium ratios") {
  // R2 = 2 F_G R_G; 1 g of alginate in 1 L at 100 mg/L calcium gives 1.11.
  CHECK_THAT(saturation_ratio_r2(100 / 40.078, carboxylate_mmol_per_g(Gum::alginate)),
             near(1.11, 0.005));
  CHECK_THAT(guluronate_ratio_from_r2(0.55, 0.5), near(0.55, 1e-12));
  CHECK_THAT(guluronate_ratio_from_r2(0.55, 0.35) * 2 * 0.35, near(0.55, 1e-12));
  CHECK_THROWS_AS(guluronate_ratio_from_r2(0.5, 0), InputError);
  CHECK(saturation_ratio_r2(1, 0) == 0);
  CHECK_THAT(divalent_for_gum(Gum::gellan_low_acyl, 1, 1), near(1.5, 0));
  CHECK_THAT(divalent_for_gum(Gum::alginate, 1, 1), near(1, 0));
}
