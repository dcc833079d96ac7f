// Median time of one solve, against Boost.Math's toms748_solve on the same residual to the same
// accuracy. Runs are interleaved, so that a busy machine slows both alike.
//
//   joint        make_system + solve_joint: everything up to a converged point
//   toms748 pH   for each pH, calcium, magnesium and I solved by our own Newton; root of strong
//   acid toms748 lag  root in pH with calcium, magnesium and I held, these then refreshed, until
//   still whole        solve_equilibrium: joint, then every species, pairs, saturation, buffer
//   capacity
//
// Also counts heap allocations of the whole solve: there must be none. Exit code 1 if there are, or
// if the solvers disagree.
#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <new>
#include <vector>

#include "chemistry/equilibrium_kernel.hpp"

namespace {
long allocations = 0;
}

// Inlined on one side only, GCC takes malloc and free for a mismatch.
[[gnu::noinline]] void* operator new(std::size_t size) {
  ++allocations;
  if (void* p = std::malloc(size)) return p;
  throw std::bad_alloc();
}
[[gnu::noinline]] void operator delete(void* p) noexcept {
  std::free(p);
}
[[gnu::noinline]] void operator delete(void* p, std::size_t) noexcept {
  std::free(p);
}

namespace {

using namespace gelwright;
using detail::Point;
using detail::System;

constexpr double ln_h_tolerance = 2e-11;  // what solve_joint promises
constexpr int rounds = 301;
constexpr int solves_per_round = 40;

struct Outcome {
  double ph = 0.0;
  int evaluations = 0;
};

bool close_enough(double a, double b) {
  return std::abs(a - b) < ln_h_tolerance;
}

/// toms748 from a bracket of one pH either side of the guess where that holds the root.
template <class F>
double root_near(F&& f, double guess) {
  double a = guess - 2.3, b = guess + 2.3;
  double fa = f(a), fb = f(b);
  if (fa > 0.0 || fb < 0.0) {
    a = -35.0;
    b = 3.0;
    fa = f(a);
    fb = f(b);
  }
  std::uintmax_t most = 100;
  const auto r = boost::math::tools::toms748_solve(f, a, b, fa, fb, close_enough, most);
  return 0.5 * (r.first + r.second);
}

Outcome joint(const Totals& t, const EquilibriumOptions& o) {
  System s = detail::make_system(t, constants_at_25_c(), o);
  Outcome out;
  Point p;
  detail::solve_joint(s, 0.0, p, out.evaluations);
  out.ph = -std::log10(p.h);
  return out;
}

Outcome toms_ph(const Totals& t, const EquilibriumOptions& o) {
  System s = detail::make_system(t, constants_at_25_c(), o);
  Outcome out;
  const auto acid = [&](double ln_h) {
    Point p;
    detail::solve_joint(s, std::exp(ln_h), p, out.evaluations);
    ++out.evaluations;
    return detail::evaluate(s, p, std::exp(detail::ln_gamma1(s, p.i))).protons - s.shifted_total;
  };
  out.ph = -root_near(acid, std::log(detail::guess_h(s, 0.9))) / std::log(10.0);
  return out;
}

Outcome toms_lagged(const Totals& t, const EquilibriumOptions& o) {
  System s = detail::make_system(t, constants_at_25_c(), o);
  Outcome out;
  Point p;
  p.i = 0.5 * s.strong_z2 + 1e-3;
  p.ca = s.ca_total;
  p.mg = s.mg_total;
  double ln_h = std::log(detail::guess_h(s, 0.9));
  detail::shift_protons(s, std::exp(ln_h));
  for (int pass = 0; pass < 100; ++pass) {
    const double gamma1 = std::exp(detail::ln_gamma1(s, p.i));
    const double before = ln_h;
    ln_h = root_near(
        [&](double x) {
          p.h = std::exp(x);
          ++out.evaluations;
          return detail::evaluate(s, p, gamma1).protons - s.shifted_total;
        },
        ln_h);
    p.h = std::exp(ln_h);
    const detail::Sums v = detail::evaluate(s, p, gamma1);
    ++out.evaluations;
    if (std::abs(ln_h - before) < ln_h_tolerance) break;
    p.i = 0.5 * v.z2;
    if (s.ca_total > 0.0) p.ca *= s.ca_total / v.ca;
    if (s.mg_total > 0.0) p.mg *= s.mg_total / v.mg;
  }
  out.ph = -ln_h / std::log(10.0);
  return out;
}

Outcome whole(const Totals& t, const EquilibriumOptions& o) {
  const Equilibrium e = solve_equilibrium(t, constants_at_25_c(), o);
  return {e.ph, e.residual_evaluations};
}

double median(std::vector<double>& v) {
  std::nth_element(v.begin(), v.begin() + static_cast<std::ptrdiff_t>(v.size() / 2), v.end());
  return v[v.size() / 2];
}

double sink = 0.0;

}  // namespace

int main() {
  using enum Component;
  struct Case {
    const char* name;
    Totals totals;
    bool ideal;
  };
  std::vector<Case> cases;
  Totals t;
  t[citrate] = 0.01;
  cases.push_back({"citric, ideal", t, true});
  cases.push_back({"citric", t, false});
  t[uronate] = t[sodium] = 0.02;
  cases.push_back({"citric, gum", t, false});
  t[citrate] = 0.026;
  t[carbonate] = 3e-3;
  t[calcium] = 2e-3;
  t[magnesium] = 5e-4;
  cases.push_back({"citric, carbonate, gum, Ca, Mg", t, false});
  t[citrate] = 0.05;
  t[sodium] = 0.14;
  t[phosphate] = 0.01;
  t[lactate] = 4e-3;
  cases.push_back({"the same with citrate, phosphate, lactate", t, false});

  using Solver = Outcome (*)(const Totals&, const EquilibriumOptions&);
  const Solver solvers[] = {joint, toms_ph, toms_lagged, whole};
  const char* names[] = {"joint", "toms748 pH", "toms748 lag", "whole"};
  bool agree = true;
  std::printf("%-42s %-12s %9s %6s %14s %7s\n", "system", "solver", "median us", "evals", "pH",
              "/ joint");
  for (const Case& c : cases) {
    EquilibriumOptions o;
    o.ideal = c.ideal;
    std::vector<double> times[4];
    for (int round = 0; round < rounds; ++round)
      for (int k = 0; k < 4; ++k) {
        const auto start = std::chrono::steady_clock::now();
        for (int i = 0; i < solves_per_round; ++i) {
          Totals moved = c.totals;
          moved[citrate] *= 1.0 + 1e-3 * i;
          sink += solvers[k](moved, o).ph;
        }
        times[k].push_back(
            std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - start)
                .count() /
            solves_per_round);
      }
    const double base = median(times[0]);
    for (int k = 0; k < 4; ++k) {
      const Outcome out = solvers[k](c.totals, o);
      const double us = median(times[k]);
      std::printf("%-42s %-12s %9.3f %6d %14.10f %7.2f\n", k == 0 ? c.name : "", names[k], us,
                  out.evaluations, out.ph, us / base);
      agree = agree && std::abs(out.ph - joint(c.totals, o).ph) < 5e-11;
    }
  }
  if (!agree) std::printf("the solvers disagree\n");
  const long before = allocations;
  for (const Case& c : cases) sink += whole(c.totals, {}).ph;
  const long made = allocations - before;
  std::printf("heap allocations in %zu solves: %ld\n", cases.size(), made);
  return agree && made == 0 && std::isfinite(sink) ? 0 : 1;
}
