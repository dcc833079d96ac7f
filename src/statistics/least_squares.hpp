// Nonlinear least squares for a handful of parameters with bounds, and what the fit is worth.
//
// Levenberg-Marquardt with a numerical Jacobian; a parameter that would leave its bounds is held
// there. Covariance s^2 (J^T J)^-1 at the solution, so errors hold to first order in the model.
// Sources: Moré, The Levenberg-Marquardt algorithm, Lecture Notes in Mathematics 630:105 (1978);
// damping, Nielsen, report IMM-REP-1999-05, Technical University of Denmark; residual diagnostics,
// Cook & Weisberg, Residuals and Influence in Regression (1982) ch. 2; condition of scaled columns,
// Belsley, Kuh & Welsch, Regression Diagnostics (1980) ch. 3.
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

namespace gelwright::detail {

/// Fills `residuals` with (model - reading) / weight unit, for these parameters. Give a reading of
/// standard uncertainty u the residual (model - reading) / u. A residual that is not finite counts
/// as infinitely bad. Anything it throws passes through.
using Residuals =
    std::function<void(std::span<const double> parameters, std::span<double> residuals)>;

/// Where the search starts and may go, one entry per parameter, each in its own unit.
/// lower = upper fixes a parameter; infinite bounds are allowed. A start other than 0 also tells
/// the search how large the parameter is; for 0 it takes a tenth of the width of the bounds, at
/// most 1.
struct FitProblem {
  std::vector<double> start;
  std::vector<double> lower;
  std::vector<double> upper;
  std::size_t residual_count = 0;
  int max_evaluations = 2000;  ///< calls of the residual function before giving up
  /// The largest cosine between the residuals and a column of the Jacobian that counts as a
  /// stationary point: that many standard errors away from it, times the root of the number of
  /// readings. The default is well above the noise of the differences (about 1e-10) and well below
  /// what moves a digit.
  double slope_tolerance = 1e-9;
  /// The search also ends after three steps in a row that lowered the sum of squares by less than
  /// this. 0: never, it goes on to the last digit.
  double least_gain = 0;
};

struct Fit {
  std::vector<double> parameters;
  /// Unit of the parameter. 0 for a fixed parameter; infinite where the readings do not say: held
  /// at a bound, not identifiable, or no degree of freedom left.
  std::vector<double> standard_errors;
  std::vector<double> correlation;  ///< row-major, 1 on the diagonal, 0 where an error is infinite
  /// (J^T J)^-1, row-major: the covariance where the residuals are known to have variance 1. Does
  /// not need a degree of freedom. 0 for a fixed parameter; infinite on the diagonal where the
  /// readings do not say.
  std::vector<double> unit_covariance;
  std::vector<double> residuals;
  std::vector<double> leverages;  ///< 0 to 1, share of a reading in its own fitted value
  std::vector<bool> at_bound;     ///< the readings pull the parameter against this bound
  double residual_sd = 0.0;       ///< sqrt(rss / degrees of freedom); 0 if there are none
  double rss = 0.0;               ///< sum of squared residuals
  int degrees_of_freedom = 0;     ///< residuals minus parameters that were free
  int evaluations = 0;
  /// Largest over smallest singular value of the Jacobian with columns scaled to length 1. Above
  /// 30 parameters lean on each other; infinite where one does not act or two cannot be told apart.
  double condition_number = 1.0;
};

/// Throws InputError for a problem that cannot be fitted (1 to 6 parameters, lengths, start outside
/// the bounds or without finite residuals, fewer residuals than free parameters), NotConverged with
/// the state it stopped in otherwise.
Fit fit_least_squares(const Residuals& residuals, const FitProblem& problem);

/// Externally studentised residuals: each against the fit without it, distributed as t with
/// degrees_of_freedom - 1. 0 where leverage is 1 (nothing else speaks for that reading). Empty if
/// fewer than two degrees of freedom are left.
std::vector<double> studentised_residuals(const Fit& fit);

/// Readings that fit worse than chance allows: |studentised residual| above the t quantile at
/// `chance` over the number of readings (Bonferroni), both sides. Indices in ascending order.
std::vector<std::size_t> outliers(const Fit& fit, double chance = 0.05);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
