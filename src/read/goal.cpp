// From a goal to recipes: what there is, the ways to set it allows, the best of each, in figures
// that can be weighed.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "base/parallel.hpp"
#include "base/rounding.hpp"
#include "base/text.hpp"
#include "gelwright/recipe_edit.hpp"
#include "read/goal_kinds.hpp"
#include "read/kitchen.hpp"

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"goal.least-water", 0.15, "1", 0, "of the total; with less it is a paste", "judgement",
     Standing::judgement},
    {"goal.binds", 0.05, "1", 0, "a limit binds where the chance without it is better by this",
     "judgement", Standing::judgement},
    {"goal.figures", 3, "1", 0, "significant figures of what is weighed", "judgement",
     Standing::judgement},
};

constexpr const char* usual_larder[] = {"sodium alginate",
                                        "HM pectin",
                                        "LM pectin",
                                        "amidated pectin",
                                        "low-acyl gellan",
                                        "high-acyl gellan",
                                        "xanthan",
                                        "citric acid anhydrous",
                                        "glucono delta-lactone",
                                        "calcium lactate pentahydrate",
                                        "calcium carbonate",
                                        "sodium chloride",
                                        "trisodium citrate dihydrate"};

/// What there is to choose from.
struct Larder {
  std::vector<Ingredient> sugars;
  std::vector<Ingredient> shelf;

  template <class Wanted>
  const Ingredient* first(Wanted wanted) const {
    const auto found = std::find_if(shelf.begin(), shelf.end(), wanted);
    return found == shelf.end() ? nullptr : &*found;
  }
  const Ingredient* gum(Gum which) const {
    return first([which](const Ingredient& each) {
      return each.kind == Kind::gum && each.per_g.gum_g[index_of(which)] > 0;
    });
  }
  const Ingredient* acid(GoalAcid how) const {
    return first([how](const Ingredient& each) {
      return each.kind == Kind::acid && (each.per_g.lactone_mol > 0) == (how == GoalAcid::slow);
    });
  }
  const Ingredient* calcium(GoalCalcium how) const {
    return first([how](const Ingredient& each) {
      return each.kind == Kind::calcium_salt &&
             waits_for_acid(each) == (how == GoalCalcium::released);
    });
  }
  const Ingredient* sodium_salt() const {
    return first([](const Ingredient& each) {
      return each.kind == Kind::salt && each.per_g.dissolved(Component::sodium) > 0;
    });
  }
  bool mix_brings_gum() const { return std::any_of(sugars.begin(), sugars.end(), holds_gum); }
};

std::vector<std::string> names_at_hand(const Goal& goal,
                                       const std::optional<KitchenDocument>& kitchen) {
  if (!goal.have.empty()) return goal.have;
  std::vector<std::string> names;
  if (kitchen) {
    const nlohmann::ordered_json whole = checked_kitchen(*kitchen);
    if (whole.contains("define"))
      for (const auto& member : whole["define"].items()) names.push_back(member.key());
    if (whole.contains("prices") && whole["prices"].contains("packs"))
      for (const auto& pack : whole["prices"]["packs"])
        names.push_back(pack.at("ingredient").get<std::string>());
  }
  if (names.empty()) names.assign(std::begin(usual_larder), std::end(usual_larder));
  return names;
}

Larder larder_of(const Goal& goal, const std::optional<KitchenDocument>& kitchen) {
  nlohmann::json define = nlohmann::json::object();
  if (kitchen) {
    const nlohmann::ordered_json whole = checked_kitchen(*kitchen);
    if (whole.contains("define")) define = nlohmann::json::parse(whole["define"].dump());
  }
  Findings findings;
  Pantry pantry(&define, "/define", {}, findings);
  Larder larder;
  for (std::size_t i = 0; i < goal.sugars.size(); ++i) {
    const std::string where = fmt::format("/sugars/{}/ingredient", i);
    const Ingredient* found = pantry.find(goal.sugars[i].ingredient, where);
    if (found == nullptr) continue;
    larder.sugars.push_back(*found);
    if (!(found->per_g.carbohydrate_g > 0))
      findings.problems.push_back(
          {where, fmt::format("{} holds no carbohydrate", found->name), "name what feeds"});
  }
  const std::vector<std::string> names = names_at_hand(goal, kitchen);
  for (std::size_t i = 0; i < names.size(); ++i)
    if (const Ingredient* found = pantry.find(names[i], fmt::format("/have/{}", i)))
      larder.shelf.push_back(*found);
  if (!findings.problems.empty()) throw InputError(goal.document, std::move(findings.problems));
  return larder;
}

