#include "serving/proton_shares.hpp"

#include <algorithm>

#include "gelwright/gums.hpp"

namespace gelwright::detail {

namespace {

/// Protons on one mol of each component.
Amounts carried_by(const Equilibrium& solved, const Totals& totals) {
  Amounts carried{};
  const std::span<const Species> table = species();
  for (std::size_t i = 0; i < table.size(); ++i)
    carried[index_of(table[i].component)] += table[i].n_h * solved.species_mol_per_kg[i];
  for (std::size_t c = 0; c < component_count; ++c)
    carried[c] = totals.mol_per_kg[c] > 0 ? carried[c] / totals.mol_per_kg[c] : 0;
  return carried;
}

/// Protons that amounts of ions were sold with less those they carry now, mol.
double given_off(const Amounts& mol, const Amounts& carried) {
  double given = 0;
  for (std::size_t c = 0; c < component_count; ++c)
    given -= mol[c] * (charge_of(static_cast<Component>(c)) + carried[c]);
  return given;
}

Amounts dissolved_mol(const Composition& amounts, const DissolvedParts& dissolved) {
  Amounts mol = amounts.dissolved_mol;
  for (std::size_t c = 0; c < component_count; ++c)
    mol[c] += dissolved.slow * amounts.acid_only_mol[c];
  mol[index_of(Component::gluconate)] += dissolved.lactone * amounts.lactone_mol;
  return mol;
}

/// Protons the gums were sold with less those they carry now, mol.
double given_by_gum(const Composition& amounts, double carried) {
  double given = 0;
  for (std::size_t g = 0; g < gum_count; ++g)
    given += amounts.carboxylate_mol[g] * (1 - neutralised_fraction(static_cast<Gum>(g)) - carried);
  return given;
}

}  // namespace

std::optional<ProtonShares> proton_shares(const Equilibrium& solved, const Totals& totals,
                                          const Formula& formula, const Inputs& inputs,
                                          const DissolvedParts& dissolved) {
  const Amounts carried = carried_by(solved, totals);
  double given = 0;    // by those that gave more than they took
  double balance = 0;  // of all; what is left over stays free, what is missing came from water
  const auto enter = [&](double amount) {
    given += std::max(0.0, amount);
    balance += amount;
    return std::max(0.0, -amount);
  };
  const auto enter_line = [&](const InputLine& line) {
    const Composition amounts = line.per_g * line.mass_g;
    enter(given_off(dissolved_mol(amounts, dissolved), carried) -
          given_by_gum(amounts, carried[index_of(Component::uronate)]));
  };
  for (const InputLine& line : inputs.solids) enter_line(line);
  if (inputs.acid) enter_line(inputs.acid->line);
  if (inputs.calcium) enter_line(inputs.calcium->line);
  const double by_gum =
      enter(given_by_gum(formula.delivered, carried[index_of(Component::uronate)]));
  const double by_alkalinity =
      enter(given_off(dissolved_mol(inputs.tap, std::max(0.0, formula.tap_g) / 1000), carried));
  given += std::max(0.0, -balance);
  if (given <= 0) return std::nullopt;
  return ProtonShares{by_alkalinity / given, by_gum / given};
}

}  // namespace gelwright::detail
