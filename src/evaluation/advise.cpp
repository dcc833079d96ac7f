#include "gelwright/advise.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <deque>
#include <utility>

#include "base/roots.hpp"
#include "base/rounding.hpp"
#include "gelwright/batch.hpp"
#include "gelwright/error.hpp"
#include "gelwright/remedy.hpp"
#include "serving/ph_error.hpp"

namespace gelwright {

namespace {

/// Enough to tell 1 % of the range from 2 %; the answer is rounded for a kitchen anyway.
constexpr int scan_steps = 8;
constexpr double edge_tolerance = 1.0 / 128;
constexpr int printed_figures = 2;
/// What brings more new cares than this is another recipe, not a remedy.
constexpr int most_raised = 2;
/// Shares of low-mineral water are advised in such steps.
constexpr double share_step = 0.05;

/// What a search needs: no batch, and the stomach, which costs as much as all the rest, only of a
/// drink; no flag of a pouch looks at it. An undeclared share is taken at its middle; what is found
/// is then looked at in full, and if that refuses it, looked for in full.
EvaluateParts search_parts(const Recipe& recipe, bool in_full) {
  return {.batch = false,
          .flags = true,
          .gel = {.stomach = recipe.form == Form::drink, .bands = in_full}};
}

/// The furthest a knob is turned, in its own unit and direction (+1 or -1); 0 = not at all.
double furthest(const KnobOf& which, double direction, const Inputs& inputs,
                const Formula& formula) {
  if (!has_knob(*inputs.recipe, which)) return 0;
  const double now = amount_of(which, inputs);
  switch (info_of(which.knob).turns) {
    case KnobTurns::acid:
      return direction > 0 ? std::max(2 * now, 0.01 * formula.total_g) : -now;
    case KnobTurns::calcium_salt:
      return direction > 0 ? std::max(4 * now, 0.01 * formula.total_g) : -now;
    case KnobTurns::water:
      return direction > 0 ? std::max(formula.total_g, now) : -0.8 * now;
    case KnobTurns::tap_share:
      return direction > 0 ? 1 : 0;
    case KnobTurns::tap_ion:
      return direction > 0 ? std::max(400.0, 4 * now) : -now;
    case KnobTurns::solid:
      return direction > 0 ? 2 * now : -now;
    default:
      return 0;  // another recipe, not a remedy
  }
}

/// Two figures, away from zero, of what the whole batch takes, and where it is to be weighed no
/// less than the finest scale shows: what is printed is what was evaluated.
double printed(const KnobOf& which, double amount, double limit, const Inputs& inputs,
               bool to_weigh) {
  const KnobInfo& info = info_of(which.knob);
  double made = amount;
  if (info.per_serving) {
    const double factor = batch_factor(inputs);
    double whole = to_figures_away_from_zero(amount * factor, printed_figures);
    double finest_g = 0;
    for (const Scale& scale : inputs.recipe->batch.scales)
      finest_g = finest_g > 0 ? std::min(finest_g, scale.readability_g) : scale.readability_g;
    if (to_weigh && std::abs(whole) < finest_g) whole = std::copysign(finest_g, whole);
    made = whole / factor;
  } else if (which.knob == Knob::low_mineral_share) {
    made = std::ceil(amount / share_step) * share_step;
  } else {
    made = to_figures_away_from_zero(amount, printed_figures);
  }
  return std::abs(made) <= std::abs(limit) ? made : limit;
}

/// The smallest turn of a knob for which `wanted` holds, scanning outwards, then bisecting.
template <class Wanted>
std::optional<Change> smallest(const KnobOf& which, double direction, const Inputs& inputs,
                               const Formula& formula, bool to_weigh, Wanted wanted) {
  const double limit = furthest(which, direction, inputs, formula);
  if (limit == 0) return std::nullopt;
  const auto holds = [&](double amount) {
    try {
      return wanted(Change{which.knob, amount, which.solid});
    } catch (const InputError&) {
      return false;  // a state no water phase can hold is no remedy
    }
  };
  double refused = 0;
  for (int step = 1; step <= scan_steps; ++step) {
    double reached = limit * std::pow(2.0, step - scan_steps);
    if (!holds(reached)) {
      refused = reached;
      continue;
    }
    reached = detail::find_edge(holds, refused, reached,
                                {.x_tolerance = std::abs(reached - refused) * edge_tolerance});
    const double shown = printed(which, reached, limit, inputs, to_weigh);
    if (holds(shown)) return Change{which.knob, shown, which.solid};
    refused = limit * std::pow(2.0, step - scan_steps);  // too narrow to hit: look further out
  }
  return std::nullopt;
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
      : inputs_(inputs), evaluation_(evaluation), now_(marks_of(evaluation)) {}

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
    for (const bool in_full : {false, true}) {
      const auto change =
          smallest({direction.knob}, direction.sign, inputs_, evaluation_.formula, true,
                   [&](const Change& tried) {
                     return accepts(id, tried, after_turning(tried, in_full), clean);
                   });
      if (!change || !sensible(*change, inputs_, evaluation_.formula)) return std::nullopt;
      const Marks& after = whole(*change);
      if (accepts(id, *change, after, clean))
        return Remedy{*change, ids_of(after.care & ~now_.care), std::nullopt};
    }
    return std::nullopt;
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

  const Marks& after_turning(const Change& change, bool in_full) {
    return remembered(in_full ? in_full_ : seen_, change, search_parts(*inputs_.recipe, in_full));
  }

  /// With the weighing plan.
  const Marks& whole(const Change& change) { return remembered(whole_, change, {}); }

  using Memory = std::deque<std::pair<Change, Marks>>;

  const Marks& remembered(Memory& memory, const Change& change, const EvaluateParts& parts) {
    for (const auto& [known, marks] : memory)
      if (known.knob == change.knob && known.amount == change.amount) return marks;
    memory.emplace_back(change, marks_of(evaluate(turned(inputs_, change), parts)));
    return memory.back().second;
  }

  const Inputs& inputs_;
  const Evaluation& evaluation_;
  Marks now_;
  Memory seen_, in_full_, whole_;
};

struct NamedDefect {
  std::string_view name;
  double gel::Defects::*chance;
};
constexpr NamedDefect defects[] = {{"lumps", &gel::Defects::lumps},
                                   {"weeps", &gel::Defects::weeps},
                                   {"specks", &gel::Defects::specks},
                                   {"brittle", &gel::Defects::brittle},
                                   {"grit", &gel::Defects::grit}};
/// A defect is there once it is likelier than not.
constexpr double likely = 0.5;

/// What differs across an edge: the likeliest texture, else a defect that has become likely.
std::optional<Edge> crossed(const gel::Mixture& before, const gel::Mixture& after) {
  const gel::Texture now = gel::likeliest(after.chances);
  if (now != gel::likeliest(before.chances))
    return Edge{{}, gel::to_text(now), before.chances[now], after.chances[now]};
  for (const NamedDefect& each : defects)
    if (before.defects.*each.chance < likely && after.defects.*each.chance >= likely)
      return Edge{{}, each.name, before.defects.*each.chance, after.defects.*each.chance};
  return std::nullopt;
}

/// What of the gel alone an edge needs.
EvaluateParts edge_parts(bool in_full) {
  return {.batch = false, .flags = false, .gel = {.stomach = false, .bands = in_full}};
}

std::vector<Edge> edges_of(const Inputs& inputs, const Evaluation& evaluation) {
  std::vector<Edge> edges;
  if (!evaluation.gel.made || !evaluation.gel.any_gum()) return edges;
  const gel::Mixture whole = evaluation.gel.all;
  const gel::Mixture middle =
      evaluation.gel.band ? evaluate(inputs, edge_parts(false)).gel.all : whole;
  const auto beyond = [&](const Change& tried, bool in_full) {
    const GelForecast changed = evaluate(turned(inputs, tried), edge_parts(in_full)).gel;
    return changed.made ? crossed(in_full ? whole : middle, changed.all) : std::nullopt;
  };
  std::vector<KnobOf> knobs = {
      {Knob::acid_g}, {Knob::water_g}, {Knob::calcium_salt_g}, {Knob::tap_calcium_mg_per_l}};
  for (std::size_t i = 0; i < inputs.solids.size(); ++i)
    if (inputs.recipe->ingredients[inputs.solids[i].ingredient].kind == Kind::gum)
      knobs.push_back({Knob::mass_g, i});
  // Where the middle of a band and all of it disagree, the edge is looked for in full.
  const bool same = gel::likeliest(whole.chances) == gel::likeliest(middle.chances);
  for (const KnobOf& knob : knobs)
    for (const double direction : {-1.0, 1.0})
      for (const bool in_full : {false, true}) {
        if (!in_full && !same) continue;
        const auto change =
            smallest(knob, direction, inputs, evaluation.formula, false,
                     [&](const Change& tried) { return beyond(tried, in_full).has_value(); });
        if (!change) break;
        std::optional<Edge> edge = beyond(*change, true);
        if (!edge) continue;
        edge->change = *change;
        edges.push_back(*edge);
        break;
      }
  return edges;
}

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
  if (parts.edges) advice.edges = edges_of(inputs, evaluation);
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