/// One way to set with the names it takes from the larder.
struct Trial {
  const GoalKind* kind = nullptr;
  GoalNames names;
};

/// What a way to set lacks.
std::vector<std::string> lacking(const Larder& larder, const GoalKind& kind) {
  std::vector<std::string> missing;
  for (const Gum gum : kind.gums)
    if (larder.gum(gum) == nullptr) missing.emplace_back(to_text(gum));
  if (kind.acid != GoalAcid::none && larder.acid(kind.acid) == nullptr)
    missing.emplace_back(kind.acid == GoalAcid::slow ? "an acid that is released slowly"
                                                     : "an acid");
  if (kind.calcium != GoalCalcium::none && larder.calcium(kind.calcium) == nullptr)
    missing.emplace_back(kind.calcium == GoalCalcium::soluble
                             ? "a calcium salt that dissolves"
                             : "a calcium salt that waits for acid");
  return missing;
}

std::string joined(const std::vector<std::string>& items) {
  std::string text;
  for (std::size_t i = 0; i < items.size(); ++i)
    text += (i == 0 ? "" : i + 1 == items.size() ? " and " : ", ") + items[i];
  return text;
}

Trial trial_of(const Goal& goal, const Larder& larder, const GoalKind& kind) {
  Trial trial{&kind, {}};
  for (const Ingredient& each : larder.sugars) trial.names.sugars.push_back(each.name);
  for (const Gum gum : kind.gums) trial.names.gums.push_back(larder.gum(gum)->name);
  // What sets without acid is made sour only where the goal asks for it.
  const GoalAcid acid =
      kind.acid == GoalAcid::none && goal.ph.at_most && larder.acid(GoalAcid::poured)
          ? GoalAcid::poured
          : kind.acid;
  if (acid != GoalAcid::none) trial.names.acid = larder.acid(acid)->name;
  if (kind.calcium != GoalCalcium::none) trial.names.calcium = larder.calcium(kind.calcium)->name;
  if (goal.sodium_mg.at_least && larder.sodium_salt() != nullptr)
    trial.names.salt = larder.sodium_salt()->name;
  return trial;
}

/// Carbohydrate by part; the same number of figures the sheet prints.
std::vector<double> sugar_masses(const Goal& goal, const Larder& larder) {
  double parts = 0;
  for (const GoalSugar& each : goal.sugars) parts += each.part;
  std::vector<double> masses;
  for (std::size_t i = 0; i < goal.sugars.size(); ++i)
    masses.push_back(goal.carbohydrate_g * goal.sugars[i].part / parts /
                     larder.sugars[i].per_g.carbohydrate_g);
  return masses;
}

double weighable(double mass_g) {
  const int figures = static_cast<int>(value_of(data, "goal.figures"));
  return rounded(mass_g, decimals_for(mass_g, figures));
}

/// Never less than it was: a least amount of sodium is kept.
double weighable_up(double mass_g) {
  const double near = weighable(mass_g);
  if (near >= mass_g) return near;
  const int figures = static_cast<int>(value_of(data, "goal.figures"));
  return weighable(near + std::pow(10.0, -decimals_for(mass_g, figures)));
}

Wish wish_of(const Goal& goal) {
  return {texture_of(goal), goal.form == Form::drink, goal.ph, goal.sodium_mg, goal.price_at_most};
}

