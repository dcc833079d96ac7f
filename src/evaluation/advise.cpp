#include "gelwright/advise.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <deque>
#include <utility>

#include "base/rounding.hpp"
#include "evaluation/edges.hpp"
#include "evaluation/turning.hpp"
#include "gelwright/error.hpp"
#include "gelwright/remedy.hpp"
#include "gelwright/sodium_readings.hpp"
#include "serving/near_forecast.hpp"
#include "serving/ph_error.hpp"

namespace gelwright {

namespace {

using detail::printed;
using detail::printed_figures;
using detail::share_step;
using detail::smallest;

/// What brings more new cares than this is another recipe, not a remedy.
constexpr int most_raised = 2;

/// How closely a serving is looked at in a search.
enum class Look {
  rough,  ///< not every way to read a pack; what is found is then looked at in full
  full,   ///< all but the weighing plan
  whole,  ///< with the weighing plan: what is printed
};

/// The stomach costs as much as all the rest, and no flag of a pouch looks at it.
EvaluateParts parts_of(Look look, const Recipe& recipe) {
  return {.batch = look == Look::whole,
          .flags = true,
          .gel = {.stomach = recipe.form == Form::drink, .bands = look != Look::rough}};
}

/// Whether a pack can be read in several ways.
bool read_in_several_ways(const Evaluation& evaluation, const Inputs& inputs) {
  return evaluation.gel.band || acid_undeclared(inputs) || !evaluation.gel.by_gum.empty() ||
         evaluation.ph_band.readings.size() > 1;
}

/// The knob a turn is of, and its direction.
struct Direction {
  Knob knob;
  double sign;
};
Direction direction_of(Turn turn) {
  switch (turn) {
    case Turn::more_acid:
      return {Knob::acid_g, 1};
    case Turn::less_acid:
      return {Knob::acid_g, -1};
    case Turn::more_water:
      return {Knob::water_g, 1};
    case Turn::less_water:
      return {Knob::water_g, -1};
    case Turn::more_calcium_salt:
      return {Knob::calcium_salt_g, 1};
    case Turn::less_calcium_salt:
      return {Knob::calcium_salt_g, -1};
    case Turn::softer_water:
      return {Knob::low_mineral_share, 1};
    case Turn::harder_water:
      return {Knob::tap_calcium_mg_per_l, 1};
  }
  return {Knob::acid_g, 1};
}

/// Sets of flags, one bit for each.
struct Marks {
  std::uint64_t any = 0;
  std::uint64_t care = 0;  ///< care or stop
  std::uint64_t stop = 0;
  double ph = 7;

  bool operator[](FlagId id) const { return (any & bit(id)) != 0; }
  static std::uint64_t bit(FlagId id) { return std::uint64_t{1} << static_cast<unsigned>(id); }
};

Marks marks_of(const Evaluation& evaluation) {
  Marks marks;
  for (const Flag& flag : evaluation.flags) {
    marks.any |= Marks::bit(flag.id);
    if (flag.level != Level::note) marks.care |= Marks::bit(flag.id);
    if (flag.level == Level::stop) marks.stop |= Marks::bit(flag.id);
  }
  marks.ph = evaluation.water_phase.ph;
  return marks;
}

/// A remedy that empties the acid jar or makes another serving of it is none.
bool sensible(const Change& change, const Inputs& inputs, const Formula& formula) {
  constexpr double largest_share = 0.25;
  switch (info_of(change.knob).turns) {
    case KnobTurns::water:
      return std::abs(change.amount) <= largest_share * formula.total_g;
    case KnobTurns::acid:
    case KnobTurns::calcium_salt:
      return change.amount > -0.999 * amount_of({change.knob}, inputs);
    default:
      return true;
  }
}

/// Looks for remedies; remembers what each change did, since flags ask for the same ones.
class Search {
 public:
  Search(const Inputs& inputs, const Evaluation& evaluation)
      : inputs_(inputs), evaluation_(evaluation), now_(marks_of(evaluation)) {
    if (!read_in_several_ways(evaluation, inputs)) return;
    rough_first_ = true;
    // What a drink does in the stomach is not followed there.
    if (inputs.recipe->form == Form::pouch && evaluation.gel.made) near_.emplace(inputs);
  }

