// Changing a recipe document in place.
#pragma once

#include <string>
#include <string_view>

#include "gelwright/dose.hpp"
#include "gelwright/fit.hpp"

namespace gelwright {

/// The recipe document with the answer written in: the same text otherwise, keys in their order.
/// Throws InputError if it is not JSON.
std::string with_answer(std::string_view json_text, const std::string& document,
                        const DoseAnswer& answer, const DoseQuestion& question);

/// The recipe document with `define/<ingredient>/buffer` set, all else in its order. Throws
/// InputError where the recipe does not define the ingredient, or the fit ended on a bound.
std::string calibrated_document(std::string_view json_text, const std::string& document,
                                const BenchFit& fit);

}  // namespace gelwright
