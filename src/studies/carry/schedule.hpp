// Which piece when: whole pieces in the order they spoil. Private.
#pragma once

#include "gelwright/carry.hpp"

namespace gelwright::detail {

struct Schedule {
  std::vector<CarryPiece> pieces;  ///< their water not yet worked out
  std::vector<std::size_t> pieces_of;
  double carbohydrate_g = 0;
  double missing_g = 0;         ///< wanted, and not to be had without anything warm for too long
  double g_per_hour = 0;        ///< the pace the pieces are spread by
  bool less_than_half = false;  ///< a whole piece is more than twice of what the run asks for
};

/// How long out of the cold at this time of the run, h.
double warm_hours(const CarryWish& wish, double hours);

/// How long it may be, on a day like this; absent where nothing is known of it.
std::optional<double> warm_limit_hours(const CarryItem& item, const CarryWish& wish);

/// Spreads pieces over the run. With `keep_limits` false the time warm is counted, not kept.
Schedule schedule(const std::vector<CarryItem>& items, const CarryWish& wish, bool keep_limits);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
