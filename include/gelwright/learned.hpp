// What test cups have taught about one bought mix, as it is kept with the mix.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

namespace gelwright {

/// Four shifts of the gel model: strength (log10), the pH it sets at, calcium (log10), viscosity
/// (log10).
inline constexpr std::size_t learned_shift_count = 4;
using LearnedShifts = std::array<double, learned_shift_count>;
using LearnedCovariance = std::array<LearnedShifts, learned_shift_count>;

/// What the cups say if the mix holds one of the gums it may hold.
struct LearnedGum {
  double weight = 1;  ///< chance of this gum after the cups, 0 to 1
  LearnedShifts mean = {};
  LearnedCovariance covariance = {};
};

struct Learned {
  std::string mix;           ///< whose cups they were
  std::string model;         ///< version of the gel model they were read with
  std::string bench;         ///< the sheet of readings
  std::string read_on = {};  ///< day, as the reader wrote it; empty = not said
  std::size_t cups = 0;
  std::vector<std::string> seen = {};  ///< "0.36 g acid held", a cup each; empty for a long series
  std::vector<LearnedGum> gums;        ///< as the ingredient lists what it may hold; one if known
};

/// The ten numbers a covariance is kept as: row by row, each from its diagonal on.
std::vector<double> packed(const LearnedCovariance& covariance);
/// From exactly ten numbers.
LearnedCovariance unpacked(const std::vector<double>& ten);
/// Whether it can be a covariance: no negative variance, no correlation over 1.
bool is_covariance(const LearnedCovariance& covariance);

}  // namespace gelwright
