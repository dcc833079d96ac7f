#include "gelwright/advise.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/roots.hpp"
#include "base/rounding.hpp"
#include "gelwright/error.hpp"

namespace gelwright {

namespace {

/// Enough to tell 1 % of the range from 2 %; the answer is rounded for a kitchen anyway.
constexpr int scan_steps = 8;
constexpr double edge_tolerance = 1.0 / 128;
constexpr int printed_figures = 2;
constexpr EvaluateParts without_batch{.batch = false, .flags = true};

/// The furthest a knob is turned, in its own unit and direction (+1 or -1); 0 = not at all.
double furthest(Knob knob, double direction, const Inputs& inputs, const Formula& formula) {
  if (!has_knob(*inputs.recipe, {knob})) return 0;
  const double now = amount_of({knob}, inputs);
  switch (info_of(knob).turns) {
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
    default:
      return 0;  // another recipe, not a remedy
  }
}

/// The smallest turn of `knob` for which `wanted` holds, scanning outwards, then bisecting.
template <class Wanted>
std::optional<Change> smallest(Knob knob, double direction, const Inputs& inputs,
                               const Formula& formula, Wanted wanted) {
  const double limit = furthest(knob, direction, inputs, formula);
  if (limit == 0) return std::nullopt;
  const auto holds = [&](double amount) {
    try {
      return wanted(evaluate(turned(inputs, {knob, amount}), without_batch));
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
    reached = detail::find_edge(holds, refused, reached,
                                {.x_tolerance = std::abs(reached - refused) * edge_tolerance});
    // What is printed must do: two figures, away from zero, never past the end of the knob.
    const double printed = to_figures_away_from_zero(reached, printed_figures);
    const bool within = std::abs(printed) <= std::abs(limit);
    return Change{knob, within ? printed : limit};
  }
  return std::nullopt;
}

struct Turn {
  Knob knob;
  double direction;
};

/// What can clear a flag, the most natural first.
std::vector<Turn> turns_for(std::string_view flag) {
  constexpr Turn more_acid{Knob::acid_g, 1};
  constexpr Turn less_acid{Knob::acid_g, -1};
  constexpr Turn more_water{Knob::water_g, 1};
  constexpr Turn less_water{Knob::water_g, -1};
  constexpr Turn more_calcium{Knob::calcium_salt_g, 1};
  constexpr Turn less_calcium{Knob::calcium_salt_g, -1};
  constexpr Turn softer_water{Knob::low_mineral_share, 1};
  struct Clears {
    std::string_view flag;
    std::vector<Turn> turns;
  };
  static const Clears table[] = {
      {"ph-below-limit", {less_acid}},
      {"ph-above-limit", {more_acid}},
      {"will-not-set", {more_acid, more_calcium, less_water}},
      {"drink-sets-in-bottle", {more_water, softer_water, less_acid, less_calcium}},
      {"drink-will-not-set-in-stomach", {less_water, softer_water}},
      {"hard-water", {softer_water}},
      {"calcium-too-low", {more_calcium}},
      {"calcium-too-high", {less_calcium, softer_water}},
      {"calcium-shock", {less_calcium, softer_water}},
      {"acid-shock", {less_acid}},
      {"lumps", {less_calcium, less_acid, softer_water, more_water}},
      {"weeps", {less_calcium, less_acid, softer_water, more_water}},
      {"too-little-water", {more_water}},
  };
  for (const Clears& row : table)
    if (row.flag == flag) return row.turns;
  return {};
}

bool has_flag(const Evaluation& evaluation, FlagId id) {
  return std::any_of(evaluation.flags.begin(), evaluation.flags.end(),
                     [id](const Flag& flag) { return flag.id == id; });
}

std::ptrdiff_t stops(const Evaluation& evaluation) {
  return std::count_if(evaluation.flags.begin(), evaluation.flags.end(),
                       [](const Flag& flag) { return flag.level == Level::stop; });
}

/// A remedy that empties the acid jar or makes another serving of it is none.
bool sensible(const Change& change, const Inputs& inputs, const Formula& formula) {
  constexpr double largest_share = 0.25;
  switch (info_of(change.knob).turns) {
    case KnobTurns::water:
      return std::abs(change.amount) <= largest_share * formula.total_g;
    case KnobTurns::acid:
    case KnobTurns::calcium_salt:
      return change.amount > -0.999 * amount_of({change.knob}, inputs);
    default:
      return true;
  }
}

}  // namespace

Inputs turned(const Inputs& inputs, const Change& change) {
  Inputs changed = inputs;
  changed.water = {WaterBasis::mass_g, formulate(inputs).water_g};
  const KnobOf knob{change.knob};
  if (!has_knob(*inputs.recipe, knob)) return changed;
  const KnobInfo& info = info_of(change.knob);
  turn(changed, knob, std::clamp(amount_of(knob, inputs) + change.amount, info.least, info.most));
  return changed;
}

Advice advise(const Inputs& inputs, const Evaluation& evaluation) {
  Advice advice;
  const std::ptrdiff_t stops_now = stops(evaluation);
  for (const Flag& flag : evaluation.flags) {
    std::optional<Change> found;
    for (const Turn& turn : turns_for(name_of(flag.id))) {
      found = smallest(turn.knob, turn.direction, inputs, evaluation.formula,
                       [&](const Evaluation& changed) {
                         return !has_flag(changed, flag.id) && stops(changed) <= stops_now;
                       });
      if (found && sensible(*found, inputs, evaluation.formula)) break;
      found.reset();
    }
    advice.clears.push_back(found);
  }
  const Texture now = evaluation.setting.pouch.texture;
  if (evaluation.setting.pouch.count == 0) return advice;
  for (const Knob knob : {Knob::acid_g, Knob::water_g, Knob::tap_calcium_mg_per_l})
    for (const double direction : {-1.0, 1.0}) {
      const auto change =
          smallest(knob, direction, inputs, evaluation.formula,
                   [&](const Evaluation& changed) { return changed.setting.pouch.texture != now; });
      if (change)
        advice.margins.push_back(
            {*change, evaluate(turned(inputs, *change), without_batch).setting.pouch});
    }
  return advice;
}

std::string to_text(const Change& change) {
  const KnobInfo& info = info_of(change.knob);
  const double amount = std::abs(change.amount);
  if (change.knob == Knob::low_mineral_share)
    return fmt::format("{:.0f} % of the water as low-mineral water",
                       std::ceil(100 * amount / 5) * 5);
  return fmt::format("{} {} {} {}", significant(amount, printed_figures), info.unit,
                     change.amount > 0 ? "more" : "less", info.label);
}

}  // namespace gelwright
