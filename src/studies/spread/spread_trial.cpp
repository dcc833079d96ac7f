// One trial: what each kind of doubt does to the inputs.
#include <algorithm>
#include <cmath>

#include "gelwright/formula.hpp"
#include "gelwright/gums.hpp"
#include "gelwright/water.hpp"
#include "ingredients/gum_table.hpp"
#include "statistics/random.hpp"
#include "studies/spread/spread_detail.hpp"

namespace gelwright {

namespace {

constexpr double amide_share = value_of(gum_table, "pectin.amidated.amidation");

/// Everything the line brings but its water, times `factor`.
void scale_solutes(Composition& per_g, double factor) {
  const double water_g = per_g.water_g;
  per_g *= factor;
  per_g.water_g = water_g;
}

/// The counter-ion of gum carboxylate; what is taken away was there, to rounding.
void add_sodium(Composition& per_g, double mol) {
  double& sodium_mol = per_g.dissolved(Component::sodium);
  sodium_mol = std::max(0.0, sodium_mol + mol);
}

void change_carboxylate(Composition& per_g, Gum gum, double added_mol) {
  per_g.carboxylate_mol[index_of(gum)] += added_mol;
  per_g.dissolved(Component::uronate) += added_mol;
  add_sodium(per_g, added_mol * neutralised_fraction(gum));
}

void scale_gums(Composition& per_g, double factor) {
  for (std::size_t g = 0; g < gum_count; ++g) {
    per_g.gum_g[g] *= factor;
    change_carboxylate(per_g, static_cast<Gum>(g), per_g.carboxylate_mol[g] * (factor - 1));
  }
  per_g.guluronate_mol *= factor;
  per_g.hm_pectin_esterified_g *= factor;
}

/// The carbohydrate of a label and what it is made of, times `factor`; but 1 g never holds more
/// than 1 g.
void scale_label(Composition& per_g, double factor) {
  const double beside_g =
      per_g.water_g + std::max(per_g.fibre_g, per_g.soluble_solids_g - per_g.carbohydrate_g);
  factor = std::min(factor, std::max(0.0, 1 - beside_g) / per_g.carbohydrate_g);
  per_g.soluble_solids_g += per_g.carbohydrate_g * (factor - 1);
  for (double Composition::*part :
       {&Composition::carbohydrate_g, &Composition::sugars_g, &Composition::maltodextrin_g,
        &Composition::glucose_g, &Composition::fructose_g, &Composition::unnamed_sugars_g})
    per_g.*part *= factor;
  for (double& amount : per_g.saccharide_mol) amount *= factor;
}

/// One pectin at another degree of esterification, its galacturonic acid kept.
void set_esterification(Composition& per_g, Gum gum, double from, double to) {
  const double mol = per_g.carboxylate(gum);
  if (mol <= 0) return;
  // Amidated pectin: the amide share is kept, so what is free is 1 less both degrees, known from
  // `from`.
  const double free = 1 - from - (gum == Gum::amidated_pectin ? amide_share : 0);
  change_carboxylate(per_g, gum, mol * (from - to) / free);
  if (gum == Gum::hm_pectin) per_g.hm_pectin_esterified_g *= to / from;
}

/// Of the band of an undeclared share.
constexpr double middle = 0.5;

/// The gum that `u`, 0 to 1 evenly drawn, stands for: as likely as the cups leave it, else even.
std::size_t identity_at(double u, std::size_t identities, const Learned* learned) {
  const auto weight = [&](std::size_t identity) {
    return learned != nullptr && identity < learned->gums.size()
               ? learned->gums[identity].weight
               : 1 / static_cast<double>(identities);
  };
  std::size_t identity = 0;
  for (double up_to = weight(0); identity + 1 < identities && u >= up_to;)
    up_to += weight(++identity);
  return identity;
}

/// Column `index` of the triangular root of a covariance (Cholesky): times a standard normal each,
/// the columns together have that covariance.
LearnedShifts column_of_root(const LearnedCovariance& covariance, std::size_t index) {
  LearnedCovariance root = {};
  for (std::size_t j = 0; j <= index; ++j)
    for (std::size_t i = j; i < learned_shift_count; ++i) {
      double rest = covariance[i][j];
      for (std::size_t k = 0; k < j; ++k) rest -= root[i][k] * root[j][k];
      if (i == j)
        root[i][j] = std::sqrt(std::max(0.0, rest));
      else
        root[i][j] = root[j][j] > 0 ? rest / root[j][j] : 0.0;
    }
  LearnedShifts column = {};
  for (std::size_t i = 0; i < learned_shift_count; ++i) column[i] = root[i][index];
  return column;
}

}  // namespace

double DoubtDraw::deviation(std::uint64_t seed, std::uint64_t trial) const {
  const Draw draw{seed, stream(), trial};
  const double free =
      rectangular ? gelwright::rectangular(draw, -width, width) : width * standard_normal(draw);
  return std::clamp(value + free, low, high) - value;
}

Trial::Trial(const Inputs& nominal, std::span<const DoubtDraw> drawn)
    : nominal_(nominal),
      drawn_(drawn),
      recipe_(*nominal.recipe),
      inputs_(nominal),
      salts_(sodium_readings_left(nominal)) {
  // A trial knows its gum share: the band must not be walked again inside every evaluation.
  for (Ingredient& ingredient : recipe_.ingredients) {
    ingredient.undeclared.clear();
    ingredient.undeclared_acids.clear();
  }
  inputs_.recipe = &recipe_;
  const auto dose = [](const std::optional<InputDose>& which) {
    if (!which) return Dose{};
    const double strength = which->stock_fraction > 0 ? which->stock_fraction : 1;
    return Dose{which->line.mass_g / strength, strength, 0};
  };
  learned_ = learned_of(nominal);
  nominal_acid_ = dose(nominal.acid);
  nominal_calcium_ = dose(nominal.calcium);
  nominal_tap_g_ = formulate(nominal).tap_g;
}

InputLine& Trial::line(std::size_t index) {
  if (index < inputs_.solids.size()) return inputs_.solids[index];
  return index == inputs_.solids.size() ? inputs_.acid->line : inputs_.calcium->line;
}

const Inputs& Trial::draw(std::uint64_t seed, std::uint64_t trial,
                          std::optional<DoubtKind> without) {
  std::copy(nominal_.solids.begin(), nominal_.solids.end(), inputs_.solids.begin());
  inputs_.acid = nominal_.acid;
  inputs_.calcium = nominal_.calcium;
  inputs_.water = nominal_.water;
  inputs_.tap = nominal_.tap;
  inputs_.gum_pka = nominal_.gum_pka;
  inputs_.ph_bias = nominal_.ph_bias;
  inputs_.calcium_lg_bias = nominal_.calcium_lg_bias;
  gel_values_ = gel::central_values();
  identity_ = 0;
  take_learned();
  acid_ = nominal_acid_;
  calcium_ = nominal_calcium_;
  tap_g_ = nominal_tap_g_;
  masses_drawn_ = false;
  if (tap_drawn_) {
    // Values only: copying the report would copy its name.
    const Water& reported = nominal_.recipe->tap->water;
    Water& water = recipe_.tap->water;
    for (const IonInfo& ion : ions()) water.mg_per_l[ion.ion] = reported.mg_per_l[ion.ion];
    water.alkalinity_meq_per_l = reported.alkalinity_meq_per_l;
    water.hardness_mmol_per_l = reported.hardness_mmol_per_l;
    tap_drawn_ = false;
  }
  for (const DoubtDraw& what : drawn_)
    if (what.kind != without) apply(what, what.deviation(seed, trial));
  if (masses_drawn_) pour();
  if (tap_drawn_) inputs_.tap = complete(recipe_.tap->water, nullptr);
  return inputs_;
}

/// The gel model's shifts as the cups have them, if the mix holds the gum of this trial.
void Trial::take_learned() {
  if (const auto learnt = learnt_of(learned_, identity_))
    gel_values_ = gel::learnt_values(&*learnt);
}

/// Doses and water from what was on the scales.
void Trial::pour() {
  double stock_water_g = 0;
  const auto dose = [&stock_water_g](std::optional<InputDose>& which, const Dose& drawn) {
    if (!which) return;
    const double on_scale_g = std::max(0.0, drawn.on_scale_g);
    which->line.mass_g = std::max(0.0, on_scale_g * drawn.strength + drawn.stated_g);
    if (which->stock_fraction <= 0) return;
    which->stock_fraction = drawn.strength;
    stock_water_g += which->line.mass_g * (1 / drawn.strength - 1);
  };
  dose(inputs_.acid, acid_);
  dose(inputs_.calcium, calcium_);
  inputs_.water = {WaterBasis::mass_g, std::max(0.0, tap_g_) + stock_water_g};
}

void Trial::apply(const DoubtDraw& what, double deviation) {
  const std::size_t index = what.index;
  const double now = what.value + deviation;
  switch (what.target) {
    case DoubtTarget::solid_mass:
    case DoubtTarget::solid_stated: {
      double& mass_g = inputs_.solids[index].mass_g;
      mass_g = std::max(0.0, mass_g + deviation);
      masses_drawn_ = true;
      break;
    }
    case DoubtTarget::acid_mass:
      acid_.on_scale_g += deviation;
      masses_drawn_ = true;
      break;
    case DoubtTarget::calcium_mass:
      calcium_.on_scale_g += deviation;
      masses_drawn_ = true;
      break;
    case DoubtTarget::water_mass:
      tap_g_ += deviation;
      masses_drawn_ = true;
      break;
    case DoubtTarget::acid_stated:
      acid_.stated_g += deviation;
      masses_drawn_ = true;
      break;
    case DoubtTarget::calcium_stated:
      calcium_.stated_g += deviation;
      masses_drawn_ = true;
      break;
    case DoubtTarget::acid_strength:
      acid_.strength *= now;
      masses_drawn_ = true;
      break;
    case DoubtTarget::calcium_strength:
      calcium_.strength *= now;
      masses_drawn_ = true;
      break;
    case DoubtTarget::gum_identity: {
      InputLine& mix = inputs_.solids[index];
      const Ingredient& ingredient = nominal_.recipe->ingredients[mix.ingredient];
      const auto kinds = static_cast<double>(ingredient.undeclared.size());
      identity_ = identity_at((now + 0.5) / kinds, ingredient.undeclared.size(), learned_);
      if (identity_ == 0) break;
      mix.per_g += with_undeclared_gum(ingredient, middle, identity_) +
                   with_undeclared_gum(ingredient, middle) * -1;
      take_learned();
      break;
    }
    case DoubtTarget::gum_share: {
      InputLine& mix = inputs_.solids[index];
      const Ingredient& ingredient = nominal_.recipe->ingredients[mix.ingredient];
      const UndeclaredGums& gums = ingredient.undeclared[identity_];
      const double width = ingredient.gum_share_high - ingredient.gum_share_low;
      mix.per_g += (gums.in_mix(1) + gums.in_mix(0) * -1) * (deviation / width);
      break;
    }
    case DoubtTarget::mix_gum:
      scale_gums(inputs_.solids[index].per_g, now);
      break;
    case DoubtTarget::moisture: {
      Composition& per_g = line(index).per_g;
      scale_solutes(per_g, (1 - now) / (1 - what.value));
      per_g.water_g = now;
      break;
    }
    case DoubtTarget::purity:
      scale_solutes(line(index).per_g, now);
      break;
    case DoubtTarget::label:
      scale_label(inputs_.solids[index].per_g, now);
      break;
    case DoubtTarget::dextrose_equivalent:
      // Reducing ends in proportion: twice the DE is twice the molecules.
      inputs_.solids[index].per_g.saccharide_mol[index_of(Saccharide::oligomer)] *=
          now / what.value;
      break;
    case DoubtTarget::esterification:
      for (InputLine& solid : inputs_.solids)
        set_esterification(solid.per_g, static_cast<Gum>(index), what.value, now);
      break;
    case DoubtTarget::neutralised:
      for (InputLine& solid : inputs_.solids)
        add_sodium(solid.per_g, solid.per_g.carboxylate(static_cast<Gum>(index)) * deviation);
      break;
    case DoubtTarget::buffer: {
      InputLine& mix = inputs_.solids[index];
      const Ingredient& ingredient = nominal_.recipe->ingredients[mix.ingredient];
      mix.per_g += (ingredient.per_g + *ingredient.unbuffered_per_g * -1) * deviation;
      // The buffer's sodium is the label's; where that runs out, potassium, as `add_buffer` has it.
      double& chloride_mol = mix.per_g.dissolved(Component::chloride);
      mix.per_g.unnamed_sodium_mol = 0;
      mix.per_g.dissolved(Component::potassium) += std::max(0.0, -chloride_mol);
      chloride_mol = std::max(0.0, chloride_mol);
      break;
    }
    case DoubtTarget::acid_share: {
      InputLine& mix = inputs_.solids[index];
      mix.per_g += acid_beside_middle(nominal_.recipe->ingredients[mix.ingredient], now);
      break;
    }
    case DoubtTarget::sodium_salt: {
      double cumulated = 0;
      for (const SodiumReading& each : salts_) {
        cumulated += each.weight;
        if (now > cumulated && &each != &salts_.back()) continue;
        name_sodium(inputs_, each.salt);
        break;
      }
      break;
    }
    case DoubtTarget::tap_report: {
      Water& water = recipe_.tap->water;
      const Water& sd = recipe_.tap->sd;
      const auto scale = [now](std::optional<double>& figure, const std::optional<double>& stated) {
        if (figure && !stated) *figure *= now;
      };
      for (const IonInfo& ion : ions()) scale(water.mg_per_l[ion.ion], sd.mg_per_l[ion.ion]);
      scale(water.alkalinity_meq_per_l, sd.alkalinity_meq_per_l);
      scale(water.hardness_mmol_per_l, sd.hardness_mmol_per_l);
      tap_drawn_ = true;
      break;
    }
    case DoubtTarget::tap_ion:
      recipe_.tap->water.mg_per_l[static_cast<Ion>(index)] = now;
      tap_drawn_ = true;
      break;
    case DoubtTarget::tap_alkalinity:
      recipe_.tap->water.alkalinity_meq_per_l = now;
      tap_drawn_ = true;
      break;
    case DoubtTarget::tap_hardness:
      recipe_.tap->water.hardness_mmol_per_l = now;
      tap_drawn_ = true;
      break;
    case DoubtTarget::gum_pka:
      inputs_.gum_pka = now;
      break;
    case DoubtTarget::ph_bias:
      inputs_.ph_bias = now;
      break;
    case DoubtTarget::calcium_complexes:
      inputs_.calcium_lg_bias = now;
      break;
    case DoubtTarget::gel_parameter:
      gel_values_[static_cast<gel::Id>(index)] += deviation;
      break;
    case DoubtTarget::learned: {
      const LearnedShifts by = column_of_root(learnt_of(learned_, identity_)->covariance, index);
      for (std::size_t i = 0; i < learned_shift_count; ++i)
        gel_values_[gel::shift_ids[i]] += by[i] * deviation;
      break;
    }
  }
}

}  // namespace gelwright
