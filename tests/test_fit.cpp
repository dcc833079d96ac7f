#include <cmath>
#include <nlohmann/json.hpp>

#include "catch.hpp"
#include "gelwright/error.hpp"
#include "gelwright/fit.hpp"
#include "gelwright/fit_report.hpp"
#include "gelwright/ladder.hpp"
#include "gelwright/read.hpp"
#include "gelwright/recipe_edit.hpp"
#include "recipes.hpp"
#include "statistics/random.hpp"
#include "studies/fit/fit_core.hpp"
#include "studies/fit/fit_model.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

constexpr double relative_uncertainty = 0.35;

/// What a batch of the mix with this buffer would be.
Recipe real_batch(const Recipe& recipe, double mmol_per_g, double pka, double fraction) {
  BenchFit truth;
  truth.ingredient = "fell mix";
  truth.buffer.carboxylate_mmol_per_g.value = mmol_per_g;
  truth.buffer.pka.value = pka;
  truth.buffer.neutralised_fraction.value = fraction;
  return calibrated(recipe, truth);
}

/// A sheet over `knob`, with the pH every cup of `real` has.
Bench perfect_bench(const Recipe& real, const std::string& knob, bool gel = true,
                    bool diluted = false) {
  const Inputs inputs = inputs_of(real);
  const std::string texts[] = {knob};
  const Ladder ladder = plan_ladder(inputs, read_ladder_axes(texts, inputs));
  Bench bench;
  bench.document = "bench.csv";
  for (std::size_t i = 0; i < ladder.cells; ++i) {
    BenchCup cup;
    cup.line = i + 2;
    cup.name = std::to_string(i + 1);
    cup.inputs = {{ladder.axes[0].name, axis_value(ladder, i, 0)}};
    const Inputs cup_state = cup_inputs(ladder, i);
    if (gel) cup.ph = evaluate(cup_state, {.batch = false, .flags = false}).water_phase.ph;
    if (diluted) cup.ph_diluted = diluted_ph(cup_state);
    bench.cups.push_back(cup);
  }
  return bench;
}

Bench with_noise(Bench bench, double sd, std::uint64_t trial) {
  for (std::size_t i = 0; i < bench.cups.size(); ++i) {
    if (bench.cups[i].ph) *bench.cups[i].ph += sd * standard_normal({11, 2 * i, trial});
    if (bench.cups[i].ph_diluted)
      *bench.cups[i].ph_diluted += sd * standard_normal({11, 2 * i + 1, trial});
  }
  return bench;
}

bool warns(const BenchFit& fit, FitWarningKind kind) {
  for (const FitWarning& warning : fit.warnings)
    if (warning.kind == kind) return true;
  return false;
}

template <class Call>
std::string complaint(Call call) {
  try {
    call();
  } catch (const InputError& error) {
    std::string text;
    for (const Problem& problem : error.problems())
      text += problem.where + ": " + problem.what + "; " + problem.remedy + '\n';
    return text;
  }
  return "nothing wrong";
}

const char* const pouch = "tarn-thick-pouch.json";

}  // namespace

TEST_CASE("effective degrees of freedom of a stated uncertainty, JCGM 100:2008 G.4.2") {
  // Its example: an uncertainty known to 25 % counts as 8 degrees of freedom.
  const std::vector<PhReading> readings = {{4.0, 0.1}, {4.2, 0.1}, {4.4, 0.1}};
  const PhFit fit = fit_ph([](std::span<const double> p, std::size_t) { return p[0]; }, readings,
                           {{4.0}, {0.0}, {14.0}}, 0.25);
  CHECK_THAT(fit.degrees_of_freedom, near(8 + 2, 1e-12));
  // By hand: mean 4.2, rss (2 + 0 + 2) x ... = 8 in units of the stated variance, pooled 16/10.
  CHECK_THAT(fit.fit.parameters[0], near(4.2, 1e-9));
  CHECK_THAT(fit.pooled_sd * fit.pooled_sd, near(1.6, 1e-9));
  CHECK_THAT(fit.standard_error(0), near(0.1 * std::sqrt(1.6 / 3), 1e-9));
  // t(0.975, 10) = 2.228, NIST/SEMATECH e-Handbook 1.3.6.7.2.
  CHECK_THAT(fit.half_width(0), near(2.228 * fit.standard_error(0), 1e-4));
  const double gradient[] = {-2.0};
  CHECK_THAT(fit.standard_error_of(gradient), near(2 * fit.standard_error(0), 1e-12));
  CHECK_THAT(fit.sole_standard_error(0), near(fit.standard_error(0), 1e-12));
}

