// Roots of a function of one number inside a bracket that is known to hold one. Private.
//
// No derivative, no starting guess, no shape of the function that can upset it: each evaluation
// leaves a narrower bracket. Chandrupatla's rule takes a step of inverse quadratic interpolation
// where three points say that it will land well, and halves the bracket where they do not, so a
// smooth function takes about ten evaluations and a step function one per bit.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>

namespace gelwright::detail {

struct RootOptions {
  /// Width of the bracket, in the unit of x, at which the search ends; 0 asks for the last bits.
  /// A few units of rounding of x itself are always allowed.
  double x_tolerance = 0.0;
  int most_evaluations = 200;  ///< the two ends included
};

/// What is left of the bracket. The values at its ends differ in sign, or `root` is an exact zero.
struct Bracket {
  double root;      ///< the end where |f| is smaller
  double negative;  ///< the end where f is below 0
  double positive;  ///< the end where f is 0 or above
};

/// Throws NotConverged with the bracket that is left.
[[noreturn]] void refuse_bracket(double a, double fa, double b, double fb, int evaluations);

/// Narrows [a, b] (in either order) around a change of sign of `f`, where f(a) and f(b) are given
/// and differ in sign. Throws NotConverged if they do not, if `f` returns NaN, or if
/// `most_evaluations` do not reach the tolerance.
/// Chandrupatla 1997, Adv. Eng. Softw. 28:145-149, doi 10.1016/S0965-9978(96)00051-8.
template <class F>
Bracket narrow_bracket(F&& f, double a, double fa, double b, double fb, RootOptions options = {}) {
  constexpr double rounding = 2.0 * std::numeric_limits<double>::epsilon();
  const auto below = [](double value) { return value < 0.0; };
  const auto left = [&](double root) {
    return below(fa) ? Bracket{root, a, b} : Bracket{root, b, a};
  };
  if (std::isnan(fa) || std::isnan(fb) || (below(fa) == below(fb) && fa != 0.0 && fb != 0.0))
    refuse_bracket(a, fa, b, fb, 2);
  if (fa == 0.0) return {a, a, a};
  if (fb == 0.0) return {b, b, b};
  double t = 0.5;
  for (int evaluations = 2;; ++evaluations) {
    const double best = std::abs(fa) < std::abs(fb) ? a : b;
    const double width = std::abs(b - a);
    const double tolerance = std::max(options.x_tolerance, rounding * std::abs(best));
    if (width <= tolerance || width <= std::numeric_limits<double>::min()) return left(best);
    if (evaluations >= options.most_evaluations) refuse_bracket(a, fa, b, fb, evaluations);
    const double limit = std::min(0.5, 0.5 * tolerance / width);
    t = std::clamp(t, limit, 1.0 - limit);
    const double x = a + t * (b - a);
    const double fx = f(x);
    if (std::isnan(fx)) refuse_bracket(x, fx, b, fb, evaluations + 1);
    if (fx == 0.0) return {x, x, x};
    // c is the end that x replaces; a is always the newest point.
    double c = a, fc = fa;
    if (below(fx) != below(fa)) {
      c = b;
      fc = fb;
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;
    const double xi = (a - b) / (c - b), phi = (fa - fb) / (fc - fb);
    const bool smooth = phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi;
    t = smooth ? fa / (fb - fa) * (fc / (fb - fc)) +
                     (c - a) / (b - a) * (fa / (fc - fa)) * (fb / (fc - fb))
               : 0.5;
  }
}

/// Where `f` crosses 0 between `a` and `b`. Throws as `narrow_bracket`.
template <class F>
double find_root(F&& f, double a, double b, RootOptions options = {}) {
  const double fa = f(a);
  const double fb = f(b);
  return narrow_bracket(f, a, fa, b, fb, options).root;
}

/// The edge of what `holds`: a number within the tolerance of the one where it begins to, itself
/// one that holds. `fails` is known not to hold, `holding` to hold; neither is tried again.
template <class Holds>
double find_edge(Holds&& holds, double fails, double holding, RootOptions options = {}) {
  const auto sign = [&](double x) { return holds(x) ? 1.0 : -1.0; };
  return narrow_bracket(sign, fails, -1.0, holding, 1.0, options).positive;
}

}  // namespace gelwright::detail
