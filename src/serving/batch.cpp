#include "gelwright/batch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "gelwright/error.hpp"
#include "gelwright/weighing.hpp"

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"batch.stock-strength.1", 0.20, "g/g", 0, "strongest a thin stream is made at",
     "common-practice", Standing::common_practice},
    {"batch.stock-strength.2", 0.10, "g/g", 0, "usual acid stock", "common-practice",
     Standing::common_practice},
    {"batch.stock-strength.3", 0.05, "g/g", 0, "for small batches", "judgement",
     Standing::judgement},
    {"batch.stock-water-share", 0.5, "1", 0, "most of the recipe's water a stock may bring",
     "judgement", Standing::judgement},
};

constexpr std::array<double, 3> stock_strengths = {value_of(data, "batch.stock-strength.1"),
                                                   value_of(data, "batch.stock-strength.2"),
                                                   value_of(data, "batch.stock-strength.3")};
/// More fills of one scale for one line are a slip of the pen, not a batch.
constexpr double most_fills = 1000;
constexpr double largest_stock_water_share = value_of(data, "batch.stock-water-share");

/// A line before it meets a scale.
struct Portion {
  LineRole role;
  std::size_t ingredient;
  double exact_g;
  double stock_fraction;
  double strongest_stock;  ///< what it dissolves to
  int order;

  double on_scale_g() const { return stock_fraction > 0 ? exact_g / stock_fraction : exact_g; }
};

int working_order(Kind kind) {
  switch (kind) {
    case Kind::gum:
      return 1;
    case Kind::sugar:
    case Kind::mix:
    case Kind::syrup:
      return 2;
    case Kind::salt:
      return 3;
    case Kind::acid:
      return 4;
    case Kind::calcium_salt:
      return 5;
  }
  return 2;
}

/// The scales of a batch and the tolerance its lines must meet.
struct ScaleSet {
  const std::vector<Scale>& scales;
  double tolerance;
  double bowl_g;
  const std::string& document;

  /// The biggest scale that weighs `mass_g` well enough: fewest cups, one running total. On the
  /// main scale the bowl already holds `in_bowl_g`, cups included, so the display to stop at rounds
  /// that sum, not the line alone.
  std::optional<std::size_t> best_clearing(double mass_g, double in_bowl_g = 0) const {
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < scales.size(); ++i) {
      const bool well_enough =
          clears(mass_g, scales[i], tolerance) &&
          (i != main() || error_fraction(mass_g, scales[i], in_bowl_g) <= tolerance);
      if (well_enough && (!best || scales[i].capacity_g > scales[*best].capacity_g)) best = i;
    }
    return best;
  }

  /// Rounding of the display to stop at, less what is in the bowl, plus the scale's own error, over
  /// the line's mass.
  static double error_fraction(double mass_g, const Scale& scale, double in_bowl_g) {
    const double put_in_g = rounded_to_readability_g(in_bowl_g + mass_g, scale) - in_bowl_g;
    return (std::abs(put_in_g - mass_g) + weighing_error(mass_g, scale).expanded_g) / mass_g;
  }

  /// The scale with the smallest error, whether it clears or not.
  std::size_t finest(double mass_g) const {
    std::size_t best = 0;
    for (std::size_t i = 1; i < scales.size(); ++i)
      if (weighing_error(mass_g, scales[i]).relative <
          weighing_error(mass_g, scales[best]).relative)
        best = i;
    return best;
  }

  std::size_t main() const {
    std::size_t best = 0;
    for (std::size_t i = 1; i < scales.size(); ++i)
      if (scales[i].capacity_g > scales[best].capacity_g) best = i;
    return best;
  }

  /// Smallest mass that some scale surely clears, whatever its rounding, g.
  double surely_clears_g() const {
    double smallest = std::numeric_limits<double>::infinity();
    for (const Scale& scale : scales) {
      const double error_g = weighing_error(scale.readability_g, scale).expanded_g;
      smallest = std::min(smallest, (error_g + scale.readability_g / 2) / tolerance);
    }
    return smallest;
  }

  /// Largest readability that would clear `mass_g` at repeatability 1 d and the worst rounding.
  double readability_needed_g(double mass_g) const {
    const Scale unit{"", 1, 1e9, std::nullopt};
    return mass_g * tolerance / (weighing_error(1, unit).expanded_g + 0.5);
  }
};

