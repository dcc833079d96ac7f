// How far to the next edge, and how much of what would mend a flag: a search over `evaluate`.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "gelwright/evaluate.hpp"
#include "gelwright/knob.hpp"

namespace gelwright {

/// Turning one knob by a signed amount, in the unit the knob's name states.
struct Change {
  Knob knob = Knob::acid_g;
  double amount = 0;
};

/// The smallest change of one knob, in one direction, that changes the likely texture.
struct Margin {
  Change change;
  Outlook becomes;
};

struct Advice {
  /// One for each flag of the evaluation: the change that clears it, where one was found.
  std::vector<std::optional<Change>> clears;
  std::vector<Margin> margins;  ///< of the pouch or bottle, nearest first within each knob
};

/// The inputs with one knob turned; amounts stop at zero. The water keeps its mass.
Inputs turned(const Inputs& inputs, const Change& change);

/// Searches each knob over a bounded range; some 200 evaluations. A change that would raise a new
/// `stop` flag is no remedy.
Advice advise(const Inputs& inputs, const Evaluation& evaluation);

/// "0.12 g less acid", "30 mg/L more calcium in the water", rounded to what a kitchen can do.
std::string to_text(const Change& change);

}  // namespace gelwright
