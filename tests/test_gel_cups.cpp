// What six cups of one mix teach, against an independent trial implementation, and what must hold
// of any lesson.
#include <cmath>

#include "catch.hpp"
#include "gel_rows.hpp"
#include "gelwright/gel_cups.hpp"
#include "paths.hpp"

using namespace gelwright;
using namespace gelwright::gel;
using test::near;

namespace {

/// .9 g of alginate from a bought mix in 100 g of clean water, a quarter solids, slow acid.
State cup_at(double ph) {
  State state;
  Portion portion;
  portion.g_per_100_g_water = 0.9;
  portion.solids_met_percent = 10;
  portion.dispersed = Dispersed::mix;
  add(state, portion);
  state.ca_mmol_per_kg = 0.4;
  state.ca_total_mmol_per_kg = 0.4;
  state.na_mmol_per_kg = 5;
  state.ionic_mmol_per_kg = 60;
  state.ph = ph;
  state.solids_percent = 25;
  state.sugars.maltodextrin = 0.55;
  state.sugars.fructose = 0.45;
  state.eaten_c = 15;
  state.acid = Acid::slow;
  state.guluronate = 0.6;
  state.hours = 12;
  state.gum_lg_sd = 0;
  state.ca_lg_sd = 0;
  return state;
}

Cup cup(double ph, double syringe_ml, bool holds) {
  Cup out;
  out.state = cup_at(ph);
  out.reading.syringe_ml_left = syringe_ml;
  out.reading.holds_when_turned = holds;
  return out;
}

/// As the reference was worked out: each cup's pH taken as exact.
LearnOptions exact_ph() {
  LearnOptions options;
  options.ph_doubt_in_reading = false;
  return options;
}

std::vector<std::vector<std::string>> lines_of(const std::string& name) {
  std::ifstream in(source_dir() + "/tests/data/gel_reference_cups.csv");
  std::vector<std::vector<std::string>> lines;
  for (std::string line; std::getline(in, line);) {
    const auto cells = test::split(line, ',');
    if (cells[0] == name) lines.push_back(cells);
  }
  return lines;
}

double number(const std::string& text) {
  return std::strtod(text.c_str(), nullptr);
}

void check_lesson(const std::string& name) {
  const auto lines = lines_of(name);
  REQUIRE(lines.size() == 12);
  std::vector<Cup> cups;
  for (std::size_t i = 0; i < 6; ++i)
    cups.push_back(cup(number(lines[i][1]), number(lines[i][2]), lines[i][3] == "1"));
  const Lesson lesson = learn(cups, exact_ph());
  const double close = 5e-6;
  CHECK(lesson.converged);
  for (std::size_t i = 0; i < 6; ++i)
    CHECK_THAT(lesson.weight[i], near(number(lines[i][4]), close));
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK_THAT(lesson.learnt.mean[i], near(number(lines[6][2 + i]), close));
    for (std::size_t j = 0; j < 4; ++j)
      CHECK_THAT(lesson.learnt.covariance[i][j], near(number(lines[7 + i][2 + j]), close));
  }
  const Outlook outlook = outlook_of(cup_at(4.1), &lesson.learnt);
  CHECK_THAT(outlook.doubt.lg_modulus.mean, near(number(lines[11][2]), close));
  CHECK_THAT(outlook.doubt.lg_modulus.sd, near(number(lines[11][3]), close));
  for (std::size_t t = 0; t < texture_count; ++t) {
    const std::string& cell = lines[11][4 + t];
    CHECK_THAT(outlook.chances.chance[t], near(number(cell.substr(cell.find('=') + 1)), close));
  }
}

}  // namespace

TEST_CASE("gel cups: six cups in acid teach what an independent implementation learnt") {
  check_lesson("acid");
}

TEST_CASE("gel cups: a cup that was a slip is given no weight and named") {
  check_lesson("slip");
  std::vector<Cup> cups = {cup(4.8, 8.5, false), cup(4.5, 9.5, false), cup(4.2, 10, false),
                           cup(4.0, 10, true),   cup(3.8, 2, false),   cup(3.6, 10, true)};
  CHECK(learn(cups).repeat == std::vector<std::size_t>{4});
}

TEST_CASE("gel cups: no cups give the prior back") {
  const Lesson lesson = learn({});
  CHECK(lesson.converged);
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(lesson.learnt.mean[i] == 0);
    CHECK_THAT(std::sqrt(lesson.learnt.covariance[i][i]), near(widest_prior().sd[i], 1e-12));
  }
}

TEST_CASE("gel cups: counting the doubt of each cup's pH teaches less, never more") {
  std::vector<Cup> cups = {cup(4.8, 8.5, false), cup(4.5, 9.5, false), cup(4.2, 10, false),
                           cup(4.0, 10, true),   cup(3.8, 10, true),   cup(3.6, 10, true)};
  const Lesson exact = learn(cups, exact_ph());
  const Lesson doubted = learn(cups);
  const auto spread = [](const Lesson& lesson) {
    const auto& c = lesson.learnt.covariance;
    return std::sqrt(c[0][0] + 6 * c[0][1] + 9 * c[1][1]);  // of u.k + 3 u.ph, what acid cups tell
  };
  CHECK(spread(doubted) > spread(exact));
  CHECK(spread(doubted) < 0.5);
}

TEST_CASE("gel cups: a cup that tells nothing does not widen the forecast") {
  for (const double ph : {3.2, 3.8, 4.4}) {
    const State state = cup_at(ph);
    LearnOptions options;
    options.prior = prior_of(state);
    const Lesson nothing = learn({}, options);
    const Outlook before = outlook_of(state);
    const Outlook after = outlook_of(state, &nothing.learnt);
    INFO("pH " << ph);
    CHECK(after.doubt.lg_modulus.sd <= before.doubt.lg_modulus.sd + 0.02);
    const Lesson widest = learn({});
    CHECK(after.doubt.lg_modulus.sd <=
          outlook_of(state, &widest.learnt).doubt.lg_modulus.sd + 1e-12);
  }
}

TEST_CASE("gel cups: a firmer cup than forecast moves the forecast up, a thinner one down") {
  const auto after = [](double syringe_ml, bool holds) {
    const std::vector<Cup> cups = {cup(3.8, syringe_ml, holds)};
    const Lesson lesson = learn(cups);
    return outlook_of(cup_at(3.8), &lesson.learnt).centre.lg_modulus_pa;
  };
  const double before = outlook_of(cup_at(3.8)).centre.lg_modulus_pa;
  CHECK(after(10, true) > before);
  CHECK(after(8, false) < before);
}
