// The sentences a reader sees for what `water.cpp` assumes and finds.
#include <cstdio>

#include "gelwright/water.hpp"

namespace gelwright {

std::string describe(const WaterFinding& finding) {
  const char* pattern = "";
  switch (finding.kind) {
    case WaterFindingKind::ion_balance:
      pattern =
          "cations and anions differ by %+.1f %%, more than %.0f %%: a value or a unit is "
          "probably wrong";
      break;
    case WaterFindingKind::hardness_below_calcium:
      pattern =
          "total hardness (%.2f mmol/L) is below the calcium alone (%.2f mmol/L): check the "
          "unit of both";
      break;
    case WaterFindingKind::hardness_is_not_the_sum:
      pattern = "total hardness (%.2f mmol/L) is not calcium plus magnesium (%.2f mmol/L)";
      break;
    case WaterFindingKind::alkalinity_beyond_hardness:
      pattern =
          "alkalinity (%.2f meq/L) is more than this hardness usually carries (%.2f meq/L) "
          "and no sodium is reported: softened water, or a unit slip";
      break;
    case WaterFindingKind::ph_out_of_range:
      pattern = "pH %.1f is beyond %.0f, not usual for drinking water";
      break;
    case WaterFindingKind::hydroxide_alkalinity:
      pattern =
          "the titration to pH 8.3 (%.2f meq/L) is more than half of the total (%.2f meq/L): "
          "the water holds hydroxide, not for drinking as it is";
      break;
  }
  char text[256];
  std::snprintf(text, sizeof text, pattern, finding.measured, finding.limit);
  return text;
}

std::string_view to_text(WaterAssumption assumption) {
  switch (assumption) {
    case WaterAssumption::calcium_magnesium_split:
      return "only total hardness is known: calcium to magnesium taken as 3 to 1 by mole";
    case WaterAssumption::calcium_from_hardness:
      return "calcium taken as the total hardness less the magnesium";
    case WaterAssumption::magnesium_from_hardness:
      return "magnesium taken as the total hardness less the calcium";
    case WaterAssumption::magnesium_from_calcium:
      return "magnesium not reported: taken as a third of the calcium by mole";
    case WaterAssumption::calcium_from_magnesium:
      return "calcium not reported: taken as three times the magnesium by mole";
    case WaterAssumption::hardness_taken_as_zero:
      return "no calcium, magnesium or hardness reported: taken as none";
    case WaterAssumption::alkalinity_from_charge:
      return "alkalinity not reported: taken as the charge the other ions leave";
    case WaterAssumption::alkalinity_taken_as_zero:
      return "alkalinity not reported: taken as none, so the real pH is higher than computed";
    case WaterAssumption::sodium_closes_charge:
      return "sodium not reported: taken as what the anions call for";
    case WaterAssumption::chloride_closes_charge:
      return "chloride not reported: taken as what the cations call for";
    case WaterAssumption::imbalance_closed_with_sodium:
      return "the report has too few cations: the rest counted as sodium";
    case WaterAssumption::imbalance_closed_with_chloride:
      return "the report has too few anions: the rest counted as chloride";
    case WaterAssumption::other_ions_taken_as_zero:
      return "ions not reported and not needed for the charge: taken as none";
  }
  return "";
}

std::string_view to_text(HardnessClass hardness) {
  switch (hardness) {
    case HardnessClass::soft:
      return "soft";
    case HardnessClass::moderately_hard:
      return "moderately hard";
    case HardnessClass::hard:
      return "hard";
    case HardnessClass::very_hard:
      return "very hard";
  }
  return "";
}

}  // namespace gelwright
