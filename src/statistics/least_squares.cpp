#include "statistics/least_squares.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>
#include <sstream>
#include <string>

#include "gelwright/error.hpp"
#include "statistics/quantile.hpp"

namespace gelwright::detail {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double epsilon = std::numeric_limits<double>::epsilon();
constexpr std::size_t max_parameters = 6;

// Once no step helps any more (a model solved to 1e-11 is that rough), this is still 1e-4 of the
// standard error of a parameter, times the root of the number of readings.
constexpr double stalled_cosine = 1e-4;
constexpr double step_tolerance = 1e-11;
// Residuals below this share of what the parameters contribute are rounding: an exact fit. Ten
// times the step tolerance, so that a step too small to take never leaves more than this.
constexpr double exact_tolerance = 10.0 * step_tolerance;
// Singular values of the scaled Jacobian below this share of the largest are difference noise.
constexpr double rank_tolerance = 1e-8;
constexpr int small_gains_in_a_row = 3;

std::span<const double> view(const VectorXd& v) {
  return {v.data(), static_cast<std::size_t>(v.size())};
}
std::vector<double> to_vector(const VectorXd& v) {
  return {v.data(), v.data() + v.size()};
}
VectorXd to_eigen(const std::vector<double>& v) {
  return Eigen::Map<const VectorXd>(v.data(), static_cast<Index>(v.size()));
}

void check(const FitProblem& problem) {
  std::vector<Problem> found;
  const std::size_t n = problem.start.size();
  if (n < 1 || n > max_parameters)
    found.push_back({"start", "a fit needs one to six parameters", ""});
  if (problem.lower.size() != n || problem.upper.size() != n) {
    found.push_back({"lower", "one pair of bounds is needed for each parameter", ""});
  } else {
    std::size_t free = 0;
    for (std::size_t j = 0; j < n; ++j) {
      const bool inside = std::isfinite(problem.start[j]) && problem.lower[j] <= problem.start[j] &&
                          problem.start[j] <= problem.upper[j];
      if (!inside)
        found.push_back({"start/" + std::to_string(j), "the start lies outside its bounds", ""});
      if (problem.lower[j] < problem.upper[j]) ++free;
    }
    if (problem.residual_count < free)
      found.push_back({"residuals", "fewer readings than unknowns", "add readings or fix one"});
    if (problem.residual_count == 0) found.push_back({"residuals", "no readings to fit", ""});
  }
  if (!found.empty()) throw InputError("", found);
}

/// The search and all it carries from step to step.
struct Search {
  const Residuals& function;
  const FitProblem& problem;
  VectorXd lower, upper;
  VectorXd scale;       ///< a typical size of each parameter, for steps near zero
  VectorXd parameters;  ///< best so far
  VectorXd residuals;   ///< at `parameters`
  MatrixXd jacobian;    ///< at `parameters`, columns of fixed parameters zero
  double rss = 0.0;
  int evaluations = 0;
  int small_gains = 0;  ///< steps in a row that were hardly worth it

  Search(const Residuals& f, const FitProblem& p)
      : function(f),
        problem(p),
        lower(to_eigen(p.lower)),
        upper(to_eigen(p.upper)),
        scale(to_eigen(p.start).cwiseAbs()),
        parameters(to_eigen(p.start)),
        residuals(static_cast<Index>(p.residual_count)),
        jacobian(static_cast<Index>(p.residual_count), static_cast<Index>(p.start.size())) {
    for (Index j = 0; j < scale.size(); ++j) {
      const double width = upper[j] - lower[j];
      if (scale[j] == 0.0) scale[j] = width > 0.0 ? std::min(0.1 * width, 1.0) : 1.0;
    }
  }

  bool fixed(Index j) const { return !(lower[j] < upper[j]); }

  /// Sum of squares; infinite where the model has no answer.
  double evaluate(const VectorXd& at, VectorXd& out) {
    if (evaluations >= problem.max_evaluations) give_up("the evaluations ran out");
    ++evaluations;
    function(view(at), {out.data(), static_cast<std::size_t>(out.size())});
    const double sum = out.squaredNorm();
    return std::isfinite(sum) ? sum : infinity;
  }

