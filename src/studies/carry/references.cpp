// Published ranges to hold a plan against.
#include "studies/carry/references.hpp"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

#include "base/dust.hpp"
#include "gelwright/carry.hpp"
#include "gelwright/elements.hpp"
#include "studies/carry/carry_table.hpp"

namespace gelwright {

double detail::flagged(std::string_view key) {
  for (const Datum& row : flag_thresholds())
    if (row.key == key) return row.value;
  throw std::logic_error("no threshold of this name");
}

std::string run_clock(double minutes) {
  const auto whole = static_cast<long>(std::lround(minutes));
  return fmt::format("{}:{:02}", whole / 60, whole % 60);
}

double carbohydrate_range_g_per_hour(double hours) {
  if (is_over(hours, value_of(carry_table, "carry.long-from")))
    return value_of(carry_table, "carry.range-long");
  if (!is_under(hours, value_of(carry_table, "carry.middle-from")))
    return value_of(carry_table, "carry.range-middle");
  return value_of(carry_table, "carry.range-short");
}

std::vector<CarryReference> carry_references(double hours) {
  constexpr double mg_per_mmol = molar_mass_g_per_mol("Na");
  double sodium_mmol = 0;
  double sodium_sd_mmol = 0;
  for (const Datum& row : carry_table)
    if (row.key == "carry.sweat-sodium") {
      sodium_mmol = row.value;
      sodium_sd_mmol = row.uncertainty;
    }
  return {
      {"carbohydrate in a run this long",
       {},
       carbohydrate_range_g_per_hour(hours),
       "g/h",
       "jeukendrup-2014"},
      {"glucose, of any carbohydrate",
       {},
       value_of(carry_table, "carry.glucose-most"),
       "g/h",
       "jeukendrup-2014"},
      {"fluid, by size, pace and weather", value_of(carry_table, "carry.fluid-least"),
       value_of(carry_table, "carry.fluid-most"), "L/h", "acsm-2007-fluid"},
      {"sweat of athletes", value_of(carry_table, "carry.sweat-least"),
       value_of(carry_table, "carry.sweat-most"), "L/h", "baker-2016"},
      {"sodium in sweat, two athletes in three", mg_per_mmol * (sodium_mmol - sodium_sd_mmol),
       mg_per_mmol * (sodium_mmol + sodium_sd_mmol), "mg/L", "baker-2016"},
      {"caffeine at once, healthy adults",
       {},
       flagged("flag.caffeine-single"),
       "mg",
       "efsa-2015-caffeine"},
      {"caffeine in a day, healthy adults",
       {},
       flagged("flag.caffeine-day"),
       "mg",
       "efsa-2015-caffeine"},
      {"caffeine in a day, in pregnancy",
       {},
       flagged("flag.caffeine-pregnancy"),
       "mg",
       "efsa-2015-caffeine"},
      {"added potassium in a day", {}, flagged("flag.potassium-care"), "g", "vkm-2017-potassium"},
  };
}

}  // namespace gelwright
