// Who gives a serving its protons, and who takes them. Private.
#pragma once

#include <optional>

#include "gelwright/equilibrium.hpp"
#include "gelwright/formula.hpp"

namespace gelwright::detail {

/// Parts of all protons given off in the serving, each 0 to 1.
struct ProtonShares {
  double alkalinity = 0;  ///< taken by the bicarbonate of the tap, on its way to CO2
  double gum = 0;         ///< taken by gum carboxylate
};

/// How much of a line's slow parts is dissolved, as the solved water phase has it.
struct DissolvedParts {
  double slow = 0;     ///< of what dissolves only as acid reaches it, 0 to 1
  double lactone = 0;  ///< of the lactone that has turned to acid, 0 to 1
};

/// The proton balance of a solved serving. Each line is sold with the protons its charges call for
/// (citric acid 3, trisodium citrate none) and is left with those its ions carry; what it lost it
/// gave off, what it gained it took. Water itself gives where hydroxide is formed. Gums count apart
/// from the line they come in. All that is given is taken by somebody or stays free, so no share
/// exceeds 1. Empty where nothing is given off.
std::optional<ProtonShares> proton_shares(const Equilibrium& solved, const Totals& totals,
                                          const Formula& formula, const Inputs& inputs,
                                          const DissolvedParts& dissolved);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
