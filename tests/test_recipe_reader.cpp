#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "catch.hpp"
#include "gelwright/error.hpp"
#include "gelwright/read.hpp"
#include "read/json_reader.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::read_text;
using gelwright::test::source_path;

namespace {

/// What the reader, and the first step of every command after it, say about a document.
std::string complaint(const std::string& text, const std::string& document = "") {
  try {
    const Recipe recipe = read_recipe(text, document);
    inputs_of(recipe);
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

/// A small recipe with these members added.
std::string small(const std::string& members) {
  return std::string(R"({"format": "gelwright/recipe-1", "name": "n", "form": "pouch",
  "solids": [{"ingredient": "fructose", "mass_g": 40},
             {"ingredient": "sodium alginate", "mass_g": 0.3}],
  "water": {"fraction_of_total": 0.4})") +
         (members.empty() ? "" : ",\n") + members + "}";
}

std::string small_complaint(const std::string& members) {
  return complaint(small(members));
}

Recipe small_recipe(const std::string& members) {
  return read_recipe(small(members), "small.json");
}

/// tests/data/bad_expected.txt: "== name", then the message up to the next name.
std::map<std::string, std::string> expected_messages() {
  std::istringstream lines(read_text(source_path("tests/data/bad_expected.txt")));
  std::map<std::string, std::string> messages;
  std::string* message = nullptr;
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("== ", 0) == 0)
      message = &messages[line.substr(3)];
    else if (message != nullptr)
      *message += (message->empty() ? "" : "\n") + line;
  }
  return messages;
}

void write_expected_messages() {
  std::map<std::string, std::string> messages;
  for (const auto& entry : std::filesystem::directory_iterator(source_path("tests/data"))) {
    const std::string name = entry.path().filename().string();
    if (name.rfind("bad_", 0) == 0 && entry.path().extension() == ".json")
      messages[name] = complaint(read_text(entry.path().string()));
  }
  std::ofstream out(source_path("tests/data/bad_expected.txt"), std::ios::binary);
  out << "What read_recipe must say about each bad_*.json, word for word. Read and judged by hand, "
         "then kept.\n\n";
  for (const auto& [name, message] : messages) out << "== " << name << '\n' << message << '\n';
}

std::string repeated(const std::string& piece, std::size_t times) {
  std::string all;
  for (std::size_t i = 0; i < times; ++i) all += piece;
  return all;
}

}  // namespace

// GELWRIGHT_REFRESH=1 writes the words anew: read the difference.
TEST_CASE("each bad document is refused in exactly the words kept for it") {
  if (std::getenv("GELWRIGHT_REFRESH") != nullptr) write_expected_messages();
  const std::map<std::string, std::string> expected = expected_messages();
  std::set<std::string> seen;
  for (const auto& entry : std::filesystem::directory_iterator(source_path("tests/data"))) {
    const std::string name = entry.path().filename().string();
    if (name.rfind("bad_", 0) != 0 || entry.path().extension() != ".json") continue;
    seen.insert(name);
    INFO(name);
    REQUIRE(expected.count(name) == 1);
    CHECK(complaint(read_text(entry.path().string())) == expected.at(name));
  }
  CHECK(seen.size() >= 45);
  for (const auto& [name, message] : expected) {
    INFO(name);
    CHECK(seen.count(name) == 1);
  }
}

TEST_CASE("the document's name stands before every problem") {
  CHECK(complaint("{}", "kitchen.json") ==
        "kitchen.json: /format: this key is missing; add \"format\", as in \"format\": "
        "\"gelwright/recipe-2\"\n"
        "kitchen.json: /name: this key is missing; add \"name\", as in \"name\": \"Tarn Loop thick "
        "pouch\"\n"
        "kitchen.json: /form: this key is missing; add \"form\", as in \"form\": \"pouch\"\n"
        "kitchen.json: /solids: this key is missing; add \"solids\", as in \"solids\": "
        "[{\"ingredient\": \"fructose\", \"mass_g\": 40}]\n"
        "kitchen.json: /water: this key is missing; add \"water\", as in \"water\": "
        "{\"fraction_of_total\": 0.333}");
}

