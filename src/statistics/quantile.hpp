// What a sample says, and how surely: order statistics, moments, rank correlation, and the
// distribution functions that go with them.
//
// Sources: sample quantile, Hyndman & Fan, Am. Stat. 50:361 (1996), definition 7; its interval from
// the binomial distribution of the count below it, David & Nagaraja, Order Statistics (2003) §7.1;
// running moments, Welford, Technometrics 4:419 (1962); incomplete beta, DLMF §8.17.
#pragma once

#include <cstddef>
#include <span>

namespace gelwright::detail {

/// A quantile of the population the sample came from, in the unit of the sample.
struct Quantile {
  double value = 0.0;  ///< the estimate
  double low = 0.0;    ///< at least 95 % interval for it; -infinity where the sample is too small
  double high = 0.0;   ///< the other end; +infinity where the sample is too small
};

struct Moments {
  std::size_t count = 0;
  double mean = 0.0;                 ///< unit of the sample
  double sd = 0.0;                   ///< n - 1 standard deviation; 0 for one value
  double mean_standard_error = 0.0;  ///< sd / sqrt(n); 0 for one value
};

/// The 95 % coverage interval of a Monte Carlo run with the run's own error.
struct Spread {
  Quantile median;
  Quantile low;   ///< 2.5 %
  Quantile high;  ///< 97.5 %
  Moments moments;
};

/// The quantile for 0 < probability < 1. Reorders `sample` and allocates nothing. The interval does
/// not depend on the shape of the population; it needs independent draws.
/// Throws InputError on an empty sample, a value that is not a number, or a probability outside.
Quantile quantile(std::span<double> sample, double probability);

/// Throws InputError on an empty sample. A value that is not a number makes the result one too.
Moments moments(std::span<const double> sample);

/// Reorders `sample`. Throws as `quantile` does.
Spread spread_of(std::span<double> sample);

/// Spearman's rank correlation, -1 to 1; ties share their mean rank. 0 if either side is constant:
/// it explains nothing. Throws InputError on unequal lengths, fewer than two pairs or not-a-number.
double spearman(std::span<const double> x, std::span<const double> y);

/// Natural logarithm of the gamma function for x > 0, absolute error below 1e-14 times the larger
/// of 1 and the result. Stirling's series, DLMF 5.11.1. Unlike the C library's it shares no state
/// between threads and gives the same bits on every platform. Throws InputError outside.
double log_gamma(double x);

/// Regularised incomplete beta function I_x(a, b) for a, b > 0 and 0 <= x <= 1, absolute error
/// below 1e-13 up to a + b = 100 and 1e-9 up to 1e6. Throws InputError outside, NotConverged if the
/// continued fraction does not settle.
double incomplete_beta(double a, double b, double x);

/// Student's t quantile: P(T <= t) = probability with `degrees_of_freedom` >= 1 (need not be
/// whole), relative error below 1e-10 up to 1e5 and 1e-9 up to 1e6. Throws InputError outside or
/// unless 0 < probability < 1.
double student_t_quantile(double probability, double degrees_of_freedom);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
