// The lesson: a climb from the forecast as it stands and one from what the cups say they are.
#include "gelwright/gel_cups.hpp"

#include <cmath>

#include "gelling/constant_table.hpp"
#include "gelling/cup_climb.hpp"
#include "gelling/kitchen_table.hpp"
#include "gelling/relevance.hpp"

namespace gelwright::gel {

namespace {

using detail::Climb;
using detail::kitchen;
using detail::Ready;
using detail::u_step;
using detail::Vector;

constexpr const auto& shifts = shift_ids;
constexpr std::array<Shift, 4> shift_kinds = {Shift::strength, Shift::ph, Shift::calcium,
                                              Shift::viscosity};
constexpr double least_slope = 1e-3;  // a shift that moves less than this says nothing here
// So many cups at most, taken evenly from the series, find which hill is the highest.
constexpr std::size_t most_cups_for_the_hill = 60;
constexpr double clearly_higher = 1e-6;  // of a log posterior

std::vector<Ready> thinned(const std::vector<Ready>& cups) {
  std::vector<Ready> some;
  const std::size_t step = 1 + (cups.size() - (cups.empty() ? 0 : 1)) / most_cups_for_the_hill;
  for (std::size_t c = 0; c < cups.size(); c += step) some.push_back(cups[c]);
  return some;
}

/// Where nearly every cup speaks against the forecast, all of them together pass for slips there;
/// from nearer to what they say they are right.
Climb highest_top(const std::vector<Ready>& cups, const LearnOptions& options) {
  Climb top = detail::climb(cups, {}, options);
  const Vector elsewhere = detail::likeliest_of_a_net(cups, options);
  if (elsewhere == Vector{}) return top;
  Climb other = detail::climb(cups, elsewhere, options);
  return other.ln_posterior > top.ln_posterior + clearly_higher ? other : top;
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
  for (const Cup& cup : cups) ready.push_back({detail::set_up(cup.state), cup.reading, cup.count});
  const std::vector<Ready> some = thinned(ready);
  Climb top = highest_top(some, options);
  if (some.size() < ready.size()) top = detail::climb(ready, top.u, options);
  Lesson out;
  out.converged = top.converged;
  out.weight = std::move(top.weight);
  const detail::Inverse covariance = detail::inverse(top.curvature);
  out.learnt = {top.u, covariance.matrix};
  out.ln_evidence = top.ln_posterior - covariance.ln_determinant / 2;
  for (const double sd : options.prior.sd) out.ln_evidence -= std::log(sd);
  for (std::size_t c = 0; c < cups.size(); ++c)
    if (to_be_repeated(out.weight[c])) out.repeat.push_back(c);
  return out;
}

}  // namespace gelwright::gel
