// Newton's method on the log posterior of the four shifts, the other parameters
// at their centre. The weight of a cup times the slope of its log likelihood is
// the exact slope of the mixture of "right" and "slip"; what that mixture takes
// off the curvature is counted in a step where the rest stays positive, and
// left out of the doubt that is reported.
#include "gelling/cup_climb.hpp"

#include <algorithm>
#include <cmath>

#include "base/parallel.hpp"
#include "gelling/kitchen_table.hpp"

namespace gelwright::gel::detail {

namespace {

constexpr double lg_step = 0.01;  // of a reading, for slope and curvature of its likelihood
constexpr double least_chance = 1e-300;
constexpr std::size_t block_cups = 64;
constexpr int most_steps = 100;
// What a cup's pH is unsure by moves a little with every step; held still in
// the end, so that the steps cannot chase it round.
constexpr int steps_with_fresh_doubt = 12;
// Squares of the distance to the top, in posterior standard deviations. Near it
// the slope is trusted more than the height, whose rounding a long series adds
// up.
constexpr double at_the_top = 1e-12;
constexpr double at_the_top_of_many = 1e-3;

constexpr std::size_t many_cups = 100;
constexpr double near_the_top = 0.1;
constexpr double settled = 1e-3;

constexpr int most_halvings = 20;

double ln(double chance) {
  return std::log(std::max(chance, least_chance));
}

/// Chance that the cup is right rather than a slip, and the log of both
/// together.
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

/// Of the log likelihood of one cup against log10 thickness and log10 yield.
struct CupBend {
  Bend thickness;
  Bend yield;
};

CupBend cup_bend(const CupReading& reading, const Expected& expected, ExtraSd extra) {
  CupBend out;
  CupReading only;
  only.cup_width_cm = reading.cup_width_cm;
  only.density_g_per_ml = reading.density_g_per_ml;
  const auto at = [&](double by) {
    Expected there = expected;
    there.lg_thickness_mpa_s += by;
    there.lg_yield_pa += by;
    return likelihood(only, there, extra).all();
  };
  if (reading.syringe_ml_left) {
    only.syringe_ml_left = reading.syringe_ml_left;
    out.thickness = bend_of(at);
    only.syringe_ml_left.reset();
  }
  const auto add_yield = [&] {
    const Bend more = bend_of(at);
    out.yield.slope += more.slope;
    out.yield.curvature += more.curvature;
  };
  if (reading.holds_when_turned) {
    only.holds_when_turned = reading.holds_when_turned;
    add_yield();
    only.holds_when_turned.reset();
  }
  if (reading.groove_stands) {
    only.groove_stands = reading.groove_stands;
    add_yield();
  }
  return out;
}

void add_square(Matrix& sum, double factor, const Vector& x) {
  for (std::size_t i = 0; i < x.size(); ++i)
    for (std::size_t j = 0; j < x.size(); ++j) sum[i][j] += factor * x[i] * x[j];
}

/// The log posterior, or a part of it, at one point.
struct Local {
  double ln_posterior = 0;
  Vector slope = {};
  Matrix curvature = {};
  Matrix of_mixture = {};  ///< taken off the curvature by cups that may be slips

