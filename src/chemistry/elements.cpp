#include "gelwright/elements.hpp"

#include <string>

#include "gelwright/error.hpp"

namespace gelwright {

std::span<const Datum> elements_data() {
  return atomic_weights;
}

void refuse_formula(std::string_view formula, const char* reason) {
  throw InputError("", {{"formula \"" + std::string(formula) + "\"", reason,
                         "write it like CaCl2.2H2O or Ca(HCO3)2"}});
}

}  // namespace gelwright
