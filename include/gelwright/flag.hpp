// What a careful friend would point out, as data: which finding, how serious, with which numbers.
//
// Words are made on demand (`message_of`), so a study can count flags 100 000 times cheaply. Each
// flag is one record in src/flags/: when it is raised, its thresholds, its words, its source.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "gelwright/source.hpp"

namespace gelwright {

struct Inputs;
struct Serving;

enum class Level {
  note,  ///< worth knowing
  care,  ///< likely to spoil something
  stop,  ///< do not go on like this
};

/// "note", "care", "stop".
std::string_view to_text(Level level);

/// A flag's place in the catalogue, which is the order flags are shown in. Scripts go by the name.
enum class FlagId : std::uint8_t {};

/// No more flags than this, so that a study can keep a set of them in one word.
inline constexpr std::size_t most_flags = 64;

/// The numbers of one finding: a small plain struct that belongs to the flag's record.
class FlagNumbers {
 public:
  FlagNumbers() = default;
  template <class Numbers>
  requires std::is_trivially_copyable_v<Numbers>
  explicit FlagNumbers(const Numbers& numbers) : kind_(&kind_of<Numbers>) {
    static_assert(sizeof(Numbers) <= sizeof(bytes_));
    std::memcpy(bytes_.data(), &numbers, sizeof numbers);
  }

  /// The struct that was put in. Throws std::logic_error for another one.
  template <class Numbers>
  Numbers as() const {
    if (kind_ != &kind_of<Numbers>) throw std::logic_error("the numbers of another flag");
    Numbers numbers;
    std::memcpy(&numbers, bytes_.data(), sizeof numbers);
    return numbers;
  }

 private:
  template <class>
  static constexpr char kind_of = 0;  // its address tells one struct from another
  const char* kind_ = nullptr;
  alignas(double) std::array<std::byte, 5 * sizeof(double)> bytes_{};
};

/// What a claim rests on.
struct Basis {
  Grade grade = Grade::c;
  std::string_view source;  ///< a Source::id
};

/// One finding.
struct Flag {
  FlagId id{};
  Level level = Level::note;
  Basis basis;
  FlagNumbers numbers;
};

/// What flags judge by, one row for each threshold, in the order of `flag_thresholds`. A copy with
/// other values in it judges, and speaks, by those.
using FlagThresholds = std::span<const Datum>;

/// The built-in thresholds: the flags' own, and those they share with other tables.
FlagThresholds flag_thresholds();

/// The flags' own rows, each once.
std::span<const Datum> flag_data();

/// What `explain` prints about a flag, its thresholds filled in.
struct FlagInfo {
  FlagId id{};
  std::string_view name;          ///< stable, for scripts: "calcium-above-limit"
  std::string when;               ///< when it is raised
  std::string why;                ///< what happens, and what that rests on
  std::string_view source;        ///< Source::id
  Grade grade = Grade::c;         ///< of the flag in general; a finding has its own
  std::vector<Datum> thresholds;  ///< those its words name
};

/// Every flag there is, in the order of FlagId.
std::vector<FlagInfo> flag_catalogue(FlagThresholds thresholds = flag_thresholds());
FlagInfo info_of(FlagId id, FlagThresholds thresholds = flag_thresholds());

std::string_view name_of(FlagId id);

/// The finding in everyday words, as a sentence may hold them: "too much calcium in the water".
std::string_view called(FlagId id);

/// True where the recipe or the weighing plan alone decides it: a study of doubts does not draw it.
bool decided_by_plan(FlagId id);

/// Every finding about a serving, in the order of FlagId, without words.
std::vector<Flag> flags_of(const Serving& serving, const Inputs& inputs,
                           FlagThresholds thresholds = flag_thresholds());

/// The finding in a sentence, with its numbers.
std::string message_of(const Flag& flag, const Serving& serving, const Inputs& inputs,
                       FlagThresholds thresholds = flag_thresholds());

/// What to do about it in general; `advise` finds the amounts. May be empty.
std::string remedy_of(const Flag& flag, const Serving& serving, const Inputs& inputs,
                      FlagThresholds thresholds = flag_thresholds());

}  // namespace gelwright
