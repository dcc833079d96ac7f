// Reads one composition per line, prints what the solver makes of it; for second_solver.py.
//
//   solve_totals --constants              the species table and constants as JSON
//   solve_totals [--buffer-pka X] < in    each line: 0 or 1 (CO2 closed or open), then the totals
//   in
//                                         mol/kg in the order of Component
// Output per line: pH, I, free calcium (pairs counted), with 17 significant digits.
#include <cstdio>
#include <cstdlib>
#include <iostream>
#include <sstream>
#include <string>

#include "gelwright/equilibrium.hpp"

namespace {

using namespace gelwright;

void print_constants() {
  const Constants& c = constants_at_25_c();
  std::printf("{\"davies_a\": %.17g, \"kw\": %.17g, \"kh\": %.17g,\n \"components\": [", c.davies_a,
              c.kw, c.kh_mol_per_kg_atm);
  for (std::size_t i = 0; i < component_count; ++i) {
    const auto component = static_cast<Component>(i);
    std::printf("%s{\"name\": \"%s\", \"charge\": %d}", i == 0 ? "" : ", ",
                std::string(to_text(component)).c_str(), charge_of(component));
  }
  std::printf("],\n \"species\": [");
  for (std::size_t i = 0; i < species_count; ++i) {
    const Species& s = species()[i];
    std::printf(
        "%s\n  {\"name\": \"%s\", \"component\": \"%s\", \"h\": %d, \"ca\": %d, \"mg\": %d, "
        "\"na\": %d, \"k\": %d, \"charge\": %d, \"activity_z2\": %d, \"beta\": %.17g}",
        i == 0 ? "" : ",", std::string(s.name).c_str(), std::string(to_text(s.component)).c_str(),
        s.n_h, s.n_ca, s.n_mg, s.n_na, s.n_k, s.charge, s.activity_z2, c.beta[i]);
  }
  std::printf("]}\n");
}

}  // namespace

int main(int argc, char** argv) {
  EquilibriumOptions options;
  for (int i = 1; i < argc; ++i) {
    const std::string option = argv[i];
    if (option == "--constants") {
      print_constants();
      return 0;
    }
    if (option == "--buffer-pka" && i + 1 < argc) {
      options.buffer_pka = std::strtod(argv[++i], nullptr);
    } else {
      std::fprintf(stderr, "solve_totals: unknown option %s\n", option.c_str());
      return 2;
    }
  }
  std::string line;
  while (std::getline(std::cin, line)) {
    std::istringstream in(line);
    int open = 0;
    Totals t;
    in >> open;
    for (double& amount : t.mol_per_kg) in >> amount;
    if (!in) {
      std::fprintf(stderr, "solve_totals: cannot read: %s\n", line.c_str());
      return 2;
    }
    options.carbon_dioxide = open != 0 ? CarbonDioxide::open : CarbonDioxide::closed;
    const Equilibrium e = solve_equilibrium(t, constants_at_25_c(), options);
    std::printf("%.17g %.17g %.17g\n", e.ph, e.ionic_strength_mol_per_kg,
                e.free_calcium_mol_per_kg);
  }
  return 0;
}