  std::optional<Remedy> remedy_for(FlagId id) {
    for (const bool clean : {true, false})
      for (const Turn turn : turns_of(id)) {
        std::optional<Remedy> found = by_turning(turn, id, clean);
        if (found) return found;
      }
    return std::nullopt;
  }

  /// Whether this change, which mends another flag, clears this one as well.
  bool clears_too(FlagId id, const Remedy& remedy) {
    return accepts(id, remedy.change, whole(remedy.change), remedy.raises.empty());
  }

 private:
  std::optional<Remedy> by_turning(Turn turn, FlagId id, bool clean) {
    const Direction direction = direction_of(turn);
    const auto wanted = [&](Look look) {
      return [this, look, id, clean](const Change& tried) {
        return accepts(id, tried, after_turning(tried, look), clean);
      };
    };
    if (rough_first_) {
      const auto change = smallest({direction.knob}, direction.sign, inputs_, evaluation_.formula,
                                   true, wanted(Look::rough));
      if (!change || !sensible(*change, inputs_, evaluation_.formula)) return std::nullopt;
      const Change least = near_ ? narrowed(*change, id, clean) : *change;
      if (auto remedy = proven(least, id, clean)) return remedy;
      const auto beyond =
          detail::just_beyond(least, inputs_, evaluation_.formula, wanted(Look::full));
      if (beyond && sensible(*beyond, inputs_, evaluation_.formula))
        if (auto remedy = proven(*beyond, id, clean)) return remedy;
    }
    const auto change = smallest({direction.knob}, direction.sign, inputs_, evaluation_.formula,
                                 true, wanted(Look::full));
    if (!change || !sensible(*change, inputs_, evaluation_.formula)) return std::nullopt;
    return proven(*change, id, clean);
  }

  /// The least turn, looking from where the search has led to: what is in doubt there is not what
  /// is in doubt here.
  Change narrowed(const Change& found, FlagId id, bool clean) const {
    const detail::NearForecast there(turned(inputs_, found));
    const auto holds = [&](double amount) {
      const Change tried{found.knob, amount, found.solid};
      try {
        return accepts(id, tried, marks_of(nearly(turned(inputs_, tried), there)), clean);
      } catch (const InputError&) {
        return false;
      }
    };
    const auto rounded = [&](double amount) {
      return printed(found.which(), amount, found.amount, inputs_, true);
    };
    double least = found.amount;
    for (const double times : {0.94, 0.88, 0.8, 0.7, 0.5}) {
      const double tried = rounded(times * found.amount);
      if (tried == least) continue;
      if (holds(tried)) {
        least = tried;
        continue;
      }
      const double between = rounded((tried + least) / 2);
      if (between != least && between != tried && holds(between)) least = between;
      break;
    }
    return {found.knob, least, found.solid};
  }

  std::optional<Remedy> proven(const Change& change, FlagId id, bool clean) {
    const Marks& after = whole(change);
    if (!accepts(id, change, after, clean)) return std::nullopt;
    return Remedy{change, ids_of(after.care & ~now_.care), std::nullopt};
  }

  bool accepts(FlagId id, const Change& change, const Marks& after, bool clean) const {
    const bool seen = info_of(change.knob).turns != KnobTurns::acid ||
                      std::abs(after.ph - now_.ph) >= detail::reading_error_ph(PhMethod::meter);
    const std::uint64_t raised = after.care & ~now_.care;
    return seen && !after[id] && (after.stop & ~now_.stop) == 0 && (raised & unforetold()) == 0 &&
           std::popcount(raised) <= (clean ? 0 : most_raised);
  }

  /// Flags that say nothing can be foretold any more: what they silence is not cleared.
  static std::uint64_t unforetold() {
    static const std::uint64_t marks = [] {
      std::uint64_t found = 0;
      for (const FlagInfo& info : flag_catalogue())
        if (info.name == "outside-gel-model" || info.name == "outside-model")
          found |= Marks::bit(info.id);
      return found;
    }();
    return marks;
  }

