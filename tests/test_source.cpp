#include <algorithm>
#include <cctype>
#include <filesystem>
#include <regex>
#include <set>
#include <string>

#include "catch.hpp"
#include "gelwright/data_tables.hpp"
#include "gelwright/flag.hpp"
#include "gelwright/ingredient.hpp"
#include "gelwright/source.hpp"
#include "paths.hpp"

using namespace gelwright;

namespace {

/// The text of everything that is compiled into the library and the program.
std::string all_sources() {
  std::string text;
  for (const char* room : {"src", "include"})
    for (const auto& entry : std::filesystem::recursive_directory_iterator(test::source_path(room)))
      if (entry.is_regular_file()) text += test::read_text(entry.path().string());
  return text;
}

/// How often `part` stands in the text as a whole word.
std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    const std::size_t end = at + part.size();
    if (end == text.size() ||
        !(std::isalnum(static_cast<unsigned char>(text[end])) != 0 || text[end] == '_'))
      ++count;
  }
  return count;
}

/// What in the code shows that a row is read: `text`, found at least so often.
struct Reader {
  std::string text;
  std::size_t at_least;
};

/// Most rows are asked for by key, which then stands there beside the row itself. Rows of the gel
/// parameters are asked for by enumerator, solubilities by the stem their substance lists.
Reader reader_of(std::string_view table, std::string_view key) {
  if (table == "gel parameters") {
    std::string name = "Id::" + std::string(key.substr(key.find('.') + 1));
    std::replace(name.begin(), name.end(), '.', '_');
    return {name, 2};
  }
  if (table == "solubility") {
    const std::string_view rest = key.substr(key.find('.') + 1);
    return {'"' + std::string(rest.substr(0, rest.find('.'))) + '"', 1};
  }
  return {'"' + std::string(key) + '"', 2};
}

/// The chemical formulas among the string literals: an element is read by standing in one.
std::set<std::string> formulas_in(const std::string& text) {
  static const std::regex formula("\"[A-Z][A-Za-z0-9().]*\"");
  std::set<std::string> found;
  for (std::sregex_iterator at(text.begin(), text.end(), formula), end; at != end; ++at)
    if (at->str().find_first_of("0123456789") != std::string::npos) found.insert(at->str());
  return found;
}

bool any_holds(const std::set<std::string>& formulas, const std::string& symbol) {
  const std::regex element(symbol + "(?![a-z])");
  return std::any_of(formulas.begin(), formulas.end(),
                     [&](const std::string& each) { return std::regex_search(each, element); });
}

}  // namespace

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

TEST_CASE("every flag and ingredient cites a source on record, and no source lies idle") {
  std::set<std::string_view> used;
  const auto cite = [&used](std::string_view id) {
    INFO(id);
    CHECK(find_source(id) != nullptr);
    used.insert(id);
  };
  for (const DataTable& table : data_tables())
    for (const Datum& row : table.rows) cite(row.source);
  for (const FlagInfo& info : flag_catalogue()) cite(info.source);
  for (const Ingredient& ingredient : builtin_ingredients()) cite(ingredient.source);
  for (const Source& source : sources()) {
    INFO(source.id);
    CHECK(used.count(source.id) == 1);
  }
}

TEST_CASE("every number has a reader: its key stands in the code beside its own row") {
  const std::string text = all_sources();
  const std::set<std::string> formulas = formulas_in(text);
  REQUIRE(formulas.size() > 20);
  for (const DataTable& table : data_tables())
    for (const Datum& row : table.rows) {
      INFO(table.name << ": " << row.key);
      const Reader reader = reader_of(table.name, row.key);
      const std::string in_a_sentence = '{' + std::string(row.key) + '}';
      if (table.name == "elements")
        CHECK(any_holds(formulas, std::string(row.key)));
      else
        CHECK(count_of(text, reader.text) + count_of(text, in_a_sentence) >= reader.at_least);
    }
}
