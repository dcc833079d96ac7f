#include "gelwright/resolve.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/roots.hpp"
#include "gelwright/error.hpp"
#include "gelwright/properties.hpp"
#include "gelwright/sodium_readings.hpp"
#include "gelwright/water_phase.hpp"

namespace gelwright {

namespace {

/// No kitchen dose of acid or calcium exceeds this share of the serving.
constexpr double largest_dose_share = 0.2;
constexpr double largest_water_g_per_g = 50;
constexpr double most_servings = 10000;
/// Two targets pull on each other weakly: a few rounds settle both.
constexpr int most_rounds = 20;

/// Finds where `value(amount)`, which moves one way over [low, high], crosses `target`.
template <class Value>
Dosed solve_monotone(double low, double high, double target, Value value) {
  const double at_low = value(low);
  const double at_high = value(high);
  Dosed dosed;
  dosed.nearest_low = std::min(at_low, at_high);
  dosed.nearest_high = std::max(at_low, at_high);
  if (target < dosed.nearest_low || target > dosed.nearest_high) {
    dosed.amount = std::abs(target - at_low) < std::abs(target - at_high) ? low : high;
    dosed.value = value(dosed.amount);
    return dosed;
  }
  dosed.reached = true;
  dosed.amount = detail::narrow_bracket([&](double amount) { return value(amount) - target; }, low,
                                        at_low - target, high, at_high - target)
                     .root;
  dosed.value = value(dosed.amount);
  return dosed;
}

/// The most of a dose: its share of the serving, and no more stock than there is water.
double largest_dose_g(const Inputs& inputs, std::optional<InputDose> Inputs::*which) {
  Inputs without = inputs;
  (without.*which)->line.mass_g = 0;
  const Formula formula = formulate(without);
  double most = largest_dose_share * formula.total_g;
  const double stock = (inputs.*which)->stock_fraction;
  if (stock > 0) most = std::min(most, 0.999 * formula.tap_g / (1 / stock - 1));
  return most;
}

WaterPhase chemistry_with(Inputs& inputs, std::optional<InputDose> Inputs::*which, double mass_g) {
  (inputs.*which)->line.mass_g = mass_g;
  return water_phase_of(formulate(inputs), inputs);
}

std::string cannot(const Dosed& dosed, std::string_view what, double target, int decimals) {
  return fmt::format("{} {:.{}f} cannot be reached; between {:.{}f} and {:.{}f} can", what, target,
                     decimals, dosed.nearest_low, decimals, dosed.nearest_high, decimals);
}

/// The gum the ratio is meant for: as the recipe says, else gellan where nothing else binds
/// calcium.
Gum target_gum_of(const Inputs& inputs) {
  const auto& calcium = inputs.recipe->calcium;
  if (calcium && calcium->target_gum) return *calcium->target_gum;
  const Composition delivered = formulate(inputs).delivered;
  double gellan_mol = 0;
  double others_mol = 0;
  for (std::size_t g = 0; g < gum_count; ++g) {
    const auto gum = static_cast<Gum>(g);
    const bool is_gellan = gum == Gum::gellan_low_acyl || gum == Gum::gellan_high_acyl;
    (is_gellan ? gellan_mol : others_mol) += delivered.carboxylate(gum);
  }
  return gellan_mol > 0 && others_mol == 0 ? Gum::gellan_low_acyl : Gum::alginate;
}

}  // namespace

Dosed dose_acid_to_ph(const Inputs& inputs, double ph) {
  Inputs trial = inputs;
  if (!trial.acid)
    throw InputError(inputs.recipe->document,
                     {{"/acid", "there is no acid to dose", "name the acid in the recipe"}});
  Dosed dosed = solve_monotone(0, largest_dose_g(inputs, &Inputs::acid), ph, [&](double mass_g) {
    return chemistry_with(trial, &Inputs::acid, mass_g).ph;
  });
  if (!dosed.reached) {
    dosed.reason = cannot(dosed, "pH", ph, 2);
    if (ph > dosed.nearest_high) dosed.reason += ": without any acid it is already that sour";
  }
  return dosed;
}

Dosed dose_acid_to_mean_ph(const Inputs& inputs, double ph) {
  std::vector<Inputs> trials;
  const std::vector<SodiumReading> readings = sodium_readings_left(inputs);
  for (const SodiumReading& each : readings) trials.push_back(read_sodium_as(inputs, each.salt));
  Dosed dosed = solve_monotone(0, largest_dose_g(inputs, &Inputs::acid), ph, [&](double mass_g) {
    double mean = 0;
    for (std::size_t i = 0; i < trials.size(); ++i)
      mean += readings[i].weight * chemistry_with(trials[i], &Inputs::acid, mass_g).ph;
    return mean;
  });
  if (!dosed.reached) dosed.reason = cannot(dosed, "mean pH", ph, 2);
  return dosed;
}

double target_ratio_of(const WaterPhase& phase, const Inputs& inputs) {
  return target_gum_of(inputs) == Gum::gellan_low_acyl ? phase.gellan_ratio_r2
                                                       : phase.calcium_ratio_r2;
}

Dosed dose_calcium_to_ratio(const Inputs& inputs, double ratio) {
  Inputs trial = inputs;
  if (!trial.calcium)
    throw InputError(inputs.recipe->document, {{"/calcium", "there is no calcium salt to dose",
                                                "name the salt in the recipe"}});
  if (formulate(inputs).delivered.dissolved(Component::uronate) <= 0)
    throw InputError(
        inputs.recipe->document,
        {{"/calcium/target_ratio", "there is no gum that binds calcium", "add a gum"}});
  Dosed dosed =
      solve_monotone(0, largest_dose_g(inputs, &Inputs::calcium), ratio, [&](double mass_g) {
        return target_ratio_of(chemistry_with(trial, &Inputs::calcium, mass_g), trial);
      });
  if (!dosed.reached) {
    dosed.reason = cannot(dosed, "R2", ratio, 2);
    if (ratio < dosed.nearest_low)
      dosed.reason += ": water and solids alone bring more calcium than that";
    else
      dosed.reason += ": the salt does not dissolve that far, or citrate hides its calcium";
  }
  return dosed;
}

Dosed dose_water_to_fraction(const Inputs& inputs, double fraction) {
  const Formula formula = formulate(inputs);
  Dosed dosed;
  dosed.reached = true;
  dosed.amount = water_mass_g({WaterBasis::fraction_of_total, fraction}, formula.solids_g,
                              formula.acid_g + formula.calcium_salt_g);
  dosed.value = fraction;
  dosed.nearest_low = 0;
  dosed.nearest_high = 1;
  return dosed;
}

Dosed dose_water_to_soluble_solids(const Inputs& inputs, double percent) {
  Inputs trial = inputs;
  const Formula now = formulate(inputs);
  Dosed dosed = solve_monotone(std::max(0.0, now.water_g - now.tap_g),
                               largest_water_g_per_g * now.total_g, percent, [&](double water_g) {
                                 trial.water = {WaterBasis::mass_g, water_g};
                                 return formulate(trial).soluble_solids_percent();
                               });
  if (!dosed.reached) {
    dosed.reason = cannot(dosed, "soluble solids of", percent, 1) + " %";
    if (percent > dosed.nearest_high) dosed.reason += ": without any added water it holds no more";
  }
  return dosed;
}

Dosed dose_readable(const Inputs& inputs, StockChoice stock) {
  if (inputs.recipe->batch.scales.empty())
    throw InputError(inputs.recipe->document,
                     {{"/batch/scales", "there are no scales to read", "list the scales you own"}});
  const Formula formula = formulate(inputs);
  // Weighing does not depend on density; any will do.
  constexpr double any_density_g_per_ml = 1;
  Dosed dosed;
  dosed.nearest_low = 1;
  dosed.nearest_high = most_servings;
  Inputs trial = inputs;
  for (trial.servings = 1; trial.servings <= most_servings; trial.servings += 1)
    if (plan_batch(formula, trial, any_density_g_per_ml, stock).unweighable.empty()) {
      dosed.reached = true;
      dosed.amount = dosed.value = trial.servings;
      return dosed;
    }
  dosed.amount = dosed.value = most_servings;
  dosed.reason =
      fmt::format("not even {:.0f} servings can be weighed on these scales", most_servings);
  return dosed;
}

Inputs resolve(const Recipe& recipe) {
  Inputs inputs = inputs_of(recipe);
  const bool to_ph = recipe.acid && recipe.acid->target_ph;
  const bool to_ratio = recipe.calcium && recipe.calcium->target_ratio;
  constexpr double settled_g = 1e-9;
  for (int round = 0; round < most_rounds; ++round) {
    double moved_g = 0;
    const auto meet = [&](std::optional<InputDose> Inputs::*which, const Dosed& dosed,
                          std::string_view pointer, std::string_view remedy) {
      // On the first round the other dose is still missing; only the last word counts.
      if (!dosed.reached && (round > 0 || !(to_ph && to_ratio)))
        throw InputError(recipe.document,
                         {{std::string(pointer), dosed.reason, std::string(remedy)}});
      moved_g += std::abs(dosed.amount - (inputs.*which)->line.mass_g);
      (inputs.*which)->line.mass_g = dosed.amount;
    };
    if (to_ph)
      meet(&Inputs::acid, dose_acid_to_ph(inputs, *recipe.acid->target_ph), "/acid/target_ph",
           "choose a pH within reach");
    if (to_ratio)
      meet(&Inputs::calcium, dose_calcium_to_ratio(inputs, *recipe.calcium->target_ratio),
           "/calcium/target_ratio", "choose a ratio within reach");
    if (moved_g < settled_g || !(to_ph && to_ratio)) break;
  }
  require_water(inputs);
  return inputs;
}

}  // namespace gelwright
