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
  /// Where a texture was seen: the chance that it sets now, 0 to 1, counting that it did not before.
  std::optional<double> chance_to_set;
};

/// What was seen of a batch.
struct SeenOfBatch {
  std::optional<double> ph;             ///< read in the bowl as it is now
  std::optional<gel::Texture> texture;  ///< after its rest, where it did not set
};

/// How to mend a batch of these inputs. A pH that was read corrects the computed one; the aim is
/// then the pH the recipe was to have. Of a batch that did not set, the aim is that it sets, with
/// more acid or calcium salt. Throws as `evaluate`.
Mend mend(const Inputs& planned, std::span<const WeighedInstead> weighed,
          const SeenOfBatch& seen = {});

/// The inputs with what was weighed, in place of what was planned.
Inputs as_weighed(const Inputs& planned, std::span<const WeighedInstead> weighed);

/// What counts as too far gone, and as near enough.
std::span<const Datum> mend_data();

}  // namespace gelwright
