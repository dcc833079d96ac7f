// The faults of a recipe whose kitchen cannot be used: those that stay whatever that kitchen says,
// so that both documents can be mended at one sitting.
#include <algorithm>
#include <array>

#include "gelwright/read.hpp"
#include "read/readers.hpp"

namespace gelwright {

namespace {

using nlohmann::json;

/// All the names of a kitchen that may be broken; nothing where they cannot be told.
std::optional<detail::KitchenNames> names_in(const std::optional<KitchenDocument>& kitchen) {
  if (!kitchen) return std::nullopt;
  const json tree = json::parse(kitchen->text, nullptr, false);
  if (!tree.is_object()) return std::nullopt;
  detail::KitchenNames names{.there = true};
  // Behind a misspelt key, and in what is no kitchen at all, any name may stand.
  bool told = tree.value("format", json()) == "gelwright/kitchen-1";
  for (const auto& member : tree.items())
    told = told && detail::kitchen_keys().find(member.key()) != nullptr;
  const auto take_keys = [&](const std::string& section, std::vector<std::string>& into) {
    const json members = tree.value(section, json::object());
    told = told && members.is_object();
    if (members.is_object())
      for (const auto& member : members.items()) into.push_back(member.key());
  };
  const auto take_entries = [&](const std::string& section, std::vector<std::string>& into) {
    const json entries = tree.value(section, json::array());
    told = told && entries.is_array();
    if (!entries.is_array()) return;
    for (const json& entry : entries) {
      const bool named = entry.is_object() && entry.contains("name") && entry["name"].is_string();
      told = told && named;
      if (named) into.push_back(entry["name"].get<std::string>());
    }
  };
  take_keys("define", names.define);
  take_keys("waters", names.waters);
  take_entries("scales", names.scales);
  take_entries("vessels", names.vessels);
  return told ? std::optional(names) : std::nullopt;
}

bool holds(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// The key a pointer ends in, list positions left out.
std::string last_key(std::string pointer) {
  while (!pointer.empty()) {
    const std::size_t slash = pointer.rfind('/');
    const std::string step = pointer.substr(slash + 1);
    if (step.find_first_not_of("0123456789") != std::string::npos) return step;
    pointer.resize(slash);
  }
  return {};
}

/// Whether what is wrong there may be the kitchen's doing: a name it was to explain, or a judgement
/// on what such names stand for.
bool hangs_on_kitchen(const Problem& problem, const json& recipe,
                      const std::optional<detail::KitchenNames>& names) {
  const std::string key = last_key(problem.where);
  constexpr std::array judged = {"how", "gum", "compare_with", "bowl_g"};
  if (std::find(judged.begin(), judged.end(), key) != judged.end()) return true;
  constexpr std::array naming = {"ingredient", "tap", "water", "vessel", "scales", "what", "into"};
  if (std::find(naming.begin(), naming.end(), key) == naming.end()) return false;
  const json::json_pointer place(problem.where);
  if (!recipe.contains(place) || !recipe.at(place).is_string()) return false;
  const std::string name = recipe.at(place).get<std::string>();
  return !names || holds(names->define, name) || holds(names->waters, name) ||
         holds(names->scales, name) || holds(names->vessels, name);
}

std::vector<Problem> faults_of_recipe(std::string_view text, const std::string& document,
                                      const std::optional<KitchenDocument>& kitchen) {
  const json recipe = detail::parse_json(text, document);
  if (!recipe.is_object()) return {};
  const std::optional<detail::KitchenNames> names = names_in(kitchen);
  detail::Findings findings;
  detail::read_document(recipe, names.value_or(detail::KitchenNames{.there = true}), findings);
  std::vector<Problem> faults;
  for (Problem& problem : findings.problems)
    if (!hangs_on_kitchen(problem, recipe, names)) faults.push_back(std::move(problem));
  return faults;
}

}  // namespace

InputError with_faults_of_recipe(const InputError& of_kitchen, std::string_view json_text,
                                 const std::string& document,
                                 const std::optional<KitchenDocument>& kitchen) {
  if (of_kitchen.document() == document) return of_kitchen;
  std::vector<Problem> all = of_kitchen.problems();
  for (Problem& problem : all)
    if (problem.document.empty()) problem.document = of_kitchen.document();
  for (Problem& fault : faults_of_recipe(json_text, document, kitchen))
    all.push_back(std::move(fault));
  return {document, std::move(all)};
}

}  // namespace gelwright
