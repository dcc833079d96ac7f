#include "gelwright/aim.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/rounding.hpp"
#include "base/text.hpp"
#include "gelwright/error.hpp"
#include "studies/kitchen_range.hpp"

namespace gelwright {

namespace {

constexpr int scan_steps = 40;
constexpr int narrowing_steps = 12;
constexpr int printed_figures = 3;
/// A better chance than this much is worth leaving the recipe as it is, or naming a limit for.
constexpr double worth_it = 0.01;

constexpr gel::Texture textures[] = {gel::Texture::pours,   gel::Texture::thick, gel::Texture::bits,
                                     gel::Texture::flowing, gel::Texture::soft,  gel::Texture::firm,
                                     gel::Texture::hard};

struct Point {
  double amount = 0;
  double chance = -1;  ///< of the wanted texture; below 0 where nothing can be said
  bool allowed = false;
  gel::Chances chances = {};
  double ph = 7;
};

class Search {
 public:
  Search(const Inputs& inputs, const TextureAim& aim) : inputs_(inputs), aim_(aim) {
    inputs_.water = {WaterBasis::mass_g, formulate(inputs).water_g};
  }

  Point at(double amount) const {
    constexpr EvaluateParts gel_only{.batch = false, .flags = false, .gel = {.stomach = false}};
    Point point;
    point.amount = amount;
    Inputs turned = inputs_;
    turn(turned, aim_.turn, amount);
    try {
      const Evaluation found = evaluate(turned, gel_only);
      point.ph = found.water_phase.ph;
      const Limit& limit = inputs_.recipe->limits.ph;
      point.allowed = found.gel.made && !(limit.at_least && point.ph < *limit.at_least) &&
                      !(limit.at_most && point.ph > *limit.at_most);
      point.chances = found.gel.all.chances;
      if (found.gel.made) point.chance = point.chances[aim_.texture];
    } catch (const InputError&) {
      point.allowed = false;  // more than a water phase can hold
    }
    return point;
  }

  /// The best allowed amount, and the best of all.
  struct Best {
    Point allowed;
    double anywhere = 0;
  };
  Best best(const KitchenRange& range) const {
    Best found;
    const double step = (range.most - range.least) / scan_steps;
    for (int i = 0; i <= scan_steps; ++i) {
      const Point here = at(range.least + step * i);
      found.anywhere = std::max(found.anywhere, here.chance);
      take(here, found.allowed);
    }
    if (!found.allowed.allowed) return found;
    double width = step;
    for (int i = 0; i < narrowing_steps; ++i, width *= 0.6)
      for (const double side : {-width / 2, width / 2})
        take(at(std::clamp(found.allowed.amount + side, range.least, range.most)), found.allowed);
    return found;
  }

 private:
  static void take(const Point& here, Point& best) {
    if (here.allowed && (!best.allowed || here.chance > best.chance)) best = here;
  }

  Inputs inputs_;
  TextureAim aim_;
};

}  // namespace

AimFound aim_at(const Inputs& inputs, const TextureAim& aim) {
  if (!has_knob(*inputs.recipe, aim.turn))
    throw InputError(inputs.recipe->document,
                     {{"turn", fmt::format("the recipe has no {}", info_of(aim.turn.knob).label),
                       "name in the recipe what is to be turned"}});
  const Search search(inputs, aim);
  AimFound found;
  found.aim = aim;
  const double now = amount_of(aim.turn, inputs);
  const Point before = search.at(now);
  found.chance_before = std::max(0.0, before.chance);
  const Search::Best best = search.best(kitchen_range(aim.turn, inputs));
  found.possible = best.allowed.allowed;
  if (!found.possible) return found;
  // What is printed must do, and what is there already is not turned for nothing.
  Point chosen = search.at(to_figures(best.allowed.amount, printed_figures));
  if (!chosen.allowed) chosen = best.allowed;
  if (before.allowed && before.chance >= chosen.chance - worth_it) chosen = before;
  found.amount = chosen.amount;
  found.chance = chosen.chance;
  found.chances = chosen.chances;
  found.ph = chosen.ph;
  found.likeliest = gel::likeliest(chosen.chances) == aim.texture;
  found.ph_limit_binds = best.anywhere > chosen.chance + worth_it;
  return found;
}

Inputs aimed(const Inputs& inputs, const AimFound& found) {
  Inputs made = inputs;
  made.water = {WaterBasis::mass_g, formulate(inputs).water_g};
  turn(made, found.aim.turn, found.amount);
  return made;
}

std::string reason_of(const AimFound& found, const Recipe& recipe) {
  const std::string what = name_of(found.aim.turn, recipe);
  if (!found.possible)
    return fmt::format("no amount of {} keeps the pH limits within what can be forecast", what);
  if (found.likeliest) return "";
  return fmt::format("whatever {} is, {} is likelier", what,
                     gel::to_text(gel::likeliest(found.chances))) +
         (found.ph_limit_binds ? "; the pH limits keep it from a better chance" : "");
}

std::optional<gel::Texture> texture_called(std::string_view words) {
  const std::string wanted = lower(std::string(words));
  for (const gel::Texture each : textures) {
    const std::string_view name = gel::to_text(each);
    if (wanted == name || wanted == name.substr(0, name.find(' '))) return each;
  }
  return wanted == "flowing" ? std::optional(gel::Texture::flowing) : std::nullopt;
}

std::string textures_in_words() {
  std::vector<std::string> names;
  for (const gel::Texture each : textures) names.emplace_back(gel::to_text(each));
  return quoted_list(names);
}

}  // namespace gelwright
