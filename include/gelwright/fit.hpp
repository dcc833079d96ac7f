// Bench readings back in: what a bought mix really holds, and what chance the gel
// model gave to the textures that were seen.
//
// Finds one effective weak acid of the mix (sites per gram and one pKa, part of them sold as a
// salt) by weighted least squares on the pH of the cups. It stands for whatever the recipe's
// declared ingredients do not explain: gum not on the label, citrate, phosphate, juice. One pKa is
// an approximation, good in the range of pH the cups covered.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "gelwright/aim.hpp"
#include "gelwright/bench.hpp"
#include "gelwright/gel_chances.hpp"
#include "gelwright/inputs.hpp"
#include "gelwright/learned.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/source.hpp"

namespace gelwright {

struct FitOptions {
  /// Whose buffer is sought. Empty: the recipe's one bought mix; without any, all solids together
  /// are taken as one mix, a correction that holds for this recipe only.
  std::string ingredient = {};
  PhMethod method = PhMethod::meter;
  std::optional<double> ph_sd = {};  ///< standard uncertainty of a reading; absent: by the method
  std::optional<double> target_ph = {};  ///< absent: the recipe's own target, if it has one
  /// Strength of the acid stock the cups were dosed with, as the sheet was planned; 0 = weighed
  /// neat. Absent: the recipe's, else 10 %. It decides how much of the water was low in minerals.
  std::optional<double> stock_percent = {};
  std::optional<gel::Texture> target_texture = {};  ///< absent: the recipe's own, if any
  std::string read_on = {};  ///< the day of the readings, kept with what they taught
};

/// One number of the buffer, in the unit the field's name states.
struct FitParameter {
  double value = 0;
  double standard_error = 0;  ///< 0 where held; infinite where the readings do not say
  double half_width = 0;      ///< of the 95 % interval; likewise
  bool fitted = false;        ///< false: held at its default
  bool at_bound = false;      ///< the readings pull it against a physical bound
};

struct BufferFit {
  FitParameter carboxylate_mmol_per_g;  ///< sites, per g of the ingredient as weighed; 0 to 5
  FitParameter pka;                     ///< at I = 0; 2 to 7
  FitParameter neutralised_fraction;    ///< share of the sites sold as a salt; 0 to 1
  std::optional<double> correlation;    ///< of sites and pKa, where both were fitted
};

/// One pH reading beside the model.
struct FittedReading {
  std::size_t cup = 0;   ///< in Bench::cups
  bool diluted = false;  ///< read on 10 g gel in 10 g low-mineral water
  double read_ph = 7;
  double declared_ph = 7;  ///< computed from what the recipe declares, without any buffer
  double fitted_ph = 7;
  std::optional<double> studentised = {};  ///< residual (fitted - read) against the fit without it
  bool outlier = false;                    ///< fits worse than chance allows; it still counts
};

/// What the gel model gave to the textures read on one cup, before and after it learnt from all.
struct TextureScore {
  std::size_t cup = 0;  ///< in Bench::cups
  std::size_t readings = 0;
  gel::Chances chances;
  double chance_of_seen = 0;  ///< of all its readings together, 0 to 1
  gel::Chances chances_after;
  double chance_of_seen_after = 0;  ///< the cup itself counted among those learnt from
  double weight = 1;                ///< 0 to 1: how far it was taken as right, not a slip
  bool repeat = false;              ///< rather a slip than right: make it again
};

/// One shift of the gel model, over all the gums the mix may hold.
struct ShiftFound {
  double mean = 0;
  double sd = 0;
  double sd_before = 0;

