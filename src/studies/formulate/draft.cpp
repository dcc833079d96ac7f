#include "studies/formulate/draft.hpp"

#include <algorithm>
#include <cmath>

#include "gelwright/error.hpp"
#include "statistics/box_search.hpp"

namespace gelwright::detail {

namespace {

EvaluateParts for_search(const Wish& wish) {
  return {.batch = false,
          .flags = true,
          .gel = {.detail = GelDetail::chances, .stomach = wish.gel_in_stomach, .bands = false}};
}

/// What breaking a limit by so much costs: as bad as breaking another by one of its own.
constexpr double ph_unit = 1;
constexpr double sodium_unit_mg = 100;
/// A stop is worse than any limit missed by a little.
constexpr double stop_costs = 5;
constexpr double beside_what_is_broken = 0.01;
/// Of what cannot be evaluated at all.
constexpr double nothing_costs = 1e3;
/// A pH is aimed this far inside its limits, so that rounding to what can be weighed keeps them.
constexpr double ph_inside = 0.02;
constexpr double sodium_inside = 0.005;

void hold(double reached, const Limit& limit, Broken::What what, double unit, Weighed& out) {
  const auto broken = [&](double at, bool at_most) {
    out.broken.push_back({what, at, at_most, reached});
    out.worth -= std::abs(reached - at) / unit;
  };
  if (limit.at_least && reached < *limit.at_least) broken(*limit.at_least, false);
  if (limit.at_most && reached > *limit.at_most) broken(*limit.at_most, true);
}

/// The chance of no defect, each taken as apart from the others.
double unflawed(const gel::Defects& defects, gel::Texture wanted) {
  double chance = 1;
  for (const double each : {defects.specks, defects.weeps, defects.brittle, defects.grit})
    chance *= 1 - each;
  return wanted == gel::Texture::bits ? chance : chance * (1 - defects.lumps);
}

Limit inside(const Limit& limit, double by) {
  Limit tighter = limit;
  if (limit.at_least && limit.at_most) by = std::min(by, (*limit.at_most - *limit.at_least) / 4);
  if (tighter.at_least) *tighter.at_least += by;
  if (tighter.at_most) *tighter.at_most -= by;
  return tighter;
}

double soluble_g(const Inputs& inputs) {
  double sum = 0;
  for (const InputLine& line : inputs.solids) sum += line.mass_g * line.per_g.soluble_solids_g;
  for (const auto* dose : {&inputs.acid, &inputs.calcium})
    if (*dose) sum += (*dose)->line.mass_g * (*dose)->line.per_g.soluble_solids_g;
  return sum;
}

double as_weighed_g(const Inputs& inputs) {
  double sum = 0;
  for (const InputLine& line : inputs.solids) sum += line.mass_g;
  for (const auto* dose : {&inputs.acid, &inputs.calcium})
    if (*dose) sum += (*dose)->line.mass_g;
  return sum;
}

/// The mass of a serving, given all that is dissolved in it.
double total_of(const Draft& draft, const DraftAmounts& amounts, const Inputs& inputs) {
  if (draft.size.total_g) return *draft.size.total_g;
  if (draft.size.soluble_solids_percent)
    return 100 * soluble_g(inputs) / *draft.size.soluble_solids_percent;
  return as_weighed_g(inputs) / (1 - amounts.water_percent_of_total / 100);
}

/// The salt that brings the sodium up to its least.
void add_salt(const Draft& draft, const Wish& wish, Inputs& inputs) {
  if (!draft.salt || !wish.sodium_mg.at_least) return;
  InputLine& salt = inputs.solids[*draft.salt];
  salt.mass_g = 0;
  const double without = nutrition_of(formulate(inputs), inputs).sodium_mg;
  salt.mass_g = 1;
  const double per_g = nutrition_of(formulate(inputs), inputs).sodium_mg - without;
  const double wanted = *wish.sodium_mg.at_least * (1 + sodium_inside);
  salt.mass_g = per_g > 0 ? std::max(0.0, (wanted - without) / per_g) : 0;
}

double along(const Span& span, double at) {
  return span.least + (span.most - span.least) * at;
}

/// Evenly by ratio: twice as much gum is as far at 0.3 % as at 1 %.
double along_by_ratio(const Span& span, double at) {
  return span.least * std::pow(span.most / span.least, at);
}

/// Which amounts are open, and reading them off a point of the box.
class Sides {
 public:
  explicit Sides(const Draft& draft) : draft_(draft) {}

  std::size_t count() const {
    const auto one = [](bool open) { return std::size_t{open ? 1U : 0U}; };
    return one(draft_.gum.most > 0) + one(draft_.acid.most > 0) + one(draft_.calcium.most > 0) +
           one(free_water());
  }

