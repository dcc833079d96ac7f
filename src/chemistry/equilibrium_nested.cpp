// The sure path. At fixed I the proton and metal balances are the gradient of a convex function of
// (ln h, ln ca, ln mg): the sum over ligands of total ln Z, plus the free ions, less the totals
// times the unknowns. So each unknown, with the ones inside it solved for, has a monotone residual,
// and a bracket on each finds it without a starting guess.

#include <algorithm>
#include <cmath>

#include "base/roots.hpp"
#include "chemistry/equilibrium_kernel.hpp"
#include "chemistry/equilibrium_table.hpp"

namespace gelwright::detail {
namespace {

constexpr double ln_h_lowest = -50.0;  // pH 21.7
constexpr double ln_h_highest = 12.0;  // pH -5.2
/// Of an ln, the relative error of the amount itself: the last bits, which the promise needs.
constexpr RootOptions to_the_last_bits{.x_tolerance = 1e-15};

/// ln of metal j's balance, given both metals.
double metal_residual(const ReducedSystem& r, std::size_t j, double ca, double mg) {
  double held = r.unbound[j];
  for (std::size_t l = 0; l < r.ligands_used; ++l) {
    const ReducedLigand& ligand = r.ligands[l];
    if (!ligand.fixed)
      held += ligand.total * ligand.a[j] / (ligand.free + ligand.a[0] * ca + ligand.a[1] * mg);
  }
  return std::log((j == 0 ? ca : mg) * held / r.total[j]);
}

/// The least metal j can be: every ligand empty. The most is all of it.
double least(const ReducedSystem& r, std::size_t j) {
  double held = r.unbound[j];
  for (std::size_t l = 0; l < r.ligands_used; ++l)
    if (!r.ligands[l].fixed) held += r.ligands[l].total * r.ligands[l].a[j] / r.ligands[l].free;
  return r.total[j] / held;
}

void metals_at(const System& s, double gamma1, Point& p) {
  p.ca = p.mg = 0.0;
  if (s.ca_total + s.mg_total == 0.0) return;
  const ReducedSystem r = reduce(s, p.h, gamma1, false);
  constexpr double margin = 1e-12;  // so that rounding cannot lose the sign change
  const auto magnesium_for = [&](double ca) {
    if (s.mg_total == 0.0) return 0.0;
    return std::exp(
        find_root([&](double ln_mg) { return metal_residual(r, 1, ca, std::exp(ln_mg)); },
                  std::log(least(r, 1)) - margin, std::log(s.mg_total / r.unbound[1]) + margin,
                  to_the_last_bits));
  };
  if (s.ca_total > 0.0)
    p.ca = std::exp(find_root(
        [&](double ln_ca) {
          const double ca = std::exp(ln_ca);
          return metal_residual(r, 0, ca, magnesium_for(ca));
        },
        std::log(least(r, 0)) - margin, std::log(s.ca_total / r.unbound[0]) + margin,
        to_the_last_bits));
  p.mg = magnesium_for(p.ca);
}

}  // namespace

void solve_nested(const System& s, double fixed_h, Point& p, int& evaluations) {
  // Ionic strength less what the ions make of it, with everything inside solved at that strength.
  const auto ionic_residual = [&](double i) {
    p.i = i;
    const double gamma1 = std::exp(ln_gamma1(s, i));
    const auto proton_residual = [&](double ln_h) {
      p.h = std::exp(ln_h);
      metals_at(s, gamma1, p);
      const Sums v = evaluate(s, p, gamma1);
      ++evaluations;
      const double ratio =
          (v.protons - s.shifted_total) / (v.negative_protons + std::max(s.proton_total, 0.0));
      return std::log1p(std::max(ratio, -1.0));  // rounding may leave it a bit below -1
    };
    if (fixed_h > 0.0) {
      p.h = fixed_h;
      metals_at(s, gamma1, p);
    } else {
      proton_residual(find_root(proton_residual, ln_h_lowest, ln_h_highest, to_the_last_bits));
    }
    const Sums v = evaluate(s, p, gamma1);
    ++evaluations;
    const double acid = fixed_h > 0.0 ? v.protons - s.shifted_total : 0.0;
    return i - 0.5 * (v.z2 + std::abs(acid));
  };
  // Above the held strength the coefficients no longer change, so one solve is enough there.
  const double above = ionic_residual(davies_held_above);
  if (above <= 0.0) {
    p.i = davies_held_above - above;
    return;
  }
  // Square root, so that a bare 1e-7 is found to the same relative precision as 0.1.
  const double root =
      find_root([&](double x) { return ionic_residual(x * x); }, 0.0, std::sqrt(davies_held_above));
  ionic_residual(root * root);
}

}  // namespace gelwright::detail
