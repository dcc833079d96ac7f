#include <cmath>
#include <limits>
#include <vector>

#include "catch.hpp"
#include "gelwright/error.hpp"
#include "statistics/least_squares.hpp"
#include "statistics/quantile.hpp"
#include "statistics/random.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

/// Half-width of the 95 % interval of one parameter: Student's t times its standard error.
double half_width(const Fit& fit, std::size_t parameter) {
  return student_t_quantile(0.975, fit.degrees_of_freedom) * fit.standard_errors[parameter];
}

constexpr double infinity = std::numeric_limits<double>::infinity();

// NIST StRD, linear regression, Norris: calibration of ozone monitors, 36 observations.
const std::vector<double> norris_x = {0.2,   337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6,
                                      777.0, 558.2, 0.4,   0.6,   775.5, 666.9, 338.0, 447.5, 11.6,
                                      556.0, 228.1, 995.8, 887.6, 120.2, 0.3,   0.3,   556.8, 339.1,
                                      887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
const std::vector<double> norris_y = {0.1,   338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1,
                                      778.9, 559.2, 0.3,   0.1,   778.1, 668.8, 339.3, 448.9, 10.8,
                                      557.7, 228.3, 998.0, 888.8, 119.6, 0.3,   0.6,   557.6, 339.3,
                                      888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};
// NIST StRD, nonlinear regression, Misra1a: 14 observations.
const std::vector<double> misra_x = {77.6,  114.9, 141.1, 190.8, 239.9, 289.0, 332.8,
                                     378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0};
const std::vector<double> misra_y = {10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02,
                                     44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78};

Residuals line(const std::vector<double>& x, const std::vector<double>& y) {
  return [&x, &y](std::span<const double> p, std::span<double> r) {
    for (std::size_t i = 0; i < r.size(); ++i) r[i] = p[0] + p[1] * x[i] - y[i];
  };
}

Residuals misra(std::size_t& calls) {
  return [&calls](std::span<const double> p, std::span<double> r) {
    ++calls;
    for (std::size_t i = 0; i < r.size(); ++i)
      r[i] = p[0] * (1.0 - std::exp(-p[1] * misra_x[i])) - misra_y[i];
  };
}

FitProblem unbounded(std::vector<double> start, std::size_t residual_count) {
  const std::size_t n = start.size();
  return {std::move(start), std::vector<double>(n, -infinity), std::vector<double>(n, infinity),
          residual_count};
}

/// Agreement to so many significant digits.
auto digits(double expected, int count) {
  return near(expected, std::abs(expected) * std::pow(10.0, -count));
}

}  // namespace

TEST_CASE("Norris, NIST StRD certified values") {
  const Fit fit = fit_least_squares(line(norris_x, norris_y), unbounded({0.0, 0.0}, 36));
  CHECK_THAT(fit.parameters[0], digits(-0.262323073774029, 8));
  CHECK_THAT(fit.parameters[1], digits(1.00211681802045, 10));
  CHECK_THAT(fit.standard_errors[0], digits(0.232818234301152, 8));
  CHECK_THAT(fit.standard_errors[1], digits(0.429796848199937e-3, 8));
  CHECK_THAT(fit.residual_sd, digits(0.884796396144373, 9));
  CHECK_THAT(fit.rss, digits(26.6173985294224, 9));
  CHECK(fit.degrees_of_freedom == 34);
}

TEST_CASE("Misra1a, NIST StRD certified values from both certified starts") {
  for (const std::vector<double>& start : {std::vector<double>{500.0, 1e-4}, {250.0, 5e-4}}) {
    std::size_t calls = 0;
    const Fit fit = fit_least_squares(misra(calls), unbounded(start, 14));
    CHECK_THAT(fit.parameters[0], digits(2.3894212918e2, 7));
    CHECK_THAT(fit.parameters[1], digits(5.5015643181e-4, 7));
    CHECK_THAT(fit.standard_errors[0], digits(2.7070075241e0, 6));
    CHECK_THAT(fit.standard_errors[1], digits(7.2668688436e-6, 6));
    CHECK_THAT(fit.rss, digits(1.2455138894e-1, 9));
    CHECK_THAT(fit.residual_sd, digits(1.0187876330e-1, 9));
    CHECK(fit.degrees_of_freedom == 12);
    CHECK(static_cast<std::size_t>(fit.evaluations) == calls);
  }
}

