#include "gelwright/solubility.hpp"

#include <algorithm>
#include <iterator>

#include "base/number.hpp"

namespace gelwright {

namespace {

/// Anhydrous substance in 100 g of water. One substance's rows stand together, coldest first; what
/// the key ends with is the temperature in degC.
constexpr Datum table[] = {
    {"solubility.sucrose.5", 184.2, "g/100 g water", 1, "5 degC", "charles-1960",
     Standing::computed},
    {"solubility.sucrose.20", 199.4, "g/100 g water", 1, "20 degC", "charles-1960",
     Standing::computed},
    {"solubility.sucrose.25", 206.3, "g/100 g water", 1, "25 degC", "charles-1960",
     Standing::computed},
    {"solubility.sucrose.40", 233.4, "g/100 g water", 2, "40 degC", "charles-1960",
     Standing::computed},
    {"solubility.dextrose.5", 62, "g/100 g water", 3, "5 degC", "jackson-1922",
     Standing::from_memory},
    {"solubility.dextrose.10", 69, "g/100 g water", 3, "10 degC", "jackson-1922",
     Standing::from_memory},
    {"solubility.dextrose.20", 90, "g/100 g water", 3, "20 degC", "jackson-1922",
     Standing::from_memory},
    {"solubility.dextrose.25", 104, "g/100 g water", 3, "25 degC", "jackson-1922",
     Standing::from_memory},
    {"solubility.dextrose.30", 120, "g/100 g water", 3, "30 degC", "jackson-1922",
     Standing::from_memory},
    {"solubility.fructose.20", 374.8, "g/100 g water", 5, "20 degC", "bates-1942",
     Standing::from_memory},
    {"solubility.fructose.25", 407.5, "g/100 g water", 5, "25 degC", "bates-1942",
     Standing::from_memory},
    {"solubility.fructose.30", 441.7, "g/100 g water", 6, "30 degC", "bates-1942",
     Standing::from_memory},
    {"solubility.maltose.0.6", 56.5, "g/100 g water", 1, "0.6 degC", "lowe-1937",
     Standing::confirmed},
    {"solubility.maltose.21", 78.9, "g/100 g water", 1, "21 degC", "lowe-1937",
     Standing::confirmed},
    {"solubility.maltose.29.6", 93.2, "g/100 g water", 1, "29.6 degC", "lowe-1937",
     Standing::confirmed},
    {"solubility.isomaltulose.20", 42, "g/100 g water", 6, "20 degC", "schiweck-1991",
     Standing::from_memory},
    {"solubility.erythritol.20", 58, "g/100 g water", 4, "20 degC", "mitchell-2006",
     Standing::from_memory},
    {"solubility.erythritol.25", 61, "g/100 g water", 4, "25 degC", "mitchell-2006",
     Standing::from_memory},
    {"solubility.xylitol.20", 168, "g/100 g water", 6, "20 degC", "mitchell-2006",
     Standing::from_memory},
    {"solubility.sorbitol.20", 220, "g/100 g water", 10, "20 degC", "mitchell-2006",
     Standing::from_memory},
    {"solubility.maltitol.20", 150, "g/100 g water", 10, "20 degC", "mitchell-2006",
     Standing::from_memory},
    {"solubility.citric-acid.10", 117, "g/100 g water", 3, "10 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.citric-acid.20", 146, "g/100 g water", 3, "20 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.citric-acid.30", 183, "g/100 g water", 3, "30 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.calcium-lactate.10", 4.8, "g/100 g water", 0.2, "10 degC", "kubantseva-2004",
     Standing::from_memory},
    {"solubility.calcium-lactate.20", 5.8, "g/100 g water", 0.2, "20 degC", "kubantseva-2004",
     Standing::from_memory},
    {"solubility.calcium-lactate.25", 6.7, "g/100 g water", 0.2, "25 degC", "kubantseva-2004",
     Standing::from_memory},
    {"solubility.calcium-lactate.30", 8.5, "g/100 g water", 0.3, "30 degC", "kubantseva-2004",
     Standing::from_memory},
    {"solubility.calcium-gluconate.15", 3.2, "g/100 g water", 0.2, "15 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.calcium-gluconate.25", 3.5, "g/100 g water", 0.2, "25 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.calcium-chloride.0", 59.5, "g/100 g water", 1, "0 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.calcium-chloride.10", 64.7, "g/100 g water", 1, "10 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.calcium-chloride.20", 74.5, "g/100 g water", 1, "20 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.calcium-sulfate.20", 0.202, "g/100 g water", 0.005, "20 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.calcium-sulfate.25", 0.205, "g/100 g water", 0.005, "25 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.sodium-chloride.0", 35.65, "g/100 g water", 0.1, "0 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.sodium-chloride.10", 35.72, "g/100 g water", 0.1, "10 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.sodium-chloride.20", 35.89, "g/100 g water", 0.1, "20 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.sodium-chloride.30", 36.09, "g/100 g water", 0.1, "30 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.potassium-chloride.0", 28, "g/100 g water", 0.3, "0 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.potassium-chloride.10", 31.2, "g/100 g water", 0.3, "10 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.potassium-chloride.20", 34.2, "g/100 g water", 0.3, "20 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.potassium-chloride.30", 37.2, "g/100 g water", 0.3, "30 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.sodium-bicarbonate.0", 6.93, "g/100 g water", 0.1, "0 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.sodium-bicarbonate.10", 8.2, "g/100 g water", 0.1, "10 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.sodium-bicarbonate.20", 9.6, "g/100 g water", 0.1, "20 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.sodium-bicarbonate.30", 11.1, "g/100 g water", 0.1, "30 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.potassium-bicarbonate.0", 22.5, "g/100 g water", 0.5, "0 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.potassium-bicarbonate.10", 27.4, "g/100 g water", 0.5, "10 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.potassium-bicarbonate.20", 33.7, "g/100 g water", 0.5, "20 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.sodium-carbonate.0", 7, "g/100 g water", 0.3, "0 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.sodium-carbonate.10", 12.5, "g/100 g water", 0.3, "10 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.sodium-carbonate.20", 21.5, "g/100 g water", 0.5, "20 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.potassium-hydrogen-tartrate.0", 0.32, "g/100 g water", 0.03, "0 degC",
     "crc-solubility", Standing::from_memory},
    {"solubility.potassium-hydrogen-tartrate.10", 0.4, "g/100 g water", 0.03, "10 degC",
     "crc-solubility", Standing::from_memory},
    {"solubility.potassium-hydrogen-tartrate.20", 0.53, "g/100 g water", 0.04, "20 degC",
     "crc-solubility", Standing::from_memory},
    {"solubility.potassium-hydrogen-tartrate.30", 0.9, "g/100 g water", 0.06, "30 degC",
     "crc-solubility", Standing::from_memory},
    {"solubility.disodium-phosphate.0", 1.68, "g/100 g water", 0.1, "0 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.disodium-phosphate.10", 3.53, "g/100 g water", 0.2, "10 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.disodium-phosphate.20", 7.83, "g/100 g water", 0.3, "20 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.disodium-phosphate.25", 11.8, "g/100 g water", 0.5, "25 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.monosodium-phosphate.0", 56.5, "g/100 g water", 2, "0 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.monosodium-phosphate.10", 69.8, "g/100 g water", 2, "10 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.monosodium-phosphate.20", 86.9, "g/100 g water", 3, "20 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.monopotassium-phosphate.0", 14.8, "g/100 g water", 0.5, "0 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.monopotassium-phosphate.10", 18.3, "g/100 g water", 0.5, "10 degC",
     "crc-solubility", Standing::from_memory},
    {"solubility.monopotassium-phosphate.20", 22.6, "g/100 g water", 0.5, "20 degC",
     "crc-solubility", Standing::from_memory},
    {"solubility.magnesium-sulfate.0", 22.3, "g/100 g water", 0.7, "0 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.magnesium-sulfate.10", 28.2, "g/100 g water", 0.7, "10 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.magnesium-sulfate.20", 33.7, "g/100 g water", 0.7, "20 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.magnesium-chloride.0", 52.9, "g/100 g water", 1, "0 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.magnesium-chloride.10", 53.6, "g/100 g water", 1, "10 degC", "crc-solubility",
     Standing::from_memory},
    {"solubility.magnesium-chloride.20", 54.6, "g/100 g water", 1, "20 degC", "crc-solubility",
     Standing::from_memory},
};

struct Substance {
  std::string_view stem;         ///< of its keys: "solubility.<stem>."
  std::string_view ingredients;  ///< built-in names parted by '|'
};

constexpr Substance substances[] = {
    {"sucrose", "sucrose"},
    {"dextrose", "dextrose anhydrous|dextrose monohydrate"},
    {"fructose", "fructose"},
    {"maltose", "maltose monohydrate"},
    {"isomaltulose", "isomaltulose"},
    {"erythritol", "erythritol"},
    {"xylitol", "xylitol"},
    {"sorbitol", "sorbitol"},
    {"maltitol", "maltitol"},
    {"citric-acid", "citric acid anhydrous|citric acid monohydrate"},
    {"calcium-lactate", "calcium lactate pentahydrate|calcium lactate anhydrous"},
    {"calcium-gluconate", "calcium gluconate monohydrate"},
    {"calcium-chloride", "calcium chloride dihydrate|calcium chloride anhydrous"},
    {"calcium-sulfate", "calcium sulfate dihydrate"},
    {"sodium-chloride", "sodium chloride"},
    {"potassium-chloride", "potassium chloride"},
    {"sodium-bicarbonate", "sodium bicarbonate"},
    {"potassium-bicarbonate", "potassium bicarbonate"},
    {"sodium-carbonate", "sodium carbonate anhydrous"},
    {"potassium-hydrogen-tartrate", "potassium hydrogen tartrate"},
    {"disodium-phosphate",
     "disodium phosphate anhydrous|disodium phosphate dihydrate|disodium phosphate dodecahydrate"},
    {"monosodium-phosphate", "monosodium phosphate anhydrous|monosodium phosphate monohydrate"},
    {"monopotassium-phosphate", "monopotassium phosphate"},
    {"magnesium-sulfate", "magnesium sulfate heptahydrate"},
    {"magnesium-chloride", "magnesium chloride hexahydrate"},
};

constexpr std::string_view prefix = "solubility.";

/// The temperature a key ends with; absent where it belongs to another substance.
constexpr std::optional<std::string_view> temperature_in(std::string_view key,
                                                         std::string_view stem) {
  key.remove_prefix(prefix.size());
  if (key.substr(0, stem.size()) != stem || key.substr(stem.size(), 1) != ".") return std::nullopt;
  return key.substr(stem.size() + 1);
}

/// Whether `name` is one of the built-in names.
constexpr bool lists(std::string_view names, std::string_view name) {
  while (!names.empty()) {
    const std::size_t bar = names.find('|');
    if (names.substr(0, bar) == name) return true;
    names = bar == std::string_view::npos ? std::string_view() : names.substr(bar + 1);
  }
  return false;
}

}  // namespace

std::size_t soluble_substances() {
  return std::size(substances);
}

std::optional<std::size_t> soluble_substance(std::string_view ingredient) {
  for (std::size_t i = 0; i < std::size(substances); ++i)
    if (lists(substances[i].ingredients, ingredient)) return i;
  return std::nullopt;
}

std::string soluble_substance_name(std::size_t substance) {
  std::string name(substances[substance].stem);
  std::replace(name.begin(), name.end(), '-', ' ');
  return name;
}

double solubility_g_per_100g_water(std::size_t substance, double temp_c) {
  std::optional<double> last_temp_c;
  double last = 0;
  for (const Datum& row : table) {
    const auto at = temperature_in(row.key, substances[substance].stem);
    if (!at) continue;
    const double row_temp_c = detail::to_number(*at).value();
    if (temp_c <= row_temp_c) {
      if (!last_temp_c) return row.value;
      return last + (row.value - last) * (temp_c - *last_temp_c) / (row_temp_c - *last_temp_c);
    }
    last_temp_c = row_temp_c;
    last = row.value;
  }
  return last;
}

std::optional<double> solubility_g_per_100g_water(std::string_view ingredient, double temp_c) {
  const auto substance = soluble_substance(ingredient);
  if (!substance) return std::nullopt;
  return solubility_g_per_100g_water(*substance, temp_c);
}

std::string_view solubility_source(std::size_t substance) {
  for (const Datum& row : table)
    if (temperature_in(row.key, substances[substance].stem)) return row.source;
  return {};
}

std::string_view solubility_source(std::string_view ingredient) {
  const auto substance = soluble_substance(ingredient);
  return substance ? solubility_source(*substance) : std::string_view();
}

std::span<const Datum> solubility_data() {
  return table;
}

}  // namespace gelwright