TEST_CASE("the error of one parameter with the other known, by hand") {
  // A line through x = 1, 2, 3 with slope b: sigma / sqrt(sum x^2) = sigma / sqrt(14) where the
  // intercept is known, sigma / sqrt(2) where it is not.
  const std::vector<PhReading> readings = {{1.0, 1.0}, {2.0, 1.0}, {3.0, 1.0}};
  const PhFit fit = fit_ph([](std::span<const double> p,
                              std::size_t i) { return p[0] + p[1] * static_cast<double>(i + 1); },
                           readings, {{0.5, 0.5}, {-9.0, -9.0}, {9.0, 9.0}}, relative_uncertainty);
  CHECK_THAT(fit.standard_error(1) / fit.pooled_sd, near(1 / std::sqrt(2.0), 1e-8));
  CHECK_THAT(fit.sole_standard_error(1) / fit.pooled_sd, near(1 / std::sqrt(14.0), 1e-8));
}

TEST_CASE("citric acid's first two pKa out of a published buffer table") {
  // McIlvaine 1921, J. Biol. Chem. 49:183: mL of 0.2 M Na2HPO4, rest to 20 mL of 0.1 M citric acid,
  // as far as pH 4.2, where the third pKa (held) hardly acts. NIST SRD 46: 3.128 and 4.761. The
  // model's own +-0.1 pH and the interval of the fit together allow about 0.14.
  const std::pair<double, double> table[] = {{2.2, 0.40}, {2.6, 2.18}, {3.0, 4.11},
                                             {3.4, 5.70}, {3.8, 7.10}, {4.2, 8.28}};
  const double pka3 = 6.396;
  std::vector<PhReading> readings;
  for (const auto& [ph, ml] : table) readings.push_back({ph, 0.05});
  const PhModel model = [&](std::span<const double> p, std::size_t i) {
    Constants constants = constants_at_25_c();
    constants.beta[species_index("HCit2-")] = std::pow(10, pka3);
    constants.beta[species_index("H2Cit-")] = std::pow(10, pka3 + p[1]);
    constants.beta[species_index("H3Cit")] = std::pow(10, pka3 + p[1] + p[0]);
    Totals totals;
    totals[Component::phosphate] = 0.2 * table[i].second / 20;
    totals[Component::sodium] = 2 * totals[Component::phosphate];
    totals[Component::citrate] = 0.1 * (20 - table[i].second) / 20;
    return solve_equilibrium(totals, constants).ph;
  };
  const PhFit fit =
      fit_ph(model, readings, {{3.8, 4.2}, {1.0, 3.0}, {4.4, 6.0}}, relative_uncertainty);
  const auto allowed = [&](std::size_t j) { return std::hypot(0.1, fit.half_width(j)); };
  CHECK(fit.half_width(0) < 0.1);
  CHECK(fit.half_width(1) < 0.1);
  CHECK_THAT(fit.fit.parameters[0], near(3.128, allowed(0)));
  CHECK_THAT(fit.fit.parameters[1], near(4.761, allowed(1)));
}

