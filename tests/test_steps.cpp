// The steps of a recipe: what they mean for the gel, what contradicts what.
#include <fmt/format.h>

#include <algorithm>

#include "catch.hpp"
#include "gelwright/advise.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/gel_model.hpp"
#include "gelwright/report.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/sheet.hpp"
#include "recipes.hpp"
#include "steps_text.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

/// A recipe-2 of sucrose, fructose and alginate with these members.
std::string with(const std::string& members, const std::string& form = "pouch") {
  return R"({"format": "gelwright/recipe-2", "name": "test", "form": ")" + form + R"(",
    "solids": [{"ingredient": "sucrose", "mass_g": 30}, {"ingredient": "fructose", "mass_g": 10},
               {"ingredient": "sodium alginate", "mass_g": 0.6}],
    "water": {"mass_g": 60}, "tap": {"calcium_mg_per_l": 100, "chloride_mg_per_l": 177,
                                     "magnesium_mg_per_l": 0, "alkalinity_mg_caco3_per_l": 0},
    "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.6})" +
         (members.empty() ? "" : ", " + members) + "}";
}

std::string steps(const std::string& list) {
  return with(R"("process": [)" + list + "]");
}

Recipe read(const std::string& text) {
  return read_recipe(text, "test.json");
}

std::string refusal(const std::string& text) {
  return test::refusal_of([&] { read(text); });
}

gel::State state_of(const Recipe& recipe) {
  const Inputs inputs = inputs_of(recipe);
  const Formula formula = formulate(inputs);
  return gel_state_of(formula, water_phase_of(formula, inputs, false), inputs);
}

const std::string gum = R"({"do": "add", "what": ["sodium alginate"], "how": "under_blade"})";
const std::string sugars = R"({"do": "add", "what": ["sucrose", "fructose"], "how": "stirred"})";
const std::string acid = R"({"do": "add", "what": ["acid"], "how": "slow"})";
const std::string rest = R"({"do": "rest", "hours": 12})";
const std::string comma = ", ";

const Assumption* assumed_at(const Recipe& recipe, std::string_view where) {
  for (const Assumption& each : recipe.assumed)
    if (each.where == where) return &each;
  return nullptr;
}

}  // namespace

TEST_CASE("a recipe-1 and the recipe-2 it stands for evaluate alike to the last digit") {
  for (const char* name : test::shipped_names) {
    INFO(name);
    const std::string text =
        test::read_text(test::source_path("tests/data/recipe-1/" + std::string(name)));
    const Recipe first = read_recipe(text, name);
    const Recipe second = read_recipe(test::as_recipe_2(text), name);
    const auto sheet = [](const Recipe& recipe) {
      const Inputs inputs = as_measured(resolve(recipe));
      const Evaluation evaluation = evaluate(inputs);
      Report report = sheet_report(inputs, evaluation, advise(inputs, evaluation));
      // What is assumed of the one is stated in the other; everything else is the same.
      std::erase_if(report.sections, [](const Section& each) { return each.key == "assumptions"; });
      return render(report, Format::json);
    };
    CHECK(sheet(first) == sheet(second));
    CHECK(assumed_at(second, "/process") == nullptr);
  }
}

TEST_CASE("the order of the steps decides what a gum meets") {
  const auto state = [](const std::string& list) { return state_of(read(steps(list))); };
  const gel::State first = state(gum + comma + sugars + comma + acid + comma + rest);
  const gel::State after_sugar = state(sugars + comma + gum + comma + acid + comma + rest);
  const gel::State after_acid = state(acid + comma + gum + comma + sugars + comma + rest);
  REQUIRE(first.portions == 1);
  CHECK(first.portion[0].solids_met_percent < 1);
  CHECK(after_sugar.portion[0].solids_met_percent > 35);
  CHECK(first.portion[0].ph_met > 5);
  CHECK(after_acid.portion[0].ph_met < 3.5);
  CHECK_FALSE(after_sugar.portion[0].late);
  CHECK(after_acid.portion[0].late);
  // The serving itself is the same.
  CHECK(first.ph == after_acid.ph);
  CHECK(first.solids_percent == after_acid.solids_percent);
}

