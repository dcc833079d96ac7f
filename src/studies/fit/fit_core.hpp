// Parameters of a pH model from readings with a stated, but not perfectly known, uncertainty.
// Private.
//
// Weighted least squares. The variance of the readings is known twice, as stated and from the
// scatter about the fit; both are pooled by their degrees of freedom, which a few readings need and
// many outvote:  s^2 = (nu0 + rss) / (nu0 + nu),  nu0 = 1/2 (relative uncertainty)^-2,
// JCGM 100:2008 G.4.2. Intervals are Student's with nu0 + nu degrees of freedom.
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "statistics/least_squares.hpp"

namespace gelwright {

/// One reading and its stated standard uncertainty, both in pH; `sd` above 0.
struct PhReading {
  double ph = 7;
  double sd = 0.05;
};

/// The pH the model gives for reading `index`. May throw.
using PhModel = std::function<double(std::span<const double> parameters, std::size_t index)>;

struct PhFit {
  Fit fit;                         ///< residuals are (model - reading) / sd
  double degrees_of_freedom = 0;   ///< nu0 + nu, for the t quantile
  double pooled_sd = 1;            ///< s, in units of the stated sd
  std::vector<double> covariance;  ///< row-major, units of the parameters; see Fit::unit_covariance

  /// Unit of the parameter; infinite where the readings do not say.
  double standard_error(std::size_t parameter) const;
  /// The standard error if all the other parameters were known exactly.
  double sole_standard_error(std::size_t parameter) const;
  /// Half-width of the 95 % interval.
  double half_width(std::size_t parameter) const;
  /// Standard error of a quantity with these derivatives by the parameters, JCGM 100:2008 5.2.2.
  /// Parameters whose covariance is not finite must have derivative 0.
  double standard_error_of(std::span<const double> gradient) const;
  /// t quantile that turns a standard error into a 95 % half-width.
  double coverage_factor() const;
};

/// `relative_uncertainty` is that of the stated sd itself, above 0. `bounds.residual_count` is set
/// here. Throws as fit_least_squares.
PhFit fit_ph(const PhModel& model, std::span<const PhReading> readings, FitProblem bounds,
             double relative_uncertainty);

}  // namespace gelwright
