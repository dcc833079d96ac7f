// A bench series: small cups that differ in one or two inputs, what to weigh for each, and what the
// model expects of it.
//
// Everything the cups share is made once as a base; what varies is added cup by cup. A varied acid
// goes in as a stock solution in low-mineral water, and low-mineral water levels the rest, so that
// every cup holds the same amount of it. Where the water itself varies, the base is made at the
// lowest water and topped up with the recipe's own. Where the tap water's minerals vary, the base
// is the dry part and each cup gets its own water. The predictions are for the cups as weighed:
// only the tap water in them brings minerals.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "gelwright/evaluate.hpp"
#include "gelwright/knob.hpp"

namespace gelwright {

/// One varied input: `from`, `from + step`, ... up to `to` at most.
struct LadderAxis {
  KnobOf knob;
  std::string name;  ///< with its unit, as a column: "acid_g", "mass_g:fructose"
  double from = 0;
  double step = 1;
  std::size_t count = 1;
  std::vector<double> values = {};  ///< in place of even steps; `count` of them, rising
  int decimals = 0;                 ///< as many as `from` and `step` were written with

  double value(std::size_t index) const;
};

/// The most cells a grid may have, and the most cups a bench sheet may list.
inline constexpr std::size_t most_ladder_cells = 10'000'000;
inline constexpr std::size_t most_ladder_cups = 200;

/// Reads "acid_g=0.1:0.6:0.1" (from, to, step). Throws InputError with everything wrong in all of
/// them: an unknown knob, a step of 0, a reversed range, an input the recipe does not have, too
/// many cells.
std::vector<LadderAxis> read_ladder_axes(std::span<const std::string> texts, const Inputs& inputs);

struct LadderOptions {
  double cup_g = 50;  ///< base in each cup; of a dry base, together with the least water
  /// Strength of the acid stock; 0 = weigh the acid neat. Absent: the recipe's, else 10 %.
  std::optional<double> stock_percent = {};
  bool shuffle = false;  ///< cups in random order, against drift and wishful reading
  std::uint64_t seed = 1;
};

/// A planned series. All amounts are in g for one serving unless the name says otherwise.
struct Ladder {
  Inputs inputs;  ///< the recipe's, with the dose from stock where the acid varies
  std::vector<LadderAxis> axes;
  std::size_t cells = 1;
  LadderOptions options;
  std::vector<std::size_t> order;  ///< cell of each cup where shuffled; empty = as counted
  bool acid_varies = false;
  bool calcium_varies = false;
  bool dry_base = false;     ///< the tap water differs from cup to cup
  double low_mineral_g = 0;  ///< water of the stock and low-mineral water, the same in each cup
  double base_tap_g = 0;     ///< tap water in the base
  double base_g = 0;         ///< the whole base
  double servings_per_cup = 0;
};

/// Plans the series. Last axis fastest. Throws InputError if a stock would bring more water than
/// the driest cup has, or if there would be nothing in the base.
Ladder plan_ladder(const Inputs& inputs, std::vector<LadderAxis> axes,
                   const LadderOptions& options = {});

/// Values of the axes in a cup, in the order of `Ladder::axes`. `cup` counts from 0.
double axis_value(const Ladder& ladder, std::size_t cup, std::size_t axis);

/// The cup as the pipeline sees it, per serving.
Inputs cup_inputs(const Ladder& ladder, std::size_t cup);

/// What to weigh into one cup, g in the cup.
struct CupWeights {
  double base_g = 0;
  double acid_stock_g = 0;  ///< or acid, where it is weighed neat
  double calcium_salt_g = 0;
  double low_mineral_g = 0;      ///< low-mineral water that levels the stock's
  double tap_g = 0;              ///< tap water on top of the base's
  std::vector<double> solids_g;  ///< varied solids, in the order of their axes
  double total_g = 0;
};
CupWeights cup_weights(const Ladder& ladder, std::size_t cup);

/// What to weigh for `mass_g` of the base.
struct BaseWeights {
  std::vector<double> solids_g;  ///< in the order of Inputs::solids; 0 for a varied one
  double tap_g = 0;
  double acid_g = 0;        ///< where it does not vary; likewise the calcium salt
  double acid_stock_g = 0;  ///< in its place where the recipe doses it from stock
  double calcium_salt_g = 0;
  double calcium_stock_g = 0;
};
BaseWeights base_weights(const Ladder& ladder, double mass_g);

/// What the model expects of one cup.
struct CupPrediction {
  std::size_t cup = 0;        ///< counts from 0
  double acid_g = 0;          ///< in one serving, varied or not
  double ph = 7;              ///< of the gel itself
  double ph_uncertainty = 0;  ///< 95 % half-width, an estimate
  bool any_gum = false;
  /// Of each texture before it is eaten; absent outside the gel model's range.
  std::optional<gel::Chances> textures;
};

/// Throws InputError or NotConverged, naming the cup.
CupPrediction predict_cup(const Ladder& ladder, std::size_t cup);

/// Predicts every cup of a grid on `threads` threads (0 = all). `write` gets some hundred cups in a
/// row, on any thread; what it makes of them goes to `sink` in order, on this one, so the whole is
/// the same for any number of threads and memory does not grow with the cells. Throws as
/// `predict_cup`.
void write_grid(const Ladder& ladder, unsigned threads,
                const std::function<std::string(std::span<const CupPrediction>)>& write,
                const std::function<void(std::string_view)>& sink);

/// pH the model expects of a sample stirred into its own mass of low-mineral water, as a thick gel
/// has to be measured.
double diluted_ph(const Inputs& inputs);

}  // namespace gelwright
