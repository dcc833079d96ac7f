#include <nlohmann/json.hpp>

#include "base/harmless.hpp"
#include "catch.hpp"
#include "gelwright/report.hpp"

using namespace gelwright;
using namespace gelwright::detail;

namespace {

Report sample() {
  Report report{"gelwright/test-1", "A title", {}, "lines"};
  Section section{"batch", "WEIGH", {}, {}, {}};
  section.figures = {{"total_g", "Total", Cell(128.4, 1), "g", "", "estimate"},
                     {"volume_ml", "Volume", Cell(), "mL", "no density"},
                     {"exact_g", "", Cell(1.0 / 3, 6), "g", "", "", Shown::json_only}};
  section.tables.push_back({"lines",
                            {{"what", "what", false}, {"weigh_g", "weigh g", true}},
                            {{"water, \"soft\"", Cell(48.0, 0)}, {"a|b", Cell(-0.001, 2)}},
                            Shown::everywhere,
                            true});
  section.lines.push_back({"notes", {"First."}, Lines::Style::bullets});
  report.sections.push_back(section);
  return report;
}

}  // namespace

TEST_CASE("text aligns, wraps and leaves boxes to tick") {
  CHECK(render(sample(), Format::text) ==
        "A title\n"
        "=======\n"
        "\n"
        "WEIGH\n"
        "Total   128.4 g estimate\n"
        "Volume  not computed: no density\n"
        "\n"
        "    what           weigh g\n"
        "--------------------------\n"
        "[ ] water, \"soft\"       48\n"
        "[ ] a|b               0.00\n"
        "- First.\n");
}

TEST_CASE("Markdown escapes what would be read as Markdown") {
  CHECK(
      render(sample(), Format::markdown) ==
      "# A title\n\n## WEIGH\n\n"
      "| | |\n|---|---|\n| Total | 128.4 g estimate |\n| Volume | not computed: no density |\n\n"
      "| | what | weigh g |\n|---|---|---:|\n| ☐ | water, \"soft\" | 48 |\n| ☐ | a\\|b | 0.00 |\n\n"
      "- First.\n");
}

TEST_CASE("JSON carries more decimals, null with a reason, and every section under its key") {
  const auto json = nlohmann::json::parse(render(sample(), Format::json));
  CHECK(json["format"] == "gelwright/test-1");
  CHECK(json["batch"]["total_g"] == 128.4);
  CHECK(json["batch"]["volume_ml"].is_null());
  CHECK(json["not_computed"]["batch.volume_ml"] == "no density");
  CHECK(json["batch"]["exact_g"] == 0.333333333);
  CHECK(json["batch"]["lines"][0]["weigh_g"] == 48);
}

TEST_CASE("CSV prints the one table, quoted by RFC 4180") {
  CHECK(render(sample(), Format::csv) == "what,weigh_g\n\"water, \"\"soft\"\"\",48\na|b,0.00\n");
}

TEST_CASE("in CSV a text cannot pass for a formula, and a negative number stays a number") {
  Report report = sample();
  report.sections[0].tables[0].rows = {{"=2+3", Cell(-1.5, 1)}};
  CHECK(render(report, Format::csv) == "what,weigh_g\n'=2+3,-1.5\n");
}

TEST_CASE("control and direction characters are written out in every format") {
  Report report{"gelwright/test-1", "a\x1b[31m", {}, "lines"};
  Section section{"batch", "b\u202e", {}, {}, {}};
  section.figures = {{"total_g", "c\u0085", Cell("d\u2066"), "e\x07", "", "f\u200f"}};
  section.tables = {{"lines", {{"what", "g\u2028", false}}, {{"h\x7f"}}}};
  section.lines = {{"notes", {"i\u009b"}}};
  report.sections.push_back(section);
  const auto steering = {"\x1b",   "\u202e", "\u0085", "\u2066", "\x07",
                         "\u200f", "\u2028", "\x7f",   "\u009b"};
  for (const Format format :
       {Format::text, Format::markdown, Format::html, Format::json, Format::csv}) {
    const std::string printed = render(report, format);
    INFO(printed);
    for (const std::string each : steering) CHECK(printed.find(each) == std::string::npos);
    CHECK(printed.find("u007f") != std::string::npos);
  }
  // JSON escapes, so that a script reads what the file said.
  const auto json = nlohmann::json::parse(render(report, Format::json));
  CHECK(json["batch"]["total_g"] == "d\u2066");
  CHECK(json["batch"]["notes"][0] == "i\u009b");
}