TEST_CASE("amount and pKa of one weak acid out of a published buffer table") {
  // Walpole 1914, J. Chem. Soc. 105:2501: mL of 0.2 N acetic acid, rest to 200 mL of 0.2 N sodium
  // acetate (volumes as handbooks reprint them; the normality from memory). The acid stands as the
  // unknown buffer, the sodium is known. NIST SRD 46: 4.757.
  const std::pair<double, double> table[] = {{3.6, 185}, {3.8, 176}, {4.0, 164}, {4.2, 147},
                                             {4.4, 126}, {4.6, 102}, {4.8, 80},  {5.0, 59},
                                             {5.2, 42},  {5.4, 29},  {5.6, 19}};
  std::vector<PhReading> readings;
  for (const auto& [ph, ml] : table) readings.push_back({ph, 0.05});
  const PhModel model = [&](std::span<const double> p, std::size_t i) {
    Totals totals;
    totals[Component::buffer] = p[0];
    totals[Component::sodium] = 0.2 * (200 - table[i].second) / 200;
    EquilibriumOptions options;
    options.buffer_pka = p[1];
    return solve_equilibrium(totals, constants_at_25_c(), options).ph;
  };
  const PhFit fit =
      fit_ph(model, readings, {{0.4, 3.5}, {0.19, 2.0}, {5.0, 7.0}}, relative_uncertainty);
  CHECK_THAT(fit.fit.parameters[0], near(0.2, fit.half_width(0)));
  CHECK(fit.half_width(0) < 0.005);
  CHECK_THAT(fit.fit.parameters[1], near(4.757, std::hypot(0.1, fit.half_width(1))));
  CHECK(fit.half_width(1) < 0.05);
}

TEST_CASE("the fit's own way to a pH is the pipeline's") {
  for (const char* name : test::shipped_names) {
    const Recipe recipe = test::shipped(name);
    const Inputs served = resolve(recipe);
    const std::vector<std::size_t> carriers = carriers_of(recipe, "");
    const Recipe bare = without_buffer(recipe, carriers);
    Bench bench;
    BenchCup cup;
    cup.inputs = {{"water_g", formulate(served).water_g}};
    if (served.acid) cup.inputs.push_back({"acid_g", served.acid->line.mass_g});
    if (served.calcium) cup.inputs.push_back({"calcium_salt_g", served.calcium->line.mass_g});
    bench.cups = {cup};
    const std::vector<FittedReading> readings = {{.diluted = false}, {.diluted = true}};
    BufferModel model(bare, carriers, bench, {}, readings);
    for (const Buffer& buffer : {Buffer{0, 3.5, 1}, Buffer{0.08, 4.4, 0.7}}) {
      const Inputs filled = model.cups(buffer)[0];
      INFO(name << ' ' << buffer.carboxylate_mmol_per_g);
      CHECK_THAT(model.reading_ph(0, buffer),
                 near(evaluate(filled, {.batch = false, .flags = false}).water_phase.ph, 1e-9));
      CHECK_THAT(model.reading_ph(1, buffer), near(diluted_ph(filled), 1e-9));
    }
  }
}

TEST_CASE("without noise the buffer comes back, whatever was varied or diluted") {
  const Recipe recipe = test::shipped(pouch);
  struct Row {
    const char* knob;
    bool gel, diluted, tells_pka;
  };
  for (const Row& row :
       {Row{"acid_g=0.2:1.2:0.2", true, false, true}, Row{"acid_g=0.2:1.2:0.2", false, true, true},
        Row{"water_per_g_solids=0.3:3.8:0.7", true, true, false},
        Row{"alkalinity_meq_per_l=0:12:2", true, true, true}}) {
    INFO(row.knob);
    const BenchFit fit = fit_bench(
        recipe, perfect_bench(real_batch(recipe, 0.06, 4.6, 1), row.knob, row.gel, row.diluted));
    CHECK(fit.ingredient == "fell mix");
    // Water alone moves the pH too little to tell the pKa: it is held, and the amount makes up.
    CHECK(fit.buffer.pka.fitted == row.tells_pka);
    CHECK(fit.fitted_rms_ph < (row.tells_pka ? 1e-4 : 0.05));
    if (!row.tells_pka) continue;
    CHECK_THAT(fit.buffer.carboxylate_mmol_per_g.value, near(0.06, 1e-4));
    CHECK_THAT(fit.buffer.pka.value, near(4.6, 1e-3));
    CHECK(fit.buffer.neutralised_fraction.value == 1.0);
    CHECK_FALSE(fit.buffer.neutralised_fraction.fitted);
  }
}