TEST_CASE("all mistakes are reported at once, each at its place") {
  CHECK(complaint(R"({
    "format": "gelwright/recipe-1",
    "name": "five mistakes",
    "form": "pouch",
    "solids": [{"ingredient": "maltodextrine DE 12", "mass_g": -1}],
    "water": {"percent": 50},
    "tap": {"calcium_mg_per_l": "23"},
    "batch": {"servings": 0, "servngs": 2}
  })") ==
        "/solids/0/mass_g: -1 is not possible here; give a number of at least 0.000001 and at most "
        "1000000\n"
        "/solids/0/ingredient: ingredient \"maltodextrine DE 12\" is not known; did you mean "
        "\"maltodextrin DE 12\", \"maltodextrin DE 10\" or \"maltodextrin DE 15\"?\n"
        "/water/percent: does not say a share of what; write {\"mass_g\": 48} for grams in one "
        "serving, {\"fraction_of_total\": 0.333} for 33.3 g in 100 g of gel, or {\"per_g_solids\": "
        "0.50} for 0.50 g to each g of solids\n"
        "/tap/calcium_mg_per_l: expected a number, found text; write a plain number; the unit is "
        "already in the key \"calcium_mg_per_l\"\n"
        "/batch/servings: 0 is not possible here; give a whole number of at least 1 and at most "
        "100000\n"
        "/batch/servngs: this key is not known; remove it");
}

TEST_CASE("one mistake is one problem, even where a value is read twice") {
  CHECK(small_complaint(R"("calcium": {"ingredient": "calcium sulfate dihydrate", "mass_g": 0.1,
                           "when": 3})") ==
        "/calcium/when: expected text, found a number; write a short text in double quotes");
  CHECK(small_complaint(R"("prices": {"currency": 3, "packs": []},
                           "compare_with": {"name": "x", "price": 2, "carbohydrate_g": 40})") ==
        "/prices/currency: expected text, found a number; write a short text in double quotes");
  CHECK(small_complaint(R"("tap": "t", "waters": {"t": {"ph": 99},
                           "u": {"blend": [{"water": "t", "share": 1}]}})") ==
        "/waters/t/ph: 99 is not possible here; give a number of at least 0 and at most 14");
}

TEST_CASE("a mistake in something unused is still a mistake") {
  CHECK(small_complaint(R"("waters": {"spare": {"ph": 99}})") ==
        "/waters/spare/ph: 99 is not possible here; give a number of at least 0 and at most 14");
  CHECK(small_complaint(R"("define": {"spare": {"kind": "mix", "label":
                           {"per_g": 72, "carbohydrate_g": 73}}})") ==
        "/define/spare/label/carbohydrate_g: 73 is not possible here; give a number of at least 0 "
        "and at most 72");
}

TEST_CASE("a suggestion is made for a near miss only") {
  CHECK(small_complaint(R"("proces": {})") ==
        "/proces: this key is not known; did you mean \"process\" or \"prices\"?");
  CHECK(small_complaint(R"("velocity": 3)") == "/velocity: this key is not known; remove it");
  // "water_percent" is always refused, so it must not be suggested.
  CHECK(complaint(R"({"format": "gelwright/recipe-1", "name": "n", "form": "pouch",
    "solids": [{"ingredient": "fructose", "mass_g": 40}],
    "water": {"mass_g": 20, "water_percnt": 50}})") ==
        "/water/water_percnt: this key is not known; remove it");
}

TEST_CASE("pointers escape as in RFC 6901, section 5") {
  CHECK(escape_pointer("foo") == "foo");
  CHECK(escape_pointer("a/b") == "a~1b");
  CHECK(escape_pointer("c%d") == "c%d");
  CHECK(escape_pointer("m~n") == "m~0n");
  CHECK(escape_pointer("~1") == "~01");
  CHECK(small_complaint(R"("a/b": 1, "m~n": 8)") ==
        "/a~1b: this key is not known; remove it\n/m~0n: this key is not known; remove it");
}

TEST_CASE("control characters of a document do not reach the terminal") {
  CHECK(small_complaint("\"\\u001b[2J\": 1") == "/\\u001b[2J: this key is not known; remove it");
  const std::string c1 = small_complaint("\"note\": \"\\u009b2J\"");
  CHECK(c1 ==
        "/note: the text holds a line break or another control character; write a short text "
        "in double quotes");
  CHECK(small_complaint("\"note\": \"\u00a9 \u00fcber 5\u00a0g\"") == "accepted");
}

