// How long the gel model takes for one serving, one core: centre, chances, stomach, and a gum whose
// kind and share are unknown (two kinds, three shares, stomach each).
//
//   bench_gel
//
// Heap allocations are counted too: there must be none. Microseconds of processor time, best of
// many short blocks, so that a busy machine does not count.
#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <new>

#include "gelwright/gel_mixture.hpp"

namespace {
long allocations = 0;
}

// Inlined on one side only, GCC takes malloc and free for a mismatch.
[[gnu::noinline]] void* operator new(std::size_t size) {
  ++allocations;
  if (void* memory = std::malloc(size)) return memory;
  throw std::bad_alloc{};
}
[[gnu::noinline]] void operator delete(void* memory) noexcept {
  std::free(memory);
}
[[gnu::noinline]] void operator delete(void* memory, std::size_t) noexcept {
  std::free(memory);
}

namespace {

using namespace gelwright;
using namespace gelwright::gel;

double processor_us() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return 1e6 * static_cast<double>(now.tv_sec) + 1e-3 * static_cast<double>(now.tv_nsec);
}

template <class Work>
double best_us(int calls, Work work) {
  double best = 1e300;
  for (int block = 0; block < 50; ++block) {
    const double start = processor_us();
    for (int i = 0; i < calls; ++i) work();
    best = std::min(best, (processor_us() - start) / calls);
  }
  return best;
}

/// A sour drink of a bought mix, alginate with as much HM pectin or alone.
State drink(double g_per_100_g_water, bool with_pectin) {
  State state;
  Portion portion;
  portion.g_per_100_g_water = with_pectin ? g_per_100_g_water / 2 : g_per_100_g_water;
  portion.ca_met_mmol_per_kg = 0.4;
  portion.dispersed = Dispersed::mix;
  add(state, portion);
  if (with_pectin) {
    portion.gum = Gum::hm_pectin;
    add(state, portion);
  }
  state.solids_percent = 14;
  state.sugars.maltodextrin = 0.55;
  state.sugars.fructose = 0.45;
  state.ca_mmol_per_kg = 0.4;
  state.ca_total_mmol_per_kg = 0.4;
  state.ph = 3.4;
  state.acid = Acid::poured;
  state.guluronate = 0.6;
  return state;
}

State lm_jelly() {
  State state = drink(0.8, false);
  state.portion[0].gum = Gum::lm_pectin;
  state.heated_c = 90;
  state.calcium = Calcium::fast;
  state.ca_added_mmol_per_kg = 3;
  return state;
}

}  // namespace

int main() {
  double sink = 0;
  const auto one = [&sink](const char* name, const State& state) {
    const Outlook outlook = outlook_of(state);
    const double centre =
        best_us(200, [&] { sink += gel_at(state, central_values()).lg_modulus_pa; });
    const double chances = best_us(20, [&] { sink += outlook_of(state).chances.chance[0]; });
    const double stomach = best_us(20, [&] { sink += stomach_of(state, outlook).pieces; });
    std::printf("%-28s centre %6.2f us, chances %6.1f us, stomach %6.1f us\n", name, centre,
                chances, stomach);
  };
  one("alginate", drink(0.2, false));
  one("alginate with HM pectin", drink(0.2, true));
  one("LM pectin, sudden calcium", lm_jelly());
  const double unknown = best_us(5, [&] {
    std::array<Reading, 6> readings;
    std::size_t next = 0;
    for (const bool with_pectin : {false, true})
      for (std::size_t i = 0; i < 3; ++i) {
        const State state = drink(0.1 + 0.1 * static_cast<double>(i), with_pectin);
        const Outlook outlook = outlook_of(state);
        readings[next++] = {band_weights[i], outlook, stomach_of(state, outlook)};
      }
    sink += mix(readings).chances.chance[0];
  });
  std::printf("%-28s %.0f us\n", "unknown gum with stomach", unknown);
  std::printf("heap allocations %ld\n", allocations);
  std::printf("(checksum %.6g)\n", sink);
}
