// The shipped recipes, each in three shapes: with its kitchen, flattened, and as it was in the
// older format. All that the older format can say comes out alike to the last digit.
#include <nlohmann/json.hpp>

#include "catch.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/recipe_edit.hpp"
#include "gelwright/sheet.hpp"
#include "recipes.hpp"

using namespace gelwright;

namespace {

nlohmann::json sheet_of(const Recipe& recipe) {
  const Inputs inputs = as_measured(resolve(recipe));
  const Evaluation evaluation = evaluate(inputs);
  auto sheet = nlohmann::json::parse(
      render(sheet_report(inputs, evaluation, advise(inputs, evaluation)), Format::json));
  // Where a figure came from differs, of course, and what had to be assumed with it.
  sheet.erase("kitchen");
  sheet.erase("assumptions");
  return sheet;
}

/// Numbers as they were computed; a sheet rounds them.
std::vector<double> figures_of(const Recipe& recipe) {
  const Inputs inputs = as_measured(resolve(recipe));
  const Evaluation found = evaluate(inputs);
  std::vector<double> figures = {found.formula.total_g,
                                 found.formula.water_g,
                                 found.formula.chemistry_water_g,
                                 found.water_phase.ph,
                                 found.water_phase.ph_uncertainty,
                                 found.water_phase.ionic_strength_mol_per_kg,
                                 found.water_phase.free_calcium_mmol_per_kg,
                                 found.properties.density_g_per_ml,
                                 found.properties.water_activity,
                                 found.batch.total_g,
                                 found.batch.volume_ml};
  for (const BatchLine& line : found.batch.lines)
    figures.insert(figures.end(), {line.exact_g, line.weigh_g, line.error_percent});
  return figures;
}

}  // namespace

TEST_CASE("a shipped recipe and its flattened form are worked out alike") {
  for (const std::string name : test::shipped_names) {
    INFO(name);
    const std::string text = test::read_text(test::source_path("recipes/" + name));
    const std::string flat = flattened_recipe(text, name, test::shipped_kitchen());
    CHECK_FALSE(kitchen_named(flat, name));
    const Recipe with_kitchen = test::shipped(name);
    const Recipe alone = read_recipe(flat, name);
    CHECK(with_kitchen.kitchen);
    CHECK_FALSE(alone.kitchen);
    CHECK(figures_of(with_kitchen) == figures_of(alone));
    CHECK(sheet_of(with_kitchen) == sheet_of(alone));
  }
}

TEST_CASE("a shipped recipe and its ancestor are worked out alike") {
  for (const std::string name : test::shipped_names) {
    INFO(name);
    const Recipe now = test::shipped(name);
    Recipe then = read_recipe(test::ancestor_of(name), name);
    CHECK(figures_of(now) == figures_of(then));
    // What the kitchen knows for all of them some ancestors did not: the prices, what the water is
    // called, and how well its report knows the calcium.
    REQUIRE(now.ingredients.size() == then.ingredients.size());
    then.currency = now.currency;
    then.packs = now.packs;
    then.compare_with = now.compare_with;
    then.tap->sd = now.tap->sd;
    then.tap->water.name = now.tap->water.name;
    CHECK(nlohmann::json::diff(sheet_of(then), sheet_of(now)).dump(1) == "[]");
  }
}