/// The masses of a serving in figures that can be weighed; what is rounded off goes to the water.
GoalMasses masses_of(const Inputs& inputs, const Trial& trial) {
  GoalMasses masses;
  std::size_t line = 0;
  double all = 0;
  double before = inputs.water.amount;
  const auto take = [&](double mass_g, bool up = false) {
    const double kept = up ? weighable_up(mass_g) : weighable(mass_g);
    before += mass_g;
    all += kept;
    return kept;
  };
  for (std::size_t i = 0; i < trial.names.sugars.size(); ++i)
    masses.sugars.push_back(take(inputs.solids[line++].mass_g));
  for (std::size_t i = 0; i < trial.names.gums.size(); ++i)
    masses.gums.push_back(take(inputs.solids[line++].mass_g));
  if (!trial.names.salt.empty()) masses.salt = take(inputs.solids[line].mass_g, true);
  if (inputs.acid) masses.acid = take(inputs.acid->line.mass_g);
  if (inputs.calcium) masses.calcium = take(inputs.calcium->line.mass_g);
  constexpr int water_decimals = 3;
  masses.water = rounded(before - all, water_decimals);
  return masses;
}

class Finder {
 public:
  Finder(const Goal& goal, const std::optional<KitchenDocument>& kitchen, std::uint64_t seed)
      : goal_(goal), kitchen_(kitchen), seed_(seed), larder_(larder_of(goal, kitchen)) {}

  std::vector<Trial> trials(GoalFound& found) const {
    std::vector<Trial> made;
    for (const GoalKind& kind : goal_kinds()) {
      if (kind.pouch != (goal_.form == Form::pouch)) continue;
      // What the sugars bring cannot be left out, and what they do not bring cannot set.
      if (kind.gums.empty() != larder_.mix_brings_gum()) continue;
      const std::vector<std::string> missing = lacking(larder_, kind);
      if (missing.empty()) {
        made.push_back(trial_of(goal_, larder_, kind));
        continue;
      }
      found.not_tried.push_back(fmt::format("{}: lacks {}", kind.words, joined(missing)));
      for (const std::string& each : missing)
        if (std::find(found.lacking.begin(), found.lacking.end(), each) == found.lacking.end())
          found.lacking.push_back(each);
    }
    return made;
  }

  GoalAnswer answer(const Trial& trial) const {
    const Recipe recipe = drafted(trial);
    const Draft draft = draft_of(recipe, trial);
    const DraftFound best = best_of(draft, wish_of(goal_), seed_);
    return told(trial, best);
  }

  /// What keeps the answer from a better chance: each limit let go in turn.
  std::vector<GoalLimit> binding(const Trial& trial, const GoalAnswer& answer) const {
    const Recipe recipe = drafted(trial);
    const Draft draft = draft_of(recipe, trial);
    struct Let {
      std::optional<double> Limit::*side;
      Limit Goal::*limit;
      std::string what, unit;
    };
    const Let all[] = {{&Limit::at_least, &Goal::ph, "pH", ""},
                       {&Limit::at_most, &Goal::ph, "pH", ""},
                       {&Limit::at_least, &Goal::sodium_mg, "sodium", "mg"},
                       {&Limit::at_most, &Goal::sodium_mg, "sodium", "mg"}};
    std::vector<GoalLimit> found;
    const auto try_without = [&](const Goal& freer, std::string what, std::string unit,
                                 double limit, bool at_most) {
      const double chance = best_of(draft, wish_of(freer), seed_).weighed.flawless;
      if (chance > answer.flawless + value_of(data, "goal.binds"))
        found.push_back({std::move(what), std::move(unit), limit, at_most, limit, chance});
    };
    for (const Let& let : all) {
      if (!(goal_.*let.limit.*let.side)) continue;
      Goal freer = goal_;
      const double limit = *(goal_.*let.limit.*let.side);
      (freer.*let.limit.*let.side).reset();
      try_without(freer, let.what, let.unit, limit, let.side == &Limit::at_most);
    }
    if (goal_.price_at_most) {
      Goal freer = goal_;
      freer.price_at_most.reset();
      try_without(freer, "price", recipe.currency, *goal_.price_at_most, true);
    }
    return found;
  }

