// What the program says of each recipe of standard input, one a line: "good", or the problems. With
// the argument "evaluate" the recipe is worked out too.
#include <cmath>
#include <iostream>
#include <string>
#include <string_view>

#include "gelwright/error.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/read.hpp"
#include "gelwright/resolve.hpp"

namespace {

std::string verdict(const std::string& document, bool work_out) {
  const gelwright::Recipe recipe = gelwright::read_recipe(document, "");
  if (!work_out) return "good";
  const gelwright::Evaluation made = gelwright::evaluate(gelwright::resolve(recipe));
  const bool sane = std::isfinite(made.water_phase.ph) && made.formula.total_g > 0 &&
                    std::isfinite(made.nutrition.energy_kj);
  return sane ? "good" : "not finite";
}

}  // namespace

int main(int argc, char** argv) {
  const bool work_out = argc > 1 && std::string_view(argv[1]) == "evaluate";
  for (std::string line; std::getline(std::cin, line);) {
    try {
      std::cout << verdict(line, work_out) << '\n';
    } catch (const gelwright::InputError& error) {
      for (const gelwright::Problem& each : error.problems())
        std::cout << each.where << ": " << each.what << " | ";
      std::cout << '\n';
    } catch (const gelwright::NotConverged& error) {
      std::cout << "not converged\n";
    }
  }
}
