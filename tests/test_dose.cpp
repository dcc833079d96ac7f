#include <nlohmann/json.hpp>

#include "catch.hpp"
#include "gelwright/dose.hpp"
#include "gelwright/dose_report.hpp"
#include "gelwright/read.hpp"
#include "gelwright/recipe_edit.hpp"
#include "gelwright/water_phase.hpp"
#include "program.hpp"
#include "recipes.hpp"

using namespace gelwright;
using namespace gelwright::test;

TEST_CASE("the recipe with the answer in it gives the answer back") {
  const std::string text = ancestor_of("tarn-thick-pouch.json");
  const Recipe recipe = read_recipe(text, "thick");
  const DoseQuestion question{Target::ph, 3.9};
  const DoseAnswer found = answer(resolve(recipe), question);
  REQUIRE(found.dosed.reached);
  const Recipe written = read_recipe(with_answer(text, "thick", found, question), "new");
  const Inputs inputs = inputs_of(written);
  CHECK_THAT(water_phase_of(formulate(inputs), inputs).ph, near(3.9, 0.001));
  CHECK(written.name == recipe.name);
  CHECK(written.acid->additions_g.empty());
}

TEST_CASE("each target is written where it belongs") {
  const std::string text = ancestor_of("calcium-set-pouch.json");
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

TEST_CASE("an answer changes the bytes of the amount and no others") {
  const std::string text = R"({
  "format": "gelwright/recipe-1", "name": "by hand",  "form": "pouch",

  "solids": [ {"ingredient": "sucrose", "mass_g": 30.00} ],
  "water": {"per_g_solids": 1.50},
  "acid": {
    "ingredient": "citric acid anhydrous",
    "target_ph": 3.50,
    "stock_percent": 10
  },
  "note": "caf\u00e9"
})";
  const auto written = [&](const std::string& from, const DoseQuestion& question, double amount) {
    DoseAnswer found;
    found.dosed.amount = amount;
    return with_answer(from, "by hand", found, question);
  };
  const auto replaced = [](std::string in, const std::string& what, const std::string& by) {
    return in.replace(in.find(what), what.size(), by);
  };
  const std::string dosed = written(text, {Target::ph, 3.5}, 0.25);
  CHECK(dosed == replaced(text, "\"target_ph\": 3.50", "\"mass_g\": 0.25"));
  CHECK(written(dosed, {Target::ph, 3.5}, 0.25) == dosed);
  CHECK(written(text, {Target::water_fraction, 0.5}, 0) ==
        replaced(text, "\"per_g_solids\": 1.50", "\"fraction_of_total\": 0.5"));
  CHECK(written(text, {Target::soluble_solids, 40}, 45) ==
        replaced(text, "\"per_g_solids\": 1.50", "\"mass_g\": 45"));
  CHECK(written(text, {Target::readable, 0}, 12) ==
        replaced(text, "caf\\u00e9\"\n", "caf\\u00e9\",\n  \"batch\": {\"servings\": 12}\n"));
}

TEST_CASE("one target at a time") {
  const Printed printed =
      run_program("dose recipes/pouch-from-scratch.json --to-ph 3.8 --to-ratio 0.5");
  CHECK(printed.exit_code == 2);
  CHECK(printed.text.find("gelwright: ") == 0);
}

// By hand: of a dose that its line carries within 5 %, the pH lies between that of 0.95 and of 1.05
// times the dose.
TEST_CASE("what the scale makes of a dose is there without a report") {
  const Recipe recipe = shipped("tarn-thick-pouch.json");
  const DoseQuestion question{Target::ph, 3.8};
  const DoseAnswer found = answer(resolve(recipe), question);
  Batch batch;
  CHECK_FALSE(sensitivity_of(found, question, batch));
  batch.lines.resize(2);
  batch.lines[1].role = LineRole::acid;
  batch.lines[1].scale = 0;
  batch.lines[1].error_percent = 5;
  const auto sensitivity = sensitivity_of(found, question, batch);
  REQUIRE(sensitivity);
  CHECK(sensitivity->line == 1);
  const auto ph_of = [&](double factor) {
    Inputs inputs = found.inputs;
    inputs.acid->line.mass_g *= factor;
    return water_phase_of(formulate(inputs), inputs).ph;
  };
  CHECK_THAT(sensitivity->goal_low, near(ph_of(1.05), 1e-9));
  CHECK_THAT(sensitivity->goal_high, near(ph_of(0.95), 1e-9));
}

TEST_CASE("what is to be found cannot be turned, nor what is turned written into a new recipe") {
  const std::string dose = "dose recipes/tarn-thick-pouch.json --to-ph 3.8 --with ";
  CHECK(run_program(dose + "acid_g=0.5").text ==
        "gelwright: --with acid_g: this is what is to be found; turn another knob\n");
  const Printed written = run_program(dose + "water_g=40 --write /tmp/never-written.json");
  CHECK(written.exit_code == 2);
  CHECK(written.text.find("--with: the recipe written would not hold what is turned here") !=
        std::string::npos);
}

TEST_CASE("each target says what it turns, and its line's error what becomes of the goal") {
  CHECK(dosed_by(Target::ph) == KnobTurns::acid);
  CHECK(dosed_by(Target::ratio) == KnobTurns::calcium_salt);
  CHECK(dosed_by(Target::water_fraction) == KnobTurns::water);
  CHECK(dosed_by(Target::soluble_solids) == KnobTurns::water);
  CHECK_FALSE(dosed_by(Target::readable));

  const Recipe recipe = shipped("calcium-set-pouch.json");
  const Inputs inputs = resolve(recipe);
  Batch batch;
  batch.lines.resize(2);
  batch.lines[0].role = LineRole::water;
  batch.lines[1].role = LineRole::calcium_salt;
  for (BatchLine& line : batch.lines) {
    line.scale = 0;
    line.error_percent = 10;
  }
  const DoseQuestion to_ratio{Target::ratio, 0.6};
  const DoseAnswer salted = answer(inputs, to_ratio);
  CHECK(salted.inputs.calcium->line.mass_g == salted.dosed.amount);
  const auto ratio = sensitivity_of(salted, to_ratio, batch);
  REQUIRE(ratio);
  CHECK(ratio->line == 1);
  CHECK(ratio->goal_low < 0.6);
  CHECK(ratio->goal_high > 0.6);

  // By hand: s of soluble solids in w of water are 100 s / (s + w) percent.
  const DoseQuestion to_solids{Target::soluble_solids, 40};
  const DoseAnswer thinned = answer(inputs, to_solids);
  CHECK_THAT(formulate(thinned.inputs).water_g, near(thinned.dosed.amount, 1e-9));
  const auto solids = sensitivity_of(thinned, to_solids, batch);
  REQUIRE(solids);
  CHECK(solids->line == 0);
  const double total_g = formulate(thinned.inputs).total_g;
  const double water_g = thinned.dosed.amount;
  CHECK_THAT(solids->goal_low, near(40 * total_g / (total_g + 0.1 * water_g), 1e-6));
  CHECK_THAT(solids->goal_high, near(40 * total_g / (total_g - 0.1 * water_g), 1e-6));
  CHECK_FALSE(sensitivity_of(thinned, {Target::readable, 0}, batch));
}
