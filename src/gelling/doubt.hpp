// Means and uncertainties of the gel model by varying one value at a time.
#pragma once

#include "gelling/stages.hpp"
#include "gelwright/gel_chances.hpp"

namespace gelwright::gel::detail {

/// The four numbers that are spread, and what they came from.
struct Point {
  Dissolved dissolved;
  Routes routes;
  Sum sum;
  double lg_viscosity = 0;
  double lg_thickness = 0;
};
Point point_at(const Setup& setup, const Values& values);

/// G', viscosity, yield, thickness: log10.
using Four = std::array<double, 4>;
enum Quantity : std::size_t { modulus, viscosity, yield, thickness };

/// What one value does: half the way between one `sd` up and one down, and the bend.
struct Pull {
  Four slope = {};
  Four bend = {};

  /// How far it moves what the textures are cut by.
  double reach() const;
};
Pull pull_of(const Setup& setup, const Values& values, const Point& centre, Id id, double sd);

/// `values` moved by what a person's own cups have taught; unchanged without cups.
Values with_shifts(Values values, const Learnt* learnt);

/// `learnt` values must already be in `values` (u.k, u.ph, u.ca, u.v).
Doubt doubt_of(const Setup& setup, const Values& values, const Point& centre, const Learnt* learnt);

}  // namespace gelwright::gel::detail
