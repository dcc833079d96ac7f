#include <algorithm>

#include "gelling/carboxylate.hpp"
#include "gelling/constant_table.hpp"
#include "gelling/mathematics.hpp"
#include "gelling/stages.hpp"

namespace gelwright::gel::detail {

namespace {

constexpr double none = constant("gel.floor.route");
constexpr double least_calcium = constant("gel.floor.calcium");
constexpr double least_ionic = constant("gel.floor.ionic");
constexpr double least_ions = constant("gel.floor.ions");
constexpr double c_power = constant("gel.route.c_power");
constexpr double onset = constant("gel.route.onset_steepness");
constexpr double reference_ionic = constant("gel.route.ionic_base");
constexpr double sudden_half = constant("gel.route.sudden_half");
constexpr double sudden_steepness = constant("gel.route.sudden_steepness");

/// What every route of one serving shares.
struct Now {
  const Setup& setup;
  const State& state;
  const Dissolved& dissolved;
  const Values& p;
  double ph;
  double guluronate;
  double ca;          ///< mmol/kg
  double ca_binding;  ///< what acid leaves of it
  double lg_set;      ///< log10 of the share of setting that is over
  double lg_hot;      ///< log10 loss of a pectin that was never hot
  double lg_poured;   ///< log10 of what a sudden delivery leaves, at most 0

