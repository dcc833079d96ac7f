#include "studies/carry/schedule.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "studies/carry/carry_table.hpp"

namespace gelwright::detail {

namespace {

constexpr double at_once_g = value_of(carry_table, "carry.at-once");
constexpr double step_minutes = value_of(carry_table, "carry.step");
/// What binary arithmetic may add to a limit that is just kept.
constexpr double dust = 1e-9;
constexpr double never = std::numeric_limits<double>::infinity();

/// The whole steps up to a time.
double stepped_down(double minutes) {
  return step_minutes * std::floor(minutes / step_minutes + dust);
}

class Scheduler {
 public:
  Scheduler(const std::vector<CarryItem>& items, const CarryWish& wish, bool keep_limits)
      : items_(items), wish_(wish), keep_limits_(keep_limits) {
    for (const CarryItem& item : items) {
      any_open_ = any_open_ || !item.pieces;
      fixed_g_ += static_cast<double>(item.pieces.value_or(0)) * item.holds.carbohydrate_g;
    }
    const double wanted_g = wish.hours * wish.carbohydrate_g_per_hour;
    // Pieces that are all counted are spread over the whole run, however many they are.
    made_.g_per_hour = any_open_ ? std::max(wanted_g, fixed_g_) / wish.hours
                                 : (fixed_g_ > 0 ? fixed_g_ : wanted_g) / wish.hours;
    aim_g_ = any_open_ ? std::max(wanted_g, fixed_g_) : fixed_g_;
    made_.pieces_of.assign(items.size(), 0);
  }

  Schedule make() {
    while (const std::optional<std::size_t> next = best()) take(*next);
    count_what_is_missing();
    quicken();
    for (CarryPiece& piece : made_.pieces) finish(piece);
    add_without_carbohydrate();
    std::stable_sort(made_.pieces.begin(), made_.pieces.end(),
                     [](const CarryPiece& a, const CarryPiece& b) {
                       return a.minutes.front() < b.minutes.front();
                     });
    return std::move(made_);
  }

 private:
  double carbohydrate_g(std::size_t item) const { return items_[item].holds.carbohydrate_g; }

  /// Parts a piece is taken in.
  static std::size_t parts_of(double piece_g) {
    return static_cast<std::size_t>(std::max(1.0, std::ceil(piece_g / at_once_g - dust)));
  }

  /// When the last part of a piece is taken that is begun after `before_g`, in hours.
  double last_part_hours(double before_g, double piece_g) const {
    const auto parts = static_cast<double>(parts_of(piece_g));
    return (before_g + piece_g * (parts - 0.5) / parts) / made_.g_per_hour;
  }

  /// The time of the run until which it may be eaten.
  double eaten_until_hours(std::size_t item) const {
    const std::optional<double> limit = warm_limit_hours(items_[item], wish_);
    if (!limit || !keep_limits_) return never;
    return *limit < wish_.warm_before_hours - dust
               ? -1
               : wish_.cold_hours + *limit - wish_.warm_before_hours;
  }

  bool in_time(std::size_t item) const {
    return last_part_hours(made_.carbohydrate_g, carbohydrate_g(item)) <=
           eaten_until_hours(item) + dust;
  }

  /// Carbohydrate of the counted pieces that are still to come and may still be eaten.
  double counted_to_come_g() const {
    double sum_g = 0;
    for (std::size_t i = 0; i < items_.size(); ++i)
      if (items_[i].pieces && in_time(i))
        sum_g += static_cast<double>(*items_[i].pieces - made_.pieces_of[i]) * carbohydrate_g(i);
    return sum_g;
  }

  bool may_take(std::size_t item) const {
    if (carbohydrate_g(item) <= 0 || !in_time(item)) return false;
    if (items_[item].pieces) return made_.pieces_of[item] < *items_[item].pieces;
    const double open_g = aim_g_ - made_.carbohydrate_g - counted_to_come_g();
    return open_g >= 0.5 * carbohydrate_g(item) * (1 - dust);
  }

  /// Of what spoils, the pieces that were counted out have to find their place.
  bool pressing(std::size_t item) const {
    return items_[item].pieces.has_value() && eaten_until_hours(item) < never;
  }

