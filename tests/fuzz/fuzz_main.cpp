// libFuzzer targets: no text, however broken, may do anything but be refused or worked out.
// Compiled once for each target, GELWRIGHT_FUZZ_TARGET being one of the functions below.
//
//   build-fuzz/fuzz_recipe -dict=tests/fuzz/recipe.dict -max_len=4096 work tests/fuzz/corpus
//   recipes
//
// What it finds goes to tests/fuzz/crashes, where test_fuzz_replay.cpp runs it for ever after.
#include <cstddef>
#include <cstdint>
#include <cstdlib>

#include "fuzz/bench_target.hpp"
#include "fuzz/kitchen_target.hpp"
#include "fuzz/recipe_target.hpp"
#include "fuzz/water_target.hpp"
#include "fuzz/whole_target.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace gelwright::fuzz;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  if (GELWRIGHT_FUZZ_TARGET(text) == Fate::nonsense) std::abort();
  return 0;
}
