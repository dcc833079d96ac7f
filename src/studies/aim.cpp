#include "gelwright/aim.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/parallel.hpp"
#include "base/rounding.hpp"
#include "base/text.hpp"
#include "gelwright/error.hpp"
#include "studies/kitchen_range.hpp"

namespace gelwright {

namespace {

constexpr std::size_t scan_steps = 40;
constexpr std::size_t block_steps = 7;
constexpr int narrowing_steps = 8;
constexpr int last_steps = 3;
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

  /// `bands`: with every share of gum the pack leaves open, as it is printed; else a third of the
  /// work and near enough to search with.
  Point at(double amount, bool bands = true) const {
    const EvaluateParts gel_only{
        .batch = false, .flags = false, .gel = {.stomach = false, .bands = bands}};
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

  /// The best allowed amount.
  struct Best {
    Point allowed;
    bool better_outside = false;  ///< where the limits are broken it is clearly likelier
  };
  Best best(const KitchenRange& range) const {
    const double step = (range.most - range.least) / scan_steps;
    std::vector<Point> scan(scan_steps + 1);
    for_each_block((scan.size() + block_steps - 1) / block_steps, 0, [&](std::size_t block) {
      const std::size_t end = std::min((block + 1) * block_steps, scan.size());
      for (std::size_t i = block * block_steps; i < end; ++i)
        scan[i] = at(range.least + step * static_cast<double>(i), false);
    });
    Best found;
    double anywhere = 0;
    for (const Point& here : scan) {
      anywhere = std::max(anywhere, here.chance);
      take(here, found.allowed);
    }
    if (!found.allowed.allowed) return found;
    double width = narrowed(found.allowed, range, step, narrowing_steps, false);
    found.better_outside = anywhere > found.allowed.chance + worth_it;
    found.allowed = at(found.allowed.amount);
    narrowed(found.allowed, range, width, last_steps, true);
    return found;
  }

 private:
  /// Looks to both sides, ever nearer; returns how near in the end.
  double narrowed(Point& best, const KitchenRange& range, double width, int steps,
                  bool bands) const {
    for (int i = 0; i < steps; ++i, width *= 0.6)
      for (const double side : {-width / 2, width / 2})
        take(at(std::clamp(best.amount + side, range.least, range.most), bands), best);
    return width;
  }

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
  found.ph_limit_binds = best.better_outside;
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
