#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "catch.hpp"
#include "gelwright/error.hpp"
#include "statistics/quantile.hpp"
#include "statistics/random.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

std::vector<double> one_to(int n) {
  std::vector<double> values;
  for (int i = n; i >= 1; --i) values.push_back(i);  // not in order, on purpose
  return values;
}

}  // namespace

TEST_CASE("the log of gamma: factorials, half-integers and DLMF 5.4.6") {
  CHECK_THAT(log_gamma(0.5), near(0.5 * std::log(std::acos(-1.0)), 1e-14));
  double log_factorial = 0.0;  // (n - 1)!
  for (int n = 1; n <= 170; ++n) {
    INFO(n);
    CHECK(std::abs(log_gamma(n) - log_factorial) <= 1e-14 * std::max(1.0, log_factorial));
    log_factorial += std::log(n);
  }
  // gamma(x) gamma(1 - x) = pi / sin(pi x), DLMF 5.5.3.
  for (const double x : {1e-300, 1e-9, 0.1, 0.25, 0.4}) {
    INFO(x);
    const double pi = std::acos(-1.0);
    CHECK_THAT(log_gamma(x) + log_gamma(1.0 - x), near(std::log(pi / std::sin(pi * x)), 3e-14));
  }
  CHECK_THROWS_AS(log_gamma(0.0), InputError);
  CHECK_THROWS_AS(log_gamma(-1.5), InputError);
}

TEST_CASE("sample quantile, Hyndman & Fan 1996 definition 7") {
  std::vector<double> ten = one_to(10);
  CHECK_THAT(quantile(ten, 0.5).value, near(5.5, 1e-15));
  CHECK_THAT(quantile(ten, 0.25).value, near(3.25, 1e-15));  // (n-1)p + 1 = 3.25
  CHECK_THAT(quantile(ten, 0.975).value, near(9.775, 1e-14));
  std::vector<double> one = {4.2};
  CHECK(quantile(one, 0.3).value == 4.2);
  std::vector<double> five = {3.0, 1.0, 2.0, 5.0, 4.0};
  CHECK(quantile(five, 0.5).value == 3.0);
}

TEST_CASE("interval of a median from order statistics, tables of the sign test") {
  // n = 6: 1st and 6th (96.9 %); 10: 2nd and 9th (97.9 %); 20: 6th and 15th (95.9 %); n = 5 has
  // none, since 1 - 2/32 = 93.75 %.
  std::vector<double> five = one_to(5);
  CHECK(quantile(five, 0.5).low == -std::numeric_limits<double>::infinity());
  CHECK(quantile(five, 0.5).high == std::numeric_limits<double>::infinity());
  const auto check = [](int n, double low, double high) {
    std::vector<double> values = one_to(n);
    const Quantile median = quantile(values, 0.5);
    CHECK(median.low == low);
    CHECK(median.high == high);
  };
  check(6, 1, 6);
  check(10, 2, 9);
  check(20, 6, 15);
}

TEST_CASE("an end point needs enough draws before it has an interval") {
  // 0.975^n <= 0.025 first at n = 146, by hand.
  std::vector<double> few = one_to(145);
  std::vector<double> enough = one_to(146);
  CHECK(std::isinf(quantile(few, 0.975).high));
  CHECK(quantile(enough, 0.975).high == 146.0);
  CHECK(quantile(enough, 0.025).low == 1.0);
}

TEST_CASE("the interval covers the true end point as often as it says") {
  // 97.5 % point of N(0,1), 400 runs of 1000 draws; coverage at least 95 %, and not above 99.5 %.
  int covered = 0;
  std::vector<double> draws(1000);
  for (std::uint64_t run = 0; run < 400; ++run) {
    for (std::size_t i = 0; i < draws.size(); ++i) draws[i] = standard_normal({5, run, i});
    const Quantile end = quantile(draws, 0.975);
    if (end.low <= 1.959963984540054 && 1.959963984540054 <= end.high) ++covered;
  }
  CHECK(covered >= 380 - 17);  // four binomial standard deviations below 95 %
  CHECK(covered < 398);
}

TEST_CASE("quantile refuses what it cannot order") {
  std::vector<double> none;
  std::vector<double> bad = {1.0, std::nan(""), 2.0};
  std::vector<double> good = {1.0, 2.0};
  CHECK_THROWS_AS(quantile(none, 0.5), InputError);
  CHECK_THROWS_AS(quantile(bad, 0.5), InputError);
  CHECK_THROWS_AS(quantile(good, 0.0), InputError);
  CHECK_THROWS_AS(quantile(good, 1.0), InputError);
}

