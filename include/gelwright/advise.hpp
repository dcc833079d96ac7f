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
  std::size_t solid = 0;  ///< which, for Knob::mass_g

  KnobOf which() const { return {knob, solid}; }
};

/// The smallest change of one knob, in one direction, that makes another texture the likeliest or
/// brings a defect.
struct Edge {
  Change change;
  std::string_view then;     ///< a texture or a defect, in words
  double chance_before = 0;  ///< of that texture or defect, 0 to 1
  double chance_after = 0;
};

/// The change that clears a flag, whole: evaluated at this very amount.
struct Remedy {
  Change change;
  /// Flags of `care` that were not there before; a change that raises a `stop` is no remedy.
  std::vector<FlagId> raises;
  /// The flag, in the evaluation's list, whose remedy this is too: one cause is mended once.
  std::optional<std::size_t> same_as;
};

/// How much to search for: each search is tens of evaluations.
struct AdviseParts {
  bool edges = true;
  bool notes = true;  ///< remedies of flags that are only worth knowing
};

struct Advice {
  /// One for each flag of the evaluation, where a change was found that clears it.
  std::vector<std::optional<Remedy>> clears;
  std::vector<Edge> edges;  ///< of the pouch or bottle
};

/// The inputs with one knob turned; amounts stop at zero. The water keeps its mass.
Inputs turned(const Inputs& inputs, const Change& change);

/// Searches each knob over a bounded range. Amounts are those of two figures of the batch in hand,
/// none smaller than its finest scale shows; acid is not advised where a pH meter would not see the
/// change.
Advice advise(const Inputs& inputs, const Evaluation& evaluation, AdviseParts parts = {});

/// "0.12 g less acid", "30 mg/L more calcium in the water", rounded to what a kitchen can do.
std::string to_text(const Change& change);
/// The same, naming the solid that Knob::mass_g turns.
std::string to_text(const Change& change, const Recipe& recipe);

}  // namespace gelwright
