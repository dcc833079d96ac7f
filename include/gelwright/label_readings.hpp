// What a nutrition label leaves open: which salt its sodium is, and which sugars its sugars are.
//
// Neither is guessed. Each may be several things; a study reads the label in every way that is left
// and says what follows.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>

#include "gelwright/composition.hpp"
#include "gelwright/source.hpp"

namespace gelwright {

/// What the sodium of a bought mix may be.
enum class SodiumSalt : std::uint8_t { chloride, citrate, bicarbonate };
inline constexpr std::size_t sodium_salt_count = 3;

/// "chloride", "citrate", "bicarbonate".
std::string_view to_text(SodiumSalt salt);

/// How likely it is before anything is known of the mix, 0 to 1; together 1. Judgement.
double weight_of(SodiumSalt salt);

/// Counts the unnamed sodium as this salt. Nothing is unnamed afterwards.
void name_sodium(Composition& composition, SodiumSalt salt);

/// Counts the unnamed sugars as fructose, the other end of what they may be: as much fructose and
/// as many particles as there can be. Nothing is unnamed afterwards.
void name_sugars_fructose(Composition& composition);

/// What a pack that names an acid without an amount may hold of it, g in 1 g. Judgement.
struct AcidBand {
  double least;
  double most;
};
AcidBand named_acid_band();

/// The weights and the band.
std::span<const Datum> label_reading_data();

}  // namespace gelwright
