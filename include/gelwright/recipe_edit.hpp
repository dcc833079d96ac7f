// Writing what was found into a recipe document. Only the bytes of the values that change are
// touched: order of keys, notes, layout and spelling of numbers elsewhere stay as they were.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "gelwright/dose.hpp"
#include "gelwright/fit.hpp"
#include "gelwright/read.hpp"

namespace gelwright {

/// The recipe document with the answer to a dose question as its acid, calcium salt, water or
/// servings, in place of the target or amount that stood there. Throws InputError where the strict
/// reader refuses the document before or after.
std::string with_answer(std::string_view json_text, const std::string& document,
                        const DoseAnswer& answer, const DoseQuestion& question,
                        const std::optional<KitchenDocument>& kitchen = std::nullopt);

/// The recipe document with one amount put to a number: acid, calcium salt, water or a solid, in
/// place of the target or amount that stood there. Throws likewise, and for anything else.
std::string with_amount(std::string_view json_text, const std::string& document,
                        const KnobOf& which, double amount,
                        const std::optional<KitchenDocument>& kitchen = std::nullopt);

/// The recipe document with the fitted buffer of the mix at `define/<ingredient>/buffer`, what the
/// cups taught beside it as `learned`, and the dose that was found where the recipe states no
/// target of its own. `recipe`
/// is what was read from it. Throws InputError where the document does not describe the ingredient
/// itself, and where the readings gave no buffer.
std::string calibrated_recipe(std::string_view json_text, const Recipe& recipe,
                              const BenchFit& fit);
/// The recipe with the next dose alone, for a mix its kitchen describes; as it was where the fit
/// found none.
std::string dosed_recipe(std::string_view json_text, const Recipe& recipe, const BenchFit& fit);
/// The kitchen `recipe` was read with, likewise, so that every recipe of the mix has the buffer.
std::string calibrated_kitchen(const KitchenDocument& kitchen, const Recipe& recipe,
                               const BenchFit& fit);

/// The recipe with all it takes from its kitchen in it, which needs none any more and is worked
/// out alike to the last digit. Notes, order and layout of what it says itself stay. Throws
/// InputError where the strict reader refuses recipe or kitchen.
std::string flattened_recipe(std::string_view json_text, const std::string& document,
                             const std::optional<KitchenDocument>& kitchen);

}  // namespace gelwright
