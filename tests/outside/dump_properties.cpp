// Prints "name value" lines for the outside checks to compare: hardness factors in mg/L CaCO3 and
// the density of sucrose solutions at 20 degC in kg/m3, one line per percent.
#include <cstdio>

#include "gelwright/properties.hpp"
#include "gelwright/water_units.hpp"

int main() {
  using namespace gelwright;
  for (const HardnessUnitInfo& row : hardness_units())
    std::printf("hardness_%.*s %.15g\n", static_cast<int>(row.key_suffix.size()),
                row.key_suffix.data(), hardness_in(HardnessUnit::mg_caco3_per_l, row.mmol_per_l));
  for (int percent = 0; percent <= 85; ++percent)
    std::printf("density_%d %.15g\n", percent,
                sugar_solution_density_kg_per_m3(percent / 100.0, 20.0));
}
