// A recipe's steps as the text of a recipe-2 document. For tests: what a recipe-1 stands for can
// then be written down and read again.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "gelwright/read.hpp"

namespace gelwright::test {

inline const char* word_of(How how) {
  switch (how) {
    case How::stirred:
      return "stirred";
    case How::shaken:
      return "shaken";
    case How::under_blade:
      return "under_blade";
    case How::preblended:
      return "preblended";
    case How::dry:
      return "dry";
    case How::poured:
      return "poured";
    case How::slow:
      return "slow";
    case How::still:
      return "still";
  }
  return "";
}

inline nlohmann::ordered_json as_json(const Addition& each, const Recipe& recipe) {
  const std::string name = each.item == Item::water  ? "water"
                           : each.item == Item::acid ? "acid"
                           : each.item == Item::calcium
                               ? "calcium"
                               : recipe.ingredients[recipe.solids[each.line].ingredient].name;
  if (each.share == 1) return name;
  return {{"ingredient", name}, {"share", each.share}};
}

inline nlohmann::ordered_json as_json(const Step& step, const Recipe& recipe) {
  nlohmann::ordered_json json;
  switch (step.act) {
    case Act::add:
      json = {{"do", "add"}, {"what", nlohmann::ordered_json::array()}, {"how", word_of(step.how)}};
      for (const Addition& each : step.what) json["what"].push_back(as_json(each, recipe));
      break;
    case Act::heat:
      json = {{"do", "heat"}, {"to_c", step.to_c}};
      break;
    case Act::cool:
      json = {{"do", "cool"}, {"to_c", step.to_c}, {"how", word_of(step.how)}};
      break;
    case Act::rest:
      json = {{"do", "rest"}, {"hours", step.hours}, {"at_c", step.at_c}};
      break;
    case Act::fill:
      json = {{"do", "fill"}};
      break;
  }
  if (step.minutes) json["minutes"] = *step.minutes;
  return json;
}

/// The same recipe, all its steps stated, as recipe-2.
inline std::string as_recipe_2(const std::string& text) {
  nlohmann::ordered_json document = nlohmann::ordered_json::parse(text);
  const Recipe recipe = read_recipe(text, "recipe-1.json");
  document["format"] = "gelwright/recipe-2";
  document["process"] = nlohmann::ordered_json::array();
  for (const Step& step : recipe.steps) document["process"].push_back(as_json(step, recipe));
  if (recipe.measured)
    document["measured"] = {
        {"ph", recipe.measured->ph},
        {"with", recipe.measured->with == PhMethod::strips ? "strips" : "meter"}};
  if (document.contains("calcium")) document["calcium"].erase("when");
  return document.dump(2);
}

}  // namespace gelwright::test
