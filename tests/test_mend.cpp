#include <cmath>

#include "catch.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/mend.hpp"
#include "gelwright/resolve.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

Recipe club() {
  return recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 50},
      {"ingredient": "sodium alginate", "mass_g": 0.5}], "water": {"mass_g": 40},
      "tap": {"calcium_mg_per_l": 20, "magnesium_mg_per_l": 3, "alkalinity_meq_per_l": 1},
      "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.4}, "batch": {"servings": 10})");
}

double added_g(const Mend& mend, LineRole role) {
  for (const MendLine& line : mend.lines)
    if (line.role == role) return line.add_g;
  return 0;
}

SeenOfBatch read_as_ph(double ph) {
  return {.ph = ph, .texture = {}};
}

double ph_of(const Inputs& inputs) {
  return evaluate(inputs).water_phase.ph;
}

}  // namespace

TEST_CASE("a tenth too much water takes a tenth more of everything else (hand calculation)") {
  const Recipe recipe = club();
  const Inputs planned = resolve(recipe);
  const WeighedInstead weighed[] = {{LineRole::water, 0, 440}};
  const Mend found = mend(planned, weighed);
  REQUIRE(found.why_not.empty());
  CHECK_THAT(found.grows, near(1.1, 1e-12));
  CHECK_THAT(added_g(found, LineRole::solid), near(50, 1e-9));
  CHECK_THAT(added_g(found, LineRole::acid), near(0.4, 1e-9));
  CHECK(added_g(found, LineRole::water) == 0);
  // The mended batch is the planned gel again.
  CHECK_THAT(ph_of(found.mended), near(ph_of(planned), 1e-9));
  CHECK_THAT(formulate(found.mended).soluble_solids_percent(),
             near(formulate(planned).soluble_solids_percent(), 1e-9));
}

TEST_CASE("too little is topped up and nothing else is touched") {
  const Recipe recipe = club();
  const WeighedInstead weighed[] = {{LineRole::solid, 0, 450}};
  const Mend found = mend(resolve(recipe), weighed);
  CHECK(found.grows == 1);
  CHECK_THAT(added_g(found, LineRole::solid), near(50, 1e-9));
  CHECK(added_g(found, LineRole::water) == 0);
  CHECK(added_g(found, LineRole::acid) == 0);
}

TEST_CASE("as planned, or off by less than a scale tells, there is nothing to add") {
  const Recipe recipe = club();
  const WeighedInstead weighed[] = {{LineRole::water, 0, 401}};
  const Mend found = mend(resolve(recipe), weighed);
  CHECK_FALSE(found.anything);
  CHECK(found.why_not.empty());
}

TEST_CASE("a tonne is beyond mending") {
  const Recipe recipe = club();
  const WeighedInstead weighed[] = {{LineRole::water, 0, 1e6}};
  CHECK_FALSE(mend(resolve(recipe), weighed).why_not.empty());
}

TEST_CASE("a pH read too high asks for more acid, one too low for more of the rest") {
  const Recipe recipe = club();
  const Inputs planned = resolve(recipe);
  const double wanted = ph_of(planned);
  const Mend flat = mend(planned, {}, read_as_ph(wanted + 0.3));
  REQUIRE(flat.why_not.empty());
  CHECK(added_g(flat, LineRole::acid) > 0);
  CHECK(added_g(flat, LineRole::water) == 0);
  // With the reading's offset on it, the mended batch has the planned pH.
  CHECK_THAT(ph_of(flat.mended) + 0.3, near(wanted, 1e-3));
  const Mend sour = mend(planned, {}, read_as_ph(wanted - 0.1));
  REQUIRE(sour.why_not.empty());
  CHECK(sour.too_sour);
  CHECK(added_g(sour, LineRole::acid) == 0);
  CHECK(added_g(sour, LineRole::water) > 0);
  CHECK_THAT(ph_of(sour.mended) - 0.1, near(wanted, 1e-3));
  CHECK_FALSE(mend(planned, {}, read_as_ph(wanted - 1.5)).why_not.empty());
  CHECK_FALSE(mend(planned, {}, read_as_ph(wanted + 0.02)).anything);
}

namespace {

/// An alginate pouch that likely sets, acid under the blade.
Recipe likely_sets() {
  return recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 25},
      {"ingredient": "sodium alginate", "mass_g": 0.8}], "water": {"mass_g": 40},
      "tap": {"calcium_mg_per_l": 20, "magnesium_mg_per_l": 3, "alkalinity_meq_per_l": 1},
      "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.2},
      "batch": {"servings": 10}, "process": {"acid_added": "under_blade", "rest_hours": 12})");
}

}  // namespace

TEST_CASE("a batch that did not set gets more acid, and evaluates to one that likely sets") {
  const Recipe recipe = likely_sets();
  const Inputs planned = resolve(recipe);
  const Mend found = mend(planned, {}, {.ph = {}, .texture = gel::Texture::thick});
  INFO(found.why_not);
  REQUIRE(found.why_not.empty());
  CHECK(added_g(found, LineRole::acid) > 0);
  CHECK(added_g(found, LineRole::solid) == 0);
  REQUIRE(found.chance_to_set);
  CHECK(*found.chance_to_set >= 0.5);
  const Evaluation mended = evaluate(found.mended);
  CHECK(mended.water_phase.ph >= 3.0);
  // P(sets now | did not before) = (P(now) - P(before)) / (1 - P(before)) for nested outcomes.
  const double before = evaluate(planned).gel.chance_set();
  CHECK_THAT(*found.chance_to_set, near((mended.gel.chance_set() - before) / (1 - before), 1e-6));
}