TEST_CASE("a number too large or a repeated key is found however deep it stands") {
  CHECK(complaint(R"({"a": [[], {"b": [1, {"c": 1e999}]}]})") ==
        "/a/1/b/1/c: the number is too large to be represented; check for a slipped exponent");
  CHECK(complaint(R"([1, -1e999])") ==
        "/1: the number is too large to be represented; check for a slipped exponent");
  CHECK(complaint(R"({"a": [[], {"b": [1, {"c/d": 1, "e": [2], "c/d": 3}]}]})") ==
        "/a/1/b/1/c~1d: this key appears twice; keep one of the two");
  // Every repetition, and no other mistake as long as it is unclear what the document says.
  CHECK(complaint(R"({"x": 1, "x": 2, "y": {"z": 1, "z": 2}})") ==
        "/x: this key appears twice; keep one of the two\n"
        "/y/z: this key appears twice; keep one of the two");
  CHECK(small_complaint(R"("limits": {"ph": {"at_least": 1e-999, "at_most": 4}})") == "accepted");
}

TEST_CASE("what is no number is not read as one") {
  for (const std::string word : {"NaN", "nan", "Infinity", "inf", "-Infinity", "-NaN"}) {
    INFO(word);
    const std::string said = complaint("{\"a\": " + word + "}");
    CHECK(said.rfind("not valid JSON at line 1, column ", 0) == 0);
    CHECK(said.find("write a finite number in digits") != std::string::npos);
  }
  CHECK(complaint("{info: 3}") ==
        "not valid JSON at line 1, column 2; look for a missing comma, quote or bracket just "
        "before it");
  CHECK(complaint("{\"a\": 12,345}") ==
        "not valid JSON at line 1, column 12; write decimals with a point: 0.5");
}

TEST_CASE("line and column count characters, from one") {
  CHECK(complaint("?").rfind("not valid JSON at line 1, column 1;", 0) == 0);
  CHECK(complaint("{\n\n  \"\u00fc\u00fc\u00fc\" 1}")
            .rfind("not valid JSON at line 3, column 9;", 0) == 0);
}

TEST_CASE("a document that is no recipe at all is refused quickly") {
  CHECK(complaint(" \n\t ") == "the document is empty; is it the right file?");
  CHECK(complaint(small("\"note\": \"" + std::string(2U << 20U, 'x') + "\"")) ==
        "the document is larger than 1 MiB; is it the right file?");
  CHECK(complaint(repeated("[", 1000000)) == "nested too deeply; a recipe needs only a few levels");
  CHECK(complaint(repeated("{\"a\":", 200000)) ==
        "nested too deeply; a recipe needs only a few levels");
  CHECK(complaint("3") == "expected a recipe object; start with {");
  CHECK(complaint("null") == "expected a recipe object; start with {");
  CHECK(complaint(small("") + std::string("\0 {", 3)) ==
        "the document holds a zero byte; save the file as UTF-8");
  CHECK(complaint(std::string("\xFF\xFE{\0}\0", 6)) ==
        "the document holds a zero byte; save the file as UTF-8");
}

TEST_CASE("references that grow without end are cut off, and shared ones are read once") {
  const auto chain = [](int length, const std::string& copies) {
    std::string waters;
    for (int i = 0; i < length; ++i)
      waters += "\"w" + std::to_string(i) + "\": {\"blend\": [" + copies + "{\"water\": \"w" +
                std::to_string(i + 1) + "\", \"share\": " + (copies.empty() ? "1" : "0.5") +
                "}]}, ";
    return "\"tap\": \"w0\", \"waters\": {" + waters + "\"w" + std::to_string(length) +
           "\": {\"calcium_mg_per_l\": 20, \"sodium_mg_per_l\": 1}}";
  };
  CHECK(small_complaint(chain(7, "")) == "accepted");
  CHECK(small_complaint(chain(8, "")) != "accepted");
  CHECK(small_complaint(chain(5000, "")) != "accepted");

  const Recipe shared = small_recipe(
      R"("tap": {"blend": [{"water": "a", "share": 0.5}, {"water": "b", "share": 0.5}]},
         "waters": {"a": {"blend": [{"water": "c", "share": 1}]},
                    "b": {"blend": [{"water": "c", "share": 1}]},
                    "c": {"hardness_mmol_per_l": 1}})");
  // Hand calculation: half and half of one water is that water; 3 Ca to 1 Mg, so 0.75 mmol/L.
  REQUIRE(shared.tap);
  CHECK_THAT(shared.tap->water.mg_per_l[Ion::calcium].value_or(0), near(0.75 * 40.078, 1e-9));
  std::set<std::string> once;
  for (const Assumption& each : shared.assumed) once.insert(each.what + each.value);
  CHECK(once.size() == shared.assumed.size());
}

