// How far a knob is turned in a search, what is printed of it, and the searches. Private.
#pragma once

#include <cmath>
#include <optional>

#include "base/roots.hpp"
#include "gelwright/advise.hpp"
#include "gelwright/error.hpp"

namespace gelwright::detail {

/// Enough to tell 1 % of the range from 2 %; the answer is rounded for a kitchen anyway.
inline constexpr int scan_steps = 8;
inline constexpr double edge_tolerance = 1.0 / 128;
inline constexpr int printed_figures = 2;
/// Shares of low-mineral water are advised in such steps.
inline constexpr double share_step = 0.05;

/// The furthest a knob is turned, in its own unit and direction (+1 or -1); 0 = not at all.
double furthest(const KnobOf& which, double direction, const Inputs& inputs,
                const Formula& formula);

/// Two figures, away from zero, of what the whole batch takes, and where it is to be weighed no
/// less than the finest scale shows: what is printed is what was evaluated.
double printed(const KnobOf& which, double amount, double limit, const Inputs& inputs,
               bool to_weigh);

/// The smallest turn of a knob for which `wanted` holds, scanning outwards, then bisecting.
template <class Wanted>
std::optional<Change> smallest(const KnobOf& which, double direction, const Inputs& inputs,
                               const Formula& formula, bool to_weigh, Wanted wanted) {
  const double limit = furthest(which, direction, inputs, formula);
  if (limit == 0) return std::nullopt;
  const auto holds = [&](double amount) {
    try {
      return wanted(Change{which.knob, amount, which.solid});
    } catch (const InputError&) {
      return false;  // a state no water phase can hold is no remedy
    }
  };
  double refused = 0;
  for (int step = 1; step <= scan_steps; ++step) {
    double reached = limit * std::pow(2.0, step - scan_steps);
    if (!holds(reached)) {
      refused = reached;
      continue;
    }
    reached = find_edge(holds, refused, reached,
                        {.x_tolerance = std::abs(reached - refused) * edge_tolerance});
    const double shown = printed(which, reached, limit, inputs, to_weigh);
    if (holds(shown)) return Change{which.knob, shown, which.solid};
    refused = limit * std::pow(2.0, step - scan_steps);  // too narrow to hit: look further out
  }
  return std::nullopt;
}

/// The least turn a little beyond one that was nearly enough, or nothing.
template <class Wanted>
std::optional<Change> just_beyond(const Change& nearly, const Inputs& inputs,
                                  const Formula& formula, Wanted wanted) {
  const KnobOf which = nearly.which();
  const double limit = furthest(which, nearly.amount, inputs, formula);
  const auto holds = [&](double amount) {
    try {
      return wanted(Change{which.knob, amount, which.solid});
    } catch (const InputError&) {
      return false;
    }
  };
  double refused = nearly.amount;
  for (const double times : {1.06, 1.12, 1.25, 1.5, 2.0}) {
    const double tried = printed(which, times * nearly.amount, limit, inputs, true);
    if (tried == refused) continue;
    if (!holds(tried)) {
      refused = tried;
      continue;
    }
    const double between = printed(which, (refused + tried) / 2, limit, inputs, true);
    return Change{which.knob, between != tried && holds(between) ? between : tried, which.solid};
  }
  return std::nullopt;
}

}  // namespace gelwright::detail
