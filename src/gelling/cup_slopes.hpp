// What the model expects of one cup, and how the shifts move it. Private.
#pragma once

#include "gelling/setup.hpp"
#include "gelwright/gel_cups.hpp"

namespace gelwright::gel::detail {

using Vector = std::array<double, 4>;  ///< one number for each shift
using Matrix = std::array<Vector, 4>;

inline constexpr double u_step = 0.02;  ///< of a shift, for its slope

/// A cup made ready: what of it the shifts do not change.
struct Ready {
  Setup setup;
  CupReading reading;
};

/// The centre of every parameter, with these shifts.
Values values_at(const Vector& u);

Expected expected_of(const Ready& cup, const Values& values);

/// What the cup's readings are unsure by, beyond how finely they are read.
ExtraSd extra_sd_of(const Ready& cup, const Values& values, bool ph_doubt);

/// How each shift moves the log10 thickness and yield.
struct Slopes {
  Vector thickness = {};
  Vector yield = {};
};
Slopes slopes_at(const Ready& cup, const Vector& u);

/// Of a positive definite matrix.
struct Inverse {
  Matrix matrix = {};
  double ln_determinant = 0;
};
Inverse inverse(Matrix a);

}  // namespace gelwright::gel::detail
