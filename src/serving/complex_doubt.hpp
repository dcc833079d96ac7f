// What citrate's weak complexes leave in doubt: the pH, since its pairs with sodium and potassium are
// left out of the charge balance, and the free calcium. Private.
#pragma once

#include <span>

#include "gelwright/equilibrium.hpp"
#include "gelwright/source.hpp"

namespace gelwright::detail {

/// 95 % half-widths.
struct ComplexDoubt {
  double ph = 0;                     ///< what the pairs would take off the pH, their own doubt counted
  double free_calcium_decades = 0;  ///< of log10 of the free calcium
};

/// Of a solved water phase. Next to nothing below pH 4, where little citrate is bare.
ComplexDoubt complex_doubt(const Equilibrium& solved);

/// The width of a stability constant.
std::span<const Datum> complex_doubt_data();

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
