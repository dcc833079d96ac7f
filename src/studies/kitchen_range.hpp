// How far a search turns what a kitchen doses. Private.
#pragma once

#include "gelwright/inputs.hpp"
#include "gelwright/knob.hpp"

namespace gelwright::detail {

struct KitchenRange {
  double least = 0;
  double most = 0;
};

/// In the knob's own unit, around where it stands. Throws InputError for what is not dosed: a tap
/// water.
KitchenRange kitchen_range(const KnobOf& which, const Inputs& inputs);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
