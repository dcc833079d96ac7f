// How far to the next texture or defect, by each knob. Private.
#pragma once

#include <vector>

#include "gelwright/advise.hpp"

namespace gelwright::detail {

std::vector<Edge> edges_of(const Inputs& inputs, const Evaluation& evaluation);

}  // namespace gelwright::detail