/// Strongest stock that can be weighed and does not bring too much of the water.
double choose_stock_fraction(const Portion& portion, const ScaleSet& scale_set, double water_g) {
  for (const double fraction : stock_strengths) {
    if (fraction > portion.strongest_stock) continue;
    const double stock_g = portion.exact_g / fraction;
    if (stock_g - portion.exact_g > largest_stock_water_share * water_g) return 0;
    if (scale_set.best_clearing(stock_g)) return fraction;
  }
  return 0;
}

std::vector<Portion> portions_of(const Formula& formula, const Inputs& inputs, double factor) {
  std::vector<Portion> portions;
  portions.reserve(inputs.solids.size() + 3);
  portions.push_back({LineRole::water, 0, formula.tap_g * factor, 0, 0, 0});
  for (const InputLine& line : inputs.solids)
    portions.push_back({LineRole::solid, line.ingredient, line.mass_g * factor, 0, 0,
                        working_order(inputs.recipe->ingredients[line.ingredient].kind)});
  const auto add_dose = [&](const std::optional<InputDose>& dose, LineRole role, int order) {
    if (dose && dose->line.mass_g > 0)
      portions.push_back(
          {role, dose->line.ingredient, dose->line.mass_g * factor, dose->stock_fraction,
           inputs.recipe->ingredients[dose->line.ingredient].strongest_stock, order});
  };
  const bool before_acid = inputs.calcium && inputs.making.calcium_place < inputs.making.acid_place;
  add_dose(inputs.acid, LineRole::acid, working_order(Kind::acid));
  add_dose(inputs.calcium, LineRole::calcium_salt,
           working_order(before_acid ? Kind::salt : Kind::calcium_salt));
  std::stable_sort(portions.begin(), portions.end(),
                   [](const Portion& a, const Portion& b) { return a.order < b.order; });
  return portions;
}

/// Doses that cannot be weighed neat go into a stock; its water comes out of the tap water.
void move_to_stock(std::vector<Portion>& portions, const ScaleSet& scale_set, StockChoice stock,
                   Batch& batch) {
  Portion& water = portions.front();
  for (Portion& portion : portions) {
    if (portion.role != LineRole::acid && portion.role != LineRole::calcium_salt) continue;
    bool chosen = false;
    if (stock == StockChoice::when_needed && portion.stock_fraction <= 0 &&
        !scale_set.scales.empty() && !scale_set.best_clearing(portion.exact_g)) {
      portion.stock_fraction = choose_stock_fraction(portion, scale_set, water.exact_g);
      chosen = portion.stock_fraction > 0;
      if (chosen) water.exact_g -= portion.on_scale_g() - portion.exact_g;
    }
    if (portion.stock_fraction <= 0) continue;
    const double make_g =
        scale_set.scales.empty()
            ? portion.on_scale_g()
            : std::max(portion.on_scale_g(), scale_set.surely_clears_g() / portion.stock_fraction);
    batch.stocks.push_back(
        {portion.ingredient, portion.stock_fraction, portion.on_scale_g(), make_g, chosen});
  }
}

