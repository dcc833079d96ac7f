#include "gelwright/formula.hpp"

#include "gelwright/error.hpp"

namespace gelwright {

namespace {

/// Water that comes with a dose made as a stock solution, g.
double stock_water_g(const std::optional<InputDose>& dose) {
  if (!dose || dose->stock_fraction <= 0) return 0;
  return dose->line.mass_g * (1 / dose->stock_fraction - 1);
}

}  // namespace

double water_mass_g(const WaterSpec& water, double solids_g, double others_g) {
  switch (water.basis) {
    case WaterBasis::fraction_of_total:
      return water.amount / (1 - water.amount) * (solids_g + others_g);
    case WaterBasis::per_g_solids:
      return water.amount * solids_g;
    case WaterBasis::mass_g:
      return water.amount;
  }
  return 0;
}

Formula formulate(const Inputs& inputs) {
  Formula formula;
  const auto add = [&formula](const InputLine& line) {
    formula.delivered += line.per_g * line.mass_g;
    return line.mass_g;
  };
  for (const InputLine& line : inputs.solids) formula.solids_g += add(line);
  if (inputs.acid) formula.acid_g = add(inputs.acid->line);
  if (inputs.calcium) formula.calcium_salt_g = add(inputs.calcium->line);

  const double others_g = formula.acid_g + formula.calcium_salt_g;
  formula.water_g = water_mass_g(inputs.water, formula.solids_g, others_g);
  formula.tap_g = formula.water_g - stock_water_g(inputs.acid) - stock_water_g(inputs.calcium);
  formula.total_g = formula.solids_g + others_g + formula.water_g;
  formula.chemistry_water_g = formula.water_g + formula.delivered.water_g;
  formula.soluble_solids_g = formula.delivered.soluble_solids_g;
  return formula;
}

void require_water(const Formula& formula, const std::string& document) {
  if (!(formula.chemistry_water_g > 0))
    throw InputError(document, {{"/water", "there is no water in this serving at all",
                                 "add water, or say how much water the syrup holds"}});
}

}  // namespace gelwright
