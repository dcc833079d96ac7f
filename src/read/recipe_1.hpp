// What recipe-1 says in words of its own. Private: a Recipe has steps instead.
#pragma once

namespace gelwright::detail {

/// How the gum meets the water.
enum class Dispersal {
  with_sugar,  ///< pre-blended with 5 to 10 times its mass of sugar
  dry,         ///< straight into the water
  in_mix,      ///< arrives dispersed in a bought mix
};

/// How the calcium salt goes in.
enum class CalciumDelivery {
  fast,                  ///< soluble salt, all at once
  slow,                  ///< dropwise, chelated or sparingly soluble
  insoluble_until_acid,  ///< carbonate, phosphate, citrate: dissolves as acid reaches it
};

}  // namespace gelwright::detail
