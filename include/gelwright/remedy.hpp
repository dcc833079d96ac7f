// What can be turned to clear a flag. Each flag's record says it; `advise` finds the amount.
#pragma once

#include <cstdint>
#include <span>

#include "gelwright/flag.hpp"

namespace gelwright {

/// One thing that can be turned, and which way.
enum class Turn : std::uint8_t {
  more_acid,
  less_acid,
  more_water,
  less_water,
  more_calcium_salt,
  less_calcium_salt,
  softer_water,  ///< low-mineral water in place of tap water
  harder_water,  ///< more calcium in the tap water
};

/// What can clear a flag, the most natural first; empty where no amount can.
std::span<const Turn> turns_of(FlagId id);

}  // namespace gelwright
