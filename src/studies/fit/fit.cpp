#include "gelwright/fit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "gelwright/error.hpp"
#include "gelwright/water_phase.hpp"
#include "statistics/quantile.hpp"
#include "statistics/random.hpp"
#include "studies/fit/fit_core.hpp"
#include "studies/fit/fit_detail.hpp"
#include "studies/fit/fit_model.hpp"

namespace gelwright {

namespace {

/// Parameters of every fit, in this order.
constexpr std::size_t sites = 0, pka = 1, fraction = 2, parameter_count = 3;

Buffer to_buffer(std::span<const double> p) {
  return {p[sites], p[pka], p[fraction]};
}

std::vector<FittedReading> readings_of(const Bench& bench) {
  std::vector<FittedReading> readings;
  for (std::size_t i = 0; i < bench.cups.size(); ++i) {
    const BenchCup& cup = bench.cups[i];
    const auto add = [&](const std::optional<double>& ph, bool diluted) {
      if (!ph) return;
      FittedReading& reading = readings.emplace_back();
      reading.cup = i;
      reading.diluted = diluted;
      reading.read_ph = *ph;
    };
    add(cup.ph, false);
    add(cup.ph_diluted, true);
  }
  return readings;
}

/// So many of them at most, taken evenly.
std::vector<FittedReading> thinned(const std::vector<FittedReading>& readings) {
  constexpr std::size_t most = 100;
  const std::size_t step = (readings.size() + most - 1) / most;
  std::vector<FittedReading> some;
  for (std::size_t i = 0; i < readings.size(); i += step) some.push_back(readings[i]);
  return some;
}

/// Which parameters the search may move; the others are held where it starts.
using Free = std::array<bool, parameter_count>;
constexpr Free amount_only{true, false, false};
constexpr Free amount_and_pka{true, true, false};
constexpr Free amount_and_fraction{true, false, true};
constexpr Free all_three{true, true, true};

/// A search in a longer one starts from what a part of it gave.
constexpr std::size_t long_series = 200;

/// Along a valley of buffers that do as well as one another a search would creep for ever: it ends
/// where it gains less than this a step. Chance alone takes 1 off the sum of squares for each
/// parameter.
constexpr double to_the_end = 1e-4;
constexpr double to_see_whether_it_is_worth_it = 1e-2;

PhFit fit_from(const PhModel& model, std::span<const PhReading> readings, const Free& free,
               const std::vector<double>& start, double least_gain = to_the_end) {
  const FitConstants& k = fit_constants();
  FitProblem problem{
      start, {k.lowest_mmol_per_g, k.lowest_pka, 0}, {k.highest_mmol_per_g, k.highest_pka, 1}};
  problem.slope_tolerance = 1e-6;
  problem.least_gain = least_gain;
  // A search that is lost in a long series is given up sooner: another start stands in.
  constexpr int evaluations_of_long_series = 150;
  if (readings.size() > long_series) problem.max_evaluations = evaluations_of_long_series;
  for (std::size_t j = 0; j < parameter_count; ++j)
    if (!free[j]) problem.lower[j] = problem.upper[j] = start[j];
  return fit_ph(model, readings, problem, k.sd_relative_uncertainty);
}

/// Scatter over stated sd that chance exceeds with `chance`: root of chi squared over its degrees
/// of freedom, Wilson & Hilferty, Proc. Natl. Acad. Sci. 17:684 (1931).
double chance_scatter_limit(int degrees_of_freedom, double chance) {
  const double v = 2.0 / (9.0 * degrees_of_freedom);
  return std::sqrt(std::pow(1 - v + inverse_normal(1 - chance) * std::sqrt(v), 3));
}

/// The better of the fits from several starts, or nothing: the surface may have a second hollow,
/// and more parameters than the readings tell apart may leave the search lost.
std::optional<PhFit> best_fit(const PhModel& model, std::span<const PhReading> readings,
                              const Free& free, std::span<const std::vector<double>> starts,
                              double least_gain = to_the_end) {
  std::optional<PhFit> best;
  for (const std::vector<double>& start : starts) {
    // Another start is for the case that this one ended in the wrong hollow.
    if (best && best->fit.degrees_of_freedom > 0 &&
        best->fit.residual_sd <
            chance_scatter_limit(best->fit.degrees_of_freedom, fit_constants().scatter_chance))
      break;
    try {
      PhFit made = fit_from(model, readings, free, start, least_gain);
      if (!best || made.fit.rss < best->fit.rss) best = std::move(made);
    } catch (const NotConverged&) {
      // Another start, or a simpler fit, stands in.
    }
  }
  return best;
}

/// The amount alone. It has an answer whatever the readings are, so every start is tried before the
/// search is given up.
PhFit fit_amount(const PhModel& model, std::span<const PhReading> readings, double first_guess) {
  const FitConstants& k = fit_constants();
  constexpr double other_guesses[] = {0.02, 0.3, 1};
  for (const double guess : other_guesses) {
    try {
      return fit_from(model, readings, amount_only, {first_guess, k.held_pka, k.held_fraction});
    } catch (const NotConverged&) {
      first_guess = guess;
    }
  }
  return fit_from(model, readings, amount_only, {first_guess, k.held_pka, k.held_fraction});
}

/// Whether `extra` more parameters lower the sum of squares by more than chance: extra sum of
/// squares, Draper & Smith 1998 ch. 6, with t squared for F of one degree of freedom; two more have
/// to pass the same test for each.
bool worth_it(const PhFit& fewer, const PhFit& more, int extra) {
  const double t =
      student_t_quantile(1 - fit_constants().extra_parameter_chance / 2, more.degrees_of_freedom);
  const double variance = more.pooled_sd * more.pooled_sd;
  return (fewer.fit.rss - more.fit.rss) / extra > variance * t * t;
}

/// Whether every free parameter has a finite error away from its bounds.
bool sound(const std::optional<PhFit>& fit, const Free& free) {
  if (!fit) return false;
  for (std::size_t j = 0; j < parameter_count; ++j)
    if (free[j] && (fit->fit.at_bound[j] || !std::isfinite(fit->standard_error(j)))) return false;
  return true;
}

/// Where the searches start: empty but for the first, they start from the simpler fit.
struct Starts {
  double sites_alone = 0.1;
  std::vector<double> with_pka, with_all;
};

struct Chosen {
  PhFit fit;
  Free free = amount_only;
};

/// As many parameters as the readings can carry. `from` becomes where the searches ended.
Chosen choose(const PhModel& model, std::span<const PhReading> readings, Starts& from) {
  const FitConstants& k = fit_constants();
  const auto count = static_cast<double>(readings.size());
  PhFit one = fit_amount(model, readings, from.sites_alone);
  from.sites_alone = one.fit.parameters[sites];
  if (count < k.readings_for_pka) return {std::move(one), amount_only};

  constexpr double high_pka = 5;
  constexpr double much = 0.5;
  constexpr double half_salt = 0.5;
  std::vector<std::vector<double>> starts = {
      {one.fit.parameters[sites], k.held_pka, k.held_fraction}, {much, high_pka, k.held_fraction}};
  if (!from.with_pka.empty()) starts = {from.with_pka};
  std::optional<PhFit> two = best_fit(model, readings, amount_and_pka, starts);
  if (two) from.with_pka = two->fit.parameters;
  const bool two_sound = sound(two, amount_and_pka);

  if (count >= k.readings_for_fraction) {
    std::vector<std::vector<double>> more = {two_sound ? two->fit.parameters : starts[0],
                                             {much, k.held_pka, half_salt}};
    if (!from.with_all.empty()) more = {from.with_all};
    const PhFit& fewer = two_sound ? *two : one;
    const int extra = two_sound ? 1 : 2;
    std::optional<PhFit> three =
        best_fit(model, readings, all_three, more, to_see_whether_it_is_worth_it);
    if (three && worth_it(fewer, *three, extra)) {
      const std::vector<double> found[] = {three->fit.parameters};
      if (std::optional<PhFit> settled = best_fit(model, readings, all_three, found))
        three = std::move(settled);
    }
    if (three) from.with_all = three->fit.parameters;
    if (three && worth_it(fewer, *three, extra)) {
      // A share is called for; the pKa beside it only where the readings tell that as well.
      if (sound(three, all_three) && three->half_width(pka) <= k.pka_half_width_at_most)
        return {*three, all_three};
      const std::vector<double> held[] = {
          {std::min(much, three->fit.parameters[sites]), k.held_pka, half_salt}};
      const std::optional<PhFit> share = best_fit(model, readings, amount_and_fraction, held);
      if (sound(share, amount_and_fraction) && !worth_it(*share, *three, 1))
        return {*share, amount_and_fraction};
      if (sound(three, all_three)) return {*three, all_three};
    }
  }
  if (two_sound && (two->half_width(pka) <= k.pka_half_width_at_most || worth_it(one, *two, 1)))
    return {*two, amount_and_pka};
  return {std::move(one), amount_only};
}

FitParameter parameter_of(const Chosen& chosen, std::size_t which) {
  FitParameter made;
  made.value = chosen.fit.fit.parameters[which];
  made.fitted = chosen.free[which];
  made.at_bound = chosen.fit.fit.at_bound[which];
  made.standard_error = chosen.fit.standard_error(which);
  made.half_width = made.fitted ? chosen.fit.half_width(which) : 0;
  return made;
}

/// Half-width of the dose: the covariance of the fit carried over (JCGM 100:2008 5.2.2), and where
/// the pKa was held, what another pKa would have made of the same readings.
std::optional<double> dose_half_width(BufferModel& model, const Chosen& chosen,
                                      const PhModel& ph_model, std::span<const PhReading> readings,
                                      double target_ph, double acid_g) {
  if (chosen.fit.fit.at_bound[sites] || !std::isfinite(chosen.fit.standard_error(sites)))
    return std::nullopt;
  constexpr double relative_step = 1e-4;
  constexpr double smallest_step = 1e-5;
  constexpr double acid_step_g = 1e-4;
  const auto ph_at = [&](const std::vector<double>& p, double dose_g) {
    return model.serving_ph(dose_g, to_buffer(p));
  };
  const double down_g = std::max(0.0, acid_g - acid_step_g);
  const std::vector<double>& best = chosen.fit.fit.parameters;
  const double by_acid =
      (ph_at(best, acid_g + acid_step_g) - ph_at(best, down_g)) / (acid_g + acid_step_g - down_g);
  if (!(by_acid < 0)) return std::nullopt;
  double gradient[parameter_count] = {};
  for (std::size_t j = 0; j < parameter_count; ++j) {
    if (!chosen.free[j]) continue;
    const double step = std::max(smallest_step, relative_step * best[j]);
    std::vector<double> up = best;
    std::vector<double> down = best;
    up[j] += step;
    down[j] = std::max(0.0, best[j] - step);
    gradient[j] = -(ph_at(up, acid_g) - ph_at(down, acid_g)) / (up[j] - down[j]) / by_acid;
  }
  double variance = std::pow(chosen.fit.standard_error_of(gradient), 2);
  if (!chosen.free[pka]) {
    const FitConstants& k = fit_constants();
    double ends[2];
    for (const int side : {0, 1}) {
      const double other_pka = k.held_pka + (side == 0 ? -1 : 1) * k.held_pka_sd;
      std::vector<double> start = best;
      start[pka] = other_pka;
      const std::vector<double> only[] = {start};
      const std::optional<PhFit> refit = best_fit(ph_model, readings, chosen.free, only);
      if (!refit) return std::nullopt;
      const Dosed dosed = model.dose(target_ph, to_buffer(refit->fit.parameters));
      if (!dosed.reached) return std::nullopt;
      ends[side] = dosed.amount;
    }
    variance += std::pow((ends[1] - ends[0]) / 2, 2);
  }
  return chosen.fit.coverage_factor() * std::sqrt(variance);
}

/// The recipe with a calcium target turned into the mass the sheet was planned with.
Recipe with_calcium_met(const Recipe& recipe) {
  Recipe made = recipe;
  if (!recipe.calcium || !recipe.calcium->target_ratio) return made;
  made.calcium->mass_g.value = resolve(recipe).calcium->line.mass_g;
  made.calcium->target_ratio.reset();
  return made;
}

void compare_sheet(const Recipe& recipe, const Bench& bench, const FitOptions& options,
                   std::vector<FitWarning>& warnings) {
  const bool any = std::any_of(bench.cups.begin(), bench.cups.end(),
                               [](const BenchCup& cup) { return cup.predicted_ph.has_value(); });
  if (!any) return;
  const std::vector<Inputs> cups = bench_inputs(recipe, bench, options);
  const std::vector<std::size_t> first = first_made_alike(bench);
  std::vector<double> computed(cups.size());
  std::optional<FitWarning> worst;
  for (std::size_t i = 0; i < cups.size(); ++i) {
    computed[i] =
        first[i] < i ? computed[first[i]] : water_phase_of(formulate(cups[i]), cups[i]).ph;
    if (!bench.cups[i].predicted_ph) continue;
    const double ours = computed[i];
    const double gap = std::abs(ours - *bench.cups[i].predicted_ph);
    if (gap > fit_constants().sheet_tolerance &&
        (!worst || gap > std::abs(worst->number - worst->limit)))
      worst = {FitWarningKind::sheet_disagrees, *bench.cups[i].predicted_ph, ours, i};
  }
  if (worst) warnings.push_back(*worst);
}

void warn(const Chosen& chosen, BenchFit& result) {
  const FitConstants& k = fit_constants();
  auto& warnings = result.warnings;
  const auto count = static_cast<double>(result.readings.size());
  if (count < k.readings_wanted)
    warnings.push_back({FitWarningKind::few_readings, count, k.readings_wanted});
  const FitParameter& amount = result.buffer.carboxylate_mmol_per_g;
  if (amount.value <= k.lowest_mmol_per_g)
    warnings.push_back({FitWarningKind::no_buffer});
  else if (amount.at_bound)
    warnings.push_back({FitWarningKind::buffer_at_limit, amount.value});
  else if (chosen.fit.fit.condition_number > k.condition_at_most)
    warnings.push_back({FitWarningKind::parameters_lean, chosen.fit.fit.condition_number});
  else if (!result.buffer.pka.fitted)
    warnings.push_back({FitWarningKind::pka_held, result.buffer.pka.value, k.held_pka_sd});
  for (std::size_t i = 0; i < result.readings.size(); ++i)
    if (result.readings[i].outlier)
      warnings.push_back(
          {FitWarningKind::outlier, result.readings[i].studentised.value_or(0), 0, i});
  const Fit& fit = chosen.fit.fit;
  if (fit.degrees_of_freedom >= 1) {
    const double limit = chance_scatter_limit(fit.degrees_of_freedom, k.scatter_chance);
    if (fit.residual_sd > limit)
      warnings.push_back({FitWarningKind::scatter, fit.residual_sd, limit});
  }
}

double root_mean_square(const std::vector<FittedReading>& readings,
                        double FittedReading::*computed) {
  double sum = 0;
  for (const FittedReading& each : readings) sum += std::pow(each.*computed - each.read_ph, 2);
  return std::sqrt(sum / static_cast<double>(readings.size()));
}

void add_dose(BufferModel& model, const Chosen& chosen, const PhModel& ph_model,
              std::span<const PhReading> readings, std::optional<double> target_ph,
              BenchFit& result) {
  if (!target_ph || !model.has_acid()) return;
  FittedDose dose;
  dose.target_ph = *target_ph;
  dose.dosed = model.dose(*target_ph, to_buffer(chosen.fit.fit.parameters));
  if (dose.dosed.reached)
    dose.half_width_g =
        dose_half_width(model, chosen, ph_model, readings, *target_ph, dose.dosed.amount);
  const auto [low, high] =
      std::minmax_element(readings.begin(), readings.end(),
                          [](const PhReading& a, const PhReading& b) { return a.ph < b.ph; });
  if (*target_ph < low->ph || *target_ph > high->ph)
    result.warnings.push_back({FitWarningKind::target_outside_range, *target_ph,
                               *target_ph < low->ph ? low->ph : high->ph});
  result.dose = dose;
}

/// The acid for the wanted texture, by the model that has learnt.
void add_aim(const Recipe& recipe, const FitOptions& options, BenchFit& result) {
  const auto texture = options.target_texture ? options.target_texture : recipe.target_texture;
  if (!texture || !recipe.acid) return;
  Recipe made = calibrated(recipe, result);
  // Where the recipe aims at a pH, the search starts from the dose that reaches it.
  if (made.acid->target_ph) {
    made.acid->target_ph.reset();
    if (result.dose) made.acid->mass_g.value = result.dose->dosed.amount;
  }
  result.aim = aim_at(inputs_of(made), {*texture, {Knob::acid_g}});
}

}  // namespace

double FittedDose::low_g() const {
  return std::max(0.0, dosed.amount - half_width_g.value_or(0));
}

double FittedDose::high_g() const {
  return dosed.amount + half_width_g.value_or(0);
}

BenchFit fit_bench(const Recipe& as_read, const Bench& bench, const FitOptions& options) {
  const Recipe recipe = with_calcium_met(as_read);
  BenchFit result;
  result.readings = readings_of(bench);
  if (result.readings.size() < 2)
    throw InputError(bench.document,
                     {{"",
                       fmt::format("{} pH reading{}, at least 2 are needed", result.readings.size(),
                                   result.readings.size() == 1 ? "" : "s"),
                       "one alone cannot tell the mix from a slip of the meter; six are better"}});
  const bool told_below = recipe.acid && recipe.acid->target_ph;  // cup by cup, in its own words
  if (!told_below && bench.cups.size() > 1 &&
      std::all_of(bench.cups.begin(), bench.cups.end(),
                  [](const BenchCup& cup) { return cup.inputs.empty(); }))
    throw InputError(
        bench.document,
        {{"",
          fmt::format("{} cups, and no column says what differs between them", bench.cups.size()),
          "add what was varied, per serving, \"acid_g\" or another amount; keep one "
          "line where every cup is the recipe itself"}});
  const std::vector<std::size_t> carriers = carriers_of(recipe, options.ingredient);
  const Recipe bare = without_buffer(recipe, carriers);
  const bool replaced = std::any_of(carriers.begin(), carriers.end(), [&](std::size_t i) {
    return recipe.ingredients[i].buffer_pka.has_value();
  });
  BufferModel model(bare, carriers, bench, options, result.readings);
  const Ingredient& first = recipe.ingredients[carriers.front()];
  if (!options.ingredient.empty() || first.kind == Kind::mix) result.ingredient = first.name;
  if (result.ingredient.empty()) result.warnings.push_back({FitWarningKind::all_solids});
  if (replaced) result.warnings.push_back({FitWarningKind::buffer_replaced});

  const FitConstants& k = fit_constants();
  result.reading_sd =
      options.ph_sd.value_or(options.method == PhMethod::meter ? k.meter_sd : k.strips_sd);
  std::vector<PhReading> readings;
  for (const FittedReading& each : result.readings)
    readings.push_back({each.read_ph, result.reading_sd});
  const PhModel ph_model = [&](std::span<const double> p, std::size_t i) {
    return model.reading_ph(i, to_buffer(p));
  };
  Starts starts;
  if (readings.size() > long_series) {
    const std::vector<FittedReading> some = thinned(result.readings);
    BufferModel part(bare, carriers, bench, options, some);
    const PhModel part_model = [&](std::span<const double> p, std::size_t i) {
      return part.reading_ph(i, to_buffer(p));
    };
    std::vector<PhReading> part_readings;
    for (const FittedReading& each : some)
      part_readings.push_back({each.read_ph, result.reading_sd});
    choose(part_model, part_readings, starts);
  }
  const Chosen chosen = choose(ph_model, readings, starts);

  result.buffer = {
      parameter_of(chosen, sites), parameter_of(chosen, pka), parameter_of(chosen, fraction), {}};
  const double pair[] = {chosen.fit.standard_error(sites), chosen.fit.standard_error(pka)};
  if (chosen.free[pka] && std::isfinite(pair[0]) && std::isfinite(pair[1]) && pair[1] > 0)
    result.buffer.correlation =
        chosen.fit.covariance[sites * parameter_count + pka] / (pair[0] * pair[1]);
  result.sd_for_spread_mmol_per_g =
      chosen.fit.sole_standard_error(sites) *
      std::sqrt(static_cast<double>(std::count(chosen.free.begin(), chosen.free.end(), true)));
  result.scatter_sd = chosen.fit.pooled_sd * result.reading_sd;
  result.degrees_of_freedom = chosen.fit.degrees_of_freedom;

  const Buffer none{0, k.held_pka, k.held_fraction};
  const std::vector<double> studentised = studentised_residuals(chosen.fit.fit);
  const std::vector<std::size_t> odd = outliers(chosen.fit.fit, k.outlier_chance);
  // One buffer after the other: each is worked out for all readings at once.
  for (std::size_t i = 0; i < result.readings.size(); ++i)
    result.readings[i].declared_ph = model.reading_ph(i, none);
  for (std::size_t i = 0; i < result.readings.size(); ++i) {
    FittedReading& each = result.readings[i];
    each.fitted_ph = ph_model(chosen.fit.fit.parameters, i);
    if (!studentised.empty()) each.studentised = studentised[i];
    each.outlier = std::binary_search(odd.begin(), odd.end(), i);
  }
  result.declared_rms_ph = root_mean_square(result.readings, &FittedReading::declared_ph);
  result.fitted_rms_ph = root_mean_square(result.readings, &FittedReading::fitted_ph);

  warn(chosen, result);
  compare_sheet(recipe, bench, options, result.warnings);
  const std::optional<double> target =
      options.target_ph ? options.target_ph
                        : (recipe.acid ? recipe.acid->target_ph : std::optional<double>());
  add_dose(model, chosen, ph_model, readings, target, result);
  learn_textures(calibrated(recipe, result), bench, options, result);
  add_aim(recipe, options, result);
  return result;
}

}  // namespace gelwright
