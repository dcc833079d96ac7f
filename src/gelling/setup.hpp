// What of a serving does not change while the parameters are varied, worked out once.
#pragma once

#include "gelwright/gel_model.hpp"

namespace gelwright::gel::detail {

/// One addition.
struct PortionSetup {
  std::size_t gum = 0;
  double g_per_100_g_water = 0;
  bool meets_calcium = false;       ///< alginate that meets any
  double lg_calcium_ratio_met = 0;  ///< log10 R of all alginate in so far
  double time_ratio = 0;  ///< hours over the hours it needs in clean water; huge if heated
  double heat_share = 1;  ///< of a gellan, how much the heat it saw lets dissolve
  bool late = false;
};

/// One serving.
struct Setup {
  const State* state = nullptr;
  std::array<PortionSetup, max_portions> portion = {};
  std::size_t portions = 0;
  std::array<double, gum_count> g_per_100_g_water = {};  ///< as added
  double ml_per_g_water = 1;                             ///< liquid
  double syrup_lg = 0;          ///< log10 viscosity of the syrup at 20 degC, maltodextrin included
  double syrup_doubt = 0;       ///< how much of `v.md` counts
  double cold = 0;              ///< 0 at 20 degC, 1 at 5
  double jam_solids = 0;        ///< % that count for HM pectin, maltodextrin's own doubt left out
  double never_hot = 0;         ///< 0 to 1: pectin has not been hot
  double alginate_beside = 0;   ///< 0 to 1: there is alginate beside HM pectin
  double alginate_of_acid = 0;  ///< 0 to 1: alginate beside LM pectin decides how acid curdles it
  double blend_beside = 0;      ///< 0 to 1: there is HM pectin beside alginate
  std::array<bool, route_count> has_gum = {};  ///< whether a route has anything to set
};

Setup set_up(const State& state);

}  // namespace gelwright::gel::detail
