// Editing a JSON document in place. The judge is the parser of nlohmann/json for the values (RFC
// 8259), and plain comparison of lines for the rest.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "catch.hpp"
#include "read/json_edit.hpp"
#include "read/json_reader.hpp"
#include "recipes.hpp"
#include "statistics/random.hpp"

using namespace gelwright;
using detail::edited_json;
using nlohmann::json;
using nlohmann::ordered_json;

namespace {

/// Numbered draws of one seed.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : seed_(seed) {}
  /// 0 to sides − 1.
  std::size_t roll(std::size_t sides) {
    return random_block({seed_, 0, next_++})[0] % static_cast<std::uint32_t>(sides);
  }
  bool one_in(std::size_t n) { return roll(n) == 0; }
  template <class T>
  const T& any(const std::vector<T>& of) {
    return of[roll(of.size())];
  }

 private:
  std::uint64_t seed_;
  std::uint64_t next_ = 0;
};

/// Writes a random document in a random layout. Every key, number and text holds a number of its
/// own, so that each can be found again in the text and in the tree.
class Author {
 public:
  explicit Author(Dice& dice) : dice_(dice) {
    newline_ = dice.one_in(3) ? "\r\n" : "\n";
    step_ = dice.any<std::string>({"  ", "    ", "\t", ""});
    pad_ = dice.any<std::string>({"", " "});
    colon_ = dice.any<std::string>({": ", ":", " : "});
    one_line_ = dice.one_in(5);
    commas_first = dice.one_in(8);
  }

  std::string document() {
    std::string text = dice_.one_in(10) ? "\xEF\xBB\xBF" : "";
    if (dice_.one_in(10)) text += newline_;
    text += value(0, true);
    return text + (dice_.one_in(4) ? "" : newline_);
  }

  std::string tag() { return std::to_string(next_++); }

  bool commas_first = false;

 private:
  std::string value(std::size_t depth, bool is_member) {
    const std::size_t kind = depth == 0 ? 0 : dice_.roll(depth < 4 ? 10 : 6);
    if (depth == 0 || kind >= 8) return group('{', '}', depth);
    if (kind >= 6) return group('[', ']', depth);
    // Values without a number of their own only stand behind a key that has one.
    if (is_member && kind == 5)
      return dice_.any<std::string>({"null", "true", "false", "{}", "[]", "{ }", "[ ]"});
    if (kind >= 3)
      return dice_.any<std::string>({"", "-"}) + tag() +
             dice_.any<std::string>({"", ".0", ".50", "e2", "E+2", "e-2", ".125e+1"});
    return "\"s" + tag() +
           dice_.any<std::string>({"", "}", "]", ",", ":", "{ [", "\xC3\xA9", "\\u00e9", "\\\"",
                                   "\\\\", "\\n", "\\/", "\\ud83d\\ude00", "\xF0\x9F\x98\x80"}) +
           '"';
  }

  std::string group(char open, char close, std::size_t depth) {
    const std::size_t count = depth == 0 ? dice_.roll(6) : 1 + dice_.roll(4);
    if (count == 0) return std::string(1, open) + close;
    const bool on_one_line = one_line_ || in_one_line_ || dice_.one_in(3);
    const bool was = in_one_line_;
    in_one_line_ = on_one_line;
    const auto line = [&](std::size_t level) {
      std::string white = newline_;
      if (dice_.one_in(12)) white += newline_;
      for (std::size_t i = 0; i < level; ++i) white += step_;
      return white;
    };
    std::string text(1, open);
    for (std::size_t i = 0; i < count; ++i) {
      if (i > 0 && !on_one_line && commas_first) text += line(depth + 1);
      if (i > 0) text += ',';
      if (on_one_line)
        text += i == 0 ? pad_ : " ";
      else
        text += i > 0 && (commas_first || dice_.one_in(8)) ? " " : line(depth + 1);
      if (open == '{')
        text += "\"k" + tag() + dice_.any<std::string>({"", " {,", "/~"}) + '"' + colon_;
      text += value(depth + 1, open == '{');
    }
    in_one_line_ = was;
    return text + (on_one_line ? pad_ : line(depth)) + close;
  }

