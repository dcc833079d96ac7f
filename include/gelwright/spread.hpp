// How far the result may be from the numbers on the sheet: Monte Carlo over everything that is not
// known exactly.
//
// Every uncertain input is drawn from its own distribution, independently of the others, and the
// whole pipeline is run on the draw (JCGM 101:2008). Widths come from the recipe where it states
// them, from the scales, from the literature, or are judgement, and each one says which. The masses
// are those the scales will show, so the point result is that of the batch as weighed. What all
// draws share is left out: the rounding of a target to the display is not chance, and prices,
// losses and the process are taken as stated.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "gelwright/evaluate.hpp"

namespace gelwright {

/// What could be improved together: one better scale, one measurement, one question to the seller.
enum class DoubtKind {
  weighing,     ///< the scales, the strength of a stock, what the recipe says of its doses
  ingredients,  ///< moisture, purity, label, dextrose equivalent
  tap_water,    ///< the water report
  gum,          ///< composition and undeclared share of the gums
  buffer,       ///< a bought mix's fitted buffer
  ph_model,     ///< what the equilibrium model itself may be off by, effective pKa included
  gel_model,    ///< the parameters of the gel model
};
inline constexpr std::size_t doubt_kind_count = 7;

/// "weighing and dosing", ...
std::string_view to_text(DoubtKind kind);
/// What would remove it: "a perfect scale", "a pH meter", ...
std::string_view remedy_of(DoubtKind kind);

/// The results a spread is reported for.
enum class SpreadOutput {
  ph,
  soluble_solids_percent,
  calcium_ratio_r2,
  cost_per_g_carbohydrate,
  carbohydrate_g,    ///< per serving
  log10_modulus_pa,  ///< how stiff it sets; only where a gum in it can
};
inline constexpr std::size_t spread_output_count = 6;

/// One uncertain input.
struct Doubt {
  std::string what;  ///< "moisture of fructose"
  DoubtKind kind = DoubtKind::weighing;
  double value = 0;  ///< in `unit`, where it is centred
  double width = 0;  ///< standard deviation of the normal distribution, or the half-width
  bool rectangular = false;
  std::string unit;
  std::string from;  ///< where the width comes from, in words, with a Source::id where it has one
  /// Squared rank correlation with each result, over the sum of all inputs'; 0 to 1.
  std::array<double, spread_output_count> share{};
};

/// Median and 95 % coverage interval, with the sampling error of the run.
struct SpreadInterval {
  double point = 0;  ///< without any doubt
  double median = 0;
  double low = 0;   ///< 2.5 %
  double high = 0;  ///< 97.5 %
  double sd = 0;
  double low_error = 0;   ///< half of the 95 % interval of `low` from one run to the next
  double high_error = 0;  ///< likewise
};

/// What became of the draws, each 0 to 1. Within a draw a texture keeps the width of its words.
struct GelChances {
  gel::Chances eaten;
  gel::Defects defects;
  gel::Stomach stomach;
  double foretold = 0;  ///< share of the draws inside the range of the gel model
};

struct FlagChance {
  FlagId id{};
  double share = 0;        ///< of the draws
  double stop_share = 0;   ///< of the draws, at level stop
  bool from_plan = false;  ///< decided once, by the recipe and the weighing plan: not drawn
};

/// What the intervals of pH and stiffness would be without one kind of doubt.
struct Improvement {
  DoubtKind kind = DoubtKind::weighing;
  double half_width_before = 0;  ///< half of the 95 % interval of pH, same draws
  double half_width_after = 0;
  double lg_modulus_before = 0;  ///< likewise of log10 G' in Pa; 0 where nothing sets
  double lg_modulus_after = 0;
};

struct SpreadOptions {
  std::size_t draws = 100'000;  ///< at least 100
  std::uint64_t seed = 1;
  unsigned threads = 0;  ///< 0 = all there are; the result does not depend on it
  double widths = 1;     ///< multiplies every width; 0 gives the point result in every draw
  std::function<void(double)> progress = {};  ///< called with the share done, on this thread
};

struct SpreadResult {
  std::size_t draws = 0;
  std::uint64_t seed = 0;
  Evaluation point;  ///< the batch as weighed, without any doubt
  std::vector<Doubt> doubts;
  std::array<std::optional<SpreadInterval>, spread_output_count>
      intervals;                          ///< no cost, no interval
  std::optional<GelChances> gel;          ///< of the draws; absent without gum
  std::vector<FlagChance> flags;          ///< most likely first
  std::vector<Improvement> improvements;  ///< largest gain first
  std::size_t improvement_draws = 0;      ///< the draws those were found with
  bool weighing_known = true;             ///< false: no scales in the recipe
};

/// Runs the study. Throws InputError for options out of range, and what `evaluate` throws.
SpreadResult spread(const Inputs& inputs, const SpreadOptions& options = {});

/// The inputs as the scales will show them: every mass at the readability of its scale.
Inputs as_weighed(const Inputs& inputs, const Batch& batch);

/// Widths that neither the recipe nor another table gives.
std::span<const Datum> spread_data();

}  // namespace gelwright