TEST_CASE("a mix sold partly as acid needs the third number, and gets it") {
  const Recipe recipe = test::shipped(pouch);
  const Bench bench =
      perfect_bench(real_batch(recipe, 0.3, 4.4, 0.5), "acid_g=0:2.4:0.2", true, true);
  const BenchFit fit = fit_bench(recipe, bench, {.ph_sd = 0.01});
  CHECK(fit.buffer.neutralised_fraction.fitted);
  CHECK(fit.buffer.pka.fitted);
  CHECK_THAT(fit.buffer.carboxylate_mmol_per_g.value, near(0.3, 3e-3));
  CHECK_THAT(fit.buffer.pka.value, near(4.4, 1e-2));
  CHECK_THAT(fit.buffer.neutralised_fraction.value, near(0.5, 1e-2));
}

TEST_CASE("95 % intervals hold the truth about 95 % of the time") {
  // 500 trials: four binomial standard deviations either side of 475 are 20. The truth lies where
  // the cups tell the pKa; the reading sd is as stated.
  const Recipe recipe = test::shipped(pouch);
  const Recipe real = real_batch(recipe, 0.05, 4.6, 1);
  const Bench perfect = perfect_bench(real, "acid_g=0.2:1.2:0.2");
  const double target_ph = 3.9;
  const double true_g = dose_acid_to_ph(inputs_of(real), target_ph).amount;
  int amount = 0;
  int pka = 0;
  int dose = 0;
  for (std::uint64_t trial = 0; trial < 500; ++trial) {
    const BenchFit fit = fit_bench(recipe, with_noise(perfect, 0.05, trial),
                                   {.ph_sd = 0.05, .target_ph = target_ph});
    const FitParameter& sites = fit.buffer.carboxylate_mmol_per_g;
    if (std::abs(sites.value - 0.05) <= sites.half_width) ++amount;
    if (std::abs(fit.buffer.pka.value - 4.6) <= fit.buffer.pka.half_width) ++pka;
    if (fit.dose && fit.dose->half_width_g && fit.dose->low_g() <= true_g &&
        true_g <= fit.dose->high_g())
      ++dose;
  }
  for (const int covered : {amount, pka, dose}) {
    CHECK(covered >= 455);
    CHECK(covered <= 495);
  }
}

TEST_CASE(
    "where the cups do not tell the pKa it is held, said so, and the dose's doubt counts it") {
  // Three sour cups and a target far from them; the truth is half a unit from the pKa taken, one
  // standard uncertainty.
  const Recipe recipe = test::shipped(pouch);
  const Recipe real = real_batch(recipe, 0.03, 4.0, 1);
  const Bench perfect = perfect_bench(real, "acid_g=0.5:0.7:0.1");
  const double true_g = dose_acid_to_ph(inputs_of(real), 4.4).amount;
  int dose = 0;
  for (std::uint64_t trial = 0; trial < 100; ++trial) {
    const BenchFit fit = fit_bench(recipe, with_noise(perfect, 0.05, trial), {.target_ph = 4.4});
    REQUIRE_FALSE(fit.buffer.pka.fitted);
    CHECK(fit.buffer.pka.value == 3.5);
    CHECK(fit.buffer.pka.half_width == 0.0);
    CHECK_FALSE(fit.buffer.correlation);
    CHECK(warns(fit, FitWarningKind::pka_held));
    CHECK(warns(fit, FitWarningKind::few_readings));
    REQUIRE(fit.dose);
    if (fit.dose->half_width_g && fit.dose->low_g() <= true_g && true_g <= fit.dose->high_g())
      ++dose;
  }
  CHECK(dose >= 88);
}

