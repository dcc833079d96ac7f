// The equations of the equilibrium, shared by the quick solver, the nested one and the benchmark.
//
// Unknowns: h = {H+} (activity), ca = [Ca2+], mg = [Mg2+], i = ionic strength. Every ligand is
// eliminated: at given unknowns its states share its total in proportion to the weights
//   w = beta h^n_h ca^n_ca mg^n_mg gamma1^(4 (n_ca + n_mg) - z^2),
// since Davies gives gamma_z = gamma1^(z^2). A constant measured as concentrations has another
// exponent (Species::activity_z2), further from -z^2 by the same step with every proton. Means of
// (n_h, n_ca, n_mg, z^2) over the states give the residuals, covariances the exact Jacobian in ln
// h, ln ca, ln mg and ln gamma1.
//
// Charge balance is written as a proton balance: counting from fully deprotonated ligands, the
// protons bound or free less the hydroxide equal what the strong ions leave over. This is the
// charge balance with the mass balances put in. The count starts, ligand by ligand, from the form
// that is common at the pH of the first guess (`n_shift`), so that no large numbers cancel.
#pragma once

#include <array>

#include "gelwright/equilibrium.hpp"

namespace gelwright::detail {

/// Components before calcium.
inline constexpr auto ligand_count = static_cast<std::size_t>(Component::calcium);
inline constexpr double trace_mol_per_kg = 1e-25;  ///< anything less is absent

/// One ligand of the system. Its states are species() [first, ca) metal-free, [ca, mg) with
/// calcium, [mg, last) with magnesium.
struct Ligand {
  Component component{};
  double total = 0.0;       ///< mol/kg; for open carbonate the fixed [CO2]
  bool fixed = false;       ///< open carbonate: amounts follow [CO2], not a total
  double n_shift = 0.0;     ///< protons are counted from here: 2 (CO2) for open carbonate
  double gamma_step = 0.0;  ///< activity_z2 beyond z^2, per proton; metal-free ligands only
  std::size_t first = 0, ca = 0, mg = 0, last = 0;
};

/// Everything that stays the same during one solve.
struct System {
  std::array<double, species_count> k{};  ///< beta, with the options' pKa put in
  std::array<Ligand, ligand_count> ligands{};
  std::size_t ligands_used = 0;
  double ca_total = 0.0, mg_total = 0.0, na_total = 0.0, k_total = 0.0;  ///< mol/kg
  double strong_z2 = 0.0;      ///< sum of Na, K, Cl, mol/kg
  double strong_charge = 0.0;  ///< chloride less sodium, potassium, 2 calcium, 2 magnesium, mol/kg
  double proton_total = 0.0;   ///< right side of the proton balance from bare ligands, mol/kg
  double shifted_total = 0.0;  ///< the same, counted from each ligand's n_shift
  double kw = 0.0, k_caoh = 0.0, a_ln10 = 0.0;
};

struct Point {
  double h = 1e-7, ca = 0.0, mg = 0.0, i = 0.0;
};

/// Sums over all species at one point; c is each species' molality.
struct Sums {
  double protons = 0.0;  ///< sum c (n_h - n_shift); free H+ counts 1, OH- counts -1
  /// Hydroxides and open carbonate short of CO2: what has n_h < 0 however counted, taken positive.
  double negative_protons = 0.0;
  double ca = 0.0, mg = 0.0;  ///< total calcium and magnesium
  double z2 = 0.0;            ///< sum c z^2, strong ions included
  // Second moments (covariances where a ligand total is kept).
  double nn = 0.0, n_ca = 0.0, n_mg = 0.0, n_z2 = 0.0;
  double ca_ca = 0.0, ca_mg = 0.0, ca_z2 = 0.0, mg_mg = 0.0, mg_z2 = 0.0, z2_z2 = 0.0;
  // What concentration constants add to n_z2 and z2_z2 where these stand for -d/d ln gamma1.
  double n_step = 0.0, z2_step = 0.0;
  // Derivatives of negative_protons in ln h, ln ca, ln mg, ln gamma1.
  double neg_h = 0.0, neg_ca = 0.0, neg_mg = 0.0, neg_gamma = 0.0;
};

/// Checks the input (throws InputError) and lays out the system.
System make_system(const Totals& totals, const Constants& constants,
                   const EquilibriumOptions& options);

/// ln of the activity coefficient of a single charge; `slope`, if given, receives d/dI.
double ln_gamma1(const System& system, double ionic_strength, double* slope = nullptr);

Sums evaluate(const System& system, const Point& point, double gamma1);

/// At fixed h and I a ligand is no more than total/(free + a_ca ca + a_mg mg + a_na na + a_k k).
struct ReducedLigand {
  double total = 0.0, free = 0.0;
  std::array<double, 4> a{};
  bool fixed = false;
};

/// Metal balances at fixed h and I: m_j (1 + hydroxide_j + sum over ligands a_j total/Z) = total_j,
/// j = calcium, magnesium, sodium, potassium.
struct ReducedSystem {
  std::array<ReducedLigand, ligand_count> ligands{};
  std::size_t ligands_used = 0;
  std::array<double, 4> total{};
  std::array<double, 4> unbound{1.0, 1.0, 1.0, 1.0};  ///< 1 + hydroxide, + open carbonate complexes
};

/// With `pairs`, sodium and potassium citrate count too; without, their balances are left out.
ReducedSystem reduce(const System& system, double h, double gamma1, bool pairs);

/// Newton on the metal balances from `metals` (mol/kg); returns the largest relative imbalance.
double solve_metals(const ReducedSystem& reduced, std::array<double, 4>& metals);

/// Left over at one point: how far from the tolerances of the promise.
struct Errors {
  double charge_scaled = 0.0, mass_relative = 0.0, ionic_relative = 0.0;
};

/// At fixed pH the proton balance is closed by strong acid; `acid` is its amount there.
Errors errors_at(const System& system, const Point& point, const Sums& sums, double acid);

/// Quick path; sets the shifts. `fixed_h` > 0 holds the pH. True if it converged to the tolerances;
/// adds to `evaluations` and leaves the last point in `point`.
bool solve_joint(System& system, double fixed_h, Point& point, int& evaluations);

/// Sure path: bracket on I, in it bracket on pH, in it brackets on calcium and magnesium. Takes the
/// shifts as they are. Throws NotConverged where a bracket holds no change of sign, `point` being
/// the last one tried.
void solve_nested(const System& system, double fixed_h, Point& point, int& evaluations);

/// A first guess of h from filling the acid sites with the protons at hand, weakest site first.
double guess_h(const System& system, double gamma1);

/// Sets every n_shift to the common form at h.
void shift_protons(System& system, double h);

}  // namespace gelwright::detail
