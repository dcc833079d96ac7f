// docs/results/ holds the JSON Schema of every result document, made from the cells of reports.
#include <fmt/format.h>

#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <vector>

#include "catch.hpp"
#include "gelwright/aim_report.hpp"
#include "gelwright/carry_report.hpp"
#include "gelwright/compare_report.hpp"
#include "gelwright/dose_report.hpp"
#include "gelwright/fit_report.hpp"
#include "gelwright/goal_report.hpp"
#include "gelwright/knob.hpp"
#include "gelwright/ladder_report.hpp"
#include "gelwright/log_report.hpp"
#include "gelwright/mend_report.hpp"
#include "gelwright/read.hpp"
#include "gelwright/reference.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/sheet.hpp"
#include "gelwright/sheet_pictures.hpp"
#include "gelwright/shop_report.hpp"
#include "gelwright/spread_report.hpp"
#include "gelwright/water_report.hpp"
#include "program.hpp"
#include "recipes.hpp"
#include "result_schema.hpp"

using namespace gelwright;
using namespace gelwright::test;

namespace {

using Reports = std::map<std::string, std::vector<Report>>;

void add(Reports& reports, Report report) {
  std::vector<Report>& same = reports[report.format];
  same.push_back(std::move(report));
}

/// Recipes that between them have every part a report can have or lack.
std::vector<std::string> recipe_files() {
  std::vector<std::string> files = {"tests/data/no-gum.json", "tests/data/tarn-water.json",
                                    "tests/data/every-part.json", "tests/data/gum-in-doubt.json"};
  return files;
}

void add_reports_of(Reports& reports, const Recipe& recipe) {
  const Inputs inputs = resolve(recipe);
  const Evaluation evaluation = evaluate(inputs);
  const Advice advice = advise(inputs, evaluation);
  CompareSide side;
  side.inputs = &inputs;
  side.evaluation = &evaluation;
  CompareSide bought;
  bought.bought = find_ingredient("sucrose");
  bought.piece_g = 5;
  add(reports, compare_report(compare({side, side, bought})));
  add(reports, sheet_report(inputs, evaluation, advice));
  add(reports, sheet_report(inputs, evaluation, advice, &evaluation));
  // Pictures, with cups and without: the sheet has them only where they are asked for.
  const Bench cups =
      read_bench(read_text(source_path("recipes/tarn-thick-pouch.bench.csv")), "bench");
  for (const Bench* own : {static_cast<const Bench*>(nullptr), &cups}) {
    Report with_pictures = sheet_report(inputs, evaluation, advice);
    for (const SheetPictureInfo& each : sheet_pictures())
      with_pictures.sections.push_back(
          picture_section(each.which, inputs, evaluation, advice, own));
    add(reports, std::move(with_pictures));
  }
  add(reports, check_report(inputs, evaluation, advice));
  for (const FlagInfo& info : flag_catalogue())
    add(reports, explain_report(info, inputs, evaluation, advice));
  add(reports, shop_report(shopping_list({{inputs}})));
  if (evaluation.nutrition.carbohydrate_g > 0)
    for (const double used_to_g_per_hour : {10.0, 60.0}) {
      CarryWish wish;
      wish.hours = 2.5;
      wish.carbohydrate_g_per_hour = 60;
      wish.used_to_g_per_hour = used_to_g_per_hour;
      const CarryItem piece = carry_item(inputs, evaluation);
      const CarryItem sweet = carry_item(*find_ingredient("sucrose"), 20);
      // One of the run, one with something bought, one where all has been warm for too long.
      const CarryPlan alone = carry({piece}, wish);
      const CarryPlan both = carry({piece, sweet}, wish);
      wish.warm_before_hours = 24;
      const CarryPlan none = carry({piece}, wish);
      for (const CarryPlan& plan : {alone, both, none}) {
        Report printed = carry_report(plan);
        add_carry_picture(printed, plan);
        add(reports, std::move(printed));
      }
    }
  for (const double grams : {1.0, 1e6}) {
    const WeighedInstead water[] = {{LineRole::water, 0, grams}};
    add(reports, mend_report(mend(inputs, water), evaluation, advice));
  }
  const SeenOfBatch thick{.ph = {}, .texture = gel::Texture::thick};
  add(reports, mend_report(mend(inputs, {}, thick), evaluation, advice));
  const SpreadResult spread_out = spread(inputs, {.draws = 200});
  Report spread_printed = spread_report(inputs, spread_out);
  add_spread_pictures(spread_printed, spread_out);
  add(reports, std::move(spread_printed));
  for (const DoseQuestion question :
       {DoseQuestion{Target::ph, 3.8}, DoseQuestion{Target::ph, 1},
        DoseQuestion{Target::ratio, 0.5}, DoseQuestion{Target::water_fraction, 0.4},
        DoseQuestion{Target::soluble_solids, 50}, DoseQuestion{Target::readable, 0}}) {
    if (question.target == Target::ph && !inputs.acid) continue;
    if (question.target == Target::ratio && !inputs.calcium) continue;
    if (question.target == Target::readable && recipe.batch.scales.empty()) continue;
    add(reports, dose_report(answer(inputs, question), question));
  }
  if (inputs.acid && evaluation.gel.made && evaluation.gel.any_route()) {
    for (const gel::Texture texture : {gel::Texture::flowing, gel::Texture::hard})
      add(reports, aim_report(inputs, aim_at(inputs, {texture, {Knob::acid_g}})));
    const Teaching teaching = teach(inputs, {Knob::acid_g}, 4);
    add(reports,
        ladder_report(plan_ladder(inputs, {axis_of(teaching, recipe)}, {.stock_percent = 0}),
                      &teaching));
  }
  for (const std::string axis : {"water_g=40:60:10", "water_g=40:60:2", "acid_g=0.1:0.3:0.1"}) {
    if (axis.front() == 'a' && !inputs.acid) continue;
    const std::vector<std::string> vary = {axis};
    add(reports, ladder_report(plan_ladder(inputs, read_ladder_axes(vary, inputs), {})));
  }
  for (const InputLine& line : inputs.solids) {
    const Ingredient& gum = recipe.ingredients[line.ingredient];
    if (gum.kind != Kind::gum) continue;
    const std::vector<std::string> vary = {fmt::format("mass_g:{}={:g}:{:g}:{:g}", gum.name,
                                                       line.mass_g, 2 * line.mass_g, line.mass_g)};
    add(reports, ladder_report(plan_ladder(inputs, read_ladder_axes(vary, inputs), {})));
  }
  if (recipe.tap)
    for (const double calcium_mg_per_l : {10.0, 60.0, 200.0}) {
      WaterQuestion question;
      question.calcium_mg_per_l.at_most = 40;
      question.bring_calcium_to_mg_per_l = calcium_mg_per_l;
      add(reports, water_report(recipe.tap->water, question));
    }
}

/// Two recipes that come out differently, with the reasons for it.
void add_comparison(Reports& reports) {
  const Recipe recipes[] = {shipped("tarn-thick-pouch.json"), shipped("calcium-set-pouch.json")};
  const Inputs inputs[] = {resolve(recipes[0]), resolve(recipes[1])};
  const Evaluation evaluations[] = {evaluate(inputs[0]), evaluate(inputs[1])};
  std::vector<CompareSide> sides(2);
  for (std::size_t i = 0; i < sides.size(); ++i) {
    sides[i].inputs = &inputs[i];
    sides[i].evaluation = &evaluations[i];
  }
  const Comparison comparison = compare(sides);
  REQUIRE_FALSE(comparison.reasons.empty());
  add(reports, compare_report(comparison));
}

/// Reports of a notebook that says everything, and of one that says nothing.
void add_reports_of_notebook(Reports& reports) {
  const std::string file = "tests/data/notebook.jsonl";
  const Notebook notebook = read_notebook(read_text(source_path(file)), file);
  const std::vector<std::size_t> all = chosen(notebook, {});
  const Recipe recipe = shipped("tarn-thick-pouch.json");
  const Inputs inputs = resolve(recipe);
  for (const std::vector<std::size_t>& places : {all, std::vector<std::size_t>{}}) {
    add(reports, log_report(notebook, places, 0));
    Report printed = score_report(notebook, places);
    add_score_picture(printed, score(notebook, places));
    add(reports, std::move(printed));
  }
  for (const NotebookEntry& entry : notebook.entries) {
    add(reports, added_report(entry, file));
    Report sheet = reports["gelwright/result-2"].front();
    sheet.sections.insert(sheet.sections.begin() + 1, last_time_section(entry, "now"));
    add(reports, sheet);
  }
  const NotebookBench found =
      bench_of(notebook, recipe.name, notebook.entries.front().content, inputs);
  Report fit = reports["gelwright/fit-2"].front();
  fit.sections.insert(fit.sections.begin(), logged_section(found));
  add(reports, fit);
}

void add_fit(Reports& reports, const Recipe& recipe, const Bench& bench, const BenchFit& fit) {
  Report report = fit_report(recipe, bench, fit);
  add_fit_pictures(report, recipe, bench, fit);
  add(reports, std::move(report));
}

Reports all_reports() {
  Reports reports;
  for (const std::string& file : recipe_files())
    add_reports_of(reports, read_recipe(read_text(source_path(file)), file));
  for (const std::string name : shipped_names) add_reports_of(reports, shipped(name));
  // One knob the recipe states, one it gives a target for.
  for (const auto& [file, knob] : {std::pair{"tarn-thick-pouch.json", "low_mineral_share=0.5"},
                                   std::pair{"calcium-set-pouch.json", "calcium_salt_g=0.2"}}) {
    const Recipe as_read = shipped(file);
    const std::vector<std::string> with = {knob};
    add_reports_of(reports, stated(as_read, read_knob_settings(with, as_read)));
  }
  const Recipe recipe = shipped("tarn-thick-pouch.json");
  const Bench bench =
      read_bench(read_text(source_path("recipes/tarn-thick-pouch.bench.csv")), "bench");
  for (const double target_ph : {3.8, 1.0}) {
    FitOptions options;
    options.target_ph = target_ph;
    add_fit(reports, recipe, bench, fit_bench(recipe, bench, options));
  }
  add_fit(reports, recipe, bench, fit_bench(recipe, bench, {}));
  FitOptions to_texture;
  to_texture.target_texture = gel::Texture::soft;
  add_fit(reports, recipe, bench, fit_bench(recipe, bench, to_texture));
  Bench ph_only = bench;
  for (BenchCup& cup : ph_only.cups) {
    cup.syringe_ml.reset();
    cup.cup_turn.reset();
    cup.groove.reset();
    cup.spoon.reset();
    cup.ring_ml.reset();
  }
  add_fit(reports, recipe, ph_only, fit_bench(recipe, ph_only, {}));
  Recipe strict = recipe;
  strict.limits.ph = {8.9, 9};
  const Inputs within_limits = inputs_of(strict);
  add(reports,
      aim_report(within_limits, aim_at(within_limits, {gel::Texture::soft, {Knob::acid_g}})));
  Goal goal = read_goal(read_text(source_path("recipes/goals/long-loop.json")), "goal");
  add(reports, goal_report(goal, recipes_for(goal, shipped_kitchen())));
  goal.price_at_most = 0.01;
  goal.caffeine_mg = 50;
  add(reports, goal_report(goal, recipes_for(goal, shipped_kitchen())));
  goal.form = Form::drink;
  goal.texture.reset();
  goal.serving_g = 400;
  add(reports, goal_report(goal, recipes_for(goal, std::nullopt)));
  add_reports_of_notebook(reports);
  add_comparison(reports);
  Water unknown;
  unknown.ph = 7;
  WaterQuestion question;
  add(reports, water_report(unknown, question));
  question.calcium_mg_per_l.at_least = 20;
  for (const double calcium_mg_per_l : {20.0, 40.0}) {
    question.bring_calcium_to_mg_per_l = calcium_mg_per_l;
    add(reports, water_report(unknown, question));
  }
  std::vector<CheckedRecipe> checked;
  for (const Report& each : reports["gelwright/check-1"]) checked.push_back({"file", each});
  add(reports, checks_report(checked));
  add(reports, ingredients_report());
  add(reports, sources_report());
  add(reports, numbers_report());
  add(reports, gel_report());
  add(reports, words_report());
  add(reports, flags_report());
  for (const FlagInfo& info : flag_catalogue()) add(reports, explain_report(info));
  return reports;
}

}  // namespace