TEST_CASE("two readings give the amount; fewer are refused") {
  const Recipe recipe = test::shipped(pouch);
  const auto sheet = [](const std::string& name) {
    return read_bench(test::read_text(test::source_path("tests/data/" + name)), name);
  };
  const BenchFit two = fit_bench(recipe, sheet("bench_two_readings.csv"));
  CHECK(two.buffer.carboxylate_mmol_per_g.fitted);
  CHECK(std::isfinite(two.buffer.carboxylate_mmol_per_g.half_width));
  CHECK_FALSE(two.buffer.pka.fitted);
  CHECK(warns(two, FitWarningKind::few_readings));
  CHECK(complaint([&] { fit_bench(recipe, sheet("bench_bad_one_reading.csv")); }) ==
        ": 1 pH reading, at least 2 are needed; one alone cannot tell the mix from a slip of the "
        "meter; six are better\n");
}

TEST_CASE("no buffer to be found is said, not invented") {
  const Recipe recipe = read_recipe(test::ancestor_of(pouch), pouch);
  Bench bench = perfect_bench(recipe, "acid_g=0.2:0.8:0.2");
  for (BenchCup& cup : bench.cups) *cup.ph -= 0.1;
  const BenchFit fit = fit_bench(recipe, bench, {.target_ph = 3.5});
  CHECK(fit.buffer.carboxylate_mmol_per_g.value == 0.0);
  CHECK(fit.buffer.carboxylate_mmol_per_g.at_bound);
  CHECK(std::isinf(fit.buffer.carboxylate_mmol_per_g.half_width));
  CHECK(warns(fit, FitWarningKind::no_buffer));
  REQUIRE(fit.dose);
  CHECK(fit.dose->dosed.reached);
  CHECK_FALSE(fit.dose->half_width_g);
  CHECK(
      complaint([&] {
        calibrated_recipe(test::ancestor_of(pouch),
                          recipe, fit);
      }) ==
      "/define/fell mix/buffer: the readings gave no buffer to write; measure more cups, some with "
      "much acid and some with none\n");
}

TEST_CASE("a slip of the meter is named, scatter beyond the stated sd too") {
  const Recipe recipe = test::shipped(pouch);
  Bench bench =
      with_noise(perfect_bench(real_batch(recipe, 0.06, 4.6, 1), "acid_g=0.1:1.2:0.1"), 0.03, 5);
  const BenchFit clean = fit_bench(recipe, bench);
  CHECK_FALSE(warns(clean, FitWarningKind::outlier));
  CHECK_FALSE(warns(clean, FitWarningKind::scatter));
  *bench.cups[4].ph += 0.5;
  const BenchFit slipped = fit_bench(recipe, bench);
  for (std::size_t i = 0; i < slipped.readings.size(); ++i)
    CHECK(slipped.readings[i].outlier == (i == 4));
  CHECK(warns(slipped, FitWarningKind::scatter));
  for (const FitWarning& warning : slipped.warnings)
    if (warning.kind == FitWarningKind::outlier)
      CHECK(message_of(warning, slipped, bench).rfind("Cup 5 (line 6), pH ", 0) == 0);
  // Wider than the clean one for it.
  CHECK(slipped.scatter_sd > 1.5 * clean.scatter_sd);
}

TEST_CASE("the sheet's own prediction tells another recipe from this one") {
  const Recipe recipe = test::shipped(pouch);
  Bench bench = perfect_bench(real_batch(recipe, 0.05, 4.6, 1), "acid_g=0.2:0.8:0.1");
  const Bench declared = perfect_bench(recipe, "acid_g=0.2:0.8:0.1");
  for (std::size_t i = 0; i < bench.cups.size(); ++i)
    bench.cups[i].predicted_ph = std::round(*declared.cups[i].ph * 100) / 100;
  CHECK_FALSE(warns(fit_bench(recipe, bench), FitWarningKind::sheet_disagrees));
  *bench.cups[2].predicted_ph += 0.1;
  const BenchFit other = fit_bench(recipe, bench);
  REQUIRE(warns(other, FitWarningKind::sheet_disagrees));
  for (const FitWarning& warning : other.warnings)
    if (warning.kind == FitWarningKind::sheet_disagrees) CHECK(warning.reading == 2);
}

