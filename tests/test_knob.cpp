#include <fmt/format.h>

#include <set>

#include "catch.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/knob.hpp"
#include "program.hpp"
#include "recipes.hpp"
#include "water_charge.hpp"

using namespace gelwright;
using namespace gelwright::test;

namespace {

// An invented pouch gel: acid, calcium salt, a hard and alkaline tap.
constexpr const char* pouch = R"("solids": [{"ingredient": "maltodextrin DE 12", "mass_g": 22},
             {"ingredient": "fructose", "mass_g": 17},
             {"ingredient": "sodium alginate", "mass_g": 0.5}],
  "water": {"per_g_solids": 0.8},
  "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.3},
  "calcium": {"ingredient": "calcium lactate pentahydrate", "mass_g": 0.1, "when": "slow"},
  "tap": {"calcium_mg_per_l": 90, "magnesium_mg_per_l": 10, "alkalinity_meq_per_l": 4},
  "process": {"measured_ph": 3.9})";

constexpr const char* plain = R"("solids": [{"ingredient": "sucrose", "mass_g": 50}],
  "water": {"mass_g": 500})";

/// A value well within the bounds of each knob, not where the recipe stands.
double some_amount(Knob knob) {
  switch (knob) {
    case Knob::acid_g:
    case Knob::calcium_salt_g:
      return 0.4;
    case Knob::water_g:
      return 40;
    case Knob::water_per_g_solids:
    case Knob::water_fraction_of_total:
    case Knob::low_mineral_share:
      return 0.6;
    case Knob::tap_calcium_mg_per_l:
      return 30;
    case Knob::alkalinity_meq_per_l:
      return 1;
    case Knob::mass_g:
      return 25;
  }
  return 0;
}

std::string refusal(std::vector<std::string> texts, const Recipe& recipe) {
  return test::refusal_of([&] { read_knob_settings(texts, recipe); });
}

}  // namespace

TEST_CASE("the table of knobs is in the order of its enumeration, every name once") {
  std::set<std::string_view> names;
  std::size_t at = 0;
  for (const KnobInfo& knob : knobs()) {
    CHECK(static_cast<std::size_t>(knob.knob) == at++);
    CHECK(info_of(knob.knob).name == knob.name);
    CHECK(names.insert(knob.name).second);
    CHECK(knob.least < knob.most);
  }
}

TEST_CASE("the commands' page lists every knob as the table has it") {
  const std::string page = read_text(source_path("docs/commands.md"));
  for (const KnobInfo& knob : knobs()) {
    const std::string row =
        fmt::format("| `{}{}` | {}{} | {} | {}{} | {} |\n", knob.name,
                    knob.needs == KnobNeeds::solid ? ":INGREDIENT" : "", knob.label,
                    knob.per_serving ? ", per serving" : "", knob.unit,
                    knob.least_counts ? "" : "above ", knob.least, knob.most);
    INFO(row);
    CHECK(page.find(row) != std::string::npos);
  }
}

TEST_CASE("a knob that was turned stands where it was turned to") {
  const Recipe recipe = recipe_with(pouch);
  for (const KnobInfo& knob : knobs()) {
    INFO(knob.name);
    const KnobOf which{knob.knob, 1};
    Inputs inputs = inputs_of(recipe);
    turn(inputs, which, some_amount(knob.knob));
    if (knob.knob == Knob::low_mineral_share)
      CHECK_THAT(inputs.tap.alkalinity_eq_per_kg,
                 near(0.4 * inputs_of(recipe).tap.alkalinity_eq_per_kg, 1e-15));
    else
      CHECK_THAT(amount_of(which, inputs), near(some_amount(knob.knob), 1e-9));
    CHECK_THAT(test::charge_eq_per_kg(inputs.tap), near(0, 1e-15));
  }
}

// What a study turns and what a recipe states must be one and the same. The tap's sodium and
// chloride may share the charge another way, which moves the pH by its ionic strength alone.
TEST_CASE("a knob stated in the recipe does what turning it does") {
  const Recipe recipe = recipe_with(pouch);
  for (const KnobInfo& knob : knobs()) {
    INFO(knob.name);
    const KnobOf which{knob.knob, 1};
    Inputs turned_by_study = inputs_of(recipe);
    turn(turned_by_study, which, some_amount(knob.knob));
    const Recipe made = stated(recipe, std::vector<KnobSetting>{{which, some_amount(knob.knob)}});
    const Inputs by_recipe = inputs_of(made);
    const Evaluation a = evaluate(turned_by_study);
    const Evaluation b = evaluate(by_recipe);
    CHECK_THAT(b.formula.total_g, near(a.formula.total_g, 1e-9));
    CHECK_THAT(b.formula.tap_g, near(a.formula.tap_g, 1e-9));
    CHECK_THAT(b.water_phase.ph, near(a.water_phase.ph, 0.002));
    CHECK_THAT(b.water_phase.total_calcium_mmol_per_kg,
               near(a.water_phase.total_calcium_mmol_per_kg, 1e-9));
    CHECK_THAT(b.water_phase.ph, !near(evaluate(inputs_of(recipe)).water_phase.ph, 1e-5));
    REQUIRE(made.turned.size() == 1);
    CHECK(made.turned[0].name == name_of(which, recipe));
    // A reading on the batch as written says nothing of another batch.
    CHECK_FALSE(made.measured);
  }
}

