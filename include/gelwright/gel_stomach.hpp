// Whether a serving gels in the stomach: mixed with its own mass of acid fluid at body warmth.
//
// The standard test (INFOGEST, Brodkorb et al. 2019) with our own sizes. Two answers, because an
// even gel of the diluted whole and pieces or films where acid reaches the undiluted serving are
// different things. A forecast of texture: nothing about benefit, nothing about safety.
#pragma once

#include "gelwright/gel_chances.hpp"

namespace gelwright::gel {

/// Chances, 0 to 1; `pieces` is never below `one_gel`.
struct Stomach {
  double one_gel = 0;  ///< the diluted whole sets evenly
  double pieces = 0;   ///< pieces or films
};

/// The serving once mixed. `diluted`: the gum too; without, what a skin of acid meets.
State in_stomach(const State& eaten, const Dissolved& dissolved, bool diluted);

/// `eaten` must be the outlook of `state`. The shifts of a person's own cups hold here too.
Stomach stomach_of(const State& state, const Outlook& eaten, const Learnt* learnt = nullptr);

/// The same at exactly these parameters: no doubt but the width of the words.
Stomach stomach_at(const State& state, const Outlook& eaten,
                   const Values& values = central_values());

}  // namespace gelwright::gel
