#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>
#include <sstream>

#include "catch.hpp"
#include "gelwright/error.hpp"
#include "gelwright/read.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/spread.hpp"
#include "gelwright/spread_report.hpp"
#include "studies/spread/spread_detail.hpp"
#include "water_charge.hpp"

using namespace gelwright;
using gelwright::test::charge_eq_per_kg;
using gelwright::test::near;

namespace {

// Invented recipes. The first has everything that can be in doubt.
constexpr std::string_view everything = R"({
  "format": "gelwright/recipe-1", "name": "Tarn Loop gel", "form": "pouch",
  "define": {
    "ridge mix": {"kind": "mix", "water_fraction": 0.04,
      "contains": [{"ingredient": "HM pectin", "fraction": 0.01}],
      "label": {"per_g": 100, "carbohydrate_g": 90, "sugars_g": 40, "sodium_mg": 400},
      "buffer": {"carboxylate_mmol_per_g": {"value": 0.1, "sd": 0.02}, "pka": 4.2},
      "undeclared_gum": {"ingredient": "sodium alginate", "fraction_at_least": 0.004,
                         "fraction_at_most": 0.012}},
    "date syrup": {"kind": "syrup", "water_fraction": 0.25,
      "contains": [{"ingredient": "fructose", "fraction": 0.35},
                   {"ingredient": "dextrose anhydrous", "fraction": 0.35}]}},
  "solids": [{"ingredient": "ridge mix", "mass_g": {"value": 30, "sd": 0.5}},
             {"ingredient": "date syrup", "mass_g": 5},
             {"ingredient": "maltodextrin DE 12", "mass_g": 8},
             {"ingredient": "LM pectin", "mass_g": 0.4},
             {"ingredient": "amidated pectin", "mass_g": 0.2},
             {"ingredient": "low-acyl gellan", "mass_g": 0.05}],
  "water": {"per_g_solids": 0.9},
  "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.1, "stock_percent": 20},
  "calcium": {"ingredient": "calcium lactate pentahydrate", "mass_g": 0.05, "when": "slow"},
  "tap": {"calcium_mg_per_l": {"value": 60, "sd": 5}, "magnesium_mg_per_l": 8,
          "alkalinity_meq_per_l": 3},
  "batch": {"servings": 6, "loss_percent": 3, "scales": [
    {"name": "kitchen scale", "readability_g": 1, "capacity_g": 5000},
    {"name": "spoon scale", "readability_g": 0.01, "capacity_g": 200}]},
  "prices": {"currency": "EUR", "packs": [
    {"ingredient": "ridge mix", "pack_g": 500, "price": 12},
    {"ingredient": "date syrup", "pack_g": 500, "price": 5},
    {"ingredient": "maltodextrin DE 12", "pack_g": 1000, "price": 6},
    {"ingredient": "LM pectin", "pack_g": 100, "price": 8},
    {"ingredient": "amidated pectin", "pack_g": 100, "price": 8},
    {"ingredient": "low-acyl gellan", "pack_g": 50, "price": 9},
    {"ingredient": "citric acid anhydrous", "pack_g": 250, "price": 3},
    {"ingredient": "calcium lactate pentahydrate", "pack_g": 100, "price": 5}]}
})";

// Two ingredients and water on one scale: small enough to propagate by hand.
constexpr std::string_view two_sugars = R"({
  "format": "gelwright/recipe-1", "name": "two sugars", "form": "drink",
  "solids": [{"ingredient": "maltodextrin DE 12", "mass_g": 22},
             {"ingredient": "fructose", "mass_g": 17}],
  "water": {"mass_g": 24},
  "batch": {"servings": 4, "scales": [
    {"name": "scale", "readability_g": 1, "repeatability_g": 0.5, "capacity_g": 5000}]}
})";

// No scale, no tap, no gum: only the purity of the acid and of the sugar and the model are in
// doubt.
constexpr std::string_view acid_only = R"({
  "format": "gelwright/recipe-1", "name": "acid only", "form": "drink",
  "solids": [{"ingredient": "sucrose", "mass_g": 50}],
  "water": {"mass_g": 500},
  "acid": {"ingredient": "citric acid anhydrous", "mass_g": 2}
})";

const SpreadInterval& of(const SpreadResult& result, SpreadOutput output) {
  return result.intervals[static_cast<std::size_t>(output)].value();
}

