#include <nlohmann/json.hpp>
#include <sstream>

#include "base/text.hpp"
#include "catch.hpp"
#include "program.hpp"
#include "recipes.hpp"

using namespace gelwright;
using namespace gelwright::test;

TEST_CASE("a text sheet fits 80 columns") {
  for (const std::string name : shipped_names) {
    std::istringstream lines(run_program("sheet recipes/" + name).text);
    for (std::string line; std::getline(lines, line);) {
      INFO(name << ": " << line);
      CHECK(detail::display_width(line) <= 80);
    }
  }
}

TEST_CASE(
    "72 g of solids for ten: 432 g of water, 450 g as the rounded figure, and what that does") {
  // common practice, no source
  const auto json = nlohmann::json::parse(
      run_program("sheet tests/data/tarn-water.json --round-water-to-g 50 --format json").text);
  const auto& effect = json["rounded_water"]["effect"];
  CHECK(effect[0]["exact"] == 432);
  CHECK(effect[0]["rounded"] == 450);
  CHECK(effect[1]["exact"] == 0.6);
  CHECK(effect[1]["rounded"] == 0.625);
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

TEST_CASE("the docs hold the rules and sources as the program prints them", "[kept]") {
  const std::string cited = run_program("sources --format markdown").text;
  CHECK(cited == kept("docs/sources.md", cited));
}

TEST_CASE("the docs hold the words as the program prints them", "[kept]") {
  const std::string words = run_program("words --format markdown").text;
  CHECK(words == kept("docs/words.md", words));
}

TEST_CASE("the docs hold the acid curve as the program draws it", "[kept]") {
  const std::string curve = run_program(
                                "sheet recipes/tarn-thick-pouch.json --show acid_curve --cups "
                                "recipes/tarn-thick-pouch.bench.csv --format svg")
                                .text;
  CHECK(curve == kept("docs/acid-curve.svg", curve));
}

TEST_CASE("the README shows what its first command prints", "[kept]") {
  const std::string readme = read_text(source_path("README.md"));
  const std::size_t from = readme.find("```\n") + 4;
  const std::string shown = readme.substr(from, readme.find("```", from) - from);
  CHECK(shown.size() > 1000);
  CHECK(run_program("sheet recipes/tarn-thick-pouch.json").text.find(shown) == 0);
}
