#include <cmath>
#include <limits>

#include "catch.hpp"
#include "gelwright/error.hpp"
#include "gelwright/weighing.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

/// A scale of perfect repeatability shows the floor that its readability alone sets.
Scale perfect(double readability_g) {
  return {"perfect", readability_g, 500.0, 0.0};
}
Scale kitchen(double readability_g) {
  return {"kitchen", readability_g, 5000.0, std::nullopt};
}

}  // namespace

TEST_CASE("a kitchen scale without a stated repeatability is taken at one division") {
  CHECK(repeatability_g(kitchen(0.1)) == 0.1);  // judgement
  CHECK_THAT(standard_uncertainty_g(kitchen(1.0)), near(std::sqrt(7.0 / 6.0), 1e-14));
}

TEST_CASE("resolution of a difference is d/sqrt(6), JCGM 100:2008 F.2.2.1 twice") {
  const double u = standard_uncertainty_g(perfect(1.0));
  CHECK_THAT(u, near(1.0 / std::sqrt(6.0), 1e-15));
  CHECK_THAT(u, near(0.41, 0.005));  // the two digits USP <41> prints
}

TEST_CASE("95 % half-width of the difference of two displays is 0.77639 d") {
  // The difference of two rectangular errors of width d is triangular on [-d, d]; the share outside
  // h is (1 - h/d)^2, so 5 % lies outside h = (1 - sqrt(0.05)) d. Written out by hand.
  const double half_width = 1.0 - std::sqrt(0.05);
  CHECK_THAT(half_width, near(0.77639, 5e-6));
  // Its standard uncertainty is the one the library uses, and k = 2 covers that half-width.
  CHECK_THAT(half_width / standard_uncertainty_g(perfect(1.0)), near(1.90177, 5e-6));
  CHECK(weighing_error(1.0, perfect(1.0)).expanded_g > half_width);
}

TEST_CASE("rounding to the display goes half away from zero") {
  CHECK(rounded_to_readability_g(2.5, perfect(1.0)) == 3.0);
  CHECK(rounded_to_readability_g(-2.5, perfect(1.0)) == -3.0);
  CHECK(rounded_to_readability_g(2.4999, perfect(1.0)) == 2.0);
  CHECK(rounded_to_readability_g(12.0, perfect(5.0)) == 10.0);
  CHECK(rounded_to_readability_g(12.5, perfect(5.0)) == 15.0);
  CHECK(rounded_to_readability_g(0.013, perfect(0.02)) == 0.02);
  CHECK_FALSE(std::signbit(rounded_to_readability_g(-0.2, perfect(1.0))));
}

TEST_CASE("rounding to the display survives binary noise") {
  CHECK(rounded_to_readability_g(0.1 + 0.2, perfect(0.1)) == 0.3);
  CHECK(rounded_to_readability_g(0.15, perfect(0.1)) == 0.2);  // 0.15 / 0.1 = 1.4999999999999998
  CHECK(rounded_to_readability_g(0.145, perfect(0.01)) == 0.15);
  CHECK(rounded_to_readability_g(1.005, perfect(0.01)) == 1.01);
  CHECK(rounded_to_readability_g(1.0049999, perfect(0.01)) == 1.00);
  for (int tenths = 1; tenths < 5000; ++tenths) {
    const double printed_g = tenths / 10.0;
    REQUIRE(rounded_to_readability_g(printed_g, perfect(0.1)) == printed_g);
    REQUIRE(rounded_to_readability_g((tenths + 0.5) / 10.0, perfect(0.1)) == (tenths + 1) / 10.0);
  }
}

TEST_CASE("rounding error stays within half a division") {
  for (const double d : {0.001, 0.01, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0})
    for (double mass_g = 0.0; mass_g < 40.0; mass_g += 0.0617)
      REQUIRE(std::abs(weighing_error(mass_g, perfect(d)).rounding_g) <= d / 2 * (1 + 1e-9));
}

TEST_CASE("a line's error holds the rounding and the scale") {
  const WeighingError error = weighing_error(2.54, {"", 0.1, 500.0, 0.1});
  CHECK_THAT(error.rounding_g, near(-0.04, 1e-12));
  CHECK_THAT(error.expanded_g, near(0.216025, 5e-7));  // 2 sqrt(0.01 + 0.01/6), by hand
  CHECK_THAT(error.relative, near(0.256025 / 2.54, 5e-7));
  CHECK(std::isinf(weighing_error(0.0, perfect(0.1)).relative));
}

TEST_CASE("a line clears only if rounding and scale fit the tolerance together") {
  const Scale scale{"", 0.1, 500.0, 0.0};
  // k u = 0.2/sqrt(6) = 0.081650 g. 10.00 g at 1 %: 0.0816 <= 0.1; 10.04 g adds 0.04 g of rounding.
  CHECK(clears(10.00, scale, 0.01));
  CHECK_FALSE(clears(10.04, scale, 0.01));
  CHECK_FALSE(clears(8.0, scale, 0.01));  // 0.0816 > 0.08
  CHECK(clears(8.2, scale, 0.01));
  CHECK_FALSE(clears(0.0, scale, 0.01));
  CHECK_FALSE(clears(-10.0, scale, 0.01));
}

TEST_CASE("an unusable scale or tolerance is refused") {
  CHECK_THROWS_AS(standard_uncertainty_g(perfect(0.0)), InputError);
  CHECK_THROWS_AS(standard_uncertainty_g(perfect(-1.0)), InputError);
  CHECK_THROWS_AS(repeatability_g({"", 0.1, 500.0, -0.1}), InputError);
  CHECK_THROWS_AS(clears(1.0, perfect(0.1), -0.01), InputError);
  CHECK_THROWS_AS(rounded_to_readability_g(std::numeric_limits<double>::quiet_NaN(), perfect(0.1)),
                  InputError);
}

TEST_CASE("every weighing number names its source") {
  CHECK(weighing_data().size() == 3);
  for (const Datum& row : weighing_data()) {
    CHECK_FALSE(row.key.empty());
    CHECK_FALSE(row.unit.empty());
    CHECK_FALSE(row.source.empty());
  }
}
