// How long a batch may be kept cold and carried warm. Never longer than printed here; local
// food-safety codes and the label come first.
#pragma once

#include <string>

#include "gelwright/flag.hpp"

namespace gelwright {

/// What decided the hours.
enum class KeepingBy {
  sour_by_meter,     ///< a meter read it sour enough, its error counted
  sour_by_estimate,  ///< worked out or read off a strip: sour, but that is no proof
  table_asks,        ///< sour enough, but the published table for its pH and wetness is not content
  perhaps_not_sour,  ///< it may be too little sour to count as an acidified food
};

/// From the making on, rest counted.
struct Keeping {
  double chilled_c = 0;           ///< degC, at or under
  double chilled_hours = 0;       ///< at that
  double warm_hours = 0;          ///< carried, from the cold until it is eaten
  double hot_day_c = 0;           ///< degC, above it the next line counts
  double hot_day_warm_hours = 0;  ///< carried on a hot day
  KeepingBy decided_by = KeepingBy::perhaps_not_sour;
  double decided_ph = 0;  ///< the pH that decided: the limit that is kept, or may not be
};

/// Judged at the least sour end of what the pH may be.
Keeping keeping_of(const Serving& serving, const Inputs& inputs,
                   FlagThresholds thresholds = flag_thresholds());

/// "the pH may be over 4.6": what decided, for a sentence that begins with the hours.
std::string why(const Keeping& keeping);

}  // namespace gelwright
