#include <algorithm>

#include "gelling/constant_table.hpp"
#include "gelling/mathematics.hpp"
#include "gelling/stages.hpp"

namespace gelwright::gel::detail {

namespace {

constexpr double calcium_steepness = constant("gel.hydration.calcium_steepness");

double pieces_of(Dispersed dispersed) {
  switch (dispersed) {
    case Dispersed::mix:
      return constant("gel.pieces.mix");
    case Dispersed::sugar:
      return constant("gel.pieces.sugar");
    case Dispersed::blender:
      return constant("gel.pieces.blender");
    case Dispersed::dry:
      break;
  }
  return constant("gel.pieces.dry");
}

/// What poured acid leaves evenly spread of `gum`, 0 to 1.
double left_even(const Setup& setup, std::size_t gum, double poured) {
  switch (static_cast<Gum>(gum)) {
    case Gum::alginate:
    case Gum::lm_pectin:
    case Gum::amidated_pectin:
      return poured;
    case Gum::hm_pectin:
      return 1 + setup.alginate_beside * (poured - 1);
    default:
      return 1;
  }
}

}  // namespace

Dissolved dissolve(const Setup& setup, const Values& values) {
  const State& state = *setup.state;
  Dissolved out;
  const double more_gum = ten(values[Id::in_c]);
  const double per_ml = more_gum / setup.ml_per_g_water;
  const double lg_ratio_shift = values[Id::in_ca] - values[Id::in_c] - values[Id::hyd_r];
  const double slower = ten(values[Id::hyd_t]);
  const double poured = state.acid == Acid::poured ? std::min(1.0, ten(values[Id::pour_e])) : 1.0;
  for (std::size_t i = 0; i < setup.portions; ++i) {
    const PortionSetup& portion = setup.portion[i];
    const double g_per_100_ml = portion.g_per_100_g_water * per_ml;
    const double in_time = 1 - std::exp(-portion.time_ratio / slower);
    double free = portion.heat_share;
    if (portion.meets_calcium)
      free = 1 / (1 + ten(calcium_steepness * (portion.lg_calcium_ratio_met + lg_ratio_shift)));
    const double share = free * in_time;
    const double even = share * g_per_100_ml;
    out.even[portion.gum] += portion.late ? even : even * left_even(setup, portion.gum, poured);
    out.binding_g_per_100_g_water[portion.gum] += share * portion.g_per_100_g_water * more_gum;
    if (!portion.late) out.before_acid[portion.gum] += even;
    out.pieces += (1 - share) * g_per_100_ml * pieces_of(state.portion[i].dispersed);
    out.too_late += (1 - in_time) * g_per_100_ml;
  }
  return out;
}

}  // namespace gelwright::gel::detail
