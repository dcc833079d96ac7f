// The one table of keys against what is made of it: documents, defaults, the reader itself.
#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "catch.hpp"
#include "gelwright/recipe.hpp"
#include "key_documents.hpp"
#include "program.hpp"
#include "read/json_reader.hpp"
#include "read/keys.hpp"
#include "recipes.hpp"

using namespace gelwright;
using namespace gelwright::detail;

namespace {

/// The first line that differs, with its number: a whole document would bury it.
std::string first_difference(const std::string& kept, const std::string& made) {
  std::istringstream ours(kept);
  std::istringstream theirs(made);
  std::string a;
  std::string b;
  for (int line = 1;; ++line) {
    const bool more_a = static_cast<bool>(std::getline(ours, a));
    const bool more_b = static_cast<bool>(std::getline(theirs, b));
    if (!more_a && !more_b) return "none";
    if (more_a != more_b || a != b)
      return "line " + std::to_string(line) + ": kept \"" + (more_a ? a : "") + "\", made \"" +
             (more_b ? b : "") + '"';
  }
}

/// The objects of all documents, each once.
std::vector<const ObjectType*> all_types() {
  std::vector<const ObjectType*> types = object_types(recipe_keys());
  for (const ObjectType* document : {&kitchen_keys(), &goal_keys()})
    for (const ObjectType* type : object_types(*document))
      if (std::find(types.begin(), types.end(), type) == types.end()) types.push_back(type);
  return types;
}

template <class Visit>
void for_each_key(Visit visit) {
  for (const ObjectType* type : all_types())
    for (const Key& key : type->keys) visit(*type, key);
}

}  // namespace

// GELWRIGHT_REFRESH=1 writes all anew.
TEST_CASE("the schemas are those the table of keys makes", "[kept]") {
  const std::string recipe = test::recipe_schema();
  CHECK(first_difference(test::kept("docs/recipe.schema.json", recipe), recipe) == "none");
  const std::string kitchen = test::kitchen_schema();
  CHECK(first_difference(test::kept("docs/kitchen.schema.json", kitchen), kitchen) == "none");
  const std::string goal = test::goal_schema();
  CHECK(first_difference(test::kept("docs/goal.schema.json", goal), goal) == "none");
}

TEST_CASE("the guides' tables are those the table of keys makes, one for each object", "[kept]") {
  std::string both;
  for (const std::string path : {"docs/recipe.md", "docs/kitchen.md", "docs/goal.md"}) {
    const std::string guide = test::read_text(test::source_path(path));
    const std::string made = test::with_key_tables(guide);
    CHECK(first_difference(test::kept(path, made), made) == "none");
    both += made;
  }
  for (const ObjectType* type : all_types()) {
    INFO(type->id);
    const std::string mark = "<!-- keys: " + std::string(type->id) + " -->";
    CHECK(both.find(mark) != std::string::npos);
    CHECK(both.find(mark, both.find(mark) + 1) == std::string::npos);
  }
}

TEST_CASE("every row of the table says what a person needs to know") {
  std::set<std::string_view> ids;
  for (const ObjectType* type : all_types()) {
    CHECK(ids.insert(type->id).second);
    std::set<std::string_view> names;
    for (const Key& key : type->keys) {
      names.insert(key.name);
      CHECK(type->find(key.name, key.only) == &key);
    }
    for (const Variant& variant : type->variants) {
      const auto& words = type->keys.front().words;
      CHECK(std::any_of(words.begin(), words.end(),
                        [&](const Word& word) { return word.text == variant.word; }));
      for (const auto* keys : {&variant.needs, &variant.may})
        for (const std::string_view key : *keys) CHECK(names.count(key) == 1);
    }
    for (const Rule& rule : type->rules)
      for (const std::string_view key : rule.keys) CHECK(names.count(key) == 1);
    for (const Slip& slip : type->slips) {
      CHECK(names.count(slip.name) == 0);
      CHECK((slip.meant.empty() || names.count(slip.meant) == 1));
    }
  }
  CHECK(ids.size() >= 20);
  for_each_key([](const ObjectType& type, const Key& key) {
    INFO(type.id << " " << key.name);
    CHECK_FALSE(key.what.empty());
    const bool number = key.shape == Shape::number || key.shape == Shape::measured;
    const bool structured =
        key.object != nullptr || key.shape == Shape::water || key.shape == Shape::named;
    CHECK((structured || !key.example.empty()));
    CHECK((key.example.empty() || nlohmann::json::accept(key.example)));
    if (number && key.most_of.empty()) CHECK(key.bounds.at_least < key.bounds.at_most);
    // A unit in the name is the unit of the row.
    for (const auto& [suffix, unit] :
         {std::pair("_g", "g"), {"_mg", "mg"}, {"_ml", "mL"}, {"_hours", "h"}, {"_c", "°C"}})
      if (key.name.ends_with(suffix) && number && key.name != "carboxylate_mmol_per_g")
        CHECK(key.unit == unit);
    CHECK((key.shape == Shape::word) == !key.words.empty());
    if (const auto* word = std::get_if<std::string_view>(&key.otherwise))
      CHECK(std::any_of(key.words.begin(), key.words.end(),
                        [&](const Word& each) { return each.text == *word; }));
    CHECK_FALSE((key.needed && key.otherwise.index() != 0));
    CHECK_FALSE((key.aloud && key.otherwise.index() == 0));
  });
}

TEST_CASE("the defaults of the table are those of the plain data") {
  const Recipe read = test::recipe_with(
      R"("solids": [{"ingredient": "fructose", "mass_g": 40}], "water": {"mass_g": 20})");
  const Recipe plain;
  CHECK(read.batch.servings == plain.batch.servings);
  CHECK(read.batch.loss_percent == plain.batch.loss_percent);
  CHECK(read.batch.bowl_g == plain.batch.bowl_g);
  CHECK(read.batch.headroom_percent == plain.batch.headroom_percent);
  CHECK(read.batch.dose_tolerance_percent == plain.batch.dose_tolerance_percent);
}