TEST_CASE("a sheet of another recipe, a series without doses") {
  const Recipe recipe = test::shipped(pouch);
  const std::string name = "bench_bad_other_recipe.csv";
  const Bench other = read_bench(test::read_text(test::source_path("tests/data/" + name)), name);
  CHECK(complaint([&] { fit_bench(recipe, other); }) ==
        "line 2: calcium_salt_g: the recipe has no calcium salt; is it the sheet of another "
        "recipe?\n"
        "line 2: mass_g:sucrose: \"mass_g:sucrose\" is not a knob of this recipe; is it the sheet "
        "of another "
        "recipe?\n"
        "line 3: mass_g:sucrose: \"mass_g:sucrose\" is not a knob of this recipe; is it the sheet "
        "of another "
        "recipe?\n");
  CHECK(complaint([&] { fit_bench(recipe, other, {.ingredient = "fel mix"}); }) ==
        "ingredient: the recipe has no solid \"fel mix\"; did you mean \"fell mix\"?\n");

  Recipe aimed = recipe;
  aimed.acid->mass_g = {};
  aimed.acid->additions_g.clear();
  aimed.acid->target_ph = 3.8;
  const Bench plain = read_bench("cup,ph\n1,4.2\n2,4.1\n", "plain");
  CHECK(
      complaint([&] { fit_bench(aimed, plain); }) ==
      "line 2: how much acid went into this cup is missing: the recipe gives a target pH; add the "
      "column \"acid_g\", g per serving\n"
      "line 3: how much acid went into this cup is missing: the recipe gives a target pH; add the "
      "column \"acid_g\", g per serving\n");
}

TEST_CASE("the dose brings the calibrated recipe to the target") {
  const Recipe recipe = test::shipped(pouch);
  const Bench bench =
      with_noise(perfect_bench(real_batch(recipe, 0.05, 4.6, 1), "acid_g=0.2:1.2:0.2"), 0.05, 3);
  const BenchFit fit = fit_bench(recipe, bench, {.target_ph = 3.9});
  REQUIRE(fit.dose);
  const Recipe made = calibrated(recipe, fit);
  Inputs inputs = inputs_of(made);
  inputs.acid->line.mass_g = fit.dose->dosed.amount;
  CHECK_THAT(evaluate(inputs).water_phase.ph, near(3.9, 1e-6));
  CHECK_FALSE(evaluate(inputs).water_phase.buffer_unknown);
  CHECK(warns(fit_bench(recipe, bench, {.target_ph = 2.9}), FitWarningKind::target_outside_range));
  CHECK_FALSE(warns(fit, FitWarningKind::target_outside_range));
  CHECK_FALSE(fit_bench(recipe, bench).dose);  // the recipe has no target of its own
}

TEST_CASE("a recipe without a bought mix gets one correction for all its solids") {
  Recipe recipe = test::recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 30},
      {"ingredient": "sodium alginate", "mass_g": 0.4}], "water": {"mass_g": 40},
      "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.2})");
  BenchFit truth;
  truth.buffer.carboxylate_mmol_per_g.value = 0.1;
  truth.buffer.pka.value = 4.5;
  truth.buffer.neutralised_fraction.value = 1;
  const Recipe real = calibrated(recipe, truth);
  const BenchFit fit = fit_bench(recipe, perfect_bench(real, "acid_g=0.1:0.9:0.1"));
  CHECK(fit.ingredient.empty());
  CHECK(warns(fit, FitWarningKind::all_solids));
  CHECK_THAT(fit.buffer.carboxylate_mmol_per_g.value, near(0.1, 1e-4));
  CHECK_THAT(fit.buffer.pka.value, near(4.5, 1e-3));
  CHECK(complaint([&] { calibrated_recipe("{}", recipe, fit); }) ==
        "/define: a buffer of all solids together has no ingredient to be written to; describe the "
        "mix under \"define\" and use it in \"solids\"\n");
}

