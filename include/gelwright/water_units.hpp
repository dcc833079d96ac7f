// The units of water reports, each converted once, at the edge.
//
// Hardness and alkalinity have separate lists on purpose: they share names (German degree, mg/L
// CaCO3) but not meanings, and mmol/L is safe for one and ambiguous for the other.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "gelwright/source.hpp"
#include "gelwright/species.hpp"

namespace gelwright {

/// Definitions the conversion factors are derived from.
std::span<const Datum> water_unit_data();

// --- Hardness: mmol of calcium plus magnesium per litre --------------------------------------

enum class HardnessUnit {
  mmol_per_l,
  meq_per_l,             ///< 0.5 mmol/L
  mg_caco3_per_l,        ///< "mg/L as CaCO3"
  german_degrees,        ///< 10 mg CaO per litre
  french_degrees,        ///< 10 mg CaCO3 per litre
  english_degrees,       ///< Clark: one grain of CaCO3 per imperial gallon
  grains_per_us_gallon,  ///< one grain of CaCO3 per US gallon
};

struct HardnessUnitInfo {
  HardnessUnit unit;
  std::string_view key_suffix;  ///< "german_degrees", as in the key "hardness_german_degrees"
  std::string_view label;       ///< "°dH"
  double mmol_per_l;            ///< one unit, in mmol/L
};

std::span<const HardnessUnitInfo> hardness_units();

/// Value in the unit <-> mmol/L. Linear, any finite value.
double hardness_mmol_per_l(double value, HardnessUnit unit);
double hardness_in(HardnessUnit unit, double mmol_per_l);

// --- Alkalinity: milliequivalents of acid taken up per litre ---------------------------------

enum class AlkalinityUnit {
  meq_per_l,
  acid_capacity_mmol_per_l,  ///< mmol of acid per litre (to pH 4.3): the same number as meq/L
  mg_caco3_per_l,            ///< half a mmol of CaCO3 per meq
  mg_hco3_per_l,             ///< alkalinity written as bicarbonate
  german_degrees,            ///< "carbonate hardness"
  french_degrees,            ///< TAC
};

struct AlkalinityUnitInfo {
  AlkalinityUnit unit;
  std::string_view key_suffix;  ///< as in the key "alkalinity_mg_caco3_per_l"
  std::string_view label;       ///< "mg/L HCO3"
  double meq_per_l;             ///< one unit, in meq/L
};

std::span<const AlkalinityUnitInfo> alkalinity_units();

/// Value in the unit <-> meq/L. Linear, any finite value.
double alkalinity_meq_per_l(double value, AlkalinityUnit unit);
double alkalinity_in(AlkalinityUnit unit, double meq_per_l);

// --- Single ions ------------------------------------------------------------------------------

/// The ions of a water report. Another one takes a value here and a row in `ions()`: readers, water
/// chemistry and reports walk the table.
enum class Ion { calcium, magnesium, sodium, potassium, chloride, sulfate, nitrate };

inline constexpr std::size_t ion_count = 7;

struct IonInfo {
  Ion ion;
  std::string_view key_stem;  ///< "calcium", as in the key "calcium_mg_per_l"
  std::string_view formula;   ///< "Ca"; charge not written
  int charge;                 ///< +2
  double g_per_mol;
  Component
      dissolved_as;  ///< what the water phase counts it as: nitrate binds nothing, like chloride
};

/// One value for each ion.
template <class T>
struct PerIon {
  std::array<T, ion_count> values{};

  T& operator[](Ion ion) { return values[static_cast<std::size_t>(ion)]; }
  const T& operator[](Ion ion) const { return values[static_cast<std::size_t>(ion)]; }
};

std::span<const IonInfo> ions();
const IonInfo& info(Ion ion);

/// mg/L <-> mmol/L of the ion itself.
double mmol_per_l(Ion ion, double mg_per_l);
double mg_per_l(Ion ion, double mmol_per_l);

// --- Reading a value with its unit ------------------------------------------------------------

/// The value in the internal unit, or why the text was refused (a sentence without full stop).
struct ParsedAmount {
  std::optional<double> value;
  std::string reason;  ///< empty when there is a value
};

/// "7.5 °dH", "134 mg/L CaCO3", "1.3 mmol/L", "13 °fH", "9 °e", "8 gpg" -> mmol/L.
/// Capitals, spaces, "as", brackets and the degree sign do not matter, nor whether a unit is
/// written out: "8 grains per gallon", "ppm as calcium carbonate". Refused: no unit, an
/// unknown unit, bare mg/L (of what?), a negative or non-finite number, a decimal comma.
ParsedAmount parse_hardness(std::string_view text);

/// "2.1 meq/L", "105 mg/L CaCO3", "128 mg/L HCO3", "2.1 mmol/L acid", "6 °dH" -> meq/L.
/// Bare mmol/L is refused: 1 mmol of CaCO3 takes up 2 mmol of acid, and reports mean either.
ParsedAmount parse_alkalinity(std::string_view text);

/// "23 mg/L", "23mg/l Ca", "0.57 mmol/L", "23 ppm" -> mg/L of the ion. Calcium and magnesium also
/// as "mg/L CaCO3".
ParsedAmount parse_concentration(Ion ion, std::string_view text);

}  // namespace gelwright
