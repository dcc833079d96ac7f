// From G' and thickness to the chance of each texture.
#pragma once

#include "gelwright/gel_chances.hpp"

namespace gelwright::gel::detail {

/// `lumps`: chance that what does not set holds bits.
Chances chances_of(const MeanSd& lg_modulus, const MeanSd& lg_thickness, double sheared_share,
                   double lumps);

}  // namespace gelwright::gel::detail
