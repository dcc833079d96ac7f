#include "evaluation/turning.hpp"

#include <algorithm>

#include "base/rounding.hpp"
#include "gelwright/batch.hpp"

namespace gelwright::detail {

double furthest(const KnobOf& which, double direction, const Inputs& inputs,
                const Formula& formula) {
  if (!has_knob(*inputs.recipe, which)) return 0;
  const double now = amount_of(which, inputs);
  switch (info_of(which.knob).turns) {
    case KnobTurns::acid:
      return direction > 0 ? std::max(2 * now, 0.01 * formula.total_g) : -now;
    case KnobTurns::calcium_salt:
      return direction > 0 ? std::max(4 * now, 0.01 * formula.total_g) : -now;
    case KnobTurns::water:
      return direction > 0 ? std::max(formula.total_g, now) : -0.8 * now;
    case KnobTurns::tap_share:
      return direction > 0 ? 1 : 0;
    case KnobTurns::tap_ion:
      return direction > 0 ? std::max(400.0, 4 * now) : -now;
    case KnobTurns::solid:
      return direction > 0 ? 2 * now : -now;
    default:
      return 0;  // another recipe, not a remedy
  }
}

double printed(const KnobOf& which, double amount, double limit, const Inputs& inputs,
               bool to_weigh) {
  const KnobInfo& info = info_of(which.knob);
  double made = amount;
  if (info.per_serving) {
    const double factor = batch_factor(inputs);
    double whole = to_figures_away_from_zero(amount * factor, printed_figures);
    double finest_g = 0;
    for (const Scale& scale : inputs.recipe->batch.scales)
      finest_g = finest_g > 0 ? std::min(finest_g, scale.readability_g) : scale.readability_g;
    if (to_weigh && std::abs(whole) < finest_g) whole = std::copysign(finest_g, whole);
    made = whole / factor;
  } else if (which.knob == Knob::low_mineral_share) {
    made = std::ceil(amount / share_step) * share_step;
  } else {
    made = to_figures_away_from_zero(amount, printed_figures);
  }
  return std::abs(made) <= std::abs(limit) ? made : limit;
}

}  // namespace gelwright::detail
