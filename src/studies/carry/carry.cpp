#include "gelwright/carry.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gelwright/error.hpp"
#include "studies/carry/carry_table.hpp"
#include "studies/carry/findings.hpp"
#include "studies/carry/schedule.hpp"

namespace gelwright {

namespace {

constexpr double most_hours = value_of(carry_table, "carry.most-hours");
constexpr double most_g_per_hour = value_of(carry_table, "carry.most-wanted");
constexpr double ml_per_l = 1000;
constexpr double quarter_hour = 0.25;

void require_sense(const std::vector<CarryItem>& items, const CarryWish& wish) {
  std::vector<Problem> problems;
  const auto require = [&problems](bool holds, std::string where, double given,
                                   std::string remedy) {
    if (!holds)
      problems.push_back(
          {std::move(where), fmt::format("{:g} is out of range", given), std::move(remedy)});
  };
  require(wish.hours > 0 && wish.hours <= most_hours, "hours", wish.hours,
          fmt::format("give hours above 0 and at most {:g}; plan a longer outing in parts",
                      most_hours));
  require(wish.carbohydrate_g_per_hour > 0 && wish.carbohydrate_g_per_hour <= most_g_per_hour,
          "carbohydrate_g_per_hour", wish.carbohydrate_g_per_hour,
          fmt::format("give grams in one hour, above 0 and at most {:g}; {:g} is the highest "
                      "intake advised",
                      most_g_per_hour, value_of(carry_table, "carry.untried")));
  if (wish.used_to_g_per_hour)
    require(*wish.used_to_g_per_hour >= 0 && *wish.used_to_g_per_hour <= most_g_per_hour,
            "used_to_g_per_hour", *wish.used_to_g_per_hour,
            fmt::format("give grams in one hour, 0 to {:g}", most_g_per_hour));
  if (wish.sweat_l_per_hour)
    require(*wish.sweat_l_per_hour > 0 &&
                *wish.sweat_l_per_hour <= value_of(carry_table, "carry.sweat-most"),
            "sweat_l_per_hour", *wish.sweat_l_per_hour,
            fmt::format("give litres in one hour, above 0 and at most {:g}; weigh yourself before "
                        "and after an hour's run: 1 kg lost is 1 L",
                        value_of(carry_table, "carry.sweat-most")));
  if (wish.strength_percent)
    require(*wish.strength_percent >= 1 && *wish.strength_percent <= 100, "strength_percent",
            *wish.strength_percent, "give grams of carbohydrate in 100 g, 1 to 100");
  require(wish.warm_before_hours >= 0 && wish.warm_before_hours <= most_hours, "warm_before_hours",
          wish.warm_before_hours, fmt::format("give hours, 0 to {:g}", most_hours));
  require(wish.cold_hours >= 0 && wish.cold_hours <= most_hours, "cold_hours", wish.cold_hours,
          fmt::format("give hours, 0 to {:g}", most_hours));
  if (items.empty()) problems.push_back({"items", "there is nothing to carry", "name a recipe"});
  for (const CarryItem& item : items)
    if (!item.pieces && !(item.holds.carbohydrate_g > 0))
      problems.push_back(
          {item.name, "it has no carbohydrate to count pieces by", "say how many of it to take"});
  if (!problems.empty()) throw InputError("", std::move(problems));
}

/// Water that thins a piece to this share of carbohydrate: what it weighs then is c / t.
double thinning_ml(const CarryItem& item, double strength_percent) {
  return std::max(0.0, 100 * item.holds.carbohydrate_g / strength_percent - item.mass_g);
}

/// Water with each piece, all of it together no more than may be drunk.
void add_water(CarryPlan& plan) {
  const double strength =
      plan.wish.strength_percent.value_or(value_of(carry_table, "carry.strength"));
  double needed_ml = 0;
  double held_ml = 0;
  for (CarryPiece& piece : plan.pieces) {
    piece.water_ml = thinning_ml(plan.items[piece.item], strength);
    needed_ml += piece.water_ml;
    held_ml += plan.items[piece.item].holds.fluid_ml;
  }
  const double most_ml =
      ml_per_l * plan.eating_hours *
      plan.wish.sweat_l_per_hour.value_or(value_of(carry_table, "carry.fluid-most"));
  const double share = needed_ml > 0 ? std::clamp((most_ml - held_ml) / needed_ml, 0.0, 1.0) : 1.0;
  for (CarryPiece& piece : plan.pieces) {
    const CarryItem& item = plan.items[piece.item];
    piece.water_ml *= share;
    const double all_g = item.mass_g + piece.water_ml;
    piece.strength_percent = all_g > 0 ? 100 * item.holds.carbohydrate_g / all_g : 0;
    plan.water_ml += piece.water_ml;
    plan.packed_g += item.mass_g;
  }
}

void add_hours(CarryPlan& plan) {
  const auto count = static_cast<std::size_t>(std::ceil(plan.wish.hours - 1e-9));
  for (std::size_t i = 0; i < count; ++i)
    plan.hours.push_back(
        {static_cast<double>(i), std::min(plan.wish.hours, static_cast<double>(i + 1)), {}});
  plan.whole = {0, plan.wish.hours, {}};
  for (const CarryPiece& piece : plan.pieces) {
    CarryAmounts all = plan.items[piece.item].holds;
    all.fluid_ml += piece.water_ml;
    plan.whole.taken += all;
    const CarryAmounts part = all * (1 / static_cast<double>(piece.minutes.size()));
    for (const double minutes : piece.minutes)
      plan.hours[std::min(count - 1, static_cast<std::size_t>(minutes / 60))].taken += part;
  }
}

/// So long in the cold that nothing would be warm for too long, in quarters of an hour.
double cold_hours_for(const std::vector<CarryItem>& items, const CarryWish& wish) {
  double needed = 0;
  for (const CarryPiece& piece : schedule(items, wish, false).pieces)
    if (piece.warm_limit_hours)
      needed = std::max(
          needed, piece.minutes.back() / 60 + wish.warm_before_hours - *piece.warm_limit_hours);
  return quarter_hour * std::ceil(needed / quarter_hour - 1e-9);
}

void add_ramp(CarryPlan& plan) {
  if (!plan.wish.used_to_g_per_hour) return;
  constexpr double step = value_of(carry_table, "carry.ramp-step");
  for (double next = *plan.wish.used_to_g_per_hour + step;
       next < plan.wish.carbohydrate_g_per_hour - 1e-9; next += step)
    plan.ramp_g_per_hour.push_back(next);
}

}  // namespace

CarryPlan carry(std::vector<CarryItem> items, const CarryWish& wish) {
  require_sense(items, wish);
  CarryPlan plan;
  plan.wish = wish;
  Schedule found = schedule(items, wish, true);
  plan.missing_g = found.missing_g;
  if (found.missing_g > 0) plan.cold_hours_needed = cold_hours_for(items, wish);
  plan.items = std::move(items);
  plan.pieces = std::move(found.pieces);
  plan.pieces_of = std::move(found.pieces_of);
  plan.g_per_hour = found.g_per_hour;
  plan.eating_hours = found.carbohydrate_g > 0
                          ? std::min(plan.wish.hours, found.carbohydrate_g / found.g_per_hour)
                          : plan.wish.hours;
  add_water(plan);
  add_hours(plan);
  add_ramp(plan);
  plan.findings = findings_of(plan, found.less_than_half);
  return plan;
}

std::span<const Datum> carry_data() {
  return carry_table;
}

}  // namespace gelwright
