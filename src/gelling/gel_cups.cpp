// Gauss-Newton on the log posterior of the four shifts, the other parameters at their centre. The
// weight of a cup times the slope of its log likelihood is the exact slope of the mixture of
// "right" and "slip", so the step can be checked against the log posterior itself.
#include "gelwright/gel_cups.hpp"

#include <algorithm>
#include <cmath>

#include "gelling/constant_table.hpp"
#include "gelling/cup_slopes.hpp"
#include "gelling/doubt.hpp"
#include "gelling/kitchen_table.hpp"
#include "gelling/relevance.hpp"

namespace gelwright::gel {

namespace {

using detail::expected_of;
using detail::extra_sd_of;
using detail::kitchen;
using detail::Matrix;
using detail::Ready;
using detail::u_step;
using detail::values_at;
using detail::Vector;

constexpr const auto& shifts = shift_ids;
constexpr std::array<Shift, 4> shift_kinds = {Shift::strength, Shift::ph, Shift::calcium,
                                              Shift::viscosity};
constexpr double least_slope = 1e-3;  // a shift that moves less than this says nothing here
constexpr double lg_step = 0.01;      // of a reading, for slope and curvature of its likelihood
constexpr double least_chance = 1e-300;
constexpr double most_steps = 100;
// What a cup's pH is unsure by moves a little with every step; held still in the end, so that the
// steps cannot chase it round.
constexpr int steps_with_fresh_doubt = 12;
constexpr double close_enough = 1e-7;
// A coarse net is cast over so many cups at most, taken evenly from the series.
constexpr std::size_t most_cups_in_net = 60;
// The slopes are differences over a finite step, so the last steps may lose a trifle.
constexpr double trifle = 1e-6;

double ln(double chance) {
  return std::log(std::max(chance, least_chance));
}

Vector times(const Matrix& a, const Vector& x) {
  Vector out = {};
  for (std::size_t i = 0; i < 4; ++i)
    for (std::size_t j = 0; j < 4; ++j) out[i] += a[i][j] * x[j];
  return out;
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
    const auto [thickness, yield] = detail::slopes_at(cups[c], u);
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

std::vector<ExtraSd> extra_sds_of(std::span<const Ready> cups, const Vector& u, bool ph_doubt) {
  std::vector<ExtraSd> extra;
  extra.reserve(cups.size());
  for (const Ready& cup : cups) extra.push_back(extra_sd_of(cup, values_at(u), ph_doubt));
  return extra;
}

/// A hilltop of the log posterior and what it looks like there.
struct Climb {
  Vector u = {};
  Local local;
  std::vector<double> weight;
  double ln_posterior = 0;
  bool converged = false;
};

Climb climb(std::span<const Ready> cups, const Vector& start, const LearnOptions& options) {
  Climb out;
  out.u = start;
  out.weight.assign(cups.size(), 1);
  std::vector<ExtraSd> extra;
  // Slopes by difference are off by a little for each cup, and a long series tells far more than a
  // step of that size.
  const auto many = static_cast<double>(std::max<std::size_t>(1, cups.size() / most_cups_in_net));
  const double near = close_enough * many * many;
  for (int step = 0; step < most_steps / many && !out.converged; ++step) {
    if (step < steps_with_fresh_doubt)
      extra = extra_sds_of(cups, out.u, options.ph_doubt_in_reading);
    out.local = local_at(cups, extra, out.u, options.prior, out.weight);
    const Vector by = times(detail::inverse(out.local.curvature).matrix, out.local.slope);
    const double before = ln_posterior(cups, extra, out.u, options.prior);
    double damping = 1, largest = 0;
    Vector next = out.u;
    do {
      largest = 0;
      for (std::size_t i = 0; i < 4; ++i) {
        next[i] = out.u[i] + damping * by[i];
        largest = std::max(largest, std::fabs(damping * by[i]));
      }
      damping /= 2;
    } while (largest > near &&
             ln_posterior(cups, extra, next, options.prior) < before - trifle * many);
    out.u = next;
    out.converged = largest <= near;
  }
  out.ln_posterior = ln_posterior(cups, extra, out.u, options.prior);
  return out;
}

std::vector<Ready> thinned(const std::vector<Ready>& cups) {
  std::vector<Ready> some;
  const std::size_t step = 1 + (cups.size() - (cups.empty() ? 0 : 1)) / most_cups_in_net;
  for (std::size_t c = 0; c < cups.size(); c += step) some.push_back(cups[c]);
  return some;
}

/// The best of a coarse net of shifts, in steps of the prior.
Vector likeliest_start(std::span<const Ready> cups, const LearnOptions& options) {
  constexpr double steps[] = {-2, -1, 0, 1, 2};
  Vector best = {};
  double highest = 0;
  bool any = false;
  for (const double strength : steps)
    for (const double ph : steps)
      for (const double viscosity : steps) {
        const Vector u = {strength * options.prior.sd[0], ph * options.prior.sd[1], 0,
                          viscosity * options.prior.sd[3]};
        const double here = ln_posterior(cups, extra_sds_of(cups, u, options.ph_doubt_in_reading),
                                         u, options.prior);
        if (any && here <= highest) continue;
        any = true;
        best = u;
        highest = here;
      }
  return best;
}

}  // namespace

ShiftPrior widest_prior() {
  return {{kitchen("gel.cups.strength_sd"), kitchen("gel.cups.ph_sd"),
           kitchen("gel.cups.calcium_sd"), kitchen("gel.cups.viscosity_sd")}};
}

bool to_be_repeated(double weight) {
  return weight < kitchen("gel.cups.repeat_below");
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
  Climb top = climb(ready, Vector{}, options);
  // Where nearly every cup speaks against the forecast, all of them together pass for slips there;
  // from nearer to what they say they are right.
  const Vector elsewhere = likeliest_start(thinned(ready), options);
  if (elsewhere != Vector{}) {
    Climb other = climb(ready, elsewhere, options);
    if (other.ln_posterior > top.ln_posterior + trifle) top = std::move(other);
  }
  Lesson out;
  out.converged = top.converged;
  out.weight = std::move(top.weight);
  const detail::Inverse covariance = detail::inverse(top.local.curvature);
  out.learnt = {top.u, covariance.matrix};
  out.ln_evidence = top.ln_posterior - covariance.ln_determinant / 2;
  for (const double sd : options.prior.sd) out.ln_evidence -= std::log(sd);
  for (std::size_t c = 0; c < cups.size(); ++c)
    if (to_be_repeated(out.weight[c])) out.repeat.push_back(c);
  return out;
}

}  // namespace gelwright::gel
