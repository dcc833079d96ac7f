#include <cmath>

#include "gelling/constant_table.hpp"
#include "gelling/mathematics.hpp"
#include "gelling/stages.hpp"

namespace gelwright::gel::detail {

namespace {

constexpr double cold_thicker = constant("gel.syrup.cold_thicker");
constexpr double overlap = constant("gel.eta.overlap");
constexpr double dilute_power = constant("gel.eta.dilute_power");
constexpr double entangled_power = constant("gel.eta.entangled_power");

double alginate_eta_dl_per_g(ViscosityGrade grade) {
  switch (grade) {
    case ViscosityGrade::very_low:
      return constant("gel.eta.very_low");
    case ViscosityGrade::low:
      return constant("gel.eta.low");
    case ViscosityGrade::medium:
      return constant("gel.eta.medium");
    case ViscosityGrade::high:
      return constant("gel.eta.high");
    case ViscosityGrade::unknown:
      break;
  }
  return constant("gel.eta.unknown");
}

}  // namespace

double lg_viscosity(const Setup& setup, const Dissolved& dissolved, const Values& values) {
  const auto even = [&dissolved](Gum gum) { return dissolved.even[index_of(gum)]; };
  const double at_room =
      setup.syrup_lg + values[Id::v_md] * setup.syrup_doubt + values[Id::v_sugar];
  const double syrup =
      ten(at_room + setup.cold * (constant("gel.syrup.cold") + cold_thicker * at_room));
  const double others =
      even(Gum::hm_pectin) * constant("gel.eta.hm_pectin") +
      (even(Gum::lm_pectin) + even(Gum::amidated_pectin)) * constant("gel.eta.lm_pectin") +
      even(Gum::gellan_low_acyl) * constant("gel.eta.gellan_low_acyl") +
      even(Gum::gellan_high_acyl) * constant("gel.eta.gellan_high_acyl");
  const double x =
      (even(Gum::alginate) * alginate_eta_dl_per_g(setup.state->grade) * ten(values[Id::v_alg]) +
       others * ten(values[Id::v_gum])) /
      overlap;
  double lg_x = 0, specific = 0;
  if (x > 0) {
    lg_x = lg(x);
    specific = constant("gel.eta.scale") *
               (ten(dilute_power * lg_x) + ten(entangled_power * lg_x)) * ten(values[Id::u_v]);
  }
  double eta = syrup * (1 + specific);
  if (const double c = even(Gum::xanthan); c > 0)
    eta +=
        constant("gel.xanthan.viscosity") *
        ten(constant("gel.xanthan.viscosity_power") * lg(c) + values[Id::v_xan] + values[Id::u_v]) *
        std::pow(syrup, constant("gel.xanthan.syrup_power"));
  return lg(eta);
}

}  // namespace gelwright::gel::detail
