// A water report, and its figures as they are typed with their units.
#pragma once

#include <cmath>
#include <string_view>

#include "fuzz/outcome.hpp"
#include "gelwright/read.hpp"
#include "gelwright/water.hpp"
#include "gelwright/water_report.hpp"

namespace gelwright::fuzz {

inline bool is_sane(const ParsedAmount& parsed) {
  return parsed.value ? std::isfinite(*parsed.value) && *parsed.value >= 0 : !parsed.reason.empty();
}

inline Fate try_water(std::string_view text) {
  return fate_of([text] {
    for (const IonInfo& ion : ions())
      if (!is_sane(parse_concentration(ion.ion, text))) return false;
    if (!is_sane(parse_hardness(text)) || !is_sane(parse_alkalinity(text))) return false;
    const Water water = read_water_report(text, "fuzz").water;
    WaterQuestion question;
    question.bring_calcium_to_mg_per_l = 40;
    return prints(water_report(water, question));
  });
}

}  // namespace gelwright::fuzz
