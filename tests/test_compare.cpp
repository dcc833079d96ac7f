// Side by side: nothing between a thing and itself, the same from both sides, and a reason that
// holds when it is tried.
#include <algorithm>
#include <cmath>
#include <list>

#include "catch.hpp"
#include "gelwright/compare.hpp"
#include "gelwright/knob.hpp"
#include "program.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::refusal_of;
using gelwright::test::run_program;
using gelwright::test::shipped;

namespace {

/// Recipes kept where sides can point at them.
class Kept {
 public:
  const CompareSide& add(Recipe recipe) {
    recipes_.push_back(std::move(recipe));
    inputs_.push_back(resolve(recipes_.back()));
    evaluations_.push_back(evaluate(inputs_.back()));
    CompareSide side;
    side.name = recipes_.back().name;
    side.inputs = &inputs_.back();
    side.evaluation = &evaluations_.back();
    sides_.push_back(side);
    return sides_.back();
  }

 private:
  std::list<Recipe> recipes_;
  std::list<Inputs> inputs_;
  std::list<Evaluation> evaluations_;
  std::list<CompareSide> sides_;
};

Recipe turned(const std::string& name, const std::string& setting) {
  const Recipe recipe = shipped(name);
  const std::vector<std::string> with = {setting};
  return stated(recipe, read_knob_settings(with, recipe));
}

}  // namespace

TEST_CASE("nothing differs between a recipe and itself") {
  for (const char* name : test::shipped_names) {
    INFO(name);
    Kept kept;
    const CompareSide& one = kept.add(shipped(name));
    const Comparison comparison = compare({one, one});
    for (const CompareRow& row : comparison.rows) CHECK_FALSE(row.differs);
    for (const CompareWord& word : comparison.words) CHECK_FALSE(word.differs);
    for (const CompareDanger& danger : comparison.dangers) CHECK_FALSE(danger.differs);
    CHECK(comparison.reasons.empty());
  }
}

TEST_CASE("from the other side the same differences stand the other way round") {
  Kept kept;
  std::vector<const CompareSide*> sides;
  for (const char* name : {"tarn-thick-pouch.json", "pouch-from-scratch.json",
                           "calcium-set-pouch.json", "tarn-thin-drink.json", "syrup-pouch.json"})
    sides.push_back(&kept.add(shipped(name)));
  for (std::size_t i = 0; i < sides.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      INFO(sides[i]->name << " and " << sides[j]->name);
      const Comparison there = compare({*sides[i], *sides[j]});
      const Comparison back = compare({*sides[j], *sides[i]});
      REQUIRE(there.rows.size() == back.rows.size());
      for (const CompareRow& row : there.rows) {
        const auto same = std::find_if(
            back.rows.begin(), back.rows.end(),
            [&](const CompareRow& each) { return each.part == row.part && each.key == row.key; });
        REQUIRE(same != back.rows.end());
        CHECK(same->differs == row.differs);
        CHECK(same->values[0] == row.values[1]);
        CHECK(same->values[1] == row.values[0]);
      }
      REQUIRE(there.dangers.size() == back.dangers.size());
      REQUIRE(there.reasons.size() == back.reasons.size());
      if (there.reasons.empty()) continue;
      const CompareReason& one = there.reasons.front();
      const CompareReason& other = back.reasons.front();
      CHECK(one.outcome == other.outcome);
      CHECK(one.first_value == other.second_value);
      CHECK(one.same_gum == other.same_gum);
      REQUIRE(one.effects.size() == other.effects.size());
      for (const CompareEffect& effect : one.effects) {
        const auto same = std::find_if(
            other.effects.begin(), other.effects.end(), [&](const CompareEffect& each) {
              return each.cause == effect.cause && each.ingredient == effect.ingredient;
            });
        REQUIRE(same != other.effects.end());
        CHECK_THAT(same->change, near(-effect.change, 1e-9));
        CHECK(same->first == effect.second);
      }
    }
}

