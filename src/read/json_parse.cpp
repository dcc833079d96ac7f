#include <fmt/format.h>

#include <set>
#include <utility>

#include "read/json_places.hpp"
#include "read/json_reader.hpp"

namespace gelwright::detail {

namespace {

using nlohmann::json;

constexpr std::size_t largest_document_bytes = 1U << 20U;
constexpr int deepest_nesting = 32;

/// Follows the parser to know where it is, and to find the same key twice in one object, of which
/// the parser itself keeps the last.
class Trail {
 public:
  explicit Trail(const std::string& document) : document_(document) {}

  bool operator()(int depth, json::parse_event_t event, const json& parsed) {
    // Left at once: what is too deep to be a recipe is too deep to be worth the memory.
    if (depth > deepest_nesting)
      throw InputError(document_, {{"", "nested too deeply", "a recipe needs only a few levels"}});
    switch (event) {
      case json::parse_event_t::object_start:
        open(false);
        break;
      case json::parse_event_t::array_start:
        open(true);
        break;
      case json::parse_event_t::object_end:
      case json::parse_event_t::array_end:
        levels_.pop_back();
        break;
      case json::parse_event_t::key:
        on_key(parsed.get<std::string>());
        break;
      case json::parse_event_t::value:
        count();
        break;
    }
    return true;
  }

  std::vector<Problem> problems;

  /// Pointer to the value being parsed.
  std::string here() const {
    std::string where;
    for (const Level& each : levels_) {
      // A level that is not the innermost has counted the value it is in.
      const std::size_t index = &each == &levels_.back() ? each.next : each.next - 1;
      where += '/' + (each.is_array ? std::to_string(index) : escape_pointer(each.key));
    }
    return where;
  }

 private:
  struct Level {
    bool is_array;
    std::size_t next = 0;
    std::string key;
    std::set<std::string> keys;
  };

  void count() {
    if (!levels_.empty() && levels_.back().is_array) ++levels_.back().next;
  }
  void open(bool is_array) {
    count();
    levels_.push_back({is_array, 0, {}, {}});
  }
  void on_key(const std::string& key) {
    Level& level = levels_.back();
    level.key = key;
    // The parser looks at every key of an object for each object in it: it must not hold too many.
    if (level.keys.size() >= most_keys)
      throw InputError(document_,
                       {{here(), fmt::format("more than {} keys in one object", most_keys),
                         "is it the right file?"}});
    if (level.keys.insert(key).second) return;
    problems.push_back({here(), "this key appears twice", "keep one of the two"});
  }

  const std::string& document_;
  std::vector<Level> levels_;
};

bool is_ascii(char c) {
  return static_cast<unsigned char>(c) < 0x80U;
}

/// What is likely to be wrong where the parser stopped, for the mistakes people make by hand.
std::string_view mend_syntax(std::string_view text, std::size_t at) {
  constexpr std::string_view word_letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
  if (at >= text.size())
    return "the document ends too early: a closing bracket or quote is missing";
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  constexpr std::string_view number_letters = "0123456789.+-eE";
  const char found = text[at];
  std::size_t token = at;
  if (is_digit(found))
    while (token > 0 && number_letters.find(text[token - 1]) != std::string_view::npos) --token;
  const std::size_t before = text.substr(0, token).find_last_not_of(" \t\r\n");
  const char previous = before == std::string_view::npos ? ' ' : text[before];

  std::size_t word = at;
  while (word > 0 && word_letters.find(text[word - 1]) != std::string_view::npos) --word;
  const std::string_view bare =
      text.substr(word, text.find_first_not_of(word_letters, word) - word);
  for (const std::string_view name : {"NaN", "nan", "Inf", "inf", "Infinity", "infinity"})
    if (bare == name) return "write a finite number in digits";
  if (found == '\'' || text.substr(at).starts_with("\xE2\x80\x9C") ||
      text.substr(at).starts_with("\xE2\x80\x9E"))
    return "put names and texts in plain double quotes";
  if (found == '/' || found == '#') return "comments are not allowed; use \"note\"";
  if ((found == '}' || found == ']') && previous == ',')
    return "remove the comma before the bracket";
  if (is_digit(found) && before + 1 == token && previous == ',' && before > 0 &&
      is_digit(text[before - 1]))
    return "write decimals with a point: 0.5";
  if (is_digit(found) && text[token] == '0') return "write the number without leading zeros";
  if (!is_ascii(found) || (at > 0 && !is_ascii(text[at - 1]))) return "save the file as UTF-8";
  if (is_control(found)) return "a text must end on the line it starts on";
  return "look for a missing comma, quote or bracket just before it";
}

}  // namespace

json parse_json(std::string_view text, const std::string& document) {
  if (text.size() > largest_document_bytes)
    throw InputError(document,
                     {{"", "the document is larger than 1 MiB", "is it the right file?"}});
  if (text.find_first_not_of(" \t\r\n") == std::string_view::npos)
    throw InputError(document, {{"", "the document is empty", "is it the right file?"}});
  // The parser would take a zero byte for the end of the document and drop what follows.
  if (text.find('\0') != std::string_view::npos)
    throw InputError(document, {{"", "the document holds a zero byte", "save the file as UTF-8"}});
  Trail trail(document);
  json parsed;
  try {
    parsed = json::parse(text, std::ref(trail));
  } catch (const json::parse_error& error) {
    const std::size_t at = error.byte > 0 ? error.byte - 1 : 0;
    const LineColumn place = line_and_column(text, at);
    throw InputError(
        document,
        {{"", fmt::format("not valid JSON at line {}, column {}", place.line, place.column),
          std::string(mend_syntax(text, at))}});
  } catch (const json::out_of_range&) {
    throw InputError(document, {{trail.here(), "the number is too large to be represented",
                                 "check for a slipped exponent"}});
  }
  if (!trail.problems.empty()) throw InputError(document, std::move(trail.problems));
  return parsed;
}

}  // namespace gelwright::detail