TEST_CASE("a straight line by hand: errors, correlation and leverage") {
  // x 1 2 3, y 1 2 4: slope 3/2, intercept -2/3, rss 1/6, one degree of freedom. Sxx = 2, so the
  // slope's variance is s^2/2, the intercept's s^2 (1/3 + 2), the correlation -2/sqrt(14/3), and
  // leverage 1/3 + (x-2)^2/2.
  const std::vector<double> x = {1.0, 2.0, 3.0};
  const std::vector<double> y = {1.0, 2.0, 4.0};
  const Fit fit = fit_least_squares(line(x, y), unbounded({0.0, 1.0}, 3));
  CHECK_THAT(fit.parameters[0], near(-2.0 / 3.0, 1e-8));
  CHECK_THAT(fit.parameters[1], near(1.5, 1e-8));
  CHECK_THAT(fit.rss, near(1.0 / 6.0, 1e-12));
  CHECK_THAT(fit.standard_errors[1], near(std::sqrt(1.0 / 12.0), 1e-8));
  CHECK_THAT(fit.standard_errors[0], near(std::sqrt(7.0 / 18.0), 1e-8));
  CHECK_THAT(fit.correlation[1], near(-std::sqrt(6.0 / 7.0), 1e-8));
  CHECK(fit.correlation[1] == fit.correlation[2]);
  CHECK(fit.correlation[0] == 1.0);
  CHECK_THAT(fit.leverages[0], near(5.0 / 6.0, 1e-8));
  CHECK_THAT(fit.leverages[1], near(1.0 / 3.0, 1e-8));
  // t(0.975, 1) = 12.706, NIST/SEMATECH e-Handbook 1.3.6.7.2.
  CHECK_THAT(half_width(fit, 1), near(12.706 * std::sqrt(1.0 / 12.0), 2e-4));
}

TEST_CASE("weights count: a reading of half the uncertainty weighs four times") {
  // Weighted mean of 10 (u 1) and 20 (u 1/2) is (10 + 4*20)/5 = 18, by hand.
  const Fit fit = fit_least_squares(
      [](std::span<const double> p, std::span<double> r) {
        r[0] = p[0] - 10.0;
        r[1] = (p[0] - 20.0) / 0.5;
      },
      unbounded({1.0}, 2));
  CHECK_THAT(fit.parameters[0], near(18.0, 1e-8));
  CHECK(fit.condition_number == 1.0);
}

TEST_CASE("a bound holds the parameter and says so") {
  // y = a + b x with b >= 2 where the free slope is 1.5: b = 2, a = mean(y) - 2 mean(x) = -5/3.
  const std::vector<double> x = {1.0, 2.0, 3.0};
  const std::vector<double> y = {1.0, 2.0, 4.0};
  FitProblem problem{{0.0, 3.0}, {-infinity, 2.0}, {infinity, 10.0}, 3};
  const Fit fit = fit_least_squares(line(x, y), problem);
  CHECK(fit.parameters[1] == 2.0);
  CHECK_THAT(fit.parameters[0], near(-5.0 / 3.0, 1e-8));
  CHECK(fit.at_bound[1]);
  CHECK_FALSE(fit.at_bound[0]);
  CHECK(std::isinf(fit.standard_errors[1]));
  CHECK(std::isfinite(fit.standard_errors[0]));
  CHECK(fit.degrees_of_freedom == 2);

  // A start on the bound is no trap: with b >= 0 the free optimum is reached from b = 0.
  problem = {{0.0, 0.0}, {-infinity, 0.0}, {infinity, infinity}, 3};
  const Fit released = fit_least_squares(line(x, y), problem);
  CHECK_THAT(released.parameters[1], near(1.5, 1e-8));
  CHECK_FALSE(released.at_bound[1]);
}

