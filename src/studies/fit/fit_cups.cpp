// From a recipe and a sheet to the cups as the pipeline sees them.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "gelwright/error.hpp"
#include "gelwright/ladder.hpp"
#include "studies/fit/fit_detail.hpp"

namespace gelwright {

namespace {

/// Enough for any dose; a planned value is rounded to its decimals.
constexpr int dose_decimals = 9;

/// The axis of a column, or null with a reason.
struct Placed {
  std::optional<LadderAxis> axis;
  std::string why_not;
  std::string remedy;
};

/// `found` is the knob of the input's name.
Placed axis_of(const BenchInput& input, const FoundKnob& found) {
  // A sheet may say of an input the recipe lacks that there was none of it.
  if (!found.knob && input.amount == 0) return {};
  if (!found.knob) return {{}, found.what, "is it the sheet of another recipe?"};
  LadderAxis axis;
  axis.knob = *found.knob;
  axis.name = input.name;
  axis.from = input.amount;
  axis.decimals = dose_decimals;
  return {axis, {}, {}};
}

/// Whether the acid differs from cup to cup, and how much of it the sourest cup holds.
struct AcidRange {
  bool varies = false;
  double most_g = 0;
};

AcidRange acid_range(const Bench& bench) {
  AcidRange range;
  std::optional<double> first;
  for (const BenchCup& cup : bench.cups) {
    const std::optional<double> acid_g = cup.input("acid_g");
    if (!acid_g) continue;
    if (first && *first != *acid_g) range.varies = true;
    first = first.value_or(*acid_g);
    range.most_g = std::max(range.most_g, *acid_g);
  }
  return range;
}

}  // namespace

std::vector<std::size_t> first_made_alike(const Bench& bench) {
  std::map<std::vector<std::pair<std::string, double>>, std::size_t> made;
  std::vector<std::size_t> first;
  for (std::size_t i = 0; i < bench.cups.size(); ++i) {
    std::vector<std::pair<std::string, double>> amounts;
    for (const BenchInput& input : bench.cups[i].inputs)
      amounts.emplace_back(input.name, input.amount);
    first.push_back(made.try_emplace(std::move(amounts), i).first->second);
  }
  return first;
}

std::vector<Inputs> bench_inputs(const Recipe& recipe, const Bench& bench,
                                 const FitOptions& options) {
  const Inputs served = inputs_of(recipe);
  const AcidRange acid = acid_range(bench);
  std::vector<Problem> problems;
  std::vector<Inputs> cups;
  std::map<std::string, FoundKnob> columns;  // a sheet has few, and many rows
  const std::vector<std::size_t> first = first_made_alike(bench);
  for (std::size_t i = 0; i < bench.cups.size(); ++i) {
    const BenchCup& cup = bench.cups[i];
    // Once anything is wrong every line is looked at, to name it; until then `cups` has them all.
    if (problems.empty() && first[i] < i) {
      cups.push_back(Inputs(cups[first[i]]));
      continue;
    }
    const auto refuse = [&](std::string what, std::string remedy) {
      problems.push_back({fmt::format("line {}", cup.line), std::move(what), std::move(remedy)});
    };
    if (recipe.acid && recipe.acid->target_ph && !cup.input("acid_g"))
      refuse("how much acid went into this cup is missing: the recipe gives a target pH",
             "add the column \"acid_g\", g per serving");
    Inputs inputs = served;
    std::vector<LadderAxis> axes;
    for (const BenchInput& input : cup.inputs) {
      if (!columns.contains(input.name)) columns[input.name] = find_knob(input.name, recipe);
      const Placed placed = axis_of(input, columns[input.name]);
      if (!placed.why_not.empty())
        refuse(fmt::format("{}: {}", input.name, placed.why_not), placed.remedy);
      else if (placed.axis && placed.axis->knob.knob == Knob::acid_g && !acid.varies)
        inputs.acid->line.mass_g = input.amount;  // in the base, as the recipe doses it
      else if (placed.axis)
        axes.push_back(*placed.axis);
    }
    if (!problems.empty()) continue;
    try {
      Ladder plan = plan_ladder(inputs, std::move(axes), {.stock_percent = options.stock_percent});
      // Every cup of a series holds as much low-mineral water as the stock of the sourest brings.
      if (acid.varies && plan.inputs.acid->stock_fraction > 0)
        plan.low_mineral_g = acid.most_g * (1 / plan.inputs.acid->stock_fraction - 1);
      cups.push_back(cup_inputs(plan, 0));
    } catch (const InputError& error) {
      for (const Problem& problem : error.problems()) refuse(problem.what, problem.remedy);
    }
  }
  if (!problems.empty()) throw InputError(bench.document, std::move(problems));
  return cups;
}

}  // namespace gelwright
