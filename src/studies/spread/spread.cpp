#include "gelwright/spread.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <iterator>

#include "base/parallel.hpp"
#include "gelwright/error.hpp"
#include "statistics/quantile.hpp"
#include "studies/spread/spread_detail.hpp"

namespace gelwright {

namespace {

constexpr std::size_t fewest_draws = 100;
constexpr std::size_t most_draws = 20'000'000;
constexpr std::size_t block_draws = 256;
/// Enough to tell a share of 1 % from none, and an interval to 2 %.
constexpr std::size_t rank_draws = 10'000;
constexpr std::size_t most_improvement_draws = 5'000;
constexpr EvaluateParts no_batch{.batch = false, .flags = true};

std::uint64_t bit_of(FlagId id) {
  return std::uint64_t{1} << static_cast<unsigned>(id);
}

/// What is kept of the draws.
struct Sample {
  std::array<std::vector<double>, spread_output_count> outputs;
  std::vector<GelChances> gel;  ///< of each block, summed: the order of threads leaves no trace
  std::vector<std::uint64_t> flags, stops;

  explicit Sample(std::size_t draws) {
    for (std::vector<double>& each : outputs) each.resize(draws);
    gel.resize((draws + block_draws - 1) / block_draws);
    flags.resize(draws);
    stops.resize(draws);
  }
};

std::size_t index_of(SpreadOutput output) {
  return static_cast<std::size_t>(output);
}

std::array<double, spread_output_count> outputs_of(const Evaluation& evaluation) {
  std::array<double, spread_output_count> values{};
  values[index_of(SpreadOutput::ph)] = evaluation.water_phase.ph;
  values[index_of(SpreadOutput::soluble_solids_percent)] =
      evaluation.formula.soluble_solids_percent();
  values[index_of(SpreadOutput::calcium_ratio_r2)] = evaluation.water_phase.calcium_ratio_r2;
  if (evaluation.cost)
    values[index_of(SpreadOutput::cost_per_g_carbohydrate)] = evaluation.cost->per_g_carbohydrate;
  values[index_of(SpreadOutput::carbohydrate_g)] = evaluation.nutrition.carbohydrate_g;
  values[index_of(SpreadOutput::log10_modulus_pa)] = evaluation.gel.outlook.centre.lg_modulus_pa;
  return values;
}

void add(const GelForecast& one, GelChances& sum) {
  if (!one.made) return;
  for (std::size_t t = 0; t < gel::texture_count; ++t)
    sum.eaten.chance[t] += one.all.chances.chance[t];
  for (double gel::Defects::*each :
       {&gel::Defects::lumps, &gel::Defects::weeps, &gel::Defects::specks, &gel::Defects::brittle,
        &gel::Defects::grit})
    sum.defects.*each += one.all.defects.*each;
  sum.stomach.one_gel += one.all.stomach.one_gel;
  sum.stomach.pieces += one.all.stomach.pieces;
  sum.foretold += 1;
}

/// The chances of a draw that is foretold; how many are is told beside.
std::optional<GelChances> mean_of(std::span<const GelChances> blocks, std::size_t draws) {
  GelChances sum;
  for (const GelChances& block : blocks) {
    for (std::size_t t = 0; t < gel::texture_count; ++t)
      sum.eaten.chance[t] += block.eaten.chance[t];
    for (double gel::Defects::*each :
         {&gel::Defects::lumps, &gel::Defects::weeps, &gel::Defects::specks, &gel::Defects::brittle,
          &gel::Defects::grit})
      sum.defects.*each += block.defects.*each;
    sum.stomach.one_gel += block.stomach.one_gel;
    sum.stomach.pieces += block.stomach.pieces;
    sum.foretold += block.foretold;
  }
  if (sum.foretold <= 0) return std::nullopt;
  for (double& each : sum.eaten.chance) each /= sum.foretold;
  for (double gel::Defects::*each :
       {&gel::Defects::lumps, &gel::Defects::weeps, &gel::Defects::specks, &gel::Defects::brittle,
        &gel::Defects::grit})
    sum.defects.*each /= sum.foretold;
  sum.stomach.one_gel /= sum.foretold;
  sum.stomach.pieces /= sum.foretold;
  sum.foretold /= static_cast<double>(draws);
  return sum;
}

void keep(const Evaluation& evaluation, std::size_t draw, Sample& sample) {
  const auto values = outputs_of(evaluation);
  for (std::size_t o = 0; o < values.size(); ++o) sample.outputs[o][draw] = values[o];
  add(evaluation.gel, sample.gel[draw / block_draws]);
  std::uint64_t flags = 0;
  std::uint64_t stops = 0;
  for (const Flag& flag : evaluation.flags) {
    flags |= bit_of(flag.id);
    if (flag.level == Level::stop) stops |= bit_of(flag.id);
  }
  sample.flags[draw] = flags;
  sample.stops[draw] = stops;
}

/// The draw stands for the doubt: the gel model is run at the parameters drawn.
EvaluateParts drawn_parts(const Trial& trial) {
  return {.batch = false,
          .flags = true,
          .gel = {.detail = GelDetail::centre, .values = &trial.gel_values()}};
}

Sample run(const Inputs& nominal, const Doubts& doubts, const SpreadOptions& options) {
  Sample sample(options.draws);
  const std::size_t blocks = (options.draws + block_draws - 1) / block_draws;
  for_each_block(
      blocks, options.threads,
      [&](std::size_t block) {
        Trial trial(nominal, doubts.drawn);
        const std::size_t first = block * block_draws;
        for (std::size_t i = first; i < std::min(first + block_draws, options.draws); ++i)
          keep(evaluate(trial.draw(options.seed, i), drawn_parts(trial)), i, sample);
      },
      options.progress);
  return sample;
}

/// Half of the 95 % interval of pH and of log10 G' over the first draws, one kind of doubt left
/// out.
struct HalfWidths {
  double ph = 0;
  double lg_modulus = 0;
};
double half_width_of(std::span<double> sample) {
  const Spread spread = spread_of(sample);
  return (spread.high.value - spread.low.value) / 2;
}

HalfWidths half_widths(const Inputs& nominal, const Doubts& doubts, const SpreadOptions& options,
                       std::size_t draws, DoubtKind without) {
  std::vector<double> ph(draws);
  std::vector<double> lg_modulus(draws);
  const std::size_t blocks = (draws + block_draws - 1) / block_draws;
  for_each_block(blocks, options.threads, [&](std::size_t block) {
    Trial trial(nominal, doubts.drawn);
    const std::size_t first = block * block_draws;
    for (std::size_t i = first; i < std::min(first + block_draws, draws); ++i) {
      const Inputs& drawn = trial.draw(options.seed, i, without);
      const Formula formula = formulate(drawn);
      const WaterPhase phase = water_phase_of(formula, drawn, false);
      ph[i] = phase.ph;
      lg_modulus[i] =
          gel_forecast_of(
              formula, phase, drawn,
              {.detail = GelDetail::centre, .stomach = false, .values = &trial.gel_values()})
              .outlook.centre.lg_modulus_pa;
    }
  });
  return {half_width_of(ph), half_width_of(lg_modulus)};
}

SpreadInterval interval_of(std::span<double> sample, double point) {
  const Spread spread = spread_of(sample);
  return {.point = point,
          .median = spread.median.value,
          .low = spread.low.value,
          .high = spread.high.value,
          .sd = spread.moments.sd,
          .low_error = (spread.low.high - spread.low.low) / 2,
          .high_error = (spread.high.high - spread.high.low) / 2};
}

std::vector<FlagChance> flag_chances(const Sample& sample, const Evaluation& point) {
  std::array<std::size_t, most_flags> counts{};
  std::array<std::size_t, most_flags> stops{};
  for (std::size_t i = 0; i < sample.flags.size(); ++i) {
    for (std::uint64_t left = sample.flags[i]; left != 0; left &= left - 1)
      ++counts[static_cast<std::size_t>(std::countr_zero(left))];
    for (std::uint64_t left = sample.stops[i]; left != 0; left &= left - 1)
      ++stops[static_cast<std::size_t>(std::countr_zero(left))];
  }
  const double draws = static_cast<double>(sample.flags.size());
  std::vector<FlagChance> all;
  for (std::size_t f = 0; f < most_flags; ++f) {
    const auto id = static_cast<FlagId>(f);
    if (counts[f] > 0 && !decided_by_plan(id))
      all.push_back({id, static_cast<double>(counts[f]) / draws,
                     static_cast<double>(stops[f]) / draws, false});
  }
  for (const Flag& flag : point.flags) {
    const bool listed = std::any_of(all.begin(), all.end(),
                                    [&flag](const FlagChance& each) { return each.id == flag.id; });
    if (decided_by_plan(flag.id) && !listed)
      all.push_back({flag.id, 1, flag.level == Level::stop ? 1.0 : 0.0, true});
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const FlagChance& a, const FlagChance& b) { return a.share > b.share; });
  return all;
}

/// Squared rank correlations of every input with every result, each result's summing to 1.
void share_out(std::vector<Doubt>& described, const Doubts& doubts, const Sample& sample,
               const SpreadOptions& options) {
  const std::size_t draws = std::min(options.draws, rank_draws);
  for_each_block(doubts.drawn.size(), options.threads, [&](std::size_t d) {
    std::vector<double> column(draws);
    for (std::size_t i = 0; i < draws; ++i) column[i] = doubts.drawn[d].deviation(options.seed, i);
    for (std::size_t o = 0; o < spread_output_count; ++o) {
      const double rho = spearman(column, std::span(sample.outputs[o]).first(draws));
      described[d].share[o] = rho * rho;
    }
  });
  for (std::size_t o = 0; o < spread_output_count; ++o) {
    double sum = 0;
    for (const Doubt& doubt : described) sum += doubt.share[o];
    if (sum > 0)
      for (Doubt& doubt : described) doubt.share[o] /= sum;
  }
}

std::vector<Improvement> improvements_of(const Inputs& nominal, const Doubts& doubts,
                                         const Sample& sample, const SpreadOptions& options) {
  const std::size_t draws = std::min(options.draws, most_improvement_draws);
  const auto now = [&sample, draws](SpreadOutput output) {
    const std::vector<double>& all_draws = sample.outputs[index_of(output)];
    std::vector<double> first(all_draws.begin(),
                              all_draws.begin() + static_cast<std::ptrdiff_t>(draws));
    return half_width_of(first);
  };
  const double ph_now = now(SpreadOutput::ph);
  const double lg_modulus_now = now(SpreadOutput::log10_modulus_pa);
  std::vector<Improvement> all;
  for (std::size_t k = 0; k < doubt_kind_count; ++k) {
    const auto kind = static_cast<DoubtKind>(k);
    const bool present = std::any_of(doubts.drawn.begin(), doubts.drawn.end(),
                                     [kind](const DoubtDraw& each) { return each.kind == kind; });
    if (!present) continue;
    const HalfWidths then = half_widths(nominal, doubts, options, draws, kind);
    all.push_back({kind, ph_now, then.ph, lg_modulus_now, then.lg_modulus});
  }
  std::stable_sort(all.begin(), all.end(), [](const Improvement& a, const Improvement& b) {
    return a.half_width_after < b.half_width_after;
  });
  return all;
}

void check(const SpreadOptions& options) {
  std::vector<Problem> problems;
  if (options.draws < fewest_draws || options.draws > most_draws)
    problems.push_back({"draws", "must be 100 to 20000000", "100000 is usual"});
  if (!(options.widths >= 0) || !std::isfinite(options.widths))
    problems.push_back({"widths", "must be 0 or more", ""});
  if (!problems.empty()) throw InputError("", std::move(problems));
}

}  // namespace

