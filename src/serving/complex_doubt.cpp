#include "serving/complex_doubt.hpp"

#include <cmath>
#include <numbers>

#include "gelwright/species.hpp"

namespace gelwright::detail {

namespace {

constexpr Datum data[] = {
    {"complex-doubt.log-k", 0.3, "1", 0,
     "95 %, log K of NaCit, KCit, CaHCit and CaH2Cit; other sets give 1.03 for NaCit", "judgement",
     Standing::judgement},
};
constexpr double log_k_half_width = value_of(data, "complex-doubt.log-k");

/// Citrate in all its forms of a solution solved without pairs.
struct Citrate {
  double all = 0;
  double bare = 0;
  double protons = 0;
};

Citrate citrate_of(const Equilibrium& solved) {
  Citrate citrate;
  const std::span<const Species> table = species();
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (table[i].component != Component::citrate) continue;
    const double amount = solved.species_mol_per_kg[i];
    citrate.all += amount;
    citrate.protons += table[i].n_h * amount;
    if (table[i].name == "Cit3-") citrate.bare = amount;
  }
  return citrate;
}

/// Stability of a pair as it holds for concentrations: charges 1 and 3 make 2.
double pair_constant(std::string_view name, double gamma1) {
  constexpr int charges_gone = 1 + 9 - 4;
  return std::pow(10.0, species()[species_index(name)].log_k) * std::pow(gamma1, charges_gone);
}

}  // namespace

ComplexDoubt complex_doubt(const Equilibrium& solved) {
  static const std::size_t sodium = species_index("Na+");
  static const std::size_t potassium = species_index("K+");
  static const std::size_t calcium = species_index("Ca2+");
  static const std::size_t cacit = species_index("CaCit-");
  static const std::size_t cahcit = species_index("CaHCit");
  static const std::size_t cah2cit = species_index("CaH2Cit+");
  ComplexDoubt doubt;
  const Citrate citrate = citrate_of(solved);
  if (!(citrate.bare > 0)) return doubt;
  const auto at = [&solved](std::size_t place) { return solved.species_mol_per_kg[place]; };

  const double gamma1 = davies_gamma(1, solved.ionic_strength_mol_per_kg);
  const double na_k = pair_constant("NaCit2-", gamma1);
  const double k_k = pair_constant("KCit2-", gamma1);
  const double bare_share = citrate.bare / citrate.all;
  // The pairs use up sodium as they form; a few rounds settle it.
  constexpr int rounds = 20;
  double bound = 0;
  double paired = 0;  // pairs for each citrate that is not in one
  for (int round = 0; round < rounds; ++round) {
    const double free_bare = citrate.bare / (1 + paired);
    const double na = at(sodium) / (1 + na_k * free_bare);
    const double k = at(potassium) / (1 + k_k * free_bare);
    paired = bare_share * (na_k * na + k_k * k);
    bound = citrate.all * paired / (1 + paired);
  }
  // A citrate that is drawn into a pair leaves its share of protons behind.
  const double shift =
      bound * citrate.protons / citrate.all / solved.buffer_capacity_mol_per_kg_per_ph;
  const double relative = std::numbers::ln10 * log_k_half_width;
  doubt.ph = shift * std::hypot(1.0, relative);

  const double all_calcium = at(calcium) + at(cacit) + at(cahcit) + at(cah2cit);
  if (all_calcium > 0)
    doubt.free_calcium_decades =
        log_k_half_width * std::hypot(at(cahcit) / all_calcium, at(cah2cit) / all_calcium,
                                      at(cacit) / all_calcium * paired / (1 + paired));
  return doubt;
}

std::span<const Datum> complex_doubt_data() {
  return data;
}

}  // namespace gelwright::detail
