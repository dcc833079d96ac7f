#include <nlohmann/json.hpp>

#include "catch.hpp"
#include "gelwright/report.hpp"
#include "report/width.hpp"

using namespace gelwright;

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

TEST_CASE("numbers keep their decimals, round halves away from zero, and are never -0") {
  CHECK(fixed(0.125, 2) == "0.13");
  CHECK(fixed(1.005, 2) == "1.01");
  CHECK(fixed(-0.001, 2) == "0.00");
  CHECK(fixed(-1.25, 1) == "-1.3");
  CHECK(fixed(2.5, 0) == "3");
}

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

TEST_CASE("lines break at spaces and count code points, not bytes") {
  CHECK(wrap("aa bb cc", 5) == std::vector<std::string>{"aa bb", "cc"});
  CHECK(wrap("", 5) == std::vector<std::string>{""});
  CHECK(wrap("toolongword x", 4) == std::vector<std::string>{"toolongword", "x"});
  CHECK(display_width("°dH ±") == 5);
}
