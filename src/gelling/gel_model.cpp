#include "gelwright/gel_model.hpp"

#include <algorithm>

#include "gelling/constant_table.hpp"
#include "gelling/mathematics.hpp"
#include "gelling/stages.hpp"

namespace gelwright::gel {

namespace detail {

namespace {

constexpr double least = constant("gel.floor.sum");
constexpr double xanthan_yield = constant("gel.xanthan.yield");
constexpr double xanthan_power = constant("gel.xanthan.yield_power");
constexpr double per_yield = constant("gel.thickness.per_yield");

}  // namespace

bool is_sheared(Route route, const State& state) {
  const bool stirred = state.cooled == Cooled::stirred;
  switch (route) {
    case Route::calcium_alginate:
      return state.calcium == Calcium::blade;
    case Route::calcium_lm_pectin:
    case Route::calcium_amidated_pectin:
      return state.calcium == Calcium::blade || stirred;
    case Route::acid_alginate:
    case Route::acid_alginate_pectin:
    case Route::acid_lm_pectin:
    case Route::acid_amidated_pectin:
      return state.acid == Acid::blade;
    case Route::sugar_acid_pectin:
    case Route::gellan_low_acyl:
    case Route::gellan_high_acyl:
      break;
  }
  return stirred;
}

Sum sum_of(const Setup& setup, const Dissolved& dissolved, const Routes& routes,
           const Values& values) {
  double still = 0, sheared = 0;
  for (std::size_t r = 0; r < route_count; ++r) {
    if (!setup.has_gum[r]) continue;
    const double lg_pa = routes.lg_pa[r] + values[Id::res];
    if (is_sheared(static_cast<Route>(r), *setup.state))
      sheared += ten(lg_pa + values[Id::shear]);
    else
      still += ten(lg_pa);
  }
  Sum out;
  const double modulus = std::max(still + sheared, least);
  out.lg_modulus_pa = lg(modulus);
  out.sheared_share = sheared / modulus;
  double yield = still * ten(values[Id::y_still]) + sheared * ten(values[Id::y_shear]);
  if (const double c = dissolved.even[index_of(Gum::xanthan)]; c > 0)
    yield += xanthan_yield * ten(xanthan_power * lg(c));
  out.lg_yield_pa = lg(std::max(yield, least));
  return out;
}

double lg_thickness(double lg_viscosity_mpa_s, double lg_yield_pa) {
  return lg(ten(lg_viscosity_mpa_s) + per_yield * ten(lg_yield_pa));
}

}  // namespace detail

std::string_view to_text(Route route) {
  switch (route) {
    case Route::calcium_alginate:
      return "calcium and alginate";
    case Route::acid_alginate:
      return "acid and alginate";
    case Route::acid_alginate_pectin:
      return "acid, alginate and HM pectin";
    case Route::calcium_lm_pectin:
      return "calcium and LM pectin";
    case Route::acid_lm_pectin:
      return "acid and LM pectin";
    case Route::calcium_amidated_pectin:
      return "calcium and amidated pectin";
    case Route::acid_amidated_pectin:
      return "acid and amidated pectin";
    case Route::sugar_acid_pectin:
      return "sugar, acid and HM pectin";
    case Route::gellan_low_acyl:
      return "low-acyl gellan and ions";
    case Route::gellan_high_acyl:
      return "high-acyl gellan";
  }
  return "";
}

}  // namespace gelwright::gel
