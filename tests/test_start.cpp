// A first recipe from a few answers.
#include <sstream>

#include "catch.hpp"
#include "cli/questions.hpp"
#include "gelwright/error.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/read.hpp"
#include "gelwright/shipped.hpp"
#include "gelwright/start.hpp"
#include "recipes.hpp"
#include "statistics/random.hpp"

using namespace gelwright;

namespace {

StartAnswers scratch(double solids_g, double total_g) {
  StartAnswers answers;
  answers.sugars = {{"maltodextrin DE 18", 1}, {"fructose", 0.8}};
  answers.solids_g = solids_g;
  answers.total_g = total_g;
  return answers;
}

GelForecast forecast(const StartedRecipe& started) {
  const Recipe recipe = read_recipe(started.text, "started");
  return evaluate(inputs_of(recipe)).gel;
}

}  // namespace

TEST_CASE("200 answers from scratch give pouches that set and drinks that pour, or say why not") {
  std::uint64_t draws = 0;
  const auto between = [&draws](double low, double high) {
    return low + (high - low) * detail::uniform({20261125, 1, draws++});
  };
  int sure = 0;
  for (int trial = 0; trial < 200; ++trial) {
    const double total_g = between(40, 120);
    StartAnswers answers = scratch(total_g * between(0.3, 0.65), total_g);
    answers.sugars[1].part = between(0.2, 1.2);
    answers.servings = 1 + trial % 12;
    if (trial % 3 > 0) answers.calcium_mg_per_l = between(5, 150);
    if (trial % 3 > 1) answers.alkalinity_mg_caco3_per_l = between(10, 300);
    if (trial % 5 == 0) {
      answers.form = Form::drink;
      answers.total_g = 500;
      answers.solids_g = between(40, 90);
    }
    INFO(trial);
    const StartedRecipe started = start_recipe(answers);
    const GelForecast gel = forecast(started);
    const double chance = answers.form == Form::pouch
                              ? gel.chance_set()
                              : gel.chance(gel::Texture::pours) + gel.chance(gel::Texture::thick);
    CHECK(std::abs(chance - started.chance) < 1e-6);
    CHECK(started.doubt.empty() == (chance >= 0.7));
    sure += chance >= 0.7 ? 1 : 0;
  }
  CHECK(sure >= 190);
}

TEST_CASE("200 labels of mixes give pouches that set and drinks that pour, or say why not") {
  std::uint64_t draws = 0;
  const auto between = [&draws](double low, double high) {
    return low + (high - low) * detail::uniform({20261126, 2, draws++});
  };
  for (int trial = 0; trial < 200; ++trial) {
    StartAnswers answers;
    answers.mix = MixLabel{between(70, 98), between(0, 1200)};
    answers.form = trial % 5 == 0 ? Form::drink : Form::pouch;
    answers.total_g = answers.form == Form::drink ? 500 : between(40, 120);
    answers.solids_g =
        answers.form == Form::drink ? between(40, 90) : answers.total_g * between(0.3, 0.65);
    if (trial % 3 > 0) answers.calcium_mg_per_l = between(5, 150);
    if (trial % 3 > 1) answers.alkalinity_mg_caco3_per_l = between(10, 300);
    INFO(trial);
    const StartedRecipe started = start_recipe(answers);
    const GelForecast gel = forecast(started);
    CHECK(started.doubt.empty() == (started.chance >= 0.7));
    // Only a drink so little sour that no gel is known of it is not foretold, and says so.
    CHECK((gel.made ||
           (answers.form == Form::drink && started.doubt.find("foretold") != std::string::npos)));
    CHECK((started.chance > 0) == gel.made);
  }
}

TEST_CASE("a sugar of several kinds is taken as the likeliest, and that is said") {
  StartAnswers answers = scratch(25, 40);
  answers.sugars[0].ingredient = "maltodextrin";
  const StartedRecipe started = start_recipe(answers);
  REQUIRE(started.understood.size() == 1);
  CHECK(started.understood[0].find("maltodextrin DE") != std::string::npos);
  CHECK(started.text.find("maltodextrin DE") != std::string::npos);
  CHECK(started.chance >= 0.7);
}

