#include <set>
#include <string>

#include "catch.hpp"
#include "gelwright/data_tables.hpp"
#include "gelwright/flag.hpp"
#include "gelwright/ingredient.hpp"
#include "gelwright/setting.hpp"
#include "gelwright/source.hpp"

using namespace gelwright;

TEST_CASE("the bibliography is sorted, unique and complete") {
  std::string_view last;
  for (const Source& source : sources()) {
    INFO(source.id);
    CHECK(last < source.id);
    CHECK(source.citation.size() > 10);
    last = source.id;
  }
}

TEST_CASE("every number has a unit, a source on record and a unique key") {
  std::set<std::string_view> keys;
  std::size_t rows = 0;
  for (const DataTable& table : data_tables())
    for (const Datum& row : table.rows) {
      INFO(table.name << " " << row.key);
      CHECK(keys.insert(row.key).second);
      CHECK_FALSE(row.unit.empty());
      CHECK(row.uncertainty >= 0);
      CHECK(find_source(row.source) != nullptr);
      if (row.standing == Standing::common_practice) CHECK(row.source == "common-practice");
      if (row.source == "common-practice") CHECK(row.standing == Standing::common_practice);
      ++rows;
    }
  CHECK(rows > 150);
}

TEST_CASE("every rule, flag and ingredient cites a source on record, and no source lies idle") {
  std::set<std::string_view> used;
  const auto cite = [&used](std::string_view id) {
    INFO(id);
    CHECK(find_source(id) != nullptr);
    used.insert(id);
  };
  for (const DataTable& table : data_tables())
    for (const Datum& row : table.rows) cite(row.source);
  for (const SetTable& table : {pouch_table(), stomach_table()}) {
    for (const SetRule& rule : table.rules) cite(rule.source);
    for (const SetAdjustment& change : table.adjustments) cite(change.source);
  }
  for (const FlagInfo& info : flag_catalogue()) cite(info.source);
  for (const Ingredient& ingredient : builtin_ingredients()) cite(ingredient.source);
  for (const Source& source : sources()) {
    INFO(source.id);
    CHECK(used.count(source.id) == 1);
  }
}
