// From a recipe and a sheet to the cups as the pipeline sees them.
#include <fmt/format.h>

#include <algorithm>

#include "gelwright/error.hpp"
#include "gelwright/ladder.hpp"
#include "studies/fit/fit_detail.hpp"

namespace gelwright {

namespace {

constexpr std::string_view mass_prefix = "mass_g:";

struct KnobName {
  std::string_view name;
  LadderKnob knob;
};
constexpr KnobName knobs[] = {
    {"acid_g", LadderKnob::acid_g},
    {"calcium_salt_g", LadderKnob::calcium_salt_g},
    {"water_g", LadderKnob::water_g},
    {"water_per_g_solids", LadderKnob::water_per_g_solids},
    {"water_fraction_of_total", LadderKnob::water_fraction_of_total},
    {"tap_calcium_mg_per_l", LadderKnob::tap_calcium_mg_per_l},
    {"alkalinity_meq_per_l", LadderKnob::alkalinity_meq_per_l},
};
/// Enough for any dose; a planned value is rounded to its decimals.
constexpr int dose_decimals = 9;

/// The axis of a column, or null with a reason.
struct Placed {
  std::optional<LadderAxis> axis;
  std::string why_not;
  std::string remedy;
};

Placed axis_of(const BenchInput& input, const Inputs& inputs) {
  LadderAxis axis;
  axis.name = input.name;
  axis.from = input.amount;
  axis.decimals = dose_decimals;
  if (input.name.starts_with(mass_prefix)) {
    axis.knob = LadderKnob::mass_g;
    const std::string_view wanted = std::string_view(input.name).substr(mass_prefix.size());
    for (std::size_t i = 0; i < inputs.solids.size(); ++i)
      if (inputs.recipe->ingredients[inputs.solids[i].ingredient].name == wanted) {
        axis.solid = i;
        return {axis, {}, {}};
      }
    return {{},
            fmt::format("the recipe has no solid \"{}\"", wanted),
            "is it the sheet of another recipe?"};
  }
  for (const KnobName& each : knobs)
    if (each.name == input.name) axis.knob = each.knob;
  if (axis.knob == LadderKnob::acid_g && !inputs.acid) {
    if (input.amount == 0) return {};
    return {{}, "the recipe has no acid", "name the acid in the recipe"};
  }
  if (axis.knob == LadderKnob::calcium_salt_g && !inputs.calcium) {
    if (input.amount == 0) return {};
    return {{}, "the recipe has no calcium salt", "name it in the recipe"};
  }
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

std::vector<Inputs> bench_inputs(const Recipe& recipe, const Bench& bench,
                                 const FitOptions& options) {
  const Inputs served = inputs_of(recipe);
  const AcidRange acid = acid_range(bench);
  std::vector<Problem> problems;
  std::vector<Inputs> cups;
  for (const BenchCup& cup : bench.cups) {
    const auto refuse = [&](std::string what, std::string remedy) {
      problems.push_back({fmt::format("line {}", cup.line), std::move(what), std::move(remedy)});
    };
    if (recipe.acid && recipe.acid->target_ph && !cup.input("acid_g"))
      refuse("how much acid went into this cup is missing: the recipe gives a target pH",
             "add the column \"acid_g\", g per serving");
    Inputs inputs = served;
    std::vector<LadderAxis> axes;
    for (const BenchInput& input : cup.inputs) {
      const Placed placed = axis_of(input, served);
      if (!placed.why_not.empty())
        refuse(fmt::format("{}: {}", input.name, placed.why_not), placed.remedy);
      else if (placed.axis && placed.axis->knob == LadderKnob::acid_g && !acid.varies)
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
