#include <algorithm>

#include "catch.hpp"
#include "gelwright/advise.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

bool has_flag(const Evaluation& evaluation, FlagId id) {
  return std::any_of(evaluation.flags.begin(), evaluation.flags.end(),
                     [id](const Flag& flag) { return flag.id == id; });
}

std::ptrdiff_t stops(const Evaluation& evaluation) {
  return std::count_if(evaluation.flags.begin(), evaluation.flags.end(),
                       [](const Flag& flag) { return flag.level == Level::stop; });
}

}  // namespace

TEST_CASE("every remedy clears its flag; distinctly less does not, or raises a new stop") {
  int remedies = 0;
  for (const char* name : test::shipped_names) {
    const Recipe recipe = test::shipped(name);
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    const Advice advice = advise(inputs, evaluation);
    REQUIRE(advice.clears.size() == evaluation.flags.size());
    for (std::size_t i = 0; i < advice.clears.size(); ++i) {
      if (!advice.clears[i]) continue;
      const Flag& flag = evaluation.flags[i];
      INFO(name << " " << name_of(flag.id) << " " << to_text(*advice.clears[i]));
      Change change = *advice.clears[i];
      CHECK_FALSE(has_flag(evaluate(turned(inputs, change)), flag.id));
      change.amount *= 0.85;  // the two figures printed may be a tenth beyond the edge
      const Evaluation short_of_it = evaluate(turned(inputs, change));
      const bool no_remedy =
          has_flag(short_of_it, flag.id) || stops(short_of_it) > stops(evaluation);
      CHECK(no_remedy);
      ++remedies;
    }
  }
  CHECK(remedies >= 4);
}

TEST_CASE("across an edge another texture or a defect is likely, short of it neither is") {
  std::size_t edges = 0;
  for (const char* name : test::shipped_names) {
    const Recipe recipe = test::shipped(name);
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    const gel::Texture now = evaluation.gel.likeliest();
    for (const Edge& edge : advise(inputs, evaluation).edges) {
      INFO(name << " " << to_text(edge.change) << " " << edge.then);
      const Evaluation beyond = evaluate(turned(inputs, edge.change));
      CHECK(edge.chance_after > edge.chance_before);
      const gel::Texture there = beyond.gel.likeliest();
      if (there != now) {
        CHECK(edge.then == gel::to_text(there));
        CHECK_THAT(edge.chance_after, near(beyond.gel.chance(there), 1e-12));
        CHECK_THAT(edge.chance_before, near(evaluation.gel.chance(there), 1e-12));
      } else {
        CHECK(edge.chance_after >= 0.5);
        CHECK(edge.chance_before < 0.5);
      }
      Change shorter = edge.change;
      shorter.amount *= 0.85;
      CHECK(evaluate(turned(inputs, shorter)).gel.likeliest() == now);
      ++edges;
    }
  }
  CHECK(edges >= 9);
}

TEST_CASE("turning a knob keeps the water's mass and never goes below nothing") {
  const Recipe recipe = test::shipped("pouch-from-scratch.json");
  const Inputs inputs = resolve(recipe);
  const double water_g = formulate(inputs).water_g;
  const Inputs sourer = turned(inputs, {Knob::acid_g, 0.5});
  CHECK_THAT(formulate(sourer).water_g, near(water_g, 1e-9));
  CHECK_THAT(formulate(turned(inputs, {Knob::acid_g, -99})).acid_g, near(0, 1e-15));
  CHECK_THAT(turned(inputs, {Knob::low_mineral_share, 1}).tap.mol_per_kg[Ion::calcium],
             near(0, 1e-15));
}

TEST_CASE("amounts are written the way a kitchen reads them") {
  CHECK(to_text(Change{Knob::acid_g, -0.0541}) == "0.054 g less acid");
  CHECK(to_text(Change{Knob::water_g, 107.3}) == "110 g more water");
  CHECK(to_text(Change{Knob::low_mineral_share, 0.714}) ==
        "75 % of the water as low-mineral water");
}
