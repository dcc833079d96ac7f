// The sections of the batch sheet, one function each. Private.
#pragma once

#include <string>

#include "base/rounding.hpp"
#include "gelwright/sheet.hpp"

namespace gelwright::detail {

/// The first screen: what to expect and how to keep it; every STOP and the first cares; how to make
/// it; the cost in one line.
Section expect_section(const Inputs& inputs, const Evaluation& evaluation);
/// Cares fill the first screen up to this many warnings.
inline constexpr std::size_t most_warnings = 5;
/// `most`: how many warnings there are room for; a STOP always has room.
Section warnings_section(const Inputs& inputs, const Evaluation& evaluation, const Advice& advice,
                         std::size_t most = most_warnings);
/// How to make it, one numbered list.
Section procedure_section(const Inputs& inputs, const Evaluation& evaluation);
/// Its exact masses, their errors, and what each step is for.
Section reasons_section(const Inputs& inputs, const Evaluation& evaluation);
Section cost_line_section(const Inputs& inputs, const Evaluation& evaluation);
/// What to write on each pouch or bottle: on the page only.
Section label_section(const Inputs& inputs, const Evaluation& evaluation);

/// What rounding the water did.
Section rounding_section(const Evaluation& exact, const Evaluation& rounded);
Section serving_section(const Inputs& inputs, const Evaluation& evaluation);
Section batch_section(const Inputs& inputs, const Evaluation& evaluation);
Section water_section(const Inputs& inputs, const Evaluation& evaluation);
Section chemistry_section(const Inputs& inputs, const Evaluation& evaluation);
Section properties_section(const Evaluation& evaluation);
Section set_section(const Inputs& inputs, const Evaluation& evaluation);
Section edges_section(const Inputs& inputs, const Evaluation& evaluation, const Advice& advice);
Section cost_section(const Inputs& inputs, const Evaluation& evaluation);
/// What the recipe left to its kitchen.
Section kitchen_section(const KitchenUse& use);
Section flags_section(const Inputs& inputs, const Evaluation& evaluation, const Advice& advice);

/// What to do about a flag of the evaluation: in grams of this batch where an amount was found.
std::string remedy_with_amount(std::size_t flag, const Inputs& inputs, const Evaluation& evaluation,
                               const Advice& advice);

/// The same for the first screen: grams in the batch alone, and no names of flags.
std::string remedy_in_short(std::size_t flag, const Inputs& inputs, const Evaluation& evaluation,
                            const Advice& advice);

/// "3.7 g less acid in the batch (0.36 g in each serving)", "30 mg/L more calcium in the water".
std::string change_words(const Change& change, const Inputs& inputs, const Batch& batch);

/// "7 cups of fell mix: 0.3 g acid fell, 0.4 g acid held."
std::string seen_in_cups(const Learned& learned);

/// Decimals of a scale's display.
int display_decimals(const Scale& scale);

/// Decimals a mass in grams deserves on paper.
int mass_decimals(double mass_g);

/// "thick 62 %, soft set 21 %", "no gum" or "outside the model".
std::string outlook_words(bool any_gum, const std::optional<gel::Chances>& textures);

/// A number in brackets of about `figures` significant figures: an estimate, not a reading.
Cell estimate(double value, int figures);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
