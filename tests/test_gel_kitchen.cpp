#include <cmath>

#include "catch.hpp"
#include "gelwright/gel_kitchen.hpp"

using namespace gelwright;
using namespace gelwright::gel;
using test::near;

TEST_CASE("gel syringe: more is left of a thicker liquid, and the table reads back") {
  double last = 0;
  for (double lg_thickness = 0; lg_thickness < 4; lg_thickness += 0.01) {
    const double ml = syringe_ml_left(lg_thickness);
    CHECK(ml >= last);
    if (ml > 0.5 && ml < 9.75) CHECK_THAT(lg_thickness_of_syringe(ml), near(lg_thickness, 1e-9));
    last = ml;
  }
  CHECK_THAT(syringe_ml_left(std::log10(50)), near(6.9, 1e-9));
}

TEST_CASE("gel syringe: four thickened drinks leave what their levels allow") {
  // Xanthan at 48, 126, 287 and 1050 mPa.s (Food Hydrocolloids 79:208, 2018, table 3) are levels 1
  // to 4 of the dysphagia diet framework: 1 to 4, 4 to 8, 8 to 10 and 10 mL left. That table gives
  // viscosity at 50 per s; the syringe shears slower, where xanthan is thicker, so the Newtonian
  // table here leaves more of the thinner two. Only the order and the upper two are asked.
  CHECK(syringe_ml_left(std::log10(287)) >= 8);
  CHECK(syringe_ml_left(std::log10(1050)) > 9.7);
  CHECK(syringe_ml_left(std::log10(48)) < syringe_ml_left(std::log10(126)));
}

TEST_CASE("gel syringe: a gum-free 60 % maltodextrin and fructose syrup leaves about 9 mL") {
  State syrup;
  syrup.solids_percent = 60;
  syrup.sugars.maltodextrin = 0.55;
  syrup.sugars.fructose = 0.45;
  const Gel gel = gel_at(syrup, central_values());
  const double ml = syringe_ml_left(gel.lg_thickness_mpa_s);
  CHECK(ml >= 8.5);
  CHECK(ml <= 9.7);
}

TEST_CASE("gel cup: wall stress of a column of gel is density x gravity x radius / 2") {
  // Force balance on the column: weight over the area of the wall. Computed.
  CHECK_THAT(cup_holds_from_pa(4), near(1100 * 9.81 * 0.02 / 2, 1e-9));
  CHECK_THAT(cup_holds_from_pa(6, 1.0), near(1000 * 9.81 * 0.03 / 2, 1e-9));
}

TEST_CASE("gel syrups: sucrose viscosity at 20 degC") {
  // Handbook values of 40, 50, 60, 65 and 70 % sucrose at 20 degC, mPa.s: from memory.
  const double percent[] = {40, 50, 60, 65, 70};
  const double mpa_s[] = {6.2, 15.4, 58, 147, 481};
  for (int i = 0; i < 5; ++i) {
    State syrup;
    syrup.solids_percent = percent[i];
    syrup.sugars.sucrose = 1;
    CHECK_THAT(gel_at(syrup, central_values()).lg_viscosity_mpa_s,
               near(std::log10(mpa_s[i]), 0.02));
  }
}

TEST_CASE("gel readings: every one has chances that add to 1") {
  for (double lg_thickness = 0; lg_thickness < 4; lg_thickness += 0.5)
    for (double lg_yield = -2; lg_yield < 4; lg_yield += 0.5) {
      const Expected expected{lg_thickness, lg_yield, 0.3, 0.2};
      CupReading holds, falls;
      holds.holds_when_turned = true;
      falls.holds_when_turned = false;
      CHECK_THAT(likelihood(holds, expected).all() + likelihood(falls, expected).all(),
                 near(1, 1e-12));
      CupReading lumps;
      lumps.lumps_lifted_out = true;
      CHECK_THAT(likelihood(lumps, expected).all(), near(0.3, 1e-12));
    }
  CHECK(likelihood({}, {}).all() == 1);
  CHECK(likelihood({}, {}).readings == 0);
}

TEST_CASE("gel readings: the likeliest thickness of a syringe reading is the one that leaves it") {
  for (const double ml : {3.0, 6.0, 8.5, 9.3}) {
    CupReading reading;
    reading.syringe_ml_left = ml;
    double best = 0, at = 0;
    for (double lg_thickness = 0; lg_thickness < 4; lg_thickness += 0.01) {
      const double chance = likelihood(reading, {lg_thickness, 0, 0, 0}).all();
      if (chance > best) best = chance, at = lg_thickness;
    }
    INFO(ml << " mL");
    CHECK_THAT(syringe_ml_left(at), near(ml, 0.15));
  }
}

TEST_CASE("gel words: one for each texture, in order") {
  REQUIRE(words().size() == texture_count);
  for (std::size_t t = 0; t < texture_count; ++t)
    CHECK(words()[t].texture == static_cast<Texture>(t));
}