  DraftAmounts at(std::span<const double> point) const {
    DraftAmounts amounts;
    std::size_t side = 0;
    if (draft_.gum.most > 0) amounts.gum_percent = along_by_ratio(draft_.gum, point[side++]);
    if (draft_.acid.most > 0) amounts.acid_percent = along_by_ratio(draft_.acid, point[side++]);
    if (draft_.calcium.most > 0)
      amounts.calcium_percent = along_by_ratio(draft_.calcium, point[side++]);
    if (free_water())
      amounts.water_percent_of_total = along(draft_.size.water_percent_of_total, point[side]);
    return amounts;
  }

 private:
  bool free_water() const { return !draft_.size.total_g && !draft_.size.soluble_solids_percent; }

  const Draft& draft_;
};

}  // namespace

Weighed weighed(const Evaluation& evaluation, const Wish& wish) {
  Weighed out;
  hold(evaluation.water_phase.ph, wish.ph, Broken::What::ph, ph_unit, out);
  hold(evaluation.nutrition.sodium_mg, wish.sodium_mg, Broken::What::sodium, sodium_unit_mg, out);
  if (wish.price_at_most && evaluation.cost && evaluation.cost->complete())
    hold(evaluation.cost->per_serving, {{}, wish.price_at_most}, Broken::What::price,
         std::max(*wish.price_at_most, 1e-6), out);
  for (const Flag& flag : evaluation.flags)
    if (flag.level == Level::stop) {
      out.stops.push_back(flag.id);
      out.worth -= stop_costs;
    }
  if (evaluation.gel.made)
    out.chance = evaluation.gel.chance(wish.texture) *
                 (wish.gel_in_stomach ? evaluation.gel.all.stomach.pieces : 1);
  out.flawless = out.chance * unflawed(evaluation.gel.all.defects, wish.texture);
  // Where a limit is broken the nearest is looked for, and among those as near the better one.
  const bool good = out.broken.empty() && out.stops.empty();
  out.worth += (good ? 1 : beside_what_is_broken) * out.flawless;
  return out;
}

std::optional<Inputs> filled(const Draft& draft, const DraftAmounts& amounts, const Wish& wish) {
  Inputs inputs = inputs_of(*draft.recipe);
  for (InputLine& line : inputs.solids) line.mass_g = 0;
  for (std::size_t i = 0; i < draft.sugar_g.size(); ++i) inputs.solids[i].mass_g = draft.sugar_g[i];
  if (inputs.acid) inputs.acid->line.mass_g = 0;
  if (inputs.calcium) inputs.calcium->line.mass_g = 0;
  const double water_g = total_of(draft, amounts, inputs) - as_weighed_g(inputs);
  if (!(water_g > 0)) return std::nullopt;
  for (const std::size_t gum : draft.gums)
    inputs.solids[gum].mass_g =
        amounts.gum_percent / 100 * water_g / static_cast<double>(draft.gums.size());
  if (inputs.acid) inputs.acid->line.mass_g = amounts.acid_percent / 100 * water_g;
  if (inputs.calcium) inputs.calcium->line.mass_g = amounts.calcium_percent / 100 * water_g;
  add_salt(draft, wish, inputs);
  inputs.water = {WaterBasis::mass_g, total_of(draft, amounts, inputs) - as_weighed_g(inputs)};
  if (!(inputs.water.amount > 0)) return std::nullopt;
  return inputs;
}

DraftFound best_of(const Draft& draft, const Wish& wish, std::uint64_t seed) {
  Wish tighter = wish;
  tighter.ph = inside(wish.ph, ph_inside);
  const Sides sides(draft);
  const auto worth = [&](std::span<const double> point) {
    const std::optional<Inputs> inputs = filled(draft, sides.at(point), tighter);
    if (!inputs) return -nothing_costs;
    try {
      return weighed(evaluate(*inputs, for_search(wish)), tighter).worth;
    } catch (const InputError&) {
      return -nothing_costs;  // more than a water phase can hold
    }
  };
  constexpr std::size_t points_per_side = 40;
  const BoxBest best = highest_in_box(sides.count(), worth,
                                      {.seed = seed,
                                       .scan_points = 1 + points_per_side * sides.count(),
                                       .climbs = 3,
                                       .last_step = 0.003,

                                       .most_climb_steps = 40});
  DraftFound found;
  found.amounts = sides.at(best.at);
  const std::optional<Inputs> inputs = filled(draft, found.amounts, tighter);
  if (!inputs) {
    found.weighed.worth = -nothing_costs;
    return found;
  }
  found.inputs = *inputs;
  try {
    found.weighed = weighed(evaluate(found.inputs, for_search(wish)), wish);
  } catch (const InputError&) {
    found.weighed.worth = -nothing_costs;
  }
  return found;
}

}  // namespace gelwright::detail
