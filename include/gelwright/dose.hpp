// One unknown found, and what it means at the scale.
#pragma once

#include <string>
#include <string_view>

#include "gelwright/report.hpp"
#include "gelwright/resolve.hpp"

namespace gelwright {

/// What `dose` is asked to reach.
enum class Target { ph, ratio, water_fraction, soluble_solids, readable };

struct DoseQuestion {
  Target target = Target::ph;
  double value = 0;  ///< pH, R2, fraction 0 to 1, %; unused for `readable`
};

/// The answer, and the inputs with it in place (or with the nearest reachable).
struct DoseAnswer {
  Solution solution;
  Inputs inputs;
};

/// Solves the question; other targets of the recipe are already met in `inputs`.
DoseAnswer answer(const Inputs& inputs, const DoseQuestion& question);

/// The dose per serving and batch, on the user's scale, and what the scale's error makes of it.
Report dose_report(const DoseAnswer& answer, const DoseQuestion& question);

/// The recipe document with the answer written in: the same text otherwise, keys in their order.
/// Throws InputError if it is not JSON.
std::string with_answer(std::string_view json_text, const std::string& document,
                        const DoseAnswer& answer, const DoseQuestion& question);

}  // namespace gelwright
