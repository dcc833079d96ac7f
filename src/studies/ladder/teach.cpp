#include "gelwright/teach.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/rounding.hpp"
#include "gelwright/error.hpp"
#include "gelwright/gel_teach.hpp"
#include "studies/kitchen_range.hpp"

namespace gelwright {

namespace {

constexpr int candidates = 40;
constexpr int figures = 2;
/// The pH of a test cup is read with a meter.
constexpr double read_ph_sd = 0.05;

gel::State state_of(const Inputs& inputs) {
  const Formula formula = formulate(inputs);
  return gel_state_of(formula, water_phase_of(formula, inputs, false), inputs);
}

struct Candidate {
  double amount = 0;
  gel::State state;
};

std::vector<Candidate> candidates_for(const Inputs& inputs, const KnobOf& turn) {
  const KitchenRange range = kitchen_range(turn, inputs);
  std::vector<Candidate> found;
  for (int i = 0; i <= candidates; ++i) {
    const double amount =
        to_figures(range.least + (range.most - range.least) * i / candidates, figures);
    if (!found.empty() && amount <= found.back().amount) continue;
    Inputs turned = inputs;
    turned.water = {WaterBasis::mass_g, formulate(inputs).water_g};
    gelwright::turn(turned, turn, amount);
    try {
      gel::State state = state_of(turned);
      state.ph_sd = read_ph_sd;
      if (gel::out_of_range(state).empty()) found.push_back({amount, state});
    } catch (const InputError&) {
      continue;  // more than a water phase can hold
    }
  }
  return found;
}

std::vector<gel::State> states_of(const std::vector<Candidate>& all) {
  std::vector<gel::State> states;
  for (const Candidate& each : all) states.push_back(each.state);
  return states;
}

/// As many of them, evenly spread.
std::vector<gel::State> even_series(const std::vector<Candidate>& all, std::size_t cups) {
  std::vector<gel::State> series;
  for (std::size_t i = 0; i < cups; ++i)
    series.push_back(all[i * (all.size() - 1) / std::max<std::size_t>(1, cups - 1)].state);
  return series;
}

}  // namespace

Teaching teach(const Inputs& inputs, const KnobOf& turn, std::size_t cups) {
  std::vector<Problem> problems;
  if (cups < fewest_teaching_cups || cups > most_teaching_cups)
    problems.push_back({"teach",
                        fmt::format("{} cups; {} to {} can be made and read in an evening", cups,
                                    fewest_teaching_cups, most_teaching_cups),
                        "six are usual"});
  if (!has_knob(*inputs.recipe, turn))
    problems.push_back({"turn", fmt::format("the recipe has no {}", info_of(turn.knob).label),
                        "name in the recipe what is to be varied"});
  if (!problems.empty()) throw InputError(inputs.recipe->document, std::move(problems));
  const Formula formula = formulate(inputs);
  const GelForecast forecast =
      gel_forecast_of(formula, water_phase_of(formula, inputs, false), inputs,
                      {.detail = GelDetail::centre, .stomach = false});
  if (!forecast.made || !forecast.any_route())
    throw InputError(inputs.recipe->document,
                     {{"teach", "there is no gum in it that sets, as far as the gel model knows",
                       "cups teach about a gum: name it in the recipe"}});
  const std::vector<Candidate> all = candidates_for(inputs, turn);
  if (all.size() < cups)
    throw InputError(inputs.recipe->document,
                     {{"turn", "too few amounts of it can be forecast", "turn something else"}});
  const gel::Learnt* learnt = forecast.learnt ? &*forecast.learnt : nullptr;
  const gel::TeachingPlan plan = gel::plan_cups(states_of(all), forecast.state, cups, learnt);
  Teaching teaching;
  teaching.turn = turn;
  teaching.sd_before = plan.sd_before;
  teaching.sd_after = plan.cups.back().sd_after;
  teaching.sd_after_even = gel::expected_sd(even_series(all, cups), forecast.state, learnt);
  for (const gel::TeachingCup& cup : plan.cups)
    teaching.cups.push_back({all[cup.candidate].amount, cup.chance_groove, cup.chance_holds});
  std::sort(teaching.cups.begin(), teaching.cups.end(),
            [](const TeachingStep& a, const TeachingStep& b) { return a.amount < b.amount; });
  return teaching;
}

LadderAxis axis_of(const Teaching& teaching, const Recipe& recipe) {
  LadderAxis axis;
  axis.knob = teaching.turn;
  axis.name = name_of(teaching.turn, recipe);
  axis.count = teaching.cups.size();
  for (const TeachingStep& cup : teaching.cups) {
    axis.values.push_back(cup.amount);
    axis.decimals = std::max(axis.decimals, decimals_for(cup.amount, figures));
  }
  axis.from = axis.values.front();
  return axis;
}

}  // namespace gelwright