  Dice& dice_;
  std::string newline_;
  std::string step_;
  std::string pad_;
  std::string colon_;
  bool one_line_ = false;
  bool in_one_line_ = false;
  std::size_t next_ = 100000;
};

/// The numbers of all keys, numbers and texts in the order of the document.
void collect_tags(const ordered_json& value, std::vector<std::string>& tags) {
  if (value.is_string()) tags.push_back(value.get<std::string>().substr(1, 6));
  if (value.is_number()) {
    // The spellings above scale by 100, 1 or 1/100.
    double size = std::abs(value.get<double>());
    while (size >= 1e6) size /= 10;
    while (size < 1e5) size *= 10;
    tags.push_back(std::to_string(static_cast<long>(size + 1e-6)));
  }
  for (const auto& item : value.items()) {
    if (!value.is_structured()) break;
    if (value.is_object()) tags.push_back(item.key().substr(1, 6));
    collect_tags(item.value(), tags);
  }
}
std::vector<std::string> tags_of(const ordered_json& value) {
  std::vector<std::string> tags;
  collect_tags(value, tags);
  return tags;
}

std::vector<ordered_json::json_pointer> groups_of(const ordered_json& tree) {
  std::vector<ordered_json::json_pointer> groups;
  const auto walk = [&](const auto& self, const ordered_json& value,
                        const ordered_json::json_pointer& here) -> void {
    groups.push_back(here);
    std::size_t index = 0;
    for (const auto& item : value.items()) {
      const auto below = value.is_object() ? here / item.key() : here / index;
      if (item.value().is_structured()) self(self, item.value(), below);
      ++index;
    }
  };
  walk(walk, tree, ordered_json::json_pointer());
  return groups;
}

/// A random change of a tree, and what it touches.
struct Change {
  bool resized_array = false;
  std::set<std::string> touched;
  std::vector<std::string> order;  ///< all numbers in the order of the text
};