  /// What spoils first, then what has been taken least often, then the order they were given in.
  std::optional<std::size_t> best() const {
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < items_.size(); ++i) {
      if (!may_take(i)) continue;
      if (!found) {
        found = i;
        continue;
      }
      const auto rank = [this](std::size_t item) {
        return std::tuple(eaten_until_hours(item), !pressing(item), made_.pieces_of[item]);
      };
      if (rank(i) < rank(*found)) found = i;
    }
    return found;
  }

  void take(std::size_t item) {
    const double piece_g = carbohydrate_g(item);
    const std::size_t parts = parts_of(piece_g);
    CarryPiece piece{.item = item, .number = ++made_.pieces_of[item], .minutes = {}};
    for (std::size_t part = 0; part < parts; ++part) {
      const double share = (static_cast<double>(part) + 0.5) / static_cast<double>(parts);
      piece.minutes.push_back(60 * (made_.carbohydrate_g + share * piece_g) / made_.g_per_hour);
    }
    made_.pieces.push_back(std::move(piece));
    made_.carbohydrate_g += piece_g;
  }

  void count_what_is_missing() {
    double smallest_g = never;
    for (std::size_t i = 0; i < items_.size(); ++i)
      if (carbohydrate_g(i) > 0) smallest_g = std::min(smallest_g, carbohydrate_g(i));
    const double open_g = aim_g_ - made_.carbohydrate_g;
    // Half a piece more or less is what whole pieces cost.
    if (keep_limits_ && open_g > 0.5 * smallest_g * (1 + dust) && smallest_g < never)
      made_.missing_g = open_g;
    if (made_.pieces.empty() && made_.missing_g == 0 && smallest_g < never)
      made_.less_than_half = true;
  }

  /// The last piece may be more than was open: then all come a little sooner.
  void quicken() {
    if (made_.carbohydrate_g <= aim_g_) return;
    for (CarryPiece& piece : made_.pieces)
      for (double& minutes : piece.minutes) minutes *= aim_g_ / made_.carbohydrate_g;
    made_.g_per_hour *= made_.carbohydrate_g / aim_g_;
  }

  void finish(CarryPiece& piece) const {
    for (double& minutes : piece.minutes) minutes = stepped_down(minutes);
    piece.warm_limit_hours = warm_limit_hours(items_[piece.item], wish_);
    piece.warm_hours = warm_hours(wish_, piece.minutes.back() / 60);
  }

  /// Salt or caffeine alone: spread evenly, while it may be eaten.
  void add_without_carbohydrate() {
    for (std::size_t i = 0; i < items_.size(); ++i) {
      if (carbohydrate_g(i) > 0) continue;
      const std::size_t count = items_[i].pieces.value_or(0);
      const double until = std::min(wish_.hours, eaten_until_hours(i));
      if (until < 0) continue;
      for (std::size_t k = 0; k < count; ++k) {
        const double share = (static_cast<double>(k) + 0.5) / static_cast<double>(count);
        CarryPiece piece{.item = i, .number = k + 1, .minutes = {60 * until * share}};
        finish(piece);
        made_.pieces.push_back(std::move(piece));
      }
      made_.pieces_of[i] = count;
    }
  }

  const std::vector<CarryItem>& items_;
  const CarryWish& wish_;
  bool keep_limits_;
  bool any_open_ = false;
  double fixed_g_ = 0;
  double aim_g_ = 0;
  Schedule made_;
};

}  // namespace

double warm_hours(const CarryWish& wish, double hours) {
  return wish.warm_before_hours + std::max(0.0, hours - wish.cold_hours);
}

std::optional<double> warm_limit_hours(const CarryItem& item, const CarryWish& wish) {
  if (!item.keeping) return std::nullopt;
  const bool hot = wish.air_c && *wish.air_c > item.keeping->hot_day_c;
  return hot ? std::min(item.keeping->warm_hours, item.keeping->hot_day_warm_hours)
             : item.keeping->warm_hours;
}

Schedule schedule(const std::vector<CarryItem>& items, const CarryWish& wish, bool keep_limits) {
  return Scheduler(items, wish, keep_limits).make();
}

}  // namespace gelwright::detail
