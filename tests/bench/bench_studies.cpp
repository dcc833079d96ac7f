// Time of the two studies: a spread of 10^5 draws on one thread and on two, and a grid of 10^6
// cells written as CSV. Rounds are interleaved, so that a busy machine slows both alike; medians
// are printed. Exit code 1 if one thread and two differ in a byte, or if the grid grew with its
// cells.
//
//   bench_studies            the times
//   bench_studies --dump N   N draws of a recipe with citric acid, alginate and soda water: the
//                            water phase drawn and its pH, then the time of one whole evaluation in
//                            microseconds; read by compare_python.py
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>
#include <vector>

#include "gelwright/ladder.hpp"
#include "gelwright/ladder_report.hpp"
#include "gelwright/read.hpp"
#include "gelwright/spread_report.hpp"
#include "studies/spread/spread_detail.hpp"

namespace {

using namespace gelwright;

constexpr std::string_view pouch = R"({
  "format": "gelwright/recipe-1", "name": "bench", "form": "pouch",
  "solids": [{"ingredient": "maltodextrin DE 12", "mass_g": 22},
             {"ingredient": "fructose", "mass_g": 17},
             {"ingredient": "sodium alginate", "mass_g": 0.35},
             {"ingredient": "HM pectin", "mass_g": 0.35},
             {"ingredient": "sodium chloride", "mass_g": 0.3}],
  "water": {"per_g_solids": 0.6},
  "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.3},
  "tap": {"calcium_mg_per_l": {"value": 23, "sd": 4}, "magnesium_mg_per_l": 4,
          "alkalinity_meq_per_l": 1.2},
  "batch": {"servings": 6, "loss_percent": 3, "bowl_g": 400, "scales": [
    {"name": "kitchen scale", "readability_g": 1, "capacity_g": 5000},
    {"name": "spoon scale", "readability_g": 0.01, "capacity_g": 200}]}
})";

constexpr std::string_view soda = R"({
  "format": "gelwright/recipe-1", "name": "bench", "form": "drink",
  "solids": [{"ingredient": "maltodextrin DE 12", "mass_g": 40},
             {"ingredient": "sodium alginate", "mass_g": 1}],
  "water": {"mass_g": 500},
  "acid": {"ingredient": "citric acid anhydrous", "mass_g": 1},
  "tap": {"calcium_mg_per_l": 0, "magnesium_mg_per_l": 0, "alkalinity_meq_per_l": 2},
  "batch": {"servings": 1, "scales": [
    {"name": "scale", "readability_g": 0.1, "capacity_g": 2000}]}
})";

double seconds_since(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

long peak_kib() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return usage.ru_maxrss;
}

bool time_spread() {
  constexpr int rounds = 5;
  const Recipe recipe = read_recipe(pouch, "bench");
  const Inputs inputs = inputs_of(recipe);
  std::vector<double> seconds[2];
  std::string reports[2];
  for (int round = 0; round < rounds; ++round)
    for (unsigned threads = 1; threads <= 2; ++threads) {
      const auto start = std::chrono::steady_clock::now();
      const SpreadResult result = spread(inputs, {.draws = 100'000, .threads = threads});
      seconds[threads - 1].push_back(seconds_since(start));
      reports[threads - 1] = render(spread_report(inputs, result), Format::json);
    }
  const double one = median(seconds[0]);
  const double two = median(seconds[1]);
  std::printf("spread, 100000 draws: 1 thread %.2f s, 2 threads %.2f s, ratio %.2f\n", one, two,
              one / two);
  return reports[0] == reports[1];
}

/// Writes the grid to nowhere; FNV-1a of the bytes stands for them.
std::uint64_t write_grid(const Ladder& ladder, unsigned threads) {
  std::uint64_t hash = 14695981039346656037u;
  write_ladder_csv(ladder, threads, [&hash](std::string_view piece) {
    for (const char c : piece) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211u;
  });
  return hash;
}

bool time_grid() {
  const Recipe recipe = read_recipe(pouch, "bench");
  const Inputs inputs = inputs_of(recipe);
  const auto planned = [&](std::vector<std::string> axes) {
    return plan_ladder(inputs, read_ladder_axes(axes, inputs), {.stock_percent = 0});
  };
  const Ladder small = planned({"acid_g=0:0.999:0.01", "water_g=15:114.9:0.1"});
  const Ladder large = planned({"acid_g=0:0.999:0.001", "water_g=15:114.9:0.1"});
  const bool same = write_grid(small, 1) == write_grid(small, 2);
  const long before_kib = peak_kib();
  const auto start = std::chrono::steady_clock::now();
  write_grid(large, 2);
  const double seconds = seconds_since(start);
  const long grown_kib = peak_kib() - before_kib;
  std::printf("grid, %zu cells on 2 threads: %.2f s, peak %.1f MiB, %ld KiB more than for %zu\n",
              large.cells, seconds, static_cast<double>(peak_kib()) / 1024, grown_kib, small.cells);
  constexpr long page_noise_kib = 1024;
  return same && grown_kib < page_noise_kib;
}

int dump(std::uint64_t draws) {
  const Recipe recipe = read_recipe(soda, "bench");
  const Inputs inputs = inputs_of(recipe);
  const Evaluation meant = evaluate(inputs);
  const Inputs weighed = as_weighed(inputs, meant.batch);
  const Doubts doubts = doubts_of(weighed, evaluate(weighed), meant.batch, 1);
  Trial trial(weighed, doubts.drawn);
  std::printf("citrate,uronate,carbonate,sodium,chloride,gum_pka,ph_bias,ph\n");
  double seconds = 0;
  for (std::uint64_t i = 0; i < draws; ++i) {
    const auto start = std::chrono::steady_clock::now();
    const Inputs& drawn = trial.draw(1, i);
    const Evaluation evaluation = evaluate(drawn, {.batch = false, .flags = true});
    seconds += seconds_since(start);
    const Totals totals = totals_of(evaluation.formula, drawn, 0, 4);
    std::printf("%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g\n", totals[Component::citrate],
                totals[Component::uronate], totals[Component::carbonate], totals[Component::sodium],
                totals[Component::chloride], *drawn.gum_pka, drawn.ph_bias,
                evaluation.water_phase.ph);
  }
  std::printf("microseconds,%.4f\n", 1e6 * seconds / static_cast<double>(draws));
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc == 3 && std::strcmp(argv[1], "--dump") == 0)
    return dump(std::strtoull(argv[2], nullptr, 10));
  const bool grid = time_grid();
  const bool spread_same = time_spread();
  return grid && spread_same ? 0 : 1;
}