TEST_CASE("the model is never asked outside the bounds") {
  const std::vector<double> x = {0.0, 1.0, 2.0, 3.0, 4.0};
  const std::vector<double> y = {0.0, 1.02, 1.40, 1.75, 1.99};
  bool outside = false;
  const Fit fit = fit_least_squares(
      [&](std::span<const double> p, std::span<double> r) {
        outside = outside || p[0] < 0.0 || p[1] < 0.0 || p[1] > 2.0;
        for (std::size_t i = 0; i < r.size(); ++i) r[i] = p[0] + p[1] * std::sqrt(x[i]) - y[i];
      },
      {{0.0, 0.0}, {0.0, 0.0}, {1.0, 2.0}, 5});
  CHECK_FALSE(outside);
  // Regression on sqrt(x) in closed form.
  double sx = 0, sy = 0, sxx = 0, sxy = 0;
  for (std::size_t i = 0; i < 5; ++i) {
    sx += std::sqrt(x[i]);
    sy += y[i];
    sxx += x[i];
    sxy += std::sqrt(x[i]) * y[i];
  }
  const double slope = (5 * sxy - sx * sy) / (5 * sxx - sx * sx);
  CHECK_THAT(fit.parameters[1], near(slope, 1e-8));
  CHECK_THAT(fit.parameters[0], near((sy - slope * sx) / 5, 1e-8));
}

TEST_CASE("an upper bound holds, and lets go, as a lower one does") {
  // The free slope of the same line is 1.5; with b <= 1 the intercept is mean(y) - mean(x) = 1/3.
  const std::vector<double> x = {1.0, 2.0, 3.0};
  const std::vector<double> y = {1.0, 2.0, 4.0};
  const Fit held = fit_least_squares(line(x, y), {{0.0, 0.0}, {-9.0, 0.0}, {9.0, 1.0}, 3});
  CHECK(held.parameters[1] == 1.0);
  CHECK_THAT(held.parameters[0], near(1.0 / 3.0, 1e-8));
  CHECK(held.at_bound[1]);
  const Fit released = fit_least_squares(line(x, y), {{0.0, 4.0}, {-9.0, 0.0}, {9.0, 4.0}, 3});
  CHECK_THAT(released.parameters[1], near(1.5, 1e-8));
  CHECK_FALSE(released.at_bound[1]);
}

TEST_CASE("an answer next to a bound is as good as one far from it, Misra1a") {
  // The bound is nearer than one difference step, so the slope there is one-sided.
  const double certified = 2.3894212918e2;
  for (const bool above : {true, false}) {
    bool outside = false;
    const double lower = above ? 100.0 : certified - 1e-4;
    const double upper = above ? certified + 1e-4 : 900.0;
    const Fit fit = fit_least_squares(
        [&](std::span<const double> p, std::span<double> r) {
          outside = outside || p[0] < lower || p[0] > upper;
          for (std::size_t i = 0; i < r.size(); ++i)
            r[i] = p[0] * (1.0 - std::exp(-p[1] * misra_x[i])) - misra_y[i];
        },
        {{above ? 200.0 : 500.0, 5e-4}, {lower, 0.0}, {upper, 1.0}, 14});
    CHECK_FALSE(outside);
    CHECK_FALSE(fit.at_bound[0]);
    CHECK_THAT(fit.parameters[0], digits(certified, 7));
    CHECK_THAT(fit.parameters[1], digits(5.5015643181e-4, 7));
    CHECK_THAT(fit.standard_errors[0], digits(2.7070075241e0, 6));
    CHECK_THAT(fit.standard_errors[1], digits(7.2668688436e-6, 6));
  }
}