TEST_CASE("what the recipe says is kept beside what was turned, where it says it") {
  const Recipe target = shipped("pouch-from-scratch.json");
  REQUIRE(target.acid->target_ph);
  const Recipe by_target =
      stated(target, read_knob_settings(std::vector<std::string>{"acid_g=0.4"}, target));
  CHECK_FALSE(by_target.turned[0].document_amount);
  CHECK_FALSE(by_target.acid->target_ph);
  CHECK(resolve(by_target).acid->line.mass_g == 0.4);

  const Recipe recipe = recipe_with(pouch);
  const Recipe by_mass =
      stated(recipe, read_knob_settings(std::vector<std::string>{"mass_g:fructose=20"}, recipe));
  CHECK(by_mass.turned[0].document_amount == 17.0);
  CHECK(by_mass.turned[0].unit == "g");
}

TEST_CASE("an amount may carry its unit, and no other") {
  const Recipe recipe = recipe_with(pouch);
  const auto read = [&](const std::string& text) {
    return read_knob_settings(std::vector<std::string>{text}, recipe).front().amount;
  };
  CHECK(read("acid_g=0.5") == 0.5);
  CHECK(read("acid_g=0.5g") == 0.5);
  CHECK(read("acid_g = 0.5 g") == 0.5);
  CHECK(read("tap_calcium_mg_per_l=60 mg/L") == 60);
  CHECK(read("tap_calcium_mg_per_l=60mg/l") == 60);
  CHECK(read("mass_g:fructose=1e1") == 10);
  CHECK(refusal({"acid_g=500 mg", "water_g=0,5", "water_fraction_of_total=50 %",
                 "low_mineral_share=50 %", "alkalinity_meq_per_l=2 mmol/L"},
                recipe) ==
        "knobs acid_g=500 mg: \"mg\" is not the unit of acid_g; give the amount in g\n"
        "knobs water_g=0,5: the amount is not a number; write it with a decimal point, for example "
        "acid_g=0.5\n"
        "knobs water_fraction_of_total=50 %: \"%\" is not the unit of water_fraction_of_total; "
        "give the amount in g/g\n"
        "knobs low_mineral_share=50 %: \"%\" is not the unit of low_mineral_share; give a plain "
        "number, a share of 1\n"
        "knobs alkalinity_meq_per_l=2 mmol/L: \"mmol/L\" is not the unit of alkalinity_meq_per_l; "
        "give the amount in meq/L\n");
}

TEST_CASE("everything wrong with the knobs is said at once") {
  CHECK(refusal({"acid=0.5", "acid_g", "acid_g=-1", "acid_g=x", "water_g=30", "water_g=40",
                 "low_mineral_share=0.5", "tap_calcium_mg_per_l=10"},
                recipe_with(pouch)) ==
        "knobs acid=0.5: \"acid\" is not a knob of this recipe; did you mean acid_g?\n"
        "knobs acid_g: no amount; write KNOB=VALUE, for example acid_g=0.5\n"
        "knobs acid_g=-1: acid_g must be at least 0 and at most 10000; check the unit in the name\n"
        "knobs acid_g=x: the amount is not a number; write it with a decimal point, for example "
        "acid_g=0.5\n"
        "knobs water_g=40: turns the same thing as water_g; keep one of them\n"
        "knobs tap_calcium_mg_per_l=10: turns the same thing as low_mineral_share; keep one of "
        "them\n");
  CHECK(refusal({"acid_g=1", "calcium_salt_g=1", "low_mineral_share=0.5", "mass_g:fructose=1"},
                recipe_with(plain, "drink")) ==
        "knobs acid_g=1: the recipe has no acid; name it in the recipe: \"acid\": {\"ingredient\": "
        "..., \"mass_g\": 0.3}\n"
        "knobs calcium_salt_g=1: the recipe has no calcium salt; name it in the recipe: "
        "\"calcium\": {\"ingredient\": ..., \"mass_g\": 0.1, \"when\": ...}\n"
        "knobs low_mineral_share=0.5: the recipe has no water report; give it one: \"tap\": "
        "{\"calcium_mg_per_l\": ..., ...}\n"
        "knobs mass_g:fructose=1: \"mass_g:fructose\" is not a knob of this recipe; did you mean "
        "mass_g:sucrose?\n");
}

TEST_CASE("a turned water keeps its report's charges even and is judged by its limits") {
  const Recipe recipe =
      recipe_with(std::string(pouch) + R"(, "limits": {"calcium_mg_per_l": {"at_most": 60}})");
  const auto flagged = [](const Recipe& judged) {
    for (const Flag& flag : evaluate(inputs_of(judged)).flags)
      if (name_of(flag.id) == "calcium-above-limit") return true;
    return false;
  };
  CHECK(flagged(recipe));
  const std::vector<std::string> half{"low_mineral_share=0.5"};
  CHECK_FALSE(flagged(stated(recipe, read_knob_settings(half, recipe))));
  const std::vector<std::string> harder{"tap_calcium_mg_per_l=61"};
  CHECK(flagged(stated(recipe, read_knob_settings(harder, recipe))));
}

TEST_CASE("every command that takes a recipe says what was turned, and refuses what is not there") {
  for (const std::string command :
       {"sheet recipes/tarn-thick-pouch.json", "check recipes/tarn-thick-pouch.json",
        "dose recipes/tarn-thick-pouch.json --to-ph 3.9",
        "ladder recipes/tarn-thick-pouch.json --vary acid_g=0.1:0.3:0.1",
        "spread recipes/tarn-thick-pouch.json --draws 200",
        "explain too-sour recipes/tarn-thick-pouch.json"}) {
    INFO(command);
    const Printed turned = run_program(command + " --with water_g=45");
    CHECK(turned.exit_code <= 1);
    CHECK(turned.text.find("TURNED HERE") != std::string::npos);
    CHECK(turned.text.find("water_g") != std::string::npos);
    const Printed lacking = run_program(command + " --with calcium_salt_g=0.1");
    CHECK(lacking.exit_code == 2);
    CHECK(lacking.text.find(
              "gelwright: --with calcium_salt_g=0.1: the recipe has no calcium salt") == 0);
  }
}