double share(const SpreadResult& result, std::string_view what, SpreadOutput output) {
  for (const Doubt& doubt : result.doubts)
    if (doubt.what == what) return doubt.share[static_cast<std::size_t>(output)];
  FAIL("no doubt about " << what);
  return 0;
}

const Doubt& doubt(const SpreadResult& result, std::string_view what) {
  for (const Doubt& each : result.doubts)
    if (each.what == what) return each;
  throw std::runtime_error("no such doubt: " + std::string(what));
}

}  // namespace

TEST_CASE("without any width every draw is the point result, to the last bit") {
  for (const std::string_view text : {everything, two_sugars, acid_only}) {
    const Recipe recipe = read_recipe(text, "test");
    const Inputs inputs = resolve(recipe);
    const SpreadResult result = spread(inputs, {.draws = 300, .threads = 2, .widths = 0});
    const Evaluation weighed = evaluate(as_weighed(inputs, evaluate(inputs).batch));
    CHECK(result.doubts.empty());
    CHECK(result.improvements.empty());
    for (const auto& interval : result.intervals) {
      if (!interval) continue;
      CHECK(interval->median == interval->point);
      CHECK(interval->low == interval->point);
      CHECK(interval->high == interval->point);
      CHECK(interval->sd == 0);
    }
    CHECK(of(result, SpreadOutput::ph).point == weighed.water_phase.ph);
    CHECK(of(result, SpreadOutput::calcium_ratio_r2).point == weighed.water_phase.calcium_ratio_r2);
    CHECK(of(result, SpreadOutput::carbohydrate_g).point == weighed.nutrition.carbohydrate_g);
    if (result.gel) {
      const gel::Chances centre = gel::chances_at(weighed.gel.state, gel::central_values());
      for (std::size_t t = 0; t < gel::texture_count; ++t)
        CHECK_THAT(result.gel->eaten.chance[t], near(centre.chance[t], 1e-12));
      CHECK(result.gel->foretold == 1);
    }
    std::set<FlagId> point;
    for (const Flag& flag : result.point.flags) point.insert(flag.id);
    std::set<FlagId> drawn;
    for (const FlagChance& each : result.flags) {
      CHECK(each.share == 1);
      drawn.insert(each.id);
    }
    CHECK(drawn == point);
  }
}

TEST_CASE("without scales the point result is the recipe's own") {
  const Recipe recipe = read_recipe(acid_only, "test");
  const Inputs inputs = inputs_of(recipe);
  const SpreadResult result = spread(inputs, {.draws = 200});
  CHECK(of(result, SpreadOutput::ph).point == evaluate(inputs).water_phase.ph);
  CHECK_FALSE(result.weighing_known);
}

TEST_CASE("the report is the same, byte for byte, for any number of threads") {
  const Recipe recipe = read_recipe(everything, "test");
  const Inputs inputs = resolve(recipe);
  const auto text = [&](unsigned threads, std::uint64_t seed) {
    return render(
        spread_report(inputs, spread(inputs, {.draws = 3000, .seed = seed, .threads = threads})),
        Format::json);
  };
  const std::string one = text(1, 5);
  CHECK(one == text(2, 5));
  CHECK(one == text(3, 5));
  CHECK(one != text(1, 6));
}

