#include "gelwright/gel_teach.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "gelling/constant_table.hpp"
#include "gelling/cup_slopes.hpp"
#include "gelling/kitchen_table.hpp"
#include "gelling/mathematics.hpp"

namespace gelwright::gel {

namespace {

using detail::kitchen;
using detail::lg;
using detail::Matrix;
using detail::normal_cdf;
using detail::Ready;
using detail::Vector;

/// Points of the shifts that stand for what is known: a net of three in each of strength, pH and
/// viscosity with the weights of a normal distribution (Gauss-Hermite, three points), calcium at
/// its mean.
struct Point {
  Vector u = {};
  double weight = 0;
};

/// Lower triangular root of a covariance.
Matrix root_of(const Matrix& covariance) {
  Matrix root = {};
  for (std::size_t j = 0; j < 4; ++j)
    for (std::size_t i = j; i < 4; ++i) {
      double rest = covariance[i][j];
      for (std::size_t k = 0; k < j; ++k) rest -= root[i][k] * root[j][k];
      if (i == j)
        root[i][j] = std::sqrt(std::max(0.0, rest));
      else
        root[i][j] = root[j][j] > 0 ? rest / root[j][j] : 0.0;
    }
  return root;
}

std::vector<Point> points_of(const Learnt& known) {
  constexpr double at[] = {-std::numbers::sqrt3, 0, std::numbers::sqrt3};
  constexpr double weight[] = {1.0 / 6, 2.0 / 3, 1.0 / 6};
  const Matrix root = root_of(known.covariance);
  std::vector<Point> points;
  for (std::size_t a = 0; a < 3; ++a)
    for (std::size_t b = 0; b < 3; ++b)
      for (std::size_t c = 0; c < 3; ++c) {
        const Vector z = {at[a], at[b], 0, at[c]};
        Point point{known.mean, weight[a] * weight[b] * weight[c]};
        for (std::size_t i = 0; i < 4; ++i)
          for (std::size_t j = 0; j <= i; ++j) point.u[i] += root[i][j] * z[j];
        points.push_back(point);
      }
  return points;
}

/// What is known before the cups: what was learnt, else the prior of the serving asked about.
Learnt known_of(const State& asked, const Learnt* learnt) {
  if (learnt != nullptr) return *learnt;
  Learnt known;
  const ShiftPrior prior = prior_of(asked);
  for (std::size_t i = 0; i < 4; ++i) known.covariance[i][i] = prior.sd[i] * prior.sd[i];
  // Where the pH is not sure, neither is how much acid takes a cup over the edge.
  known.covariance[1][1] += asked.ph_sd * asked.ph_sd;
  return known;
}

double density(double z) {
  return std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi);
}

/// Fisher information of a yes or no about whether a quantity lies over a cut, per square of it.
double of_yes_or_no(double over, double sd) {
  const double z = over / sd;
  const double yes = std::clamp(normal_cdf(z), 1e-9, 1 - 1e-9);
  return density(z) * density(z) / (yes * (1 - yes) * sd * sd);
}

/// Of a syringe: the liquid's thickness where the scale shows it, else only that it is off scale.
double of_syringe(double lg_thickness, double extra_sd) {
  const double thin = lg_thickness - lg(kitchen("gel.kitchen.empty_mpa_s"));
  const double thick = lg_thickness - lg(kitchen("gel.kitchen.stopped_mpa_s"));
  if (thin < 0) return of_yes_or_no(thin, std::hypot(kitchen("gel.kitchen.empty_sd"), extra_sd));
  const double sd = std::hypot(
      thick > 0 ? kitchen("gel.kitchen.stopped_sd") : kitchen("gel.kitchen.syringe_sd"), extra_sd);
  return thick > 0 ? of_yes_or_no(thick, sd) : 1 / (sd * sd);
}

/// What one cup tells at one point: the information matrix, and the chances of what is seen.
struct Told {
  Matrix information = {};
  double holds = 0;
  double groove_stands = 0;
};

Told told_by(const Ready& cup, const Vector& u) {
  const Values values = detail::values_at(u);
  const detail::Point there = detail::point_at(cup.setup, values);
  const Expected expected = detail::expected_at(cup, values, there);
  const ExtraSd extra = detail::extra_sd_of(cup, values, true);
  const detail::Slopes slopes = detail::slopes_at(cup, values, there);
  const double yield_sd = std::hypot(kitchen("gel.kitchen.yield_sd"), extra.yield);
  const double over = expected.lg_yield_pa - lg(cup_holds_from_pa(cup.reading.cup_width_cm));
  const double over_groove = expected.lg_yield_pa - lg(groove_stands_from_pa());
  const double by_yield = of_yes_or_no(over, yield_sd) + of_yes_or_no(over_groove, yield_sd);
  const double by_thickness = of_syringe(expected.lg_thickness_mpa_s, extra.thickness);
  Told told;
  told.holds = normal_cdf(over / yield_sd);
  told.groove_stands = normal_cdf(over_groove / yield_sd);
  for (std::size_t i = 0; i < 4; ++i)
    for (std::size_t j = 0; j < 4; ++j)
      told.information[i][j] = by_yield * slopes.yield[i] * slopes.yield[j] +
                               by_thickness * slopes.thickness[i] * slopes.thickness[j];
  return told;
}

void add(Matrix& sum, const Matrix& more) {
  for (std::size_t i = 0; i < 4; ++i)
    for (std::size_t j = 0; j < 4; ++j) sum[i][j] += more[i][j];
}

double variance_along(const Vector& slope, const Matrix& precision) {
  const Matrix covariance = detail::inverse(precision).matrix;
  double variance = 0;
  for (std::size_t i = 0; i < 4; ++i)
    for (std::size_t j = 0; j < 4; ++j) variance += slope[i] * covariance[i][j] * slope[j];
  return variance;
}

/// Everything that does not depend on which cups are chosen.
struct Question {
  std::vector<Point> points;
  std::vector<Vector> slope;  ///< of log10 G' of the serving asked about, at each point
  Matrix precision = {};      ///< before any cup

