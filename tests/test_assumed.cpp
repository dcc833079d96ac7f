// What a recipe states and what was assumed for it, carried from the reader on.
#include <algorithm>

#include "catch.hpp"
#include "gelwright/error.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/making.hpp"
#include "gelwright/spread.hpp"
#include "gelwright/water_phase.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

const Assumption* assumed_at(const Recipe& recipe, const std::string& where) {
  for (const Assumption& each : recipe.assumed)
    if (each.where == where) return &each;
  return nullptr;
}

/// The doubt about one figure of a recipe of sugar and this gum; `define` is what "gum" is.
Doubt doubt_of(const std::string& what, const std::string& define,
               const std::string& more_solids = "") {
  const Recipe recipe = recipe_with("\"define\": {" + define + R"(},
      "solids": [{"ingredient": "fructose", "mass_g": 40}, {"ingredient": "gum", "mass_g": 0.5})" +
                                    more_solids + R"(], "water": {"mass_g": 30},
      "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.3})");
  SpreadOptions options;
  options.draws = 100;
  options.threads = 1;
  const SpreadResult result = spread(inputs_of(recipe), options);
  const auto found = std::find_if(result.doubts.begin(), result.doubts.end(),
                                  [&](const Doubt& each) { return each.what == what; });
  REQUIRE(found != result.doubts.end());
  return *found;
}

std::string gum(const std::string& ingredient, const std::string& more) {
  return R"("gum": {"kind": "gum", "contains": [{"ingredient": ")" + ingredient +
         R"(", "fraction": 1}])" + more + "}";
}

const std::string share_of_alginate = "guluronate share of the alginate";

}  // namespace

TEST_CASE("a stated guluronate share is stated, whatever its value") {
  const Doubt usual = doubt_of(share_of_alginate, gum("sodium alginate", ""));
  // 0.5 is the middle of the table too.
  const Doubt middle =
      doubt_of(share_of_alginate, gum("sodium alginate", R"(, "guluronate_share": 0.50)"));
  const Doubt beside =
      doubt_of(share_of_alginate, gum("sodium alginate", R"(, "guluronate_share": 0.501)"));
  REQUIRE_THAT(usual.value, near(middle.value, 1e-12));
  CHECK(middle.width == beside.width);
  CHECK(middle.from == beside.from);
  CHECK(middle.from.rfind("the recipe", 0) == 0);
  CHECK(usual.width > middle.width);
  CHECK(usual.from.rfind("the recipe", 0) != 0);
}

TEST_CASE("a stated esterification is stated, whatever its value") {
  const std::string what = "esterification of HM pectin";
  const Doubt usual = doubt_of(what, gum("HM pectin", ""));
  char as_the_table[64];
  std::snprintf(as_the_table, sizeof as_the_table, R"(, "degree_of_esterification": %.17g)",
                usual.value);
  const Doubt stated = doubt_of(what, gum("HM pectin", as_the_table));
  CHECK_THAT(stated.value, near(usual.value, 1e-12));
  CHECK(stated.width < usual.width);
  CHECK(stated.from.rfind("the recipe", 0) == 0);
}

TEST_CASE("a figure is stated where it is for every part that has it, and only there") {
  const std::string known =
      R"("known": {"kind": "gum", "guluronate_share": 0.6,
                   "contains": [{"ingredient": "sodium alginate", "fraction": 1}]})";
  const auto mixed = [&](const std::string& parts) {
    return known + R"(, "gum": {"kind": "mix", "contains": [)" + parts + "]}";
  };
  const std::string half_known = R"({"ingredient": "known", "fraction": 0.5})";
  const Doubt inherited = doubt_of(share_of_alginate, mixed(half_known));
  CHECK(inherited.from.rfind("the recipe", 0) == 0);
  const std::string half_unknown = R"({"ingredient": "sodium alginate", "fraction": 0.5})";
  for (const std::string& parts :
       {half_known + ", " + half_unknown, half_unknown + ", " + half_known})
    CHECK(doubt_of(share_of_alginate, mixed(parts)).from.rfind("the recipe", 0) != 0);
  CHECK(doubt_of(share_of_alginate, mixed(half_known),
                 R"(, {"ingredient": "sodium alginate", "mass_g": 0.1})")
            .from.rfind("the recipe", 0) != 0);
  // As the gum a pack does not declare, and beside one it does.
  const auto undeclared = [&](const std::string& parts) {
    return mixed(parts).insert(mixed(parts).size() - 1, R"(, "undeclared_gum":
        {"ingredient": "known", "fraction_at_least": 0.1, "fraction_at_most": 0.2})");
  };
  CHECK(doubt_of(share_of_alginate, undeclared(R"({"ingredient": "fructose", "fraction": 0.5})"))
            .from.rfind("the recipe", 0) == 0);
  CHECK(doubt_of(share_of_alginate, undeclared(half_unknown)).from.rfind("the recipe", 0) != 0);
}