// JCGM 100:2008 5.1.2, by hand. Batch of 4: u of one line on the scale is sqrt(0.5^2 + 1/6) g, a
// quarter of it per serving. Carbohydrate C = m1 (1 - w) + m2 p with w 0.05 +- 0.01, p 1 +- 0.005:
//   u^2 = ((1 - w) u)^2 + (m1 u(w))^2 + u^2 + (m2 u(p))^2.
// Tolerances: sampling error of a standard deviation, 4 u / sqrt(2 M); of a 97.5 % end point,
// 4 x 2.67 u / sqrt(M) (normal).
TEST_CASE("carbohydrate against the law of propagation of uncertainty, JCGM 100:2008 5.1.2") {
  const Recipe recipe = read_recipe(two_sugars, "test");
  const std::size_t draws = 200'000;
  const SpreadResult result = spread(inputs_of(recipe), {.draws = draws, .seed = 11});
  const double u_line = std::sqrt(0.25 + 1.0 / 6.0) / 4;
  const double parts[] = {std::pow(0.95 * u_line, 2), std::pow(22 * 0.01, 2), std::pow(u_line, 2),
                          std::pow(17 * 0.005, 2)};
  const double variance = std::accumulate(std::begin(parts), std::end(parts), 0.0);
  const double u = std::sqrt(variance);
  const SpreadInterval& carbohydrate = of(result, SpreadOutput::carbohydrate_g);
  const double m = static_cast<double>(draws);
  INFO("u by hand " << u << ", by Monte Carlo " << carbohydrate.sd);
  CHECK_THAT(carbohydrate.point, near(22 * 0.95 + 17, 1e-12));
  CHECK_THAT(carbohydrate.sd, near(u, 4 * u / std::sqrt(2 * m)));
  CHECK_THAT(carbohydrate.high - carbohydrate.point, near(1.96 * u, 4 * 2.67 * u / std::sqrt(m)));
  CHECK_THAT(carbohydrate.point - carbohydrate.low, near(1.96 * u, 4 * 2.67 * u / std::sqrt(m)));
  // The shares of the spread are those of the variance; ranks of 10 000 draws tell them to 0.02.
  CHECK_THAT(share(result, "weighing maltodextrin DE 12", SpreadOutput::carbohydrate_g),
             near(parts[0] / variance, 0.02));
  CHECK_THAT(share(result, "moisture of maltodextrin DE 12", SpreadOutput::carbohydrate_g),
             near(parts[1] / variance, 0.02));
  CHECK_THAT(share(result, "weighing fructose", SpreadOutput::carbohydrate_g),
             near(parts[2] / variance, 0.02));
  CHECK_THAT(share(result, "purity of fructose", SpreadOutput::carbohydrate_g),
             near(parts[3] / variance, 0.02));
}

// S = 100 (m1 (1 - w) + m2 p)/(m1 + m2 + W), its derivatives by hand; linear to better than 1 %.
TEST_CASE("soluble solids against the law of propagation of uncertainty, JCGM 100:2008 5.1.2") {
  const Recipe recipe = read_recipe(two_sugars, "test");
  const std::size_t draws = 200'000;
  const SpreadResult result = spread(inputs_of(recipe), {.draws = draws, .seed = 12});
  const double total = 22 + 17 + 24;
  const double solids = 22 * 0.95 + 17;
  const double u_line = std::sqrt(0.25 + 1.0 / 6.0) / 4;
  const double per_m1 = 100 * (0.95 * total - solids) / (total * total);
  const double per_m2 = 100 * (total - solids) / (total * total);
  const double per_water = -100 * solids / (total * total);
  const double u =
      std::sqrt(std::pow(per_m1 * u_line, 2) + std::pow(per_m2 * u_line, 2) +
                std::pow(per_water * u_line, 2) + std::pow(100 * 22 / total * 0.01, 2) +
                std::pow(100 * 17 / total * 0.005, 2));
  const SpreadInterval& soluble = of(result, SpreadOutput::soluble_solids_percent);
  INFO("u by hand " << u << ", by Monte Carlo " << soluble.sd);
  CHECK_THAT(soluble.sd, near(u, 4 * u / std::sqrt(2.0 * static_cast<double>(draws))));
}

