// Whether it comes out of a pouch: what a hand makes of its thickness.
#pragma once

#include <span>
#include <string_view>

#include "gelwright/gel_forecast.hpp"
#include "gelwright/source.hpp"

namespace gelwright {

/// In words, by the mean thickness and, of what sets firm, by how it breaks: "with a squeeze".
/// Empty where nothing is foretold.
std::string_view through_a_nozzle(const GelForecast& gel);

/// The thicknesses it goes by.
std::span<const Datum> nozzle_data();

}  // namespace gelwright
