#include "studies/compare/reason.hpp"

#include <algorithm>
#include <cmath>

#include "base/dust.hpp"
#include "gelwright/error.hpp"

namespace gelwright::detail {

namespace {

constexpr Datum data[] = {
    {"compare.chance", 0.1, "1", 0, "chances of a set gel closer than this count as alike",
     "judgement", Standing::judgement},
    {"compare.firmness", 0.15, "1", 0, "likewise of the log10 of modulus or thickness", "judgement",
     Standing::judgement},
    {"compare.ph", 0.05, "pH", 0, "likewise of the pH", "judgement", Standing::judgement},
    {"compare.same-gum", 0.02, "1", 0, "gum in the water, of which so much less is the same",
     "judgement", Standing::judgement},
    {"compare.same-amount", 0.002, "1", 0, "of an amount: weighed alike", "judgement",
     Standing::judgement},
};

constexpr double percent = 100;

struct Outcomes {
  bool foretold = false;
  double chance_set = 0;
  double firmness = 0;
  double ph = 0;
};

Outcomes outcomes_of(const Evaluation& evaluation) {
  const GelForecast& gel = evaluation.gel;
  Outcomes found;
  found.ph = evaluation.water_phase.ph;
  found.foretold = gel.made && gel.any_gum();
  if (!found.foretold) return found;
  found.chance_set = gel.chance_set();
  found.firmness = std::max(gel.outlook.doubt.lg_modulus.mean, gel.outlook.doubt.lg_thickness.mean);
  return found;
}

Outcomes outcomes_of(const Inputs& inputs) {
  return outcomes_of(evaluate(inputs, {.batch = false, .flags = false, .gel = {.stomach = false}}));
}

double value_of_outcome(const Outcomes& found, CompareOutcome which) {
  switch (which) {
    case CompareOutcome::chance_set:
      return found.chance_set;
    case CompareOutcome::firmness:
      return found.firmness;
    case CompareOutcome::ph:
      return found.ph;
  }
  return 0;
}

/// What tells them apart, most telling first.
std::optional<CompareOutcome> what_differs(const Outcomes& a, const Outcomes& b) {
  if (a.foretold && b.foretold) {
    if (std::abs(a.chance_set - b.chance_set) >= value_of(data, "compare.chance"))
      return CompareOutcome::chance_set;
    if (std::abs(a.firmness - b.firmness) >= value_of(data, "compare.firmness"))
      return CompareOutcome::firmness;
  }
  if (std::abs(a.ph - b.ph) >= value_of(data, "compare.ph")) return CompareOutcome::ph;
  return std::nullopt;
}

const std::string& name_of(const InputLine& line, const Inputs& inputs) {
  return inputs.recipe->ingredients[line.ingredient].name;
}

/// Index of the solid of that name, if there is one.
std::optional<std::size_t> solid_named(const std::string& name, const Inputs& inputs) {
  for (std::size_t i = 0; i < inputs.solids.size(); ++i)
    if (name_of(inputs.solids[i], inputs) == name) return i;
  return std::nullopt;
}

bool alike(double a, double b) {
  return std::abs(a - b) <= value_of(data, "compare.same-amount") * std::max(a, b);
}

bool same(const Making& a, const Making& b) {
  const auto same_solids = [&] {
    return std::equal(a.solids.begin(), a.solids.end(), b.solids.begin(), b.solids.end(),
                      [](const GoesIn& x, const GoesIn& y) {
                        return x.place == y.place && x.dispersed == y.dispersed &&
                               x.line == y.line && x.share == y.share && x.hours == y.hours &&
                               x.heated_c == y.heated_c;
                      });
  };
  const auto same_water = [&] {
    return std::equal(a.water.begin(), a.water.end(), b.water.begin(), b.water.end(),
                      [](const WaterGoesIn& x, const WaterGoesIn& y) {
                        return x.place == y.place && x.share == y.share;
                      });
  };
  return a.acid_place == b.acid_place && a.calcium_place == b.calcium_place && a.acid == b.acid &&
         a.calcium == b.calcium && a.cooled == b.cooled && a.heated_c == b.heated_c &&
         a.hours == b.hours && a.acid_hours == b.acid_hours && a.eaten_c == b.eaten_c &&
         same_solids() && same_water();
}

/// The same solids in the same order: then what is said of the making of one holds for the other.
bool same_lines(const Inputs& a, const Inputs& b) {
  return std::equal(
      a.solids.begin(), a.solids.end(), b.solids.begin(), b.solids.end(),
      [&](const InputLine& x, const InputLine& y) { return name_of(x, a) == name_of(y, b); });
}

/// One difference, and how a side takes the other's over; false where it cannot.
struct Difference {
  CompareEffect effect;
  bool (*take)(Inputs& mine, const Inputs& other, const CompareEffect& effect, double scale);
};

bool take_water(Inputs& mine, const Inputs& other, const CompareEffect&, double) {
  mine.water = {WaterBasis::per_g_solids, formulate(other).water_per_g_solids()};
  return true;
}

bool take_solid(Inputs& mine, const Inputs& other, const CompareEffect& effect, double scale) {
  const auto here = solid_named(effect.ingredient, mine);
  if (!here) return false;
  const auto there = solid_named(effect.ingredient, other);
  // The water stays as it is weighed: only the one difference is taken over.
  mine.water = {WaterBasis::mass_g, formulate(mine).water_g};
  mine.solids[*here].mass_g = there ? scale * other.solids[*there].mass_g : 0;
  return true;
}

bool take_dose(std::optional<InputDose>& mine, const Inputs& my_inputs,
               const std::optional<InputDose>& other, const Inputs& other_inputs,
               const CompareEffect& effect, double scale) {
  if (!mine || name_of(mine->line, my_inputs) != effect.ingredient) return false;
  const bool there = other && name_of(other->line, other_inputs) == effect.ingredient;
  mine->line.mass_g = there ? scale * other->line.mass_g : 0;
  return true;
}

bool take_acid(Inputs& mine, const Inputs& other, const CompareEffect& effect, double scale) {
  mine.water = {WaterBasis::mass_g, formulate(mine).water_g};
  return take_dose(mine.acid, mine, other.acid, other, effect, scale);
}

bool take_calcium(Inputs& mine, const Inputs& other, const CompareEffect& effect, double scale) {
  mine.water = {WaterBasis::mass_g, formulate(mine).water_g};
  return take_dose(mine.calcium, mine, other.calcium, other, effect, scale);
}

bool take_tap(Inputs& mine, const Inputs& other, const CompareEffect&, double) {
  mine.tap = other.tap;
  return true;
}

bool take_making(Inputs& mine, const Inputs& other, const CompareEffect&, double) {
  if (!same_lines(mine, other)) return false;
  mine.making = other.making;
  return true;
}

/// Whether as much is known of both.
bool known_alike(const Ingredient& a, const Ingredient& b) {
  const auto shifts = [](const Ingredient& each) {
    std::vector<double> all;
    if (each.learned)
      for (const LearnedGum& gum : each.learned->gums) {
        all.push_back(gum.weight);
        all.insert(all.end(), gum.mean.begin(), gum.mean.end());
      }
    return all;
  };
  return a.per_g.dissolved_mol == b.per_g.dissolved_mol &&
         a.per_g.acid_only_mol == b.per_g.acid_only_mol && a.per_g.gum_g == b.per_g.gum_g &&
         a.per_g.saccharide_mol == b.per_g.saccharide_mol && a.per_g.water_g == b.per_g.water_g &&
         a.per_g.soluble_solids_g == b.per_g.soluble_solids_g && a.buffer_pka == b.buffer_pka &&
         a.fizzed == b.fizzed && a.fully_declared == b.fully_declared &&
         a.gum_share_low == b.gum_share_low && a.gum_share_high == b.gum_share_high &&
         a.undeclared.size() == b.undeclared.size() && shifts(a) == shifts(b);
}

/// Takes over all that is known of the ingredients, amounts and making staying as they are.
bool take_mix(Inputs& mine, const Inputs& other, const CompareEffect&, double) {
  const auto same_dose = [&](const std::optional<InputDose>& a, const std::optional<InputDose>& b) {
    return a.has_value() == b.has_value() &&
           (!a || name_of(a->line, mine) == name_of(b->line, other));
  };
  if (!same_lines(mine, other) || !same_dose(mine.acid, other.acid) ||
      !same_dose(mine.calcium, other.calcium))
    return false;
  const auto take = [](InputLine& line, const InputLine& from) {
    line.ingredient = from.ingredient;
    line.per_g = from.per_g;
  };
  for (std::size_t i = 0; i < mine.solids.size(); ++i) take(mine.solids[i], other.solids[i]);
  if (mine.acid) take(mine.acid->line, other.acid->line);
  if (mine.calcium) take(mine.calcium->line, other.calcium->line);
  mine.recipe = other.recipe;
  return true;
}

class Differences {
 public:
  Differences(const Inputs& a, const Inputs& b)
      : a_(a), b_(b), formula_a_(formulate(a)), formula_b_(formulate(b)) {}