// Purity of 2 g acid moves the pH by about 0.001; what is left is the model, as on the sheet.
TEST_CASE("the spread of pH from the model alone is the uncertainty printed on the sheet") {
  const Recipe recipe = read_recipe(acid_only, "test");
  const Inputs inputs = inputs_of(recipe);
  const SpreadResult result = spread(inputs, {.draws = 100'000, .seed = 3});
  const SpreadInterval& ph = of(result, SpreadOutput::ph);
  const double printed = evaluate(inputs).water_phase.ph_uncertainty;
  CHECK_THAT((ph.high - ph.low) / 2, near(printed, 0.02 * printed));
  CHECK_THAT(ph.median, near(ph.point, 0.01 * printed));
}

// With gum, its pKa is drawn on its own and the rest as above: together as on the sheet, which
// linearises the effect of the pKa, hence 10 %.
TEST_CASE("a gum's pKa is not counted twice") {
  const Recipe recipe = read_recipe(R"({
    "format": "gelwright/recipe-1", "name": "gum", "form": "drink",
    "solids": [{"ingredient": "sodium alginate", "mass_g": 5}],
    "water": {"mass_g": 495}, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 1.5}})",
                                    "test");
  const Inputs inputs = inputs_of(recipe);
  const SpreadResult result = spread(inputs, {.draws = 50'000, .seed = 3});
  const SpreadInterval& ph = of(result, SpreadOutput::ph);
  const double printed = evaluate(inputs).water_phase.ph_uncertainty;
  INFO("half-width " << (ph.high - ph.low) / 2 << ", printed " << printed);
  CHECK_THAT((ph.high - ph.low) / 2, near(printed, 0.1 * printed));
  CHECK(share(result, "effective pKa of the gum", SpreadOutput::ph) > 0.2);
  REQUIRE(!result.improvements.empty());
  CHECK(result.improvements[0].kind == DoubtKind::ph_model);
  CHECK(result.improvements[0].half_width_after < 0.3 * result.improvements[0].half_width_before);
}

// By hand: a batch of four on a scale that shows whole grams.
TEST_CASE("masses are those the display shows") {
  const Recipe recipe = read_recipe(two_sugars, "test");
  Inputs inputs = inputs_of(recipe);
  inputs.solids[0].mass_g = 22.1;                  // 88.4 g in the bowl, shown as 88 g
  inputs.solids[1].mass_g = 17.2;                  // 68.8 g, shown as 69 g
  inputs.water = {WaterBasis::per_g_solids, 0.6};  // 23.58 g, 94.32 g, shown as 94 g
  const Inputs weighed = as_weighed(inputs, evaluate(inputs).batch);
  CHECK_THAT(weighed.solids[0].mass_g, near(22, 1e-12));
  CHECK_THAT(weighed.solids[1].mass_g, near(17.25, 1e-12));
  CHECK_THAT(formulate(weighed).water_g, near(23.5, 1e-12));
}

TEST_CASE("a mass too small for the display is not left out") {
  const Recipe recipe = read_recipe(R"({
    "format": "gelwright/recipe-1", "name": "pinch", "form": "drink",
    "solids": [{"ingredient": "sucrose", "mass_g": 50}, {"ingredient": "xanthan", "mass_g": 0.2}],
    "water": {"mass_g": 500},
    "batch": {"servings": 1, "scales": [
      {"name": "scale", "readability_g": 1, "capacity_g": 5000}]}})",
                                    "test");
  const Inputs inputs = inputs_of(recipe);
  CHECK(as_weighed(inputs, evaluate(inputs).batch).solids[1].mass_g == 0.2);
  const SpreadResult result = spread(inputs, {.draws = 500});
  const auto cannot = std::find_if(result.flags.begin(), result.flags.end(), [](const auto& each) {
    return name_of(each.id) == "cannot-weigh";
  });
  REQUIRE(cannot != result.flags.end());
  CHECK(cannot->from_plan);
  CHECK(cannot->share == 1);
}

TEST_CASE("a draw conserves mass and charge") {
  const Recipe recipe = read_recipe(everything, "test");
  const Inputs inputs = resolve(recipe);
  const Evaluation meant = evaluate(inputs);
  const Inputs weighed = as_weighed(inputs, meant.batch);
  const Evaluation point = evaluate(weighed);
  const Doubts doubts = doubts_of(weighed, point, meant.batch, 1);
  const auto find = [&doubts](DoubtTarget target) {
    for (const DoubtDraw& each : doubts.drawn)
      if (each.target == target) return each;
    throw std::runtime_error("not in doubt");
  };
  Trial trial(weighed, doubts.drawn);
  const double nominal_on_scale_g = weighed.acid->line.mass_g / weighed.acid->stock_fraction;
  for (std::uint64_t i = 0; i < 2000; ++i) {
    const Inputs& drawn = trial.draw(9, i);
    // Stock on the scale: what was aimed at, plus the weighing; its strength only shares it out.
    const double on_scale_g = drawn.acid->line.mass_g / drawn.acid->stock_fraction;
    CHECK_THAT(on_scale_g,
               near(nominal_on_scale_g + find(DoubtTarget::acid_mass).deviation(9, i), 1e-12));
    const Formula formula = formulate(drawn);
    CHECK_THAT(
        formula.tap_g,
        near(formulate(weighed).tap_g + find(DoubtTarget::water_mass).deviation(9, i), 1e-11));
    // A powder is water and solids: the maltodextrin, moisture drawn.
    const Composition& maltodextrin = drawn.solids[2].per_g;
    CHECK_THAT(maltodextrin.water_g + maltodextrin.carbohydrate_g, near(1, 1e-12));
    CHECK_THAT(maltodextrin.water_g,
               near(
                   0.05 +
                       [&] {
                         for (const DoubtDraw& each : doubts.drawn)
                           if (each.target == DoubtTarget::moisture && each.index == 2)
                             return each.deviation(9, i);
                         return -1.0;
                       }(),
                   1e-12));
    CHECK_THAT(charge_eq_per_kg(drawn.tap), near(0, 1e-15));
    for (const InputLine& line : drawn.solids) {
      for (const double each : line.per_g.dissolved_mol) CHECK(each >= 0);
      double carboxylate = 0;
      for (const double each : line.per_g.carboxylate_mol) carboxylate += each;
      CHECK_THAT(line.per_g.dissolved(Component::uronate), near(carboxylate, 1e-12));
    }
  }
}

