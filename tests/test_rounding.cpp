#include <cmath>
#include <limits>

#include "base/rounding.hpp"
#include "catch.hpp"

using namespace gelwright;

TEST_CASE("numbers keep their decimals, round halves away from zero, and are never -0") {
  CHECK(fixed(0.125, 2) == "0.13");
  CHECK(fixed(1.005, 2) == "1.01");  // in binary a little below the half
  CHECK(fixed(-0.001, 2) == "0.00");
  CHECK(fixed(-1.25, 1) == "-1.3");
  CHECK(fixed(2.5, 0) == "3");
  CHECK(fixed(1234.5, -2) == "1200");
  CHECK(fixed(std::nan(""), 2) == "-");
  CHECK(fixed(std::numeric_limits<double>::infinity(), 2) == "-");
  CHECK(fixed(1e300, 0).size() == 301);
}

TEST_CASE("rounding to decimals, tens and hundreds") {
  CHECK(rounded(0.1 + 0.2, 1) == 0.3);
  CHECK(rounded(580.0, 9) == 580.0);
  CHECK(rounded(1250.0, -2) == 1300.0);
  CHECK(rounded(-1250.0, -2) == -1300.0);
  CHECK_FALSE(std::signbit(rounded(-0.004, 2)));
  CHECK(rounded(1e308, 5) == 1e308);
  CHECK(std::isnan(rounded(std::nan(""), 2)));
}

// NIST SP 811 (2008) B.7.1 rounds to a count of digits; a zero behind the point counts as one.
TEST_CASE("significant figures are counted after the rounding") {
  CHECK(significant(107.3, 2) == "110");
  CHECK(significant(0.5, 2) == "0.50");
  CHECK(significant(9.96, 2) == "10");
  CHECK(significant(0.0996, 2) == "0.10");
  CHECK(significant(99.7, 2) == "100");
  CHECK(significant(0.999, 2) == "1.0");
  CHECK(significant(6.974950, 4) == "6.975");
  CHECK(significant(-0.04449, 2) == "-0.044");
  CHECK(significant(0.0, 3) == "0");
  CHECK(significant(280.34, 3) == "280");
  for (int exponent = -12; exponent <= 12; ++exponent) {
    INFO(exponent);
    CHECK(decimals_for(std::pow(10.0, exponent), 3) == 2 - exponent);
  }
}

TEST_CASE("an amount that must suffice is rounded away from zero and not further") {
  CHECK(to_figures_away_from_zero(0.1201, 2) == 0.13);
  CHECK(to_figures_away_from_zero(0.12, 2) == 0.12);
  CHECK(to_figures_away_from_zero(-0.1201, 2) == -0.13);
  CHECK(to_figures_away_from_zero(9.91, 2) == 10.0);
  CHECK(to_figures_away_from_zero(1201.0, 2) == 1300.0);
  CHECK(to_figures_away_from_zero(3.0 * 0.04, 2) == 0.12);  // 0.12 and a unit in the last place
  CHECK(to_figures_away_from_zero(0.0, 2) == 0.0);
}

TEST_CASE("a number of a table stays as it was typed") {
  CHECK(plain(0.25) == "0.25");
  CHECK(plain(-280.54253e-12) == "-2.8054253e-10");
  CHECK(plain(1.0 / 3.0, 3) == "0.333");
  CHECK(plain(-0.0) == "0");
}
