// How sure the gel model is: means and uncertainties, the chance of each texture and each defect.
//
// Chances, not a word: most servings straddle two textures. Nothing here allocates.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "gelwright/gel_model.hpp"

namespace gelwright::gel {

/// What the eater meets, softest first; `bits` and `flowing` stand beside that order.
enum class Texture : std::uint8_t {
  pours,    ///< runs like juice or cream
  thick,    ///< syrup, honey: levels itself
  bits,     ///< lumps in a liquid
  flowing,  ///< smooth gel like stirred yoghurt
  soft,     ///< keeps a spoon groove
  firm,     ///< turned out, stands
  hard,     ///< resists the spoon
};
inline constexpr std::size_t texture_count = 7;

/// Chance of each texture, 0 to 1, together 1.
struct Chances {
  std::array<double, texture_count> chance = {};

  double operator[](Texture texture) const { return chance[static_cast<std::size_t>(texture)]; }
  double& operator[](Texture texture) { return chance[static_cast<std::size_t>(texture)]; }
};

/// The likeliest texture; of equals, the softer.
Texture likeliest(const Chances& chances);

/// The likeliest of the others.
Texture second(const Chances& chances);

/// A set gel, broken or not: flowing, soft, firm or hard.
double chance_set(const Chances& chances);

/// Chance of each defect, 0 to 1. All sizes here are judgement.
struct Defects {
  double lumps = 0;    ///< clumps, undissolved pieces, curds, calcium skins
  double weeps = 0;    ///< a ring of liquid; of LM pectin, grainy
  double specks = 0;   ///< gum that had no time to dissolve
  double brittle = 0;  ///< gellan that cracks
  double grit = 0;     ///< acid alginate
};

/// Mean and standard uncertainty.
struct MeanSd {
  double mean = 0;
  double sd = 0;
};

/// One value of the parameter that reaches furthest.
struct Node {
  double weight = 0;
  MeanSd lg_modulus;
  MeanSd lg_thickness;
  double sheared_share = 0;
};

/// Every parameter and input varied by one standard uncertainty, log10 as in Gel.
struct Doubt {
  MeanSd lg_modulus;
  MeanSd lg_viscosity;
  MeanSd lg_yield;
  MeanSd lg_thickness;
  Id furthest = Id::res;           ///< moves G' or the thickness most
  std::array<Node, 3> nodes = {};  ///< the same with that one not taken as a straight line
};

/// What a person's own cups have taught about one mix.
struct Learnt {
  std::array<double, 4> mean = {};  ///< u.k, u.ph, u.ca, u.v
  std::array<std::array<double, 4>, 4> covariance = {};
};

/// The centre of every parameter, shifted by what cups have taught; null: nothing.
Values learnt_values(const Learnt* learnt);

/// Whether what cups taught stands in for this value: its own doubt then no longer counts.
bool stands_in_for(const Learnt* learnt, Id id);

/// The whole forecast of one serving.
struct Outlook {
  Gel centre;
  Doubt doubt;
  Defects defects;
  Chances chances;
};

/// The forecast of a serving of known gum.
Outlook outlook_of(const State& state, const Learnt* learnt = nullptr);

/// The same with the parameters at `values` in place of their centre.
Outlook outlook_of(const State& state, const Values& values, const Learnt* learnt = nullptr);

/// The forecast at exactly these parameters: no doubt but the width of the words. Some fifty times
/// cheaper.
Outlook outlook_at(const State& state, const Values& values = central_values());

/// The chance of each texture at exactly these parameters, likewise.
Chances chances_at(const State& state, const Values& values);

/// What goes wrong at exactly these parameters.
Defects defects_at(const State& state, const Values& values);

/// The standard uncertainty of one value for this serving; 0 for the shifts.
double sd_of(Id id, const State& state);

/// Whether a value can move this serving's forecast at all.
bool matters(Id id, const State& state);

/// The weakest grade among the parameters this serving needs.
Grade grade_of(const State& state, const Learnt* learnt = nullptr);

std::string_view to_text(Texture texture);  ///< "pours", "thick", "bits in a liquid", ...

}  // namespace gelwright::gel
