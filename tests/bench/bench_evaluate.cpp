// How long the pipeline takes on the shipped recipes: evaluate, evaluate without batch, advise.
//
//   bench_evaluate RECIPE...   (such as need no kitchen: tests/data/recipe-1/*.json)
//
// Prints calls per second on one core, best of five blocks.
#include <chrono>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>

#include "gelwright/advise.hpp"
#include "gelwright/read.hpp"
#include "gelwright/resolve.hpp"

namespace {

template <class Work>
double best_us(int calls, Work work) {
  double best = 1e300;
  for (int block = 0; block < 5; ++block) {
    const auto start = std::chrono::steady_clock::now();
    for (int i = 0; i < calls; ++i) work();
    const std::chrono::duration<double, std::micro> took = std::chrono::steady_clock::now() - start;
    best = std::min(best, took.count() / calls);
  }
  return best;
}

}  // namespace

int main(int argc, char** argv) {
  using namespace gelwright;
  std::printf("%-38s %14s %16s %12s\n", "recipe", "evaluate us", "without batch us", "advise ms");
  double sink = 0;
  for (int i = 1; i < argc; ++i) {
    std::ifstream in(argv[i], std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    const Recipe recipe = read_recipe(text, argv[i]);
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    const double whole = best_us(5000, [&] { sink += evaluate(inputs).water_phase.ph; });
    const double bare =
        best_us(5000, [&] { sink += evaluate(inputs, {.batch = false}).water_phase.ph; });
    const double advice = best_us(
        10, [&] { sink += static_cast<double>(advise(inputs, evaluation).edges.size()); });
    std::printf("%-38s %14.2f %16.2f %12.3f\n", recipe.name.substr(0, 38).c_str(), whole, bare,
                advice / 1000);
  }
  std::printf("(checksum %.6g)\n", sink);
}
