// Writing what was found into a recipe document. Only the bytes of the values that change are
// touched: order of keys, notes, layout and spelling of numbers elsewhere stay as they were.
#pragma once

#include <string>
#include <string_view>

#include "gelwright/dose.hpp"
#include "gelwright/fit.hpp"

namespace gelwright {

/// The recipe document with the answer to a dose question as its acid, calcium salt, water or
/// servings, in place of the target or amount that stood there. Throws InputError where the strict
/// reader refuses the document before or after.
std::string with_answer(std::string_view json_text, const std::string& document,
                        const DoseAnswer& answer, const DoseQuestion& question);

/// The recipe document with the fitted buffer of the mix at `define/<ingredient>/buffer`. Throws
/// InputError where the strict reader refuses the document, where it does not define the
/// ingredient, and where the readings gave no buffer.
std::string calibrated_document(std::string_view json_text, const std::string& document,
                                const BenchFit& fit);

}  // namespace gelwright