TEST_CASE("no rest is no rest, and a rest nobody states is printed") {
  const auto with_process = [](const std::string& process) {
    return recipe_with(R"("solids": [{"ingredient": "fructose", "mass_g": 40}],
      "water": {"mass_g": 60}, "tap": {"alkalinity_meq_per_l": 2, "calcium_mg_per_l": 20},
      "acid": {"ingredient": "glucono delta-lactone", "mass_g": 0.5})" +
                       process);
  };
  const auto ph_of = [](const Recipe& recipe) {
    return evaluate(inputs_of(recipe)).water_phase.ph;
  };
  const Recipe none = with_process(R"(, "process": {"rest_hours": 0})");
  const Recipe twelve = with_process(R"(, "process": {"rest_hours": 12})");
  const Recipe unsaid = with_process("");
  CHECK(making_of(none).acid_hours == 0);
  CHECK(assumed_at(none, "/process/rest_hours") == nullptr);
  CHECK(assumed_at(twelve, "/process/rest_hours") == nullptr);
  // A lactone is no acid before it has met water for a while: the tap's pH is left alone.
  CHECK(ph_of(none) > 6.5);
  CHECK(ph_of(twelve) < 4);
  CHECK(ph_of(unsaid) == ph_of(twelve));
  const Assumption* rest = assumed_at(unsaid, "/process/rest_hours");
  REQUIRE(rest != nullptr);
  CHECK(rest->value == "12 h");
}

TEST_CASE("what matters and is not stated is assumed aloud; what does not matter is not") {
  const std::string base = R"("solids": [{"ingredient": "fructose", "mass_g": 40}],
      "water": {"mass_g": 60})";
  const std::string acid = R"(, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.4})";
  CHECK(assumed_at(recipe_with(base), "/process/acid_added") == nullptr);
  const Recipe poured = recipe_with(base + acid);
  const Assumption* how = assumed_at(poured, "/process/acid_added");
  REQUIRE(how != nullptr);
  CHECK(how->what == "how the acid goes in");
  CHECK(how->value == "poured at once");
  CHECK(assumed_at(recipe_with(base + acid + R"(, "process": {"acid_added": "poured"})"),
                   "/process/acid_added") == nullptr);
  CHECK(assumed_at(poured, "/process/gum_dispersed") == nullptr);
  CHECK(assumed_at(poured, "/tap") != nullptr);
  CHECK(assumed_at(recipe_with(base + R"(, "tap": "demineralised water")"), "/tap") == nullptr);

  const Recipe mix = recipe_with(R"("define": {"fell mix": {"kind": "mix",
      "label": {"per_g": 80, "carbohydrate_g": 76, "sugars_g": 34},
      "undeclared_gum": {"ingredient": "sodium alginate", "fraction_at_least": 0.006,
                         "fraction_at_most": 0.014}}},
      "solids": [{"ingredient": "fell mix", "mass_g": 80}], "water": {"mass_g": 40})");
  const Assumption* share = assumed_at(mix, "/define/fell mix/undeclared_gum");
  REQUIRE(share != nullptr);
  CHECK(share->what == "alginate in fell mix");
  CHECK(share->value == "1 %, the middle of its band");
  CHECK(share->range == "0.6 to 1.4 %");
  CHECK(assumed_at(mix, "/process/gum_dispersed") != nullptr);
}

TEST_CASE("a mass too small to be one is refused, not divided by") {
  const auto said = [](const std::string& mass) -> std::string {
    try {
      recipe_with(R"("solids": [{"ingredient": "fructose", "mass_g": )" + mass +
                  R"(}], "water": {"fraction_of_total": 0.4})");
    } catch (const InputError& error) {
      return error.what();
    }
    return "accepted";
  };
  CHECK(said("5e-324") ==
        "test.json: /solids/0/mass_g: 4.940656458e-324 is not possible here; give a number of at "
        "least 0.000001 and at most 1000000");
  CHECK(said("0.000001") == "accepted");
}
