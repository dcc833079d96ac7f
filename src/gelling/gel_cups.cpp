// Gauss-Newton on the log posterior of the four shifts, the other parameters at their centre. The
// weight of a cup times the slope of its log likelihood is the exact slope of the mixture of
// "right" and "slip", so the step can be checked against the log posterior itself.
#include "gelwright/gel_cups.hpp"

#include <algorithm>
#include <cmath>

#include "gelling/constant_table.hpp"
#include "gelling/defects.hpp"
#include "gelling/doubt.hpp"
#include "gelling/kitchen_table.hpp"
#include "gelling/relevance.hpp"

namespace gelwright::gel {

namespace {

using detail::kitchen;
using Vector = std::array<double, 4>;
using Matrix = std::array<Vector, 4>;

constexpr std::array<Id, 4> shifts = {Id::u_k, Id::u_ph, Id::u_ca, Id::u_v};
constexpr std::array<Shift, 4> shift_kinds = {Shift::strength, Shift::ph, Shift::calcium,
                                              Shift::viscosity};
constexpr double least_slope = 1e-3;  // a shift that moves less than this says nothing here
constexpr double u_step = 0.02;       // of a shift, for its slope
constexpr double lg_step = 0.01;      // of a reading, for slope and curvature of its likelihood
constexpr double ph_step = 0.02;
constexpr double least_chance = 1e-300;
constexpr int most_steps = 200;
constexpr double close_enough = 1e-8;
// The slopes are differences over a finite step, so the last steps may lose a trifle.
constexpr double trifle = 1e-6;

double ln(double chance) {
  return std::log(std::max(chance, least_chance));
}

/// Solves a x = b for a positive definite `a`, and gives its inverse and log determinant.
struct Inverse {
  Matrix matrix = {};
  double ln_determinant = 0;
};

Inverse inverse(Matrix a) {
  Inverse out;
  for (std::size_t i = 0; i < 4; ++i) out.matrix[i][i] = 1;
  // Gauss-Jordan without pivoting: safe, because the matrix is symmetric and positive definite.
  for (std::size_t i = 0; i < 4; ++i) {
    const double pivot = a[i][i];
    out.ln_determinant += std::log(pivot);
    for (std::size_t j = 0; j < 4; ++j) {
      a[i][j] /= pivot;
      out.matrix[i][j] /= pivot;
    }
    for (std::size_t k = 0; k < 4; ++k) {
      if (k == i) continue;
      const double factor = a[k][i];
      for (std::size_t j = 0; j < 4; ++j) {
        a[k][j] -= factor * a[i][j];
        out.matrix[k][j] -= factor * out.matrix[i][j];
      }
    }
  }
  return out;
}

Vector times(const Matrix& a, const Vector& x) {
  Vector out = {};
  for (std::size_t i = 0; i < 4; ++i)
    for (std::size_t j = 0; j < 4; ++j) out[i] += a[i][j] * x[j];
  return out;
}

Values values_at(const Vector& u) {
  Values values = central_values();
  for (std::size_t i = 0; i < 4; ++i) values[shifts[i]] = u[i];
  return values;
}

/// A cup made ready: what of it the shifts do not change.
struct Ready {
  detail::Setup setup;
  CupReading reading;
};

Expected expected_of(const Ready& cup, const Values& values) {
  const detail::Point point = detail::point_at(cup.setup, values);
  const Defects defects =
      detail::defects_of(cup.setup, values, point.dissolved, point.routes, point.sum.lg_modulus_pa);
  return {point.lg_thickness, point.sum.lg_yield_pa, defects.lumps, defects.weeps};
}

/// What the cup's readings are unsure by, beyond how finely they are read.
ExtraSd extra_sd_of(const Ready& cup, Values values, bool ph_doubt) {
  const double between = detail::cup_to_cup_sd;
  if (!ph_doubt) return {between, between};
  values[Id::in_ph] = ph_step;
  const Expected up = expected_of(cup, values);
  values[Id::in_ph] = -ph_step;
  const Expected down = expected_of(cup, values);
  const double per_ph = cup.setup.state->ph_sd / (2 * ph_step);
  return {std::hypot(between, per_ph * (up.lg_thickness_mpa_s - down.lg_thickness_mpa_s)),
          std::hypot(between, per_ph * (up.lg_yield_pa - down.lg_yield_pa))};
}

/// Chance that the cup is right rather than a slip, and the log of both together.
struct Verdict {
  double weight = 1;
  double ln_chance = 0;
};

Verdict verdict_of(const Likelihood& likelihood) {
  const double right = kitchen("gel.cups.right");
  const double as_right = right * std::max(likelihood.all(), least_chance);
  const double as_slip = (1 - right) * std::pow(kitchen("gel.cups.slip_reading"),
                                                static_cast<double>(likelihood.readings));
  return {as_right / (as_right + as_slip), std::log(as_right + as_slip)};
}

/// Slope and curvature of a log likelihood against one log10 reading.
struct Bend {
  double slope = 0;
  double curvature = 0;
};

template <class Chance>
Bend bend_of(Chance chance) {
  const double up = ln(chance(lg_step)), middle = ln(chance(0)), down = ln(chance(-lg_step));
  return {(up - down) / (2 * lg_step),
          std::max(0.0, -(up + down - 2 * middle) / (lg_step * lg_step))};
}

/// The log posterior's slope and curvature at one point, and the weight of every cup there.
struct Local {
  Vector slope = {};
  Matrix curvature = {};
};

Local local_at(std::span<const Ready> cups, std::span<const ExtraSd> extra, const Vector& u,
               const ShiftPrior& prior, std::vector<double>& weight) {
  Local out;
  for (std::size_t i = 0; i < 4; ++i) {
    const double precision = 1 / (prior.sd[i] * prior.sd[i]);
    out.slope[i] = -precision * u[i];
    out.curvature[i][i] = precision;
  }
  const auto count = [&out](double cup_weight, const Bend& bend, const Vector& slope_of_reading) {
    for (std::size_t i = 0; i < 4; ++i) {
      out.slope[i] += cup_weight * bend.slope * slope_of_reading[i];
      for (std::size_t j = 0; j < 4; ++j)
        out.curvature[i][j] +=
            cup_weight * bend.curvature * slope_of_reading[i] * slope_of_reading[j];
    }
  };
  for (std::size_t c = 0; c < cups.size(); ++c) {
    const Expected expected = expected_of(cups[c], values_at(u));
    weight[c] = verdict_of(likelihood(cups[c].reading, expected, extra[c])).weight;
    Vector thickness = {}, yield = {};
    for (std::size_t i = 0; i < 4; ++i) {
      Vector moved = u;
      moved[i] = u[i] + u_step;
      const Expected up = expected_of(cups[c], values_at(moved));
      moved[i] = u[i] - u_step;
      const Expected down = expected_of(cups[c], values_at(moved));
      thickness[i] = (up.lg_thickness_mpa_s - down.lg_thickness_mpa_s) / (2 * u_step);
      yield[i] = (up.lg_yield_pa - down.lg_yield_pa) / (2 * u_step);
    }
    const auto at = [&](double by_thickness, double by_yield) {
      Expected there = expected;
      there.lg_thickness_mpa_s += by_thickness;
      there.lg_yield_pa += by_yield;
      return likelihood(cups[c].reading, there, extra[c]);
    };
    count(weight[c], bend_of([&](double by) { return at(by, 0).syringe; }), thickness);
    count(weight[c], bend_of([&](double by) { return at(0, by).cup; }), yield);
    count(weight[c], bend_of([&](double by) { return at(0, by).groove; }), yield);
  }
  return out;
}

double ln_posterior(std::span<const Ready> cups, std::span<const ExtraSd> extra, const Vector& u,
                    const ShiftPrior& prior) {
  double sum = 0;
  for (std::size_t i = 0; i < 4; ++i) sum -= u[i] * u[i] / (2 * prior.sd[i] * prior.sd[i]);
  for (std::size_t c = 0; c < cups.size(); ++c)
    sum += verdict_of(likelihood(cups[c].reading, expected_of(cups[c], values_at(u)), extra[c]))
               .ln_chance;
  return sum;
}

}  // namespace

ShiftPrior widest_prior() {
  return {{kitchen("gel.cups.strength_sd"), kitchen("gel.cups.ph_sd"),
           kitchen("gel.cups.calcium_sd"), kitchen("gel.cups.viscosity_sd")}};
}

ShiftPrior prior_of(const State& state) {
  const detail::Setup setup = detail::set_up(state);
  const Values& values = central_values();
  const detail::Point centre = detail::point_at(setup, values);
  ShiftPrior prior = widest_prior();
  for (std::size_t i = 0; i < shifts.size(); ++i) {
    const std::size_t told_by = shifts[i] == Id::u_v ? detail::viscosity : detail::modulus;
    const double per_shift = std::fabs(
        detail::pull_of(setup, values, centre, shifts[i], u_step).slope[told_by] / u_step);
    double variance = 0;
    const auto absorb = [&](Id id) {
      const double sd = sd_of(id, state);
      if (sd <= 0 || !detail::matters(id, setup)) return;
      const double slope = detail::pull_of(setup, values, centre, id, sd).slope[told_by];
      variance += slope * slope;
    };
    for (const Parameter& row : parameters())
      if (row.shift == shift_kinds[i]) absorb(row.id);
    if (shifts[i] == Id::u_k) {
      absorb(Id::in_fg);
      // The forecast adds this much again for one cup against the next.
      variance -= detail::cup_to_cup_sd * detail::cup_to_cup_sd;
    }
    if (per_shift > least_slope && variance > 0) prior.sd[i] = std::sqrt(variance) / per_shift;
  }
  return prior;
}

Lesson learn(std::span<const Cup> cups, const LearnOptions& options) {
  std::vector<Ready> ready;
  for (const Cup& cup : cups) ready.push_back({detail::set_up(cup.state), cup.reading});
  Lesson out;
  out.weight.assign(cups.size(), 1);
  std::vector<ExtraSd> extra(cups.size());
  Vector u = {};
  Local local;
  for (int step = 0; step < most_steps && !out.converged; ++step) {
    for (std::size_t c = 0; c < cups.size(); ++c)
      extra[c] = extra_sd_of(ready[c], values_at(u), options.ph_doubt_in_reading);
    local = local_at(ready, extra, u, options.prior, out.weight);
    const Vector by = times(inverse(local.curvature).matrix, local.slope);
    const double before = ln_posterior(ready, extra, u, options.prior);
    double damping = 1, largest = 0;
    Vector next = u;
    do {
      largest = 0;
      for (std::size_t i = 0; i < 4; ++i) {
        next[i] = u[i] + damping * by[i];
        largest = std::max(largest, std::fabs(damping * by[i]));
      }
      damping /= 2;
    } while (largest > close_enough &&
             ln_posterior(ready, extra, next, options.prior) < before - trifle);
    u = next;
    out.converged = largest <= close_enough;
  }
  const Inverse covariance = inverse(local.curvature);
  out.learnt = {u, covariance.matrix};
  out.ln_evidence = ln_posterior(ready, extra, u, options.prior) - covariance.ln_determinant / 2;
  for (const double sd : options.prior.sd) out.ln_evidence -= std::log(sd);
  for (std::size_t c = 0; c < cups.size(); ++c)
    if (out.weight[c] < kitchen("gel.cups.repeat_below")) out.repeat.push_back(c);
  return out;
}

}  // namespace gelwright::gel
