// From a goal to recipes: what is claimed is what the recipe gives, limits are kept or named.
#include <cmath>
#include <nlohmann/json.hpp>

#include "catch.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/goal.hpp"
#include "gelwright/goal_report.hpp"
#include "paths.hpp"
#include "recipes.hpp"
#include "statistics/box_search.hpp"
#include "statistics/random.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

std::optional<KitchenDocument> the_kitchen() {
  return KitchenDocument{test::read_text(test::source_path("recipes/kitchen.json")),
                         "kitchen.json"};
}

Goal pouch_goal() {
  Goal goal;
  goal.document = "goal.json";
  goal.carbohydrate_g = 40;
  goal.serving_g = 90;
  return goal;
}

/// Everything a goal can ask for, drawn; some ask for what cannot be.
Goal drawn_goal(std::uint64_t which) {
  const auto between = [which](std::uint64_t what, double low, double high) {
    return rectangular({17, what, which}, low, high);
  };
  const auto chance = [which](std::uint64_t what, double of) {
    return uniform({18, what, which}) < of;
  };
  Goal goal;
  goal.document = "goal.json";
  goal.form = chance(1, 0.25) ? Form::drink : Form::pouch;
  goal.carbohydrate_g = std::round(between(1, 15, 90));
  const bool drink = goal.form == Form::drink;
  if (chance(2, 0.5))
    goal.serving_g = std::round(goal.carbohydrate_g * between(2, drink ? 5 : 1.3, drink ? 12 : 3));
  else if (chance(3, 0.5))
    goal.soluble_solids_percent = std::round(between(3, drink ? 5 : 25, drink ? 16 : 68));
  if (chance(4, 0.5))
    goal.sugars = {{"maltodextrin DE 12", 1}, {chance(5, 0.5) ? "fructose" : "sucrose", 0.7}};
  else if (chance(6, 0.3))
    goal.sugars = {{"fell mix", 1}};
  constexpr gel::Texture set[] = {gel::Texture::thick, gel::Texture::flowing, gel::Texture::soft,
                                  gel::Texture::firm, gel::Texture::hard};
  if (!drink) goal.texture = set[static_cast<std::size_t>(between(7, 0, 4.999))];
  if (chance(8, 0.5)) goal.ph.at_least = between(8, 2.8, 4);
  if (chance(9, 0.5)) goal.ph.at_most = goal.ph.at_least.value_or(3.4) + between(9, 0.1, 1.2);
  if (chance(10, 0.5)) goal.sodium_mg.at_least = between(10, 0, 500);
  if (chance(11, 0.4))
    goal.sodium_mg.at_most = goal.sodium_mg.at_least.value_or(0) + between(11, 5, 300);
  if (chance(12, 0.3)) goal.price_at_most = between(12, 0.05, 1.2);
  if (chance(13, 0.3)) goal.caffeine_mg = 25 * std::round(between(13, 1, 12));
  goal.rest_hours = std::round(between(14, 1, 24));
  return goal;
}

/// What of the goal's limits the serving breaks.
std::size_t limits_broken(const Goal& goal, const Evaluation& found) {
  std::size_t broken = 0;
  const auto hold = [&broken](double is, const Limit& limit) {
    broken += limit.at_least && is < *limit.at_least;
    broken += limit.at_most && is > *limit.at_most;
  };
  hold(found.water_phase.ph, goal.ph);
  hold(found.nutrition.sodium_mg, goal.sodium_mg);
  if (goal.price_at_most && found.cost && found.cost->complete())
    hold(found.cost->per_serving, {{}, goal.price_at_most});
  return broken;
}

}  // namespace

TEST_CASE("a box search finds the highest of several hills, the same for the same seed") {
  // Himmelblau's function has four equal minima at 0, Rosenbrock's valley one at (1, 1):
  // Himmelblau, Applied Nonlinear Programming (1972); Rosenbrock, Comput. J. 3:175 (1960).
  const auto himmelblau = [](std::span<const double> p) {
    const double x = 10 * p[0] - 5, y = 10 * p[1] - 5;
    return -std::pow(x * x + y - 11, 2) - std::pow(x + y * y - 7, 2);
  };
  const BoxBest found = highest_in_box(2, himmelblau, {.last_step = 1e-5, .most_climb_steps = 400});
  CHECK_THAT(found.value, near(0, 1e-4));
  CHECK(highest_in_box(2, himmelblau).at == highest_in_box(2, himmelblau).at);
  CHECK(highest_in_box(2, himmelblau, {.seed = 2}).at != highest_in_box(2, himmelblau).at);
  const BoxBest valley =
      highest_in_box(2,
                     [](std::span<const double> p) {
                       const double x = 4 * p[0] - 2, y = 4 * p[1] - 2;
                       return -std::pow(1 - x, 2) - 100 * std::pow(y - x * x, 2);
                     },
                     {.scan_points = 200, .last_step = 1e-6, .most_climb_steps = 4000});
  CHECK_THAT(valley.value, near(0, 0.05));
  CHECK(highest_in_box(0, [](std::span<const double>) { return 3.0; }).value == 3);
}