TEST_CASE("the calibrated recipe is the same recipe with the buffer in it") {
  const std::string text = test::ancestor_of(pouch);
  const Recipe recipe = read_recipe(text, pouch);
  const Bench bench =
      with_noise(perfect_bench(real_batch(recipe, 0.05, 4.6, 1), "acid_g=0.2:1.2:0.2"), 0.05, 3);
  const BenchFit fit = fit_bench(recipe, bench);
  const std::string written = calibrated_recipe(text, recipe, fit);

  auto before = nlohmann::ordered_json::parse(text);
  auto after = nlohmann::ordered_json::parse(written);
  CHECK(after["define"]["fell mix"]["buffer"].size() == 3);
  after["define"]["fell mix"].erase("buffer");
  CHECK(before == after);
  CHECK(before.dump() == after.dump());  // the order of the keys too
  // Its lines too: the member before the new one gains a comma.
  const std::size_t end = written.find(",\n      \"buffer\": {");
  REQUIRE(end != std::string::npos);
  CHECK(text.substr(0, end) == written.substr(0, end));
  const std::string behind = text.substr(end);
  CHECK(written.substr(written.size() - behind.size()) == behind);
  CHECK(calibrated_recipe(written, recipe, fit) == written);

  const Recipe read_back = read_recipe(written, "new.json");
  const Recipe made = calibrated(recipe, fit);
  CHECK_THAT(evaluate(inputs_of(read_back)).water_phase.ph,
             near(evaluate(inputs_of(made)).water_phase.ph, 1e-4));
  const Ingredient& mix = read_back.ingredients[read_back.solids[0].ingredient];
  CHECK_THAT(mix.buffer_mmol_per_g_sd / fit.sd_for_spread_mmol_per_g, near(1, 0.05));

  // Fitted again, the earlier buffer is out of the way.
  const BenchFit again = fit_bench(read_back, bench);
  CHECK(warns(again, FitWarningKind::buffer_replaced));
  CHECK_THAT(again.buffer.carboxylate_mmol_per_g.value,
             near(fit.buffer.carboxylate_mmol_per_g.value, 1e-6));
}

TEST_CASE("the sd written for a study gives the pH the doubt the fit found") {
  // On average over the readings: the squared error of a fitted value is s^2 sd^2 times its
  // leverage, and leverages sum to the number of free parameters (Cook & Weisberg 1982 ch. 2).
  const Recipe recipe = test::shipped(pouch);
  const Bench bench =
      with_noise(perfect_bench(real_batch(recipe, 0.05, 4.6, 1), "acid_g=0.2:1.2:0.2"), 0.05, 3);
  const BenchFit fit = fit_bench(recipe, bench);
  REQUIRE(fit.buffer.pka.fitted);
  const std::vector<std::size_t> carriers = carriers_of(recipe, "");
  const Recipe bare = without_buffer(recipe, carriers);
  BufferModel model(bare, carriers, bench, {}, fit.readings);
  const double amount = fit.buffer.carboxylate_mmol_per_g.value;
  double squares = 0;
  for (std::size_t i = 0; i < fit.readings.size(); ++i) {
    const auto ph = [&](double mmol) {
      return model.reading_ph(i, {mmol, fit.buffer.pka.value, 1});
    };
    squares += std::pow((ph(amount + 1e-5) - ph(amount - 1e-5)) / 2e-5, 2);
  }
  const double free_parameters = 2;
  CHECK_THAT(fit.sd_for_spread_mmol_per_g * std::sqrt(squares) /
                 (fit.scatter_sd * std::sqrt(free_parameters)),
             near(1, 1e-3));
}

