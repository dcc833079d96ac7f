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
constexpr std::string_view about_the_stomach = "drink-will-not-set-in-stomach";

/// What a search for this flag needs: no batch, and the stomach, which costs as much as all the
/// rest, only where the flag is about it. It never raises a `stop`.
EvaluateParts parts_for(std::string_view flag) {
  return {.batch = false, .flags = true, .gel = {.stomach = flag == about_the_stomach}};
}

/// The furthest a knob is turned, in its own unit and direction (+1 or -1); 0 = not at all.
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

/// The smallest turn of a knob for which `wanted` holds, scanning outwards, then bisecting.
template <class Wanted>
std::optional<Change> smallest(const KnobOf& which, double direction, const Inputs& inputs,
                               const Formula& formula, const EvaluateParts& parts, Wanted wanted) {
  const double limit = furthest(which, direction, inputs, formula);
  if (limit == 0) return std::nullopt;
  const auto holds = [&](double amount) {
    try {
      return wanted(evaluate(turned(inputs, {which.knob, amount, which.solid}), parts));
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
    return Change{which.knob, within ? printed : limit, which.solid};
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
      {about_the_stomach, {less_water, softer_water}},
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

struct NamedDefect {
  std::string_view name;
  double gel::Defects::*chance;
};
constexpr NamedDefect defects[] = {{"lumps", &gel::Defects::lumps},
                                   {"weeps", &gel::Defects::weeps},
                                   {"specks", &gel::Defects::specks},
                                   {"brittle", &gel::Defects::brittle},
                                   {"grit", &gel::Defects::grit}};
/// A defect is there once it is likelier than not.
constexpr double likely = 0.5;

/// What differs across an edge: the likeliest texture, else a defect that has become likely.
std::optional<Edge> crossed(const gel::Mixture& before, const gel::Mixture& after) {
  const gel::Texture now = gel::likeliest(after.chances);
  if (now != gel::likeliest(before.chances))
    return Edge{{}, gel::to_text(now), before.chances[now], after.chances[now]};
  for (const NamedDefect& each : defects)
    if (before.defects.*each.chance < likely && after.defects.*each.chance >= likely)
      return Edge{{}, each.name, before.defects.*each.chance, after.defects.*each.chance};
  return std::nullopt;
}

std::vector<Edge> edges_of(const Inputs& inputs, const Evaluation& evaluation) {
  constexpr EvaluateParts gel_only{.batch = false, .flags = false, .gel = {.stomach = false}};
  std::vector<Edge> edges;
  if (!evaluation.gel.made || !evaluation.gel.any_gum()) return edges;
  const gel::Mixture& before = evaluation.gel.all;
  const auto beyond = [&before](const Evaluation& changed) {
    return changed.gel.made ? crossed(before, changed.gel.all) : std::nullopt;
  };
  std::vector<KnobOf> knobs = {
      {Knob::acid_g}, {Knob::water_g}, {Knob::calcium_salt_g}, {Knob::tap_calcium_mg_per_l}};
  for (std::size_t i = 0; i < inputs.solids.size(); ++i)
    if (inputs.recipe->ingredients[inputs.solids[i].ingredient].kind == Kind::gum)
      knobs.push_back({Knob::mass_g, i});
  for (const KnobOf& knob : knobs)
    for (const double direction : {-1.0, 1.0}) {
      const auto change =
          smallest(knob, direction, inputs, evaluation.formula, gel_only,
                   [&](const Evaluation& changed) { return beyond(changed).has_value(); });
      if (!change) continue;
      std::optional<Edge> edge = beyond(evaluate(turned(inputs, *change), gel_only));
      if (!edge) continue;  // what a kitchen can weigh lies past a narrow edge
      edge->change = *change;
      edges.push_back(*edge);
    }
  return edges;
}

}  // namespace

Inputs turned(const Inputs& inputs, const Change& change) {
  Inputs changed = inputs;
  changed.water = {WaterBasis::mass_g, formulate(inputs).water_g};
  const KnobOf knob = change.which();
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
      found = smallest({turn.knob}, turn.direction, inputs, evaluation.formula,
                       parts_for(name_of(flag.id)), [&](const Evaluation& changed) {
                         return !has_flag(changed, flag.id) && stops(changed) <= stops_now;
                       });
      if (found && sensible(*found, inputs, evaluation.formula)) break;
      found.reset();
    }
    advice.clears.push_back(found);
  }
  advice.edges = edges_of(inputs, evaluation);
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

std::string to_text(const Change& change, const Recipe& recipe) {
  if (change.knob != Knob::mass_g) return to_text(change);
  return fmt::format("{} g {} {}", significant(std::abs(change.amount), printed_figures),
                     change.amount > 0 ? "more" : "less",
                     recipe.ingredients[recipe.solids[change.solid].ingredient].name);
}

}  // namespace gelwright
