#include <nlohmann/json.hpp>

#include "gelwright/goal.hpp"
#include "read/json_reader.hpp"
#include "read/kitchen.hpp"

namespace gelwright {

namespace {

Limit read_sides(ObjectReader& goal, std::string_view key) {
  Limit limit;
  goal.object(key, [&](ObjectReader& sides) {
    limit.at_least = sides.number("at_least");
    limit.at_most = sides.number("at_most");
  });
  return limit;
}

Goal read_keys(ObjectReader& body) {
  Goal goal;
  body.word<int>("format");
  body.text("$schema");
  body.text("kitchen");  // the caller hands it in
  goal.name = body.text("name").value_or("");
  goal.note = body.text("note").value_or("");
  goal.form = body.word<Form>("form").value_or(Form::pouch);
  goal.carbohydrate_g = body.number("carbohydrate_g").value_or(0);
  goal.serving_g = body.number("serving_g");
  goal.soluble_solids_percent = body.number("soluble_solids_percent");
  body.objects("sugars", [&](ObjectReader& sugar, std::size_t) {
    GoalSugar read;
    read.ingredient = sugar.text("ingredient").value_or("");
    read.part = sugar.number_or("part");
    goal.sugars.push_back(std::move(read));
  });
  goal.texture = body.word<gel::Texture>("texture");
  goal.ph = read_sides(body, "ph");
  goal.sodium_mg = read_sides(body, "sodium_mg");
  goal.caffeine_mg = body.number_or("caffeine_mg");
  goal.tablet_mg = body.number_or("tablet_mg");
  goal.price_at_most = body.number("price_at_most");
  goal.rest_hours = body.number_or("rest_hours");
  goal.servings = body.number_or("servings");
  goal.have = body.texts("have");
  if (const nlohmann::json* tap = body.member("tap")) goal.tap = tap->dump();
  body.finish();
  return goal;
}

}  // namespace

Goal read_goal(std::string_view json_text, const std::string& document) {
  const nlohmann::json parsed = parse_json(json_text, document);
  if (!parsed.is_object())
    throw InputError(document, {{"", "expected a goal object", "start with {"}});
  refuse_other_format(parsed, document, "gelwright/recipe-", "this is a recipe, not a goal",
                      "name a file of the format \"gelwright/goal-1\"; `sheet` takes a recipe");
  refuse_other_format(parsed, document, "gelwright/kitchen-", "this is a kitchen, not a goal",
                      "name a file of the format \"gelwright/goal-1\"");
  Findings findings;
  ObjectReader body(parsed, "", goal_keys(), findings);
  Goal goal = read_keys(body);
  goal.document = document;
  if (findings.problems.empty()) findings.problems = problems_of(goal);
  if (!findings.problems.empty()) throw InputError(document, std::move(findings.problems));
  return goal;
}

}  // namespace gelwright
