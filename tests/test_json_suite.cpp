// What JSON is and is not: the JSON Parsing Test Suite of Nicolas Seriot (tests/data has its cases
// and its licence). Names begin with y: must be read, n: must be refused, i: either.
#include <set>
#include <string>

#include "catch.hpp"
#include "gelwright/error.hpp"
#include "paths.hpp"
#include "read/json_reader.hpp"

using namespace gelwright;
using nlohmann::json;

namespace {

/// Empty where it is read, else what is said of it.
std::string refusal(const std::string& text) {
  try {
    (void)detail::parse_json(text, "suite.json");
    return "";
  } catch (const InputError& error) {
    return error.problems().empty() ? "nothing" : error.problems().front().what;
  }
}

}  // namespace

TEST_CASE("every case of the JSON Parsing Test Suite is read or refused as it must be") {
  const json cases =
      json::parse(test::read_text(test::source_path("tests/data/json_parsing_suite.json")));
  // JSON lets a key stand twice; a recipe in which it does has a mistake in it.
  const std::set<std::string> ours{"y_object_duplicated_key.json",
                                   "y_object_duplicated_key_and_value.json"};
  std::size_t read = 0;
  std::size_t refused = 0;
  for (const json& each : cases) {
    const std::string name = each.at("name");
    const std::string said = refusal(each.at("input"));
    INFO(name << ": " << said);
    if (ours.count(name) > 0) {
      CHECK(said == "this key appears twice");
    } else if (name[0] == 'y') {
      CHECK(said.empty());
      ++read;
    } else if (name[0] == 'n') {
      CHECK_FALSE(said.empty());
      ++refused;
    }
  }
  CHECK(read >= 90);
  CHECK(refused >= 180);
}

TEST_CASE("nesting without end is refused") {
  CHECK(refusal(std::string(100000, '[')) == "nested too deeply");
  std::string objects;
  for (int i = 0; i < 50000; ++i) objects += R"([{"":)";
  CHECK(refusal(objects) == "nested too deeply");
}