TEST_CASE("bounds narrower than a difference step are kept too") {
  const std::vector<double> x = {1.0, 2.0, 3.0};
  const std::vector<double> y = {1.0, 2.0, 4.0};
  bool outside = false;
  const Residuals plain = line(x, y);
  const Fit fit = fit_least_squares(
      [&](std::span<const double> p, std::span<double> r) {
        outside = outside || p[1] < 1.0 || p[1] > 1.0 + 1e-6;
        plain(p, r);
      },
      {{0.0, 1.0 + 3e-7}, {-9.0, 1.0}, {9.0, 1.0 + 1e-6}, 3});
  CHECK_FALSE(outside);
  CHECK(fit.parameters[1] == 1.0 + 1e-6);
  CHECK(fit.at_bound[1]);
}

TEST_CASE("bounds that are wide open do not blur the slope at a start of zero") {
  const std::vector<double> x = {1.0, 2.0, 3.0};
  const std::vector<double> y = {1.0, 2.0, 4.0};
  const Fit fit = fit_least_squares(line(x, y), {{0.0, 0.0}, {-1e300, -1e9}, {1e300, 1e9}, 3});
  CHECK_THAT(fit.parameters[0], near(-2.0 / 3.0, 1e-8));
  CHECK_THAT(fit.parameters[1], near(1.5, 1e-8));
}

TEST_CASE("a fixed parameter stays and costs no degree of freedom") {
  const std::vector<double> x = {1.0, 2.0, 3.0};
  const std::vector<double> y = {1.0, 2.0, 4.0};
  const Fit fit = fit_least_squares(line(x, y), {{0.0, 1.0}, {0.0, -9.0}, {0.0, 9.0}, 3});
  CHECK(fit.parameters[0] == 0.0);
  CHECK(fit.standard_errors[0] == 0.0);
  CHECK_FALSE(fit.at_bound[0]);
  CHECK_THAT(fit.parameters[1], near(17.0 / 14.0, 1e-8));  // sum xy / sum xx, by hand
  CHECK(fit.degrees_of_freedom == 2);
}

TEST_CASE("parameters the readings cannot tell apart are reported") {
  // Only the product of the first two acts; the third is well known.
  const std::vector<double> x = {1.0, 2.0, 3.0, 4.0};
  const std::vector<double> y = {7.1, 8.9, 11.2, 12.9};
  const Fit product = fit_least_squares(
      [&](std::span<const double> p, std::span<double> r) {
        for (std::size_t i = 0; i < r.size(); ++i) r[i] = p[0] * p[1] * x[i] + p[2] - y[i];
      },
      unbounded({1.0, 1.0, 0.0}, 4));
  CHECK(std::isinf(product.condition_number));
  CHECK(std::isinf(product.standard_errors[0]));
  CHECK(std::isinf(product.standard_errors[1]));
  CHECK(std::isfinite(product.standard_errors[2]));
  CHECK_THAT(product.parameters[0] * product.parameters[1], near(1.97, 1e-7));  // slope by hand

  // One that does not act at all.
  const Fit idle = fit_least_squares(
      [&](std::span<const double> p, std::span<double> r) {
        for (std::size_t i = 0; i < r.size(); ++i) r[i] = p[0] * x[i] - y[i];
      },
      unbounded({1.0, 5.0}, 4));
  CHECK(std::isinf(idle.condition_number));
  CHECK(std::isinf(idle.standard_errors[1]));
  CHECK(std::isfinite(idle.standard_errors[0]));
  CHECK(idle.parameters[1] == 5.0);

  // Nearly parallel columns: finite but large. Columns (1,1,1,1) and 1000 + (1,2,3,4) have the
  // cosine c, and two unit vectors have condition sqrt((1+c)/(1-c)).
  std::vector<double> far = x;
  for (double& value : far) value += 1000.0;
  const Fit leaning = fit_least_squares(line(far, y), unbounded({0.0, 0.0}, 4));
  const double c = 4010.0 / std::sqrt(4.0 * (4.0 * 1002.5 * 1002.5 + 5.0));
  CHECK_THAT(leaning.condition_number / std::sqrt((1.0 + c) / (1.0 - c)), near(1.0, 1e-3));
}