 private:
  /// With some of everything, so that every line is there.
  Recipe drafted(const Trial& trial) const {
    GoalMasses some;
    some.sugars.assign(trial.names.sugars.size(), 1);
    some.gums.assign(trial.names.gums.size(), 1);
    some.acid = some.calcium = some.salt = 1;
    some.water = 100;
    const std::string text = goal_document(goal_, *trial.kind, trial.names, some);
    return read_recipe(text, goal_.document, kitchen_);
  }

  Draft draft_of(const Recipe& recipe, const Trial& trial) const {
    Draft draft;
    draft.recipe = &recipe;
    draft.sugar_g = sugar_masses(goal_, larder_);
    std::size_t line = trial.names.sugars.size();
    for (std::size_t i = 0; i < trial.names.gums.size(); ++i) draft.gums.push_back(line++);
    if (!trial.names.salt.empty()) draft.salt = line;
    draft.gum = trial.kind->gum;
    constexpr Span to_taste{0.005, 1.5};
    if (!trial.names.acid.empty())
      draft.acid = trial.kind->acid == GoalAcid::none ? to_taste : trial.kind->acid_percent;
    if (!trial.names.calcium.empty()) draft.calcium = trial.kind->calcium_percent;
    draft.size = {goal_.serving_g, goal_.soluble_solids_percent, {}};
    draft.size.water_percent_of_total = goal_.form == Form::pouch ? Span{35, 85} : Span{85, 96};
    return draft;
  }

  GoalAnswer told(const Trial& trial, const DraftFound& best) const {
    GoalAnswer made;
    made.kind = trial.kind->words;
    if (best.inputs.recipe == nullptr) return made;
    const GoalMasses masses = masses_of(best.inputs, trial);
    GoalNames names = trial.names;
    if (!(masses.salt > 0)) names.salt.clear();  // there is sodium enough without it
    const std::string text = goal_document(goal_, *trial.kind, names, masses);
    // Judged as it is written: what is claimed is what the recipe gives.
    try {
      made.text = flattened_recipe(text, goal_.document, kitchen_);
      const Recipe recipe = read_recipe(made.text, goal_.document);
      const Evaluation evaluation = evaluate(inputs_of(recipe));
      const Weighed judged = weighed(evaluation, wish_of(goal_));
      made.chance = evaluation.gel.chance(texture_of(goal_));
      made.flawless = judged.flawless;
      made.worth = judged.worth;
      made.pieces = evaluation.gel.all.stomach.pieces;
      made.likeliest = evaluation.gel.made && evaluation.gel.likeliest() == texture_of(goal_);
      for (const Flag& flag : evaluation.flags)
        if (flag.level == Level::stop)
          made.stops.push_back(message_of(flag, evaluation, inputs_of(recipe)));
      for (const Broken& each : judged.broken) made.broken.push_back(named(each, recipe));
    } catch (const InputError&) {
      made.text.clear();
    }
    return made;
  }

  static GoalLimit named(const Broken& broken, const Recipe& recipe) {
    GoalLimit made;
    made.limit = broken.limit;
    made.at_most = broken.at_most;
    made.reached = broken.reached;
    switch (broken.what) {
      case Broken::What::ph:
        made.what = "pH";
        break;
      case Broken::What::sodium:
        made.what = "sodium";
        made.unit = "mg";
        break;
      case Broken::What::price:
        made.what = "price";
        made.unit = recipe.currency;
        break;
    }
    return made;
  }

  Goal goal_;
  const std::optional<KitchenDocument>& kitchen_;
  std::uint64_t seed_;
  Larder larder_;
};

/// What can be made before what cannot, then by what the search climbed.
bool better(const GoalAnswer& a, const GoalAnswer& b) {
  if (a.text.empty() != b.text.empty()) return b.text.empty();
  return a.worth > b.worth;
}

