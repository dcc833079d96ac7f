// Every literature number against a second table, typed apart from the code: from the published
// source, or where `typed from` says so from memory or from the description of the gel model.
#include <cmath>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "catch.hpp"
#include "gelwright/data_tables.hpp"
#include "paths.hpp"

using namespace gelwright;
using gelwright::test::near;

namespace {

struct Typed {
  std::string value;  ///< "lg 0.25" is the logarithm of 0.25; "-" where it was not typed again
  std::string uncertainty;  ///< empty where none was typed
};

/// The file has no commas but between cells in its first three columns.
std::map<std::string, Typed> second_table() {
  std::istringstream in(test::read_text(test::source_path("tests/data/second_table.csv")));
  std::map<std::string, Typed> rows;
  std::string line;
  std::getline(in, line);
  REQUIRE(line == "key,value,uncertainty,typed from");
  while (std::getline(in, line)) {
    std::istringstream cells(line);
    std::string key;
    Typed typed;
    std::getline(cells, key, ',');
    std::getline(cells, typed.value, ',');
    std::getline(cells, typed.uncertainty, ',');
    REQUIRE(rows.emplace(key, typed).second);
  }
  return rows;
}

double number(const std::string& text) {
  return text.rfind("lg ", 0) == 0 ? std::log10(std::stod(text.substr(3))) : std::stod(text);
}

bool has_source(Standing standing) {
  return standing == Standing::confirmed || standing == Standing::from_memory ||
         standing == Standing::computed;
}

}  // namespace

TEST_CASE("every number with a source stands in the second table, and agrees with it") {
  const std::map<std::string, Typed> typed = second_table();
  std::size_t compared = 0;
  for (const DataTable& table : data_tables())
    for (const Datum& row : table.rows) {
      INFO(table.name << " " << row.key);
      const auto found = typed.find(std::string(row.key));
      if (found == typed.end()) {
        CHECK_FALSE(has_source(row.standing));
        continue;
      }
      if (found->second.value == "-") continue;
      const double value = number(found->second.value);
      CHECK_THAT(row.value, near(value, 1e-9 * std::abs(value)));
      if (!found->second.uncertainty.empty())
        CHECK_THAT(row.uncertainty, near(number(found->second.uncertainty), 1e-12));
      ++compared;
    }
  CHECK(compared >= 440);
}

TEST_CASE("every row of the second table is a number of the program") {
  for (const auto& [key, typed] : second_table()) {
    INFO(key);
    bool found = false;
    for (const DataTable& table : data_tables())
      for (const Datum& row : table.rows) found = found || row.key == key;
    CHECK(found);
  }
}