  [[noreturn]] void give_up(const std::string& why) const {
    std::ostringstream text;
    text.precision(9);
    text << "least squares: " << why << " after " << evaluations << " evaluations, rss " << rss
         << ", parameters";
    for (const double value : parameters) text << ' ' << value;
    throw NotConverged(text.str());
  }

  void differentiate();
  std::vector<Index> movable() const;
  double largest_cosine(const std::vector<Index>& free) const;
  bool exact() const;
  bool on_a_crease(const std::vector<Index>& free);
  bool step(double& damping, double& growth, VectorXd& column_scale);
  void run();
};

/// Second-order differences: central inside, three-point one-sided where a bound is too near.
void Search::differentiate() {
  const double relative_step = std::cbrt(epsilon);
  VectorXd one(residuals.size());
  VectorXd two(residuals.size());
  jacobian.setZero();
  for (Index j = 0; j < parameters.size(); ++j) {
    if (fixed(j)) continue;
    double h = relative_step * std::max(std::abs(parameters[j]), 1e-3 * scale[j]);
    h = std::min(h, (upper[j] - lower[j]) / 4.0);
    const bool room_above = parameters[j] + h <= upper[j];
    const bool room_below = parameters[j] - h >= lower[j];
    VectorXd at = parameters;
    const auto value_at = [&](double x, VectorXd& out) {
      at[j] = x;
      if (!std::isfinite(evaluate(at, out))) give_up("the model has no answer beside this point");
      return at[j] - parameters[j];  // the step that the rounding of x left
    };
    if (room_above && room_below) {
      const double up = value_at(parameters[j] + h, one);
      const double down = value_at(parameters[j] - h, two);
      jacobian.col(j) = (one - two) / (up - down);
    } else {
      const double side = room_above ? h : -h;
      const double near = value_at(parameters[j] + side, one);
      const double far = value_at(parameters[j] + 2.0 * side, two);
      jacobian.col(j) =
          (far / near * (one - residuals) - near / far * (two - residuals)) / (far - near);
    }
  }
}

/// Parameters that may move: neither fixed nor pushed against a bound.
std::vector<Index> Search::movable() const {
  std::vector<Index> free;
  for (Index j = 0; j < parameters.size(); ++j) {
    if (fixed(j)) continue;
    const double slope = jacobian.col(j).dot(residuals);  // half the gradient of rss
    const bool pushed_down = parameters[j] <= lower[j] && slope >= 0.0;
    const bool pushed_up = parameters[j] >= upper[j] && slope <= 0.0;
    if (!pushed_down && !pushed_up) free.push_back(j);
  }
  return free;
}

double Search::largest_cosine(const std::vector<Index>& free) const {
  double largest = 0.0;
  for (const Index j : free) {
    const double lengths = jacobian.col(j).norm() * residuals.norm();
    if (lengths > 0.0)
      largest = std::max(largest, std::abs(jacobian.col(j).dot(residuals)) / lengths);
  }
  return largest;
}

/// True where only rounding is left of the residuals, whose slope then means nothing.
bool Search::exact() const {
  double contribution = 0.0;
  for (Index j = 0; j < parameters.size(); ++j)
    contribution = std::max(contribution,
                            jacobian.col(j).norm() * std::max(std::abs(parameters[j]), scale[j]));
  return residuals.norm() <= exact_tolerance * contribution;
}

/// True where the model bends sharply and the best lies on the bend: its slope is not zero there,
/// yet no parameter moved alone, either way, fits better.
bool Search::on_a_crease(const std::vector<Index>& free) {
  const double relative_step = std::cbrt(epsilon);
  VectorXd beside(residuals.size());
  for (const Index j : free) {
    const double h = relative_step * std::max(std::abs(parameters[j]), 1e-3 * scale[j]);
    for (const double side : {-h, h}) {
      VectorXd at = parameters;
      at[j] = std::clamp(parameters[j] + side, lower[j], upper[j]);
      if (evaluate(at, beside) < rss) return false;
    }
  }
  return true;
}

/// Tries one damped step. True when the search is over.
bool Search::step(double& damping, double& growth, VectorXd& column_scale) {
  const std::vector<Index> free = movable();
  if (free.empty() || rss == 0.0 || largest_cosine(free) < problem.slope_tolerance) return true;

  const Index n = static_cast<Index>(free.size());
  MatrixXd stacked = MatrixXd::Zero(residuals.size() + n, n);
  VectorXd target = VectorXd::Zero(residuals.size() + n);
  target.head(residuals.size()) = -residuals;
  for (Index k = 0; k < n; ++k) {
    stacked.col(k).head(residuals.size()) = jacobian.col(free[static_cast<std::size_t>(k)]);
    const double d = column_scale[free[static_cast<std::size_t>(k)]];
    stacked(residuals.size() + k, k) = std::sqrt(damping) * (d > 0.0 ? d : 1.0);
  }
  const VectorXd move = stacked.colPivHouseholderQr().solve(target);

  VectorXd trial = parameters;
  for (Index k = 0; k < n; ++k) {
    const Index j = free[static_cast<std::size_t>(k)];
    trial[j] = std::clamp(parameters[j] + move[k], lower[j], upper[j]);
  }
  const VectorXd moved = trial - parameters;
  bool tiny = true;
  for (Index j = 0; j < moved.size(); ++j)
    tiny =
        tiny && std::abs(moved[j]) <= step_tolerance * (std::abs(parameters[j]) + 1e-3 * scale[j]);
  const double predicted = rss - (residuals + jacobian * moved).squaredNorm();
  if (tiny || predicted <= 4.0 * epsilon * rss) {
    if (largest_cosine(free) < stalled_cosine || exact()) return true;
    if (tiny && on_a_crease(free)) return true;
    if (tiny) give_up("no step helps, yet the slope is not zero");
  }

  VectorXd trial_residuals(residuals.size());
  const double trial_rss = evaluate(trial, trial_residuals);
  const double gain = predicted > 0.0 ? (rss - trial_rss) / predicted : -1.0;
  if (!(trial_rss < rss) || gain < 1e-4) {
    damping *= growth;
    growth *= 2.0;
    return false;
  }
  small_gains = rss - trial_rss < problem.least_gain ? small_gains + 1 : 0;
  parameters = trial;
  residuals = trial_residuals;
  rss = trial_rss;
  damping *= std::max(1.0 / 3.0, 1.0 - std::pow(2.0 * gain - 1.0, 3));
  growth = 2.0;
  differentiate();
  column_scale = column_scale.cwiseMax(jacobian.colwise().norm().transpose());
  return small_gains >= small_gains_in_a_row;
}

void Search::run() {
  rss = evaluate(parameters, residuals);
  if (!std::isfinite(rss))
    throw InputError("", {{"start", "the model has no finite answer at the start", ""}});
  differentiate();
  VectorXd column_scale = jacobian.colwise().norm().transpose();
  double damping = 1e-3;
  double growth = 2.0;
  while (!step(damping, growth, column_scale)) {
  }
}

/// Errors, correlation, leverage and condition from the free columns of the Jacobian.
void appraise(const Search& search, const std::vector<Index>& free, Fit& fit) {
  const Index count = search.parameters.size();
  const Index n = static_cast<Index>(free.size());
  const Index readings = search.residuals.size();
  VectorXd errors = VectorXd::Zero(count);
  for (Index j = 0; j < count; ++j)
    if (!search.fixed(j)) errors[j] = infinity;
  MatrixXd correlation = MatrixXd::Identity(count, count);
  MatrixXd unit = MatrixXd::Zero(count, count);
  for (Index j = 0; j < count; ++j)
    if (!search.fixed(j)) unit(j, j) = infinity;
  fit.leverages.assign(static_cast<std::size_t>(readings), 0.0);

  if (n > 0) {
    MatrixXd scaled(readings, n);
    VectorXd length(n);
    for (Index k = 0; k < n; ++k) {
      const auto column = search.jacobian.col(free[static_cast<std::size_t>(k)]);
      length[k] = column.norm();
      if (length[k] > 0.0)
        scaled.col(k) = column / length[k];
      else
        scaled.col(k).setZero();
    }
    const Eigen::JacobiSVD<MatrixXd> svd(scaled, Eigen::ComputeThinU | Eigen::ComputeThinV);
    const VectorXd& sigma = svd.singularValues();
    const double floor = rank_tolerance * sigma[0];
    const bool full_rank = sigma[0] > 0.0 && sigma[n - 1] > floor;
    fit.condition_number = full_rank ? sigma[0] / sigma[n - 1] : infinity;

    MatrixXd inverse = MatrixXd::Zero(n, n);  // of the scaled normal matrix
    std::vector<bool> known(static_cast<std::size_t>(n), true);
    for (Index i = 0; i < n; ++i) {
      const VectorXd direction = svd.matrixV().col(i);
      if (sigma[0] > 0.0 && sigma[i] > floor) {
        inverse += direction * direction.transpose() / (sigma[i] * sigma[i]);
        for (Index r = 0; r < readings; ++r)
          fit.leverages[static_cast<std::size_t>(r)] += std::pow(svd.matrixU()(r, i), 2);
      } else {
        for (Index k = 0; k < n; ++k)
          if (std::abs(direction[k]) > 1e-4) known[static_cast<std::size_t>(k)] = false;
      }
    }
    for (Index k = 0; k < n; ++k) {
      const Index j = free[static_cast<std::size_t>(k)];
      if (!known[static_cast<std::size_t>(k)]) continue;
      for (Index l = 0; l <= k; ++l) {
        if (!known[static_cast<std::size_t>(l)]) continue;
        const Index i = free[static_cast<std::size_t>(l)];
        unit(i, j) = unit(j, i) = inverse(k, l) / (length[k] * length[l]);
      }
      if (fit.degrees_of_freedom < 1) continue;
      errors[j] = fit.residual_sd * std::sqrt(inverse(k, k)) / length[k];
      for (Index l = 0; l < k; ++l) {
        if (!known[static_cast<std::size_t>(l)]) continue;
        const Index i = free[static_cast<std::size_t>(l)];
        const double value = inverse(k, l) / std::sqrt(inverse(k, k) * inverse(l, l));
        correlation(i, j) = correlation(j, i) = std::clamp(value, -1.0, 1.0);
      }
    }
  }
  fit.standard_errors = to_vector(errors);
  fit.correlation.assign(correlation.data(), correlation.data() + correlation.size());
  fit.unit_covariance.assign(unit.data(), unit.data() + unit.size());
}

}  // namespace

