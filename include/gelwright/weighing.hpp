// What a scale can and cannot weigh.
//
// Model: a weighed line is the difference of two displays, tare and gross. Its variance is that of
// the scale's repeatability plus that of two rounded displays, each rectangular over one division:
//   u^2 = s^2 + d^2/6      [g^2], s repeatability (standard deviation), d readability.
// The calibration error of the scale is left out: it is common to all lines on the same scale and
// cancels in their proportions.
// Sources: USP <41> Balances (smallest mass); JCGM 100:2008 F.2.2.1 (rounded display).
#pragma once

#include <optional>
#include <span>
#include <string>

#include "gelwright/source.hpp"

namespace gelwright {

/// A scale the user owns.
struct Scale {
  std::string name;
  double readability_g = 0.0;             ///< g, one step of the display, d > 0
  double capacity_g = 0.0;                ///< g, largest display; not used in this header
  std::optional<double> repeatability_g;  ///< g, standard deviation of repeated readings, s >= 0
};

/// How far the mass in the bowl may be from the mass that was asked for.
struct WeighingError {
  double rounding_g = 0.0;  ///< g, signed: mass to weigh minus exact mass
  double expanded_g = 0.0;  ///< g, k * u of the scale, about 95 % (k = 2)
  double relative = 0.0;    ///< (|rounding| + k u) / |exact|, a fraction; infinite for 0 g
};

/// Repeatability s in g: as stated, else one division (judgement, not measured).
/// Every function below throws InputError if d <= 0, if s < 0, or if an argument is not finite.
double repeatability_g(const Scale& scale);

/// Standard uncertainty u in g of one line weighed as gross minus tare, calibration left out.
double standard_uncertainty_g(const Scale& scale);

/// The display nearest to `exact_g`, halves away from zero, in g. A half that binary arithmetic has
/// pushed down by up to 1e-12 of the mass still counts as a half (0.15 g on a 0.1 g scale gives
/// 0.2 g), and the result is the double nearest to the printed decimal (0.3, not
/// 0.30000000000000004) wherever 1/d is a whole number.
double rounded_to_readability_g(double exact_g, const Scale& scale);

/// Error of weighing `exact_g` as the rounded display.
WeighingError weighing_error(double exact_g, const Scale& scale);

/// True if k u + |rounding| <= tolerance * exact: the line can be weighed on this scale.
/// `tolerance_fraction` > 0 is a fraction; InputError otherwise. False for a mass of zero or less.
bool clears(double exact_g, const Scale& scale, double tolerance_fraction);

/// The numbers behind this header.
std::span<const Datum> weighing_data();

}  // namespace gelwright