TEST_CASE("the model's direction: late into sour or hard water, less of the gum dissolves") {
  const auto dissolved = [](const std::string& list, const std::string& tap) {
    std::string text = steps(list);
    const std::string as_it_is = "\"calcium_mg_per_l\": 100, \"chloride_mg_per_l\": 177";
    text.replace(text.find(as_it_is), as_it_is.size(), tap);
    return gel::gel_at(state_of(read(text)), gel::central_values())
        .dissolved.binding_g_per_100_g_water[static_cast<std::size_t>(Gum::alginate)];
  };
  const std::string soft = "\"calcium_mg_per_l\": 1, \"chloride_mg_per_l\": 1.77";
  const std::string hard = "\"calcium_mg_per_l\": 200, \"chloride_mg_per_l\": 354";
  const std::string gum_first = gum + comma + sugars + comma + acid + comma + rest;
  const std::string gum_last = acid + comma + sugars + comma + gum + comma + rest;
  CHECK(dissolved(gum_first, soft) > dissolved(gum_last, soft));
  CHECK(dissolved(gum_first, soft) > dissolved(gum_first, hard));
}

TEST_CASE("shares: a part of the sugar goes in with the gum, the rest later (hand calculation)") {
  const gel::State state = state_of(read(steps(
      R"({"do": "add", "what": ["sodium alginate", {"ingredient": "sucrose", "share": 0.2}], "how": "preblended"},
         {"do": "add", "what": ["fructose", {"ingredient": "sucrose", "share": 0.8}], "how": "stirred"},)" +
      acid + comma + rest)));
  REQUIRE(state.portions == 1);
  CHECK(state.portion[0].dispersed == gel::Dispersed::sugar);
  // 6 g of sucrose and 0.6 g of gum less its 12 % of moisture, half of them, in 66.6 g.
  CHECK_THAT(state.portion[0].solids_met_percent, near(100 * 0.5 * (6 + 0.6 * 0.88) / 66.6, 1e-6));
}

TEST_CASE("a gum in two parts is two additions, water in two parts is there in two parts") {
  const gel::State state = state_of(read(steps(
      R"({"do": "add", "what": [{"ingredient": "water", "share": 0.5}]},
         {"do": "add", "what": [{"ingredient": "sodium alginate", "share": 0.25}], "how": "under_blade"},)" +
      sugars + comma + acid + comma +
      R"({"do": "add", "what": [{"ingredient": "water", "share": 0.5}]},
         {"do": "add", "what": [{"ingredient": "sodium alginate", "share": 0.75}], "how": "dry"},)" +
      rest)));
  REQUIRE(state.portions == 2);
  CHECK_THAT(state.portion[1].g_per_100_g_water / state.portion[0].g_per_100_g_water,
             near(3, 1e-12));
  CHECK(state.portion[0].dispersed == gel::Dispersed::blender);
  CHECK(state.portion[1].dispersed == gel::Dispersed::dry);
  CHECK_FALSE(state.portion[0].late);
  CHECK(state.portion[1].late);
  // 0.15 g of gum in 30 g of water.
  CHECK_THAT(state.portion[0].solids_met_percent, near(100 * 0.5 * 0.15 * 0.88 / 30.15, 1e-6));
}

TEST_CASE("water poured onto dry powders meets them all at once") {
  const gel::State state = state_of(read(steps(
      gum + comma + sugars + R"(, {"do": "add", "what": ["water"]}, )" + acid + comma + rest)));
  REQUIRE(state.portions == 1);
  CHECK_THAT(state.portion[0].solids_met_percent,
             near(100 * 0.5 * (40 + 0.6 * 0.88) / 100.6, 1e-6));
}

