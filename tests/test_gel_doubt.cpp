// The chances, which take nearly every parameter as a straight line, against plain sampling of all
// of them: sampling is the definition, the straight lines are the shortcut.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <vector>

#include "catch.hpp"
#include "gel_random.hpp"
#include "gelwright/gel_chances.hpp"

using namespace gelwright;
using namespace gelwright::gel;

namespace {

/// Mean chances over draws of every parameter and input of the serving.
Chances sampled(const State& state, std::uint64_t serving, std::uint64_t draws) {
  std::vector<Id> varied;
  for (std::size_t i = 0; i < value_count; ++i)
    if (sd_of(static_cast<Id>(i), state) > 0 && matters(static_cast<Id>(i), state))
      varied.push_back(static_cast<Id>(i));
  Chances mean;
  for (std::uint64_t draw = 0; draw < draws; ++draw) {
    Values values = central_values();
    for (const Id id : varied)
      values[id] +=
          sd_of(id, state) * standard_normal({serving, static_cast<std::uint64_t>(id), draw});
    const Chances one = chances_at(state, values);
    for (std::size_t t = 0; t < texture_count; ++t)
      mean.chance[t] += one.chance[t] / static_cast<double>(draws);
  }
  return mean;
}

struct Gap {
  std::uint64_t serving = 0;
  double largest = 0;
  std::size_t texture = 0;
};

std::vector<Gap> gaps(std::uint64_t servings, std::uint64_t draws) {
  std::vector<Gap> out;
  for (std::uint64_t serving = 0; serving < servings; ++serving) {
    const State state = test::random_state(serving);
    const Chances quick = outlook_of(state).chances;
    const Chances slow = sampled(state, serving, draws);
    Gap gap{serving, 0, 0};
    for (std::size_t t = 0; t < texture_count; ++t) {
      const double difference = std::fabs(quick.chance[t] - slow.chance[t]);
      if (difference > gap.largest) gap = {serving, difference, t};
    }
    out.push_back(gap);
  }
  std::sort(out.begin(), out.end(),
            [](const Gap& a, const Gap& b) { return a.largest > b.largest; });
  return out;
}

void check(const std::vector<Gap>& sorted, bool print) {
  double mean = 0;
  for (const Gap& gap : sorted) mean += gap.largest / static_cast<double>(sorted.size());
  if (print) {
    std::printf("straight lines against sampling: mean of the largest gap %.4f, tenth %.4f\n", mean,
                sorted[sorted.size() / 10].largest);
    for (std::size_t i = 0; i < sorted.size() / 10; ++i) {
      const State state = test::random_state(sorted[i].serving);
      const Outlook outlook = outlook_of(state);
      const Gap& gap = sorted[i];
      const auto furthest = static_cast<std::size_t>(outlook.doubt.furthest);
      std::printf(
          "  serving %3d: %.3f in %s; gum %d, pH %.2f, solids %.0f, lg G' %.2f sd %.2f, furthest "
          "%s\n",
          static_cast<int>(gap.serving), gap.largest,
          std::string(to_text(static_cast<Texture>(gap.texture))).c_str(),
          static_cast<int>(state.portion[state.portions - 1].gum), state.ph, state.solids_percent,
          outlook.centre.lg_modulus_pa, outlook.doubt.lg_modulus.sd,
          furthest < parameter_count ? std::string(parameters()[furthest].key).c_str()
                                     : "the serving's own input");
    }
  }
  CHECK(mean <= 0.05);
  CHECK(sorted[sorted.size() / 10].largest <= 0.10);
}

}  // namespace

TEST_CASE("gel chances stand close to sampling") {
  check(gaps(100, 2000), false);
}

TEST_CASE("gel chances stand close to 100 000 draws of 300 servings", "[.slow]") {
  check(gaps(300, 100000), true);
}

TEST_CASE("gel doubt: what is said not to matter moves nothing") {
  for (std::uint64_t serving = 0; serving < 100; ++serving) {
    const State state = test::random_state(serving);
    const Gel centre = gel_at(state, central_values());
    for (std::size_t i = 0; i < value_count; ++i) {
      const Id id = static_cast<Id>(i);
      if (matters(id, state)) continue;
      for (const double by : {-0.4, 0.4}) {
        Values values = central_values();
        values[id] += by;
        const Gel moved = gel_at(state, values);
        INFO("serving " << serving << ", value " << i);
        CHECK(moved.lg_modulus_pa == centre.lg_modulus_pa);
        CHECK(moved.lg_thickness_mpa_s == centre.lg_thickness_mpa_s);
        CHECK(moved.lg_viscosity_mpa_s == centre.lg_viscosity_mpa_s);
        CHECK(moved.lg_yield_pa == centre.lg_yield_pa);
      }
    }
  }
}
