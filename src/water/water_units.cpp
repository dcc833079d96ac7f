#include "gelwright/water_units.hpp"

#include <algorithm>
#include <utility>

#include "base/number.hpp"
#include "base/text.hpp"
#include "gelwright/elements.hpp"

namespace gelwright {
namespace {

using enum Standing;

constexpr Datum table[] = {
    {"grain", 64.79891, "mg", 0, "exact by definition", "nist-hb44", confirmed},
    {"us_gallon", 3.785411784, "L", 0, "exact by definition", "nist-hb44", confirmed},
    {"imperial_gallon", 4.54609, "L", 0, "exact by definition", "nist-hb44", confirmed},
    {"german_degree", 10.0, "mg/L CaO", 0, "by definition", "common-practice", common_practice},
    {"french_degree", 10.0, "mg/L CaCO3", 0, "by definition", "common-practice", common_practice},
};

constexpr double caco3_g_per_mol = molar_mass_g_per_mol("CaCO3");
constexpr double german_degree_mmol_per_l =
    value_of(table, "german_degree") / molar_mass_g_per_mol("CaO");
constexpr double french_degree_mmol_per_l = value_of(table, "french_degree") / caco3_g_per_mol;
constexpr double grain_mmol = value_of(table, "grain") / caco3_g_per_mol;

// A divalent ion or a carbonate: two equivalents to the mole.
constexpr double meq_per_mmol = 2.0;

constexpr HardnessUnitInfo hardness_table[] = {
    {HardnessUnit::mmol_per_l, "mmol_per_l", "mmol/L", 1.0},
    {HardnessUnit::meq_per_l, "meq_per_l", "meq/L", 1.0 / meq_per_mmol},
    {HardnessUnit::mg_caco3_per_l, "mg_caco3_per_l", "mg/L CaCO3", 1.0 / caco3_g_per_mol},
    {HardnessUnit::german_degrees, "german_degrees", "°dH", german_degree_mmol_per_l},
    {HardnessUnit::french_degrees, "french_degrees", "°fH", french_degree_mmol_per_l},
    {HardnessUnit::english_degrees, "english_degrees", "°e",
     grain_mmol / value_of(table, "imperial_gallon")},
    {HardnessUnit::grains_per_us_gallon, "grains_per_us_gallon", "gpg",
     grain_mmol / value_of(table, "us_gallon")},
};

constexpr AlkalinityUnitInfo alkalinity_table[] = {
    {AlkalinityUnit::meq_per_l, "meq_per_l", "meq/L", 1.0},
    {AlkalinityUnit::acid_capacity_mmol_per_l, "acid_capacity_mmol_per_l", "mmol/L acid", 1.0},
    {AlkalinityUnit::mg_caco3_per_l, "mg_caco3_per_l", "mg/L CaCO3",
     meq_per_mmol / caco3_g_per_mol},
    {AlkalinityUnit::mg_hco3_per_l, "mg_hco3_per_l", "mg/L HCO3",
     1.0 / molar_mass_g_per_mol("HCO3")},
    {AlkalinityUnit::german_degrees, "german_degrees", "°dH",
     meq_per_mmol* german_degree_mmol_per_l},
    {AlkalinityUnit::french_degrees, "french_degrees", "°fH",
     meq_per_mmol* french_degree_mmol_per_l},
};

constexpr IonInfo ion_table[] = {
    {Ion::calcium, "calcium", "Ca", 2, molar_mass_g_per_mol("Ca"), Component::calcium},
    {Ion::magnesium, "magnesium", "Mg", 2, molar_mass_g_per_mol("Mg"), Component::magnesium},
    {Ion::sodium, "sodium", "Na", 1, molar_mass_g_per_mol("Na"), Component::sodium},
    {Ion::potassium, "potassium", "K", 1, molar_mass_g_per_mol("K"), Component::potassium},
    {Ion::chloride, "chloride", "Cl", -1, molar_mass_g_per_mol("Cl"), Component::chloride},
    {Ion::sulfate, "sulfate", "SO4", -2, molar_mass_g_per_mol("SO4"), Component::sulfate},
    {Ion::nitrate, "nitrate", "NO3", -1, molar_mass_g_per_mol("NO3"), Component::chloride},
};

// One unit in mmol/L or meq/L; the enums index their tables (checked below).
constexpr double factor(HardnessUnit unit) {
  return hardness_table[static_cast<std::size_t>(unit)].mmol_per_l;
}
constexpr double factor(AlkalinityUnit unit) {
  return alkalinity_table[static_cast<std::size_t>(unit)].meq_per_l;
}

consteval bool tables_follow_their_enums() {
  std::size_t i = 0;
  for (const HardnessUnitInfo& row : hardness_table)
    if (static_cast<std::size_t>(row.unit) != i++) return false;
  i = 0;
  for (const AlkalinityUnitInfo& row : alkalinity_table)
    if (static_cast<std::size_t>(row.unit) != i++) return false;
  i = 0;
  for (const IonInfo& row : ion_table)
    if (static_cast<std::size_t>(row.ion) != i++) return false;
  return i == ion_count;
}
static_assert(tables_follow_their_enums());

// The spellings met on reports, after `plain` below.
struct HardnessSpelling {
  std::string_view text;
  HardnessUnit unit;
};
constexpr HardnessSpelling hardness_spellings[] = {
    {"mmol/l", HardnessUnit::mmol_per_l},
    {"mmol/lcaco3", HardnessUnit::mmol_per_l},
    {"mmolcaco3/l", HardnessUnit::mmol_per_l},
    {"meq/l", HardnessUnit::meq_per_l},
    {"mval/l", HardnessUnit::meq_per_l},
    {"mg/lcaco3", HardnessUnit::mg_caco3_per_l},
    {"mgcaco3/l", HardnessUnit::mg_caco3_per_l},
    {"ppmcaco3", HardnessUnit::mg_caco3_per_l},
    {"dh", HardnessUnit::german_degrees},
    {"d", HardnessUnit::german_degrees},
    {"dgh", HardnessUnit::german_degrees},
    {"gh", HardnessUnit::german_degrees},
    {"fh", HardnessUnit::french_degrees},
    {"f", HardnessUnit::french_degrees},
    {"eh", HardnessUnit::english_degrees},
    {"e", HardnessUnit::english_degrees},
    {"clark", HardnessUnit::english_degrees},
    {"eclark", HardnessUnit::english_degrees},
    {"gr/ukgal", HardnessUnit::english_degrees},
    {"gpg", HardnessUnit::grains_per_us_gallon},
    {"gr/gal", HardnessUnit::grains_per_us_gallon},
    {"gr/usgal", HardnessUnit::grains_per_us_gallon},
};

struct AlkalinitySpelling {
  std::string_view text;
  double meq_per_l;
};
constexpr AlkalinitySpelling alkalinity_spellings[] = {
    {"meq/l", factor(AlkalinityUnit::meq_per_l)},
    {"mval/l", factor(AlkalinityUnit::meq_per_l)},
    {"mmol/lacid", factor(AlkalinityUnit::acid_capacity_mmol_per_l)},
    {"mmolacid/l", factor(AlkalinityUnit::acid_capacity_mmol_per_l)},
    {"mmol/lh", factor(AlkalinityUnit::acid_capacity_mmol_per_l)},
    {"mmol/lhcl", factor(AlkalinityUnit::acid_capacity_mmol_per_l)},
    {"mmol/lks4.3", factor(AlkalinityUnit::acid_capacity_mmol_per_l)},
    {"mmol/lhco3", 1.0},  // one proton each
    {"mmolhco3/l", 1.0},
    {"mmol/lcaco3", meq_per_mmol},
    {"mmolcaco3/l", meq_per_mmol},
    {"mg/lcaco3", factor(AlkalinityUnit::mg_caco3_per_l)},
    {"mgcaco3/l", factor(AlkalinityUnit::mg_caco3_per_l)},
    {"ppmcaco3", factor(AlkalinityUnit::mg_caco3_per_l)},
    {"mg/lhco3", factor(AlkalinityUnit::mg_hco3_per_l)},
    {"mghco3/l", factor(AlkalinityUnit::mg_hco3_per_l)},
    {"ppmhco3", factor(AlkalinityUnit::mg_hco3_per_l)},
    {"dh", factor(AlkalinityUnit::german_degrees)},
    {"dkh", factor(AlkalinityUnit::german_degrees)},
    {"kh", factor(AlkalinityUnit::german_degrees)},
    {"fh", factor(AlkalinityUnit::french_degrees)},
    {"f", factor(AlkalinityUnit::french_degrees)},
};

constexpr std::string_view degree_sign = "\xC2\xB0";
constexpr std::string_view ordinal_sign = "\xC2\xBA";  // often typed for the degree sign
constexpr std::string_view subscript_three = "\xE2\x82\x83";
constexpr std::string_view superscript_minus = "\xE2\x81\xBB";

/// Words for which there is a sign, after spaces have gone. Longer ones first.
constexpr std::pair<std::string_view, std::string_view> written_out[] = {
    {"imperial", "uk"},
    {"calciumcarbonate", "caco3"},
    {"hydrogencarbonate", "hco3"},
    {"bicarbonate", "hco3"},
    {"ascaco3", "caco3"},
    {"ashco3", "hco3"},
    {"milligrams", "mg"},
    {"milligram", "mg"},
    {"millimoles", "mmol"},
    {"millimole", "mmol"},
    {"per", "/"},
    {"litres", "l"},
    {"litre", "l"},
    {"liters", "l"},
    {"liter", "l"},
    {"gallons", "gal"},
    {"gallon", "gal"},
    {"grains", "gr"},
    {"grain", "gr"},
    {"degrees", ""},
    {"degree", ""},
    {"german", "dh"},
    {"french", "fh"},
    {"english", "eh"},
    {"hardness", ""},
};

/// A unit without what does not change its meaning: capitals, spaces, brackets, charges, "as",
/// the degree sign, and whether it is written out.
std::string plain(std::string_view unit) {
  std::string out;
  while (!unit.empty()) {
    std::size_t used = 1;
    if (unit.starts_with(degree_sign)) {
      used = degree_sign.size();
    } else if (unit.starts_with(ordinal_sign)) {
      used = ordinal_sign.size();
    } else if (unit.starts_with(superscript_minus)) {
      used = superscript_minus.size();
    } else if (unit.starts_with(subscript_three)) {
      used = subscript_three.size();
      out += '3';
    } else if (std::string_view(" \t()+-").find(unit.front()) == std::string_view::npos) {
      out += detail::lower(unit.front());
    }
    unit.remove_prefix(used);
  }
  for (const auto& [word, sign] : written_out)
    if (const std::size_t at = out.find(word); at != std::string::npos)
      out.replace(at, word.size(), sign);
  return out;
}

/// In any unit: only a slip of the exponent is above it.
constexpr double most_in_a_report = 1e5;

struct Amount {
  double number = 0.0;
  std::string unit;           // as `plain` leaves it
  std::string_view as_typed;  // the unit
  std::string reason;         // set when refused
};

Amount read_amount(std::string_view text, std::string_view example) {
  Amount amount;
  const auto refuse = [&](std::string reason) {
    amount.reason = std::move(reason);
    return amount;
  };
  const std::string like = ", write it like " + std::string(example);
  const std::optional<detail::LeadingNumber> number = detail::leading_number(text);
  if (!number) return refuse("\"" + std::string(text) + "\" does not start with a number" + like);
  amount.number = number->value;
  std::string_view rest = number->rest;
  if (rest.starts_with(','))
    return refuse("\"" + std::string(text) + "\" has a comma: use a decimal point" + like);
  if (amount.number < 0.0) return refuse("\"" + std::string(text) + "\" is negative");
  if (amount.number > most_in_a_report)
    return refuse("\"" + std::string(text) + "\" is more than any water holds");
  rest.remove_prefix(std::min(rest.find_first_not_of(" \t"), rest.size()));
  while (!rest.empty() && (rest.back() == ' ' || rest.back() == '\t')) rest.remove_suffix(1);
  amount.as_typed = rest;
  amount.unit = plain(rest);
  if (rest.empty()) return refuse("\"" + std::string(text) + "\" has no unit" + like);
  return amount;
}

template <class Table>
ParsedAmount unknown_unit(const Amount& amount, std::string_view quantity, const Table& units) {
  std::string reason = "unit \"" + std::string(amount.as_typed) + "\" is not known for " +
                       std::string(quantity) + ", use one of ";
  bool first = true;
  for (const auto& row : units) {
    reason += (first ? "" : ", ") + std::string(row.label);
    first = false;
  }
  return {std::nullopt, reason};
}

bool is_bare_mass(std::string_view unit) {
  return unit == "mg/l" || unit == "ppm";
}

}  // namespace

std::span<const Datum> water_unit_data() {
  return table;
}

std::span<const HardnessUnitInfo> hardness_units() {
  return hardness_table;
}
std::span<const AlkalinityUnitInfo> alkalinity_units() {
  return alkalinity_table;
}
std::span<const IonInfo> ions() {
  return ion_table;
}
const IonInfo& info(Ion ion) {
  return ion_table[static_cast<std::size_t>(ion)];
}

double hardness_mmol_per_l(double value, HardnessUnit unit) {
  return value * factor(unit);
}
double hardness_in(HardnessUnit unit, double mmol_per_l) {
  return mmol_per_l / factor(unit);
}
double alkalinity_meq_per_l(double value, AlkalinityUnit unit) {
  return value * factor(unit);
}
double alkalinity_in(AlkalinityUnit unit, double meq_per_l) {
  return meq_per_l / factor(unit);
}

double mmol_per_l(Ion ion, double mg_per_l) {
  return mg_per_l / info(ion).g_per_mol;
}
double mg_per_l(Ion ion, double mmol_per_l) {
  return mmol_per_l * info(ion).g_per_mol;
}

ParsedAmount parse_hardness(std::string_view text) {
  const Amount amount = read_amount(text, "7.5 °dH");
  if (!amount.reason.empty()) return {std::nullopt, amount.reason};
  for (const HardnessSpelling& row : hardness_spellings)
    if (row.text == amount.unit) return {amount.number * factor(row.unit), ""};
  if (is_bare_mass(amount.unit))
    return {std::nullopt, "\"" + std::string(amount.as_typed) +
                              "\" does not say of what: write mg/L CaCO3, or give calcium and "
                              "magnesium themselves"};
  return unknown_unit(amount, "hardness", hardness_table);
}

ParsedAmount parse_alkalinity(std::string_view text) {
  const Amount amount = read_amount(text, "2.1 meq/L");
  if (!amount.reason.empty()) return {std::nullopt, amount.reason};
  for (const AlkalinitySpelling& row : alkalinity_spellings)
    if (row.text == amount.unit) return {amount.number * row.meq_per_l, ""};
  if (amount.unit == "mmol/l")
    return {std::nullopt,
            "mmol/L is ambiguous for alkalinity, 1 mmol of CaCO3 takes up 2 mmol of acid: write "
            "meq/L, mg/L CaCO3, mg/L HCO3, or mmol/L acid for an acid capacity"};
  if (is_bare_mass(amount.unit))
    return {std::nullopt, "\"" + std::string(amount.as_typed) +
                              "\" does not say of what: write mg/L CaCO3 or mg/L HCO3"};
  return unknown_unit(amount, "alkalinity", alkalinity_table);
}

ParsedAmount parse_concentration(Ion ion, std::string_view text) {
  const Amount amount = read_amount(text, "23 mg/L");
  if (!amount.reason.empty()) return {std::nullopt, amount.reason};
  if (is_bare_mass(amount.unit)) return {amount.number, ""};
  if (amount.unit == "mmol/l") return {mg_per_l(ion, amount.number), ""};
  if (amount.unit == "mg/l" + detail::lower(info(ion).formula)) return {amount.number, ""};
  const bool divalent_cation = ion == Ion::calcium || ion == Ion::magnesium;
  if (divalent_cation &&
      (amount.unit == "mg/lcaco3" || amount.unit == "mgcaco3/l" || amount.unit == "ppmcaco3"))
    return {mg_per_l(ion, amount.number / caco3_g_per_mol), ""};
  return {std::nullopt, "unit \"" + std::string(amount.as_typed) + "\" is not known for " +
                            std::string(info(ion).key_stem) + ", use mg/L or mmol/L"};
}

}  // namespace gelwright
