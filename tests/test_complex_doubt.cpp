// What citrate's weak complexes leave in doubt.
#include <algorithm>
#include <cmath>

#include "catch.hpp"
#include "gelwright/equilibrium.hpp"
#include "serving/complex_doubt.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

Totals water_with(double citrate_mmol, double sodium_mmol) {
  Totals totals{};
  totals[Component::calcium] = 2.0e-3;
  totals[Component::magnesium] = 0.5e-3;
  totals[Component::carbonate] = 4.0e-3;
  totals[Component::chloride] = 1.0e-3;
  totals[Component::citrate] = 1e-3 * citrate_mmol;
  totals[Component::sodium] = 1e-3 * sodium_mmol;
  return totals;
}

}  // namespace

// An independent solver on the constants of NIST SRD 46: 50 mmol/kg of citrate with 120 of sodium
// is pH 5.71 with the pairs left out, 5.58 with them in.
TEST_CASE("citrate-heavy water: the pairs would take 0.13 off the pH, and that is counted") {
  const Equilibrium solved = solve_equilibrium(water_with(50, 120));
  CHECK_THAT(solved.ph, near(5.71, 0.01));
  const ComplexDoubt doubt = complex_doubt(solved);
  const double own_doubt = std::log(10.0) * 0.3;
  CHECK_THAT(doubt.ph / std::hypot(1.0, own_doubt), near(5.71 - 5.58, 0.03));
}

TEST_CASE("sour water: the pairs hardly matter below pH 4") {
  for (const double sodium : {0.0, 10.0, 20.0}) {
    const Equilibrium solved = solve_equilibrium(water_with(26, sodium));
    INFO(solved.ph);
    REQUIRE(solved.ph < 4);
    CHECK(complex_doubt(solved).ph < 0.01);
  }
}

TEST_CASE("no citrate, no doubt; the free calcium's is that of the complexes it sits in") {
  const ComplexDoubt none = complex_doubt(solve_equilibrium(water_with(0, 5)));
  CHECK(none.ph == 0);
  CHECK(none.free_calcium_decades == 0);
  // Where CaHCit holds a share s of the calcium, 0.3 in its log K is 0.3 s decades.
  const ComplexDoubt some = complex_doubt(solve_equilibrium(water_with(50, 40)));
  CHECK(some.free_calcium_decades > 0.01);
  CHECK(some.free_calcium_decades < 0.3);
  // It grows with the sodium that draws citrate into pairs.
  CHECK(complex_doubt(solve_equilibrium(water_with(50, 140))).ph >
        complex_doubt(solve_equilibrium(water_with(50, 60))).ph);
}
