// Something else is in the bowl than the sheet said: what to add to come back to the recipe.
//
// Nothing is ever taken out, so a batch is mended by adding: everything that is now too little.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "gelwright/batch.hpp"
#include "gelwright/inputs.hpp"

namespace gelwright {

/// What was weighed of one thing, in the whole batch.
struct WeighedInstead {
  LineRole role = LineRole::water;
  std::size_t solid = 0;  ///< in Recipe::solids, for LineRole::solid
  double batch_g = 0;
};

struct MendLine {
  LineRole role = LineRole::water;
  std::size_t solid = 0;
  double planned_g = 0;  ///< in the batch
  double have_g = 0;
  double add_g = 0;
};

struct Mend {
  std::vector<MendLine> lines;  ///< water, solids, acid, calcium salt
  double grows = 1;             ///< mended batch over the planned one
  bool anything = false;        ///< whether anything is worth adding
  bool too_sour = false;        ///< only more of everything else takes sourness away
  std::string why_not;          ///< nothing sensible helps; then there are no lines to add
  Inputs mended;                ///< of a serving of the mended batch; its servings have grown
};

/// How to mend a batch of these inputs. `measured_ph`, read in the bowl as it is now, corrects the
/// computed one; the aim is then the pH the recipe was to have. Throws as `evaluate`.
Mend mend(const Inputs& planned, std::span<const WeighedInstead> weighed,
          std::optional<double> measured_ph = std::nullopt);

/// The inputs with what was weighed, in place of what was planned.
Inputs as_weighed(const Inputs& planned, std::span<const WeighedInstead> weighed);

/// What counts as too far gone, and as near enough.
std::span<const Datum> mend_data();

}  // namespace gelwright