TEST_CASE("an exact fit ends, and no degree of freedom means no error is known") {
  const std::vector<double> x = {1.0, 2.0, 3.0, 4.0};
  const std::vector<double> y = {5.0, 7.0, 9.0, 11.0};
  const Fit exact = fit_least_squares(line(x, y), unbounded({100.0, -50.0}, 4));
  CHECK_THAT(exact.parameters[0], near(3.0, 1e-9));
  CHECK_THAT(exact.parameters[1], near(2.0, 1e-9));
  CHECK(exact.residual_sd < 1e-9);

  // Also where the answer is zero and no parameter is left to compare the residuals with.
  const std::vector<double> nothing = {0.0, 0.0, 0.0, 0.0};
  const Fit zero = fit_least_squares(line(x, nothing), unbounded({1.0, 3.0}, 4));
  CHECK_THAT(zero.parameters[0], near(0.0, 1e-9));
  CHECK_THAT(zero.parameters[1], near(0.0, 1e-9));

  const std::vector<double> two_x = {1.0, 2.0};
  const std::vector<double> two_y = {5.0, 7.0};
  const Fit pinned = fit_least_squares(line(two_x, two_y), unbounded({0.0, 0.0}, 2));
  CHECK_THAT(pinned.parameters[1], near(2.0, 1e-9));
  CHECK(pinned.degrees_of_freedom == 0);
  CHECK(std::isinf(pinned.standard_errors[0]));
  CHECK(studentised_residuals(pinned).empty());
}

TEST_CASE("a model that is only solved to 1e-11 can still be fitted") {
  std::uint64_t call = 0;
  const Fit fit = fit_least_squares(
      [&](std::span<const double> p, std::span<double> r) {
        for (std::size_t i = 0; i < r.size(); ++i)
          r[i] = p[0] * (1.0 - std::exp(-p[1] * misra_x[i])) - misra_y[i] +
                 1e-11 * standard_normal({1, i, call});
        ++call;
      },
      unbounded({250.0, 5e-4}, 14));
  CHECK_THAT(fit.parameters[0], near(238.94212918, 0.01 * 2.707));
  CHECK_THAT(fit.parameters[1], near(5.5015643181e-4, 0.01 * 7.27e-6));
}

TEST_CASE("a 95 % interval covers the truth 95 % of the time") {
  // 500 trials of six readings: four binomial standard deviations either side of 475 are 20. With
  // the normal 1.96 in place of t(4) = 2.776 about 439 would be covered.
  int covered[2] = {0, 0};
  const std::vector<double> x = {0.0, 1.0, 2.0, 3.0, 4.0, 5.0};
  std::vector<double> y(6);
  for (std::uint64_t trial = 0; trial < 500; ++trial) {
    for (std::size_t i = 0; i < y.size(); ++i)
      y[i] = 2.0 + 3.0 * x[i] + 0.7 * standard_normal({42, i, trial});
    const Fit fit = fit_least_squares(line(x, y), unbounded({0.0, 1.0}, 6));
    if (std::abs(fit.parameters[0] - 2.0) <= half_width(fit, 0)) ++covered[0];
    if (std::abs(fit.parameters[1] - 3.0) <= half_width(fit, 1)) ++covered[1];
  }
  for (const int count : covered) {
    CHECK(count >= 455);
    CHECK(count <= 495);
  }
}