TEST_CASE("a draw leaves nothing behind for the next one") {
  const Recipe recipe = read_recipe(everything, "test");
  const Inputs inputs = resolve(recipe);
  const Evaluation meant = evaluate(inputs);
  const Inputs weighed = as_weighed(inputs, meant.batch);
  const Doubts doubts = doubts_of(weighed, evaluate(weighed), meant.batch, 1);
  Trial used(weighed, doubts.drawn);
  for (std::uint64_t i = 0; i < 20; ++i) used.draw(1, i);
  const Inputs& without = used.draw(1, 3, DoubtKind::tap_water);
  CHECK(without.tap.mol_per_kg[Ion::calcium] == weighed.tap.mol_per_kg[Ion::calcium]);
  CHECK(without.recipe->tap->water.mg_per_l[Ion::calcium] ==
        recipe.tap->water.mg_per_l[Ion::calcium]);
  Trial fresh(weighed, doubts.drawn);
  const Evaluation a = evaluate(used.draw(1, 77));
  const Evaluation b = evaluate(fresh.draw(1, 77));
  CHECK(a.water_phase.ph == b.water_phase.ph);
  CHECK(a.water_phase.calcium_ratio_r2 == b.water_phase.calcium_ratio_r2);
  CHECK(a.properties.water_activity == b.properties.water_activity);
  CHECK(a.formula.total_g == b.formula.total_g);
}

TEST_CASE("every width says where it comes from, and every stream is its own") {
  const Recipe recipe = read_recipe(everything, "test");
  const Inputs inputs = resolve(recipe);
  const SpreadResult result = spread(inputs, {.draws = 500});
  for (const Doubt& each : result.doubts) {
    CHECK(!each.from.empty());
    CHECK(each.width > 0);
  }
  CHECK(doubt(result, "tap water's calcium").from == "the recipe");
  CHECK(doubt(result, "tap water's calcium").width == 5);
  // What the report gives without an uncertainty drifts as one.
  CHECK(doubt(result, "tap water's report, all of it").from == "judgement");
  CHECK_THAT(doubt(result, "tap water's report, all of it").width, near(0.1, 1e-12));
  CHECK(doubt(result, "dose of ridge mix").width == 0.5);
  CHECK(doubt(result, "gum in ridge mix").rectangular);
  CHECK_THAT(doubt(result, "gum in ridge mix").width, near(0.004, 1e-12));
  CHECK_THAT(doubt(result, "fitted buffer of ridge mix").width, near(0.2, 1e-12));
  CHECK(doubt(result, "part of the HM pectin sold neutralised").from ==
        "trade-pectin-ph (computed)");
  // Every kind of doubt there is stands in this recipe.
  CHECK(result.improvements.size() == doubt_kind_count);

  const Evaluation meant = evaluate(inputs);
  const Inputs weighed = as_weighed(inputs, meant.batch);
  const Doubts doubts = doubts_of(weighed, evaluate(weighed), meant.batch, 1);
  std::set<std::uint64_t> streams;
  for (const DoubtDraw& each : doubts.drawn) streams.insert(each.stream());
  CHECK(streams.size() == doubts.drawn.size());
}

TEST_CASE("draws stay within what is possible") {
  const Recipe recipe = read_recipe(everything, "test");
  const Inputs inputs = resolve(recipe);
  const Evaluation meant = evaluate(inputs);
  const Inputs weighed = as_weighed(inputs, meant.batch);
  const Doubts doubts = doubts_of(weighed, evaluate(weighed), meant.batch, 1);
  for (const DoubtDraw& each : doubts.drawn) {
    double lowest = each.value;
    double highest = each.value;
    for (std::uint64_t i = 0; i < 5000; ++i) {
      const double now = each.value + each.deviation(2, i);
      lowest = std::min(lowest, now);
      highest = std::max(highest, now);
    }
    CHECK(lowest >= each.low - 1e-12);
    CHECK(highest <= each.high + 1e-12);
    CHECK(lowest < each.value);
    CHECK(highest > each.value);
  }
}

