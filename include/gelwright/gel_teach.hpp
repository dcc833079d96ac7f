// Which cups would teach most about one serving.
//
// Each cup is read with a syringe and a spoon, and turned over. What it would tell depends on where
// the mix really lies, so the worth of a cup is its mean over draws of the shifts from what is
// known now. Cups are chosen one after the other, each the best beside those already chosen.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "gelwright/gel_cups.hpp"

namespace gelwright::gel {

/// One cup that was chosen.
struct TeachingCup {
  std::size_t candidate = 0;
  double chance_holds = 0;   ///< of the cup turned over, with what is known now, 0 to 1
  double chance_groove = 0;  ///< that a groove drawn with a spoon stands, likewise
  /// Of log10 G' of the serving asked about, with this cup and those before; as usual, see
  /// TeachingPlan.
  double sd_after = 0;
};

struct TeachingPlan {
  /// Of log10 G' of the serving asked about, from what cups can tell: the geometric mean over where
  /// the mix may lie, so that its logarithm counts the information of the cups.
  double sd_before = 0;
  std::vector<TeachingCup> cups;  ///< in the order they were chosen
};

/// Chooses `count` of the candidates, none twice, for the question how stiff `asked` becomes; its
/// pH is as unsure as it says. `learnt`: what earlier cups taught.
TeachingPlan plan_cups(std::span<const State> candidates, const State& asked, std::size_t count,
                       const Learnt* learnt = nullptr);

/// The same doubt after exactly these cups: to compare one series with another.
double expected_sd(std::span<const State> cups, const State& asked, const Learnt* learnt = nullptr);

}  // namespace gelwright::gel