TEST_CASE("every shipped recipe is compiled in, stands alone and is the one in the folder") {
  const std::vector<std::string> names = shipped_recipe_names();
  CHECK(names.size() == std::size(test::shipped_names));
  for (const char* file : test::shipped_names) {
    INFO(file);
    const std::string name = std::string(file).substr(0, std::string(file).find('.'));
    const std::string text = shipped_recipe(name);
    CHECK_FALSE(kitchen_named(text, name));
    CHECK(text.find("$schema") == std::string::npos);
    CHECK(text.back() == '\n');
    const Recipe alone = read_recipe(text, name);
    const Recipe there = test::shipped(file);
    CHECK(evaluate(resolve(alone)).water_phase.ph == evaluate(resolve(there)).water_phase.ph);
    CHECK(evaluate(resolve(alone)).batch.lines.size() ==
          evaluate(resolve(there)).batch.lines.size());
  }
  CHECK_THROWS_AS(shipped_recipe("moonlight"), InputError);
}

TEST_CASE("a mix's label makes a recipe that says what it does not know") {
  StartAnswers answers;
  answers.mix = MixLabel{94, 350};
  answers.solids_g = 72;
  answers.total_g = 115;
  const StartedRecipe started = start_recipe(answers);
  const Recipe recipe = read_recipe(started.text, "started");
  REQUIRE(recipe.ingredients.size() == 2);
  CHECK_FALSE(recipe.ingredients[recipe.solids[0].ingredient].undeclared.empty());
  CHECK(started.doubt.empty() == (started.chance >= 0.7));
}

TEST_CASE("answers that cannot be a recipe are refused, all at once") {
  StartAnswers answers = scratch(69, 70);
  answers.sugars[0].ingredient = "moonlight";
  try {
    start_recipe(answers);
    FAIL("took it");
  } catch (const InputError& error) {
    CHECK(error.problems().size() == 2);
    for (const Problem& each : error.problems()) CHECK_FALSE(each.remedy.empty());
  }
  CHECK_THROWS_AS(start_recipe(StartAnswers{}), InputError);
}

TEST_CASE("a question is asked again until its answer can be used") {
  std::istringstream in("much\n-3\n12,5\n 12.5 g \n");
  std::ostringstream out;
  double value = 0;
  cli::ask(in, out, "How much?", "4", cli::number_into(value, 1, 100, "g"));
  CHECK(value == 12.5);
  CHECK(out.str() ==
        "How much? [4]:   please a number from 1 to 100 g\n"
        "How much? [4]:   please a number from 1 to 100 g\n"
        "How much? [4]:   please a number from 1 to 100 g\n"
        "How much? [4]: ");
  std::istringstream usual("\n");
  cli::ask(usual, out, "How much?", "4", cli::number_into(value, 1, 100, "g"));
  CHECK(value == 4);
  std::istringstream ended;
  CHECK_THROWS_AS(cli::ask(ended, out, "How much?", "4", cli::number_into(value, 1, 100, "g")),
                  InputError);
}

TEST_CASE("choices go by their first letters, and what is not known may be left out") {
  const auto choose = [](const std::string& text) {
    std::istringstream in(text + "\nyes\n");
    std::ostringstream out;
    bool value = false;
    cli::ask(in, out, "?", "", cli::choice_into(value, "yes", "no"));
    return value;
  };
  CHECK(choose("Y"));
  CHECK_FALSE(choose("no"));
  CHECK(choose("perhaps"));
  std::optional<double> value = 3;
  std::ostringstream out;
  std::istringstream in("\n");
  cli::ask(in, out, "?", "", cli::number_if_known(value, 0, 1000, "mg/L"));
  CHECK_FALSE(value);
  std::istringstream known("23mg/L\n");
  cli::ask(known, out, "?", "", cli::number_if_known(value, 0, 1000, "mg/L"));
  CHECK(value == 23.0);
}
