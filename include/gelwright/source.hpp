// Where every literature number comes from.
//
// A number taken from outside is never a bare literal: it is a Datum that carries its unit, its
// uncertainty, the conditions it holds for, the source and how well the source was confirmed.
#pragma once

#include <cstddef>
#include <span>
#include <string_view>

namespace gelwright {

/// How far a number can be trusted to be what the source says.
enum class Standing {
  confirmed,        ///< read in the source, or in two independent transcriptions
  computed,         ///< follows by arithmetic from confirmed numbers
  from_memory,      ///< recalled, not looked up
  judgement,        ///< our own choice where nothing better is known
  common_practice,  ///< a habit of the trade, no source
};

/// How far a prediction can be trusted.
enum class Grade : char {
  a = 'A',  ///< published and directly applicable
  b = 'B',  ///< published but transferred from a neighbouring case, or strong recall
  c = 'C',  ///< judgement: test it on the bench first
};

/// One entry of the bibliography.
struct Source {
  std::string_view id;        ///< short, unique, stable: "nist-srd46"
  std::string_view citation;  ///< authors, year, title or journal, volume:page, doi
};

/// One literature number.
struct Datum {
  std::string_view key;         ///< unique, dotted: "citric.pka1"
  double value;                 ///< in `unit`
  std::string_view unit;        ///< "1" for a pure number
  double uncertainty;           ///< standard uncertainty in `unit`; 0 where the source gives none
  std::string_view conditions;  ///< "25 degC, I = 0"; empty where it holds generally
  std::string_view source;      ///< a Source::id
  Standing standing;
};

/// Thrown at compile time by `value_of` for a key that is not in the table.
struct NoSuchDatum {};

/// The value of the row `key` in a constexpr table, looked up at compile time.
template <std::size_t N>
consteval double value_of(const Datum (&table)[N], std::string_view key) {
  for (const Datum& row : table)
    if (row.key == key) return row.value;
  throw NoSuchDatum{};
}

/// The whole bibliography, sorted by id.
std::span<const Source> sources();

/// The bibliography entry with this id, or null.
const Source* find_source(std::string_view id);

/// "confirmed", "computed", "from memory", "judgement", "common practice, no source".
std::string_view to_text(Standing standing);

}  // namespace gelwright
