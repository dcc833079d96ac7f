#include "gelling/relevance.hpp"

#include <algorithm>

#include "gelling/stages.hpp"

namespace gelwright::gel::detail {

namespace {

bool has(const Setup& setup, Route route) {
  return setup.has_gum[static_cast<std::size_t>(route)];
}

bool has(const Setup& setup, Gum gum) {
  return setup.g_per_100_g_water[index_of(gum)] > 0;
}

bool any_sheared(const Setup& setup) {
  for (std::size_t r = 0; r < route_count; ++r)
    if (setup.has_gum[r] && is_sheared(static_cast<Route>(r), *setup.state)) return true;
  return false;
}

bool meets_calcium(const Setup& setup) {
  return std::any_of(setup.portion.begin(),
                     setup.portion.begin() + static_cast<long>(setup.portions),
                     [](const PortionSetup& portion) { return portion.meets_calcium; });
}

}  // namespace

Stage first_stage(Id id) {
  switch (id) {
    case Id::hyd_r:
    case Id::hyd_t:
    case Id::pour_e:
    case Id::in_c:
    case Id::in_ca:
      return Stage::dissolve;
    case Id::res:
    case Id::shear:
    case Id::y_still:
    case Id::y_shear:
      return Stage::sum;
    case Id::v_sugar:
    case Id::v_md:
    case Id::v_alg:
    case Id::v_gum:
    case Id::v_xan:
    case Id::u_v:
      return Stage::viscosity;
    default:
      return Stage::routes;
  }
}

bool matters(Id id, const Setup& setup) {
  const bool alginate = has(setup, Gum::alginate);
  const bool hm = has(setup, Gum::hm_pectin);
  const bool amidated = has(setup, Gum::amidated_pectin);
  const bool lm = has(setup, Gum::lm_pectin) || amidated;
  const bool low_acyl = has(setup, Gum::gellan_low_acyl);
  const bool high_acyl = has(setup, Gum::gellan_high_acyl);
  const bool blend = has(setup, Route::acid_alginate_pectin);
  const bool sets = alginate || hm || lm || low_acyl || high_acyl;
  switch (id) {
    case Id::k_ca:
    case Id::k_acid:
    case Id::c_ca:
    case Id::c_acid:
    case Id::fg_ca:
    case Id::fg_acid:
    case Id::ca_b:
    case Id::ph_acid:
    case Id::v_alg:
    case Id::in_fg:
      return alginate;
    case Id::k_blend:
    case Id::c_blend:
    case Id::ph_blend:
    case Id::fg_ph:
    case Id::ph_de:
      return blend;
    case Id::k_lm:
    case Id::k_lmacid:
    case Id::c_lm:
    case Id::c_lmacid:
    case Id::ca_blm:
    case Id::lm_x:
    case Id::lm_xss:
    case Id::lm_gain:
    case Id::lm_acidss:
    case Id::ph_lm:
      return lm;
    case Id::amid_ph:
    case Id::amid_k:
      return amidated;
    case Id::k_jam:
    case Id::c_jam:
    case Id::ph_jam:
    case Id::jam_ss:
    case Id::jam_slope:
    case Id::jam_phss:
      return hm;
    case Id::jam_cold:
    case Id::jam_coldph:
      return hm && setup.cold != 0;
    case Id::jam_md:
      return hm && setup.state->sugars.maltodextrin > 0;
    case Id::k_la:
    case Id::c_la:
    case Id::la_q:
    case Id::la_own:
    case Id::la_x:
    case Id::la_na:
    case Id::la_h:
    case Id::la_t:
    case Id::la_ss:
      return low_acyl;
    case Id::k_ha:
    case Id::c_ha:
      return high_acyl;
    case Id::ca_a:
    case Id::ca_n:
    case Id::ca_pk:
      return alginate || lm;
    case Id::ca_s:
    case Id::u_ca:
    case Id::in_ca:
      return alginate || lm || low_acyl;
    case Id::ca_ss:
      return lm || low_acyl;
    case Id::ph_h:
    case Id::tau:
    case Id::u_ph:
      return alginate || lm || hm;
    case Id::in_ph:
      return alginate || lm || hm || low_acyl;
    case Id::hot:
      return (hm || lm) && setup.never_hot > 0;
    case Id::hyd_r:
      return meets_calcium(setup);
    case Id::hyd_t:
      return setup.portions > 0;
    case Id::pour_e:
      return setup.state->acid == Acid::poured || setup.state->calcium == Calcium::fast;
    case Id::shear:
    case Id::y_shear:
      return any_sheared(setup);
    case Id::v_md:
      return setup.syrup_doubt > 0;
    case Id::v_gum:
      return hm || lm || low_acyl || high_acyl;
    case Id::v_xan:
      return has(setup, Gum::xanthan);
    case Id::u_v:
    case Id::in_c:
      return setup.portions > 0;
    case Id::res:
    case Id::y_still:
    case Id::u_k:
      return sets;
    case Id::v_sugar:
      return true;
  }
  return true;
}

}  // namespace gelwright::gel::detail
