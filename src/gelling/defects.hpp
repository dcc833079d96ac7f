// What goes wrong: each defect as a chance, all sizes judgement.
#pragma once

#include "gelling/stages.hpp"
#include "gelwright/gel_chances.hpp"

namespace gelwright::gel::detail {

Defects defects_of(const Setup& setup, const Values& values, const Dissolved& dissolved,
                   const Routes& routes, double lg_modulus_pa);

}  // namespace gelwright::gel::detail
