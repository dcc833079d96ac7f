// libFuzzer target: no document, however broken, may do anything but be refused or evaluated.
//
//   clang++ -fsanitize=fuzzer,address,undefined ... tests/fuzz/fuzz_recipe.cpp
//   ./fuzz_recipe -dict=tests/fuzz/recipe.dict -max_len=4096 work tests/fuzz/corpus recipes
//
// What it finds goes to tests/fuzz/crashes, where test_fuzz_replay.cpp runs it for ever after.
#include <cstddef>
#include <cstdint>
#include <cstdlib>

#include "recipe_target.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view document(reinterpret_cast<const char*>(data), size);
  if (gelwright::fuzz::try_recipe(document) == gelwright::fuzz::Fate::nonsense) std::abort();
  return 0;
}
