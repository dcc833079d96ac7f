// How a serving is made, as far as the gel that comes of it goes: what goes in after what, and how.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "gelwright/gel_state.hpp"
#include "gelwright/recipe.hpp"

namespace gelwright {

/// How one solid, or a part of it, goes in. Things of the same place meet the water together; a gum
/// meets all that has an earlier place.
struct GoesIn {
  int place = 0;                                     ///< smaller is earlier
  gel::Dispersed dispersed = gel::Dispersed::sugar;  ///< of the gum in it, if any
  std::size_t line = 0;                              ///< which of Recipe::solids
  double share = 1;                                  ///< of all of that solid
  double hours = 0;                                  ///< rests from then on until it is eaten
  double heated_c = 0;                               ///< degC, hottest it gets
};

/// A part of the tap water.
struct WaterGoesIn {
  int place = 0;
  double share = 1;
};

struct Making {
  std::vector<GoesIn> solids;      ///< in the order of Recipe::solids, of one solid by place
  std::vector<WaterGoesIn> water;  ///< empty: all of it is there from the start
  int acid_place = 0;
  int calcium_place = 0;
  gel::Acid acid = gel::Acid::poured;         ///< where there is any; a lactone is always slow
  gel::Calcium calcium = gel::Calcium::slow;  ///< of the salt, where there is any
  gel::Cooled cooled = gel::Cooled::still;
  double heated_c = 0;    ///< degC, that all gums get which need heat; else the hottest any gets
  double hottest_c = 0;   ///< degC, hottest that anything gets
  double hours = 0;       ///< rests since the last of gum, acid, calcium and heat
  double acid_hours = 0;  ///< rests since the acid
  double eaten_c = 0;     ///< degC
  /// Stands open, until nothing fizzes any more, with all that goes in, before it is filled.
  bool gas_let_out = false;
};

/// What the recipe's steps say; the usual steps where it has none.
Making making_of(const Recipe& recipe);

/// Where in the usual order of work a gum goes in that is weighed by itself.
enum class GumGoesIn : std::uint8_t {
  first,      ///< in plain water
  with_bulk,  ///< with the sugars and mixes
  last,       ///< after them
};

/// What the usual order of work leaves open.
struct UsualWork {
  How gum = How::preblended;
  GumGoesIn gum_goes_in = GumGoesIn::first;
  How mix = How::stirred;
  How acid = How::poured;
  How calcium = How::slow;
  bool calcium_before_acid = false;   ///< a salt that waits for the acid
  std::optional<double> heated_to_c;  ///< once all gum is in; absent: not heated
  std::optional<double> rest_hours;   ///< between the last addition and filling
  double rest_at_c = 0;
};

/// What is taken of it where a recipe says nothing, by its form.
UsualWork usual_work(const Recipe& recipe);

/// The usual order of work: gum in plain water, then sugars and mixes, salts, acid, calcium.
std::vector<Step> usual_steps(const Recipe& recipe, const UsualWork& work);

/// Whether it matters how long it rests: gum dissolves and sets in that time, a lactone turns sour.
bool rest_matters(const Recipe& recipe);

/// Any gum, declared or not.
bool holds_gum(const Ingredient& ingredient);

/// A calcium salt that gives its calcium up only as acid reaches it.
bool waits_for_acid(const Ingredient& calcium_salt);

/// Where it is eaten if nobody says, and how cold and how warm that may be, degC.
struct EatenRange {
  double usual_c;
  double hill_c;
  double pocket_c;
};
EatenRange eaten_range();

/// What is not heated, degC.
double room_c();

/// What is taken where nobody says.
std::span<const Datum> making_data();

}  // namespace gelwright
