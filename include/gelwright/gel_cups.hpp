// What a person's own cups teach about one mix.
//
// Four shifts for each mix: strength, the pH at which it sets, calcium, viscosity. A cup is taken
// as right, or as a slip as a whole (wrong amount, wrong label); slips are given little weight and
// named.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "gelwright/gel_kitchen.hpp"

namespace gelwright::gel {

/// One cup: what was made, and what was read off it.
struct Cup {
  State state;
  CupReading reading;
  double count = 1;  ///< so many were made and read exactly like this, above 0
};

/// Prior standard deviation of each shift, in the order of Learnt.
struct ShiftPrior {
  std::array<double, 4> sd;
};

/// The widest the shifts may be before any cup.
ShiftPrior widest_prior();

/// The prior that a forecast of this serving implies: each shift as wide as what it stands in for
/// matters here, so that a cup that tells nothing does not widen the forecast.
ShiftPrior prior_of(const State& state);

struct LearnOptions {
  ShiftPrior prior = widest_prior();
  /// Whether the doubt of each cup's own pH counts in its readings. It should: near the pH it sets
  /// at, .1 pH is .3 decades of stiffness.
  bool ph_doubt_in_reading = true;
};

struct Lesson {
  Learnt learnt;
  std::vector<double> weight;       ///< of each cup, 0 to 1: low means "make it again"
  std::vector<std::size_t> repeat;  ///< the cups to make again, from 0
  double ln_evidence = 0;           ///< of this identity of the gum, to compare with another's
  bool converged = false;
};

/// Whether a cup of this weight should be made again.
bool to_be_repeated(double weight);

/// Works with no cups too: the prior comes back.
Lesson learn(std::span<const Cup> cups, const LearnOptions& options = {});

}  // namespace gelwright::gel