TEST_CASE("rest counts from when a gum goes in, and from the last thing that makes it set") {
  const gel::State state = state_of(
      read(steps(gum + R"(, {"do": "rest", "hours": 10}, )" + sugars + comma + acid +
                 R"(, {"do": "rest", "hours": 2}, {"do": "fill"}, {"do": "rest", "hours": 1})")));
  CHECK(state.portion[0].hours == 13);
  CHECK(state.hours == 3);
}

TEST_CASE("no rest is no rest: a gum has no time to dissolve") {
  const auto set = [](const std::string& hours) {
    const Recipe recipe = read(
        steps(gum + comma + sugars + comma + acid + R"(, {"do": "rest", "hours": )" + hours + "}"));
    const Inputs inputs = inputs_of(recipe);
    return evaluate(inputs).gel.chance_set();
  };
  CHECK(set("0") < 0.01);
  CHECK(set("12") > 0.5);
  const Recipe unsaid = read(steps(gum + comma + sugars + comma + acid));
  CHECK(state_of(unsaid).hours == 12);
  REQUIRE(assumed_at(unsaid, "/process") != nullptr);
  CHECK(assumed_at(unsaid, "/process")->value == "12 h at 5 degC");
}

TEST_CASE("heat, cooling and where it is eaten reach the gel") {
  const Recipe recipe =
      read(with(R"("process": [)" + gum + R"(, {"do": "heat", "to_c": 85, "minutes": 5}, )" +
                sugars + comma + acid + R"(, {"do": "cool", "to_c": 30, "how": "stirred"}, )" +
                rest + R"(], "eaten_at_c": 4)"));
  const gel::State state = state_of(recipe);
  CHECK(state.heated_c == 85);
  CHECK(state.cooled == gel::Cooled::stirred);
  CHECK(state.eaten_c == 4);
  CHECK(assumed_at(recipe, "/eaten_at_c") == nullptr);
  const Recipe gum_after =
      read(steps(R"({"do": "heat", "to_c": 85}, {"do": "cool", "to_c": 40}, )" + gum + comma +
                 sugars + comma + acid + comma + rest));
  CHECK(state_of(gum_after).heated_c == 40);
  CHECK(state_of(gum_after).cooled == gel::Cooled::still);
  CHECK(state_of(gum_after).eaten_c == 15);
  REQUIRE(assumed_at(gum_after, "/eaten_at_c") != nullptr);
  CHECK(assumed_at(gum_after, "/eaten_at_c")->range == "0 to 30 degC");
}

TEST_CASE("what is usual for the form is taken where nothing is said, and printed") {
  const Recipe pouch = read(with(""));
  CHECK(state_of(pouch).acid == gel::Acid::blade);
  CHECK(state_of(pouch).portion[0].dispersed == gel::Dispersed::sugar);
  CHECK(std::count_if(pouch.assumed.begin(), pouch.assumed.end(),
                      [](const Assumption& each) { return each.where == "/process"; }) == 4);
  const Recipe drink = read(with("", "drink"));
  CHECK(state_of(drink).acid == gel::Acid::poured);
  const Recipe how = read(steps(R"({"do": "add", "what": ["sodium alginate"]}, )" + sugars + comma +
                                R"({"do": "add", "what": ["acid"]}, )" + rest));
  REQUIRE(assumed_at(how, "/process/0/how") != nullptr);
  CHECK(assumed_at(how, "/process/0/how")->value ==
        "blended dry with 5 to 10 times its mass of sugar");
  REQUIRE(assumed_at(how, "/process/2/how") != nullptr);
  CHECK(assumed_at(how, "/process/1/how") == nullptr);
}

