#include "statistics/quantile.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>
#include <vector>

#include "base/roots.hpp"
#include "gelwright/error.hpp"

namespace gelwright::detail {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double outside_each_end = 0.025;  // half of the 5 % left outside a 95 % interval

void require(bool holds, const char* where, const char* what) {
  if (!holds) throw InputError("", {{where, what, ""}});
}

/// P(at most `count` of `n` fall below a quantile of this probability).
double binomial_cdf(double count, double n, double probability) {
  if (count < 0.0) return 0.0;
  if (count >= n) return 1.0;
  return incomplete_beta(n - count, count + 1.0, 1.0 - probability);  // DLMF 8.17.5
}

/// The largest `count` in [-1, n] with P(at most count) <= `share`; -1 if there is none.
double largest_count(double n, double probability, double share) {
  // By hand: Clang 14 does not take the integer ranges of libstdc++ 12.
  double known = -1;  // few enough, as far as is known
  double many = n;    // P(at most n) = 1 > share
  while (many - known > 1) {
    const double middle = std::floor((known + many) / 2);
    (binomial_cdf(middle, n, probability) <= share ? known : many) = middle;
  }
  return known;
}

double order_statistic(std::span<double> sample, std::size_t rank) {
  const auto nth = sample.begin() + static_cast<std::ptrdiff_t>(rank);
  std::nth_element(sample.begin(), nth, sample.end());
  return *nth;
}

/// Ranks from 1, ties at the mean of the places they fill.
std::vector<double> ranks(std::span<const double> values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(),
            [&](std::size_t i, std::size_t j) { return values[i] < values[j]; });
  std::vector<double> result(values.size());
  for (std::size_t first = 0; first < order.size();) {
    std::size_t last = first + 1;
    while (last < order.size() && values[order[last]] == values[order[first]]) ++last;
    const double mean_rank = (static_cast<double>(first) + static_cast<double>(last) + 1.0) / 2.0;
    for (std::size_t i = first; i < last; ++i) result[order[i]] = mean_rank;
    first = last;
  }
  return result;
}

/// Continued fraction of I_x(a, b), DLMF 8.17.22, by the modified Lentz method.
double beta_fraction(double a, double b, double x) {
  constexpr double tiny = 1e-300;
  constexpr int max_terms = 100000;
  const auto nonzero = [](double value) { return std::abs(value) < tiny ? tiny : value; };
  double c = 1.0;
  double d = 1.0 / nonzero(1.0 - (a + b) * x / (a + 1.0));
  double fraction = d;
  for (int m = 1; m <= max_terms; ++m) {
    const double even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
    d = 1.0 / nonzero(1.0 + even * d);
    c = nonzero(1.0 + even / c);
    fraction *= c * d;
    const double odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
    d = 1.0 / nonzero(1.0 + odd * d);
    c = nonzero(1.0 + odd / c);
    fraction *= c * d;
    if (std::abs(c * d - 1.0) < 1e-15) return fraction;
  }
  throw NotConverged("incomplete beta: the continued fraction did not settle");
}

/// P(T > t) for t >= 0, DLMF 8.17 with x = nu / (nu + t^2).
double student_upper_tail(double t, double nu) {
  const double t2 = t * t;
  // Of x and 1 - x, hand over the one that keeps its digits.
  if (t2 < nu) return 0.5 * (1.0 - incomplete_beta(0.5, nu / 2.0, t2 / (nu + t2)));
  return 0.5 * incomplete_beta(nu / 2.0, 0.5, nu / (nu + t2));
}

}  // namespace

Quantile quantile(std::span<double> sample, double probability) {
  require(!sample.empty(), "sample", "a quantile needs at least one value");
  require(probability > 0.0 && probability < 1.0, "probability",
          "a probability must lie between 0 and 1");
  require(std::none_of(sample.begin(), sample.end(), [](double x) { return std::isnan(x); }),
          "sample", "the sample holds a value that is not a number");
  const double n = static_cast<double>(sample.size());

  // The j-th smallest value (from 1) lies at or below the quantile unless fewer than j do, so its
  // chance of lying above is P(count <= j - 1); likewise at the upper end.
  const double low_rank = largest_count(n, probability, outside_each_end);
  const double high_rank = n - 1.0 - largest_count(n, 1.0 - probability, outside_each_end);

  const double place = (n - 1.0) * probability;
  const double floor_place = std::floor(place);
  const double fraction = place - floor_place;
  const std::size_t rank = static_cast<std::size_t>(floor_place);
  const double at = order_statistic(sample, rank);
  const double next =
      rank + 1 < sample.size()
          ? *std::min_element(sample.begin() + static_cast<std::ptrdiff_t>(rank) + 1, sample.end())
          : at;

  Quantile result;
  // An infinite neighbour with no share must not turn the value into 0 * infinity.
  result.value = fraction == 0.0 || next == at ? at : at + fraction * (next - at);
  result.low =
      low_rank < 0.0 ? -infinity : order_statistic(sample, static_cast<std::size_t>(low_rank));
  result.high =
      high_rank >= n ? infinity : order_statistic(sample, static_cast<std::size_t>(high_rank));
  return result;
}

