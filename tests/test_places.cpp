// Where in the text of a document a mistake is.
#include <string>

#include "catch.hpp"
#include "program.hpp"
#include "read/json_places.hpp"
#include "recipes.hpp"

using namespace gelwright;
using namespace gelwright::detail;
using gelwright::test::recipe_with;
using gelwright::test::refusal_of;

namespace {

/// "line:column" of what a pointer names, "nowhere" where it names the whole.
std::string place(const std::string& text, const std::string& pointer) {
  const auto found = place_of(pointer, places_of(text), text);
  return found ? std::to_string(found->line) + ':' + std::to_string(found->column) : "nowhere";
}

std::string refused(const std::string& members) {
  return refusal_of([&] { recipe_with(members); });
}

}  // namespace

TEST_CASE("a pointer leads to the key or the element it names") {
  const std::string text =
      "{\n  \"solids\": [\n    {\"ingredient\": \"x\", \"mass_g\": 1},\n"
      "    {\"ingredient\": \"y\", \"mass_g\": -1}\n  ]\n}\n";
  CHECK(place(text, "/solids") == "2:3");
  CHECK(place(text, "/solids/0") == "3:5");
  CHECK(place(text, "/solids/1/mass_g") == "4:25");
  CHECK(place(text, "") == "nowhere");
}

TEST_CASE("where a pointer names nothing, the nearest thing around it is named") {
  const std::string text = "{\n \"water\": {\n  \"mass_g\": 4 } }";
  CHECK(place(text, "/acid") == "nowhere");
  CHECK(place(text, "/water/percent") == "2:2");
}

TEST_CASE("columns count characters, and keys are read as a pointer escapes them") {
  const std::string text = R"({"é": 1, "a/b": {"~c": 2}, "\u0064\n": 3})";
  CHECK(place(text, "/é") == "1:2");
  CHECK(place(text, "/a~1b") == "1:10");
  CHECK(place(text, "/a~1b/~0c") == "1:18");
  CHECK(place(text, "/d\\u000a") == "1:28");
}

TEST_CASE("the program names line and column beside the pointer") {
  const test::Printed printed = test::run_program("check tests/data/bad_mass_zero.json");
  CHECK(printed.text.rfind("gelwright: tests/data/bad_mass_zero.json: /solids/0/mass_g (line 6, "
                           "column 42): 0 is not possible here",
                           0) == 0);
  // Nothing to name in a text that is no JSON, or whose mistake is the whole.
  CHECK(test::run_program("check tests/data/bad_not_an_object.json").text.find("(line") ==
        std::string::npos);
}

TEST_CASE("usual wrong keys get the right one") {
  const std::string solids = R"("solids": [{"ingredient": "fructose", "mass_g": 40}])";
  const std::string water = R"(, "water": {"mass_g": 30})";
  CHECK(refused(solids + water + R"(, "servings": 10)") ==
        "/servings: how many are made, and with what, stands under \"batch\"; write \"batch\": "
        "{\"servings\": 10}\n");
  CHECK(refused(solids + water + R"(, "carbs_g": 40)") ==
        "/carbs_g: the carbohydrate follows from what is weighed; state the \"solids\" with their "
        "\"mass_g\"\n");
  CHECK(
      refused(solids + R"(, "water": 48)") ==
      "/water: does not say a share of what; write {\"mass_g\": 48} for grams in one serving, "
      "{\"fraction_of_total\": 0.333} for 33.3 g in 100 g of gel, or {\"per_g_solids\": 0.50} for "
      "0.50 g to each g of solids\n");
  CHECK(refused(solids + water + R"(, "tap": {"hardness_dh": 7})") ==
        "/tap/hardness_dh: the unit is written out; write \"hardness_german_degrees\"\n");
  CHECK(refused(solids + water + R"(, "define": {"m": {"kind": "mix", "label": {"per_g": 40,
            "carbs_g": 36}}})") ==
        "/define/m/label/carbs_g: this figure has another name; write \"carbohydrate_g\"\n");
  CHECK(
      refused(R"("solids": [{"ingredient": "fructose", "carbs_g": 40}])" + water) ==
      "/solids/0/carbs_g: what it delivers follows from what it is; write \"mass_g\": the mass as "
      "weighed\n");
  CHECK(refused(R"("ingredients": [])" + water) ==
        "/ingredients: what one serving is made of has another name; write \"solids\"\n");
}
