#include "base/text.hpp"
#include "catch.hpp"

using namespace gelwright;

TEST_CASE("small letters for A to Z and nothing else") {
  CHECK(lower("HM Pectin, 20 °dH") == "hm pectin, 20 °dh");
  CHECK(lower("ÄÖ") == "ÄÖ");
}

TEST_CASE("a CSV cell is quoted by RFC 4180 and never a formula") {
  CHECK(csv_cell("plain text") == "plain text");
  CHECK(csv_cell("a,b") == "\"a,b\"");
  CHECK(csv_cell("6\" ring") == "\"6\"\" ring\"");  // RFC 4180 rule 7
  CHECK(csv_cell("two\r\nlines") == "\"two\r\nlines\"");
  CHECK(csv_cell("") == "");
  // The characters a spreadsheet takes for the start of a formula: common practice, no source.
  for (const char* text : {"=1+1", "+1+1", "-1+2", "-a", "@sum", "\tx", "\rx"}) {
    INFO(text);
    CHECK(csv_cell(text).find('\'') != std::string::npos);
  }
  CHECK(csv_cell("-1.5e-3") == "-1.5e-3");
  CHECK(csv_cell("=a,b") == "\"'=a,b\"");
}

// Unicode Standard Annex 11: wide and fullwidth characters take two columns; Unicode general
// categories Mn, Me and Cf take none.
TEST_CASE("columns of a text on a terminal") {
  CHECK(display_width("") == 0);
  CHECK(display_width("°dH ±") == 5);
  CHECK(display_width("≤ − × µ é") == 9);
  CHECK(display_width("e\u0301") == 1);         // combining acute accent
  CHECK(display_width("水の量") == 6);          // East Asian wide
  CHECK(display_width("\uFF21") == 2);          // fullwidth A
  CHECK(display_width("한") == 2);              // a Hangul syllable
  CHECK(display_width("\U0001F34B x") == 4);    // a picture
  CHECK(display_width("a\u200Bb\uFEFF") == 2);  // zero width space, byte order mark
  CHECK(display_width("\xFF\x80") == 2);        // no UTF-8: as many as there are bytes
}

TEST_CASE("padding fills columns, not bytes") {
  CHECK(pad("°C", 4) == "°C  ");
  CHECK(pad("水", 4, true) == "  水");
  CHECK(pad("too long", 3) == "too long");
}

TEST_CASE("lines break at spaces and a longer word stands alone") {
  CHECK(wrap("aa bb cc", 5) == std::vector<std::string>{"aa bb", "cc"});
  CHECK(wrap("", 5) == std::vector<std::string>{""});
  CHECK(wrap("toolongword x", 4) == std::vector<std::string>{"toolongword", "x"});
  CHECK(wrap("水の 量 x", 6) == std::vector<std::string>{"水の", "量 x"});
}
