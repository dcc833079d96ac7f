#include "gelwright/batch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "gelwright/error.hpp"
#include "gelwright/weighing.hpp"
#include "serving/portions.hpp"

namespace gelwright {

using namespace detail;

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
    {"batch.cup-share", 0.8, "1", 0, "of a fine scale's capacity, left beside a cup", "judgement",
     Standing::judgement},
};

constexpr std::array<double, 3> stock_strengths = {value_of(data, "batch.stock-strength.1"),
                                                   value_of(data, "batch.stock-strength.2"),
                                                   value_of(data, "batch.stock-strength.3")};
/// A stock is made in steps of this, so that its weights are round, g.
constexpr double stock_step_g = 5;
/// Some of it stays in its cup.
constexpr double stock_spare = 1.05;
/// More fills of one scale for one line are a slip of the pen, not a batch.
constexpr double most_fills = 1000;
constexpr double largest_stock_water_share = value_of(data, "batch.stock-water-share");

/// The scales of a batch and the tolerance its lines must meet.
struct ScaleSet {
  const std::vector<Scale>& scales;
  double tolerance;
  double bowl_g;
  const std::string& document;

  /// Rounding of the display to stop at, less what is in the vessel, plus the scale's own error,
  /// over all there is of the line's ingredient.
  static double error_fraction(const Portion& portion, const Scale& scale, double in_vessel_g) {
    const double mass_g = portion.on_scale_g();
    const double put_in_g = rounded_to_readability_g(in_vessel_g + mass_g, scale) - in_vessel_g;
    const double whole_g = portion.whole_g * mass_g / portion.exact_g;
    return (std::abs(put_in_g - mass_g) + weighing_error(mass_g, scale).expanded_g) / whole_g;
  }

  /// The scale a portion goes on. What decides the outcome takes the finest that holds it;
  /// everything else the biggest that weighs it well enough: fewest cups. The finest if none does.
  std::size_t choose(const Portion& portion, double in_vessel_g) const {
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < scales.size(); ++i) {
      const double already_g = i == main() ? in_vessel_g : 0;
      if (error_fraction(portion, scales[i], already_g) > tolerance) continue;
      if (portion.decides && !holds(portion.on_scale_g(), i)) continue;
      const bool better =
          best && (portion.decides ? error_fraction(portion, scales[i], 0) <
                                         error_fraction(portion, scales[*best], 0)
                                   : scales[i].capacity_g > scales[*best].capacity_g);
      if (!best || better) best = i;
    }
    return best.value_or(finest(portion.on_scale_g()));
  }

  bool holds(double mass_g, std::size_t scale) const {
    return mass_g <= value_of(data, "batch.cup-share") * scales[scale].capacity_g;
  }

  /// Whether any scale weighs it within the tolerance, in a cup of its own.
  bool any_clears(double mass_g) const {
    return std::any_of(scales.begin(), scales.end(),
                       [&](const Scale& scale) { return clears(mass_g, scale, tolerance); });
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
    if (scale_set.any_clears(stock_g)) return fraction;
  }
  return 0;
}

Portion dose_of(const InputDose& dose, LineRole role, double factor, const Recipe& recipe) {
  const double mass_g = dose.line.mass_g * factor;
  return {role,
          dose.line.ingredient,
          mass_g,
          mass_g,
          dose.stock_fraction,
          recipe.ingredients[dose.line.ingredient].strongest_stock,
          0,
          true};
}

/// A dose that cannot be weighed neat goes into a stock; its water comes out of the tap water.
void move_to_stock(std::optional<Portion>& dose, bool planned, const ScaleSet& scale_set,
                   StockChoice stock, double& water_g, Batch& batch) {
  if (!dose) return;
  bool chosen = planned;
  if (stock == StockChoice::when_needed && dose->stock_fraction <= 0 && !scale_set.scales.empty() &&
      !scale_set.any_clears(dose->exact_g)) {
    dose->stock_fraction = choose_stock_fraction(*dose, scale_set, water_g);
    chosen = dose->stock_fraction > 0;
    if (chosen) water_g -= dose->on_scale_g() - dose->exact_g;
  }
  if (dose->stock_fraction <= 0) return;
  StockPlan plan{.ingredient = dose->ingredient,
                 .stock_fraction = dose->stock_fraction,
                 .use_g = dose->on_scale_g(),
                 .make_g = dose->on_scale_g(),
                 .scale = {},
                 .chosen_by_plan = chosen};
  if (!scale_set.scales.empty()) {
    const double least_g =
        std::max(stock_spare * plan.use_g, scale_set.surely_clears_g() / plan.stock_fraction);
    plan.make_g = std::ceil(least_g / stock_step_g - 1e-9) * stock_step_g;
    plan.scale = scale_set.finest(plan.make_g * plan.stock_fraction);
  }
  const auto at_scale = [&](double mass_g) {
    return plan.scale ? rounded_to_readability_g(mass_g, scale_set.scales[*plan.scale]) : mass_g;
  };
  plan.solute_g = at_scale(plan.make_g * plan.stock_fraction);
  plan.water_g = at_scale(plan.make_g - plan.solute_g);
  batch.stocks.push_back(plan);
}

