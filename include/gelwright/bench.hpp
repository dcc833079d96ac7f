// Readings from the bench: one small cup a line, as typed into the sheet that `ladder` prints.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "gelwright/source.hpp"

namespace gelwright {

/// One input that was varied: "acid_g" or another column of the sheet, its unit in the name. Doses
/// are per serving.
struct BenchInput {
  std::string name;
  double amount = 0;
};

/// The cup turned over for 10 s.
enum class CupTurn { holds, falls };
/// A spoon drawn through it.
enum class Spoon { smears, cracks };

/// A groove 2 mm deep drawn with a spoon: is it still there after a moment?
enum class Groove { stands, closes };
/// Lumps that can be lifted out with a spoon or sieve.
enum class Lumps { yes, no };

/// One cup. What was not read is absent.
struct BenchCup {
  std::size_t line = 0;  ///< in the file, the header being line 1
  std::string name;      ///< as written, or its number among the cups
  std::vector<BenchInput> inputs;
  std::optional<double> predicted_ph;  ///< what the sheet said
  std::optional<double> ph;            ///< read on the gel
  std::optional<double> ph_diluted;    ///< read on 10 g gel stirred into 10 g low-mineral water
  std::optional<double> syringe_ml;    ///< of 10 mL, left after 10 s
  std::optional<CupTurn> cup_turn;
  std::optional<double> cup_width_cm;  ///< inside, of the cup that was turned; absent: the usual
  std::optional<Groove> groove;
  std::optional<Lumps> lumps;
  std::optional<Spoon> spoon;
  std::optional<double> ring_ml;  ///< free liquid after 12 h, per 50 g

  /// The amount of the input called `name`, if it was varied.
  std::optional<double> input(std::string_view name) const;
};

/// A whole sheet.
struct Bench {
  std::string document;  ///< file it was read from
  std::vector<BenchCup> cups;
};

/// What a reading can be at all.
std::span<const Datum> bench_data();

}  // namespace gelwright