TEST_CASE("a recipe is read as it was written") {
  const Recipe recipe = small_recipe(R"(
    "$schema": "../docs/recipe.schema.json",
    "acid": {"ingredient": "citric acid anhydrous", "additions_g": [0.2, 0.15, 0.05]},
    "tap": {"name": "valley", "calcium_mg_per_l": {"value": 23, "sd": 4}, "ph": 7.8},
    "batch": {"servings": 12, "loss_percent": 3, "scales": [
       {"name": "kitchen", "readability_g": 1, "capacity_g": 3000},
       {"name": "pocket", "readability_g": 0.01, "capacity_g": 200, "repeatability_g": 0.02}]},
    "avoid": ["gluten"])");
  CHECK(recipe.document == "small.json");
  CHECK(recipe.form == Form::pouch);
  REQUIRE(recipe.solids.size() == 2);
  CHECK(recipe.ingredients[recipe.solids[0].ingredient].name == "fructose");
  CHECK(recipe.solids[0].mass_g.value == 40);
  CHECK(recipe.water.basis == WaterBasis::fraction_of_total);
  CHECK(recipe.water.amount == 0.4);
  REQUIRE(recipe.acid);
  CHECK_THAT(recipe.acid->mass_g.value, near(0.4, 1e-12));
  CHECK(recipe.acid->additions_g.size() == 3);
  REQUIRE(recipe.tap);
  CHECK(recipe.tap->water.name == "valley");
  CHECK(recipe.tap->water.mg_per_l[Ion::calcium] == 23.0);
  CHECK(recipe.tap->sd.mg_per_l[Ion::calcium] == 4.0);
  CHECK(recipe.batch.servings == 12);
  REQUIRE(recipe.batch.scales.size() == 2);
  CHECK(recipe.batch.scales[1].repeatability_g == 0.02);
  CHECK(!recipe.batch.scales[0].repeatability_g);
  CHECK(recipe.avoid == std::vector<std::string>{"gluten"});
  // What the guide states as defaults.
  CHECK(recipe.batch.headroom_percent == 20);
  CHECK(recipe.batch.dose_tolerance_percent == 5);
}

TEST_CASE("a byte order mark and any UTF-8 name are fine") {
  std::string text = small("\"note\": \"Gr\u00fc\u00dfe \u2713\"");
  CHECK(read_recipe("\xEF\xBB\xBF" + text, "").note == "Gr\u00fc\u00dfe \u2713");
}

TEST_CASE("two spellings of one ingredient are one ingredient") {
  CHECK(complaint(R"({"format": "gelwright/recipe-1", "name": "n", "form": "pouch",
    "solids": [{"ingredient": "maltodextrin DE 12", "mass_g": 40},
               {"ingredient": "maltodextrin DE 12.0", "mass_g": 40}],
    "water": {"mass_g": 20}})") ==
        "/solids/1/ingredient: \"maltodextrin DE 12\" is listed twice; add the two masses "
        "together");
}

TEST_CASE("a label's salt is 2.5 times its sodium (Regulation (EU) 1169/2011, Annex I)") {
  const auto sodium_mol_per_g = [](const std::string& figure) {
    const Recipe recipe = read_recipe(
        R"({"format": "gelwright/recipe-1", "name": "n", "form": "pouch", "define": {"m": {"kind":
        "mix", "label": {"per_g": 72, "carbohydrate_g": 68, )" +
            figure +
            R"(}}}, "solids": [{"ingredient": "m", "mass_g": 72}], "water": {"mass_g": 20}})",
        "");
    return recipe.ingredients.at(0).per_g.dissolved(Component::sodium);
  };
  const double by_sodium = sodium_mol_per_g("\"sodium_mg\": 250");
  CHECK_THAT(by_sodium, near(0.250 / 22.990 / 72, 1e-12));  // 22.990 g/mol: IUPAC 2021
  CHECK_THAT(sodium_mol_per_g("\"salt_g\": 0.625"), near(by_sodium, 1e-12));
}

