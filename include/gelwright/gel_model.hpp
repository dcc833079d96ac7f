// The gel model at one set of parameter values: what dissolves, how stiff each route makes it, how
// thick the liquid is.
//
// Pa and mPa.s as log10. G' at 1 Hz, small strain. Strength runs on gum per 100 mL of liquid,
// because chains fill the whole liquid and sugar is solvent; calcium and ions stay per kg of water.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "gelwright/gel_parameters.hpp"
#include "gelwright/gel_state.hpp"

namespace gelwright::gel {

/// A way in which a gum sets. Xanthan has none: it thickens.
enum class Route : std::uint8_t {
  calcium_alginate,
  acid_alginate,
  acid_alginate_pectin,
  calcium_lm_pectin,
  acid_lm_pectin,
  calcium_amidated_pectin,
  acid_amidated_pectin,
  sugar_acid_pectin,
  gellan_low_acyl,
  gellan_high_acyl,
};
inline constexpr std::size_t route_count = 10;

/// Whether this gum can set by any route at all.
constexpr bool can_set(Gum gum) {
  return gum != Gum::xanthan;
}

/// What went into the liquid and what did not. g/100 mL unless said.
struct Dissolved {
  std::array<double, gum_count> even = {};  ///< spread evenly once the acid is in
  /// g per 100 g water that dissolved, whatever acid did to it later: what binds calcium
  std::array<double, gum_count> binding_g_per_100_g_water = {};
  std::array<double, gum_count> before_acid = {};  ///< dissolved, of what was in before the acid
  double pieces = 0;                               ///< undissolved, large enough to see
  double too_late = 0;                             ///< what had no time to dissolve
};

/// The model's answer.
struct Gel {
  Dissolved dissolved;
  /// G' of each alone, at rest, sudden calcium counted; -9 for none
  std::array<double, route_count> route_lg_pa = {};
  std::array<bool, route_count> has_gum = {};  ///< whether the gum of the route went in at all
  double lg_modulus_pa = 0;                    ///< all routes together, as broken as they are
  double lg_viscosity_mpa_s = 0;               ///< of the liquid, gel left out
  double lg_yield_pa = 0;
  double lg_thickness_mpa_s = 0;  ///< viscosity and 15 mPa.s per Pa of yield: what drains
  double sheared_share = 0;       ///< of G', 0 to 1: gelled under a blade or stirred as it cooled
  double lg_calcium_ratio = 0;    ///< alginate: lg 2 Ca/COO
  double lg_grain = 0;            ///< LM pectin: lg of R over the R at which it turns grainy
  double lg_grain_amidated = 0;   ///< amidated pectin: the same
  double lg_ions = 0;             ///< low-acyl gellan: lg Q, 0 = the best calcium
  double setting_c = 0;           ///< gellan: sets as it cools below this, degC; 0: no gellan
};

/// `values` at their centre are `central_values()`. The state must be in range; a state with no
/// gum is a liquid.
Gel gel_at(const State& state, const Values& values);

std::string_view to_text(Route route);  ///< "calcium and alginate"

}  // namespace gelwright::gel