Moments moments(std::span<const double> sample) {
  require(!sample.empty(), "sample", "a mean needs at least one value");
  Moments result;
  double squares = 0.0;
  for (const double value : sample) {
    ++result.count;
    const double before = value - result.mean;
    result.mean += before / static_cast<double>(result.count);
    squares += before * (value - result.mean);
  }
  if (result.count > 1) {
    result.sd = std::sqrt(squares / static_cast<double>(result.count - 1));
    result.mean_standard_error = result.sd / std::sqrt(static_cast<double>(result.count));
  }
  return result;
}

Spread spread_of(std::span<double> sample) {
  Spread spread;
  spread.moments = moments(sample);  // before the reordering, so that it is the same every time
  spread.median = quantile(sample, 0.5);
  spread.low = quantile(sample, outside_each_end);
  spread.high = quantile(sample, 1.0 - outside_each_end);
  return spread;
}

double spearman(std::span<const double> x, std::span<const double> y) {
  require(x.size() == y.size(), "y", "the two samples differ in length");
  require(x.size() >= 2, "x", "a correlation needs at least two pairs");
  for (std::size_t i = 0; i < x.size(); ++i)
    require(!std::isnan(x[i]) && !std::isnan(y[i]), "x",
            "the sample holds a value that is not a number");
  const std::vector<double> rank_x = ranks(x);
  const std::vector<double> rank_y = ranks(y);
  const double mean_rank = (static_cast<double>(x.size()) + 1.0) / 2.0;
  double xx = 0.0;
  double yy = 0.0;
  double xy = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double dx = rank_x[i] - mean_rank;
    const double dy = rank_y[i] - mean_rank;
    xx += dx * dx;
    yy += dy * dy;
    xy += dx * dy;
  }
  if (xx == 0.0 || yy == 0.0) return 0.0;
  return std::clamp(xy / std::sqrt(xx * yy), -1.0, 1.0);
}

double log_gamma(double x) {
  require(std::isfinite(x) && x > 0.0, "x", "the log of gamma needs a positive number");
  // From here on the first term left out is below 1e-16: 43867/244188 x^-17.
  constexpr double large = 8.0;
  // The coefficients of x^-1, x^-3, ...: the Bernoulli number B_2k over 2k (2k - 1).
  constexpr double series[] = {1.0 / 12.0,   -1.0 / 360.0,      1.0 / 1260.0, -1.0 / 1680.0,
                               1.0 / 1188.0, -691.0 / 360360.0, 1.0 / 156.0,  -3617.0 / 122400.0};
  double product = 1.0;  // gamma(x + n) = x (x + 1) ... (x + n - 1) gamma(x)
  for (; x < large; x += 1.0) product *= x;
  double sum = 0.0;
  for (std::size_t k = std::size(series); k-- > 0;) sum = sum / (x * x) + series[k];
  const double half_log_two_pi = 0.5 * std::log(2.0 * std::numbers::pi);
  return (x - 0.5) * std::log(x) - x + half_log_two_pi + sum / x - std::log(product);
}

double incomplete_beta(double a, double b, double x) {
  require(std::isfinite(a) && a > 0.0 && std::isfinite(b) && b > 0.0, "a",
          "the incomplete beta function needs positive parameters");
  require(x >= 0.0 && x <= 1.0, "x", "the incomplete beta function needs 0 <= x <= 1");
  if (x == 0.0 || x == 1.0) return x;
  const double log_front =
      log_gamma(a + b) - log_gamma(a) - log_gamma(b) + a * std::log(x) + b * std::log1p(-x);
  const double front = std::exp(log_front);
  // The fraction converges fast only below the mean; above it use I_x(a,b) = 1 - I_{1-x}(b,a).
  if (x <= (a + 1.0) / (a + b + 2.0)) return front * beta_fraction(a, b, x) / a;
  return 1.0 - front * beta_fraction(b, a, 1.0 - x) / b;
}

double student_t_quantile(double probability, double degrees_of_freedom) {
  require(probability > 0.0 && probability < 1.0, "probability",
          "a probability must lie between 0 and 1");
  require(std::isfinite(degrees_of_freedom) && degrees_of_freedom >= 1.0, "degrees_of_freedom",
          "Student's t needs at least one degree of freedom");
  const double tail = std::min(probability, 1.0 - probability);
  if (tail == 0.5) return 0.0;
  double low = 0.0;
  double high = 1.0;
  while (student_upper_tail(high, degrees_of_freedom) > tail) {
    low = high;
    high *= 2.0;
  }
  const auto excess = [&](double t) { return student_upper_tail(t, degrees_of_freedom) - tail; };
  return std::copysign(detail::find_root(excess, low, high), probability - 0.5);
}

}  // namespace gelwright::detail