TEST_CASE("bounds hold on both sides of their edge") {
  const auto batch = [](const std::string& members) {
    return small_complaint("\"batch\": {" + members + "}") == "accepted";
  };
  CHECK(batch("\"servings\": 100000"));
  CHECK_FALSE(batch("\"servings\": 100001"));
  CHECK(batch("\"loss_percent\": 90"));
  CHECK_FALSE(batch("\"loss_percent\": 90.1"));
  const std::string scale =
      R"(, "scales": [{"name": "s", "readability_g": 1, "capacity_g": 3000}])";
  CHECK(batch("\"bowl_g\": 2999" + scale));
  CHECK_FALSE(batch("\"bowl_g\": 2999.5" + scale));

  // 4 German degrees are 0.7133 mmol/L; calcium may stand a tenth above it: 31.44 mg/L.
  const auto tap = [](const std::string& calcium) {
    return small_complaint("\"tap\": {\"hardness_german_degrees\": 4, \"calcium_mg_per_l\": " +
                           calcium + "}") == "accepted";
  };
  CHECK(tap("31.4"));
  CHECK_FALSE(tap("31.5"));

  const auto caffeine = [](const std::string& mg) {
    return small_complaint(R"("define": {"m": {"kind": "mix", "label": {"per_g": 10,
                              "carbohydrate_g": 9, "caffeine_mg": )" +
                           mg + "}}}") == "accepted";
  };
  CHECK(caffeine("200"));
  CHECK_FALSE(caffeine("201"));

  const auto shares = [](const std::string& second) {
    return small_complaint(R"("tap": {"blend": [{"water": {"calcium_mg_per_l": 9}, "share": 0.4},
                              {"water": "demineralised water", "share": )" +
                           second + "}]}") == "accepted";
  };
  CHECK(shares("0.6"));
  CHECK(shares("0.6000005"));
  CHECK_FALSE(shares("0.60001"));
}

TEST_CASE("a water report is read alone, blended, or out of a recipe") {
  CHECK(read_water_report(R"({"calcium_mmol_per_l": 0.5})", "")
            .water.mg_per_l[Ion::calcium]
            .value_or(0) == 0.5 * 40.078);  // IUPAC 2021
  CHECK_THAT(read_water_report(R"({"blend": [{"water": {"calcium_mg_per_l": 60}, "share": 0.25},
               {"water": "demineralised water", "share": 0.75}]})",
                               "")
                 .water.mg_per_l[Ion::calcium]
                 .value_or(0),
             near(15, 1e-12));
  CHECK(read_water_report(small("\"tap\": {\"calcium_mg_per_l\": 7}"), "")
            .water.mg_per_l[Ion::calcium] == 7.0);
  const auto said = [](const std::string& text) -> std::string {
    try {
      read_water_report(text, "w.json");
    } catch (const InputError& error) {
      return error.what();
    }
    return "accepted";
  };
  CHECK(said("[]") == "w.json: expected a water report; start with {");
  CHECK(said(R"({"calcium": 3})") ==
        "w.json: /calcium: its unit is missing; write it in quotes with its unit, as \"23 mg/L\"");
}

TEST_CASE("the schema names exactly the built-in ingredients") {
  const auto schema = nlohmann::json::parse(read_text(source_path("docs/recipe.schema.json")));
  const std::map<Kind, std::string> lists = {
      {Kind::sugar, "sugars"}, {Kind::syrup, "syrups"}, {Kind::gum, "gums"},
      {Kind::salt, "salts"},   {Kind::acid, "acids"},   {Kind::calcium_salt, "calcium_salts"}};
  for (const auto& [kind, list] : lists) {
    INFO(list);
    std::vector<std::string> built_in;
    for (const Ingredient& each : builtin_ingredients())
      if (each.kind == kind) built_in.push_back(each.name);
    CHECK(schema.at("$defs").at("built_in_" + list).at("enum").get<std::vector<std::string>>() ==
          built_in);
  }
  for (const Ingredient& each : builtin_ingredients()) CHECK(lists.count(each.kind) == 1);
}
