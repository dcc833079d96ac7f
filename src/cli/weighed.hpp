// "water=512 g": what was really weighed into a batch.
#pragma once

#include <string>
#include <vector>

#include "gelwright/mend.hpp"

namespace gelwright::cli {

/// Reads what follows --weighed, for a whole batch of the recipe: "acid", "calcium salt", "water"
/// or the name of a solid, and a mass in g, kg or mg. Throws InputError with everything wrong.
std::vector<WeighedInstead> read_weighed(const std::vector<std::string>& texts,
                                         const Recipe& recipe);

}  // namespace gelwright::cli
