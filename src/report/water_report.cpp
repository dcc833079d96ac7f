#include "gelwright/water_report.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/rounding.hpp"
#include "gelwright/ingredient.hpp"

namespace gelwright {

namespace {

Section ions_section(const Water& water) {
  Section section{"ions", "", {}, {}, {}};
  const std::optional<CalciumMagnesium> both = calcium_and_magnesium(water, nullptr);
  for (const IonInfo& ion : ions()) {
    std::optional<double> amount = water.mg_per_l[ion.ion];
    const bool worked_out =
        !amount && both && (ion.ion == Ion::calcium || ion.ion == Ion::magnesium);
    if (worked_out)
      amount = ion.ion == Ion::calcium ? both->calcium_mg_per_l() : both->magnesium_mg_per_l();
    Figure figure{fmt::format("{}_mg_per_l", ion.key_stem), std::string(ion.key_stem),
                  Cell(amount, 1), "mg/L", "not in the report"};
    if (!amount) figure.shown = Shown::json_only;
    if (amount)
      figure.remark = fmt::format("= {} mmol/L{}", fixed(mmol_per_l(ion.ion, *amount), 3),
                                  worked_out ? ", worked out" : "");
    section.figures.push_back(std::move(figure));
  }
  section.figures.push_back({"ph", "pH", Cell(water.ph, 1), "", "not in the report", "",
                             water.ph ? Shown::everywhere : Shown::json_only});
  return section;
}

Section units_section(const Water& water) {
  Section section{"units", "", {}, {}, {}};
  const std::optional<CalciumMagnesium> both = calcium_and_magnesium(water, nullptr);
  Table hardness{
      "hardness",
      {{"unit", "hardness, total", false}, {"value", "", true}, {"key", "recipe key", false}},
      {}};
  const double total = both ? both->hardness_mmol_per_l() : 0;
  if (both)
    for (const HardnessUnitInfo& unit : hardness_units())
      hardness.rows.push_back({unit.label, Cell(hardness_in(unit.unit, total), 2),
                               fmt::format("hardness_{}", unit.key_suffix)});
  Table alkalinity{
      "alkalinity",
      {{"unit", "alkalinity", false}, {"value", "", true}, {"key", "recipe key", false}},
      {}};
  if (water.alkalinity_meq_per_l)
    for (const AlkalinityUnitInfo& unit : alkalinity_units())
      alkalinity.rows.push_back({unit.label,
                                 Cell(alkalinity_in(unit.unit, *water.alkalinity_meq_per_l), 2),
                                 unit.unit == AlkalinityUnit::acid_capacity_mmol_per_l
                                     ? std::string(unit.key_suffix)
                                     : fmt::format("alkalinity_{}", unit.key_suffix)});
  section.tables = {std::move(hardness), std::move(alkalinity)};
  if (both)
    section.figures.push_back(
        {"class", "Class", Cell(to_text(hardness_class(total))), "", "", "(WHO 2011)"});
  else
    section.figures.push_back({"class", "Class", Cell(), "", "no calcium and no hardness given"});
  if (!water.alkalinity_meq_per_l)
    section.figures.push_back({"alkalinity_given", "Alkalinity", Cell(), "", "not in the report"});
  return section;
}

std::string limit_text(double calcium, const Limit& limit) {
  switch (judge(calcium, limit)) {
    case LimitVerdict::below:
      return fmt::format("broken: {} mg/L is {} mg/L under the least of {:g}",
                         significant(calcium, 3), significant(*limit.at_least - calcium, 3),
                         *limit.at_least);
    case LimitVerdict::above:
      return fmt::format("broken: {} mg/L is {} mg/L over the most of {:g}",
                         significant(calcium, 3), significant(calcium - *limit.at_most, 3),
                         *limit.at_most);
    case LimitVerdict::kept:
    case LimitVerdict::unknown:
      break;
  }
  return "kept";
}

/// Grams of a calcium salt in a litre that bring `missing_mg_per_l` of calcium.
double salt_g_per_l(std::string_view salt, double missing_mg_per_l) {
  const Composition per_g = find_ingredient(salt)->per_g;
  return mmol_per_l(Ion::calcium, missing_mg_per_l) / 1000 / per_g.dissolved(Component::calcium);
}

Section change_section(const Water& water, const WaterQuestion& question) {
  Section section{"calcium", "CALCIUM", {}, {}, {}};
  const std::optional<double> calcium = calcium_mg_per_l(water);
  const Limit& limit = question.calcium_mg_per_l;
  if (limit.any())
    section.figures.push_back({"limit", "Limit",
                               calcium ? Cell(limit_text(*calcium, limit)) : Cell(), "",
                               "the report gives no calcium"});
  if (!question.bring_calcium_to_mg_per_l) return section;
  const double target = *question.bring_calcium_to_mg_per_l;
  const std::string label = fmt::format("To reach {:g} mg/L", target);
  if (!calcium) {
    section.figures.push_back({"change", label, Cell(), "", "the report gives no calcium"});
    return section;
  }
  if (*calcium > target) {
    const std::optional<double> share =
        share_of_low_mineral_water(target, *calcium, question.low_mineral_calcium_mg_per_l);
    section.figures.push_back({"low_mineral_share", label, share ? Cell(*share, 3) : Cell(), "",
                               "even the low-mineral water alone is above it",
                               share ? fmt::format("low-mineral water in the blend: {} g in 1000 g",
                                                   fixed(std::ceil(1000 * *share), 0))
                                     : ""});
    return section;
  }
  const double missing = target - *calcium;
  for (const std::string_view salt : {"calcium chloride dihydrate", "calcium lactate pentahydrate"})
    section.figures.push_back({salt == "calcium chloride dihydrate" ? "calcium_chloride_g_per_l"
                                                                    : "calcium_lactate_g_per_l",
                               label, Cell(salt_g_per_l(salt, missing), 3), "g", "",
                               fmt::format("of {} in 1 L", salt)});
  return section;
}

}  // namespace

Report water_report(const Water& water, const WaterQuestion& question) {
  Report report{"gelwright/water-1", fmt::format("Water: {}", water.name), {}, "hardness"};
  report.sections.push_back(ions_section(water));
  report.sections.push_back(units_section(water));
  report.sections.push_back(change_section(water, question));
  std::vector<std::string> odd;
  for (const WaterFinding& finding : plausibility(water)) odd.push_back(describe(finding));
  if (odd.empty()) odd.emplace_back("nothing stands out");
  report.sections.push_back({"plausibility",
                             "DOES THE REPORT ADD UP",
                             {},
                             {},
                             {{"plausibility", odd, Lines::Style::bullets}}});
  std::vector<WaterAssumption> assumed;
  complete(water, &assumed);
  Lines assumptions{"assumptions", {}, Lines::Style::bullets};
  for (const WaterAssumption each : assumed) assumptions.items.emplace_back(to_text(each));
  report.sections.push_back({"assumptions", "ASSUMED", {}, {}, {std::move(assumptions)}});
  return report;
}

}  // namespace gelwright