void check_sides(const Limit& limit, const std::string& where, std::vector<Problem>& problems) {
  if (limit.at_least && limit.at_most && *limit.at_least > *limit.at_most)
    problems.push_back({where,
                        fmt::format("at least {:g} and at most {:g} contradict each other",
                                    *limit.at_least, *limit.at_most),
                        "swap them, or leave one out"});
}

}  // namespace

gel::Texture texture_of(const Goal& goal) {
  return goal.texture.value_or(goal.form == Form::pouch ? gel::Texture::soft : gel::Texture::pours);
}

std::vector<Problem> problems_of(const Goal& goal) {
  std::vector<Problem> problems;
  check_sides(goal.ph, "/ph", problems);
  check_sides(goal.sodium_mg, "/sodium_mg", problems);
  const double most = (1 - value_of(data, "goal.least-water"));
  if (goal.serving_g && goal.carbohydrate_g > most * *goal.serving_g)
    problems.push_back(
        {"/serving_g",
         fmt::format("{:g} g of carbohydrate leave too little water in {:g} g", goal.carbohydrate_g,
                     *goal.serving_g),
         fmt::format("at least {:.0f} g, or at most {:.0f} g of carbohydrate",
                     std::ceil(goal.carbohydrate_g / most), std::floor(most * *goal.serving_g))});
  if (goal.serving_g && goal.soluble_solids_percent)
    problems.push_back({"/soluble_solids_percent",
                        "the mass of a serving says already how much water there is",
                        "leave one of the two out"});
  if (goal.form == Form::drink && goal.texture && *goal.texture != gel::Texture::pours &&
      *goal.texture != gel::Texture::thick)
    problems.push_back(
        {"/texture",
         fmt::format("a drink has to pour, and \"{}\" does not", gel::to_text(*goal.texture)),
         "ask for \"pours\" or \"thick\", or for a pouch"});
  if (goal.servings != std::round(goal.servings))
    problems.push_back({"/servings", fmt::format("{:g} is no whole number", goal.servings),
                        "count whole servings"});
  if (goal.caffeine_mg > 0) {
    const double halves = 2 * goal.caffeine_mg / goal.tablet_mg;
    if (std::abs(halves - std::round(halves)) > 1e-6)
      problems.push_back(
          {"/caffeine_mg",
           fmt::format("{:g} mg are no whole or half tablets of {:g} mg", goal.caffeine_mg,
                       goal.tablet_mg),
           fmt::format("{:g} mg are the nearest", std::round(halves) * goal.tablet_mg / 2)});
  }
  return problems;
}

GoalFound recipes_for(const Goal& asked, const std::optional<KitchenDocument>& kitchen,
                      std::uint64_t seed, std::size_t most) {
  Goal goal = asked;
  if (goal.sugars.empty()) goal.sugars = {{"maltodextrin DE 18", 1}, {"fructose", 0.8}};
  if (std::vector<Problem> problems = problems_of(goal); !problems.empty())
    throw InputError(goal.document, std::move(problems));
  const Finder finder(goal, kitchen, seed);
  GoalFound found;
  found.seed = seed;
  const std::vector<Trial> trials = finder.trials(found);
  if (trials.empty())
    throw InputError(goal.document, {{"/have", "nothing there sets, as far as the gel model knows",
                                      "name a gum, and what sets it: an acid or a calcium salt"}});
  std::vector<GoalAnswer> answers(trials.size());
  for_each_block(trials.size(), 0, [&](std::size_t i) { answers[i] = finder.answer(trials[i]); });
  std::vector<std::size_t> order(trials.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return better(answers[a], answers[b]); });
  if (answers[order.front()].text.empty())
    throw InputError(goal.document, {{"", "no amounts of anything here make a serving",
                                      "ask for less carbohydrate or for more water"}});
  if (answers[order.front()].good())
    found.binding = finder.binding(trials[order.front()], answers[order.front()]);
  for (const std::size_t i : order)
    if (found.answers.size() < most && !answers[i].text.empty())
      found.answers.push_back(std::move(answers[i]));
  return found;
}

std::span<const Datum> goal_data() {
  return data;
}

}  // namespace gelwright