TEST_CASE("the documented schemas are those of the reports", "[kept]") {
  std::set<std::string> documented;
  for (const auto& [format, reports] : all_reports()) {
    INFO(format);
    const std::string name = format.substr(format.find('/') + 1) + ".schema.json";
    documented.insert(name);
    const std::string schema = schema_of(reports);
    CHECK(kept("docs/results/" + name, schema) == schema);
  }
  for (const auto& entry : std::filesystem::directory_iterator(source_path("docs/results")))
    CHECK(documented.count(entry.path().filename().string()) == 1);
}

TEST_CASE("a schema knows optional keys, unseen numbers and columns named after a recipe") {
  Report report{"gelwright/test-1", "", {}, ""};
  Section section{"cups", "CUPS", {}, {}, {}};
  section.figures = {{"total_g", "Total", Cell(), "g", "no scale"}};
  section.tables = {{"rows",
                     {{"cup", "cup", true},
                      {.key = "fell mix_g", .label = "", .numeric = true, .named_by_recipe = true},
                      {"hot", "", true}},
                     {{Cell(1.0, 0), Cell(2.0, 0), Cell()}}}};
  report.sections.push_back(section);
  Report second = report;
  second.sections[0].figures[0].cell = Cell(2.5, 1);
  second.sections[0].figures.push_back({"note", "", Cell("x")});
  const auto schema = nlohmann::json::parse(schema_of({report, second}));
  const auto& cups = schema["properties"]["cups"];
  CHECK(cups["required"] == nlohmann::json({"total_g", "rows"}));
  CHECK(cups["properties"]["total_g"]["type"] == nlohmann::json({"null", "number"}));
  CHECK(cups["properties"]["total_g"]["description"] == "Total, g");
  const auto& row = cups["properties"]["rows"]["items"];
  CHECK(row["required"] == nlohmann::json({"cup", "hot"}));
  CHECK(row["properties"]["hot"]["type"] == nlohmann::json({"null", "number"}));
  CHECK_FALSE(row["properties"].contains("fell mix_g"));
  CHECK(row["additionalProperties"]["type"] == nlohmann::json({"number", "null"}));
}
