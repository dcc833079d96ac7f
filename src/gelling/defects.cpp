#include "gelling/defects.hpp"

#include <algorithm>

#include "gelling/carboxylate.hpp"
#include "gelling/constant_table.hpp"
#include "gelling/mathematics.hpp"

namespace gelwright::gel::detail {

namespace {

constexpr double seen_half = constant("gel.seen.half");
constexpr double seen_width = constant("gel.seen.width");
constexpr double sudden_half = constant("gel.route.sudden_half");
constexpr double sudden_steepness = constant("gel.route.sudden_steepness");

/// Chance that bits of this much gum, g/100 mL, are seen.
double seen(double g_per_100_ml) {
  if (g_per_100_ml <= 0) return 0;
  return normal_cdf(lg(g_per_100_ml / seen_half) / seen_width);
}

double clumps_of(Dispersed dispersed) {
  switch (dispersed) {
    case Dispersed::mix:
      return constant("gel.clumps.mix");
    case Dispersed::sugar:
      return constant("gel.clumps.sugar");
    case Dispersed::blender:
      return constant("gel.clumps.blender");
    case Dispersed::dry:
      break;
  }
  return constant("gel.clumps.dry");
}

/// Clumps that form in the best of water, by how the gum was spread.
double clumps(const Setup& setup) {
  double most = 0;
  for (std::size_t i = 0; i < setup.portions; ++i)
    most = std::max(most, clumps_of(setup.state->portion[i].dispersed) *
                              seen(setup.portion[i].g_per_100_g_water / setup.ml_per_g_water));
  return most;
}

/// Sudden acid curdles gum that is dissolved; gum that calcium has locked has nothing left to
/// curdle.
double curds(const Setup& setup, const Values& values, const Dissolved& dissolved) {
  if (setup.state->acid != Acid::poured) return 0;
  const auto before = [&dissolved](Gum gum) { return dissolved.before_acid[index_of(gum)]; };
  const double alginate = before(Gum::alginate);
  const double low_methoxyl = before(Gum::lm_pectin) + before(Gum::amidated_pectin);
  const double of_alginate =
      values[Id::ph_acid] + setup.blend_beside * (values[Id::ph_blend] - values[Id::ph_acid]);
  const double ph_half =
      values[Id::ph_lm] + setup.alginate_of_acid * (of_alginate - values[Id::ph_lm]);
  return logistic(constant("gel.curds.steepness") *
                  (ph_half + constant("gel.curds.above") - setup.state->ph - values[Id::in_ph])) *
         seen(alginate + std::min(alginate, before(Gum::hm_pectin)) + low_methoxyl);
}

/// A soluble calcium salt at once makes skins round every drop.
double calcium_skins(const Setup& setup, const Dissolved& dissolved) {
  const State& state = *setup.state;
  if (state.calcium != Calcium::fast) return 0;
  double coo = 0, gum = 0;
  for (std::size_t g = 0; g < gum_count; ++g) {
    const Gum which = static_cast<Gum>(g);
    if (coo_mmol_per_g(which) <= 0 || which == Gum::hm_pectin) continue;
    coo += coo_mmol_per_kg(which, dissolved.binding_g_per_100_g_water[g]);
    gum += dissolved.before_acid[g];
  }
  if (coo <= 0 || state.ca_added_mmol_per_kg <= 0) return 0;
  return logistic(sudden_steepness * lg(2 * state.ca_added_mmol_per_kg / coo / sudden_half)) *
         seen(gum);
}

double weeping(const Setup& setup, const Values& values, const Dissolved& dissolved,
               const Routes& routes) {
  const State& state = *setup.state;
  double most = 0;
  if (const double c = dissolved.even[index_of(Gum::alginate)]; c > 0) {
    most = logistic((ten(routes.lg_calcium_ratio) - 1 - constant("gel.weeps.per_lg_c") * lg(c)) /
                    constant("gel.weeps.width"));
    if (state.acid != Acid::none)
      most =
          std::max(most, logistic((constant("gel.weeps.acid_ph") - state.ph - values[Id::in_ph]) /
                                  constant("gel.weeps.acid_width")));
  }
  const double steep = constant("gel.grain.steepness");
  if (dissolved.even[index_of(Gum::lm_pectin)] > 0)
    most = std::max(most, logistic(steep * routes.lg_grain));
  if (dissolved.even[index_of(Gum::amidated_pectin)] > 0)
    most = std::max(most, logistic(steep * routes.lg_grain_amidated));
  return most;
}

double grit(const Setup& setup, const Values& values, const Dissolved& dissolved) {
  const State& state = *setup.state;
  const double c = dissolved.even[index_of(Gum::alginate)];
  if (c <= 0 || state.acid == Acid::none) return 0;
  const bool aggregated =
      state.heated_c >= constant("gel.grit.heated_c") && c > constant("gel.grit.from_c");
  return (aggregated ? constant("gel.grit.heated") : constant("gel.grit.plain")) *
         logistic(constant("gel.grit.steepness") *
                  (constant("gel.grit.ph") - state.ph - values[Id::in_ph]));
}

}  // namespace

Defects defects_of(const Setup& setup, const Values& values, const Dissolved& dissolved,
                   const Routes& routes, double lg_modulus_pa) {
  Defects out;
  out.lumps = 1 - (1 - clumps(setup)) * (1 - seen(dissolved.pieces)) *
                      (1 - curds(setup, values, dissolved)) * (1 - calcium_skins(setup, dissolved));
  out.specks = seen(dissolved.too_late);
  const double set =
      normal_cdf((lg_modulus_pa - lg(constant("gel.set.half"))) / constant("gel.set.width"));
  out.weeps = set * weeping(setup, values, dissolved, routes);
  if (dissolved.even[index_of(Gum::gellan_low_acyl)] > 0)
    out.brittle = set * logistic(constant("gel.grain.steepness") *
                                 (routes.lg_ions - lg(constant("gel.brittle.ions"))));
  out.grit = set * grit(setup, values, dissolved);
  return out;
}

}  // namespace gelwright::gel::detail