TEST_CASE("moments keep their digits far from zero") {
  // 4, 7, 13, 16: mean 10, variance 30 by hand, also with 1e9 added.
  const std::vector<double> values = {4.0, 7.0, 13.0, 16.0};
  CHECK(moments(values).mean == 10.0);
  CHECK_THAT(moments(values).sd, near(std::sqrt(30.0), 1e-14));
  CHECK_THAT(moments(values).mean_standard_error, near(std::sqrt(7.5), 1e-14));
  const std::vector<double> far = {1e9 + 4.0, 1e9 + 7.0, 1e9 + 13.0, 1e9 + 16.0};
  CHECK(moments(far).mean == 1e9 + 10.0);
  CHECK_THAT(moments(far).sd, near(std::sqrt(30.0), 1e-9));
  const std::vector<double> single = {3.0};
  CHECK(moments(single).sd == 0.0);
  CHECK_THROWS_AS(moments(std::span<const double>{}), InputError);
}

TEST_CASE("rank correlation") {
  // 1 - 6 sum d^2 / (n (n^2 - 1)), by hand: d = 1, -1, 0, 1, -1 gives 1 - 24/120.
  const std::vector<double> x = {1.0, 2.0, 3.0, 4.0, 5.0};
  const std::vector<double> y = {20.0, 10.0, 30.0, 500.0, 40.0};
  CHECK_THAT(spearman(x, y), near(0.8, 1e-15));
  // Any rising function is 1, any falling one is -1.
  const std::vector<double> rising = {-1.0, 0.0, 8.0, 9.0, 1e6};
  const std::vector<double> falling = {9.0, 3.0, 2.0, 1.5, -7.0};
  CHECK(spearman(x, rising) == 1.0);
  CHECK(spearman(x, falling) == -1.0);
  // Ties share a rank: ranks 1.5 1.5 3 4 against 1 2 3 4 give 4.5 / sqrt(4.5 * 5), by hand.
  const std::vector<double> tied = {7.0, 7.0, 8.0, 9.0};
  const std::vector<double> four = {1.0, 2.0, 3.0, 4.0};
  CHECK_THAT(spearman(tied, four), near(std::sqrt(0.9), 1e-15));
  const std::vector<double> constant(4, 2.0);
  CHECK(spearman(constant, four) == 0.0);
  CHECK_THROWS_AS(spearman(x, four), InputError);
}

TEST_CASE("incomplete beta at closed forms") {
  CHECK_THAT(incomplete_beta(1.0, 1.0, 0.3), near(0.3, 1e-15));          // x
  CHECK_THAT(incomplete_beta(2.0, 1.0, 0.3), near(0.09, 1e-14));         // x^a
  CHECK_THAT(incomplete_beta(1.0, 3.0, 0.3), near(1.0 - 0.343, 1e-14));  // 1 - (1-x)^b
  CHECK_THAT(incomplete_beta(0.5, 0.5, 0.25), near(1.0 / 3.0, 1e-14));   // 2/pi asin(sqrt x)
  // Tables of the binomial distribution: at most 5 of 20 at 1/4 has probability 0.6172.
  CHECK_THAT(1.0 - incomplete_beta(6.0, 15.0, 0.25), near(0.6172, 5e-5));
  CHECK(incomplete_beta(3.0, 4.0, 0.0) == 0.0);
  CHECK(incomplete_beta(3.0, 4.0, 1.0) == 1.0);
  CHECK_THROWS_AS(incomplete_beta(0.0, 1.0, 0.5), InputError);
  CHECK_THROWS_AS(incomplete_beta(1.0, 1.0, 1.5), InputError);
}

TEST_CASE("Student's t at tabulated points, NIST/SEMATECH e-Handbook 1.3.6.7.2") {
  CHECK_THAT(student_t_quantile(0.975, 1), near(12.706, 5e-4));
  CHECK_THAT(student_t_quantile(0.975, 2), near(4.303, 5e-4));
  CHECK_THAT(student_t_quantile(0.975, 5), near(2.571, 5e-4));
  CHECK_THAT(student_t_quantile(0.975, 10), near(2.228, 5e-4));
  CHECK_THAT(student_t_quantile(0.975, 30), near(2.042, 5e-4));
  CHECK_THAT(student_t_quantile(0.975, 100), near(1.984, 5e-4));
  CHECK_THAT(student_t_quantile(0.999, 3), near(10.215, 5e-4));
}

TEST_CASE("Student's t at closed forms and limits") {
  for (const double p : {0.6, 0.9, 0.975, 0.9999}) {
    // One degree of freedom is Cauchy; two have a closed form.
    CHECK_THAT(student_t_quantile(p, 1) / std::tan(3.14159265358979323846 * (p - 0.5)),
               near(1.0, 1e-11));
    CHECK_THAT(student_t_quantile(p, 2) / ((2 * p - 1) / std::sqrt(2 * p * (1 - p))),
               near(1.0, 1e-11));
    CHECK_THAT(student_t_quantile(1 - p, 7), near(-student_t_quantile(p, 7), 1e-9));
  }
  CHECK_THAT(student_t_quantile(0.975, 1e8), near(inverse_normal(0.975), 1e-7));
  CHECK(student_t_quantile(0.5, 3) == 0.0);
  CHECK_THROWS_AS(student_t_quantile(0.975, 0.5), InputError);
  CHECK_THROWS_AS(student_t_quantile(1.0, 3), InputError);
}