/// Puts portions on their scales, vessel by vessel.
class WeighOut {
 public:
  WeighOut(const ScaleSet& scale_set, double servings, Batch& batch)
      : scale_set_(scale_set), servings_(servings), batch_(batch) {}

  void weigh(const Portion& portion) {
    in_vessel_g_.resize(batch_.vessels.size(), 0);
    BatchLine line;
    line.role = portion.role;
    line.ingredient = portion.ingredient;
    line.vessel = portion.vessel;
    line.exact_g = portion.exact_g;
    line.stock_fraction = portion.stock_fraction;
    line.exact_on_scale_g = portion.on_scale_g();
    if (scale_set_.scales.empty()) {
      line.weigh_g = line.exact_on_scale_g;
      in_vessel_g_[line.vessel] += line.weigh_g;
      line.running_total_g = in_vessel_g_[line.vessel];
      batch_.lines.push_back(line);
      return;
    }
    line.scale = scale_set_.choose(portion, in_vessel_g_[line.vessel]);
    const bool main_scale = *line.scale == scale_set_.main();
    if (!main_scale && batch_.vessels[line.vessel].use == BatchVessel::Use::main)
      line.vessel = another(line.vessel);  // no pot stands on a fine scale
    if (!main_scale && batch_.vessels[line.vessel].use == BatchVessel::Use::dry)
      line.vessel = cup_beside(line.vessel, portion, *line.scale);
    in_parts(portion, line);
  }

 private:
  /// Gums that go in together share a cup; all else on a fine scale has one of its own.
  std::size_t cup_beside(std::size_t bowl, const Portion& portion, std::size_t scale) {
    if (portion.decides && !batch_.lines.empty()) {
      const BatchLine& before = batch_.lines.back();
      if (before.role == LineRole::solid && before.scale == scale && decided_ == bowl)
        return before.vessel;
    }
    decided_ = portion.decides ? std::optional(bowl) : std::nullopt;
    batch_.vessels.push_back({BatchVessel::Use::apart, "", batch_.vessels[bowl].step});
    in_vessel_g_.push_back(0);
    return batch_.vessels.size() - 1;
  }

  /// A second vessel like this one, where it is full or too heavy for the scale.
  std::size_t another(std::size_t vessel) {
    const BatchVessel full = batch_.vessels[vessel];
    batch_.vessels.push_back(
        {full.use == BatchVessel::Use::main ? BatchVessel::Use::main_too : full.use, "",
         full.step});
    in_vessel_g_.push_back(0);
    return batch_.vessels.size() - 1;
  }

  /// From display to display: each part ends at a full display, the last at what is left.
  void in_parts(const Portion& portion, BatchLine line) {
    const Scale& scale = scale_set_.scales[*line.scale];
    const double whole_g = line.exact_on_scale_g;
    const BatchVessel::Use use = batch_.vessels[line.vessel].use;
    const bool cup = use == BatchVessel::Use::apart || use == BatchVessel::Use::set_aside ||
                     (use == BatchVessel::Use::main_too && *line.scale != scale_set_.main());
    const double room_g = std::max(scale.capacity_g - (cup ? 0 : scale_set_.bowl_g), 0.0);
    const double full_g = std::floor(room_g / scale.readability_g) * scale.readability_g;
    if (full_g > 0 && whole_g > most_fills * full_g)
      throw InputError(
          scale_set_.document,
          {{"/batch/scales",
            fmt::format("one line would fill \"{}\" {:.3g} times", scale.name, whole_g / full_g),
            "check its capacity and the size of the batch"}});

    double rounding_g = 0;
    std::vector<BatchLine> parts;
    double left_g = whole_g;
    while (true) {
      double& in_vessel_g = in_vessel_g_[line.vessel];
      const double stop_g = rounded_to_readability_g(in_vessel_g + left_g, scale);
      const bool fits = full_g <= 0 || stop_g <= full_g;
      if (!fits && in_vessel_g >= full_g) {  // no room at all: take another vessel
        line.vessel = another(line.vessel);
        continue;
      }
      BatchLine part = line;
      part.running_total_g = fits ? stop_g : full_g;
      part.exact_on_scale_g = fits ? left_g : full_g - in_vessel_g;
      part.weigh_g = rounded_to_readability_g(part.running_total_g - in_vessel_g, scale);
      part.exact_g = line.exact_g * part.exact_on_scale_g / whole_g;
      rounding_g = std::abs(part.running_total_g - in_vessel_g - part.exact_on_scale_g);
      left_g -= part.exact_on_scale_g;
      in_vessel_g = part.running_total_g;
      parts.push_back(part);
      if (fits) break;
      line.vessel = another(line.vessel);
    }
    finish(portion, std::move(parts), rounding_g);
  }

