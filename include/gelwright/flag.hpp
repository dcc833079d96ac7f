// What a careful friend would point out, as data: which finding, how serious, with which numbers.
//
// Words are made elsewhere (`message_of`), so a study can count flags 100 000 times cheaply.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "gelwright/recipe.hpp"
#include "gelwright/setting.hpp"
#include "gelwright/source.hpp"

namespace gelwright {

struct Serving;
struct Inputs;

enum class Level {
  note,  ///< worth knowing
  care,  ///< likely to spoil something
  stop,  ///< do not go on like this
};

/// In the order they are shown.
enum class FlagId {
  // water and limits
  tap_unknown,
  tap_implausible,
  calcium_limit_unjudged,
  calcium_below_limit,
  calcium_above_limit,
  ph_below_limit,
  ph_above_limit,
  ph_disagrees,
  stock_exceeds_water,
  // will it do what the form asks
  will_not_set,
  drink_sets_in_bottle,
  drink_will_not_set_in_stomach,
  gum_share_unknown,
  // how it can go wrong
  hard_water,
  calcium_too_low,
  calcium_too_high,
  calcium_shock,
  acid_shock,
  lumps,
  weeps,
  under_heated,
  gum_after_sugar,
  gum_clumps,
  too_little_water,
  thins_in_storage,
  unproven_with_maltodextrin,
  slow_in_stomach,
  // how far the numbers hold
  buffer_unknown,
  ionic_strength_high,
  outside_model,
  citrate_may_precipitate,
  carbonate_may_precipitate,
  calcium_undissolved,
  // weighing
  cannot_weigh,
  dosed_from_stock,
  vessel_too_small,
  // safety
  keep_cold,
  acidity_not_proven,
  choking,
  teeth,
  too_sour,
  sodium_load,
  caffeine_single,
  caffeine_day,
  fructose,
  gum_load,
  allergen_unstated,
  allergen,
};
inline constexpr std::size_t flag_count = static_cast<std::size_t>(FlagId::allergen) + 1;

/// One finding. `numbers` mean what `message_of` says for this id.
struct Flag {
  FlagId id = FlagId::tap_unknown;
  Level level = Level::note;
  std::array<double, 4> numbers{};
  std::size_t subject = 0;        ///< ingredient, finding or piece it is about, where it needs one
  const SetRule* rule = nullptr;  ///< the set rule that fired, where one did
};

/// What `explain` prints about a flag.
struct FlagInfo {
  FlagId id;
  std::string_view name;    ///< stable, for scripts: "calcium-above-limit"
  std::string_view rule;    ///< when it fires, in words
  std::string_view why;     ///< what happens, and what the rule rests on
  std::string_view source;  ///< Source::id
  Grade grade;
};

/// Every flag there is, in the order of FlagId.
std::span<const FlagInfo> flag_catalogue();
const FlagInfo& info_of(FlagId id);

/// "note", "care", "stop".
std::string_view to_text(Level level);

/// Every finding about a serving, without words.
std::vector<Flag> flags_of(const Serving& serving, const Inputs& inputs);

/// The finding in a sentence, with its numbers.
std::string message_of(const Flag& flag, const Serving& serving, const Inputs& inputs);

/// What to do about it in general; `advise` finds the amounts.
std::string remedy_of(const Flag& flag, const Serving& serving, const Inputs& inputs);

/// Thresholds of the flags that are not set rules.
std::span<const Datum> flag_data();

}  // namespace gelwright
