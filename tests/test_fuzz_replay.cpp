// Documents that once broke something, or were made to: refused or evaluated, never worse.
#include <filesystem>

#include "catch.hpp"
#include "fuzz/recipe_target.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::fuzz::Fate;
using gelwright::fuzz::try_recipe;
using gelwright::test::read_text;
using gelwright::test::source_path;

namespace {

Fate fate_of(const std::string& name) {
  return try_recipe(read_text(source_path("tests/fuzz/" + name)));
}

}  // namespace

TEST_CASE("no kept document crashes, hangs, or is evaluated to nonsense") {
  std::size_t count = 0;
  for (const char* folder : {"tests/fuzz/crashes", "tests/fuzz/corpus"})
    for (const auto& entry : std::filesystem::directory_iterator(source_path(folder))) {
      INFO(entry.path().filename().string());
      CHECK(try_recipe(read_text(entry.path().string())) != Fate::nonsense);
      ++count;
    }
  CHECK(count >= 15);
}

TEST_CASE("shared references are followed once, endless ones refused") {
  CHECK(fate_of("crashes/blend_bomb.json") == Fate::evaluated);
  CHECK(fate_of("crashes/define_bomb.json") == Fate::evaluated);
  CHECK(fate_of("crashes/blend_chain.json") == Fate::refused);
  CHECK(fate_of("crashes/define_chain.json") == Fate::refused);
}

TEST_CASE("a line that would fill a scale without end is refused") {
  CHECK(fate_of("crashes/many_parts.json") == Fate::refused);
  CHECK(fate_of("crashes/everything_huge.json") == Fate::refused);
}

TEST_CASE("the seeds reach the end of the pipeline") {
  CHECK(fate_of("corpus/smallest.json") == Fate::evaluated);
  CHECK(fate_of("corpus/batch.json") == Fate::evaluated);
  CHECK(fate_of("corpus/doses.json") == Fate::evaluated);
}
