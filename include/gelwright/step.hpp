// What a person does, in the order they do it.
//
// Plain data. The reader checks that steps do not contradict each other; `making_of` (making.hpp)
// says what they mean for the gel.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace gelwright {

/// What one step does.
enum class Act : std::uint8_t { add, heat, cool, rest, fill };

/// What an addition brings.
enum class Item : std::uint8_t { water, solid, acid, calcium };

/// How it goes in, or how it cools.
enum class How : std::uint8_t {
  stirred,      ///< also of cooling
  shaken,       ///< in a closed vessel
  under_blade,  ///< into a running blender
  preblended,   ///< gum blended dry with 5 to 10 times its mass of sugar first
  dry,          ///< gum alone, strewn onto still or stirred liquid
  poured,       ///< acid or calcium, at once
  slow,         ///< acid or calcium, drop by drop or released over hours
  still,        ///< only of cooling
};

/// One thing of an addition.
struct Addition {
  Item item = Item::solid;
  std::size_t line = 0;  ///< of a solid: which of Recipe::solids
  double share = 1;      ///< of all of it, above 0, at most 1; acid and calcium go in whole
};

/// One step; what its act has no use for is left as it stands here.
struct Step {
  Act act = Act::add;
  std::vector<Addition> what = {};     ///< add: what goes into what is there by then
  How how = How::stirred;              ///< add, cool
  std::optional<double> minutes = {};  ///< add, heat: for the procedure only
  double to_c = 0;                     ///< heat, cool: degC
  double hours = 0;                    ///< rest: 0 or more
  double at_c = 0;                     ///< rest: degC
  bool open = false;                   ///< rest: in an open vessel until nothing fizzes any more
};

}  // namespace gelwright