TEST_CASE("100 random goals: what is claimed is what the recipe gives, limits kept or named") {
  const auto kitchen = the_kitchen();
  std::size_t good = 0, refused = 0, not_kept = 0;
  for (std::uint64_t which = 0; which < 100; ++which) {
    const Goal goal = drawn_goal(which);
    INFO("goal " << which);
    if (!problems_of(goal).empty()) {
      CHECK_THROWS_AS(recipes_for(goal, kitchen), InputError);
      ++refused;
      continue;
    }
    const GoalFound found = recipes_for(goal, kitchen);
    REQUIRE_FALSE(found.answers.empty());
    for (const GoalAnswer& answer : found.answers) {
      INFO(answer.kind);
      const Recipe recipe = read_recipe(answer.text, "found.json");
      const Evaluation there = evaluate(inputs_of(recipe));
      CHECK_THAT(there.gel.chance(texture_of(goal)), near(answer.chance, 1e-12));
      CHECK(limits_broken(goal, there) == answer.broken.size());
      std::size_t stops = 0;
      for (const Flag& flag : there.flags) stops += flag.level == Level::stop;
      CHECK(stops == answer.stops.size());
      CHECK_THAT(there.nutrition.carbohydrate_g,
                 near(goal.carbohydrate_g, 0.01 * goal.carbohydrate_g));
      if (goal.serving_g) CHECK_THAT(there.formula.total_g, near(*goal.serving_g, 0.01));
      if (goal.soluble_solids_percent)
        CHECK_THAT(there.formula.soluble_solids_percent(), near(*goal.soluble_solids_percent, 0.3));
      CHECK_THAT(there.nutrition.caffeine_mg, near(goal.caffeine_mg, 1e-9));
    }
    const GoalAnswer& best = found.answers.front();
    if (best.good())
      ++good;
    else
      ++not_kept;
    CHECK_NOTHROW(render(goal_report(goal, found), Format::json));
  }
  INFO(good << " reached within the limits, " << not_kept << " not, " << refused << " refused");
  CHECK(good > 30);
  CHECK(not_kept > 5);
}

TEST_CASE("the same seed gives the same recipes, of different kinds, best first") {
  const GoalFound found = recipes_for(pouch_goal(), the_kitchen(), 3);
  const GoalFound again = recipes_for(pouch_goal(), the_kitchen(), 3);
  REQUIRE(found.answers.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(found.answers[i].text == again.answers[i].text);
    if (i > 0) {
      CHECK(found.answers[i].kind != found.answers[i - 1].kind);
      CHECK(found.answers[i].flawless <= found.answers[i - 1].flawless);
    }
  }
  CHECK(found.answers.front().likeliest);
  // Another seed comes as near: the answer is the goal's, not the search's.
  const GoalFound other = recipes_for(pouch_goal(), the_kitchen(), 4);
  CHECK_THAT(other.answers.front().flawless, near(found.answers.front().flawless, 0.05));
}

TEST_CASE("only what there is goes in, and what is lacking is named") {
  Goal goal = pouch_goal();
  goal.have = {"sodium alginate", "citric acid anhydrous"};
  goal.texture = gel::Texture::flowing;
  const GoalFound found = recipes_for(goal, std::nullopt);
  CHECK(found.answers.size() == 1);
  CHECK(found.answers.front().kind == "alginate, set by acid under the blade");
  CHECK(found.answers.front().text.find("HM pectin") == std::string::npos);
  REQUIRE_FALSE(found.not_tried.empty());
  CHECK(found.not_tried.front() ==
        "alginate and HM pectin, set by acid under the blade: lacks HM pectin");
  goal.have = {"sodium chloride"};
  CHECK(test::refusal_of([&] {
          recipes_for(goal, std::nullopt);
        }).starts_with("/have: nothing there sets, as far as the gel model knows"));
}

