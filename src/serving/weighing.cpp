#include "gelwright/weighing.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "gelwright/error.hpp"

namespace gelwright {
namespace {

constexpr Datum table[] = {
    {"weighing.coverage_factor", 2.0, "1", 0.0, "expanded repeatability over mass", "usp-41",
     Standing::confirmed},
    {"weighing.difference_resolution_variance", 1.0 / 6.0, "division^2", 0.0,
     "two rectangular displays of variance 1/12 each", "jcgm-100", Standing::computed},
    {"weighing.kitchen_repeatability", 1.0, "division", 0.0, "where the user states none",
     "judgement", Standing::judgement},
};

constexpr double coverage_factor = value_of(table, "weighing.coverage_factor");
constexpr double resolution_variance = value_of(table, "weighing.difference_resolution_variance");
constexpr double kitchen_repeatability = value_of(table, "weighing.kitchen_repeatability");

/// Relative room for a half that arithmetic pushed down: far above the error of a chain of double
/// operations (about 1e-15), far below anything a scale shows.
constexpr double binary_noise = 1e-12;

void require(bool holds, const char* where, const char* what, const char* remedy) {
  if (!holds) throw InputError("", {{where, what, remedy}});
}

void require_usable(const Scale& scale) {
  require(std::isfinite(scale.readability_g) && scale.readability_g > 0.0, "readability_g",
          "the readability of a scale must be above 0 g", "give the step of its display in grams");
  if (scale.repeatability_g)
    require(std::isfinite(*scale.repeatability_g) && *scale.repeatability_g >= 0.0,
            "repeatability_g", "the repeatability of a scale must be 0 g or more",
            "leave it out if it was not measured");
}

void require_tolerance(double tolerance_fraction) {
  require(std::isfinite(tolerance_fraction) && tolerance_fraction > 0.0, "tolerance_fraction",
          "the dose tolerance must be above 0", "give 1 % as 0.01");
}

}  // namespace

double repeatability_g(const Scale& scale) {
  require_usable(scale);
  return scale.repeatability_g.value_or(kitchen_repeatability * scale.readability_g);
}

double standard_uncertainty_g(const Scale& scale) {
  const double s = repeatability_g(scale);
  const double d = scale.readability_g;
  return std::sqrt(s * s + resolution_variance * d * d);
}

double rounded_to_readability_g(double exact_g, const Scale& scale) {
  require_usable(scale);
  require(std::isfinite(exact_g), "exact_g", "the mass is not a number", "");
  const double d = scale.readability_g;
  const double steps = std::round(exact_g / d * (1.0 + binary_noise));
  // Dividing by the whole number 10 is exact to the last bit where multiplying by 0.1 is not.
  const double per_gram = std::round(1.0 / d);
  const bool whole = per_gram >= 1.0 && std::abs(per_gram * d - 1.0) < binary_noise;
  const double rounded_g = whole ? steps / per_gram : steps * d;
  return rounded_g + 0.0;  // never -0
}

WeighingError weighing_error(double exact_g, const Scale& scale) {
  WeighingError error;
  error.rounding_g = rounded_to_readability_g(exact_g, scale) - exact_g;
  error.expanded_g = coverage_factor * standard_uncertainty_g(scale);
  const double total_g = std::abs(error.rounding_g) + error.expanded_g;
  error.relative =
      exact_g == 0.0 ? std::numeric_limits<double>::infinity() : total_g / std::abs(exact_g);
  return error;
}

bool clears(double exact_g, const Scale& scale, double tolerance_fraction) {
  require_tolerance(tolerance_fraction);
  const WeighingError error = weighing_error(exact_g, scale);
  return error.expanded_g + std::abs(error.rounding_g) <= tolerance_fraction * exact_g;
}

std::span<const Datum> weighing_data() {
  return table;
}

}  // namespace gelwright
