#include <nlohmann/json.hpp>
#include <sstream>

#include "catch.hpp"
#include "golden.hpp"
#include "report/width.hpp"

using namespace gelwright;
using namespace gelwright::test;

namespace {

std::string base_name(const std::string& file) {
  return file.substr(0, file.rfind('.'));
}

void check_golden(const std::string& name, const std::string& arguments) {
  INFO(arguments);
  const Printed printed = run_program(arguments);
  CHECK("exit " + std::to_string(printed.exit_code) + "\n" + printed.text == golden(name, printed));
}

}  // namespace

TEST_CASE("every shipped recipe prints its sheet in every format as it did before") {
  for (const std::string name : shipped_names)
    for (const std::string format : {"text", "markdown", "json", "csv"})
      check_golden(base_name(name) + "." + format, "sheet recipes/" + name + " --format " + format);
}

TEST_CASE("every shipped recipe checks as it did before") {
  for (const std::string name : shipped_names)
    check_golden(base_name(name) + ".check", "check recipes/" + name);
}

TEST_CASE("a text sheet fits 80 columns") {
  for (const std::string name : shipped_names) {
    std::istringstream lines(run_program("sheet recipes/" + name).text);
    for (std::string line; std::getline(lines, line);) {
      INFO(name << ": " << line);
      CHECK(display_width(line) <= 80);
    }
  }
}

TEST_CASE("sizing by servings, mass and carbohydrate, and rounded water") {
  check_golden("thick.servings-3", "sheet recipes/tarn-thick-pouch.json --servings 3 --format csv");
  check_golden("thick.mass-1000",
               "sheet recipes/tarn-thick-pouch.json --batch-mass-g 1000 --format csv");
  check_golden("thick.carbohydrate-500",
               "sheet recipes/tarn-thick-pouch.json --carbohydrate-g 500 --format csv");
  check_golden("thick.rounded", "sheet recipes/tarn-thick-pouch.json --round-water-to-g 100");
}

TEST_CASE(
    "80 g of solids for ten: 480 g of water, 500 g as the rounded figure, and what that does") {
  // common practice, no source
  const auto json = nlohmann::json::parse(
      run_program("sheet tests/data/eighty-grams.json --round-water-to-g 100 --format json").text);
  const auto& effect = json["rounded_water"]["effect"];
  CHECK(effect[0]["exact"] == 480);
  CHECK(effect[0]["rounded"] == 500);
  CHECK(effect[1]["exact"] == 0.6);
  CHECK(effect[1]["rounded"] == 0.625);
}

TEST_CASE("reference pages print as they did before") {
  check_golden("ingredients.text", "ingredients");
  check_golden("sources.text", "sources");
  check_golden("rules.text", "sources --rules");
  check_golden("numbers.csv", "sources --numbers --format csv");
  check_golden("explain.list", "explain");
  check_golden("explain.hard-water", "explain hard-water recipes/mistake-hard-water-drink.json");
  check_golden("explain.acid-shock", "explain acid-shock recipes/mistake-kitchen-scale.json");
  check_golden("explain.unknown", "explain hardwater");
}

TEST_CASE("what the option parser refuses exits 2 with one line in the words of its version") {
  for (const std::string arguments :
       {"", "sheet", "nonsense", "sheet recipes/tarn-thick-pouch.json --serving 3",
        "sheet recipes/tarn-thick-pouch.json --format xml",
        "sheet recipes/tarn-thick-pouch.json --servings nan",
        "sheet recipes/tarn-thick-pouch.json --servings -3"}) {
    INFO(arguments);
    const Printed printed = run_program(arguments);
    CHECK(printed.exit_code == 2);
    CHECK(printed.text.find("gelwright: ") == 0);
    CHECK(printed.text.find('\n') == printed.text.size() - 1);
  }
}

TEST_CASE("unusable files and options exit 2 with one line and print nothing else") {
  check_golden("usage.no-file", "sheet no-such-recipe.json");
  check_golden("usage.folder", "sheet recipes");
  check_golden("usage.half-serving", "sheet recipes/tarn-thick-pouch.json --servings 2.5");
  check_golden("usage.over-recipe",
               "sheet recipes/tarn-thick-pouch.json -o recipes/tarn-thick-pouch.json");
  check_golden("usage.device", "sheet recipes/tarn-thick-pouch.json -o /dev/null");
  check_golden("usage.cannot-write", "sheet recipes/tarn-thick-pouch.json -o /no/such/folder/x");
}

TEST_CASE("the docs hold the rules and sources as the program prints them") {
  const std::string rules = run_program("sources --rules --format markdown").text;
  CHECK(rules == kept("docs/rules.md", rules));
  const std::string cited = run_program("sources --format markdown").text;
  CHECK(cited == kept("docs/sources.md", cited));
}

TEST_CASE("the README shows what its first command prints") {
  const std::string readme = read_text(source_path("README.md"));
  const std::size_t from = readme.find("```\n") + 4;
  const std::string shown = readme.substr(from, readme.find("```", from) - from);
  CHECK(shown.size() > 1000);
  CHECK(run_program("sheet recipes/tarn-thick-pouch.json").text.find(shown) == 0);
}

TEST_CASE("bench series, fit and spread print as they did before") {
  check_golden("ladder.text", "ladder recipes/tarn-thick-pouch.json --vary acid_g=0.1:0.6:0.1");
  check_golden("ladder.csv",
               "ladder recipes/tarn-thick-pouch.json --vary acid_g=0.1:0.5:0.2 --vary "
               "water_per_g_solids=0.5:0.7:0.1 --shuffle --seed 7 --format csv");
  check_golden("ladder.unusable",
               "ladder recipes/tarn-thick-pouch.json --vary acid=0.5:0.1:0 --vary salt_g=1:2:1");
  check_golden("fit.text",
               "fit recipes/tarn-thick-pouch.json recipes/tarn-thick-pouch.bench.csv "
               "--to-ph 3.8");
  check_golden("fit.not-a-table",
               "fit recipes/tarn-thick-pouch.json recipes/tarn-thick-pouch.json");
  check_golden("spread.text", "spread recipes/calcium-set-pouch.json --draws 5000 --seed 3");
}
