// The keys of a water: a report, or a blend. Ions and units have their own tables, from which the
// rows are made.
#include <fmt/format.h>

#include <deque>

#include "gelwright/water_units.hpp"
#include "read/water_keys.hpp"

namespace gelwright::detail {

namespace {

/// Texts made for rows, which hold views of them.
std::string_view kept(std::string text) {
  static std::deque<std::string> texts;
  return texts.emplace_back(std::move(text));
}

/// An everyday soft water, for examples.
constexpr double example_hardness_mmol_per_l = 0.7;
constexpr double example_alkalinity_meq_per_l = 1.16;
double example_mg_per_l(Ion ion) {
  switch (ion) {
    case Ion::calcium:
      return 23;
    case Ion::magnesium:
      return 3.1;
    case Ion::sodium:
      return 9;
    case Ion::potassium:
      return 1;
    case Ion::chloride:
      return 12;
    case Ion::sulfate:
      return 11;
    case Ion::nitrate:
      return 4;
  }
  return 1;
}

std::string_view meaning(HardnessUnit unit) {
  switch (unit) {
    case HardnessUnit::mmol_per_l:
      return "calcium and magnesium together";
    case HardnessUnit::meq_per_l:
      return "two to the mmol";
    case HardnessUnit::mg_caco3_per_l:
      return "written as CaCO3";
    case HardnessUnit::german_degrees:
      return "10 mg CaO in a litre";
    case HardnessUnit::french_degrees:
      return "10 mg CaCO3 in a litre";
    case HardnessUnit::english_degrees:
      return "1 grain of CaCO3 in an imperial gallon";
    case HardnessUnit::grains_per_us_gallon:
      return "grains of CaCO3 in a US gallon";
  }
  return {};
}

std::string_view meaning(AlkalinityUnit unit) {
  switch (unit) {
    case AlkalinityUnit::meq_per_l:
      return {};
    case AlkalinityUnit::acid_capacity_mmol_per_l:
      return "acid capacity: mmol of acid for a litre, to pH 4.3; the same number as meq/L";
    case AlkalinityUnit::mg_caco3_per_l:
      return "written as CaCO3";
    case AlkalinityUnit::mg_hco3_per_l:
      return "written as HCO3; also what a report calls bicarbonate";
    case AlkalinityUnit::german_degrees:
      return "carbonate hardness";
    case AlkalinityUnit::french_degrees:
      return "TAC";
  }
  return {};
}

Key concentration(std::string_view name, std::string_view what, std::string_view more,
                  std::string_view unit, double example) {
  return {.name = name,
          .shape = Shape::measured,
          .what = what,
          .more = more,
          .unit = unit,
          .bounds = ion_bounds,
          .example = kept(fmt::format("{:.2g}", example))};
}

ObjectType make_water_report() {
  ObjectType type{
      .id = "water_report",
      .what =
          "A water analysis. What is not reported is left out, which is not the same as zero; "
          "what then has to be assumed is printed.",
      .keys = {{.name = "name",
                .shape = Shape::text,
                .what = "what the water is called",
                .example = R"("club house tap")"}}};
  for (const IonInfo& ion : ions()) {
    const std::string_view mass_key = kept(ion_mass_key(ion));
    const std::string_view molar_key = kept(ion_molar_key(ion));
    const std::string_view what = kept(fmt::format("{} as {}", ion.key_stem, ion.formula));
    const double example = example_mg_per_l(ion.ion);
    type.keys.push_back(concentration(mass_key, what, {}, "mg/L", example));
    type.keys.push_back(concentration(molar_key, what, {}, "mmol/L", mmol_per_l(ion.ion, example)));
    type.keys.push_back({.name = ion.key_stem,
                         .shape = Shape::amount,
                         .what = kept(fmt::format("{} with its unit", ion.key_stem)),
                         .example = kept(fmt::format("\"{:.2g} mg/L\"", example))});
    type.rules.push_back({RuleKind::at_most_one,
                          {mass_key, molar_key, ion.key_stem},
                          {},
                          kept(fmt::format("{} is given twice", ion.key_stem))});
    type.slips.push_back({fmt::format("{}_ppm", ion.key_stem), "its unit is missing or unclear",
                          fmt::format("write \"{}\" or \"{}\"", mass_key, molar_key)});
  }
  std::vector<std::string_view> hardness_keys;
  for (const HardnessUnitInfo& unit : hardness_units()) {
    hardness_keys.push_back(kept(hardness_key(unit)));
    type.keys.push_back(concentration(hardness_keys.back(), "total hardness", meaning(unit.unit),
                                      unit.label,
                                      hardness_in(unit.unit, example_hardness_mmol_per_l)));
  }
  std::vector<std::string_view> alkalinity_keys;
  for (const AlkalinityUnitInfo& unit : alkalinity_units()) {
    alkalinity_keys.push_back(kept(alkalinity_key(unit)));
    type.keys.push_back(concentration(alkalinity_keys.back(), "total alkalinity",
                                      meaning(unit.unit), unit.label,
                                      alkalinity_in(unit.unit, example_alkalinity_meq_per_l)));
  }
  type.keys.push_back({.name = hardness_text,
                       .shape = Shape::amount,
                       .what = "total hardness with its unit",
                       .example = R"("8 grains per gallon")"});
  hardness_keys.push_back(hardness_text);
  type.keys.push_back({.name = alkalinity_text,
                       .shape = Shape::amount,
                       .what = "total alkalinity with its unit",
                       .example = R"("128 mg/L HCO3")"});
  alkalinity_keys.push_back(alkalinity_text);
  type.rules.push_back({RuleKind::at_most_one, hardness_keys, {}, "the hardness is given twice"});
  type.rules.push_back(
      {RuleKind::at_most_one, alkalinity_keys, {}, "the alkalinity is given twice"});

  constexpr std::string_view phenolphthalein = "phenolphthalein_alkalinity_meq_per_l";
  type.keys.push_back({.name = phenolphthalein,
                       .what = "alkalinity titrated to pH 8.3",
                       .more = "beside a total alkalinity of at least twice as much",
                       .unit = "meq/L",
                       .bounds = ion_bounds,
                       .example = "0"});
  std::vector<std::string_view> with_total{phenolphthalein};
  with_total.insert(with_total.end(), alkalinity_keys.begin(), alkalinity_keys.end());
  type.rules.push_back({RuleKind::needs,
                        with_total,
                        "needs a total alkalinity that is at least as large",
                        {},
                        "check the two titrations"});
  type.keys.push_back({.name = "ph",
                       .what = "pH of the water",
                       .more = "with the alkalinity it says how much CO2 the water holds",
                       .unit = "pH",
                       .bounds = {0, 14, false},
                       .left_out = "no CO2",
                       .example = "7.8"});
  type.keys.push_back({.name = "carbonated",
                       .shape = Shape::boolean,
                       .what = "whether CO2 was put into it",
                       .more = "counted as gone by the time it is filled, which is then printed",
                       .left_out = "no",
                       .example = "true"});

  // What people write for the units of the table.
  constexpr std::string_view degrees = "the unit is written out";
  constexpr std::string_view of_what = "does not say of what";
  for (const char* other : {"hardness_ppm", "hardness_mg_per_l"})
    type.slips.push_back({other, of_what, "write \"hardness_mg_caco3_per_l\" if it is as CaCO3"});
  for (const char* other : {"alkalinity_ppm", "alkalinity_mg_per_l"})
    type.slips.push_back({other, of_what,
                          "write \"alkalinity_mg_caco3_per_l\" if it is as CaCO3, "
                          "\"alkalinity_mg_hco3_per_l\" if as HCO3"});
  for (const auto& [other, key] : {std::pair{"hardness_dh", "hardness_german_degrees"},
                                   {"gh", "hardness_german_degrees"},
                                   {"hardness_fh", "hardness_french_degrees"},
                                   {"hardness_gpg", "hardness_grains_per_us_gallon"},
                                   {"alkalinity_dh", "alkalinity_german_degrees"},
                                   {"kh", "alkalinity_german_degrees"}})
    type.slips.push_back({other, degrees, fmt::format("write \"{}\"", key)});
  for (const char* other : {"bicarbonate_mg_per_l", "hydrogencarbonate_mg_per_l"})
    type.slips.push_back(
        {other, "this is the alkalinity under another name", "write \"alkalinity_mg_hco3_per_l\""});
  type.slips.push_back({"alkalinity_mmol_per_l",
                        "ambiguous by a factor of 2: mmol of CaCO3 or mmol of acid",
                        "write \"alkalinity_meq_per_l\", or \"acid_capacity_mmol_per_l\" if the "
                        "report says acid capacity"});
  return type;
}

}  // namespace

std::string ion_mass_key(const IonInfo& ion) {
  return fmt::format("{}_mg_per_l", ion.key_stem);
}

std::string ion_molar_key(const IonInfo& ion) {
  return fmt::format("{}_mmol_per_l", ion.key_stem);
}

std::string hardness_key(const HardnessUnitInfo& unit) {
  return fmt::format("hardness_{}", unit.key_suffix);
}

std::string alkalinity_key(const AlkalinityUnitInfo& unit) {
  // An acid capacity is an alkalinity, but nobody writes both words.
  if (unit.unit == AlkalinityUnit::acid_capacity_mmol_per_l) return std::string(unit.key_suffix);
  return fmt::format("alkalinity_{}", unit.key_suffix);
}

const ObjectType& water_report_keys() {
  static const ObjectType type = make_water_report();
  return type;
}

const ObjectType& blend_keys() {
  static const ObjectType type{.id = "blend",
                               .what = "Several waters mixed by mass; the shares add up to 1.",
                               .keys = {{.name = "name",
                                         .shape = Shape::text,
                                         .what = "what the blend is called",
                                         .example = R"("half and half")"},
                                        {.name = "blend",
                                         .shape = Shape::objects,
                                         .what = "the parts",
                                         .needed = true,
                                         .object = blend_part_keys,
                                         .never_empty = true}}};
  return type;
}

const ObjectType& blend_part_keys() {
  static const ObjectType type{.id = "blend_part",
                               .what = "One part of a blend.",
                               .keys = {{.name = "water",
                                         .shape = Shape::water,
                                         .what = "a report, the name of a water, or another blend",
                                         .needed = true,
                                         .example = R"("demineralised water")"},
                                        {.name = "share",
                                         .what = "its part of the whole, by mass",
                                         .more = "the shares add up to 1",
                                         .unit = "1",
                                         .bounds = {0, 1, false},
                                         .example = "0.5"},
                                        {.name = "parts",
                                         .what = "its parts of the whole, by mass",
                                         .more = "in place of every `share`: 40 and 60, or 2 and 1",
                                         .unit = "1",
                                         .bounds = {0, 1e6, true},
                                         .example = "40"}},
                               .rules = {{RuleKind::exactly_one,
                                          {"share", "parts"},
                                          "nothing says how much of it",
                                          "how much of it is given twice"}},
                               .slips = {{"percent", "shares are not given in percent",
                                          "write \"parts\": 40, or \"share\": 0.4"}}};
  return type;
}

}  // namespace gelwright::detail
