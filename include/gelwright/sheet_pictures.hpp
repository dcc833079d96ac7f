// Pictures of one recipe, each a section of the sheet that is worked out only where it is asked
// for.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include "gelwright/advise.hpp"
#include "gelwright/bench.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/report.hpp"

namespace gelwright {

enum class SheetPicture : std::uint8_t {
  acid_curve,   ///< pH and texture against the acid in the batch
  texture_map,  ///< texture over water and acid
  gum_map,      ///< texture over calcium and gum
  price,        ///< cost of 60 g of carbohydrate beside the alternative
};

struct SheetPictureInfo {
  SheetPicture which;
  std::string_view key;  ///< of its section, as it is asked for
};

/// All there are, in the order they stand on the sheet.
std::span<const SheetPictureInfo> sheet_pictures();

/// One picture's section, or the same with the reason why the recipe has no such picture. The maps
/// show the edges of the advice, all but the price the cups, where there are any. Throws as
/// `evaluate`.
Section picture_section(SheetPicture which, const Inputs& inputs, const Evaluation& evaluation,
                        const Advice& advice, const Bench* cups = nullptr);

}  // namespace gelwright
