// The work a document can ask for is bounded: no document within 1 MiB takes long to refuse.
#include <ctime>
#include <string>

#include "catch.hpp"
#include "gelwright/error.hpp"
#include "gelwright/read.hpp"

using namespace gelwright;

namespace {

/// Processor time the call takes, s: other programs on the machine do not count.
template <class Call>
double seconds_of(Call call) {
  const std::clock_t start = std::clock();
  call();
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

// About ten times what the worst of them takes in a plain build, so that a sanitized one passes;
// without bounds the same documents take from 6 s to minutes.
constexpr double longest_s = 5;

std::vector<Problem> problems_of(const std::string& text, bool is_bench = false) {
  try {
    if (is_bench)
      read_bench(text, "");
    else
      read_recipe(text, "");
  } catch (const InputError& error) {
    return error.problems();
  }
  return {};
}

/// Entries made by `entry` from their number, with commas between.
template <class Entry>
std::string list_of(std::size_t count, Entry entry) {
  std::string list;
  for (std::size_t i = 0; i < count; ++i) list += (i > 0 ? "," : "") + entry(std::to_string(i));
  return list;
}

std::string recipe(const std::string& solids, const std::string& more) {
  return R"({"format": "gelwright/recipe-1", "name": "n", "form": "pouch", "solids": [)" + solids +
         R"(], "water": {"mass_g": 40})" + (more.empty() ? "" : ", " + more) + "}";
}

const std::string fructose = R"({"ingredient": "fructose", "mass_g": 40})";

/// A name of 60 letters that differs from its neighbours by its number only.
std::string long_name(const std::string& number) {
  return number + std::string(60 - number.size(), 'x');
}

std::string solid(const std::string& name) {
  return "{\"ingredient\": \"" + name + "\", \"mass_g\": 1}";
}

}  // namespace

TEST_CASE("near misses of long names in long lists are refused in a moment") {
  const auto define = [](std::size_t count) {
    return "\"define\": {" +
           list_of(count,
                   [](const std::string& i) {
                     return '"' + long_name(i) + R"(": {"kind": "mix", "water_fraction": 1})";
                   }) +
           '}';
  };
  const auto misspelt = [](const std::string& i) { return solid(long_name(i) + 'y'); };
  const std::string as_long_as_possible = recipe(list_of(4000, misspelt), define(4500));
  const std::string just_allowed = recipe(list_of(100, misspelt), define(1000));
  REQUIRE(as_long_as_possible.size() < (1U << 20U));
  CHECK(seconds_of([&] { CHECK_FALSE(problems_of(as_long_as_possible).empty()); }) < longest_s);
  CHECK(seconds_of([&] { CHECK_FALSE(problems_of(just_allowed).empty()); }) < longest_s);
}

TEST_CASE("definitions built on one another do not multiply") {
  std::string define =
      "\"define\": {\"c\": {\"kind\": \"mix\", \"contains\": [" +
      list_of(5000,
              [](const std::string& i) {
                return "{\"ingredient\": \"maltodextrin DE 3." + i + "\", \"fraction\": 1e-5}";
              }) +
      "]}";
  for (const std::string b : {"b0", "b1", "b2", "b3"})
    define += ", \"" + b + "\": {\"kind\": \"mix\", \"contains\": [" +
              list_of(600,
                      [](const std::string&) {
                        return std::string(R"({"ingredient": "c", "fraction": 1e-4})");
                      }) +
              "]}";
  define += ", \"a\": {\"kind\": \"mix\", \"contains\": [" +
            list_of(9000,
                    [](const std::string& i) {
                      return "{\"ingredient\": \"b" + std::string(1, "0123"[i.size() % 4]) +
                             "\", \"fraction\": 1e-5}";
                    }) +
            "]}}";
  CHECK(seconds_of([&] { CHECK_FALSE(problems_of(recipe(fructose, define)).empty()); }) <
        longest_s);
}

TEST_CASE("waters by the thousand are refused in a moment") {
  const std::string waters =
      "\"waters\": {" +
      list_of(8000, [](const std::string& i) { return '"' + long_name(i) + "\": {\"ph\": 7}"; }) +
      "}, \"tap\": {\"blend\": [" +
      list_of(3500,
              [](const std::string& i) {
                return "{\"water\": \"" + long_name(i) + "z\", \"share\": 0}";
              }) +
      "]}";
  CHECK(seconds_of([&] { CHECK_FALSE(problems_of(recipe(fructose, waters)).empty()); }) <
        longest_s);
}

