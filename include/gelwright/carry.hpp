// The run: what to take when, with how much water, what to pack and when to make it.
//
// Whole pieces only. What spoils is never planned past the time it may be warm, and never more is
// drunk than is sweated. Nothing here promises a benefit, and a dietitian or doctor comes first.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "gelwright/evaluate.hpp"
#include "gelwright/flag.hpp"
#include "gelwright/keeping.hpp"

namespace gelwright {

/// Both ends of what an amount may be; equal where it is known.
struct CarryRange {
  double low = 0;
  double high = 0;
};

/// What is eaten or drunk of something, from whichever pieces.
struct CarryAmounts {
  double carbohydrate_g = 0;
  CarryRange glucose_g;   ///< glucose units of the carbohydrate; labels may not name their sugars
  CarryRange fructose_g;  ///< fructose units, likewise
  double sodium_mg = 0;   ///< what is known of
  bool sodium_at_least = false;
  double potassium_mg = 0;  ///< what is known of
  bool potassium_at_least = false;
  double caffeine_mg = 0;
  double gum_g = 0;
  double fluid_ml = 0;  ///< water in it, and water drunk with it; 1 g counts as 1 mL

  CarryAmounts& operator+=(const CarryAmounts& other);
};
CarryAmounts operator*(CarryAmounts amounts, double factor);

enum class CarryKind { pouch, bottle, bought };

/// One whole piece of something that can be carried.
struct CarryItem {
  std::string name;
  std::string document;  ///< the recipe's file; empty for what is bought
  CarryKind kind = CarryKind::bought;
  double mass_g = 0;                  ///< without its wrapping
  CarryAmounts holds;                 ///< its fluid is the water in it
  std::optional<Keeping> keeping;     ///< absent for what is bought: its pack says
  double making_hours = 0;            ///< from the first act to the last, rests counted
  double batch_servings = 0;          ///< as its recipe makes them; 0 for what is bought
  std::optional<std::size_t> pieces;  ///< how many to take; absent: as many as the run asks for
};

/// A serving of a recipe as one piece. The evaluation must hold flags and batch.
CarryItem carry_item(const Inputs& inputs, const Evaluation& evaluation);

/// `mass_g` of a bought thing as one piece. Where its label does not state its sugars, anything up
/// to half of its carbohydrate may be fructose, as in table sugar.
CarryItem carry_item(const Ingredient& bought, double mass_g, bool sugars_stated = true);

/// What the person says of the run.
struct CarryWish {
  double hours = 0;                          ///< how long it lasts
  double carbohydrate_g_per_hour = 0;        ///< wanted
  std::optional<double> used_to_g_per_hour;  ///< what the stomach has been trained to
  std::optional<double> sweat_l_per_hour;    ///< the person's own, weighed before and after
  std::optional<double> strength_percent;    ///< g carbohydrate in 100 g of all that goes down
  double warm_before_hours = 0;              ///< out of the cold before the start
  double cold_hours = 0;                     ///< kept at fridge temperature so far into the run
  std::optional<double> air_c;               ///< degC; on a hot day the time warm is shorter
};

/// One whole piece in the plan.
struct CarryPiece {
  std::size_t item = 0;         ///< in CarryPlan::items
  std::size_t number = 1;       ///< of its kind, from 1
  std::vector<double> minutes;  ///< from the start; an equal part of it is taken at each
  double water_ml = 0;          ///< plain water to drink with all of it
  double strength_percent = 0;  ///< g carbohydrate in 100 g of it and that water
  double warm_hours = 0;        ///< out of the cold when its last part is eaten
  std::optional<double> warm_limit_hours = {};  ///< absent: nothing is known of it
};

/// What is taken within a stretch of the run.
struct CarryStretch {
  double from_hours = 0;
  double to_hours = 0;
  CarryAmounts taken;
};

/// Something a careful friend would point out about the plan.
struct CarryFinding {
  std::string name;  ///< stable, for scripts: "glucose-per-hour"
  Level level = Level::note;
  std::string message;
  std::string remedy;       ///< may be empty
  std::string_view source;  ///< a Source::id
};

struct CarryPlan {
  CarryWish wish;
  std::vector<CarryItem> items;
  std::vector<std::size_t> pieces_of;  ///< of each item, planned
  std::vector<CarryPiece> pieces;      ///< in the order they are begun
  std::vector<CarryStretch> hours;     ///< hour by hour; the last may be shorter
  CarryStretch whole;
  double g_per_hour = 0;         ///< carbohydrate, while there is something to eat
  double eating_hours = 0;       ///< how long there is
  double packed_g = 0;           ///< all pieces, without wrapping
  double water_ml = 0;           ///< all plain water
  double missing_g = 0;          ///< carbohydrate that may not be taken: it would be warm too long
  double cold_hours_needed = 0;  ///< kept cold so far into the run nothing would be missing
  std::vector<double> ramp_g_per_hour;  ///< long runs before this one, a step each
  std::vector<CarryFinding> findings;
};

/// Plans it. Throws InputError for a wish out of range, with `where` the name of the field; for no
/// item at all; and for one without carbohydrate and without a number of pieces.
CarryPlan carry(std::vector<CarryItem> items, const CarryWish& wish);

/// "1:45": hours and minutes of the run.
std::string run_clock(double minutes);

/// One published range to hold the plan against.
struct CarryReference {
  std::string_view what;  ///< "fluid"
  std::optional<double> low;
  double high = 0;
  std::string_view unit;    ///< "L/h"
  std::string_view source;  ///< a Source::id
};

/// Those that concern a run that long.
std::vector<CarryReference> carry_references(double hours);

/// The published range of carbohydrate per hour for a run that long: at most, g/h.
double carbohydrate_range_g_per_hour(double hours);

/// Published ranges, and what the plan takes for itself.
std::span<const Datum> carry_data();

}  // namespace gelwright
