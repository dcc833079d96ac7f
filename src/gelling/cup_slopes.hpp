// What the model expects of one cup, and how the shifts move it. Private.
#pragma once

#include "gelling/doubt.hpp"
#include "gelwright/gel_cups.hpp"

namespace gelwright::gel::detail {

using Vector = std::array<double, 4>;  ///< one number for each shift
using Matrix = std::array<Vector, 4>;

inline constexpr double u_step = 0.02;  ///< of a shift, for its slope

/// A cup made ready: what of it the shifts do not change.
struct Ready {
  Setup setup;
  CupReading reading;
  double count = 1;  ///< of cups exactly like this
};

/// The centre of every parameter, with these shifts.
Values values_at(const Vector& u);

/// Lumps and ring only where they were read.
Expected expected_of(const Ready& cup, const Values& values);
Expected expected_at(const Ready& cup, const Values& values, const Point& there);

/// What the cup's readings are unsure by, beyond how finely they are read.
ExtraSd extra_sd_of(const Ready& cup, const Values& values, bool ph_doubt);

/// How each shift moves the log10 thickness and yield.
struct Slopes {
  Vector thickness = {};
  Vector yield = {};
};
Slopes slopes_at(const Ready& cup, const Values& values, const Point& there);

Vector times(const Matrix& a, const Vector& x);

/// Of a symmetric matrix.
struct Inverse {
  Matrix matrix = {};
  double ln_determinant = 0;
  bool positive_definite = true;  ///< false: the rest is of no use
};
Inverse inverse(Matrix a);

}  // namespace gelwright::gel::detail