TEST_CASE("a studentised residual is the prediction error of the fit without that reading") {
  // Cook & Weisberg 1982: (y_i - prediction without i) / its standard error, here by leaving one
  // out and fitting the rest in closed form.
  const std::vector<double> x = {1.0, 2.0, 3.5, 4.0, 6.0, 7.0};
  const std::vector<double> y = {2.1, 2.9, 4.8, 4.9, 7.4, 7.6};
  const Fit fit = fit_least_squares(line(x, y), unbounded({0.0, 1.0}, 6));
  const std::vector<double> t = studentised_residuals(fit);
  REQUIRE(t.size() == 6);
  for (std::size_t left_out = 0; left_out < 6; ++left_out) {
    double sx = 0, sy = 0, sxx = 0, sxy = 0;
    for (std::size_t i = 0; i < 6; ++i) {
      if (i == left_out) continue;
      sx += x[i];
      sy += y[i];
      sxx += x[i] * x[i];
      sxy += x[i] * y[i];
    }
    const double spread = sxx - sx * sx / 5;
    const double slope = (sxy - sx * sy / 5) / spread;
    const double intercept = (sy - slope * sx) / 5;
    double rss = 0;
    for (std::size_t i = 0; i < 6; ++i)
      if (i != left_out) rss += std::pow(intercept + slope * x[i] - y[i], 2);
    const double off = x[left_out] - sx / 5;
    const double error = std::sqrt(rss / 3 * (1 + 1.0 / 5 + off * off / spread));
    const double expected = (intercept + slope * x[left_out] - y[left_out]) / error;
    CHECK_THAT(t[left_out], near(expected, 1e-6));
  }
}

TEST_CASE("an outlier is named and good readings are not") {
  std::vector<double> x(12);
  std::vector<double> y(12);
  for (std::size_t i = 0; i < x.size(); ++i) {
    x[i] = static_cast<double>(i);
    y[i] = 1.0 + 0.5 * x[i] + 0.05 * standard_normal({9, 0, i});
  }
  CHECK(outliers(fit_least_squares(line(x, y), unbounded({0.0, 0.0}, 12))).empty());
  y[7] += 1.0;
  CHECK(outliers(fit_least_squares(line(x, y), unbounded({0.0, 0.0}, 12))) ==
        std::vector<std::size_t>{7});

  // False alarms stay near the stated chance: 5 % of 400 clean runs is 20, sd 4.4.
  int alarms = 0;
  for (std::uint64_t run = 0; run < 400; ++run) {
    for (std::size_t i = 0; i < x.size(); ++i) y[i] = standard_normal({10, run, i});
    if (!outliers(fit_least_squares(line(x, y), unbounded({0.0, 0.0}, 12))).empty()) ++alarms;
  }
  CHECK(alarms >= 3);
  CHECK(alarms <= 37);
}

TEST_CASE("a fit that cannot be made is refused or given up") {
  const std::vector<double> x = {1.0, 2.0, 3.0};
  const std::vector<double> y = {1.0, 2.0, 4.0};
  CHECK_THROWS_AS(fit_least_squares(line(x, y), unbounded({}, 3)), InputError);
  CHECK_THROWS_AS(fit_least_squares(line(x, y), unbounded({0.0, 0.0}, 1)), InputError);
  CHECK_THROWS_AS(fit_least_squares(line(x, y), {{0.0, 5.0}, {0.0, 0.0}, {1.0, 1.0}, 3}),
                  InputError);
  CHECK_THROWS_AS(fit_least_squares(line(x, y), {{0.0, 0.0}, {0.0}, {1.0}, 3}), InputError);
  const Residuals nowhere = [](std::span<const double>, std::span<double> r) {
    for (double& value : r) value = std::nan("");
  };
  CHECK_THROWS_AS(fit_least_squares(nowhere, unbounded({1.0}, 3)), InputError);

  std::size_t calls = 0;
  FitProblem short_of_time = unbounded({500.0, 1e-4}, 14);
  short_of_time.max_evaluations = 10;
  CHECK_THROWS_AS(fit_least_squares(misra(calls), short_of_time), NotConverged);
  CHECK(calls == 10);
  // A model that throws is heard.
  CHECK_THROWS_AS(fit_least_squares([](std::span<const double>,
                                       std::span<double>) -> void { throw NotConverged("pH"); },
                                    unbounded({1.0}, 3)),
                  NotConverged);
}