  std::vector<Difference> all() {
    water();
    for (const InputLine& line : a_.solids) solid(name_of(line, a_));
    for (const InputLine& line : b_.solids)
      if (!solid_named(name_of(line, b_), a_)) solid(name_of(line, b_));
    dose(a_.acid, b_.acid, CompareCause::acid, take_acid);
    dose(a_.calcium, b_.calcium, CompareCause::calcium_salt, take_calcium);
    tap();
    mix();
    if (!same(a_.making, b_.making))
      found_.push_back({{CompareCause::making, {}, 0, 0, 0}, take_making});
    return std::move(found_);
  }

 private:
  double per_100_g_a(double mass_g) const { return percent * mass_g / formula_a_.total_g; }
  double per_100_g_b(double mass_g) const { return percent * mass_g / formula_b_.total_g; }

  void water() {
    if (alike(formula_a_.water_per_g_solids(), formula_b_.water_per_g_solids())) return;
    found_.push_back({{CompareCause::water,
                       {},
                       per_100_g_a(formula_a_.water_g),
                       per_100_g_b(formula_b_.water_g),
                       0},
                      take_water});
  }

  /// Against the other solids: more water is a difference of its own.
  void solid(const std::string& name) {
    const auto in_a = solid_named(name, a_);
    const auto in_b = solid_named(name, b_);
    const double a = in_a ? a_.solids[*in_a].mass_g : 0;
    const double b = in_b ? b_.solids[*in_b].mass_g : 0;
    if (alike(a / formula_a_.solids_g, b / formula_b_.solids_g)) return;
    found_.push_back({{CompareCause::solid, name, per_100_g_a(a), per_100_g_b(b), 0}, take_solid});
  }