  static std::vector<FlagId> ids_of(std::uint64_t set) {
    std::vector<FlagId> ids;
    for (std::size_t i = 0; i < most_flags; ++i)
      if ((set >> i & 1U) != 0) ids.push_back(static_cast<FlagId>(i));
    return ids;
  }

  const Marks& whole(const Change& change) { return after_turning(change, Look::whole); }

  const Marks& after_turning(const Change& change, Look look) {
    auto& memory = seen_[static_cast<std::size_t>(look)];
    for (const auto& [known, marks] : memory)
      if (known.knob == change.knob && known.amount == change.amount) return marks;
    const Inputs changed = turned(inputs_, change);
    const bool near = look == Look::rough && near_;
    memory.emplace_back(change,
                        marks_of(near ? nearly(changed, *near_)
                                      : evaluate(changed, parts_of(look, *inputs_.recipe))));
    return memory.back().second;
  }

  static Evaluation nearly(const Inputs& changed, const detail::NearForecast& known) {
    Evaluation after =
        evaluate(changed, {.batch = false, .flags = false, .gel = {.detail = GelDetail::none}});
    after.gel = known.at(after.formula, after.water_phase, changed);
    after.flags = flags_of(after, changed);
    return after;
  }

  const Inputs& inputs_;
  const Evaluation& evaluation_;
  Marks now_;
  bool rough_first_ = false;
  std::optional<detail::NearForecast> near_;  ///< a rough look not far from the full one
  std::array<std::deque<std::pair<Change, Marks>>, 3> seen_;  ///< one for each look
};

}  // namespace

Inputs turned(const Inputs& inputs, const Change& change) {
  Inputs changed = inputs;
  changed.water = {WaterBasis::mass_g, formulate(inputs).water_g};
  const KnobOf knob = change.which();
  if (!has_knob(*inputs.recipe, knob)) return changed;
  const KnobInfo& info = info_of(change.knob);
  turn(changed, knob, std::clamp(amount_of(knob, inputs) + change.amount, info.least, info.most));
  return changed;
}

Advice advise(const Inputs& inputs, const Evaluation& evaluation, AdviseParts parts) {
  Advice advice;
  advice.clears.resize(evaluation.flags.size());
  Search search(inputs, evaluation);
  // In the order they are shown, so that a later flag can point at an earlier remedy.
  std::vector<std::size_t> mended;
  for (const Level level : {Level::stop, Level::care, Level::note})
    for (std::size_t i = 0; i < evaluation.flags.size(); ++i) {
      const Flag& flag = evaluation.flags[i];
      if (flag.level != level || turns_of(flag.id).empty()) continue;
      if (level == Level::note && !parts.notes) continue;
      const auto before = std::find_if(mended.begin(), mended.end(), [&](std::size_t m) {
        return search.clears_too(flag.id, *advice.clears[m]);
      });
      if (before != mended.end()) {
        advice.clears[i] = advice.clears[*before];
        advice.clears[i]->same_as = *before;
        continue;
      }
      advice.clears[i] = search.remedy_for(flag.id);
      if (advice.clears[i]) mended.push_back(i);
    }
  if (parts.edges) advice.edges = detail::edges_of(inputs, evaluation);
  return advice;
}

std::string to_text(const Change& change) {
  const KnobInfo& info = info_of(change.knob);
  const double amount = std::abs(change.amount);
  if (change.knob == Knob::low_mineral_share)
    return fmt::format("{:.0f} % of the water as low-mineral water",
                       100 * std::ceil(amount / share_step - 1e-9) * share_step);
  return fmt::format("{} {} {} {}", significant(amount, printed_figures), info.unit,
                     change.amount > 0 ? "more" : "less", info.label);
}

std::string to_text(const Change& change, const Recipe& recipe) {
  if (change.knob != Knob::mass_g) return to_text(change);
  return fmt::format("{} g {} {}", significant(std::abs(change.amount), printed_figures),
                     change.amount > 0 ? "more" : "less",
                     recipe.ingredients[recipe.solids[change.solid].ingredient].name);
}

}  // namespace gelwright