std::string_view to_text(DoubtKind kind) {
  switch (kind) {
    case DoubtKind::weighing:
      return "weighing and dosing";
    case DoubtKind::ingredients:
      return "moisture, purity, labels";
    case DoubtKind::tap_water:
      return "the water report";
    case DoubtKind::gum:
      return "the gum's composition";
    case DoubtKind::buffer:
      return "the fitted buffer";
    case DoubtKind::ph_model:
      return "the pH model";
    case DoubtKind::gel_model:
      return "the gel model";
  }
  return "";
}

std::string_view remedy_of(DoubtKind kind) {
  switch (kind) {
    case DoubtKind::weighing:
      return "perfect scales";
    case DoubtKind::ingredients:
      return "assays of the ingredients";
    case DoubtKind::tap_water:
      return "a fresh analysis of the tap water";
    case DoubtKind::gum:
      return "the gum's data sheet from its maker";
    case DoubtKind::buffer:
      return "more bench readings for `fit`";
    case DoubtKind::ph_model:
      return "a pH meter on the finished batch";
    case DoubtKind::gel_model:
      return "test cups of this very mix";
  }
  return "";
}

Inputs as_weighed(const Inputs& inputs, const Batch& batch) {
  if (inputs.recipe->batch.scales.empty()) return inputs;
  Inputs weighed = inputs;
  double tap_g = 0;
  double stock_water_g = 0;
  // A mass that rounds to nothing on every scale there is stays as it was meant: nobody leaves it
  // out, and the sheet says that it cannot be weighed.
  const auto served_g = [&batch](LineRole role, std::size_t ingredient, double meant_g) {
    double on_scale_g = 0;
    for (const BatchLine& line : batch.lines)
      if (line.role == role && (role == LineRole::water || line.ingredient == ingredient))
        on_scale_g += line.weigh_g;
    return on_scale_g > 0 ? on_scale_g * batch.rounds / batch.factor : meant_g;
  };
  for (InputLine& line : weighed.solids)
    line.mass_g = served_g(LineRole::solid, line.ingredient, line.mass_g);
  const auto dose = [&](std::optional<InputDose>& which, LineRole role) {
    if (!which || which->line.mass_g <= 0) return;
    for (const BatchLine& line : batch.lines)
      if (line.role == role) which->stock_fraction = line.stock_fraction;
    const double strength = which->stock_fraction > 0 ? which->stock_fraction : 1;
    const double on_scale_g = served_g(role, which->line.ingredient, which->line.mass_g / strength);
    which->line.mass_g = on_scale_g * strength;
    stock_water_g += on_scale_g * (1 - strength);
  };
  dose(weighed.acid, LineRole::acid);
  dose(weighed.calcium, LineRole::calcium_salt);
  const Formula formula = formulate(inputs);
  tap_g = served_g(LineRole::water, 0, formula.water_g - stock_water_g);
  weighed.water = {WaterBasis::mass_g, tap_g + stock_water_g};
  return weighed;
}