void change(ordered_json& tree, Dice& dice, Author& author, Change& made) {
  const auto groups = groups_of(tree);
  const ordered_json::json_pointer where = groups[dice.roll(groups.size())];
  ordered_json& group = tree[where];
  const auto touch = [&](const std::vector<std::string>& tags) {
    made.touched.insert(tags.begin(), tags.end());
  };
  const auto fresh = [&]() -> ordered_json {
    switch (dice.roll(5)) {
      case 0:
        return std::stoi(author.tag()) * 0.5;
      case 1:
        return "n" + author.tag() + "\"\xC3\xA9\n";
      case 2:
        return {{"k" + author.tag(), std::stoi(author.tag())}, {"k" + author.tag(), nullptr}};
      case 3:
        return ordered_json::array({std::stoi(author.tag()), "n" + author.tag()});
      default:
        return std::stoi(author.tag());
    }
  };
  const std::size_t size = group.size();
  const std::size_t at = size == 0 ? 0 : dice.roll(size);
  const std::size_t deed = size == 0 ? 0 : dice.roll(3);
  // An edit shows on the line of the key it is under, and on those of its two neighbours where
  // they share one with it.
  if (!where.empty()) {
    auto above = where;
    std::string key = above.back();
    while (!above.empty() && tree[above.parent_pointer()].is_array()) {
      above.pop_back();
      key = above.empty() ? "" : above.back();
    }
    if (!key.empty()) touch({key.substr(1, 6)});
  }
  std::vector<std::vector<std::string>> kids;
  for (const auto& item : group.items()) {
    kids.push_back(tags_of(item.value()));
    if (group.is_object()) kids.back().insert(kids.back().begin(), item.key().substr(1, 6));
  }
  const auto touch_neighbours = [&](std::size_t left, std::size_t right) {
    if (left < size && !kids[left].empty()) touch({kids[left].back()});
    if (right < size && !kids[right].empty()) touch({kids[right].front()});
  };
  // A group that goes draws together what still stands before and behind it.
  const auto touch_around = [&](const std::vector<std::string>& tags) {
    bool passed = false;
    std::string before;
    for (const std::string& tag : made.order) {
      const bool goes = std::find(tags.begin(), tags.end(), tag) != tags.end();
      if (goes && !passed && !before.empty()) touch({before});
      passed = passed || goes;
      if (goes || made.touched.count(tag) > 0) continue;
      if (passed) return touch({tag});
      before = tag;
    }
  };
  if (deed == 0) {  // insert
    if (group.is_object()) {
      touch_neighbours(size - 1, size);
      group["k" + author.tag()] = fresh();
    } else {
      touch_neighbours(at - 1, at);
      group.insert(group.begin() + static_cast<std::ptrdiff_t>(at), fresh());
      made.resized_array = true;
    }
  } else if (deed == 1) {  // erase
    touch(kids[at]);
    touch_neighbours(at - 1, at + 1);
    if (size == 1) touch_around(kids[at]);
    made.resized_array = made.resized_array || group.is_array();
    group.erase(std::next(group.begin(), static_cast<std::ptrdiff_t>(at)));
  } else {  // replace
    touch(kids[at]);
    if (group.is_array()) touch_neighbours(at - 1, at + 1);
    touch_around(kids[at]);
    *std::next(group.begin(), static_cast<std::ptrdiff_t>(at)) = fresh();
  }
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

/// Without the comma a line gains or loses when it is no longer, or becomes, the last.
std::string without_comma(std::string line) {
  line.erase(line.find_last_not_of("\r ") + 1);
  if (!line.empty() && line.back() == ',') line.pop_back();
  return line;
}

/// The first line of `before` that holds no touched number and is not in `after`, in its order.
std::string lost_line(const std::string& before, const std::string& after,
                      const std::vector<std::string>& tags, const std::set<std::string>& touched) {
  const std::vector<std::string> left = lines_of(after);
  auto from = left.begin();
  for (const std::string& line : lines_of(before)) {
    const auto holds = [&](const std::string& tag) { return line.find(tag) != std::string::npos; };
    if (std::none_of(tags.begin(), tags.end(), holds)) continue;  // brackets only
    if (std::any_of(touched.begin(), touched.end(), holds)) continue;
    from = std::find_if(from, left.end(), [&](const std::string& other) {
      return without_comma(other) == without_comma(line);
    });
    if (from == left.end()) return line;
  }
  return "";
}

std::size_t changed_lines(const std::string& before, const std::string& after) {
  const std::vector<std::string> a = lines_of(before);
  const std::vector<std::string> b = lines_of(after);
  if (a.size() != b.size()) return std::string::npos;
  std::size_t changed = 0;
  for (std::size_t i = 0; i < a.size(); ++i) changed += a[i] == b[i] ? 0U : 1U;
  return changed;
}

/// `text` with the value at a pointer set.
std::string with(const std::string& text, const char* pointer, const ordered_json& value) {
  ordered_json tree = ordered_json::parse(text);
  tree[ordered_json::json_pointer(pointer)] = value;
  return edited_json(text, tree);
}
/// `text` without the member or element at a pointer.
std::string without(const std::string& text, const char* pointer) {
  ordered_json tree = ordered_json::parse(text);
  const ordered_json::json_pointer where(pointer);
  ordered_json& group = tree[where.parent_pointer()];
  if (group.is_array())
    group.erase(std::stoul(where.back()));
  else
    group.erase(where.back());
  return edited_json(text, tree);
}

}  // namespace