TEST_CASE("steps that contradict one another are refused with the way to mend them") {
  const std::string good = gum + comma + sugars + comma + acid + comma + rest;
  CHECK(refusal(steps(good)) == "accepted");
  CHECK(refusal(steps(gum + comma + acid)) ==
        "/process: sucrose never goes in; add {\"do\": \"add\", \"what\": [\"sucrose\"]} where it "
        "does\n"
        "/process: fructose never goes in; add {\"do\": \"add\", \"what\": [\"fructose\"]} where "
        "it does\n");
  CHECK(refusal(steps(gum + comma + sugars)) ==
        "/process: the acid never goes in; add {\"do\": \"add\", \"what\": [\"acid\"]} where it "
        "does\n");
  CHECK(refusal(steps(good + comma + acid)) ==
        "/process/4/what: the acid goes in more than once; keep one of the two steps\n");
  CHECK(refusal(steps(good + comma +
                      R"({"do": "add", "what": [{"ingredient": "fructose", "share": 0.3}]})")) ==
        "/process/4/what: fructose goes in more than once; give each part as {\"ingredient\": ..., "
        "\"share\": ...}, together 1\n");
  CHECK(refusal(steps(
            gum + comma + acid +
            R"(, {"do": "add", "what": ["sucrose", {"ingredient": "fructose", "share": 0.3}]})")) ==
        "/process: only 0.3 of fructose goes in; add the other 0.7 where it does\n");
  CHECK(refusal(steps(good + R"(, {"do": "fill"}, {"do": "heat", "to_c": 80})")) ==
        "/process/5/do: it is filled by then; move this step to before \"fill\"\n");
  CHECK(refusal(steps(good + R"(, {"do": "cool", "to_c": 60})")) ==
        "/process/4/to_c: it is at 5 degC by then; cool to less, or leave this step out\n");
  CHECK(refusal(steps(good + R"(, {"do": "heat", "to_c": 90}, {"do": "heat", "to_c": 80})")) ==
        "/process/5/to_c: it is at 90 degC by then; heat to more, or leave this step out\n");
  CHECK(
      refusal(steps(
          good + R"(, {"do": "heat", "to_c": 90}, {"do": "cool", "to_c": 80, "how": "shaken"})")) ==
      "/process/5/how: this is not a way to cool; use \"still\" or \"stirred\"\n");
  CHECK(refusal(steps(R"({"do": "add", "what": ["sodium alginate"], "how": "slow"}, )" + sugars +
                      comma + acid)) ==
        "/process/0/how: only acid, a calcium salt or water goes in this way; use \"stirred\", "
        "\"shaken\" or \"under_blade\"\n");
  CHECK(refusal(steps(gum + comma + sugars +
                      R"(, {"do": "add", "what": ["acid"], "how": "preblended"})")) ==
        "/process/2/how: only a gum goes in this way, and this step has none; use \"stirred\", "
        "\"shaken\" or \"under_blade\"\n");
  CHECK(
      refusal(steps(sugars + R"(, {"do": "add", "what": ["sodium alginate"], "into": "water"}, )" +
                    acid)) ==
      "/process/1/into: there is more than water in it by then; leave \"into\" out, or move this "
      "step to the front\n");
  CHECK(refusal(steps(gum + comma + sugars +
                      R"(, {"do": "add", "what": ["acid"], "into": "table sugar"})")) ==
        "accepted");
  CHECK(refusal(steps(gum + comma + R"({"do": "add", "what": ["acid"], "into": "sucrose"}, )" +
                      sugars)) ==
        "/process/1/into: sucrose is not in it by then; move this step behind the one that adds "
        "it\n");
  CHECK(refusal(steps(gum + comma + sugars +
                      R"(, {"do": "add", "what": ["acid"], "into": "the jug"})")) ==
        "/process/2/into: \"the jug\" is not in the recipe; name what is there by then, as "
        "\"water\"; the vessel stands under \"batch\": {\"vessel\": ...}\n");
  CHECK(refusal(steps("")) == "/process: the list is empty; give at least one entry\n");
  CHECK(
      refusal(steps(good + R"(, {"do": "add", "what": ["calcium"]})")) ==
      "/process/4/what/0: the recipe has no \"calcium\"; add \"calcium\" to the recipe, or take it "
      "out here\n");
  CHECK(refusal(steps(good + R"(, {"do": "add", "what": ["fructos"]})")) ==
        "/process/4/what/0: \"fructos\" is not in the recipe; did you mean \"fructose\"?\n");
  CHECK(refusal(steps(gum + comma + sugars +
                      R"(, {"do": "add", "what": [{"ingredient": "acid", "share": 0.5}]})")) ==
        "/process/2/what/0/share: \"acid\" goes in whole; leave the share out; at the bench, "
        "\"additions_g\" lists the pinches\n");
  CHECK(refusal(steps(good + R"(, {"do": "rest"})")) ==
        "/process/4/hours: this key is missing; add \"hours\", as in \"hours\": 12\n");
  CHECK(refusal(steps(good + R"(, {"do": "fill", "hours": 3})")) ==
        "/process/4/hours: \"fill\" has no use for this key; remove it\n");
}

