// What can be turned in a recipe: one table for the searches, the bench series, the readings and
// the what-if of the command line.
//
// A knob is turned on `Inputs` by a study that goes on from there, or stated in a `Recipe`, as if
// its author had written it so; then limits, label and doubts follow as well.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "gelwright/error.hpp"
#include "gelwright/inputs.hpp"

namespace gelwright {

/// In the unit the name states; doses, water and solids are for one serving.
enum class Knob {
  acid_g,                   ///< food acid
  calcium_salt_g,           ///< the recipe's calcium salt
  water_g,                  ///< water
  water_per_g_solids,       ///< g water for 1 g of solids
  water_fraction_of_total,  ///< g water in 1 g of everything
  tap_calcium_mg_per_l,     ///< calcium of the tap water; chloride or sodium keep the charge even
  alkalinity_meq_per_l,     ///< alkalinity of the tap water, likewise
  low_mineral_share,        ///< share of the tap water replaced by demineralised water
  mass_g,                   ///< one of the solids, which `KnobOf::solid` says
};

/// What a recipe must have before a knob of it can be turned.
enum class KnobNeeds { nothing, acid, calcium_salt, tap, solid };

/// Two knobs that turn the same thing in two ways cannot be turned together.
enum class KnobTurns { acid, calcium_salt, water, tap_ion, tap_share, solid };

struct KnobInfo {
  Knob knob;
  std::string_view name;     ///< as it is typed; `mass_g` is followed by ":" and the solid's name
  std::string_view unit;     ///< of its amount: "g", "mg/L"; empty for a plain share
  std::string_view label;    ///< what is turned, in words: "calcium in the water"
  std::string_view heading;  ///< of a narrow column: "Ca mg/L"
  bool per_serving;          ///< whether the amount is that of one serving
  double least;              ///< the bounds catch a slip of the unit; what a water phase
  double most;               ///< cannot hold is found when it is evaluated
  bool least_counts;         ///< whether `least` itself is allowed
  KnobNeeds needs;
  KnobTurns turns;
};

/// Every knob, in the order of the enumeration.
std::span<const KnobInfo> knobs();
const KnobInfo& info_of(Knob knob);

/// One knob of one recipe.
struct KnobOf {
  Knob knob = Knob::acid_g;
  std::size_t solid = 0;  ///< in Recipe::solids and Inputs::solids, for `mass_g`
};

/// "acid_g", "mass_g:fructose".
std::string name_of(const KnobOf& which, const Recipe& recipe);

/// Where the knob stands. A share of low-mineral water counts from the water as it is: 0.
double amount_of(const KnobOf& which, const Inputs& inputs);

/// Turns a knob the recipe has to `amount`. One kind of water amount replaces another.
void turn(Inputs& inputs, const KnobOf& which, double amount);

/// Whether the recipe has what the knob turns.
bool has_knob(const Recipe& recipe, const KnobOf& which);

/// Whether the amount is within the knob's bounds, and what they are, in words.
bool within_bounds(const KnobInfo& knob, double amount);
std::string bounds_text(const KnobInfo& knob);

/// Whether the two turn one thing in two ways.
bool clash(const KnobOf& a, const KnobOf& b);

/// The knob called `name`, or what is wrong: no such knob, or the recipe lacks what it turns.
struct FoundKnob {
  std::optional<KnobOf> knob;
  std::string what;    ///< wrong; empty where there is a knob
  std::string remedy;  ///< how to mend it
};
FoundKnob find_knob(std::string_view name, const Recipe& recipe);

/// One knob put to an amount.
struct KnobSetting {
  KnobOf which;
  double amount = 0;
};

/// Reads "acid_g=0.5", "tap_calcium_mg_per_l=60 mg/L": an amount in the knob's unit, which may
/// stand behind it. Throws InputError with everything wrong in all of them.
std::vector<KnobSetting> read_knob_settings(std::span<const std::string> texts,
                                            const Recipe& recipe);

/// The recipe as if it said so: a dose takes the place of a target, a water report is changed with
/// its charges kept even, and a pH read on the batch as it was written is left out. What was turned
/// is listed in `Recipe::turned`.
Recipe stated(const Recipe& recipe, std::span<const KnobSetting> settings);

}  // namespace gelwright