  double even(Gum gum) const { return dissolved.even[index_of(gum)]; }
  double coo(Gum gum) const {
    return coo_mmol_per_kg(gum, dissolved.binding_g_per_100_g_water[index_of(gum)]);
  }
};

/// Strength against gum: a square law that falls off below its onset.
double of_gum(double lg_c, double lg_onset) {
  return c_power * lg_c - soft(onset * (lg_onset - lg_c));
}

/// log10 of the calcium, mmol/kg, at which a gum is half way.
double half_calcium(const Now& now, double coo, Id bound) {
  const double free = ten(
      now.p[Id::ca_a] +
      now.p[Id::ca_n] * lg(std::max(now.state.ionic_mmol_per_kg, least_ionic) / reference_ionic));
  return lg(free + ten(now.p[bound]) * coo) + now.p[Id::u_ca];
}

/// log10 that calcium delivered at once costs a gum of this much carboxylate.
double sudden(const Now& now, double coo) {
  if (now.state.calcium != Calcium::fast || coo <= 0) return 0;
  const double ratio = 2 * std::max(now.state.ca_added_mmol_per_kg, least_calcium) / coo;
  return 2 * now.lg_poured * logistic(sudden_steepness * lg(ratio / sudden_half));
}

void alginate_routes(const Now& now, Routes& out) {
  const double c = now.even(Gum::alginate);
  if (c <= 0) return;
  const Values& p = now.p;
  const double lg_c = lg(c);
  const double coo = now.coo(Gum::alginate);
  const double lg_half = half_calcium(now, coo, Id::ca_b);
  out.lg_calcium_ratio = lg(2 * now.ca / coo);
  out.lg_pa[static_cast<std::size_t>(Route::calcium_alginate)] =
      p[Id::k_ca] + p[Id::u_k] +
      p[Id::fg_ca] * (now.guluronate - constant("gel.route.guluronate_calcium")) +
      of_gum(lg_c, p[Id::c_ca]) - soft(p[Id::ca_s] * (lg_half - lg(now.ca_binding))) +
      sudden(now, coo);
  const double firmer = p[Id::fg_acid] * (now.guluronate - constant("gel.route.guluronate_acid"));
  out.lg_pa[static_cast<std::size_t>(Route::acid_alginate)] =
      p[Id::k_acid] + p[Id::u_k] + firmer + of_gum(lg_c, p[Id::c_acid]) -
      soft(p[Id::ph_h] * (now.ph - p[Id::ph_acid] - p[Id::u_ph])) + now.lg_set;
  const double hm = now.even(Gum::hm_pectin);
  if (hm <= 0) return;
  const double x = c / (c + hm);
  const double ph_half =
      p[Id::ph_blend] + p[Id::u_ph] +
      p[Id::ph_de] * (now.state.esterification - constant("gel.route.esterification")) +
      p[Id::fg_ph] * (now.guluronate - constant("gel.route.guluronate_acid"));
  out.lg_pa[static_cast<std::size_t>(Route::acid_alginate_pectin)] =
      p[Id::k_blend] + p[Id::u_k] + firmer + of_gum(lg(c + hm), p[Id::c_blend]) +
      lg(4 * x * (1 - x) + constant("gel.route.blend_least")) -
      soft(p[Id::ph_h] * (now.ph - ph_half)) + now.lg_set;
}

/// What tells the two kinds of LM pectin apart.
struct LowMethoxyl {
  Gum gum;
  double amidated;  ///< 0 or 1
  Route calcium;
  Route acid;
};

/// Gives lg of R over the R at which it turns grainy.
double low_methoxyl_routes(const Now& now, const LowMethoxyl& kind, Routes& out) {
  const double c = now.even(kind.gum);
  if (c <= 0) return none;
  const Values& p = now.p;
  const double lg_c = lg(c);
  const double solids = now.state.solids_percent;
  const double coo = now.coo(kind.gum);
  const double lg_half = half_calcium(now, coo, Id::ca_blm) + p[Id::ca_ss] * solids;
  const double lg_grain = lg(2 * now.ca / coo) - p[Id::lm_x] -
                          constant("gel.route.amidated_grain") * kind.amidated -
                          p[Id::lm_xss] * solids;
  out.lg_pa[static_cast<std::size_t>(kind.calcium)] =
      p[Id::k_lm] + p[Id::u_k] + of_gum(lg_c, p[Id::c_lm]) -
      soft(p[Id::ca_s] * (lg_half - lg(now.ca_binding))) - soft(p[Id::ca_s] * lg_grain) +
      p[Id::lm_gain] * (1 - std::exp(-solids / constant("gel.route.lm_sugar"))) + now.lg_set +
      now.lg_hot + sudden(now, coo);
  out.lg_pa[static_cast<std::size_t>(kind.acid)] =
      p[Id::k_lmacid] + p[Id::u_k] + p[Id::amid_k] * kind.amidated + of_gum(lg_c, p[Id::c_lmacid]) -
      soft(p[Id::ph_h] * (now.ph - p[Id::ph_lm] - p[Id::u_ph] - p[Id::amid_ph] * kind.amidated)) +
      p[Id::lm_acidss] * solids + now.lg_set + now.lg_hot;
  return lg_grain;
}

void jam_route(const Now& now, Routes& out) {
  const double c = now.even(Gum::hm_pectin);
  if (c <= 0) return;
  const Values& p = now.p;
  const double cold = now.setup.cold;
  const double solids = now.setup.jam_solids + p[Id::jam_md] * now.state.sugars.maltodextrin;
  const double ph_half = p[Id::ph_jam] + p[Id::u_ph] + p[Id::jam_coldph] * cold +
                         p[Id::jam_phss] * (solids - constant("gel.jam.solids"));
  out.lg_pa[static_cast<std::size_t>(Route::sugar_acid_pectin)] =
      p[Id::k_jam] + p[Id::u_k] + of_gum(lg(c), p[Id::c_jam]) +
      constant("gel.jam.cold_firms") * cold -
      soft(p[Id::jam_slope] * (p[Id::jam_ss] + p[Id::jam_cold] * cold - solids)) -
      soft(p[Id::ph_h] * (now.ph - ph_half)) + now.lg_set + now.lg_hot;
}

void gellan_routes(const Now& now, Routes& out) {
  const Values& p = now.p;
  const State& state = now.state;
  if (const double c = now.even(Gum::gellan_low_acyl); c > 0) {
    const double coo = now.coo(Gum::gellan_low_acyl);
    const double na_each = ten(p[Id::la_na]);
    const double ions = p[Id::la_own] +
                        (2 * (now.ca + state.mg_mmol_per_kg) + state.na_mmol_per_kg / na_each +
                         state.k_mmol_per_kg / (constant("gel.gellan.potassium") * na_each)) /
                            coo +
                        p[Id::la_h] * (1 - 1 / (1 + ten(constant("gel.gellan.pk") - now.ph)));
    out.lg_ions = lg(std::max(ions, least_ions));
    const double setting_c =
        p[Id::la_t] +
        constant("gel.gellan.set_slope") *
            lg(1 + std::max(state.ca_mmol_per_kg, least_calcium) + state.mg_mmol_per_kg +
               (state.na_mmol_per_kg + state.k_mmol_per_kg) /
                   constant("gel.gellan.set_monovalent") +
               std::max(0.0, p[Id::la_own]) * coo / 2);
    out.setting_c = setting_c;
    out.lg_pa[static_cast<std::size_t>(Route::gellan_low_acyl)] =
        p[Id::k_la] + p[Id::u_k] + of_gum(lg(c), p[Id::c_la]) -
        soft(p[Id::ca_s] *
             (p[Id::la_q] + p[Id::ca_ss] * state.solids_percent + p[Id::u_ca] - out.lg_ions)) -
        soft(out.lg_ions - p[Id::la_x]) -
        soft(constant("gel.gellan.set_width") * (state.eaten_c - setting_c)) -
        soft(constant("gel.gellan.sugar") * (state.solids_percent - p[Id::la_ss]));
  }
  if (const double c = now.even(Gum::gellan_high_acyl); c > 0) {
    out.setting_c = std::max(out.setting_c, constant("gel.gellan.high_acyl_set_c"));
    out.lg_pa[static_cast<std::size_t>(Route::gellan_high_acyl)] =
        p[Id::k_ha] + p[Id::u_k] + of_gum(lg(c), p[Id::c_ha]) -
        soft(constant("gel.gellan.set_width") *
             (state.eaten_c - constant("gel.gellan.high_acyl_set_c")));
  }
}

}  // namespace

Routes routes_of(const Setup& setup, const Dissolved& dissolved, const Values& values) {
  const State& state = *setup.state;
  const double ph = state.ph + values[Id::in_ph];
  const double ca = std::max(state.ca_mmol_per_kg, least_calcium) * ten(values[Id::in_ca]);
  const double set_share = 1 - std::exp(-state.hours / ten(values[Id::tau]));
  const Now now{setup,
                state,
                dissolved,
                values,
                ph,
                state.guluronate + values[Id::in_fg],
                ca,
                ca / (1 + ten(values[Id::ca_pk] - ph)),
                lg(std::max(set_share, constant("gel.floor.set"))),
                values[Id::hot] * setup.never_hot,
                std::min(0.0, values[Id::pour_e])};
  Routes out;
  out.lg_pa.fill(none);
  alginate_routes(now, out);
  out.lg_grain = low_methoxyl_routes(
      now, {Gum::lm_pectin, 0, Route::calcium_lm_pectin, Route::acid_lm_pectin}, out);
  out.lg_grain_amidated = low_methoxyl_routes(
      now, {Gum::amidated_pectin, 1, Route::calcium_amidated_pectin, Route::acid_amidated_pectin},
      out);
  jam_route(now, out);
  gellan_routes(now, out);
  for (double& route : out.lg_pa) route = std::max(route, none);
  return out;
}

}  // namespace gelwright::gel::detail
