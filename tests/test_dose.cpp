#include <nlohmann/json.hpp>

#include "catch.hpp"
#include "gelwright/dose.hpp"
#include "gelwright/dose_report.hpp"
#include "gelwright/read.hpp"
#include "gelwright/recipe_edit.hpp"
#include "gelwright/water_phase.hpp"
#include "golden.hpp"

using namespace gelwright;
using namespace gelwright::test;

TEST_CASE("the recipe with the answer in it gives the answer back") {
  const std::string text = read_text(source_path("recipes/tarn-thick-pouch.json"));
  const Recipe recipe = read_recipe(text, "thick");
  const DoseQuestion question{Target::ph, 3.9};
  const DoseAnswer found = answer(resolve(recipe), question);
  REQUIRE(found.solution.reached);
  const Recipe written = read_recipe(with_answer(text, "thick", found, question), "new");
  const Inputs inputs = inputs_of(written);
  CHECK_THAT(water_phase_of(formulate(inputs), inputs).ph, near(3.9, 0.001));
  CHECK(written.name == recipe.name);
  CHECK(written.acid->additions_g.empty());
}

TEST_CASE("each target is written where it belongs") {
  const std::string text = read_text(source_path("recipes/calcium-set-pouch.json"));
  const Recipe recipe = read_recipe(text, "set");
  const Inputs inputs = resolve(recipe);
  const auto written = [&](const DoseQuestion& question) {
    return nlohmann::json::parse(with_answer(text, "set", answer(inputs, question), question));
  };
  const auto ratio = written({Target::ratio, 0.6});
  CHECK(ratio["calcium"].contains("mass_g"));
  CHECK_FALSE(ratio["calcium"].contains("target_ratio"));
  CHECK(written({Target::water_fraction, 0.45})["water"] ==
        nlohmann::json{{"fraction_of_total", 0.45}});
  CHECK(written({Target::soluble_solids, 40})["water"].contains("mass_g"));
  CHECK(written({Target::readable, 0})["batch"]["servings"].is_number_integer());
}

TEST_CASE("dose and water print as they did before") {
  const auto check = [](const std::string& name, const std::string& arguments) {
    INFO(arguments);
    const Printed printed = run_program(arguments);
    CHECK("exit " + std::to_string(printed.exit_code) + "\n" + printed.text ==
          golden(name, printed));
  };
  check("dose.ph", "dose recipes/pouch-from-scratch.json --to-ph 3.8");
  check("dose.ph-out-of-reach", "dose recipes/pouch-from-scratch.json --to-ph 1");
  check("dose.ratio", "dose recipes/calcium-set-pouch.json --to-ratio 0.6");
  check("dose.ratio-no-salt", "dose recipes/tarn-thick-pouch.json --to-ratio 0.6");
  check("dose.fraction", "dose recipes/pouch-from-scratch.json --to-water-fraction 0.4");
  check("dose.solids", "dose recipes/pouch-from-scratch.json --to-soluble-solids 55");
  check("dose.readable", "dose recipes/mistake-kitchen-scale.json --to-readable");
  check("dose.over-existing",
        "dose recipes/tarn-thick-pouch.json --to-ph 3.8 -o recipes/tarn-thin-drink.json");
  check("water.typed",
        "water --calcium '23 mg/L' --hardness '5 dH' --alkalinity '2.1 meq/L' --at-most '20 mg/L'");
  check("water.blend",
        "water recipes/tarn-thick-pouch.json recipes/mistake-hard-water-drink.json --blend 0.5 0.5 "
        "--bring-calcium-to '40 mg/L'");
  check("water.raise",
        "water recipes/tarn-thick-pouch.json --bring-calcium-to '60 mg/L' "
        "--at-least '20 mg/L' --at-most '60 mg/L'");
  check("water.bad-units", "water --calcium 23 --alkalinity '2 mmol/L' --hardness '5 mg/L'");
  check("water.contradiction", "water --calcium '100 mg/L' --hardness '5 dH'");
  check("water.nothing", "water");
  check("water.bad-blend",
        "water recipes/tarn-thick-pouch.json recipes/tarn-thin-drink.json --blend 1");
}

TEST_CASE("one target at a time") {
  const Printed printed =
      run_program("dose recipes/pouch-from-scratch.json --to-ph 3.8 --to-ratio 0.5");
  CHECK(printed.exit_code == 2);
  CHECK(printed.text.find("gelwright: ") == 0);
}