TEST_CASE("a cup that does what the model expects has a high chance, its opposite a low one") {
  // Xanthan never sets (all handbooks), so a cup that falls is expected and one that holds is not.
  const Recipe recipe = test::recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 30},
      {"ingredient": "xanthan", "mass_g": 0.1}], "water": {"mass_g": 40},
      "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.2})");
  Bench bench = perfect_bench(recipe, "acid_g=0.1:0.4:0.1");
  bench.cups[0].cup_turn = CupTurn::falls;
  bench.cups[1].cup_turn = CupTurn::holds;
  bench.cups[2].spoon = Spoon::smears;  // tells nothing
  const BenchFit fit = fit_bench(recipe, bench);
  REQUIRE(fit.textures.size() == 2);
  CHECK(fit.textures[0].cup == 0);
  CHECK(fit.textures[1].cup == 1);
  CHECK(fit.textures[0].readings == 1);
  CHECK_THAT(fit.textures[0].chance_of_seen + fit.textures[1].chance_of_seen, near(1, 1e-3));
  CHECK(fit.textures[0].chance_of_seen > 0.9);

  const Recipe no_gum = test::recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 30}],
      "water": {"mass_g": 40}, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.2})");
  Bench syrup = perfect_bench(no_gum, "acid_g=0.1:0.4:0.1");
  syrup.cups[0].cup_turn = CupTurn::falls;
  const BenchFit none = fit_bench(no_gum, syrup);
  CHECK(none.textures.empty());
  CHECK(warns(none, FitWarningKind::no_gum));
}

TEST_CASE("the forecast is judged at the pH read on the gel") {
  // Acid released slowly into alginate: a gel only where it is sour (Draget 1996).
  const Recipe recipe = test::recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 20},
      {"ingredient": "sodium alginate", "mass_g": 0.4}], "water": {"mass_g": 40},
      "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.3},
      "process": {"acid_added": "slow"})");
  Bench bench = perfect_bench(recipe, "acid_g=0.3:1:0.1");
  bench.cups[0].cup_turn = CupTurn::falls;
  const BenchFit computed = fit_bench(recipe, bench);
  bench.cups[0].ph = 5.5;  // against all its neighbours: the fit stays well below
  const BenchFit read = fit_bench(recipe, bench);
  CHECK(read.readings[0].fitted_ph < 4.2);
  REQUIRE(computed.textures.size() == 1);
  REQUIRE(read.textures.size() == 1);
  CHECK(read.textures[0].chance_of_seen > computed.textures[0].chance_of_seen);
  CHECK(gel::chance_set(read.textures[0].chances) < 0.2);
}

TEST_CASE("the report says what was held, what was odd and what to weigh") {
  const Recipe recipe = test::shipped(pouch);
  const std::string name = "recipes/tarn-thick-pouch.bench.csv";
  const Bench bench = read_bench(test::read_text(test::source_path(name)), name);
  const BenchFit fit = fit_bench(recipe, bench, {.target_ph = 3.8});
  const std::string text = render(fit_report(recipe, bench, fit), Format::text);
  const auto says = [&](const char* words) { return text.find(words) != std::string::npos; };
  CHECK(says("Of                                  fell mix"));
  CHECK(says("held, not fitted"));
  CHECK(says("citric acid anhydrous, per serving"));
  CHECK(says("95 %)"));
  CHECK_FALSE(says("inf"));
  CHECK_FALSE(says("nan"));
  std::size_t start = 0;
  for (std::size_t end = text.find('\n'); end != std::string::npos; end = text.find('\n', start)) {
    CHECK(end - start <= 80);
    start = end + 1;
  }
  const auto json = nlohmann::json::parse(render(fit_report(recipe, bench, fit), Format::json));
  CHECK(json["format"] == "gelwright/fit-2");
  CHECK(json["readings"].size() == fit.readings.size());
  CHECK_THAT(json["dose"]["acid_g"].get<double>(), near(fit.dose->dosed.amount, 1e-4));
  CHECK(json["buffer"]["neutralised_fraction_half_width"].is_null());
  CHECK(json["textures"]["scores"].size() == fit.textures.size());
}

TEST_CASE("every number of the fit names its source and stays inside its own limits") {
  for (const Datum& row : fit_data()) {
    INFO(row.key);
    CHECK_FALSE(row.source.empty());
    CHECK(std::isfinite(row.value));
  }
  const FitConstants& k = fit_constants();
  CHECK(k.lowest_pka < k.held_pka - k.held_pka_sd);
  CHECK(k.held_pka + k.held_pka_sd < k.highest_pka);
}
