#include "base/number.hpp"
#include "catch.hpp"
#include "gelwright/water_units.hpp"

using namespace gelwright;
using detail::leading_number;
using detail::to_number;
using detail::with_decimal_point;

TEST_CASE("a ratio is two numbers above 0 with a colon or a stroke between") {
  CHECK(detail::to_ratio("2:1") == 2.0);
  CHECK(detail::to_ratio(" 1 : 0.8 ") == 1.25);
  CHECK(detail::to_ratio("40/60") == 40.0 / 60);
  for (const char* bad :
       {"", "2", "2:", ":1", "0:1", "1:0", "-1:2", "1:2:3", "a:b", "1e308:1e-308"})
    CHECK_FALSE(detail::to_ratio(bad));
}

TEST_CASE("a number is digits with a point, read to its last character") {
  CHECK(to_number("0.35") == 0.35);
  CHECK(to_number(" +3.5e-2\t") == 0.035);
  CHECK(to_number("-4") == -4.0);
  CHECK(to_number(".5") == 0.5);
  for (const char* text : {"", " ", "+", "-", "+-1", "3,5", "3.5 g", "0x10", "1e", "1 2", "nan",
                           "NaN", "inf", "-Infinity", "1e999", "\xD9\xA3"}) {
    INFO(text);
    CHECK_FALSE(to_number(text));
  }
}

TEST_CASE("what stands behind a leading number is kept") {
  const auto number = leading_number("  23mg/L");
  REQUIRE(number);
  CHECK(number->value == 23);
  CHECK(number->rest == "mg/L");
  CHECK_FALSE(leading_number("mg/L 23"));
  CHECK_FALSE(leading_number("NaN mg/L"));
}

TEST_CASE("a decimal comma is mended where there is one, and nowhere else") {
  CHECK(with_decimal_point("3,85") == "3.85");
  CHECK(with_decimal_point("-0,5") == "-0.5");
  for (const char* text : {"1,234.5", "1,2,3", ",5", "5,", "a,b", "3.85"}) {
    INFO(text);
    CHECK_FALSE(with_decimal_point(text));
  }
}

TEST_CASE("an amount no water holds is a slip, not a number to compute with") {
  for (const char* text : {"1e308 mg/L", "1e6 mmol/L", "nan mg/L", "inf mg/L", "-1 mg/L"}) {
    INFO(text);
    CHECK_FALSE(parse_concentration(Ion::calcium, text).value);
  }
  CHECK(parse_concentration(Ion::calcium, "1e308 mg/L").reason ==
        "\"1e308 mg/L\" is more than any water holds");
  CHECK_FALSE(parse_hardness("1e300 dH").value);
  CHECK_FALSE(parse_alkalinity("1e300 meq/L").value);
  CHECK(parse_concentration(Ion::calcium, "100000 mg/L").value == 100000.0);
}
