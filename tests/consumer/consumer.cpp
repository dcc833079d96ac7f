#include <cstdio>

#include "gelwright/evaluate.hpp"
#include "gelwright/read.hpp"

int main() {
  const gelwright::Recipe recipe = gelwright::read_recipe(
      R"({"format": "gelwright/recipe-1", "name": "consumer", "form": "pouch",
          "solids": [{"ingredient": "sucrose", "mass_g": 25}], "water": {"mass_g": 15}})",
      "inline");
  const gelwright::Evaluation found = gelwright::evaluate(gelwright::inputs_of(recipe));
  std::printf("%.1f %% soluble solids\n", found.formula.soluble_solids_percent());
  return found.formula.total_g == 40 ? 0 : 1;
}