TEST_CASE("1 000 random documents and edits: the values are the wanted ones, other lines stay") {
  std::size_t lines_checked = 0;
  constexpr std::uint64_t seeds = 1000;
  for (std::uint64_t seed = 0; seed < seeds; ++seed) {
    Dice dice(seed);
    Author author(dice);
    const std::string text = author.document();
    INFO("seed " << seed << "\n" << text);
    REQUIRE_NOTHROW(parse_json(text, "random"));
    const ordered_json tree = ordered_json::parse(text);
    REQUIRE(edited_json(text, tree) == text);

    ordered_json wanted = tree;
    Change made{false, {}, tags_of(tree)};
    const std::size_t changes = 1 + dice.roll(3);
    for (std::size_t i = 0; i < changes; ++i) change(wanted, dice, author, made);
    const std::string edited = edited_json(text, wanted);
    INFO("wanted " << wanted.dump() << "\n" << edited);
    REQUIRE_NOTHROW(parse_json(edited, "edited"));
    REQUIRE(json::parse(edited) == json::parse(wanted.dump()));
    REQUIRE(edited_json(edited, wanted) == edited);
    if (text.find("\r\n") != std::string::npos)
      REQUIRE(std::count(edited.begin(), edited.end(), '\n') ==
              std::count(edited.begin(), edited.end(), '\r'));

    // Arrays are matched from both ends: between two changes of one its elements may move.
    if (author.commas_first || (made.resized_array && changes > 1)) continue;
    REQUIRE(lost_line(text, edited, tags_of(tree), made.touched).empty());
    lines_checked += lines_of(text).size();
  }
  CHECK(lines_checked > 3000);
}

TEST_CASE("a changed number of a shipped recipe changes one line, and back gives the same bytes") {
  std::size_t numbers = 0;
  for (const auto& file : std::filesystem::directory_iterator(test::source_path("recipes"))) {
    if (file.path().extension() != ".json") continue;
    INFO(file.path());
    const std::string text = test::read_text(file.path().string());
    const ordered_json flat = ordered_json::parse(text).flatten();
    for (const auto& [pointer, value] : flat.items()) {
      if (!value.is_number()) continue;
      INFO(pointer);
      const std::string edited = with(text, pointer.c_str(), value.get<double>() + 0.125);
      CHECK(changed_lines(text, edited) == 1);
      CHECK(json::parse(edited).flatten()[pointer] == value.get<double>() + 0.125);
      ++numbers;
    }
  }
  CHECK(numbers > 100);
}

TEST_CASE("a value keeps the spelling of its author unless it changes") {
  const std::string text = "{ \"a\": 0.40, \"b\": 1e2, \"c\": \"\\u00e9\\/\" }\n";
  CHECK(with(text, "/a", 0.4) == text);
  CHECK(with(text, "/b", 100) == text);
  CHECK(with(text, "/c", "\xC3\xA9/") == text);
  CHECK(with(text, "/a", 12.0) == "{ \"a\": 12, \"b\": 1e2, \"c\": \"\\u00e9\\/\" }\n");
  CHECK(with("7", "", 8) == "8");
  CHECK(with("\xEF\xBB\xBF 7\n", "", "x") == "\xEF\xBB\xBF \"x\"\n");
}

