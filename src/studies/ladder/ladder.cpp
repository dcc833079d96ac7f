#include "gelwright/ladder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "gelwright/error.hpp"
#include "statistics/random.hpp"

namespace gelwright {

namespace {

constexpr double usual_stock_percent = 10;  // as the batch plan's usual acid stock
constexpr double largest_cup_g = 1e6;       // as much as a recipe may weigh
constexpr std::uint64_t shuffle_stream = 1;
/// Water that is missing by less than this share is binary noise.
constexpr double water_noise = 1e-12;

bool varies(const Ladder& ladder, KnobTurns turns) {
  return std::any_of(ladder.axes.begin(), ladder.axes.end(), [turns](const LadderAxis& axis) {
    return info_of(axis.knob.knob).turns == turns;
  });
}

bool solid_varies(const Ladder& ladder, std::size_t solid) {
  return std::any_of(ladder.axes.begin(), ladder.axes.end(), [solid](const LadderAxis& axis) {
    return axis.knob.knob == Knob::mass_g && axis.knob.solid == solid;
  });
}

/// The recipe with every axis at the index `index_of(axis)` gives.
template <class IndexOf>
Inputs turned_inputs(const Ladder& ladder, IndexOf index_of_axis) {
  Inputs inputs = ladder.inputs;
  for (std::size_t i = 0; i < ladder.axes.size(); ++i)
    turn(inputs, ladder.axes[i].knob, ladder.axes[i].value(index_of_axis(i)));
  return inputs;
}

double stock_water_g(const std::optional<InputDose>& dose) {
  if (!dose || dose->stock_fraction <= 0) return 0;
  return dose->line.mass_g * (1 / dose->stock_fraction - 1);
}

/// The tap water thinned with water that brings no ions, to this share of its strength.
void thin(Inputs& inputs, double share) {
  turn(inputs, {Knob::low_mineral_share}, 1 - share);
}

std::size_t cell_of(const Ladder& ladder, std::size_t cup) {
  return ladder.order.empty() ? cup : ladder.order[cup];
}

std::size_t axis_index(const Ladder& ladder, std::size_t cup, std::size_t axis) {
  std::size_t rest = cell_of(ladder, cup);
  for (std::size_t i = ladder.axes.size() - 1; i > axis; --i) rest /= ladder.axes[i].count;
  return rest % ladder.axes[axis].count;
}

/// The recipe in the state of a cup, before the low-mineral water is levelled.
Inputs cell_inputs(const Ladder& ladder, std::size_t cup) {
  return turned_inputs(ladder, [&](std::size_t axis) { return axis_index(ladder, cup, axis); });
}

/// Water that comes with the varied doses, g per serving.
double varied_stock_water_g(const Ladder& ladder, const Inputs& cell) {
  return (ladder.acid_varies ? stock_water_g(cell.acid) : 0) +
         (ladder.calcium_varies ? stock_water_g(cell.calcium) : 0);
}

/// Low-mineral water a cup needs beside its stock, g per serving.
double levelling_g(const Ladder& ladder, const Inputs& cell) {
  return std::max(0.0, ladder.low_mineral_g - varied_stock_water_g(ladder, cell));
}

std::vector<std::size_t> shuffled(std::size_t count, std::uint64_t seed) {
  std::vector<std::size_t> order(count);
  std::iota(order.begin(), order.end(), std::size_t{0});
  for (std::size_t i = count; i > 1; --i) {
    const double u = uniform({seed, shuffle_stream, i});
    std::swap(order[i - 1], order[static_cast<std::size_t>(u * static_cast<double>(i))]);
  }
  return order;
}

void check_options(const Ladder& ladder) {
  std::vector<Problem> problems;
  const LadderOptions& options = ladder.options;
  if (!(options.cup_g > 0 && options.cup_g <= largest_cup_g))
    problems.push_back(
        {"cup_g", fmt::format("a cup must hold more than 0 g and at most {} g", largest_cup_g),
         "50 is usual"});
  const double percent = options.stock_percent.value_or(usual_stock_percent);
  if (!(percent >= 0 && percent <= 60))
    problems.push_back({"stock_percent", "must be 0 to 60", "0 weighs the acid neat"});
  if (options.shuffle && ladder.cells > most_ladder_cups)
    problems.push_back({"shuffle",
                        fmt::format("only a bench series of at most {} cups is shuffled, this has "
                                    "{}",
                                    most_ladder_cups, ladder.cells),
                        "take larger steps"});
  if (!problems.empty()) throw InputError("", std::move(problems));
}

}  // namespace

Ladder plan_ladder(const Inputs& inputs, std::vector<LadderAxis> axes,
                   const LadderOptions& options) {
  Ladder ladder;
  ladder.inputs = inputs;
  ladder.axes = std::move(axes);
  ladder.options = options;
  for (const LadderAxis& axis : ladder.axes) ladder.cells *= axis.count;
  check_options(ladder);
  ladder.acid_varies = varies(ladder, KnobTurns::acid);
  ladder.calcium_varies = varies(ladder, KnobTurns::calcium_salt);
  ladder.dry_base = varies(ladder, KnobTurns::tap_ion) || varies(ladder, KnobTurns::tap_share);
  if (ladder.acid_varies) {
    double& fraction = ladder.inputs.acid->stock_fraction;
    const double unless_asked = fraction > 0 ? 100 * fraction : usual_stock_percent;
    // What does not keep in water (a lactone turns sour in it) is weighed neat.
    const Ingredient& acid = ladder.inputs.recipe->ingredients[ladder.inputs.acid->line.ingredient];
    fraction = acid.strongest_stock > 0 ? options.stock_percent.value_or(unless_asked) / 100 : 0;
  }

  // Water grows with every input it depends on, so the driest cup has all of them at their lowest,
  // and the most stock goes into the cup with the most acid.
  const Inputs least = turned_inputs(ladder, [](std::size_t) { return std::size_t{0}; });
  const Inputs most =
      turned_inputs(ladder, [&](std::size_t axis) { return ladder.axes[axis].count - 1; });
  ladder.low_mineral_g = varied_stock_water_g(ladder, most);
  const Formula driest = formulate(least);
  const double least_tap_g = driest.tap_g - levelling_g(ladder, least);
  if (least_tap_g < -water_noise * driest.water_g)
    throw InputError(
        "", {{"stock_percent",
              fmt::format("the stock solution brings up to {:.2f} g of water per serving, the "
                          "driest cup has {:.2f} g",
                          ladder.low_mineral_g, driest.water_g),
              "use a stronger stock, less acid or more water, or weigh the acid neat"}});
  ladder.base_tap_g = ladder.dry_base ? 0 : std::max(0.0, least_tap_g);

  ladder.base_g = ladder.base_tap_g;
  for (std::size_t i = 0; i < inputs.solids.size(); ++i)
    if (!solid_varies(ladder, i)) ladder.base_g += inputs.solids[i].mass_g;
  if (inputs.acid && !ladder.acid_varies)
    ladder.base_g += inputs.acid->line.mass_g + stock_water_g(inputs.acid);
  if (inputs.calcium && !ladder.calcium_varies)
    ladder.base_g += inputs.calcium->line.mass_g + stock_water_g(inputs.calcium);
  if (!(ladder.base_g > 0))
    throw InputError("", {{"axes", "everything varies: nothing is left for a base",
                           "leave one ingredient as it is"}});
  const double cup_base_g =
      ladder.dry_base ? ladder.base_g + std::max(0.0, least_tap_g) : ladder.base_g;
  ladder.servings_per_cup = options.cup_g / cup_base_g;
  if (options.shuffle) ladder.order = shuffled(ladder.cells, options.seed);
  return ladder;
}

double axis_value(const Ladder& ladder, std::size_t cup, std::size_t axis) {
  return ladder.axes[axis].value(axis_index(ladder, cup, axis));
}

Inputs cup_inputs(const Ladder& ladder, std::size_t cup) {
  Inputs cell = cell_inputs(ladder, cup);
  const double levelling = levelling_g(ladder, cell);
  if (levelling > 0) {
    // Low-mineral water in place of tap water: the same water, fewer ions.
    const double tap_g = formulate(cell).tap_g;
    thin(cell, tap_g > 0 ? std::max(0.0, tap_g - levelling) / tap_g : 0);
  }
  return cell;
}

CupWeights cup_weights(const Ladder& ladder, std::size_t cup) {
  const Inputs cell = cell_inputs(ladder, cup);
  const Formula formula = formulate(cell);
  const double scale = ladder.servings_per_cup;
  CupWeights weights;
  weights.base_g = ladder.base_g * scale;
  if (ladder.acid_varies)
    weights.acid_stock_g = (cell.acid->line.mass_g + stock_water_g(cell.acid)) * scale;
  if (ladder.calcium_varies)
    weights.calcium_salt_g = (cell.calcium->line.mass_g + stock_water_g(cell.calcium)) * scale;
  const double levelling = levelling_g(ladder, cell);
  weights.low_mineral_g = levelling * scale;
  weights.tap_g = std::max(0.0, formula.tap_g - levelling - ladder.base_tap_g) * scale;
  weights.total_g = weights.base_g + weights.acid_stock_g + weights.calcium_salt_g +
                    weights.low_mineral_g + weights.tap_g;
  for (const LadderAxis& axis : ladder.axes)
    if (axis.knob.knob == Knob::mass_g) {
      weights.solids_g.push_back(amount_of(axis.knob, cell) * scale);
      weights.total_g += weights.solids_g.back();
    }
  return weights;
}

BaseWeights base_weights(const Ladder& ladder, double mass_g) {
  const double scale = ladder.base_g > 0 ? mass_g / ladder.base_g : 0;
  BaseWeights weights;
  for (std::size_t i = 0; i < ladder.inputs.solids.size(); ++i)
    weights.solids_g.push_back(solid_varies(ladder, i) ? 0
                                                       : ladder.inputs.solids[i].mass_g * scale);
  weights.tap_g = ladder.base_tap_g * scale;
  const auto dose = [scale](const std::optional<InputDose>& which, bool left_out, double& neat_g,
                            double& stock_g) {
    if (!which || left_out) return;
    if (which->stock_fraction > 0)
      stock_g = which->line.mass_g / which->stock_fraction * scale;
    else
      neat_g = which->line.mass_g * scale;
  };
  dose(ladder.inputs.acid, ladder.acid_varies, weights.acid_g, weights.acid_stock_g);
  dose(ladder.inputs.calcium, ladder.calcium_varies, weights.calcium_salt_g,
       weights.calcium_stock_g);
  return weights;
}

}  // namespace gelwright