TEST_CASE("nothing is added where nothing helps, and it is said why") {
  const Recipe recipe = likely_sets();
  const Inputs planned = resolve(recipe);
  for (const gel::Texture seen : {gel::Texture::bits, gel::Texture::soft, gel::Texture::hard}) {
    const Mend found = mend(planned, {}, {.ph = {}, .texture = seen});
    CHECK_FALSE(found.why_not.empty());
  }
  const Recipe drink = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 25},
      {"ingredient": "sodium alginate", "mass_g": 0.6}], "water": {"mass_g": 400})",
                                   "drink");
  CHECK_FALSE(
      mend(inputs_of(drink), {}, {.ph = {}, .texture = gel::Texture::pours}).why_not.empty());
  const Recipe no_dose = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 25},
      {"ingredient": "sodium alginate", "mass_g": 0.6}], "water": {"mass_g": 40})");
  CHECK_FALSE(
      mend(inputs_of(no_dose), {}, {.ph = {}, .texture = gel::Texture::thick}).why_not.empty());
  // Too little gum sets at no pH it may have.
  const Recipe hopeless = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 25},
      {"ingredient": "sodium alginate", "mass_g": 0.05}], "water": {"mass_g": 40},
      "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.12}, "batch": {"servings": 10})");
  CHECK_FALSE(
      mend(inputs_of(hopeless), {}, {.ph = {}, .texture = gel::Texture::thick}).why_not.empty());
}

TEST_CASE("a batch may grow to twice its size and no further") {
  const Recipe recipe = club();
  const Inputs planned = resolve(recipe);
  const WeighedInstead twice[] = {{LineRole::water, 0, 800}};
  CHECK(mend(planned, twice).why_not.empty());
  const WeighedInstead more[] = {{LineRole::water, 0, 801}};
  CHECK(mend(planned, more).why_not.find("2.0 times as big: make it anew") != std::string::npos);
}

TEST_CASE("half a percent of the planned mass is not worth adding, more is") {
  const Recipe recipe = club();
  const Inputs planned = resolve(recipe);
  const WeighedInstead near_it[] = {{LineRole::solid, 0, 500 * 0.9951}};
  CHECK_FALSE(mend(planned, near_it).anything);
  const WeighedInstead short_of_it[] = {{LineRole::solid, 0, 500 * 0.9949}};
  CHECK(mend(planned, short_of_it).anything);
}

TEST_CASE("a pH 0.05 off is left alone, one further off is not, and three times the acid is all") {
  const Recipe recipe = club();
  const Inputs planned = resolve(recipe);
  const double wanted = ph_of(planned);
  CHECK_FALSE(mend(planned, {}, read_as_ph(wanted + 0.049)).anything);
  CHECK(mend(planned, {}, read_as_ph(wanted + 0.051)).anything);
  CHECK_FALSE(mend(planned, {}, read_as_ph(wanted - 0.049)).anything);
  CHECK(mend(planned, {}, read_as_ph(wanted - 0.051)).anything);
  Inputs three_times = planned;
  three_times.acid->line.mass_g *= 3;
  const double reach = wanted - ph_of(three_times);
  CHECK(mend(planned, {}, read_as_ph(wanted + reach - 0.002)).why_not.empty());
  CHECK(mend(planned, {}, read_as_ph(wanted + reach + 0.002)).why_not ==
        "even 3 times the acid leaves it less sour than planned");
}

TEST_CASE("what is in the bowl is counted line by line, the calcium salt too") {
  const Recipe recipe = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 50},
      {"ingredient": "LM pectin", "mass_g": 0.5}], "water": {"mass_g": 40},
      "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.4},
      "calcium": {"ingredient": "calcium lactate pentahydrate", "mass_g": 0.2, "when": "slow"},
      "batch": {"servings": 10})");
  const Inputs planned = resolve(recipe);
  const WeighedInstead weighed[] = {{LineRole::calcium_salt, 0, 3}, {LineRole::solid, 1, 4}};
  const Mend found = mend(planned, weighed);
  CHECK_THAT(found.grows, near(1.5, 1e-12));
  REQUIRE(found.lines.size() == 5);
  CHECK(found.lines[0].role == LineRole::water);
  CHECK_THAT(found.lines[0].add_g, near(200, 1e-9));
  CHECK_THAT(found.lines[1].add_g, near(250, 1e-9));
  CHECK_THAT(found.lines[2].add_g, near(3.5, 1e-9));  // 7.5 g wanted, 4 g there
  CHECK_THAT(added_g(found, LineRole::acid), near(2, 1e-9));
  CHECK(added_g(found, LineRole::calcium_salt) == 0);
  CHECK_THAT(found.mended.servings, near(15, 1e-9));
  CHECK_THAT(found.mended.calcium->line.mass_g, near(0.2, 1e-9));
}
