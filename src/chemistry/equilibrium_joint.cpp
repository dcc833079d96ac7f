// The quick path: damped Newton in ln h, I, ln ca and ln mg together, with the exact Jacobian.

#include <algorithm>
#include <cmath>

#include "chemistry/equilibrium_kernel.hpp"

namespace gelwright::detail {
namespace {

constexpr double log_step_limit = 4.0;    // in any ln: under two units of pH
constexpr double ionic_step_limit = 8.0;  // factor by which I may fall in one Newton step
constexpr int joint_evaluations = 40;     // the nested path takes over after that
constexpr int metal_iterations = 100;
constexpr double ln_h_tolerance = 2e-11;    // 1e-11 in pH is 2.3e-11 in ln h
constexpr double charge_tolerance = 2e-13;  // well inside the promised 1e-12
constexpr double mass_tolerance = 1e-13;    // and 1e-10
constexpr double ionic_tolerance = 1e-11;

/// Gaussian elimination with partial pivoting, n <= 4, in place. False if singular.
bool solve_linear(std::array<std::array<double, 4>, 4>& a, std::array<double, 4>& b,
                  std::size_t n) {
  for (std::size_t c = 0; c < n; ++c) {
    std::size_t pivot = c;
    for (std::size_t r = c + 1; r < n; ++r)
      if (std::abs(a[r][c]) > std::abs(a[pivot][c])) pivot = r;
    if (!(std::abs(a[pivot][c]) > 0.0)) return false;
    if (pivot != c) {
      std::swap(a[pivot], a[c]);
      std::swap(b[pivot], b[c]);
    }
    const double inverse = 1.0 / a[c][c];
    for (std::size_t r = c + 1; r < n; ++r) {
      const double f = a[r][c] * inverse;
      for (std::size_t k = c + 1; k < n; ++k) a[r][k] -= f * a[c][k];
      b[r] -= f * b[c];
    }
  }
  for (std::size_t c = n; c-- > 0;) {
    for (std::size_t k = c + 1; k < n; ++k) b[c] -= a[c][k] * b[k];
    b[c] /= a[c][c];
  }
  return true;
}

/// Where Newton starts: h from filling the acid sites, metals from what the ligands then hold.
Point starting_point(const System& s, double fixed_h) {
  Point p;
  const double net = 2.0 * (s.ca_total + s.mg_total) + s.na_total + s.k_total;
  // Half the strong ions, and about as much again for the anions that balance them.
  p.i = 0.5 * (s.strong_z2 + 4.0 * (s.ca_total + s.mg_total) + 0.5 * net);
  double gamma1 = std::exp(ln_gamma1(s, p.i));
  p.h = fixed_h > 0.0 ? fixed_h : guess_h(s, gamma1);
  p.i += 0.5 * (p.h + s.kw / p.h);
  if (s.ca_total + s.mg_total == 0.0) return p;
  gamma1 = std::exp(ln_gamma1(s, p.i));
  const ReducedSystem r = reduce(s, p.h, gamma1, false);
  double ca = r.unbound[0], mg = r.unbound[1];
  for (std::size_t l = 0; l < r.ligands_used; ++l) {
    const ReducedLigand& ligand = r.ligands[l];
    if (ligand.fixed) continue;
    const double z = ligand.free + ligand.a[0] * s.ca_total + ligand.a[1] * s.mg_total;
    ca += ligand.total * ligand.a[0] / z;
    mg += ligand.total * ligand.a[1] / z;
  }
  p.ca = s.ca_total / ca;
  p.mg = s.mg_total / mg;
  return p;
}

}  // namespace

Errors errors_at(const System& s, const Point& p, const Sums& sums, double acid) {
  Errors e;
  // z^2 <= 3 |z| for every species, so this is never more than the sum of charges.
  const double charges = sums.z2 / 3.0;
  // The proton balance takes the metals' totals as met; what they miss is charge as well.
  e.charge_scaled = std::abs(sums.protons - s.shifted_total - acid +
                             2.0 * (sums.ca - s.ca_total + sums.mg - s.mg_total)) /
                    charges;
  if (s.ca_total > 0.0) e.mass_relative = std::abs(sums.ca / s.ca_total - 1.0);
  if (s.mg_total > 0.0)
    e.mass_relative = std::max(e.mass_relative, std::abs(sums.mg / s.mg_total - 1.0));
  e.ionic_relative = std::abs(p.i / (0.5 * (sums.z2 + std::abs(acid))) - 1.0);
  return e;
}

bool solve_joint(System& s, double fixed_h, Point& p, int& evaluations) {
  p = starting_point(s, fixed_h);
  shift_protons(s, p.h);
  const bool free_h = !(fixed_h > 0.0);
  for (int count = 0; count < joint_evaluations; ++count) {
    double slope = 0.0;
    const double ln_gamma = ln_gamma1(s, p.i, &slope);
    const Sums v = evaluate(s, p, std::exp(ln_gamma));
    ++evaluations;
    const double acid = free_h ? 0.0 : v.protons - s.shifted_total;

    // Rows and columns in the order (ln h), I, (ln ca), (ln mg); absent ones are left out.
    const double dp_dgamma = 4.0 * (v.n_ca + v.n_mg) - v.n_z2 - v.n_step;
    const std::array<double, 4> dp{v.nn, dp_dgamma * slope, v.n_ca, v.n_mg};
    std::array<std::array<double, 4>, 4> full{};
    std::array<double, 4> f{};
    if (free_h) {
      // The logarithm of both sides' ratio is far straighter in ln h than their difference.
      // Left: protons bound and free; right: protons at hand and hydroxide.
      const double excess = v.protons - s.shifted_total;
      const double right = v.negative_protons + std::max(s.proton_total, 0.0);
      const double left = right + excess;
      const std::array<double, 4> dr{v.neg_h, v.neg_gamma * slope, v.neg_ca, v.neg_mg};
      f[0] = std::log1p(excess / right);
      for (std::size_t c = 0; c < 4; ++c) full[0][c] = (dp[c] + dr[c]) / left - dr[c] / right;
    }
    const double sign = acid > 0.0 ? 1.0 : -1.0;
    const double acid_share = free_h ? 0.0 : sign;
    f[1] = p.i - 0.5 * (v.z2 + std::abs(acid));
    full[1] = {-0.5 * (v.n_z2 + acid_share * dp[0]),
               1.0 - 0.5 * ((4.0 * (v.ca_z2 + v.mg_z2) - v.z2_z2 - v.z2_step) * slope +
                            acid_share * dp[1]),
               -0.5 * (v.ca_z2 + acid_share * dp[2]), -0.5 * (v.mg_z2 + acid_share * dp[3])};
    if (s.ca_total > 0.0) {
      const double inverse = 1.0 / v.ca;
      f[2] = std::log(v.ca / s.ca_total);
      full[2] = {v.n_ca * inverse, (4.0 * (v.ca_ca + v.ca_mg) - v.ca_z2) * slope * inverse,
                 v.ca_ca * inverse, v.ca_mg * inverse};
    }
    if (s.mg_total > 0.0) {
      const double inverse = 1.0 / v.mg;
      f[3] = std::log(v.mg / s.mg_total);
      full[3] = {v.n_mg * inverse, (4.0 * (v.mg_mg + v.ca_mg) - v.mg_z2) * slope * inverse,
                 v.ca_mg * inverse, v.mg_mg * inverse};
    }

    std::array<std::size_t, 4> used{};
    std::size_t n = 0;
    if (free_h) used[n++] = 0;
    used[n++] = 1;
    if (s.ca_total > 0.0) used[n++] = 2;
    if (s.mg_total > 0.0) used[n++] = 3;
    std::array<std::array<double, 4>, 4> a{};
    std::array<double, 4> packed{}, step{};
    for (std::size_t r = 0; r < n; ++r) {
      packed[r] = -f[used[r]];
      for (std::size_t c = 0; c < n; ++c) a[r][c] = full[used[r]][used[c]];
    }
    if (!solve_linear(a, packed, n)) return false;
    for (std::size_t r = 0; r < n; ++r) step[used[r]] = packed[r];
    for (const double d : step)
      if (!std::isfinite(d)) return false;

    const Errors e = errors_at(s, p, v, acid);
    if (std::abs(step[0]) < ln_h_tolerance && e.charge_scaled < charge_tolerance &&
        e.mass_relative < mass_tolerance && e.ionic_relative < ionic_tolerance)
      return true;

    const auto limited = [](double d) { return std::clamp(d, -log_step_limit, log_step_limit); };
    p.h *= std::exp(limited(step[0]));
    p.ca *= std::exp(limited(step[2]));
    p.mg *= std::exp(limited(step[3]));
    // Near I = 0 the slope of the coefficients is without bound and the step can point the wrong
    // way; what the ions make is then the better next value.
    const double made = p.i - f[1];
    p.i = p.i + step[1] > p.i / ionic_step_limit ? p.i + step[1] : made;
  }
  return false;
}

double solve_metals(const ReducedSystem& r, std::array<double, 4>& m) {
  std::array<std::size_t, 4> used{};
  std::size_t n = 0;
  for (std::size_t j = 0; j < 4; ++j) {
    if (r.total[j] > 0.0) used[n++] = j;
    if (!(r.total[j] > 0.0)) m[j] = 0.0;
  }
  double worst = 0.0;
  for (int iteration = 0; iteration < metal_iterations; ++iteration) {
    std::array<std::array<double, 4>, 4> a{};
    std::array<double, 4> f{}, sum{};
    for (std::size_t j = 0; j < n; ++j) a[j][j] = sum[j] = m[used[j]] * r.unbound[used[j]];
    for (std::size_t l = 0; l < r.ligands_used; ++l) {
      const ReducedLigand& ligand = r.ligands[l];
      if (ligand.fixed) continue;  // counted in `unbound`
      double z = ligand.free;
      std::array<double, 4> held{};
      for (std::size_t j = 0; j < n; ++j) z += held[j] = ligand.a[used[j]] * m[used[j]];
      const double inverse = 1.0 / z;
      for (std::size_t j = 0; j < n; ++j) {
        held[j] *= inverse;
        sum[j] += ligand.total * held[j];
        a[j][j] += ligand.total * held[j];
      }
      for (std::size_t j = 0; j < n; ++j)
        for (std::size_t k = 0; k < n; ++k) a[j][k] -= ligand.total * held[j] * held[k];
    }
    worst = 0.0;
    for (std::size_t j = 0; j < n; ++j) {
      for (std::size_t k = 0; k < n; ++k) a[j][k] /= sum[j];
      f[j] = -std::log(sum[j] / r.total[used[j]]);
      worst = std::max(worst, std::abs(f[j]));
    }
    if (worst < mass_tolerance || !solve_linear(a, f, n)) break;
    for (std::size_t j = 0; j < n; ++j)
      m[used[j]] *= std::exp(std::clamp(f[j], -log_step_limit, log_step_limit));
  }
  return worst;
}

}  // namespace gelwright::detail
