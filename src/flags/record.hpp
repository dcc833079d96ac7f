// What a flag is made of. Adding one is adding a record, with its check and its words, to the file
// of its subject. Private.
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "gelwright/flag.hpp"
#include "gelwright/keeping.hpp"
#include "gelwright/remedy.hpp"
#include "gelwright/serving.hpp"
#include "serving/ph_error.hpp"

namespace gelwright::detail {

/// Where a threshold stands among those of its subject.
struct Threshold {
  std::size_t place;
};

/// Everything a check and its words look at.
struct Judged {
  const Serving& serving;
  const Inputs& inputs;
  FlagThresholds thresholds;  ///< of the subject

  double operator[](Threshold which) const { return thresholds[which.place].value; }
  /// The threshold as a sentence quotes it: no more digits than it was written with.
  std::string quoted(Threshold which) const;

  const Recipe& recipe() const { return *inputs.recipe; }
  const WaterPhase& phase() const { return serving.water_phase; }
  bool drink() const { return recipe().form == Form::drink; }
  JudgedPh ph() const { return judged_ph(phase(), usable_reading(recipe())); }
  /// Gum of every kind, g per 100 g of water.
  double gum_percent() const {
    const Formula& formula = serving.formula;
    double gum_g = 0;
    for (const double each : formula.delivered.gum_g) gum_g += each;
    return 100 * gum_g / formula.chemistry_water_g;
  }
};

/// Takes what a check finds.
class Raise {
 public:
  Raise(std::vector<Flag>& flags, FlagId id, Basis basis) : flags_(flags), id_(id), basis_(basis) {}

  void operator()(Level level) { flags_.push_back({id_, level, basis_, {}}); }
  template <class Numbers>
  void operator()(Level level, const Numbers& numbers) {
    flags_.push_back({id_, level, basis_, FlagNumbers(numbers)});
  }
  /// True if a flag of an earlier record has been raised: one cause is told once.
  bool already(std::string_view name) const;

 private:
  std::vector<Flag>& flags_;
  FlagId id_;
  Basis basis_;
};

/// Words that are always the same, or made for one finding. In fixed words, and in the texts of a
/// record, "{flag.caffeine-day}" stands for the value of that threshold.
struct Words {
  std::string_view fixed;
  std::string (*made)(const Flag&, const Judged&) = nullptr;

  constexpr Words(const char* text) : fixed(text) {}
  constexpr Words(std::string (*make)(const Flag&, const Judged&)) : made(make) {}
};

struct FlagRecord {
  std::string_view name;    ///< stable, for scripts
  std::string_view called;  ///< in everyday words, as a sentence may hold them
  std::string_view when;    ///< when it is raised; names the thresholds that decide
  std::string_view why;     ///< what happens, and what that rests on
  std::string_view source;  ///< Source::id
  Grade grade;
  void (*check)(const Judged&, Raise&);
  Words message;
  Words remedy;
  std::span<const Turn> turns = {};  ///< what can clear it, the most natural first
  bool by_plan = false;              ///< the recipe or the weighing plan alone decides it
};

/// The flags of one subject and what they judge by.
struct FlagSubject {
  std::span<const FlagRecord> records;
  std::span<const Datum> own;                  ///< thresholds
  std::span<const std::string_view> borrowed;  ///< keys of thresholds that stand in other tables
};

/// The place of a key among a subject's thresholds: its own first, then the borrowed ones.
template <std::size_t N, std::size_t M>
consteval Threshold place_of(const Datum (&own)[N], const std::array<std::string_view, M>& borrowed,
                             std::string_view key) {
  for (std::size_t i = 0; i < N; ++i)
    if (own[i].key == key) return {i};
  for (std::size_t i = 0; i < M; ++i)
    if (borrowed[i] == key) return {N + i};
  throw NoSuchDatum{};
}

FlagSubject water_flags();
FlagSubject form_flags();
FlagSubject calcium_flags();
FlagSubject defect_flags();
FlagSubject model_flags();
FlagSubject weighing_flags();
FlagSubject keeping_flags();
/// How long it keeps, by the thresholds of the keeping flags.
Keeping keeping(const Judged& judged);

FlagSubject eating_flags();
FlagSubject allergen_flags();
FlagSubject slip_flags();

}  // namespace gelwright::detail