TEST_CASE("where one knob was turned, that is the reason, and it explains all") {
  struct Turn {
    const char* recipe;
    const char* setting;
    CompareCause cause;
  };
  for (const Turn& turn :
       {Turn{"tarn-thick-pouch.json", "acid_g=1.2", CompareCause::acid},
        Turn{"calcium-set-pouch.json", "calcium_salt_g=0.02", CompareCause::calcium_salt},
        Turn{"pouch-from-scratch.json", "water_g=120", CompareCause::water},
        Turn{"pouch-from-scratch.json", "mass_g:HM pectin=0.02", CompareCause::solid}}) {
    INFO(turn.recipe << ' ' << turn.setting);
    Kept kept;
    const CompareSide& before = kept.add(shipped(turn.recipe));
    const CompareSide& after = kept.add(turned(turn.recipe, turn.setting));
    const Comparison comparison = compare({before, after});
    REQUIRE(comparison.reasons.size() == 1);
    const CompareReason& reason = comparison.reasons.front();
    REQUIRE_FALSE(reason.effects.empty());
    CHECK(reason.effects.front().cause == turn.cause);
    const double all = reason.second_value - reason.first_value;
    CHECK(reason.effects.front().change / all > 0.8);
  }
}

TEST_CASE("what is known of a mix can be the reason") {
  // The same recipe with a kitchen in which the mix has a buffer.
  KitchenDocument fitted = test::shipped_kitchen();
  const std::string label = "\"undeclared_gum\": { \"ingredient\": \"sodium alginate\"";
  const std::size_t at = fitted.text.find(label);
  REQUIRE(at != std::string::npos);
  fitted.text.insert(at,
                     "\"buffer\": { \"carboxylate_mmol_per_g\": 0.2, \"pka\": 4.5, "
                     "\"neutralised_fraction\": 1 }, ");
  Kept kept;
  const CompareSide& before = kept.add(shipped("tarn-thick-pouch.json"));
  const CompareSide& after = kept.add(read_recipe(
      test::read_text(test::source_path("recipes/tarn-thick-pouch.json")), "fitted", fitted));
  const Comparison comparison = compare({before, after});
  REQUIRE(comparison.reasons.size() == 1);
  const CompareReason& reason = comparison.reasons.front();
  REQUIRE(reason.effects.size() == 1);
  CHECK(reason.effects[0].cause == CompareCause::mix);
  CHECK(reason.effects[0].ingredient == "fell mix");
  CHECK_THAT(reason.effects[0].change, near(reason.second_value - reason.first_value, 1e-9));
}

TEST_CASE("the dose and the share of it come from the recipes (hand calculation)") {
  Kept kept;
  // 72 g of mix, 0.6 g of water for each, 0.36 or 1.2 g of acid: 100 x 1.2 / 116.4 g.
  const Comparison comparison = compare({kept.add(shipped("tarn-thick-pouch.json")),
                                         kept.add(turned("tarn-thick-pouch.json", "acid_g=1.2"))});
  const CompareEffect& acid = comparison.reasons.front().effects.front();
  CHECK_THAT(acid.first, near(100 * 0.36 / 115.56, 1e-9));
  CHECK_THAT(acid.second, near(100 * 1.2 / 116.4, 1e-9));
}

TEST_CASE("a bought thing has a label and a price, and no forecast") {
  Kept kept;
  CompareSide bought;
  bought.name = "ready gel";
  const Bought read = read_bought("ready gel,piece_g=60,carbohydrate_g=40,sodium_mg=120,price=2.15",
                                  std::nullopt, "--bought");
  CHECK(read.price == 2.15);
  bought.bought = read.ingredient;
  bought.piece_g = read.piece_g;
  bought.cost_per_60_g = 60 * 2.15 / 40;
  const Comparison comparison = compare({kept.add(shipped("tarn-thick-pouch.json")), bought});
  CHECK(comparison.reasons.empty());
  for (const CompareRow& row : comparison.rows) {
    INFO(row.key);
    if (row.key == "carbohydrate_g") CHECK_THAT(*row.values[1], near(40, 1e-9));
    if (row.key == "cost_per_60_g") CHECK_THAT(*row.values[1], near(3.225, 1e-9));
    if (row.key == "ph" || row.part == ComparePart::water) CHECK_FALSE(row.values[1]);
  }
}

TEST_CASE("fewer than two, or too many, are not compared") {
  CHECK(refusal_of([] { compare({}); }) ==
        "sides: there is nothing to compare it with; name one more\n");
  CHECK(run_program("compare recipes/tarn-thick-pouch.json").exit_code == 2);
  CHECK(run_program("compare recipes/tarn-thick-pouch.json --with acid=1").exit_code == 2);
  CHECK(run_program("compare recipes/tarn-thick-pouch.json --bought 'no such thing'").exit_code ==
        2);
}