  void finish(const Portion& portion, std::vector<BatchLine> parts, double rounding_g) {
    const Scale& scale = scale_set_.scales[*parts.front().scale];
    const double mass_g = portion.on_scale_g();
    const double whole_g = portion.whole_g * mass_g / portion.exact_g;
    // Each part is a weighing of its own, so the scale's share of the error grows with their
    // number.
    const double error = (rounding_g + weighing_error(mass_g, scale).expanded_g *
                                           std::sqrt(static_cast<double>(parts.size()))) /
                         whole_g;
    const bool well_enough = error <= scale_set_.tolerance;
    if (!well_enough)
      cannot_weigh({portion.role, portion.ingredient, portion.whole_g, 100 * error,
                    scale_set_.readability_needed_g(whole_g),
                    std::ceil(servings_ * scale_set_.surely_clears_g() / whole_g - 1e-9)});
    int number = 0;
    for (BatchLine& part : parts) {
      part.part = ++number;
      part.parts = static_cast<int>(parts.size());
      part.error_percent = 100 * error;
      part.clears = well_enough;
      batch_.lines.push_back(part);
    }
  }

  /// One thing in two vessels is told of once, with the worse of its errors.
  void cannot_weigh(const UnweighableLine& line) {
    for (UnweighableLine& known : batch_.unweighable)
      if (known.role == line.role && known.ingredient == line.ingredient) {
        if (line.error_percent > known.error_percent) known = line;
        return;
      }
    batch_.unweighable.push_back(line);
  }

  const ScaleSet& scale_set_;
  double servings_;
  Batch& batch_;
  std::vector<double> in_vessel_g_;     // the display of each vessel
  std::optional<std::size_t> decided_;  // the bowl whose gum was weighed last, into a cup beside it
};

/// "A" to "Z", then "A2", ...
std::string letter(std::size_t number) {
  constexpr std::size_t letters = 26;
  std::string name(1, static_cast<char>('A' + number % letters));
  if (number >= letters) name += std::to_string(number / letters + 1);
  return name;
}

/// Names bowls by number and cups by letter, in the order they are weighed; drops what stays empty,
/// but never the main vessel.
void name_vessels(Batch& batch) {
  std::vector<BatchVessel> used;
  std::vector<std::size_t> place(batch.vessels.size(), batch.vessels.size());
  std::size_t bowls = 0;
  std::size_t cups = 0;
  for (BatchLine& line : batch.lines) {
    if (place[line.vessel] == batch.vessels.size()) {
      place[line.vessel] = used.size();
      used.push_back(batch.vessels[line.vessel]);
      BatchVessel& vessel = used.back();
      if (vessel.use == BatchVessel::Use::dry)
        vessel.name = fmt::format("bowl {}", ++bowls);
      else if (vessel.use != BatchVessel::Use::main)
        vessel.name = "cup " + letter(cups++);
    }
    line.vessel = place[line.vessel];
  }
  if (std::none_of(used.begin(), used.end(),
                   [](const BatchVessel& each) { return each.use == BatchVessel::Use::main; }))
    used.push_back(batch.vessels.front());
  if (bowls == 1)
    for (BatchVessel& each : used)
      if (each.use == BatchVessel::Use::dry) each.name = "bowl";
  batch.vessels = std::move(used);
}

}  // namespace

std::optional<std::size_t> detail::scale_for(double mass_g, bool decides, const BatchSpec& spec,
                                             const std::string& document) {
  if (spec.scales.empty() || !(mass_g > 0)) return std::nullopt;
  const ScaleSet scale_set{spec.scales, spec.dose_tolerance_percent / 100, spec.bowl_g, document};
  Portion portion;
  portion.exact_g = portion.whole_g = mass_g;
  portion.decides = decides;
  return scale_set.choose(portion, 0);
}

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
  if (spec.vessel_ml) {
    batch.fits_vessel = batch.vessel_needed_ml <= *spec.vessel_ml;
    batch.rounds = std::max(1.0, std::ceil(batch.vessel_needed_ml / *spec.vessel_ml - 1e-9));
  }

  const ScaleSet scale_set{spec.scales, spec.dose_tolerance_percent / 100, spec.bowl_g,
                           inputs.recipe->document};
  const double round_factor = batch.factor / batch.rounds;
  double water_g = formula.tap_g * round_factor;
  Doses doses;
  if (inputs.acid && inputs.acid->line.mass_g > 0)
    doses.acid = dose_of(*inputs.acid, LineRole::acid, round_factor, *inputs.recipe);
  if (inputs.calcium && inputs.calcium->line.mass_g > 0)
    doses.calcium = dose_of(*inputs.calcium, LineRole::calcium_salt, round_factor, *inputs.recipe);
  move_to_stock(doses.acid, inputs.acid && inputs.acid->planned_stock, scale_set, stock, water_g,
                batch);
  move_to_stock(doses.calcium, inputs.calcium && inputs.calcium->planned_stock, scale_set, stock,
                water_g, batch);
  PortionPlan plan = portions_of(inputs, round_factor, water_g, doses);
  batch.vessels = std::move(plan.vessels);
  batch.lines.reserve(plan.portions.size());
  WeighOut weigh_out(scale_set, inputs.servings / batch.rounds, batch);
  for (const Portion& portion : plan.portions) weigh_out.weigh(portion);
  name_vessels(batch);
  return batch;
}

std::span<const Datum> batch_data() {
  return data;
}

}  // namespace gelwright
