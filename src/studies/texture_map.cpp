#include "gelwright/texture_map.hpp"

#include <algorithm>

#include "base/parallel.hpp"
#include "gelwright/error.hpp"

namespace gelwright {

namespace {

/// The least water a map shows, as a share of the recipe's: with less the powders do not dissolve.
constexpr double least_water = 0.5;
/// Calcium of a water that has next to none, mg/L, up to that of a hard one: where a recipe's own
/// is too little to see on a scale from none to twice as much.
constexpr double hard_water_mg_per_l = 120;
/// Acid where the recipe has an acid but no dose yet, g per g of the serving.
constexpr double usual_most_acid = 0.01;

MapAxis axis_of(const KnobOf& knob, const Inputs& inputs, double least_share, double least_high) {
  const double here = amount_of(knob, inputs);
  return {knob, least_share * here, std::max(2 * here, least_high), here};
}

std::optional<std::size_t> first_gum(const Inputs& inputs) {
  for (std::size_t i = 0; i < inputs.solids.size(); ++i)
    if (inputs.recipe->ingredients[inputs.solids[i].ingredient].kind == Kind::gum) return i;
  return std::nullopt;
}

struct AxesOrReason {
  std::optional<MapAxis> x;
  std::optional<MapAxis> y;
  std::string reason;
};

AxesOrReason axes_of(const Inputs& inputs, MapOf of) {
  if (of == MapOf::water_and_acid) {
    if (!inputs.acid) return {{}, {}, "the recipe has no acid to turn"};
    return {axis_of({Knob::water_g}, inputs, least_water, 0),
            axis_of({Knob::acid_g}, inputs, 0, usual_most_acid * formulate(inputs).total_g), ""};
  }
  const std::optional<std::size_t> gum = first_gum(inputs);
  if (!gum)
    return {{}, {}, "the recipe names no gum of its own: that of a bought mix cannot be turned"};
  const MapAxis gum_axis = axis_of({Knob::mass_g, *gum}, inputs, 0, 0);
  if (inputs.calcium) return {axis_of({Knob::calcium_salt_g}, inputs, 0, 0), gum_axis, ""};
  if (!has_knob(*inputs.recipe, {Knob::tap_calcium_mg_per_l}))
    return {
        {}, {}, "the recipe has neither a calcium salt nor a tap water whose calcium could vary"};
  return {axis_of({Knob::tap_calcium_mg_per_l}, inputs, 0, hard_water_mg_per_l), gum_axis, ""};
}

MapCell cell_of(Inputs inputs, const TextureMap& map, std::size_t column, std::size_t row) {
  const auto middle = [](const MapAxis& axis, std::size_t i, std::size_t count) {
    return axis.low +
           (axis.high - axis.low) * (static_cast<double>(i) + 0.5) / static_cast<double>(count);
  };
  turn(inputs, map.x.knob, middle(map.x, column, map.columns));
  turn(inputs, map.y.knob, middle(map.y, row, map.rows));
  EvaluateParts parts{.batch = false, .flags = false, .gel = {}};
  parts.gel.stomach = false;
  try {
    const GelForecast gel = evaluate(inputs, parts).gel;
    if (!gel.made || !gel.any_gum()) return {};
    return {gel.likeliest(), gel.chance(gel.likeliest())};
  } catch (const InputError&) {
    return {};  // a corner that is no serving: a stock with more water than there is
  }
}

}  // namespace

MapOrReason texture_map(const Inputs& inputs, MapOf of, const MapOptions& options) {
  AxesOrReason axes = axes_of(inputs, of);
  if (!axes.x || !axes.y) return {std::nullopt, std::move(axes.reason)};
  if (!(axes.x->high > axes.x->low) || !(axes.y->high > axes.y->low))
    return {std::nullopt, "the recipe has none of what would be turned"};
  TextureMap map{*axes.x, *axes.y, options.columns, options.rows, {}};
  map.cells.resize(map.columns * map.rows);
  for_each_block(map.rows, options.threads, [&](std::size_t row) {
    for (std::size_t column = 0; column < map.columns; ++column)
      map.cells[row * map.columns + column] = cell_of(inputs, map, column, row);
  });
  const bool any = std::any_of(map.cells.begin(), map.cells.end(),
                               [](const MapCell& cell) { return cell.texture.has_value(); });
  if (!any) return {std::nullopt, "no gum that is known of: nothing can be foretold"};
  return {std::move(map), ""};
}

}  // namespace gelwright
