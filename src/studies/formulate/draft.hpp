// A recipe with some of its amounts still open, and the best way to fill them in. Private.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "gelwright/evaluate.hpp"

namespace gelwright::detail {

/// What a serving should be.
struct Wish {
  gel::Texture texture = gel::Texture::soft;
  bool gel_in_stomach = false;  ///< pieces there count as well
  Limit ph;
  Limit sodium_mg;
  std::optional<double> price_at_most;  ///< of one serving
};

/// One limit a serving breaks, in its own unit.
struct Broken {
  enum class What { ph, sodium, price } what = What::ph;
  double limit = 0;
  bool at_most = true;
  double reached = 0;
};

/// A serving held against a wish.
struct Weighed {
  double chance = 0;    ///< of the wish, 0 to 1
  double flawless = 0;  ///< that, and with no defect to be seen
  std::vector<Broken> broken;
  std::vector<FlagId> stops;
  /// What the search climbs: the flawless chance, or below 0 how much is broken.
  double worth = 0;
};
Weighed weighed(const Evaluation& evaluation, const Wish& wish);

/// From least to most, in % of the water.
struct Span {
  double least = 0;
  double most = 0;
};

/// How the mass of a serving follows.
struct DraftSize {
  std::optional<double> total_g;                 ///< given
  std::optional<double> soluble_solids_percent;  ///< given
  Span water_percent_of_total = {35, 85};        ///< searched where neither is
};

/// The recipe says which ingredient stands in which line; its amounts only need to be above 0.
struct Draft {
  const Recipe* recipe = nullptr;
  std::vector<double> sugar_g;      ///< of the first lines of the solids, fixed
  std::vector<std::size_t> gums;    ///< lines of the solids that share the gum evenly
  std::optional<std::size_t> salt;  ///< line that brings the sodium up to its least
  Span gum, acid, calcium;          ///< `most` 0: there is none
  DraftSize size;
};

/// What is searched, each in % of the water or as its name says.
struct DraftAmounts {
  double gum_percent = 0;
  double acid_percent = 0;
  double calcium_percent = 0;
  double water_percent_of_total = 0;
};

struct DraftFound {
  DraftAmounts amounts;
  Inputs inputs;
  Weighed weighed;
};

/// The serving these amounts make; nothing where no water is left.
std::optional<Inputs> filled(const Draft& draft, const DraftAmounts& amounts, const Wish& wish);

/// The best amounts. Reproducible by seed.
DraftFound best_of(const Draft& draft, const Wish& wish, std::uint64_t seed);

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