  /// The cups left it as it was.
  bool untold() const;
};

struct FitLesson {
  /// To be kept with the mix, and used from then on. Its `mix` is empty where the gum does not come
  /// from the ingredient that was fitted: then it holds for these cups only.
  Learned learned;
  std::array<ShiftFound, learned_shift_count> shifts;  ///< strength, pH, calcium, viscosity
  bool converged = true;
  double mean_ln_chance_before = 0;  ///< of what was seen, a cup
  double mean_ln_chance_after = 0;
};

enum class FitWarningKind {
  few_readings,          ///< number: readings, limit: wanted
  pka_held,              ///< number: the pKa taken, limit: its sd
  parameters_lean,       ///< number: condition number; the buffer's numbers are good only together
  no_buffer,             ///< the declared ingredients explain the readings, or more than that
  buffer_at_limit,       ///< number: the bound reached, mmol/g
  outlier,               ///< number: studentised residual; `reading`
  scatter,               ///< number: scatter over stated sd, limit: what chance allows
  sheet_disagrees,       ///< number: the sheet's pH, limit: ours; `reading` is the cup
  target_outside_range,  ///< number: target, limit: nearest pH read
  all_solids,            ///< no bought mix: a correction for this recipe only
  buffer_replaced,       ///< the recipe already had a fitted buffer; it was left out
  no_gum,                ///< textures were read, but the recipe has no gum
  cups_alike,            ///< nothing differs between the cups that were read
  one_cup,               ///< a texture of one cup only
  cups_contradict,       ///< number: cups taken for slips, limit: cups read
  lesson_unsettled,      ///< the search for the shifts did not settle
  lesson_not_kept,       ///< most of the gum is not in the ingredient that was fitted
};
struct FitWarning {
  FitWarningKind kind = FitWarningKind::few_readings;
  double number = 0;
  double limit = 0;
  std::size_t reading = 0;  ///< in BenchFit::readings, or the cup where the kind says so
};

/// The acid that brings the calibrated recipe to the target.
struct FittedDose {
  double target_ph = 0;
  Dosed dosed;                         ///< g acid per serving
  std::optional<double> half_width_g;  ///< 95 %, from the readings; absent where not reached or
                                       ///< where the fit ended on a bound
  double low_g() const;                ///< never below 0
  double high_g() const;
};

struct BenchFit {
  std::string ingredient;  ///< whose buffer; empty = all solids together
  BufferFit buffer;
  /// For a study that varies the sites and takes the rest as exact: as uncertain a pH, on average
  /// over the readings, as the whole fit gives.
  double sd_for_spread_mmol_per_g = 0;
  double reading_sd = 0.05;       ///< as stated, pH
  double scatter_sd = 0.05;       ///< stated and found, pooled, pH
  double degrees_of_freedom = 0;  ///< of the pooled scatter
  double declared_rms_ph = 0;     ///< root mean square of (declared - read)
  double fitted_rms_ph = 0;       ///< root mean square of (fitted - read)
  std::vector<FittedReading> readings;
  std::vector<TextureScore> textures;  ///< of the cups with gum and a texture reading
  std::optional<FitLesson> lesson;     ///< where there are any
  std::vector<FitWarning> warnings;
  std::optional<FittedDose> dose;  ///< where there is a target and an acid
  /// The acid with the best chance of the wanted texture, with what was found in; where there is a
  /// wanted texture and an acid.
  std::optional<AimFound> aim;
};

/// Fits the buffer, then judges the gel model at the pH read on the gel (else the fitted one).
/// `recipe` may hold an earlier buffer of the same ingredient, which is left out first.
/// Throws InputError where recipe and sheet do not belong together or fewer than two pH readings
/// are there, NotConverged.
BenchFit fit_bench(const Recipe& recipe, const Bench& bench, const FitOptions& options = {});

/// The recipe with the fitted buffer and what the cups taught in, as the pipeline takes it. For all
/// solids together the sites are spread over every line by mass.
Recipe calibrated(const Recipe& recipe, const BenchFit& fit);

/// The finding in a sentence, without full stop.
std::string message_of(const FitWarning& warning, const BenchFit& fit, const Bench& bench);

/// Bounds, defaults and habits the fit rests on.
std::span<const Datum> fit_data();

}  // namespace gelwright