TEST_CASE("well-formed UTF-8 stays, other bytes are shown one by one") {
  // The sequences of Unicode 15.0, section 3.9, tables 3-8 to 3-11, which have to be replaced.
  CHECK(visible("\u00b0C \u65e5\u672c \U0001f34b") == "\u00b0C \u65e5\u672c \U0001f34b");
  CHECK(visible("\xC0\xAF\xE0\x80\xBF\xF0\x81\x82\x41") ==
        "\\xc0\\xaf\\xe0\\x80\\xbf\\xf0\\x81\\x82\x41");
  CHECK(visible("\xED\xA0\x80\xED\xBF\xBF\xED\xAF\x41") ==
        "\\xed\\xa0\\x80\\xed\\xbf\\xbf\\xed\\xaf\x41");
  CHECK(visible("\xF4\x91\x92\x93\xFF\x41\x80\xBF\x42") ==
        "\\xf4\\x91\\x92\\x93\\xff\x41\\x80\\xbf\x42");
  CHECK(visible("\xE1\x80\xE2\xF0\x91\x92\xF1\xBF\x41") ==
        "\\xe1\\x80\\xe2\\xf0\\x91\\x92\\xf1\\xbf\x41");
  CHECK(visible("a\nb") == "a\\u000ab");
  CHECK(visible_document("a\nb\t") == "a\nb\\u0009");
}

TEST_CASE("no line of Markdown becomes a heading, a list, a quotation or a rule") {
  // Block structures of CommonMark 0.31, sections 4 and 5.
  const std::pair<std::string, std::string> lines[] = {
      {"# a", "\\# a"},   {"> a", "\\> a"},       {"- a", "\\- a"},     {"+ a", "\\+ a"},
      {"* a", "\\* a"},   {"1. a", "1\\. a"},     {"12) a", "12\\) a"}, {"---", "\\---"},
      {"===", "\\==="},   {"    code", "code"},   {"~~~", "\\~~~"},     {"```", "\\`\\`\\`"},
      {"|a|", "\\|a\\|"}, {"&lt;b>", "\\&lt;b>"}, {"1:1 a", "1:1 a"},   {"2.5 g", "2\\.5 g"},
  };
  for (const auto& [text, markdown] : lines)
    for (const auto style : {Lines::Style::paragraph, Lines::Style::bullets}) {
      Report report{"gelwright/test-1", "", {{"s", "", {}, {}, {{"notes", {text}, style}}}}, ""};
      const bool bullet = style == Lines::Style::bullets;
      CHECK(render(report, Format::markdown) == (bullet ? "- " : "") + markdown + "\n");
    }
}

TEST_CASE("columns line up by what a character takes on the screen") {
  // UAX #11: East Asian wide characters take two columns; combining marks none.
  Report report{"gelwright/test-1", "", {}, ""};
  Section section{"s", "", {}, {}, {}};
  section.tables = {{"t",
                     {{"what", "what", false}, {"g", "g", true}},
                     {{"\u6c34\u98f4", Cell(5.0, 0)}, {"cafe\u0301", Cell(12.0, 0)}}}};
  report.sections.push_back(section);
  CHECK(render(report, Format::text) == "what   g\n--------\n\u6c34\u98f4   5\ncafe\u0301  12\n");
}

TEST_CASE("a table and lines of one section stay apart in JSON where both carry its key") {
  Report report{"gelwright/test-1", "", {}, ""};
  Section section{"s", "", {}, {}, {}};
  section.tables = {{"s", {{"a", "", true}}, {{Cell(1.0, 0)}}}};
  report.sections.push_back(section);
  CHECK(nlohmann::json::parse(render(report, Format::json))["s"][0]["a"] == 1);
  report.sections[0].lines = {{"t", {"x"}}};
  const auto json = nlohmann::json::parse(render(report, Format::json));
  CHECK(json["s"]["s"][0]["a"] == 1);
  CHECK(json["s"]["t"][0] == "x");
}
