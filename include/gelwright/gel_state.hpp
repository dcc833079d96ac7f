// What the gel model must know of a serving: how each gum went in, and what the water holds.
//
// Amounts are per water, not per serving, because binding sees activities. Nothing here allocates.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <string_view>
#include <vector>

#include "gelwright/gums.hpp"

namespace gelwright::gel {

/// How a dry gum was spread before the liquid reached it.
enum class Dispersed : std::uint8_t {
  mix,      ///< sold ready mixed with its sugars, shaken or stirred in
  sugar,    ///< blended with at least five times its mass of sugar first
  blender,  ///< anything that goes in under a turning blade
  dry,      ///< alone, onto still or stirred liquid
};

/// How the acid met the gum.
enum class Acid : std::uint8_t { none, poured, blade, slow };

/// How the calcium met the gum. Calcium of the tap, and drops under a blade, count as slow;
/// `fast` is a soluble salt at once; `blade` is a gel broken while calcium made it.
enum class Calcium : std::uint8_t { slow, fast, blade };

/// Whether a hot mix was left alone while it cooled.
enum class Cooled : std::uint8_t { still, stirred };

/// One addition of one gum.
struct Portion {
  Gum gum = Gum::alginate;
  double g_per_100_g_water = 0;  ///< active gum, of the water of the finished serving; 0 to 12
  double ca_met_mmol_per_kg =
      0;  ///< available calcium of the liquid it meets, before acid; 0 to 200
  double solids_met_percent = 0;  ///< of that liquid, as it dissolves; 0 to 78
  double ph_met = 7;              ///< of that liquid; 1 to 9
  double hours = 12;              ///< it has to dissolve; 0 or more
  Dispersed dispersed = Dispersed::sugar;
  double sequestered = 0;  ///< 0 to 1; 1 = at least 0.3 % citrate in soft water
  bool late = false;       ///< goes in after the acid and the calcium
};

/// Shares of the dissolved solids, 0 to 1. What they leave over adds no viscosity.
struct Sugars {
  double sucrose = 0;
  double glucose = 0;
  double fructose = 0;
  double polyol = 0;
  double maltodextrin = 0;
  double maltodextrin_de = 15;  ///< dextrose equivalent, above 0 to 30
};

inline constexpr std::size_t max_portions = 16;

/// A serving. mmol/kg is per kg of water.
struct State {
  std::array<Portion, max_portions> portion = {};  ///< in the order they go in
  std::size_t portions = 0;

  double ca_mmol_per_kg = 0;        ///< available, not held by citrate and the like; 0 to 200
  double ca_total_mmol_per_kg = 0;  ///< with what acid sets free; 0 to 200
  double ca_added_mmol_per_kg = 0;  ///< of the soluble salt that went in at once; 0 to 200
  double mg_mmol_per_kg = 0;
  double na_mmol_per_kg = 0;
  double k_mmol_per_kg = 0;
  double ionic_mmol_per_kg = 15;  ///< ionic strength
  double ph = 7;                  ///< 1 to 9
  double ph_sd = 0.1;             ///< standard uncertainty of `ph`

  double solids_percent = 0;  ///< dissolved solids, 0 to 78
  Sugars sugars;
  double eaten_c = 20;   ///< degC where it is eaten, 0 to 90
  double heated_c = 20;  ///< degC it reached
  double hours = 24;     ///< since acid, calcium or cooling began to set it

  Acid acid = Acid::none;
  Calcium calcium = Calcium::slow;
  Cooled cooled = Cooled::still;

  double guluronate = 0.5;                         ///< share F_G of the alginate
  double guluronate_sd = 0.1;                      ///< its standard uncertainty
  double esterification = 70;                      ///< of the HM pectin, %
  ViscosityGrade grade = ViscosityGrade::unknown;  ///< of the alginate
  double gum_lg_sd = 0.03;                         ///< log10, of all gum
  double ca_lg_sd = 0.05;                          ///< log10, of the available calcium
  double acid_demand_mmol = 0;                     ///< acid one serving takes up on its way to pH 3
};

/// Adds one more addition. False, and nothing changed, if there is no room.
bool add(State& state, const Portion& portion);

/// One number of a state that the model was not made for.
struct OutOfRange {
  std::string_view what;  ///< "available calcium", in words
  std::string_view unit;
  double value;
  double low;
  double high;
  std::size_t portion = std::numeric_limits<std::size_t>::max();  ///< which addition, if one
};

/// Everything outside the range the model was made for, or not a number; empty where all is well.
std::vector<OutOfRange> out_of_range(const State& state);

/// The dextrose equivalent that stands for a mixture of maltodextrins in `Sugars`. `share` need not
/// add to 1. 0 where there is none.
double mixed_dextrose_equivalent(const double* de, const double* share, std::size_t count);

}  // namespace gelwright::gel