TEST_CASE("a new member is laid out as its siblings are") {
  CHECK(with("{}", "/a", 1) == "{\"a\": 1}");
  CHECK(with("{\"a\":{}}", "/a/b", 1) == "{\"a\":{\"b\":1}}");
  CHECK(with("{\"a\":1,\"b\":2}", "/c", 3) == "{\"a\":1,\"b\":2,\"c\":3}");
  CHECK(with("{ \"a\": 1 }", "/b", json::array({1, 2})) == "{ \"a\": 1, \"b\": [1, 2] }");
  CHECK(with("{\n  \"a\": 1\n}\n", "/b", 2) == "{\n  \"a\": 1,\n  \"b\": 2\n}\n");
  CHECK(with("{\r\n\t\"a\": 1\r\n}\r\n", "/b", {{"c", 2}}) ==
        "{\r\n\t\"a\": 1,\r\n\t\"b\": {\r\n\t\t\"c\": 2\r\n\t}\r\n}\r\n");
  CHECK(with("{\n  \"a\": { \"x\": 1 }\n}\n", "/b", {{"c", 2}}) ==
        "{\n  \"a\": { \"x\": 1 },\n  \"b\": { \"c\": 2 }\n}\n");
  CHECK(with("{\n    \"a\": [\n        1\n    ]\n}\n", "/a/1", 2) ==
        "{\n    \"a\": [\n        1,\n        2\n    ]\n}\n");
  CHECK(with("{ \"a\": 1\n, \"b\": 2\n}", "/c", 3) == "{ \"a\": 1\n, \"b\": 2\n, \"c\": 3\n}");
  CHECK(with("{\"a\": 1}", "/\xC3\xA9 \"", true) == "{\"a\": 1, \"\xC3\xA9 \\\"\": true}");
  // Too long for a line of its own.
  const std::string words(60, 'x');
  CHECK(with("{\n \"a\": [1]\n}", "/b", {{"c", words}, {"d", words}}) ==
        "{\n \"a\": [1],\n \"b\": {\n  \"c\": \"" + words + "\",\n  \"d\": \"" + words +
            "\"\n }\n}");
}

TEST_CASE("a new member stands behind the one it follows") {
  const std::string text = "{\n  \"a\": 1,\n  \"c\": 3\n}\n";
  CHECK(edited_json(text, {{"a", 1}, {"b", 2}, {"c", 3}}) ==
        "{\n  \"a\": 1,\n  \"b\": 2,\n  \"c\": 3\n}\n");
  CHECK(edited_json(text, {{"z", 0}, {"c", 3}, {"a", 1}}) ==
        "{\n  \"z\": 0,\n  \"a\": 1,\n  \"c\": 3\n}\n");
  CHECK(edited_json("{ \"a\": 1, \"c\": 3 }", {{"z", 0}, {"a", 1}, {"b", 2}, {"c", 3}}) ==
        "{ \"z\": 0, \"a\": 1, \"b\": 2, \"c\": 3 }");
  CHECK(edited_json("[1, 3]", {1, 2, 3}) == "[1, 2, 3]");
}

TEST_CASE("a member leaves with its line and its comma") {
  const std::string text = "{\n  \"a\": 1,\n  \"b\": { \"x\": 1, \"y\": 2 },\n  \"c\": [3, 4]\n}\n";
  CHECK(without(text, "/a") == "{\n  \"b\": { \"x\": 1, \"y\": 2 },\n  \"c\": [3, 4]\n}\n");
  CHECK(without(text, "/b") == "{\n  \"a\": 1,\n  \"c\": [3, 4]\n}\n");
  CHECK(without(text, "/c") == "{\n  \"a\": 1,\n  \"b\": { \"x\": 1, \"y\": 2 }\n}\n");
  CHECK(without(text, "/b/x") == "{\n  \"a\": 1,\n  \"b\": { \"y\": 2 },\n  \"c\": [3, 4]\n}\n");
  CHECK(without(text, "/c/0") ==
        "{\n  \"a\": 1,\n  \"b\": { \"x\": 1, \"y\": 2 },\n  \"c\": [4]\n}\n");
  CHECK(without("{ \"a\": 1 }", "/a") == "{}");
  CHECK(without("{\"a\": {\n  \"b\": 1\n}}", "/a/b") == "{\"a\": {}}");
  CHECK(edited_json("{ \"a\": 1, \"b\": 2 }", {{"c", 3}}) == "{ \"c\": 3 }");
  CHECK(edited_json("[1, 2]", {{"c", 3}}) == "{\"c\": 3}");
}