  Question(const State& asked, const Learnt* learnt) {
    const Learnt known = known_of(asked, learnt);
    points = points_of(known);
    // A shift that is known exactly would have no precision to invert.
    constexpr double least_variance = 1e-8;
    Matrix covariance = known.covariance;
    for (std::size_t i = 0; i < 4; ++i) covariance[i][i] += least_variance;
    precision = detail::inverse(covariance).matrix;
    for (const Point& point : points) {
      Vector by = {};
      for (std::size_t i = 0; i < 4; ++i) {
        Vector moved = point.u;
        moved[i] += detail::u_step;
        const double up = gel_at(asked, detail::values_at(moved)).lg_modulus_pa;
        moved[i] -= 2 * detail::u_step;
        const double down = gel_at(asked, detail::values_at(moved)).lg_modulus_pa;
        by[i] = (up - down) / (2 * detail::u_step);
      }
      slope.push_back(by);
    }
  }

  /// The doubt that is usual, given what is known at each point: its mean is that of the logarithm,
  /// so that the cups are chosen by the information they are expected to bring. One cup differs
  /// from the next whatever is known.
  double sd(const std::vector<Matrix>& at) const {
    double ln_variance = 0;
    for (std::size_t p = 0; p < points.size(); ++p)
      ln_variance += points[p].weight * std::log(detail::cup_to_cup_sd * detail::cup_to_cup_sd +
                                                 variance_along(slope[p], at[p]));
    return std::exp(ln_variance / 2);
  }
};

std::vector<Told> told_at(const State& cup, const Question& question) {
  const Ready ready{detail::set_up(cup), {}};
  std::vector<Told> told;
  for (const Point& point : question.points) told.push_back(told_by(ready, point.u));
  return told;
}

}  // namespace

TeachingPlan plan_cups(std::span<const State> candidates, const State& asked, std::size_t count,
                       const Learnt* learnt) {
  const Question question(asked, learnt);
  std::vector<std::vector<Told>> told;
  for (const State& candidate : candidates) told.push_back(told_at(candidate, question));
  std::vector<Matrix> known(question.points.size(), question.precision);
  TeachingPlan plan;
  plan.sd_before = question.sd(known);
  std::vector<bool> chosen(candidates.size(), false);
  while (plan.cups.size() < count) {
    TeachingCup best;
    bool any = false;
    for (std::size_t k = 0; k < told.size(); ++k) {
      if (chosen[k]) continue;
      std::vector<Matrix> with = known;
      for (std::size_t p = 0; p < with.size(); ++p) add(with[p], told[k][p].information);
      const double sd = question.sd(with);
      if (any && sd >= best.sd_after) continue;
      any = true;
      best = {k, 0, 0, sd};
    }
    if (!any) break;
    chosen[best.candidate] = true;
    for (std::size_t p = 0; p < known.size(); ++p) {
      add(known[p], told[best.candidate][p].information);
      best.chance_holds += question.points[p].weight * told[best.candidate][p].holds;
      best.chance_groove += question.points[p].weight * told[best.candidate][p].groove_stands;
    }
    plan.cups.push_back(best);
  }
  return plan;
}

double expected_sd(std::span<const State> cups, const State& asked, const Learnt* learnt) {
  const Question question(asked, learnt);
  std::vector<Matrix> known(question.points.size(), question.precision);
  for (const State& cup : cups) {
    const std::vector<Told> told = told_at(cup, question);
    for (std::size_t p = 0; p < known.size(); ++p) add(known[p], told[p].information);
  }
  return question.sd(known);
}

}  // namespace gelwright::gel