/// Puts one portion on its scale, in parts where the display would overflow. `in_bowl_g` is what
/// the bowl on the main scale holds: cups are poured in as they come and show on its display.
void weigh(const Portion& portion, const ScaleSet& scale_set, double batch_servings, Batch& batch,
           double& in_bowl_g) {
  BatchLine line;
  line.role = portion.role;
  line.ingredient = portion.ingredient;
  line.exact_g = portion.exact_g;
  line.stock_fraction = portion.stock_fraction;
  line.exact_on_scale_g = portion.on_scale_g();
  const double whole_g = line.exact_on_scale_g;
  if (scale_set.scales.empty()) {
    line.weigh_g = whole_g;
    in_bowl_g += whole_g;
    line.running_total_g = in_bowl_g;
    batch.lines.push_back(line);
    return;
  }

  const std::optional<std::size_t> clearing = scale_set.best_clearing(whole_g, in_bowl_g);
  line.clears = clearing.has_value();
  line.scale = clearing.value_or(scale_set.finest(whole_g));
  const Scale& scale = scale_set.scales[*line.scale];
  line.own_cup = *line.scale != scale_set.main();
  const double room_g = std::max(scale.capacity_g - (line.own_cup ? 0 : scale_set.bowl_g), 0.0);
  const double full_g = std::floor(room_g / scale.readability_g) * scale.readability_g;
  if (full_g > 0 && whole_g > most_fills * full_g)
    throw InputError(
        scale_set.document,
        {{"/batch/scales",
          fmt::format("one line would fill \"{}\" {:.3g} times", scale.name, whole_g / full_g),
          "check its capacity and the size of the batch"}});

  // From display to display: each part ends at a full display, the last at what is left.
  double on_scale_g = line.own_cup ? 0 : in_bowl_g;
  double left_g = whole_g;
  std::vector<BatchLine> parts;
  bool new_bowl = false;
  while (true) {
    const double stop_g = rounded_to_readability_g(on_scale_g + left_g, scale);
    const bool fits = full_g <= 0 || stop_g <= full_g;
    if (!fits && on_scale_g >= full_g) {  // no room at all: start afresh before this part
      on_scale_g = 0;
      new_bowl = true;
      continue;
    }
    BatchLine part = line;
    part.new_bowl = new_bowl;
    part.running_total_g = fits ? stop_g : full_g;
    part.exact_on_scale_g = fits ? left_g : full_g - on_scale_g;
    part.weigh_g = rounded_to_readability_g(part.running_total_g - on_scale_g, scale);
    part.exact_g = line.exact_g * part.exact_on_scale_g / whole_g;
    parts.push_back(part);
    left_g -= part.exact_on_scale_g;
    if (fits) {
      on_scale_g = stop_g;
      break;
    }
    on_scale_g = 0;
    new_bowl = true;
  }

  const double before_last_g =
      line.own_cup || parts.back().new_bowl || parts.size() > 1 ? 0 : in_bowl_g;
  const double rounding_g =
      std::abs(parts.back().running_total_g - before_last_g - parts.back().exact_on_scale_g);
  const double scale_g = weighing_error(whole_g, scale).expanded_g;
  // Each part is a weighing of its own, so the scale's share of the error grows with their number.
  const double error =
      (rounding_g + scale_g * std::sqrt(static_cast<double>(parts.size()))) / whole_g;
  const bool well_enough = line.clears && error <= scale_set.tolerance;
  if (!well_enough)
    batch.unweighable.push_back(
        {line.role, line.ingredient, line.exact_g, 100 * error,
         scale_set.readability_needed_g(whole_g),
         std::ceil(batch_servings * scale_set.surely_clears_g() / whole_g - 1e-9)});
  int number = 0;
  for (BatchLine& part : parts) {
    part.part = ++number;
    part.parts = static_cast<int>(parts.size());
    part.error_percent = 100 * error;
    part.clears = well_enough;
    batch.lines.push_back(part);
  }
  // A cup is poured into the bowl; a line on the main scale leaves the bowl at its display.
  in_bowl_g = line.own_cup ? in_bowl_g + whole_g : on_scale_g;
}

}  // namespace

double batch_factor(const Inputs& inputs) {
  return inputs.servings / (1 - inputs.recipe->batch.loss_percent / 100);
}

Batch plan_batch(const Formula& formula, const Inputs& inputs, double density_g_per_ml,
                 StockChoice stock) {
  const BatchSpec& spec = inputs.recipe->batch;
  Batch batch;
  batch.factor = batch_factor(inputs);
  batch.total_g = formula.total_g * batch.factor;
  batch.yield_g = formula.total_g * inputs.servings;
  batch.volume_ml = batch.total_g / density_g_per_ml;
  batch.vessel_needed_ml = batch.volume_ml / (1 - spec.headroom_percent / 100);
  if (spec.vessel_ml) batch.fits_vessel = batch.vessel_needed_ml <= *spec.vessel_ml;

  const ScaleSet scale_set{spec.scales, spec.dose_tolerance_percent / 100, spec.bowl_g,
                           inputs.recipe->document};
  std::vector<Portion> portions = portions_of(formula, inputs, batch.factor);
  move_to_stock(portions, scale_set, stock, batch);
  batch.lines.reserve(portions.size());
  double in_bowl_g = 0;
  for (const Portion& portion : portions)
    if (portion.exact_g > 0) weigh(portion, scale_set, inputs.servings, batch, in_bowl_g);
  return batch;
}

std::span<const Datum> batch_data() {
  return data;
}

}  // namespace gelwright