  void dose(const std::optional<InputDose>& in_a, const std::optional<InputDose>& in_b,
            CompareCause cause, decltype(Difference::take) take) {
    std::vector<std::string> names;
    if (in_a) names.push_back(name_of(in_a->line, a_));
    if (in_b && (!in_a || name_of(in_b->line, b_) != names.front()))
      names.push_back(name_of(in_b->line, b_));
    for (const std::string& name : names) {
      const double a = in_a && name_of(in_a->line, a_) == name ? in_a->line.mass_g : 0;
      const double b = in_b && name_of(in_b->line, b_) == name ? in_b->line.mass_g : 0;
      if (alike(a / formula_a_.solids_g, b / formula_b_.solids_g)) continue;
      found_.push_back({{cause, name, per_100_g_a(a), per_100_g_b(b), 0}, take});
    }
  }

  void tap() {
    bool differs = false;
    for (std::size_t i = 0; i < a_.tap.mol_per_kg.values.size(); ++i)
      differs = differs || !alike(a_.tap.mol_per_kg.values[i], b_.tap.mol_per_kg.values[i]);
    if (!differs) return;
    const auto calcium = [](const Inputs& inputs) {
      return inputs.recipe->tap ? calcium_mg_per_l(inputs.recipe->tap->water).value_or(0) : 0.0;
    };
    found_.push_back({{CompareCause::tap, {}, calcium(a_), calcium(b_), 0}, take_tap});
  }

