#include "studies/fit/fit_core.hpp"

#include <Eigen/Dense>
#include <cmath>

#include "statistics/quantile.hpp"

namespace gelwright {

double PhFit::standard_error(std::size_t parameter) const {
  return std::sqrt(covariance[parameter * fit.parameters.size() + parameter]);
}

double PhFit::sole_standard_error(std::size_t parameter) const {
  const std::size_t n = fit.parameters.size();
  std::vector<std::size_t> free;
  Eigen::Index wanted = -1;
  for (std::size_t j = 0; j < n; ++j) {
    if (!(standard_error(j) > 0) || !std::isfinite(standard_error(j))) continue;
    if (j == parameter) wanted = static_cast<Eigen::Index>(free.size());
    free.push_back(j);
  }
  if (wanted < 0) return standard_error(parameter);
  const auto size = static_cast<Eigen::Index>(free.size());
  Eigen::MatrixXd block(size, size);
  for (Eigen::Index i = 0; i < size; ++i)
    for (Eigen::Index j = 0; j < size; ++j)
      block(i, j) =
          covariance[free[static_cast<std::size_t>(i)] * n + free[static_cast<std::size_t>(j)]];
  // The inverse of the covariance holds the variance left when the others stand still.
  return 1 / std::sqrt(block.inverse()(wanted, wanted));
}

double PhFit::coverage_factor() const {
  return student_t_quantile(0.975, degrees_of_freedom);
}

double PhFit::half_width(std::size_t parameter) const {
  return coverage_factor() * standard_error(parameter);
}

double PhFit::standard_error_of(std::span<const double> gradient) const {
  const std::size_t n = fit.parameters.size();
  double variance = 0;
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j)
      if (gradient[i] != 0 && gradient[j] != 0)
        variance += gradient[i] * covariance[i * n + j] * gradient[j];
  return std::sqrt(variance);
}

PhFit fit_ph(const PhModel& model, std::span<const PhReading> readings, FitProblem bounds,
             double relative_uncertainty) {
  bounds.residual_count = readings.size();
  PhFit result;
  result.fit = fit_least_squares(
      [&](std::span<const double> parameters, std::span<double> residuals) {
        for (std::size_t i = 0; i < readings.size(); ++i)
          residuals[i] = (model(parameters, i) - readings[i].ph) / readings[i].sd;
      },
      bounds);
  const double stated = 0.5 / (relative_uncertainty * relative_uncertainty);
  result.degrees_of_freedom = stated + result.fit.degrees_of_freedom;
  const double variance = (stated + result.fit.rss) / result.degrees_of_freedom;
  result.pooled_sd = std::sqrt(variance);
  result.covariance = result.fit.unit_covariance;
  for (double& each : result.covariance) each *= variance;
  return result;
}

}  // namespace gelwright
