// How a serving's amounts stand beside those of most pouches or drinks: where a slip of the pen
// meets the eye.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "gelwright/serving.hpp"
#include "gelwright/source.hpp"

namespace gelwright {

/// What differs from most of this form, a phrase each: "little acid for a pouch (0.5 to 2 g in 100
/// g of water is common)". Empty where nothing does. Wider than this, a flag is raised.
std::vector<std::string> beside_usual(const Serving& serving, const Inputs& inputs);

/// What is common; judgement.
std::span<const Datum> usual_data();

}  // namespace gelwright