SpreadResult spread(const Inputs& inputs, const SpreadOptions& options) {
  check(options);
  SpreadResult result;
  result.draws = options.draws;
  result.seed = options.seed;
  result.weighing_known = !inputs.recipe->batch.scales.empty();

  const Evaluation meant = evaluate(inputs);
  const Inputs weighed = as_weighed(inputs, meant.batch);
  result.point = evaluate(weighed, no_batch);
  // The plan is that of the masses meant; weighing them changes nothing about it.
  std::erase_if(result.point.flags, [](const Flag& flag) { return decided_by_plan(flag.id); });
  std::copy_if(meant.flags.begin(), meant.flags.end(), std::back_inserter(result.point.flags),
               [](const Flag& flag) { return decided_by_plan(flag.id); });
  std::stable_sort(result.point.flags.begin(), result.point.flags.end(),
                   [](const Flag& a, const Flag& b) { return a.id < b.id; });
  result.point.batch = meant.batch;

  Doubts doubts = doubts_of(weighed, result.point, meant.batch, options.widths);
  result.doubts = doubts.described;
  Sample sample = run(weighed, doubts, options);

  share_out(result.doubts, doubts, sample, options);
  result.improvement_draws = std::min(options.draws, most_improvement_draws);
  result.improvements = improvements_of(weighed, doubts, sample, options);
  if (result.point.gel.any_gum()) result.gel = mean_of(sample.gel, options.draws);
  result.flags = flag_chances(sample, result.point);

  const auto points = outputs_of(result.point);
  const bool priced = result.point.cost && result.point.cost->complete() &&
                      result.point.nutrition.carbohydrate_g > 0;
  for_each_block(spread_output_count, options.threads, [&](std::size_t o) {
    // Nothing below needs the order of the draws any more.
    const bool known = o == index_of(SpreadOutput::cost_per_g_carbohydrate) ? priced
                       : o == index_of(SpreadOutput::log10_modulus_pa)
                           ? result.point.gel.made && result.point.gel.any_route()
                           : true;
    if (known) result.intervals[o] = interval_of(sample.outputs[o], points[o]);
  });
  return result;
}

}  // namespace gelwright