TEST_CASE(
    "a limit that binds is named with the chance without it; one out of reach with the nearest") {
  Goal goal = pouch_goal();
  goal.have = {"sodium alginate", "HM pectin", "citric acid anhydrous", "glucono delta-lactone"};
  goal.texture = gel::Texture::soft;
  goal.ph.at_least = 4.1;
  const GoalFound bound = recipes_for(goal, std::nullopt);
  REQUIRE(bound.answers.front().good());
  REQUIRE(bound.binding.size() == 1);
  CHECK(bound.binding.front().what == "pH");
  CHECK_FALSE(bound.binding.front().at_most);
  CHECK(bound.binding.front().chance_without.value_or(0) > bound.answers.front().flawless + 0.05);

  Goal poor = pouch_goal();
  poor.price_at_most = 0.01;
  const GoalFound none = recipes_for(poor, the_kitchen());
  REQUIRE(none.answers.front().broken.size() == 1);
  CHECK(none.answers.front().broken.front().what == "price");
  CHECK(none.answers.front().broken.front().reached > 0.01);
  CHECK(
      render(goal_report(poor, none), Format::text).find("price at most 0.01 GBP cannot be kept") !=
      std::string::npos);
}

TEST_CASE("goals that contradict themselves are refused in plain words") {
  const auto told = [](Goal goal) {
    return test::refusal_of([&] { recipes_for(goal, std::nullopt); });
  };
  Goal tight = pouch_goal();
  tight.serving_g = 42;
  CHECK(
      told(tight) ==
      "/serving_g: 40 g of carbohydrate leave too little water in 42 g; at least 48 g, or at most "
      "35 g of carbohydrate\n");
  Goal swapped = pouch_goal();
  swapped.ph = {4.2, 3.2};
  CHECK(told(swapped) ==
        "/ph: at least 4.2 and at most 3.2 contradict each other; swap them, or leave one out\n");
  Goal drink = pouch_goal();
  drink.form = Form::drink;
  drink.texture = gel::Texture::firm;
  CHECK(told(drink) ==
        "/texture: a drink has to pour, and \"firm set\" does not; ask for \"pours\" or \"thick\", "
        "or for a pouch\n");
  Goal caffeine = pouch_goal();
  caffeine.caffeine_mg = 60;
  CHECK(told(caffeine) ==
        "/caffeine_mg: 60 mg are no whole or half tablets of 50 mg; 50 mg are the nearest\n");
  Goal twice = pouch_goal();
  twice.soluble_solids_percent = 50;
  CHECK(told(twice).starts_with("/soluble_solids_percent: the mass of a serving says already"));
  Goal unknown = pouch_goal();
  unknown.sugars = {{"moon dust", 1}};
  CHECK(told(unknown).starts_with("/sugars/0/ingredient: "));
  Goal salt = pouch_goal();
  salt.sugars = {{"sodium chloride", 1}};
  CHECK(told(salt) ==
        "/sugars/0/ingredient: sodium chloride holds no carbohydrate; name what feeds\n");
}

TEST_CASE("too much caffeine is never called an answer") {
  // Over 200 mg at once: EFSA Journal 13(5):4102 (2015).
  Goal goal = pouch_goal();
  goal.caffeine_mg = 300;
  const GoalFound found = recipes_for(goal, std::nullopt);
  for (const GoalAnswer& answer : found.answers) {
    CHECK_FALSE(answer.good());
    CHECK_FALSE(answer.stops.empty());
  }
}

TEST_CASE("a goal document is read strictly") {
  const std::string text = test::read_text(test::source_path("recipes/goals/long-loop.json"));
  const Goal goal = read_goal(text, "long-loop.json");
  CHECK(goal.carbohydrate_g == 40);
  CHECK(goal.sugars.size() == 2);
  CHECK(goal.texture == gel::Texture::soft);
  CHECK(goal.sodium_mg.at_least == 200);
  auto wrong = nlohmann::ordered_json::parse(text);
  wrong["carbohydrate_g"] = "40 g";
  wrong["colour"] = "red";
  wrong.erase("form");
  CHECK(test::refusal_of([&] { read_goal(wrong.dump(), "goal.json"); }).find("/colour") !=
        std::string::npos);
  CHECK(test::refusal_of([&] {
          read_goal(test::read_text(test::source_path("recipes/tarn-thin-drink.json")), "x.json");
        }).starts_with("/format: this is a recipe, not a goal"));
}