  void mix() {
    for (const InputLine& line : a_.solids) {
      const auto there = solid_named(name_of(line, a_), b_);
      if (!there || known_alike(a_.recipe->ingredients[line.ingredient],
                                b_.recipe->ingredients[b_.solids[*there].ingredient]))
        continue;
      found_.push_back({{CompareCause::mix, name_of(line, a_), 0, 0, 0}, take_mix});
      return;  // all of them are taken over together
    }
  }

  const Inputs& a_;
  const Inputs& b_;
  Formula formula_a_;
  Formula formula_b_;
  std::vector<Difference> found_;
};

/// The outcome of `mine` with one difference taken over, if that can be done and be evaluated.
std::optional<double> with_others(const Inputs& mine, const Inputs& other, const Difference& one,
                                  CompareOutcome outcome) {
  Inputs changed = mine;
  const double scale = formulate(mine).solids_g / formulate(other).solids_g;
  if (!one.take(changed, other, one.effect, scale)) return std::nullopt;
  try {
    return value_of_outcome(outcomes_of(changed), outcome);
  } catch (const InputError&) {  // amounts no water phase can hold say nothing here
    return std::nullopt;
  } catch (const NotConverged&) {
    return std::nullopt;
  }
}

bool same_gum(const Evaluation& a, const Evaluation& b) {
  for (std::size_t i = 0; i < gum_count; ++i) {
    const double in_a = a.formula.delivered.gum_g[i] / a.formula.chemistry_water_g;
    const double in_b = b.formula.delivered.gum_g[i] / b.formula.chemistry_water_g;
    if (std::abs(in_a - in_b) > value_of(data, "compare.same-gum") * std::max(in_a, in_b))
      return false;
  }
  return true;
}

}  // namespace

std::optional<CompareReason> reason_of(const CompareSide& first, const CompareSide& second) {
  if (first.inputs == nullptr || second.inputs == nullptr) return std::nullopt;
  const Outcomes of_first = outcomes_of(*first.evaluation);
  const Outcomes of_second = outcomes_of(*second.evaluation);
  const std::optional<CompareOutcome> outcome = what_differs(of_first, of_second);
  if (!outcome) return std::nullopt;
  CompareReason reason;
  reason.outcome = *outcome;
  reason.first_value = value_of_outcome(of_first, *outcome);
  reason.second_value = value_of_outcome(of_second, *outcome);
  reason.same_gum = same_gum(*first.evaluation, *second.evaluation);
  for (Difference& one : Differences(*first.inputs, *second.inputs).all()) {
    const auto onward = with_others(*first.inputs, *second.inputs, one, *outcome);
    const auto back = with_others(*second.inputs, *first.inputs, one, *outcome);
    if (!onward && !back) continue;
    double sum = 0;
    if (onward) sum += *onward - reason.first_value;
    if (back) sum += reason.second_value - *back;
    one.effect.change = sum / ((onward ? 1 : 0) + (back ? 1 : 0));
    reason.effects.push_back(one.effect);
  }
  const double sign = reason.second_value > reason.first_value ? 1 : -1;
  std::stable_sort(reason.effects.begin(), reason.effects.end(),
                   [sign](const CompareEffect& a, const CompareEffect& b) {
                     return sign * a.change > sign * b.change;
                   });
  return reason;
}

std::span<const Datum> reason_data() {
  return data;
}

}  // namespace gelwright::detail
