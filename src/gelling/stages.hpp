// The stages of the gel model. Each reads what stands before it, so a parameter that only touches a
// late one does not repeat the early ones.
#pragma once

#include "gelling/setup.hpp"
#include "gelwright/gel_model.hpp"

namespace gelwright::gel::detail {

/// What dissolves before calcium, acid or sugar stops it.
Dissolved dissolve(const Setup& setup, const Values& values);

/// What each route is worth alone, and the ratios that tell of defects.
struct Routes {
  std::array<double, route_count> lg_pa = {};
  double lg_calcium_ratio = 0;
  double lg_grain = 0;
  double lg_grain_amidated = 0;
  double lg_ions = 0;
  double setting_c = 0;
};
Routes routes_of(const Setup& setup, const Dissolved& dissolved, const Values& values);

/// log10 mPa.s of the liquid, gel left out.
double lg_viscosity(const Setup& setup, const Dissolved& dissolved, const Values& values);

/// All routes together.
struct Sum {
  double lg_modulus_pa = 0;
  double sheared_share = 0;
  double lg_yield_pa = 0;
};
Sum sum_of(const Setup& setup, const Dissolved& dissolved, const Routes& routes,
           const Values& values);

/// log10 mPa.s of what drains.
double lg_thickness(double lg_viscosity_mpa_s, double lg_yield_pa);

/// Whether a route was broken as it set.
bool is_sheared(Route route, const State& state);

}  // namespace gelwright::gel::detail
