#include "gelwright/gel_stomach.hpp"

#include <algorithm>
#include <cmath>

#include "gelling/constant_table.hpp"
#include "gelling/doubt.hpp"
#include "gelling/mathematics.hpp"

namespace gelwright::gel {

namespace {

using detail::constant;

/// Chance that G' lies over a cut.
double over(const MeanSd& lg_modulus, double cut_pa, double width) {
  return detail::normal_cdf((lg_modulus.mean - detail::lg(cut_pa)) /
                            std::hypot(lg_modulus.sd, width));
}

/// How stiff the serving becomes once mixed.
MeanSd stiffness(const State& mixed, const Learnt* learnt) {
  const detail::Setup setup = detail::set_up(mixed);
  const Values values = detail::with_shifts(central_values(), learnt);
  return detail::doubt_of(setup, values, detail::point_at(setup, values), learnt).lg_modulus;
}

/// `stiffness_of` says how stiff a mixture becomes.
template <class StiffnessOf>
Stomach stomach_by(const State& state, const Outlook& eaten, StiffnessOf stiffness_of) {
  Stomach out;
  const Dissolved& dissolved = eaten.centre.dissolved;
  out.one_gel = over(stiffness_of(in_stomach(state, dissolved, true)),
                     constant("gel.stomach.one_gel"), constant("gel.stomach.one_gel_width"));
  const double pieces = over(stiffness_of(in_stomach(state, dissolved, false)),
                             constant("gel.stomach.pieces"), constant("gel.stomach.pieces_width"));
  const bool lumps_are_gel = state.acid == Acid::poured || state.calcium == Calcium::fast;
  const Chances& chances = eaten.chances;
  const double was_set = chances[Texture::soft] + chances[Texture::firm] + chances[Texture::hard] +
                         (lumps_are_gel ? chances[Texture::bits] : 0.0);
  out.pieces = std::max({pieces, out.one_gel, was_set});
  return out;
}

}  // namespace

State in_stomach(const State& eaten, const Dissolved& dissolved, bool diluted) {
  const double water = 1 - eaten.solids_percent / 100;  // g per g serving
  const double dilution = water / (1 + water);
  State out = eaten;
  out.portions = 0;
  for (std::size_t g = 0; g < gum_count; ++g) {
    const double amount = dissolved.binding_g_per_100_g_water[g];
    if (amount <= 0) continue;
    Portion portion;
    portion.gum = static_cast<Gum>(g);
    portion.g_per_100_g_water = diluted ? amount * dilution : amount;
    portion.dispersed = Dispersed::blender;
    portion.sequestered = 1;
    add(out, portion);
  }
  out.ca_mmol_per_kg = eaten.ca_total_mmol_per_kg * dilution + constant("gel.stomach.calcium");
  out.ca_total_mmol_per_kg = out.ca_mmol_per_kg;
  out.ca_added_mmol_per_kg = 0;
  out.mg_mmol_per_kg = eaten.mg_mmol_per_kg * dilution;
  out.na_mmol_per_kg = eaten.na_mmol_per_kg * dilution + constant("gel.stomach.sodium");
  out.k_mmol_per_kg = eaten.k_mmol_per_kg * dilution;
  out.ionic_mmol_per_kg = eaten.ionic_mmol_per_kg * dilution + constant("gel.stomach.ionic");
  out.solids_percent = eaten.solids_percent / 2;
  out.eaten_c = constant("gel.stomach.c");
  out.heated_c = constant("gel.stomach.still_dissolved_c");
  out.hours = constant("gel.stomach.hours");
  out.ph = constant("gel.stomach.ph") +
           constant("gel.stomach.ph_per_demand") *
               std::max(0.0, eaten.acid_demand_mmol - constant("gel.stomach.demand_free"));
  out.ph_sd = constant("gel.stomach.ph_sd");
  out.acid = Acid::slow;
  out.calcium = Calcium::slow;
  out.cooled = Cooled::still;
  return out;
}

Stomach stomach_of(const State& state, const Outlook& eaten, const Learnt* learnt) {
  return stomach_by(state, eaten,
                    [learnt](const State& mixed) { return stiffness(mixed, learnt); });
}

Stomach stomach_at(const State& state, const Outlook& eaten, const Values& values) {
  return stomach_by(state, eaten, [&values](const State& mixed) {
    return MeanSd{gel_at(mixed, values).lg_modulus_pa, 0};
  });
}

}  // namespace gelwright::gel