  void operator+=(const Local& more) {
    ln_posterior += more.ln_posterior;
    for (std::size_t i = 0; i < slope.size(); ++i) {
      slope[i] += more.slope[i];
      for (std::size_t j = 0; j < slope.size(); ++j) {
        curvature[i][j] += more.curvature[i][j];
        of_mixture[i][j] += more.of_mixture[i][j];
      }
    }
  }
};

Local of_prior(const Vector& u, const ShiftPrior& prior) {
  Local out;
  for (std::size_t i = 0; i < u.size(); ++i) {
    const double precision = 1 / (prior.sd[i] * prior.sd[i]);
    out.ln_posterior -= precision * u[i] * u[i] / 2;
    out.slope[i] = -precision * u[i];
    out.curvature[i][i] = precision;
  }
  return out;
}

/// The part of one cup; `weight` becomes how far it is taken as right.
void add_cup(Local& sum, const Ready& cup, const ExtraSd& extra, const Values& values,
             double& weight) {
  const Point there = point_at(cup.setup, values);
  const Expected expected = expected_at(cup, values, there);
  const Verdict verdict = verdict_of(likelihood(cup.reading, expected, extra));
  weight = verdict.weight;
  sum.ln_posterior += cup.count * verdict.ln_chance;
  const Slopes slopes = slopes_at(cup, values, there);
  const CupBend bend = cup_bend(cup.reading, expected, extra);
  Vector slope = {};
  for (std::size_t i = 0; i < slope.size(); ++i) {
    slope[i] = bend.thickness.slope * slopes.thickness[i] + bend.yield.slope * slopes.yield[i];
    sum.slope[i] += cup.count * weight * slope[i];
  }
  add_square(sum.curvature, cup.count * weight * bend.thickness.curvature, slopes.thickness);
  add_square(sum.curvature, cup.count * weight * bend.yield.curvature, slopes.yield);
  add_square(sum.of_mixture, cup.count * weight * (1 - weight), slope);
}

/// Calls `work(first, end, block)` for blocks of cups, on all threads where
/// there are many.
template <class Work>
void for_blocks(std::size_t cups, Work work) {
  for_each_block((cups + block_cups - 1) / block_cups, 0, [&](std::size_t block) {
    work(block * block_cups, std::min((block + 1) * block_cups, cups), block);
  });
}

Local local_at(std::span<const Ready> cups, std::span<const ExtraSd> extra, const Vector& u,
               const ShiftPrior& prior, std::vector<double>& weight) {
  const Values values = values_at(u);
  std::vector<Local> parts((cups.size() + block_cups - 1) / block_cups);
  for_blocks(cups.size(), [&](std::size_t first, std::size_t end, std::size_t block) {
    for (std::size_t c = first; c < end; ++c)
      add_cup(parts[block], cups[c], extra[c], values, weight[c]);
  });
  Local out = of_prior(u, prior);
  for (const Local& part : parts) out += part;
  return out;
}

double ln_posterior(std::span<const Ready> cups, std::span<const ExtraSd> extra, const Vector& u,
                    const ShiftPrior& prior) {
  const Values values = values_at(u);
  std::vector<double> parts((cups.size() + block_cups - 1) / block_cups, 0);
  for_blocks(cups.size(), [&](std::size_t first, std::size_t end, std::size_t block) {
    for (std::size_t c = first; c < end; ++c)
      parts[block] +=
          cups[c].count *
          verdict_of(likelihood(cups[c].reading, expected_of(cups[c], values), extra[c])).ln_chance;
  });
  double sum = of_prior(u, prior).ln_posterior;
  for (const double part : parts) sum += part;
  return sum;
}

std::vector<ExtraSd> extra_sds_of(std::span<const Ready> cups, const Vector& u, bool ph_doubt) {
  const Values values = values_at(u);
  std::vector<ExtraSd> extra(cups.size());
  for_blocks(cups.size(), [&](std::size_t first, std::size_t end, std::size_t) {
    for (std::size_t c = first; c < end; ++c) extra[c] = extra_sd_of(cups[c], values, ph_doubt);
  });
  return extra;
}

double dot(const Vector& a, const Vector& b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  return sum;
}

Vector moved(const Vector& u, const Vector& by, double share) {
  Vector out = u;
  for (std::size_t i = 0; i < u.size(); ++i) out[i] += share * by[i];
  return out;
}

/// Where to go from here: with the mixture's part of the curvature where that
/// still has a top.
Vector newton_step(const Local& local) {
  Matrix whole = local.curvature;
  for (std::size_t i = 0; i < whole.size(); ++i)
    for (std::size_t j = 0; j < whole.size(); ++j) whole[i][j] -= local.of_mixture[i][j];
  Inverse inverted = inverse(whole);
  if (!inverted.positive_definite) inverted = inverse(local.curvature);
  return times(inverted.matrix, local.slope);
}

/// Square of the distance to the top, in posterior standard deviations, as the
/// slope has it.
double distance_of(const Local& local) {
  return dot(times(inverse(local.curvature).matrix, local.slope), local.slope);
}

}  // namespace

Climb climb(std::span<const Ready> cups, const Vector& start, const LearnOptions& options) {
  Climb out;
  out.u = start;
  out.weight.assign(cups.size(), 1);
  std::vector<ExtraSd> extra;
  double distance = 0, last_distance = 0, share = 1;
  Vector last_by = {};
  const double near_enough = cups.size() > many_cups ? at_the_top_of_many : at_the_top;
  for (int step = 0;; ++step) {
    if (step < steps_with_fresh_doubt)
      extra = extra_sds_of(cups, out.u, options.ph_doubt_in_reading);
    const Local local = local_at(cups, extra, out.u, options.prior, out.weight);
    out.ln_posterior = local.ln_posterior;
    out.curvature = local.curvature;
    distance = distance_of(local);
    if (distance < near_enough || step == most_steps) break;

    const Vector by = newton_step(local);
    if (distance < near_the_top) {
      // Steps to and fro that hardly come nearer are too long.
      if (dot(by, last_by) < 0 && distance > 0.5 * last_distance) share = std::max(share / 2, 0.1);
      out.u = moved(out.u, by, share);
    } else {
      double part = 1;
      int halvings = 0;
      while (ln_posterior(cups, extra, moved(out.u, by, part), options.prior) <
                 local.ln_posterior &&
             ++halvings < most_halvings)
        part /= 2;
      // Uphill by the slope, yet no step gets higher: a crease of the model is
      // the top.
      if (halvings == most_halvings) {
        distance = 0;
        break;
      }
      out.u = moved(out.u, by, part);
    }
    last_distance = distance;
    last_by = by;
  }
  out.converged = distance < settled;
  return out;
}

Vector likeliest_of_a_net(std::span<const Ready> cups, const LearnOptions& options) {
  constexpr double steps[] = {-2, -1, 0, 1, 2};
  const std::vector<ExtraSd> extra = extra_sds_of(cups, {}, options.ph_doubt_in_reading);
  Vector best = {};
  double highest = ln_posterior(cups, extra, best, options.prior);
  for (const double strength : steps)
    for (const double ph : steps)
      for (const double viscosity : steps) {
        const Vector u = {strength * options.prior.sd[0], ph * options.prior.sd[1], 0,
                          viscosity * options.prior.sd[3]};
        const double here = ln_posterior(cups, extra, u, options.prior);
        if (here <= highest) continue;
        best = u;
        highest = here;
      }
  return best;
}

}  // namespace gelwright::gel::detail
