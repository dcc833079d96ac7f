#include "water/carbonate.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "base/roots.hpp"
#include "gelwright/species.hpp"

namespace gelwright::detail {

namespace {

double species_constant(std::string_view key) {
  for (const Datum& row : species_data())
    if (row.key == key) return row.value;
  throw NoSuchDatum{};
}

struct Constants {
  double k1 = std::pow(10.0, -species_constant("carbonic.pka1"));
  double k2 = std::pow(10.0, -species_constant("carbonic.pka2"));
  double kw = std::pow(10.0, -species_constant("water.pkw"));
  double most_carbon_dioxide_mol_per_l = std::pow(10.0, species_constant("carbon_dioxide.log_kh"));
};

const Constants& constants() {
  static const Constants k;
  return k;
}

}  // namespace

double most_carbon_dioxide_mmol_per_l() {
  return 1000 * constants().most_carbon_dioxide_mol_per_l;
}

double carbonate_beside_alkalinity_mmol_per_l(double alkalinity_meq_per_l, double ph) {
  const Constants& k = constants();
  const double h = std::pow(10.0, -ph);
  const double hydroxide = k.kw / h - h;
  // Alkalinity = HCO3- + 2 CO3 2- + OH- - H+; what hydroxide alone explains is no carbonate.
  const double bicarbonate =
      std::max(0.0, alkalinity_meq_per_l / 1000 - hydroxide) / (1 + 2 * k.k2 / h);
  const double carbonate = bicarbonate * k.k2 / h;
  const double carbon_dioxide = std::min(bicarbonate * h / k.k1, k.most_carbon_dioxide_mol_per_l);
  const double all = carbon_dioxide + bicarbonate + carbonate;
  return 1000 * all - alkalinity_meq_per_l;
}

double ph_of_carbonate(double alkalinity_meq_per_l, double beside_mmol_per_l) {
  const auto too_low = [&](double ph) {
    return carbonate_beside_alkalinity_mmol_per_l(alkalinity_meq_per_l, ph) - beside_mmol_per_l;
  };
  constexpr double lowest_ph = 3;
  constexpr double highest_ph = 12;
  if (too_low(lowest_ph) <= 0) return lowest_ph;
  if (too_low(highest_ph) >= 0) return highest_ph;
  return find_root(too_low, lowest_ph, highest_ph, {.x_tolerance = 1e-9});
}

}  // namespace gelwright::detail
