#include "statistics/box_search.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/parallel.hpp"
#include "statistics/random.hpp"

namespace gelwright::detail {

namespace {

constexpr std::size_t most_sides = 6;
constexpr std::size_t primes[most_sides] = {2, 3, 5, 7, 11, 13};
constexpr std::size_t block_points = 8;

/// The digits of `index` in `base`, mirrored at the point.
double radical_inverse(std::size_t index, std::size_t base) {
  double digit = 1;
  double sum = 0;
  for (; index > 0; index /= base) {
    digit /= static_cast<double>(base);
    sum += digit * static_cast<double>(index % base);
  }
  return sum;
}

using Function = std::function<double(std::span<const double>)>;

std::vector<BoxBest> scanned(std::size_t sides, const Function& function, const BoxSearch& how) {
  std::vector<BoxBest> points(std::max<std::size_t>(1, how.scan_points));
  for (std::size_t i = 0; i < points.size(); ++i)
    for (std::size_t side = 0; side < sides; ++side) {
      const double at = radical_inverse(i + 1, primes[side]) + uniform({how.seed, side, 0});
      points[i].at.push_back(at - std::floor(at));
    }
  for_each_block((points.size() + block_points - 1) / block_points, 0, [&](std::size_t block) {
    const std::size_t end = std::min((block + 1) * block_points, points.size());
    for (std::size_t i = block * block_points; i < end; ++i)
      points[i].value = function(points[i].at);
  });
  return points;
}

/// Goes on while a step along one side gets higher, then halves the steps.
BoxBest climbed(BoxBest best, const Function& function, const BoxSearch& how) {
  double width = how.first_step;
  for (std::size_t i = 0; i < how.most_climb_steps && width > how.last_step; ++i) {
    bool higher = false;
    for (std::size_t side = 0; side < best.at.size(); ++side)
      for (const double step : {width, -width}) {
        BoxBest next = best;
        next.at[side] = std::clamp(best.at[side] + step, 0.0, 1.0);
        if (next.at[side] == best.at[side]) continue;
        next.value = function(next.at);
        if (!(next.value > best.value)) continue;
        best = std::move(next);
        higher = true;
        break;
      }
    if (!higher) width /= 2;
  }
  return best;
}

}  // namespace

BoxBest highest_in_box(std::size_t sides, const Function& function, const BoxSearch& how) {
  if (sides > most_sides) throw std::logic_error("more sides than the scan has primes for");
  if (sides == 0) return {{}, function({})};
  std::vector<BoxBest> points = scanned(sides, function, how);
  std::stable_sort(points.begin(), points.end(),
                   [](const BoxBest& a, const BoxBest& b) { return a.value > b.value; });
  points.resize(std::clamp<std::size_t>(how.climbs, 1, points.size()));
  for_each_block(points.size(), 0,
                 [&](std::size_t i) { points[i] = climbed(std::move(points[i]), function, how); });
  return *std::max_element(points.begin(), points.end(),
                           [](const BoxBest& a, const BoxBest& b) { return a.value < b.value; });
}

}  // namespace gelwright::detail
