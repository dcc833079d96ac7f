#include "gelwright/advise.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/rounding.hpp"
#include "gelwright/elements.hpp"
#include "gelwright/error.hpp"

namespace gelwright {

namespace {

/// Enough to tell 1 % of the range from 2 %; the answer is rounded for a kitchen anyway.
constexpr int scan_steps = 8;
constexpr int bisections = 7;
constexpr int printed_figures = 2;
constexpr EvaluateParts without_batch{.batch = false, .flags = true};

/// The furthest a knob is turned, in its own unit and direction (+1 or -1); 0 = not at all.
double furthest(Knob knob, double direction, const Inputs& inputs, const Formula& formula) {
  switch (knob) {
    case Knob::acid_g: {
      if (!inputs.acid) return 0;
      const double now = inputs.acid->line.mass_g;
      return direction > 0 ? std::max(2 * now, 0.01 * formula.total_g) : -now;
    }
    case Knob::water_g:
      return direction > 0 ? std::max(formula.total_g, formula.water_g) : -0.8 * formula.water_g;
    case Knob::calcium_salt_g: {
      if (!inputs.calcium) return 0;
      const double now = inputs.calcium->line.mass_g;
      return direction > 0 ? std::max(4 * now, 0.01 * formula.total_g) : -now;
    }
    case Knob::low_mineral_share:
      return direction > 0 ? 1 : 0;
    case Knob::tap_calcium_mg_per_l: {
      const double now = inputs.tap.calcium_mol_per_kg * molar_mass_g_per_mol("Ca") * 1000;
      return direction > 0 ? std::max(400.0, 4 * now) : -now;
    }
  }
  return 0;
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
    for (int i = 0; i < bisections; ++i) {
      const double middle = (refused + reached) / 2;
      (holds(middle) ? reached : refused) = middle;
    }
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
  switch (change.knob) {
    case Knob::water_g:
      return std::abs(change.amount) <= largest_share * formula.total_g;
    case Knob::acid_g:
      return change.amount > -0.999 * inputs.acid->line.mass_g;
    case Knob::calcium_salt_g:
      return change.amount > -0.999 * inputs.calcium->line.mass_g;
    case Knob::low_mineral_share:
    case Knob::tap_calcium_mg_per_l:
      return true;
  }
  return true;
}

}  // namespace

Inputs turned(const Inputs& inputs, const Change& change) {
  Inputs changed = inputs;
  const Formula formula = formulate(inputs);
  changed.water = {WaterBasis::mass_g, formula.water_g};
  switch (change.knob) {
    case Knob::acid_g:
      if (changed.acid)
        changed.acid->line.mass_g = std::max(0.0, changed.acid->line.mass_g + change.amount);
      break;
    case Knob::water_g:
      changed.water.amount = std::max(0.0, formula.water_g + change.amount);
      break;
    case Knob::calcium_salt_g:
      if (changed.calcium)
        changed.calcium->line.mass_g = std::max(0.0, changed.calcium->line.mass_g + change.amount);
      break;
    case Knob::low_mineral_share: {
      const double kept = std::clamp(1 - change.amount, 0.0, 1.0);
      changed.tap.calcium_mol_per_kg *= kept;
      changed.tap.magnesium_mol_per_kg *= kept;
      changed.tap.sodium_mol_per_kg *= kept;
      changed.tap.potassium_mol_per_kg *= kept;
      changed.tap.chloride_mol_per_kg *= kept;
      changed.tap.sulfate_mol_per_kg *= kept;
      changed.tap.nitrate_mol_per_kg *= kept;
      changed.tap.alkalinity_eq_per_kg *= kept;
      break;
    }
    case Knob::tap_calcium_mg_per_l: {
      const double before = changed.tap.calcium_mol_per_kg;
      changed.tap.calcium_mol_per_kg =
          std::max(0.0, before + change.amount / molar_mass_g_per_mol("Ca") / 1000);
      // The charge stays balanced: chloride comes along, or sodium takes the place of what left.
      const double charge = 2 * (changed.tap.calcium_mol_per_kg - before);
      if (charge > 0)
        changed.tap.chloride_mol_per_kg += charge;
      else
        changed.tap.sodium_mol_per_kg -= charge;
      break;
    }
  }
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
  const double amount = std::abs(change.amount);
  const std::string_view more = change.amount > 0 ? "more" : "less";
  switch (change.knob) {
    case Knob::acid_g:
      return fmt::format("{} g {} acid", significant(amount, printed_figures), more);
    case Knob::water_g:
      return fmt::format("{} g {} water", significant(amount, printed_figures), more);
    case Knob::calcium_salt_g:
      return fmt::format("{} g {} calcium salt", significant(amount, printed_figures), more);
    case Knob::low_mineral_share:
      return fmt::format("{:.0f} % of the water as low-mineral water",
                         std::ceil(100 * amount / 5) * 5);
    case Knob::tap_calcium_mg_per_l:
      return fmt::format("{} mg/L {} calcium in the water", significant(amount, printed_figures),
                         more);
  }
  return "";
}

}  // namespace gelwright