TEST_CASE("objects of objects are read in a time that grows with their number only") {
  const std::string waters =
      "\"waters\": {" + list_of(80000, [](const std::string& i) { return '"' + i + "\": {}"; }) +
      '}';
  CHECK(seconds_of([&] { CHECK_FALSE(problems_of(recipe(fructose, waters)).empty()); }) <
        longest_s);
  const auto many = [](const std::string&) {
    return '[' + std::string("{") +
           list_of(1000, [](const std::string& i) { return '"' + i + "\": {}"; }) + "}]";
  };
  const std::string just_allowed = recipe(fructose, "\"avoid\": [" + list_of(90, many) + ']');
  REQUIRE(just_allowed.size() < (1U << 20U));
  CHECK(seconds_of([&] { CHECK_FALSE(problems_of(just_allowed).empty()); }) < longest_s);
}

TEST_CASE("a sheet of more cups or columns than anybody reads is refused before it is fitted") {
  std::string rows = "cup,acid_g,ph\n";
  for (int i = 0; i < 20000; ++i) rows += std::to_string(i) + ",0.3,4.1\n";
  std::vector<Problem> problems = problems_of(rows, true);
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].what == "20000 cups");
  CHECK(problems[0].remedy == "keep at most 10000");

  const std::string columns =
      "cup,acid_g,ph," + list_of(60000, [](const std::string& i) { return "acid" + i; }) + '\n';
  CHECK(seconds_of([&] { problems = problems_of(columns, true); }) < longest_s);
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].where == "line 1");
  CHECK(problems[0].what == "60003 columns");
}

TEST_CASE("lists, sets of names and parts of parts have an end, and say which") {
  const auto what = [](const std::string& text) {
    const std::vector<Problem> problems = problems_of(text);
    return problems.empty()
               ? std::string("accepted")
               : problems[0].where + ": " + problems[0].what + "; " + problems[0].remedy;
  };
  const auto maltodextrin = [](const std::string& i) {
    return solid("maltodextrin DE 3.1" + i + "1");
  };
  CHECK(what(recipe(list_of(100, maltodextrin), "")) == "accepted");
  CHECK(what(recipe(list_of(101, maltodextrin), "")) ==
        "/solids: a list of 101 entries; keep at most 100");
  const auto waters = [](std::size_t count) {
    return "\"waters\": {" +
           list_of(count, [](const std::string& i) { return "\"w" + i + "\": {\"ph\": 7}"; }) + '}';
  };
  CHECK(what(recipe(fructose, waters(1000))) == "accepted");
  CHECK(what(recipe(fructose, waters(1001))) ==
        "/waters/w1000: more than 1000 keys in one object; is it the right file?");
  // Sixty parts each, no two alike.
  const auto mix = [](const std::string& name, const std::string& digit) {
    return '"' + name + R"(": {"kind": "mix", "contains": [)" +
           list_of(60,
                   [&](const std::string& i) {
                     return R"({"ingredient": "maltodextrin DE )" + digit + ".1" + i +
                            R"(1", "fraction": 0.001})";
                   }) +
           "]}";
  };
  CHECK(what(recipe(fructose, "\"define\": {" + mix("one", "4") + ", " + mix("two", "5") +
                                  R"(, "whole": {"kind": "mix", "contains":
          [{"ingredient": "one", "fraction": 0.5}, {"ingredient": "two", "fraction": 0.5}]}})")) ==
        "/define/whole/contains/1/ingredient: too many parts or allergens, those of its parts "
        "counted; keep at most 100");
}

TEST_CASE("twenty problems are listed, the rest is counted") {
  const auto unknown = [](std::size_t count) {
    return problems_of(recipe(
        fructose, list_of(count, [](const std::string& i) { return "\"key " + i + "\": 1"; })));
  };
  CHECK(unknown(20).size() == 20);
  const std::vector<Problem> many = unknown(332);
  REQUIRE(many.size() == 21);
  CHECK(many.back().what == "and 312 more");
  CHECK(many.back().remedy == "mend these first");
  CHECK(many.back().where.empty());
}
