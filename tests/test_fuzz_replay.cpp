// Texts that once broke something, or were made to: refused or worked out, never worse.
#include <filesystem>

#include "catch.hpp"
#include "fuzz/bench_target.hpp"
#include "fuzz/kitchen_target.hpp"
#include "fuzz/recipe_target.hpp"
#include "fuzz/water_target.hpp"
#include "fuzz/whole_target.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::fuzz::Fate;
using gelwright::fuzz::try_bench;
using gelwright::fuzz::try_kitchen;
using gelwright::fuzz::try_recipe;
using gelwright::fuzz::try_water;
using gelwright::fuzz::try_whole;
using gelwright::test::read_text;
using gelwright::test::source_path;

namespace {

std::string kept(const std::string& name) {
  return read_text(source_path("tests/fuzz/" + name));
}

/// How many files of the folder were tried; none may come to nonsense, none may throw.
std::size_t replayed(const std::string& folder, Fate (*target)(std::string_view)) {
  std::size_t count = 0;
  for (const auto& entry :
       std::filesystem::directory_iterator(source_path("tests/fuzz/" + folder))) {
    INFO(entry.path().string());
    CHECK(target(read_text(entry.path().string())) != Fate::nonsense);
    ++count;
  }
  return count;
}

}  // namespace

TEST_CASE("no kept text crashes, hangs, or comes to nonsense") {
  CHECK(replayed("crashes", try_recipe) + replayed("corpus", try_recipe) >= 15);
  CHECK(replayed("kitchen", try_kitchen) >= 4);
  CHECK(replayed("water", try_water) >= 5);
  CHECK(replayed("bench", try_bench) >= 4);
  CHECK(replayed("whole", try_whole) >= 5);
}

TEST_CASE("shared references are followed once, endless ones refused") {
  CHECK(try_recipe(kept("crashes/blend_bomb.json")) == Fate::evaluated);
  CHECK(try_recipe(kept("crashes/define_bomb.json")) == Fate::evaluated);
  CHECK(try_recipe(kept("crashes/blend_chain.json")) == Fate::refused);
  CHECK(try_recipe(kept("crashes/define_chain.json")) == Fate::refused);
}

TEST_CASE("a line that would fill a scale without end is refused") {
  CHECK(try_recipe(kept("crashes/many_parts.json")) == Fate::refused);
  CHECK(try_recipe(kept("crashes/everything_huge.json")) == Fate::refused);
}

TEST_CASE("the seeds reach the end of the pipeline") {
  CHECK(try_recipe(kept("corpus/smallest.json")) == Fate::evaluated);
  CHECK(try_recipe(kept("corpus/batch.json")) == Fate::evaluated);
  CHECK(try_recipe(kept("corpus/doses.json")) == Fate::evaluated);
  CHECK(try_kitchen(kept("kitchen/smallest.txt")) == Fate::evaluated);
  CHECK(try_kitchen(kept("kitchen/club.txt")) == Fate::evaluated);
  CHECK(try_kitchen(kept("kitchen/circle.txt")) == Fate::refused);
  CHECK(try_kitchen(kept("kitchen/both_broken.txt")) == Fate::refused);
  CHECK(try_water(kept("water/smallest.json")) == Fate::evaluated);
  CHECK(try_water(kept("water/full.json")) == Fate::evaluated);
  CHECK(try_bench(kept("bench/readings.csv")) == Fate::evaluated);
  CHECK(try_bench(kept("bench/smallest.csv")) == Fate::evaluated);
  CHECK(try_bench(kept("bench/odd.csv")) == Fate::refused);
  CHECK(try_whole(kept("whole/middle")) == Fate::evaluated);
  CHECK(try_whole(kept("whole/long")) == Fate::evaluated);
}
