// The tables of docs/recipe.md, from the table of keys.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "key_documents.hpp"
#include "read/keys.hpp"

namespace gelwright::test {

namespace {

using detail::Key;
using detail::ObjectType;
using detail::Shape;

enum Column { key_column, meaning, unit, range, if_left_out, example, column_count };
using Row = std::array<std::string, column_count>;
constexpr std::array<std::string_view, column_count> heads = {"key",   "meaning",     "unit",
                                                              "range", "if left out", "example"};

std::string code(std::string_view text) {
  return fmt::format("`{}`", text);
}

/// Plain digits, by threes where there are many: "1 000 000", "0.000001".
std::string plain(double number) {
  if (number > 0 && number < 1e-4) return fmt::format("{:.6f}", number);
  std::string digits = fmt::format("{:.10g}", number);
  if (number < 1e4 || number != std::floor(number)) return digits;
  for (std::size_t at = digits.size(); at > 3;) digits.insert(at -= 3, " ");
  return digits;
}

std::string meaning_of(const Key& each) {
  std::string text(each.what);
  if (each.only != detail::DocumentFormat::any)
    text = fmt::format("({}) {}", to_text(each.only).substr(sizeof("gelwright")), text);
  if (each.shape == Shape::measured) text += ", number ±";
  const bool explained =
      std::any_of(each.words.begin(), each.words.end(),
                  [](const detail::Word& word) { return !word.meaning.empty(); });
  for (std::size_t i = 0; i < each.words.size() && each.words.size() > 1; ++i) {
    text += i == 0 ? ": " : explained ? "; " : i + 1 == each.words.size() ? " or " : ", ";
    text += code('"' + std::string(each.words[i].text) + '"');
    if (!each.words[i].meaning.empty()) text += ' ' + std::string(each.words[i].meaning);
  }
  if (!each.more.empty()) text += fmt::format("{} {}", explained ? "." : ";", each.more);
  return text;
}

std::string range_of(const Key& each) {
  if (each.shape == Shape::boolean) return "`true`, `false`";
  const bool number = each.shape == Shape::number || each.shape == Shape::measured ||
                      each.shape == Shape::numbers || each.shape == Shape::ratio;
  if (!number) return {};
  const std::string from = plain(each.bounds.at_least);
  const std::string prefix = each.shape == Shape::numbers ? "each " : "";
  if (!each.most_of.empty())
    return each.most_times == 1
               ? fmt::format("{} to {}", from, code(each.most_of))
               : fmt::format("{} to {:g} × {}", from, each.most_times, code(each.most_of));
  if (!std::isfinite(each.bounds.at_most))
    return prefix + (each.bounds.above ? "above " + from : from + " or more");
  const std::string to = plain(each.bounds.at_most);
  return prefix + (each.bounds.above ? fmt::format("above {}, at most {}", from, to)
                                     : fmt::format("{} to {}", from, to));
}

std::string left_out_of(const Key& each) {
  if (each.needed) return "needed";
  if (const double* number = std::get_if<double>(&each.otherwise)) return plain(*number);
  if (const bool* yes = std::get_if<bool>(&each.otherwise)) return code(*yes ? "true" : "false");
  if (const std::string_view* word = std::get_if<std::string_view>(&each.otherwise))
    return code('"' + std::string(*word) + '"');
  return std::string(each.left_out);
}

std::string table_of(const ObjectType& type) {
  std::vector<Row> rows;
  for (const Key& each : type.keys)
    rows.push_back({code(each.name), meaning_of(each), std::string(each.unit), range_of(each),
                    left_out_of(each), each.example.empty() ? "" : code(each.example)});
  std::vector<Column> shown;
  for (std::size_t c = 0; c < column_count; ++c)
    if (std::any_of(rows.begin(), rows.end(), [c](const Row& row) { return !row[c].empty(); }))
      shown.push_back(static_cast<Column>(c));
  std::string head = "|";
  std::string rule = "|";
  for (const Column column : shown) {
    head += fmt::format(" {} |", heads[column]);
    rule += "---|";
  }
  std::string text = head + '\n' + rule + '\n';
  for (const Row& row : rows) {
    text += '|';
    for (const Column column : shown)
      text += row[column].empty() ? " |" : fmt::format(" {} |", row[column]);
    text += '\n';
  }
  return text;
}

const ObjectType& type_called(std::string_view id) {
  for (const ObjectType* document :
       {&detail::recipe_keys(), &detail::kitchen_keys(), &detail::goal_keys()})

    for (const ObjectType* type : detail::object_types(*document))
      if (type->id == id) return *type;
  if (id == detail::measured_keys().id) return detail::measured_keys();
  throw std::runtime_error(fmt::format("no object is called \"{}\"", id));
}

}  // namespace

std::string with_key_tables(const std::string& guide) {
  constexpr std::string_view open = "<!-- keys: ";
  constexpr std::string_view open_end = " -->\n";
  constexpr std::string_view close = "<!-- end of keys -->";
  std::string made;
  std::size_t at = 0;
  while (true) {
    const std::size_t start = guide.find(open, at);
    if (start == std::string::npos) return made + guide.substr(at);
    const std::size_t id = start + open.size();
    const std::size_t id_end = guide.find(open_end, id);
    const std::size_t end = guide.find(close, id);
    if (id_end == std::string::npos || end == std::string::npos || end < id_end)
      throw std::runtime_error("a table of keys is not closed");
    made += guide.substr(at, id_end + open_end.size() - at);
    made += '\n' + table_of(type_called(guide.substr(id, id_end - id))) + '\n';
    at = end;
  }
}

}  // namespace gelwright::test
