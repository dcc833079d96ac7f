// The ways left to read a serving's unnamed sodium, and the pH each of them gives.
#pragma once

#include <vector>

#include "gelwright/formula.hpp"
#include "gelwright/label_readings.hpp"
#include "gelwright/water_phase.hpp"

namespace gelwright {

/// One way to read it.
struct SodiumReading {
  SodiumSalt salt = SodiumSalt::chloride;
  double weight = 1;  ///< of those left, together 1
};

/// The ways left, chloride first; empty where no sodium is unnamed. Bicarbonate is left out where
/// every mix with such sodium is said not to have fizzed.
std::vector<SodiumReading> sodium_readings(const Inputs& inputs);

/// The same after the recipe's pH reading, if it has one that counts: each weighed by how well the
/// pH it gives fits, those under 1 in 100 left out. Throws as `water_phase_of`.
std::vector<SodiumReading> sodium_readings_left(const Inputs& inputs);

/// Reads the unnamed sodium of all solids this way; of a mix that did not fizz, bicarbonate is read
/// as chloride.
void name_sodium(Inputs& inputs, SodiumSalt salt);

/// A copy with its unnamed sodium read so.
Inputs read_sodium_as(const Inputs& inputs, SodiumSalt salt);

/// Whether a mix in it names an acid without saying how much.
bool acid_undeclared(const Inputs& inputs);

/// A copy with such acids at `at` of their bands: 0 the least, 0.5 the middle, 1 the most.
Inputs read_acid_as(const Inputs& inputs, double at);

/// The pH under one reading.
struct SodiumPh {
  SodiumReading reading;
  double ph = 7;
  double half_width = 0;    ///< 95 %, of this reading alone
  double free_co2_mol = 0;  ///< CO2(aq) in the serving with nothing escaped, gas or not
};

/// What the pH may be, all readings left, the ends of an undeclared acid and their own errors
/// counted.
struct PhBand {
  double low = 7;
  double high = 7;
  std::vector<SodiumPh> readings;  ///< in the order of `sodium_readings`; empty where it is empty
};

/// `phase` is that of `inputs` as they are, the sodium counted as chloride. Throws as
/// `water_phase_of`.
PhBand ph_band_of(const Formula& formula, const WaterPhase& phase, const Inputs& inputs);

}  // namespace gelwright
