#include "gelwright/equilibrium.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "chemistry/equilibrium_kernel.hpp"
#include "chemistry/equilibrium_table.hpp"
#include "gelwright/error.hpp"

namespace gelwright {
namespace {

using detail::Point;
using detail::System;

constexpr double promised_charge = 1e-12;
constexpr double promised_mass = 1e-10;
constexpr double lowest_ph = -1.0;
constexpr double highest_ph = 15.0;

/// Places in species() that the indices below need.
struct Places {
  std::size_t ca = species_index("Ca2+"), ca_oh = species_index("CaOH+");
  std::size_t mg = species_index("Mg2+"), na = species_index("Na+"), k = species_index("K+");
  std::size_t cl = species_index("Cl-"), cit = species_index("Cit3-");
  std::size_t co3 = species_index("CO32-"), so4 = species_index("SO42-");
  std::size_t hpo4 = species_index("HPO42-");
};

const Places& places() {
  static const Places the_places;
  return the_places;
}

[[noreturn]] void give_up(const System& s, const Equilibrium& e) {
  char text[320];
  std::snprintf(
      text, sizeof text,
      "equilibrium: stopped at pH %.12g, ionic strength %.6g mol/kg, charge residual %.2g, "
      "mass residual %.2g, after %d evaluations; protons to place %.6g mol/kg, calcium "
      "%.6g, magnesium %.6g",
      e.ph, e.ionic_strength_mol_per_kg, e.charge_residual_scaled, e.mass_residual_relative,
      e.residual_evaluations, s.proton_total, s.ca_total, s.mg_total);
  throw NotConverged(text);
}

/// Every species' amount, the charge and mass they add up to, and the buffer capacity. `acid` is
/// the strong acid that holds the pH, mol/kg, 0 where nothing does.
void count_species(const System& s, const Point& p, double gamma1, double acid, Equilibrium& e) {
  const auto all = species();
  double buffering = p.h / gamma1 + s.kw / (p.h * gamma1);
  double charge = p.h / gamma1 - s.kw / (p.h * gamma1), charges = buffering;
  double ca = 0.0, mg = 0.0;
  std::array<double, 10> g{};  // gamma1^(z^2)
  g[0] = 1.0;
  for (std::size_t i = 1; i < g.size(); ++i) g[i] = g[i - 1] * gamma1;
  const double ca_activity = p.ca * g[4], mg_activity = p.mg * g[4];
  const std::array<double, 4> h{1.0, p.h, p.h * p.h, p.h * p.h * p.h};
  for (std::size_t l = 0; l < s.ligands_used; ++l) {
    const detail::Ligand& ligand = s.ligands[l];
    double* amount = e.species_mol_per_kg.data();
    double z = 0.0, free = 0.0, mean = 0.0, square = 0.0;
    for (std::size_t i = ligand.first; i < ligand.last; ++i) {
      const Species& sp = all[i];
      const double metal = i < ligand.ca ? 1.0 : i < ligand.mg ? ca_activity : mg_activity;
      const double n = sp.n_h;
      amount[i] = s.k[i] * h[static_cast<std::size_t>(sp.n_h)] * metal /
                  g[static_cast<std::size_t>(sp.activity_z2)];
      z += amount[i];
      if (i >= ligand.ca) continue;
      free += amount[i];
      mean += n * amount[i];
      square += n * n * amount[i];
    }
    const double f = ligand.total / (ligand.fixed ? amount[ligand.ca - 1] : z);
    for (std::size_t i = ligand.first; i < ligand.last; ++i) {
      amount[i] *= f;
      charge += all[i].charge * amount[i];
      charges += std::abs(all[i].charge) * amount[i];
      if (i >= ligand.mg)
        mg += amount[i];
      else if (i >= ligand.ca)
        ca += amount[i];
    }
    // Without metals the ligand's whole total is metal-free; open carbonate exchanges CO2.
    buffering += ligand.fixed ? f * (square - 4.0 * mean + 4.0 * free)
                              : ligand.total * (square / free - mean * mean / (free * free));
  }
  const double ca_oh = s.k_caoh * ca_activity / (p.h * gamma1);
  ca += p.ca + ca_oh;
  mg += p.mg;
  const double sodium = s.na_total + std::max(-acid, 0.0);
  const double chloride = s.strong_z2 - s.na_total - s.k_total + std::max(acid, 0.0);
  e.species_mol_per_kg[places().ca] = p.ca;
  e.species_mol_per_kg[places().ca_oh] = ca_oh;
  e.species_mol_per_kg[places().mg] = p.mg;
  e.species_mol_per_kg[places().na] = sodium;
  e.species_mol_per_kg[places().k] = s.k_total;
  e.species_mol_per_kg[places().cl] = chloride;
  charge += 2.0 * (p.ca + p.mg) + ca_oh + sodium + s.k_total - chloride;
  charges += 2.0 * (p.ca + p.mg) + ca_oh + sodium + s.k_total + chloride;

  e.buffer_capacity_mol_per_kg_per_ph = std::log(10.0) * buffering;
  e.charge_residual_scaled = std::abs(charge) / charges;
  if (s.ca_total > 0.0) e.mass_residual_relative = std::abs(ca / s.ca_total - 1.0);
  if (s.mg_total > 0.0)
    e.mass_residual_relative = std::max(e.mass_residual_relative, std::abs(mg / s.mg_total - 1.0));
}

/// Free metals with sodium and potassium citrate counted, at the pH and I already found, and the
/// saturation indices there.
void count_pairs(const System& s, const Point& p, double gamma1, const Constants& constants,
                 Equilibrium& e) {
  e.free_calcium_mol_per_kg = p.ca;
  e.free_magnesium_mol_per_kg = p.mg;
  if (s.ca_total + s.mg_total == 0.0) return;
  double citrate_scale = 1.0;
  const auto at = [&](std::size_t i) { return e.species_mol_per_kg[i]; };
  std::array<double, 4> metals{p.ca, p.mg, at(places().na), at(places().k)};
  std::array<double, detail::ligand_count> scale{};
  scale.fill(1.0);
  const bool paired = at(places().cit) > 0.0 && metals[2] + metals[3] > 0.0;
  if (paired) {
    detail::ReducedSystem r = detail::reduce(s, p.h, gamma1, true);
    r.total[2] = metals[2];  // with any sodium hydroxide that held the pH
    const auto bound = [&](const detail::ReducedLigand& ligand, const std::array<double, 4>& m) {
      return ligand.free + ligand.a[0] * m[0] + ligand.a[1] * m[1] + ligand.a[2] * m[2] +
             ligand.a[3] * m[3];
    };
    const std::array<double, 4> before{p.ca, p.mg, 0.0, 0.0};
    if (!(detail::solve_metals(r, metals) < promised_mass)) give_up(s, e);
    for (std::size_t l = 0; l < r.ligands_used; ++l) {
      const auto c = static_cast<std::size_t>(s.ligands[l].component);
      if (!r.ligands[l].fixed) scale[c] = bound(r.ligands[l], before) / bound(r.ligands[l], metals);
    }
    citrate_scale = scale[static_cast<std::size_t>(Component::citrate)];
    e.free_calcium_mol_per_kg = metals[0];
    e.free_magnesium_mol_per_kg = metals[1];
  }
  if (s.ca_total == 0.0) return;

  const double log_gamma1 = std::log10(gamma1);
  const double log_ca = std::log10(metals[0]) + 4.0 * log_gamma1;
  const auto log_activity = [&](std::size_t place, Component c, int z2) -> std::optional<double> {
    const double amount = at(place) * scale[static_cast<std::size_t>(c)];
    if (!(amount > 0.0)) return std::nullopt;
    return std::log10(amount) + z2 * log_gamma1;
  };
  if (const auto a = log_activity(places().co3, Component::carbonate, 4))
    e.saturation.calcite = log_ca + *a - constants.log_ksp_calcite;
  if (const auto a = log_activity(places().so4, Component::sulfate, 4))
    e.saturation.gypsum = log_ca + *a - constants.log_ksp_gypsum;
  if (const auto a = log_activity(places().hpo4, Component::phosphate, 4))
    e.saturation.calcium_phosphate_dihydrate = log_ca + *a - constants.log_ksp_calcium_phosphate;
  if (at(places().cit) > 0.0)
    e.saturation.tricalcium_citrate =
        3.0 * log_ca + 2.0 * (std::log10(at(places().cit) * citrate_scale) + 9.0 * log_gamma1) -
        constants.log_ksp_tricalcium_citrate;
}

struct Solved {
  Equilibrium equilibrium;
  double strong_acid_mol_per_kg = 0.0;  ///< that holds the pH; negative is sodium hydroxide
};

/// `fixed_h` > 0 holds the pH with strong acid.
Solved solve(const Totals& totals, double fixed_h, const Constants& constants,
             const EquilibriumOptions& options) {
  System s = detail::make_system(totals, constants, options);
  Solved solved;
  Equilibrium& e = solved.equilibrium;
  Point p;
  if (options.nested_only || !detail::solve_joint(s, fixed_h, p, e.residual_evaluations)) {
    e.nested = true;
    if (options.nested_only)  // otherwise the shifts are set
      detail::shift_protons(s, fixed_h > 0.0 ? fixed_h : detail::guess_h(s, 1.0));
    try {
      detail::solve_nested(s, fixed_h, p, e.residual_evaluations);
    } catch (const NotConverged&) {
      // Nothing to mend: the check of the promise below refuses the point and tells the whole
      // state.
    }
  }
  const double gamma1 = std::exp(detail::ln_gamma1(s, p.i));
  if (fixed_h > 0.0)
    solved.strong_acid_mol_per_kg = detail::evaluate(s, p, gamma1).protons - s.shifted_total;
  e.ph = -std::log10(p.h);
  e.ionic_strength_mol_per_kg = p.i;
  count_species(s, p, gamma1, solved.strong_acid_mol_per_kg, e);
  if (!(e.charge_residual_scaled < promised_charge && e.mass_residual_relative < promised_mass))
    give_up(s, e);
  count_pairs(s, p, gamma1, constants, e);
  return solved;
}

}  // namespace

Equilibrium solve_equilibrium(const Totals& totals, const Constants& constants,
                              const EquilibriumOptions& options) {
  return solve(totals, 0.0, constants, options).equilibrium;
}

double proton_demand_mol_per_kg(const Totals& totals, double ph, const Constants& constants,
                                const EquilibriumOptions& options) {
  if (!(ph >= lowest_ph && ph <= highest_ph))
    throw InputError("", {{"ph", "the pH is outside -1 to 15", ""}});
  return solve(totals, std::pow(10.0, -ph), constants, options).strong_acid_mol_per_kg;
}

double davies_gamma(int charge, double ionic_strength_mol_per_kg) {
  System s;
  s.a_ln10 = constants_at_25_c().davies_a * std::log(10.0);
  return std::exp(charge * charge * detail::ln_gamma1(s, std::max(ionic_strength_mol_per_kg, 0.0)));
}

double gdl_hydrolysed_fraction(double hours, double ph) {
  constexpr auto& table = detail::equilibrium_table;
  const double undissociated =
      1.0 / (1.0 + std::pow(10.0, ph - value_of(table, "gluconic.pka_for_lactone")));
  // Lactone to acid at k, undissociated acid back to lactone at k K.
  const double back = std::pow(10.0, value_of(table, "gluconic.log_lactonisation")) * undissociated;
  const double rate_per_hour = 3600.0 * value_of(table, "gluconic.hydrolysis_rate");
  const double time = std::max(hours, 0.0);
  return -std::expm1(-rate_per_hour * (1.0 + back) * time) / (1.0 + back);
}

std::span<const Datum> equilibrium_data() {
  return detail::equilibrium_table;
}

}  // namespace gelwright