Fit fit_least_squares(const Residuals& residuals, const FitProblem& problem) {
  check(problem);
  Search search(residuals, problem);
  search.run();
  const std::vector<Index> free = search.movable();

  Fit fit;
  fit.parameters = to_vector(search.parameters);
  fit.residuals = to_vector(search.residuals);
  fit.rss = search.rss;
  fit.evaluations = search.evaluations;
  fit.degrees_of_freedom =
      static_cast<int>(search.residuals.size()) - static_cast<int>(free.size());
  if (fit.degrees_of_freedom > 0) fit.residual_sd = std::sqrt(fit.rss / fit.degrees_of_freedom);
  for (Index j = 0; j < search.parameters.size(); ++j)
    fit.at_bound.push_back(!search.fixed(j) &&
                           std::find(free.begin(), free.end(), j) == free.end());
  appraise(search, free, fit);
  return fit;
}

std::vector<double> studentised_residuals(const Fit& fit) {
  const double dof = fit.degrees_of_freedom;
  if (dof < 2.0) return {};
  std::vector<double> result(fit.residuals.size(), 0.0);
  for (std::size_t i = 0; i < result.size(); ++i) {
    const double room = 1.0 - fit.leverages[i];
    if (room < 1e-9 || fit.residuals[i] == 0.0) continue;
    // What is left of the sum of squares once this reading is taken out.
    const double squared = fit.residuals[i] * fit.residuals[i];
    const double rest = std::max(fit.rss - squared / room, 0.0);
    result[i] = std::copysign(std::sqrt(squared * (dof - 1.0) / (rest * room)), fit.residuals[i]);
  }
  return result;
}

std::vector<std::size_t> outliers(const Fit& fit, double chance) {
  if (!(chance > 0.0 && chance < 1.0))
    throw InputError("", {{"chance", "a chance must lie between 0 and 1", ""}});
  const std::vector<double> t = studentised_residuals(fit);
  if (t.empty()) return {};
  const double each_side = chance / (2.0 * static_cast<double>(t.size()));
  const double limit = student_t_quantile(1.0 - each_side, fit.degrees_of_freedom - 1);
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < t.size(); ++i)
    if (std::abs(t[i]) > limit) found.push_back(i);
  return found;
}

}  // namespace gelwright::detail
