// How a serving is made, as far as the gel that comes of it goes: what goes in after what, and how.
#pragma once

#include <span>
#include <vector>

#include "gelwright/gel_state.hpp"
#include "gelwright/recipe.hpp"

namespace gelwright {

/// How one solid goes in. Things of the same place meet the water together; a gum meets all that
/// has an earlier place.
struct GoesIn {
  int place = 0;  ///< smaller is earlier; the water is there from the start
  gel::Dispersed dispersed = gel::Dispersed::sugar;  ///< of the gum in it, if any
};

struct Making {
  std::vector<GoesIn> solids;  ///< of each of Recipe::solids
  int acid_place = 0;
  int calcium_place = 0;
  gel::Acid acid = gel::Acid::poured;         ///< where there is any; a lactone is always slow
  gel::Calcium calcium = gel::Calcium::slow;  ///< of the salt, where there is any
  gel::Cooled cooled = gel::Cooled::still;
  double heated_c = 0;  ///< degC, hottest the gum gets
  double hours = 0;     ///< between the last addition and eating
  double eaten_c = 0;   ///< degC

  /// Beyond what the recipe lists, the last place known.
  GoesIn of_solid(std::size_t line) const {
    return line < solids.size() ? solids[line] : (solids.empty() ? GoesIn{} : solids.back());
  }
};

/// What the recipe's process says, and what is taken where it says nothing.
Making making_of(const Recipe& recipe);

/// How cold and how warm it may be where it is eaten, degC.
struct EatenRange {
  double hill_c;
  double pocket_c;
};
EatenRange eaten_range();

/// What is taken where nobody says.
std::span<const Datum> making_data();

}  // namespace gelwright