TEST_CASE("pectin drawn as pure acid form, with no other sodium about") {
  const Recipe recipe = read_recipe(R"({
    "format": "gelwright/recipe-1", "name": "pectin water", "form": "drink",
    "solids": [{"ingredient": "HM pectin", "mass_g": 5}], "water": {"mass_g": 500}})",
                                    "test");
  const SpreadResult result = spread(inputs_of(recipe), {.draws = 2000});
  // One draw in eleven falls below 0 and is held there: P(z < -0.2/0.15) = 0.091 (normal tables).
  CHECK(of(result, SpreadOutput::ph).high > of(result, SpreadOutput::ph).low);
}

TEST_CASE("chances add up, shares add up, and doubt about nothing has no share") {
  const Recipe recipe = read_recipe(everything, "test");
  const SpreadResult result = spread(resolve(recipe), {.draws = 5000, .seed = 8});
  REQUIRE(result.gel.has_value());
  double chances = 0;
  for (const double each : result.gel->eaten.chance) chances += each;
  CHECK_THAT(chances, near(1, 1e-9));
  CHECK(result.gel->stomach.pieces >= result.gel->stomach.one_gel);
  for (std::size_t o = 0; o < spread_output_count; ++o) {
    double sum = 0;
    for (const Doubt& each : result.doubts) sum += each.share[o];
    CHECK_THAT(sum, near(1, 1e-9));
  }
  // The pH model moves no mass.
  CHECK(share(result, "pH model", SpreadOutput::carbohydrate_g) < 0.01);
  CHECK(share(result, "label of ridge mix", SpreadOutput::carbohydrate_g) > 0.5);
}

TEST_CASE("a wider doubt makes a wider interval") {
  const Recipe recipe = read_recipe(everything, "test");
  const Inputs inputs = resolve(recipe);
  const SpreadResult one = spread(inputs, {.draws = 4000});
  const SpreadResult half = spread(inputs, {.draws = 4000, .widths = 0.5});
  for (std::size_t o = 0; o < spread_output_count; ++o)
    CHECK(half.intervals[o]->high - half.intervals[o]->low <
          0.7 * (one.intervals[o]->high - one.intervals[o]->low));
}

TEST_CASE("the chance that a limit is broken follows the water report") {
  // 100 +- 10 mg/L against a limit of 110: one standard deviation away, 15.87 % (normal tables).
  const Recipe recipe = read_recipe(R"({
    "format": "gelwright/recipe-1", "name": "limit", "form": "drink",
    "solids": [{"ingredient": "sucrose", "mass_g": 50}], "water": {"mass_g": 500},
    "tap": {"calcium_mg_per_l": {"value": 100, "sd": 10}, "alkalinity_meq_per_l": 4},
    "limits": {"calcium_mg_per_l": {"at_most": 110}}})",
                                    "test");
  const std::size_t draws = 20'000;
  const SpreadResult result = spread(inputs_of(recipe), {.draws = draws, .seed = 4});
  const auto above = std::find_if(result.flags.begin(), result.flags.end(), [](const auto& each) {
    return name_of(each.id) == "calcium-above-limit";
  });
  REQUIRE(above != result.flags.end());
  const double expected = 0.158655;
  CHECK_THAT(above->share,
             near(expected, 4 * std::sqrt(expected * (1 - expected) / static_cast<double>(draws))));
  CHECK(above->stop_share == above->share);  // a broken calcium limit stops a drink
}

TEST_CASE("options out of range are refused") {
  const Recipe recipe = read_recipe(acid_only, "test");
  const Inputs inputs = inputs_of(recipe);
  CHECK_THROWS_AS(spread(inputs, {.draws = 99}), InputError);
  CHECK_THROWS_AS(spread(inputs, {.draws = 100, .widths = -1}), InputError);
  CHECK_THROWS_AS(spread(inputs, {.draws = 100, .widths = std::nan("")}), InputError);
}

