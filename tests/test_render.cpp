#include <nlohmann/json.hpp>

#include "catch.hpp"
#include "gelwright/report.hpp"

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
