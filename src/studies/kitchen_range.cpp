#include "studies/kitchen_range.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "gelwright/error.hpp"
#include "gelwright/formula.hpp"

namespace gelwright::detail {

KitchenRange kitchen_range(const KnobOf& which, const Inputs& inputs) {
  constexpr double least_share = 0.01;  // of the serving: from nothing to here at least
  const double now = amount_of(which, inputs);
  const double some = least_share * formulate(inputs).total_g;
  const KnobInfo& info = info_of(which.knob);
  switch (info.turns) {
    case KnobTurns::acid:
    case KnobTurns::calcium_salt:
      return {0, std::max(3 * now, some)};
    case KnobTurns::water:
      return {std::max(info.least, now / 4), std::min(info.most, 4 * now)};
    case KnobTurns::solid:
      return {now / 4, std::max(3 * now, some)};
    case KnobTurns::tap_ion:
    case KnobTurns::tap_share:
      break;
  }
  throw InputError("", {{"turn", fmt::format("{} is not dosed", info.label),
                         "turn acid_g, calcium_salt_g, water_g or mass_g of a gum"}});
}

}  // namespace gelwright::detail