TEST_CASE("progress is told on the caller's thread and never runs backwards") {
  const Recipe recipe = read_recipe(acid_only, "test");
  std::vector<double> told;
  SpreadOptions options{.draws = 5000, .threads = 2};
  options.progress = [&told](double done) { told.push_back(done); };
  spread(inputs_of(recipe), options);
  CHECK(!told.empty());
  CHECK(std::is_sorted(told.begin(), told.end()));
  CHECK(told.back() <= 1);
}

TEST_CASE("the report fits the page and says judgement aloud") {
  const Recipe recipe = read_recipe(everything, "test");
  const Inputs inputs = resolve(recipe);
  const Report report = spread_report(inputs, spread(inputs, {.draws = 1000}));
  const std::string text = render(report, Format::text);
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 80);
  CHECK(text.find("judgement") != std::string::npos);
  CHECK(render(report, Format::csv).substr(0, 13) == "quantity,key,");
  CHECK(render(report, Format::json).find("\"improvements\"") != std::string::npos);
}

TEST_CASE("a label's tolerance never makes more carbohydrate than there is powder") {
  const Recipe recipe = read_recipe(R"({"format": "gelwright/recipe-1", "name": "powder",
    "form": "drink", "define": {"mix": {"kind": "mix", "label": {"per_g": 100,
      "carbohydrate_g": 97, "sugars_g": 40, "fibre_g": 1.5, "sodium_mg": 300}}},
    "solids": [{"ingredient": "mix", "mass_g": 80}], "water": {"mass_g": 500}})",
                                    "powder.json");
  const Inputs inputs = resolve(recipe);
  const SpreadResult result = spread(inputs, {.draws = 2000, .seed = 3});
  const SpreadInterval& carbohydrate = of(result, SpreadOutput::carbohydrate_g);
  CHECK(carbohydrate.high <= 80 * (1 - 0.015) + 1e-9);
  CHECK(carbohydrate.low < 77);
}

TEST_CASE("what a label's sodium is gets drawn: the pH reaches from one salt to another") {
  const std::string text = R"({"format": "gelwright/recipe-1", "name": "powder",
    "form": "pouch", "define": {"mix": {"kind": "mix", %"label": {"per_g": 100,
      "carbohydrate_g": 95, "sugars_g": 40, "sodium_mg": 400}}},
    "solids": [{"ingredient": "mix", "mass_g": 70}], "water": {"mass_g": 45},
    "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.5},
    "tap": "demineralised water"})";
  const auto with = [&text](const std::string& more) {
    std::string all = text;
    all.replace(all.find('%'), 1, more);
    return read_recipe(all, "powder.json");
  };
  const Recipe open = with("");
  const Inputs inputs = resolve(open);
  const PhBand band = evaluate(inputs).ph_band;
  REQUIRE(band.readings.size() == 3);
  const SpreadResult result = spread(inputs, {.draws = 2000, .seed = 3});
  const SpreadInterval& ph = of(result, SpreadOutput::ph);
  CHECK(ph.low < band.readings[0].ph);
  CHECK(ph.high > band.readings[1].ph);
  const Recipe named = with(R"("fizzed": true, )");
  for (const Doubt& doubt : spread(resolve(named), {.draws = 200, .seed = 3}).doubts)
    CHECK(doubt.what.find("which salt") == std::string::npos);
}

TEST_CASE("figures of one report are drawn together, stated ones by themselves") {
  const Recipe recipe = read_recipe(std::string(everything), "everything.json");
  const Inputs inputs = resolve(recipe);
  const Evaluation point = evaluate(inputs);
  const Doubts doubts = doubts_of(inputs, point, point.batch, 1);
  Trial trial(inputs, doubts.drawn);
  const Water& reported = recipe.tap->water;
  std::set<double> factors;
  for (std::uint64_t i = 0; i < 20; ++i) {
    const Water& drawn = trial.draw(1, i).recipe->tap->water;
    const double factor = *drawn.mg_per_l[Ion::magnesium] / *reported.mg_per_l[Ion::magnesium];
    CHECK_THAT(*drawn.alkalinity_meq_per_l, near(factor * *reported.alkalinity_meq_per_l, 1e-12));
    // The calcium has its own uncertainty and goes its own way.
    CHECK(std::abs(*drawn.mg_per_l[Ion::calcium] - factor * *reported.mg_per_l[Ion::calcium]) >
          1e-9);
    factors.insert(factor);
  }
  CHECK(factors.size() == 20);
}