TEST_CASE("each format has its own keys") {
  const std::string first = R"({"format": "gelwright/recipe-1", "name": "n", "form": "pouch",
      "solids": [{"ingredient": "fructose", "mass_g": 40}], "water": {"mass_g": 60})";
  CHECK(refusal(first + R"(, "eaten_at_c": 5})") ==
        "/eaten_at_c: gelwright/recipe-1 has no such key; remove it, or write the recipe as "
        "gelwright/recipe-2\n");
  CHECK(refusal(first + R"(, "process": [{"do": "fill"}]})") ==
        "/process: expected an object, found a list; write {\"key\": value}, or state \"format\": "
        "\"gelwright/recipe-2\"\n");
  CHECK(refusal(with(R"("process": {"rest_hours": 3})")) ==
        "/process: expected a list, found an object; write [{...}, {...}], or state \"format\": "
        "\"gelwright/recipe-1\"\n");
  CHECK(
      refusal(with(
          R"("calcium": {"ingredient": "calcium lactate pentahydrate", "mass_g": 0.1, "when": "slow"})")) ==
      "/calcium/when: gelwright/recipe-2 has no such key; remove it, or write the recipe as "
      "gelwright/recipe-1\n");
}

TEST_CASE(
    "gum strewn dry into hard or sour liquid, last, makes lumps where blended first it sets") {
  // Makers' advice: not in hard water; common practice, no source: never last into a sour liquid.
  const auto gel = [](const std::string& list, const std::string& tap) {
    std::string text = steps(list);
    const std::string as_it_is = "\"calcium_mg_per_l\": 100, \"chloride_mg_per_l\": 177";
    text.replace(text.find(as_it_is), as_it_is.size(), tap);
    const Recipe recipe = read(text);
    return evaluate(inputs_of(recipe)).gel;
  };
  const std::string soft = "\"calcium_mg_per_l\": 5, \"chloride_mg_per_l\": 8.8";
  const std::string hard = "\"calcium_mg_per_l\": 200, \"chloride_mg_per_l\": 354";
  const std::string strewn = R"({"do": "add", "what": ["sodium alginate"], "how": "dry"})";
  const std::string in_order = gum + comma + sugars + comma + acid + comma + rest;
  const GelForecast best = gel(in_order, soft);
  const GelForecast last = gel(acid + comma + sugars + comma + strewn + comma + rest, soft);
  const GelForecast in_hard = gel(strewn + comma + sugars + comma + acid + comma + rest, hard);
  CHECK(last.all.defects.lumps > best.all.defects.lumps + 0.2);
  CHECK(in_hard.all.defects.lumps > best.all.defects.lumps + 0.2);
  CHECK(last.chance_set() < best.chance_set());
}

TEST_CASE("a lactone is hardly sour yet when gum goes in right after it") {
  const auto met = [](const std::string& between) {
    std::string text = steps(acid + between + comma + gum + comma + sugars + comma + rest);
    text.replace(text.find("citric acid anhydrous"), 21, "glucono delta-lactone");
    return state_of(read(text)).portion[0].ph_met;
  };
  // Half of it has turned in about an hour; sourer after a night than at once.
  CHECK(met("") > met(R"(, {"do": "rest", "hours": 12})") + 0.5);
}
