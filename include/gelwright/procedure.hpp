// How to make a batch: one list of acts in the order they are done, weighings first.
//
// Planned from the recipe's steps, the batch's weighings and what the gel model foretells: what
// sets while it stands is filled before it sets.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "gelwright/evaluate.hpp"

namespace gelwright {

/// One act of making.
enum class Doing : std::uint8_t {
  clean,        ///< hands, vessels, pouches
  check_scale,  ///< with a known weight, before a pinch: `piece` in BatchSpec::scales
  stock,        ///< makes a stock solution: `piece` in Batch::stocks
  weigh,        ///< `line` into `vessel`
  blend_dry,  ///< gum with sugar: what is in `vessel`, tipped into the bowl `into` if there is one
  dissolve,   ///< `vessel` into the water in `into`, until clear
  slur,       ///< the same of what does not dissolve
  put_in,     ///< `vessel` into `into`
  wait,       ///< for the gum to take up water
  heat,
  cool,
  rest,
  let_fizz,  ///< stands open before it is filled, where gas may come of it
  fill,
  read_ph,
  label,
  beside,  ///< taken with a serving, not in the batch
};

/// "weigh", "put_in", ...
std::string_view to_text(Doing doing);

/// One step of the list; what its act has no use for is left as it stands here.
struct ProcedureStep {
  Doing doing = Doing::clean;
  std::optional<std::size_t> line = {};  ///< weigh: in Batch::lines
  std::optional<std::size_t> vessel =
      {};  ///< in Batch::vessels: what is emptied, weighed into, blended
  std::optional<std::size_t> into = {};  ///< in Batch::vessels: what receives it
  std::optional<std::size_t> step = {};  ///< in Recipe::steps: where it comes from
  double temp_c = 0;                     ///< heat, cool, rest: degC
  double minutes = 0;                    ///< heat, put_in; 0: as long as it takes
  double hours = 0;                      ///< rest
  double grams = 0;                      ///< fill: into each pouch or bottle
  double count = 0;                      ///< fill: how many of them; beside: pieces
  std::size_t piece = 0;  ///< in Recipe::pre_dosed, Batch::stocks or BatchSpec::scales, by the act
};

struct Procedure {
  std::vector<ProcedureStep> steps;
  /// Hours after the acid at which it sets, where it sets while it stands; absent: never, or the
  /// moment acid or calcium meets it.
  std::optional<double> sets_after_hours;
  std::optional<double> sets_below_c;  ///< gellan, filled hot: sets as it cools below this, degC
  bool filled_early = false;  ///< filled before the rest the recipe puts first, for it may set
  /// Gum that makes a stiff paste of the water it meets, and that water, g; 0 where it does not.
  double crowded_gum_g = 0;
  double crowded_water_g = 0;
  double hours = 0;  ///< from the first act to the last, rests counted
};

/// Plans it. The evaluation must hold the batch of these inputs.
Procedure procedure_of(const Inputs& inputs, const Evaluation& evaluation);

/// What the plan takes for the time of an act.
std::span<const Datum> procedure_data();

}  // namespace gelwright
